//! Percentages and scaling.
//!
//! Worked examples:
//!
//! - Brioche, W. Gisslen, *Professional Baking* (2008), ch. 9: milk 20, fresh
//!   yeast 5, flour 100, eggs 50, sugar 5, salt 2, butter 70 % of flour, printed
//!   beside the grams for 300 g of flour.
//! - H. Kleinwächter, *The Sourdough Framework*, table "baker's math example".
//! - Water contents: USDA SR28 (NDB 01077, 01123, 01145, 18374).

mod baked;
mod eggs;
mod hands;
mod outside;
mod rounding;
mod short;
mod tins;

use checks::assert_close;
use domain::formula::{
    ComponentId, Formula, Length, Lid, ScaleError, Size, Step, Tin, Tins, baking_loss,
};
use domain::units::{Grams, grams, millilitres};
use proptest::prelude::*;
use records::Record as _;
use records::formula::FormulaRecord;
use records::starters;
use serde_json::json;

const BRIOCHE: [(&str, f64); 7] = [
    ("milk", 20.0),
    ("yeast-fresh", 5.0),
    ("bread-flour", 100.0),
    ("egg", 50.0),
    ("sugar", 5.0),
    ("salt", 2.0),
    ("butter", 70.0),
];

/// A formula of one dough and one step, as it would come from the baker.
fn dough_of(parts: &[(&str, f64)], pieces: u16) -> Formula {
    let total_g: f64 = parts.iter().map(|(_, mass_g)| mass_g).sum();
    let ingredients: Vec<_> = parts
        .iter()
        .map(|(key, mass_g)| json!({"food": key, "name": key, "mass_g": mass_g, "kept": "kitchen"}))
        .collect();
    let text = json!({
        "version": 1, "id": "example", "name": "Example",
        "pieces": {
            "count": pieces, "mass_g": total_g / f64::from(pieces),
            "noun": "piece", "plural": "pieces",
        },
        "reference_c": 26.0,
        "components": [
            {"id": 1, "kind": "dough", "name": "dough", "ingredients": ingredients},
        ],
        "steps": [{
            "id": 1, "component": 1, "kind": "mix", "title": "Mix", "instruction": "Mix.",
            "length": {"kind": "hands", "minutes": {"low": 5.0, "likely": 6.0, "high": 8.0}},
        }],
    });
    FormulaRecord::read(&text.to_string())
        .and_then(Formula::try_from)
        .expect("the example is a formula")
}

fn masses_g(formula: &Formula) -> Vec<f64> {
    formula
        .components
        .iter()
        .flat_map(|component| &component.ingredients)
        .map(|part| part.mass.get())
        .collect()
}

fn assert_masses(case: &str, formula: &Formula, expected_g: &[f64], tolerance: f64) {
    let got = masses_g(formula);
    assert_eq!(got.len(), expected_g.len(), "{case}");
    for (index, (got, expected)) in std::iter::zip(got, expected_g).enumerate() {
        assert_close(&format!("{case}, part {index}"), got, *expected, tolerance);
    }
}

#[test]
fn brioche_from_its_flour_is_the_printed_column() {
    let scaled = dough_of(&BRIOCHE, 1)
        .scaled(Size::Flour(grams(300.0)))
        .expect("a kitchen's amount");
    let printed_g = [60.0, 15.0, 300.0, 150.0, 15.0, 6.0, 210.0];
    assert_masses("brioche of 300 g flour", &scaled, &printed_g, 1e-9);
    // The book prints a total of 760 g, which is this rounded to tens.
    assert_close("total", scaled.dough_mass().get(), 756.0, 1e-9);
}

