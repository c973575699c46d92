//! The gathering list. Sums are the starters' own masses, added by hand from
//! `src/records/starters`; the weights of eggs are USDA SR26's.

use checks::starter;
use domain::food::{Allergen, pantry};
use domain::formula::gather::{Bought, Kit, Shelf, Tool, allergens, eggs, gather, kit};
use domain::formula::{ComponentId, Formula, Size};
use domain::kitchen::{FineScales, Scales};
use domain::thermal::oven::BakeForm;
use domain::units::{Grams, grams};
use proptest::prelude::*;
use records::starters;

fn listed(formulas: &[Formula]) -> Vec<(&'static str, f64)> {
    let each: Vec<_> = formulas.iter().map(|it| (it, Scales::KITCHEN)).collect();
    let list = gather(&each);
    list.iter()
        .map(|line| (line.food.key, line.mass.get()))
        .collect()
}

#[test]
fn each_food_stands_once_with_the_sum_of_what_it_is_for() {
    let all = ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"].map(starter);
    assert_eq!(
        listed(&all),
        [
            ("bread-flour", 345.0 + 390.0 + 150.0 + 350.0),
            ("water", 15.0 + 150.0),
            ("milk", 155.0 + 184.0 + 10.0 + 119.0 + 8.0 + 186.0 + 12.0),
            ("egg", 60.0 + 30.0 + 70.0 + 25.0),
            ("egg-yolk", 40.0),
            ("butter", 60.0 + 20.0 + 55.0 + 25.0 + 8.0),
            ("sugar", 48.0 + 46.0 + 30.0 + 35.0),
            ("honey", 25.0 + 25.0),
            ("salt", 7.0 + 7.0 + 10.0),
            ("yeast-instant", 5.0 + 6.0 + 1.0 + 3.0),
            ("almonds-ground", 54.0),
            ("almonds-blanched", 40.0 + 20.0),
            ("plum-jam", 80.0),
            ("lemon-juice", 5.0),
            ("orange-juice", 40.0 + 40.0),
            ("orange-peel", 8.0),
            ("cornstarch", 16.0),
        ]
    );
}

#[test]
fn a_line_says_what_each_part_is_for() {
    let buns = starter("plum-almond-buns");
    let list = gather(&[(&buns, Scales::KITCHEN)]);
    let of = |key| line(&list, key);
    let parts = |key| -> Vec<(&str, f64)> {
        let parts = of(key).uses.iter();
        parts
            .map(|part| (part.component.name.as_str(), part.mass.get()))
            .collect()
    };
    assert_eq!(
        parts("milk"),
        [
            ("sweet bun dough", 155.0),
            ("almond cream", 184.0),
            ("egg wash", 10.0)
        ]
    );
    assert_eq!(of("milk").name(), "whole milk");
    // Soft in the dough and cold in the cream: bought, it is the same.
    assert_eq!(of("butter").name(), "unsalted butter");
}

fn line<'a, 'b>(list: &'b [Bought<'a>], key: &str) -> &'b Bought<'a> {
    let mut lines = list.iter();
    lines
        .find(|line| line.food.key == key)
        .expect("it is on the list")
}

