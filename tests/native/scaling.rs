//! Percentages, scaling and rounding.
//!
//! Worked examples:
//!
//! - Brioche, W. Gisslen, *Professional Baking* (2008), ch. 9: milk 20, fresh
//!   yeast 5, flour 100, eggs 50, sugar 5, salt 2, butter 70 % of flour, printed
//!   beside the grams for 300 g of flour.
//! - H. Kleinwächter, *The Sourdough Framework*, table "baker's math example".
//! - Water contents: USDA SR28 (NDB 01077, 01123, 01145, 18374).

mod hands;

use checks::assert_close;
use domain::food::food;
use domain::formula::{
    Component, ComponentId, ComponentKind, Formula, Ingredient, Kept, Length, ScaleError, Step,
    Wish,
};
use domain::kitchen::{FineScales, Scales};
use domain::units::{Grams, grams};
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
        .scaled(Wish::Flour(grams(300.0)))
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
        .scaled(Wish::Dough(grams(1000.0)))
        .expect("a kitchen's amount");
    assert_masses("1000 g of brioche", &of_dough, &expected_g, 0.005);
    let of_pieces = brioche
        .scaled(Wish::Pieces {
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
    let no_pieces = Wish::Pieces {
        count: 0,
        mass: grams(80.0),
    };
    for nothing in [no_pieces, Wish::Dough(Grams::MIN), Wish::Flour(Grams::MIN)] {
        assert_eq!(brioche.scaled(nothing), Err(ScaleError::Nothing));
    }
    let too_much = brioche
        .scaled(Wish::Dough(grams(12_001.0)))
        .expect_err("more than is kneaded at home");
    assert!(too_much.to_string().contains("12001 g"), "{too_much}");
    let too_little = brioche
        .scaled(Wish::Dough(grams(99.0)))
        .expect_err("less than scales show");
    assert!(too_little.to_string().contains("99 g"), "{too_little}");
    for edge in [100.0, 12_000.0] {
        assert!(brioche.scaled(Wish::Dough(grams(edge))).is_ok(), "{edge} g");
    }
}

#[test]
fn amounts_that_scales_can_show_keep_their_sum() {
    // Hamilton's method by hand: 1.5, 2.5, 3.5, 4.5 sum to 12 and round down to 10, so two get one more.
    let halves = component(&[1.5, 2.5, 3.5, 4.5]);
    let shown = halves.amounts(Scales::KITCHEN);
    assert_close("sum", shown.iter().copied().sum::<Grams>().get(), 12.0, 0.0);
    // 396.83 + 277.78 + 198.41 + 79.37 + 19.84 + 19.84 + 7.94 = 1000.01; down to 995 with
    // remainders .83 .78 .41 .37 .84 .84 .94, so the five largest get one gram more.
    let brioche = component(&[396.83, 277.78, 198.41, 79.37, 19.84, 19.84, 7.94]);
    let shown: Vec<f64> = brioche
        .amounts(Scales::KITCHEN)
        .into_iter()
        .map(Grams::get)
        .collect();
    assert_eq!(shown, [397.0, 278.0, 198.0, 79.0, 20.0, 20.0, 8.0]);
}

fn component(masses_g: &[f64]) -> Component {
    let flour = food("bread-flour").expect("flour is in the table");
    let part = |&mass_g: &f64| Ingredient {
        food: flour,
        name: "part".to_owned(),
        mass: grams(mass_g),
        kept: Kept::Kitchen,
        tempered: false,
    };
    Component {
        id: ComponentId(1),
        kind: ComponentKind::Dough,
        name: "dough".to_owned(),
        ingredients: masses_g.iter().map(part).collect(),
        target: None,
    }
}

fn wishes() -> impl Strategy<Value = Wish> {
    let pieces = (1_u16..=40, 20.0..2000.0_f64);
    prop_oneof![
        pieces.prop_map(|(count, mass_g)| Wish::Pieces {
            count,
            mass: grams(mass_g),
        }),
        (100.0..12_000.0_f64).prop_map(|dough_g| Wish::Dough(grams(dough_g))),
        (80.0..5000.0_f64).prop_map(|flour_g| Wish::Flour(grams(flour_g))),
    ]
}

fn all_scales() -> impl Strategy<Value = Scales> {
    let fine = Some(FineScales {
        step: grams(0.1),
        up_to: grams(20.0),
    });
    prop_oneof![
        Just(Scales::KITCHEN),
        Just(Scales {
            step: grams(1.0),
            fine
        }),
        Just(Scales {
            step: grams(5.0),
            fine
        }),
    ]
}

/// The step of the scales that an amount is weighed on.
fn step_for(scales: Scales, exact_g: f64) -> f64 {
    match scales.fine {
        Some(fine) if exact_g <= fine.up_to.get() => fine.step.get(),
        _ => scales.step.get(),
    }
}

fn assert_rounded(scales: Scales, component: &Component) -> Result<(), TestCaseError> {
    let shown = component.amounts(scales);
    prop_assert_eq!(shown.len(), component.ingredients.len());
    // What is lighter than a step is shown as one, and the heavier amounts make up for it.
    let raised = component.ingredients.iter().map(|part| {
        let exact_g = part.mass.get();
        (step_for(scales, exact_g) - exact_g).max(0.0)
    });
    let raised_g: f64 = raised.sum();
    for (shown, part) in std::iter::zip(&shown, &component.ingredients) {
        let (shown_g, exact_g) = (shown.get(), part.mass.get());
        let step_g = step_for(scales, exact_g);
        prop_assert!(shown_g > 0.0, "{} of {exact_g} g vanished", part.name);
        prop_assert!(
            (shown_g - exact_g).abs() <= step_g + raised_g + 1e-9,
            "{}: {exact_g} g shown as {shown_g} g",
            part.name
        );
        let steps = shown_g / step_g;
        prop_assert!((steps - steps.round()).abs() < 1e-6, "{shown_g} g");
    }
    let coarsest_g = component
        .ingredients
        .iter()
        .map(|part| step_for(scales, part.mass.get()))
        .fold(0.0, f64::max);
    let off_g = shown.iter().copied().sum::<Grams>().get() - component.mass().get();
    prop_assert!(
        off_g.abs() <= coarsest_g / 2.0 + 1e-9,
        "the sum is off by {off_g} g"
    );
    Ok(())
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
        for (before, after) in std::iter::zip(&formula.components, &scaled.components) {
            for (before, after) in std::iter::zip(&before.ingredients, &after.ingredients) {
                let percent = formula.percent_of_flour(before.mass).get();
                let scaled_percent = scaled.percent_of_flour(after.mass).get();
                prop_assert!((scaled_percent / percent - 1.0).abs() < 1e-9, "{}", after.name);
            }
        }
        prop_assert!((scaled.hydration().get() / formula.hydration().get() - 1.0).abs() < 1e-9);
        let (got, wanted) = match wish {
            Wish::Pieces { count, mass } => {
                prop_assert_eq!(scaled.pieces.count, count);
                (scaled.dough_mass().get(), f64::from(count) * mass.get())
            }
            Wish::Dough(dough) => (scaled.dough_mass().get(), dough.get()),
            Wish::Flour(flour) => (scaled.flour_mass().get(), flour.get()),
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
        let there = formula.scaled(Wish::Dough(grams(dough_g)));
        let back = there.and_then(|there| there.scaled(Wish::Flour(formula.flour_mass())));
        let back = back.map_err(|cause| TestCaseError::fail(cause.to_string()))?;
        for (back, first) in std::iter::zip(masses_g(&back), masses_g(formula)) {
            prop_assert!((back / first - 1.0).abs() < 1e-9);
        }
    }

    // From about half a batch up: below, yeast raised to the least that scales show
    // takes more than a step from the flour, so that the sum stays.
    #[test]
    fn a_starter_of_any_size_can_be_weighed(
        which in 0_usize..3,
        dough_g in 400.0..12_000.0_f64,
        scales in all_scales(),
    ) {
        let scaled = starters::all()[which].scaled(Wish::Dough(grams(dough_g)));
        let scaled = scaled.map_err(|cause| TestCaseError::fail(cause.to_string()))?;
        for component in &scaled.components {
            assert_rounded(scales, component)?;
        }
    }

    #[test]
    fn any_parts_that_scales_can_show_are_rounded_fairly(
        masses_g in prop::collection::vec(1.0..3000.0_f64, 1..12),
        fine in prop::option::of(Just(FineScales { step: grams(0.1), up_to: grams(20.0) })),
    ) {
        let scales = Scales { step: grams(1.0), fine };
        assert_rounded(scales, &component(&masses_g))?;
    }

    #[test]
    fn parts_too_small_for_the_scales_never_vanish(
        masses_g in prop::collection::vec(0.001..3.0_f64, 1..8),
    ) {
        let component = component(&masses_g);
        let shown = component.amounts(Scales::KITCHEN);
        let sum_g = shown.iter().copied().sum::<Grams>().get();
        prop_assert!(shown.iter().all(|shown| shown.get() >= 1.0));
        // Where the least amounts alone come to more than the sum, there is nothing to give back.
        let all_least = shown.iter().all(|shown| shown.get() <= 1.0);
        let off_g = (sum_g - component.mass().get()).abs();
        prop_assert!(all_least || off_g <= 0.5 + 1e-9, "the sum is off by {off_g} g");
    }
}