#[test]
fn brioche_to_a_mass_of_dough() {
    // weight = percentage x dough / sum of percentages, Gisslen ch. 1; here by hand for 252 %.
    let expected_g = [79.37, 19.84, 396.83, 198.41, 19.84, 7.94, 277.78];
    let brioche = dough_of(&BRIOCHE, 1);
    let of_dough = brioche
        .scaled(Size::Dough(grams(1000.0)))
        .expect("a kitchen's amount");
    assert_masses("1000 g of brioche", &of_dough, &expected_g, 0.005);
    let of_pieces = brioche
        .scaled(Size::Pieces {
            count: 20,
            mass: grams(50.0),
        })
        .expect("a kitchen's amount");
    assert_masses("20 pieces of 50 g", &of_pieces, &expected_g, 0.005);
    assert_eq!(of_pieces.pieces.count, 20);
    assert_close("piece", of_pieces.pieces.mass.get(), 50.0, 1e-12);
}

#[test]
fn bakers_percentages_of_the_open_textbook() {
    let formula = dough_of(&[("bread-flour", 1000.0), ("water", 600.0)], 1);
    // Flour, water, starter, salt: 1000, 600, 100 and 20 g are 100, 60, 10 and 2 %.
    for (mass_g, percent) in [(1000.0, 100.0), (600.0, 60.0), (100.0, 10.0), (20.0, 2.0)] {
        let got = formula.percent_of_flour(grams(mass_g)).get();
        assert_close("baker's percentage", got, percent, 1e-9);
    }
}

#[test]
fn hydration_counts_the_water_in_milk_egg_butter_and_yeast() {
    // By hand from SR28: 0.8813 x 20 + 0.7615 x 50 + 0.1794 x 70 = 68.26, and 0.69 x 5 more with the yeast.
    // Sugar and salt bring another 0.005, within the tolerance.
    let with_yeast = dough_of(&BRIOCHE, 1);
    assert_close("with yeast", with_yeast.hydration().get(), 71.71, 0.02);
    let without: Vec<_> = BRIOCHE
        .into_iter()
        .filter(|(key, _)| *key != "yeast-fresh")
        .collect();
    let hydration = dough_of(&without, 1).hydration().get();
    assert_close("without yeast", hydration, 68.26, 0.02);
}

#[test]
fn a_wish_that_cannot_be_met_says_why() {
    let brioche = dough_of(&BRIOCHE, 1);
    let no_pieces = Size::Pieces {
        count: 0,
        mass: grams(80.0),
    };
    for nothing in [no_pieces, Size::Dough(Grams::MIN), Size::Flour(Grams::MIN)] {
        assert_eq!(brioche.scaled(nothing), Err(ScaleError::Nothing));
    }
    let too_much = brioche
        .scaled(Size::Dough(grams(12_001.0)))
        .expect_err("more than is kneaded at home");
    assert!(too_much.to_string().contains("12001 g"), "{too_much}");
    let too_little = brioche
        .scaled(Size::Dough(grams(99.0)))
        .expect_err("less than scales show");
    assert!(too_little.to_string().contains("99 g"), "{too_little}");
    for edge in [100.0, 12_000.0] {
        assert!(brioche.scaled(Size::Dough(grams(edge))).is_ok(), "{edge} g");
    }
}

fn wishes() -> impl Strategy<Value = Size> {
    let pieces = (1_u16..=40, 20.0..2000.0_f64);
    prop_oneof![
        pieces.prop_map(|(count, mass_g)| Size::Pieces {
            count,
            mass: grams(mass_g),
        }),
        (100.0..12_000.0_f64).prop_map(|dough_g| Size::Dough(grams(dough_g))),
        (80.0..5000.0_f64).prop_map(|flour_g| Size::Flour(grams(flour_g))),
        (1_u16..=40, 20.0..2000.0_f64).prop_map(|(count, mass_g)| Size::Baked {
            count,
            mass: grams(mass_g),
            loss: baking_loss(),
        }),
        (1_u16..=5, 1_u16..=12, 500.0..4000.0_f64).prop_filter_map(
            "a tin",
            |(count, pieces_each, volume_ml)| {
                let tin = Tin::holding(millilitres(volume_ml), Lid::Off).ok()?;
                let tins = Tins { count, tin };
                Some(Size::Tins {
                    tins,
                    pieces_each,
                    own: None,
                })
            }
        ),
        (0_usize..3, 1.0..3000.0_f64).prop_map(|(place, mass_g)| Size::Short {
            component: ComponentId(1),
            place,
            mass: grams(mass_g),
        }),
    ]
}