#[test]
fn eggs_are_counted_whole_and_yolks_come_out_of_the_same_as_whites() {
    // The model's own three weights stand in the pantry, which the app doesn't carry.
    for (key, ndb, each) in [
        ("egg", 1123, 50.0),
        ("egg-white", 1124, 33.0),
        ("egg-yolk", 1125, 17.0),
    ] {
        let large = pantry::household_weight(ndb, "each", "large").expect("the database has it");
        assert_eq!(large.get(), each);
        let food = domain::food::food(key).expect("it is a food");
        let of = |mass: f64| {
            let mass = grams(mass);
            let uses = Vec::new();
            Bought { food, mass, uses }
        };
        for number in 1..40 {
            let mass = f64::from(number) * each;
            assert_eq!(of(mass).eggs(), Some(number));
            assert_eq!(of(mass - 1.0).eggs(), Some(number));
            assert_eq!(of(mass + 1.0).eggs(), Some(number + 1));
        }
    }
    let buns = starter("plum-almond-buns");
    let list = gather(&[(&buns, Scales::KITCHEN)]);
    // 90 g are not quite two; 40 g of yolk not quite two and a half.
    assert_eq!(line(&list, "egg").eggs(), Some(2));
    assert_eq!(line(&list, "egg-yolk").eggs(), Some(3));
    assert_eq!(line(&list, "milk").eggs(), None);
    assert_eq!(eggs(&list), 5);
    let white = domain::food::food("egg-white").expect("it is a food");
    let more = |mass| {
        let line = Bought {
            food: white,
            mass,
            uses: Vec::new(),
        };
        let mut list = list.clone();
        list.push(line);
        eggs(&list)
    };
    assert_eq!(more(grams(99.0)), 5);
    assert_eq!(more(grams(132.0)), 6);
    assert_eq!(
        eggs(&gather(&[(
            &starter("overnight-tin-loaf"),
            Scales::KITCHEN
        )])),
        0
    );
}

/// Regulation (EU) No 1169/2011, Annex II: cereals containing gluten, eggs, milk, nuts come in this order.
#[test]
fn allergens_come_first_in_the_order_of_the_law_with_what_brings_them() {
    let all = ["orange-braid", "plum-almond-buns"].map(starter);
    let list = gather(&all.each_ref().map(|it| (it, Scales::KITCHEN)));
    let named: Vec<(Allergen, Vec<&str>)> = allergens(&list)
        .into_iter()
        .map(|(allergen, places)| {
            (
                allergen,
                places.iter().map(|&it| list[it].food.key).collect(),
            )
        })
        .collect();
    assert_eq!(
        named,
        [
            (Allergen::GlutenCereals, vec!["bread-flour"]),
            (Allergen::Eggs, vec!["egg", "egg-yolk"]),
            (Allergen::Milk, vec!["milk", "butter"]),
            (Allergen::Nuts, vec!["almonds-blanched", "almonds-ground"]),
        ]
    );
    for formula in starters::all() {
        let list = gather(&[(&formula, Scales::KITCHEN)]);
        let found: Vec<Allergen> = allergens(&list).into_iter().map(|(it, _)| it).collect();
        assert_eq!(found, formula.allergens());
    }
}

#[test]
fn foods_stand_where_a_shop_has_them() {
    let on = |key| Shelf::of(domain::food::food(key).expect("it is a food"));
    for key in [
        "bread-flour",
        "sugar",
        "salt",
        "yeast-instant",
        "cornstarch",
        "honey",
        "oil-olive",
        "cocoa",
    ] {
        assert_eq!(on(key), Shelf::Dry, "{key}");
    }
    for key in ["milk", "cream", "butter", "egg", "egg-yolk", "yeast-fresh"] {
        assert_eq!(on(key), Shelf::Chilled, "{key}");
    }
    for key in [
        "plums",
        "plum-jam",
        "almonds-ground",
        "sesame-seeds",
        "cardamom",
        "lemon-juice",
    ] {
        assert_eq!(on(key), Shelf::Fruit, "{key}");
    }
    assert_eq!(on("water"), Shelf::Tap);
}

