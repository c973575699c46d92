//! Amounts as scales can show them.

use checks::assert_close;
use domain::food::food;
use domain::formula::{Component, ComponentId, ComponentKind, Ingredient, Kept, Size};
use domain::kitchen::{FineScales, Scales};
use domain::units::{Grams, grams};
use proptest::prelude::*;
use records::starters;

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
    // From about half a batch up: below, yeast raised to the least that scales show
    // takes more than a step from the flour, so that the sum stays.
    #[test]
    fn a_starter_of_any_size_can_be_weighed(
        which in 0_usize..3,
        dough_g in 400.0..12_000.0_f64,
        scales in all_scales(),
    ) {
        let scaled = starters::all()[which].scaled(Size::Dough(grams(dough_g)));
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
