//! What is short: all else follows from what there is of it.

use checks::{assert_close, starter};
use domain::formula::{ComponentId, Formula, ScaleError, Size};
use domain::units::{Grams, grams};
use proptest::prelude::*;
use records::starters;

/// A component's ingredient of that food.
fn place_of(formula: &Formula, component: u16, key: &str) -> (ComponentId, usize) {
    let id = ComponentId(component);
    let component = formula.component(id).expect("it has that component");
    let mut parts = component.ingredients.iter();
    let place = parts.position(|part| part.food.key == key);
    (id, place.expect("it has that ingredient"))
}

fn all_of(formula: &Formula, key: &str) -> f64 {
    let parts = formula.components.iter().flat_map(|it| &it.ingredients);
    let those = parts.filter(|part| part.food.key == key);
    those.map(|part| part.mass.get()).sum()
}

fn short(formula: &Formula, component: u16, key: &str, mass: Grams) -> Size {
    let (component, place) = place_of(formula, component, key);
    Size::Short {
        component,
        place,
        mass,
    }
}

#[test]
fn flour_that_is_short_is_short_for_the_poolish_too() {
    let loaf = starter("overnight-tin-loaf");
    // 150 g in the poolish and 350 g in the dough.
    for component in [1, 2] {
        let (id, place) = place_of(&loaf, component, "bread-flour");
        assert_eq!(loaf.needs(id, place), Some(grams(500.0)));
        let made = loaf
            .scaled(short(&loaf, component, "bread-flour", grams(380.0)))
            .expect("a smaller loaf");
        assert_close("flour", made.flour_mass().get(), 380.0, 1e-9);
        // 380 / 500 of 900 g.
        assert_close("dough", made.dough_mass().get(), 684.0, 1e-9);
        assert_eq!(made.pieces.count, 1);
        let by_flour = loaf.scaled(Size::Flour(grams(380.0)));
        assert_eq!(by_flour.as_ref(), Ok(&made));
    }
}

#[test]
fn egg_that_is_short_is_for_dough_and_wash() {
    // 60 g in the dough and 30 g in the wash; three eggs of 44 g are 132 g. By hand, with the number
    // of buns staying, 60 t + 30 t^(2/3) = 132 at t = 1.5347: 92.08 + 39.92.
    let buns = starter("plum-almond-buns");
    let (id, place) = place_of(&buns, 3, "egg");
    assert_eq!(buns.needs(id, place), Some(grams(90.0)));
    let made = buns
        .scaled(short(&buns, 3, "egg", grams(132.0)))
        .expect("larger buns");
    assert_close("egg", all_of(&made, "egg"), 132.0, 1e-9);
    assert_close("dough", made.dough_mass() / buns.dough_mass(), 1.5347, 2e-4);
    assert_eq!(made.pieces.count, buns.pieces.count);
}

#[test]
fn what_is_not_there_cannot_be_short() {
    let buns = starter("plum-almond-buns");
    for (component, place) in [(1, 99), (42, 0)] {
        let component = ComponentId(component);
        assert_eq!(buns.needs(component, place), None);
        let size = Size::Short {
            component,
            place,
            mass: grams(100.0),
        };
        let cause = buns.scaled(size).expect_err("it has no such ingredient");
        assert_eq!(cause, ScaleError::NoSuchIngredient { component, place });
        let said = cause.to_string();
        assert!(
            said.contains(&format!("ingredient {}", place + 1)),
            "{said}"
        );
    }
    let nothing = short(&buns, 1, "egg", Grams::MIN);
    assert_eq!(buns.scaled(nothing), Err(ScaleError::Nothing));
    // A kilogram of salt is for more dough than anybody kneads.
    let salted = buns.scaled(short(&buns, 1, "salt", grams(1000.0)));
    let said = salted.expect_err("far too much").to_string();
    assert!(said.contains("12000 g"), "{said}");
    // A pinch of flour is no dough.
    let pinch = buns.scaled(short(&buns, 1, "bread-flour", grams(0.001)));
    let said = pinch.expect_err("far too little").to_string();
    assert!(said.contains("100 g"), "{said}");
}

proptest! {
    #[test]
    fn what_there_is_of_anything_is_used_up_to_the_gram(
        which in 0_usize..3,
        component in 0_usize..5,
        place in 0_usize..10,
        times in 0.2..10.0_f64,
    ) {
        let formula = &starters::all()[which];
        let component = &formula.components[component % formula.components.len()];
        let place = place % component.ingredients.len();
        let food = component.ingredients[place].food;
        let needed = formula.needs(component.id, place).unwrap_or(Grams::MIN);
        prop_assert!((needed.get() - all_of(formula, food.key)).abs() < 1e-9);
        let there = needed * times;
        let size = Size::Short { component: component.id, place, mass: there };
        let made = match formula.scaled(size) {
            Ok(made) => made,
            Err(ScaleError::TooMuch { .. } | ScaleError::TooLittle { .. }) => return Ok(()),
            Err(other) => return Err(TestCaseError::fail(other.to_string())),
        };
        prop_assert_eq!(made.pieces.count, formula.pieces.count);
        let used = all_of(&made, food.key);
        prop_assert!((used / there.get() - 1.0).abs() < 1e-9, "{}: {used} g", food.name);
    }
}
