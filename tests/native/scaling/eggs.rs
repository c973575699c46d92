//! Eggs as whole ones.
//!
//! Masses: USDA SR26 WEIGHT, as in `food::pantry`. Water of egg 76.15, of milk 88.13 and of water
//! 99.9 %: USDA SR28. Where the limits lie is judgement.

use checks::{assert_close, starter};
use domain::food::FoodKind;
use domain::food::pantry::household_weight;
use domain::formula::{
    Change, ComponentId, ComponentKind, Draft, EggCount, EggOffer, EggPart, EggRefusal, EggSize,
    Formula, Size,
};
use domain::units::{Grams, grams};
use proptest::prelude::*;
use records::starters;

/// The offers for the first egg of a component.
fn of_component(formula: &Formula, id: u16, size: EggSize) -> EggCount {
    let counts = formula.whole_eggs(size);
    let mut those = counts.into_iter();
    let found = those.find(|count| count.component == ComponentId(id));
    found.expect("that component has egg")
}

fn offered(count: &EggCount, eggs: u16) -> &EggOffer {
    let mut offers = count.offers.iter();
    let found = offers.find(|(number, _)| *number == eggs);
    let (_, offer) = found.expect("that number is the next one");
    offer.as_ref().expect("it suits")
}

/// The water of a component, or of the whole dough, in g.
fn water_g(draft: &Draft, is_it: impl Fn(ComponentId) -> bool) -> f64 {
    let components = draft.components.iter().filter(|it| is_it(it.id));
    let parts = components.flat_map(|it| &it.ingredients);
    parts
        .map(|part| part.mass.get() * part.food.composition.water.get())
        .sum()
}

fn assert_change(change: Change, before_g: f64, after_g: f64) {
    assert_close("before", change.before.get(), before_g, 1e-9);
    assert_close("after", change.after.get(), after_g, 0.01);
}

#[test]
fn eggs_weigh_what_the_database_says() {
    for (size, said) in [
        (EggSize::Small, "small"),
        (EggSize::Medium, "medium"),
        (EggSize::Large, "large"),
        (EggSize::ExtraLarge, "extra large"),
    ] {
        let listed = household_weight(1123, "each", said);
        assert_eq!(Some(size.mass(EggPart::Whole)), listed, "{said}");
        // An egg is its yolk and its white.
        let parts = size.mass(EggPart::Yolk) + size.mass(EggPart::White);
        assert_close(said, parts.get(), size.mass(EggPart::Whole).get(), 1e-9);
    }
    for (part, ndb) in [(EggPart::White, 1124), (EggPart::Yolk, 1125)] {
        let listed = household_weight(ndb, "each", "large");
        assert_eq!(Some(EggSize::Large.mass(part)), listed, "{ndb}");
    }
    assert_eq!(EggSize::ALL.len(), 4);
}

#[test]
fn the_buns_take_one_large_egg_or_two() {
    // The dough has 60 g of egg, 1.2 large ones, and 155 g of milk that is tempered. By hand:
    // 1 egg: 10 × 0.7615 / 0.8813 = 8.64 g more milk; 2 eggs: 40 × 0.7615 / 0.8813 = 34.56 g less.
    let buns = starter("plum-almond-buns");
    let count = of_component(&buns, 1, EggSize::Large);
    assert_eq!(count.part, EggPart::Whole);
    assert_close("eggs", count.eggs, 1.2, 1e-9);
    assert_eq!(count.offers.len(), 2);
    for (eggs, egg_g, milk_g) in [(1, 50.0, 163.64), (2, 100.0, 120.44)] {
        let offer = offered(&count, eggs);
        assert_eq!(offer.eggs, eggs);
        assert_change(offer.egg, 60.0, egg_g);
        assert_change(offer.liquid.expect("there is milk"), 155.0, milk_g);
        // It stands in the formula as it is told, and the pieces use up the dough.
        let made = &offer.formula;
        let dough = made.dough().expect("buns have a dough");
        for change in [Some(offer.egg), offer.liquid].into_iter().flatten() {
            assert_eq!(dough.ingredients[change.place].mass, change.after);
        }
        let pieces = made.pieces.mass * f64::from(made.pieces.count);
        assert_close("pieces", pieces.get(), made.dough_mass().get(), 1e-9);
        assert_eq!(made.flour_mass(), buns.flour_mass());
    }
}

#[test]
fn yolks_of_a_cream_are_made_up_for_with_its_milk() {
    // 40 g of yolk are 2.35 large ones; 2 of them are 34 g: 6 × 0.5231 / 0.8813 = 3.56 g more milk.
    let buns = starter("plum-almond-buns");
    let count = of_component(&buns, 2, EggSize::Large);
    assert_eq!(count.part, EggPart::Yolk);
    let offer = offered(&count, 2);
    assert_change(offer.egg, 40.0, 34.0);
    assert_change(offer.liquid.expect("there is milk"), 184.0, 187.56);
    // A cream is no part of the dough.
    assert_eq!(offer.formula.dough_mass(), buns.dough_mass());
    assert_eq!(offer.formula.pieces, buns.pieces);
}

#[test]
fn a_wash_is_made_larger_as_a_whole() {
    // 30 g of egg and 10 g of milk: one egg of 44 g takes 14.67 g of milk.
    let buns = starter("plum-almond-buns");
    let count = of_component(&buns, 3, EggSize::Medium);
    let [(1, Ok(offer))] = count.offers.as_slice() else {
        panic!("no egg is no wash: {:?}", count.offers);
    };
    assert_change(offer.egg, 30.0, 44.0);
    assert_change(offer.liquid.expect("there is milk"), 10.0, 14.67);
}