proptest! {
    #[test]
    fn scaling_keeps_every_percentage(which in 0_usize..3, wish in wishes()) {
        let formula = &starters::all()[which];
        let scaled = match formula.scaled(wish) {
            Ok(scaled) => scaled,
            // Only the edges of what is kneaded at home may be refused.
            Err(ScaleError::TooMuch { dough, .. }) => {
                prop_assert!(dough.get() > 12_000.0);
                return Ok(());
            }
            Err(ScaleError::TooLittle { dough, .. }) => {
                prop_assert!(dough.get() < 100.0);
                return Ok(());
            }
            Err(nothing) => return Err(TestCaseError::fail(nothing.to_string())),
        };
        let pairs = std::iter::zip(&formula.components, &scaled.components);
        // What goes on the outside follows the surface: `outside`.
        for (before, after) in pairs.filter(|(component, _)| !component.is_outside()) {
            for (before, after) in std::iter::zip(&before.ingredients, &after.ingredients) {
                let percent = formula.percent_of_flour(before.mass).get();
                let scaled_percent = scaled.percent_of_flour(after.mass).get();
                prop_assert!((scaled_percent / percent - 1.0).abs() < 1e-9, "{}", after.name);
            }
        }
        prop_assert!((scaled.hydration().get() / formula.hydration().get() - 1.0).abs() < 1e-9);
        let (got, wanted) = match wish {
            Size::Pieces { count, mass } => {
                prop_assert_eq!(scaled.pieces.count, count);
                (scaled.dough_mass().get(), f64::from(count) * mass.get())
            }
            Size::Dough(dough) => (scaled.dough_mass().get(), dough.get()),
            Size::Flour(flour) => (scaled.flour_mass().get(), flour.get()),
            Size::Baked { count, mass, loss } => {
                prop_assert_eq!(scaled.pieces.count, count);
                (scaled.baked_piece(&loss).likely().get(), mass.get())
            }
            Size::Tins { tins, pieces_each, .. } => {
                prop_assert_eq!(scaled.pieces.count, tins.count * pieces_each);
                let dough = tins.tin.dough().likely() * f64::from(tins.count);
                (scaled.dough_mass().get(), dough.get())
            }
            Size::Short { component, place, mass } => {
                let needs = scaled.needs(component, place);
                (needs.map_or(f64::NAN, Grams::get), mass.get())
            }
        };
        prop_assert!((got / wanted - 1.0).abs() < 1e-9, "{got} g instead of {wanted} g");
        let in_pieces = f64::from(scaled.pieces.count) * scaled.pieces.mass.get();
        prop_assert!((in_pieces / scaled.dough_mass().get() - 1.0).abs() < 1e-9);
        prop_assert_eq!(scaled.steps.len(), formula.steps.len());
        for (before, after) in std::iter::zip(&formula.steps, &scaled.steps) {
            let lengths_aside = Step { length: before.length.clone(), ..after.clone() };
            prop_assert_eq!(&lengths_aside, before);
            // Of the lengths only that of the hands may change; the oven's keeps what it was written for.
            let mut length = after.length.clone();
            if let Length::Bake { load, .. } = &mut length {
                prop_assert_eq!(load.take(), Some(formula.oven_load()));
            }
            prop_assert!(before.is_hands() || length == before.length);
        }
    }

    #[test]
    fn scaling_back_is_where_it_began(which in 0_usize..3, dough_g in 100.0..12_000.0_f64) {
        let formula = &starters::all()[which];
        let there = formula.scaled(Size::Dough(grams(dough_g)));
        let back = there.and_then(|there| there.scaled(Size::Flour(formula.flour_mass())));
        let back = back.map_err(|cause| TestCaseError::fail(cause.to_string()))?;
        for (back, first) in std::iter::zip(masses_g(&back), masses_g(formula)) {
            prop_assert!((back / first - 1.0).abs() < 1e-9);
        }
    }
}