/// Read off the steps of the starters: what they mix in, cook in, cool in, brush and bake on.
#[test]
fn equipment_follows_from_the_steps() {
    let told = |formulas: &[&Formula]| -> Vec<(Tool, u16)> {
        let kit = kit(formulas);
        kit.iter().map(|kit: &Kit| (kit.tool, kit.count)).collect()
    };
    let (buns, loaf) = (starter("plum-almond-buns"), starter("overnight-tin-loaf"));
    let both = [
        (Tool::Scales, 0),
        (Tool::Thermometer, 0),
        (Tool::Bowl, 1),
        (Tool::Pan, 0),
        (Tool::Dish, 1),
        (Tool::IceWater, 0),
        (Tool::Brush, 0),
        (Tool::Tray, 0),
        (Tool::Rack, 0),
    ];
    assert_eq!(told(&[&buns]), both);
    let loaf_alone = [
        (Tool::Scales, 0),
        (Tool::Thermometer, 0),
        // The poolish ripens in one while nobody has the dough's yet, and is mixed into it.
        (Tool::Bowl, 2),
        (Tool::Brush, 0),
        (Tool::Tin, 1),
        (Tool::Rack, 0),
    ];
    assert_eq!(told(&[&loaf]), loaf_alone);
    let size = Size::Pieces {
        count: 3,
        mass: grams(900.0),
    };
    let three = loaf.scaled(size).expect("three loaves are baked at home");
    let together = told(&[&buns, &three]);
    assert!(together.contains(&(Tool::Bowl, 3)) && together.contains(&(Tool::Tin, 3)));
    assert!(together.contains(&(Tool::Tray, 0)));
    // In another form it is baked in something else.
    let apart = told(&[&loaf.in_form(BakeForm::Round)]);
    assert!(apart.contains(&(Tool::Tray, 0)) && !apart.iter().any(|(tool, _)| *tool == Tool::Tin));
    let pan = kit(&[&loaf, &buns])
        .into_iter()
        .find(|kit| kit.tool == Tool::Pan);
    let pan = pan.expect("the buns need one");
    assert_eq!(
        pan.uses,
        [2, 5, 4].map(|component| (1, ComponentId(component)))
    );
}

fn any_scales() -> impl Strategy<Value = Scales> {
    let fine = prop::option::of((1..20_u32).prop_map(|tenths| FineScales {
        step: grams(f64::from(tenths) / 100.0),
        up_to: grams(50.0),
    }));
    (prop::sample::select(vec![0.5, 1.0, 2.0, 5.0]), fine).prop_map(|(step, fine)| Scales {
        step: grams(step),
        fine,
    })
}

proptest! {
    #[test]
    fn the_parts_make_the_whole_however_much_is_made(
        sizes in prop::collection::vec((0..3_usize, 1..30_u16, 60.0..400.0_f64, any_scales()), 1..5),
    ) {
        let all = starters::all();
        let made: Vec<(Formula, Scales)> = sizes
            .into_iter()
            .map(|(which, count, each, scales)| {
                let size = Size::Pieces { count, mass: grams(each) };
                (all[which].scaled(size).unwrap_or_else(|_| all[which].clone()), scales)
            })
            .collect();
        let each: Vec<(&Formula, Scales)> = made.iter().map(|(it, scales)| (it, *scales)).collect();
        let list = gather(&each);
        let mut whole = 0.0;
        for line in &list {
            let parts: f64 = line.uses.iter().map(|part| part.mass.get()).sum();
            prop_assert!((line.mass.get() - parts).abs() < 1e-6, "{}", line.food.key);
            prop_assert_eq!(list.iter().filter(|other| other.food.key == line.food.key).count(), 1);
            whole += parts;
        }
        let ingredients = |(formula, scales): &(Formula, Scales)| -> (f64, f64, usize) {
            let components = formula.components.iter();
            let shown: f64 = components.clone().flat_map(|it| it.amounts(*scales)).map(Grams::get).sum();
            let exact: f64 = components.clone().map(|it| it.mass().get()).sum();
            (shown, exact, components.map(|it| it.ingredients.len()).sum())
        };
        let (mut shown, mut exact, mut parts, mut off) = (0.0, 0.0, 0, 0.0);
        for one in &made {
            let (of_it, exactly, number) = ingredients(one);
            shown += of_it;
            exact += exactly;
            parts += number;
            // Nothing is rounded away: what is less than a step is shown as one, at worst each of them.
            off += one.1.step.get() * number as f64;
        }
        prop_assert!((whole - shown).abs() < 1e-6, "{whole} g on the list, {shown} g in the formulas");
        prop_assert!((whole - exact).abs() <= off, "{whole} g on the list, {exact} g exactly");
        prop_assert_eq!(list.iter().map(|line| line.uses.len()).sum::<usize>(), parts);
    }
}