#[test]
fn whole_eggs_are_left_alone() {
    let buns = starter("plum-almond-buns");
    // 60 g to 50 g of egg.
    let fitted = buns.scaled(Size::Dough(buns.dough_mass() * (50.0 / 60.0)));
    let count = of_component(&fitted.expect("smaller buns"), 1, EggSize::Large);
    assert_close("eggs", count.eggs, 1.0, 1e-9);
    assert_eq!(count.offers, []);
}

#[test]
fn what_would_be_another_bread_is_refused_with_numbers() {
    // 60 × 0.3 = 18 g of egg in a third of the buns: one egg would be far more than twice of it.
    let buns = starter("plum-almond-buns");
    let few = buns.scaled(Size::Dough(buns.dough_mass() * 0.3));
    let count = of_component(&few.expect("small buns"), 1, EggSize::Large);
    let [(1, Err(cause))] = count.offers.as_slice() else {
        panic!("refused: {:?}", count.offers);
    };
    assert_eq!(
        cause.to_string(),
        "that is 50 g of egg, more than 36 g, which is twice the formula's own"
    );
    // Brioche is half egg: Gisslen's of 100 g flour has 20 g of milk beside 50 g of egg. Two medium
    // eggs would be 38 g more and take 38 × 0.7615 / 0.8813 = 32.8 g of it.
    let count = of_component(&super::dough_of(&super::BRIOCHE, 1), 1, EggSize::Medium);
    let (2, Err(cause)) = &count.offers[1] else {
        panic!("refused: {:?}", count.offers);
    };
    assert!(matches!(cause, EggRefusal::TooMuchLiquid { .. }));
    let said = cause.to_string();
    assert!(said.contains("32.8 g") && said.contains("10 g"), "{said}");
    // One takes 6 g away, for which there are 5.2 g more milk.
    let offer = offered(&count, 1);
    assert_change(offer.liquid.expect("there is milk"), 20.0, 25.18);
    // Without a liquid nothing makes up for the egg.
    let parts = super::BRIOCHE.into_iter();
    let dry: Vec<_> = parts.filter(|(key, _)| *key != "milk").collect();
    let count = of_component(&super::dough_of(&dry, 1), 1, EggSize::Medium);
    assert!(
        count
            .offers
            .iter()
            .all(|(_, offer)| *offer == Err(EggRefusal::NoLiquid))
    );
}

#[test]
fn water_goes_before_milk_where_neither_is_tempered() {
    let parts = [
        ("bread-flour", 500.0),
        ("milk", 200.0),
        ("water", 80.0),
        ("cream", 300.0),
        ("egg", 110.0),
    ];
    let formula = super::dough_of(&parts, 1);
    let count = of_component(&formula, 1, EggSize::Large);
    let offer = offered(&count, 2);
    let liquid = offer.liquid.expect("there is water");
    // 10 × 0.7615 / 0.999 = 7.62 g.
    assert_change(liquid, 80.0, 87.62);
    let dough = formula.dough().expect("it is one");
    assert_eq!(dough.ingredients[liquid.place].food.kind, FoodKind::Water);
}

proptest! {
    #[test]
    fn whole_eggs_keep_the_water(
        which in 0_usize..3,
        times in 0.3..8.0_f64,
        size in 0_usize..4,
    ) {
        let formula = &starters::all()[which];
        let scaled = formula.scaled(Size::Dough(formula.dough_mass() * times));
        let formula = scaled.map_err(|cause| TestCaseError::fail(cause.to_string()))?;
        let size = EggSize::ALL[size];
        for count in formula.whole_eggs(size) {
            prop_assert!(count.eggs.is_finite() && count.offers.len() <= 2);
            for (eggs, offer) in &count.offers {
                prop_assert!((f64::from(*eggs) - count.eggs).abs() < 1.0);
                let Ok(offer) = offer else { continue };
                let egg_g = offer.egg.after.get();
                prop_assert!((egg_g - f64::from(*eggs) * size.mass(count.part).get()).abs() < 1e-9);
                let component = formula.component(count.component);
                let kind = component.map(|component| component.kind);
                // Of a wash there is more.
                if kind != Some(ComponentKind::Wash) {
                    let of = |id: ComponentId| id == count.component;
                    let off_g = water_g(&offer.formula, of) - water_g(&formula, of);
                    prop_assert!(off_g.abs() < 0.1, "{off_g} g of water");
                    let hydration = offer.formula.hydration().get() - formula.hydration().get();
                    prop_assert!(hydration.abs() < 1e-6);
                }
                // Nothing but the egg and the liquid is changed.
                let changed = std::iter::zip(super::masses_g(&offer.formula), super::masses_g(&formula));
                let changed = changed.filter(|(now, before)| now != before).count();
                prop_assert!(changed <= 2, "{changed} ingredients");
                prop_assert!(offer.formula.components.iter().all(|it| it.mass() > Grams::MIN));
                // Asked again, they are whole.
                let again = offer.formula.whole_eggs(size);
                let same = again.iter().find(|it| (it.component, it.place) == (count.component, count.place));
                prop_assert!(same.is_some_and(|it| it.offers.is_empty()));
                prop_assert!(offer.formula.pieces.mass > grams(0.0));
            }
        }
    }
}
