//! The words of steps, and where they warn.

use checks::assert_close;
use domain::food::FoodKind;
use domain::formula::{Caution, ComponentKind, Step, StepKind};

use super::super::{each_step, holds, only};

#[test]
fn words_are_few() {
    each_step(|formula, _, step| {
        let case = format!("{}, {}", formula.name, step.title);
        let words = |text: &str| text.split_whitespace().count();
        assert!(words(&step.instruction) <= Step::MOST_WORDS, "{case}");
        assert!(words(&step.title) <= 4, "{case}");
        assert!(words(&step.detail) <= 60, "{case}");
        assert!((1..=40).contains(&words(&step.why)), "{case}");
        assert!(!step.cue.to_lowercase().starts_with("ready"), "{case}");
        // Whatever the baker has to judge says how.
        assert!(step.is_hands() || !step.cue.is_empty() || step.kind == StepKind::OvenHeats);
    });
}

#[test]
fn temperatures_in_both_scales_agree() {
    let mut seen = 0;
    each_step(|_, _, step| {
        for text in [&step.instruction, &step.detail, &step.cue, &step.why] {
            let mut pairs = text.split(" °C (");
            let mut left = pairs.next().unwrap_or_default();
            for right in pairs {
                let last_number = |words: &str| words.rsplit(' ').next()?.parse::<f64>().ok();
                let in_c = last_number(left);
                let in_f = right.split(" °F").next().and_then(last_number);
                let (in_c, in_f) = in_c.zip(in_f).expect("two numbers");
                // F = 32 + 1.8 C, to whole degrees.
                assert_close(text, in_f, 32.0 + 1.8 * in_c, 0.5);
                seen += 1;
                left = right;
            }
        }
    });
    assert!(seen >= 8, "only {seen} pairs were found");
}

#[test]
fn cautions_stand_where_the_hand_is() {
    each_step(|formula, component, step| {
        let case = format!("{}, {}", formula.name, step.title);
        let warns = |caution| {
            assert!(step.cautions.contains(&caution), "{case}: no {caution:?}");
        };
        let egg = holds(component, FoodKind::Egg);
        match step.kind {
            // Egg, milk and wheat are in the list of Regulation (EU) 1169/2011, Annex II.
            StepKind::Gather | StepKind::Serve => warns(Caution::Allergens),
            StepKind::Mix => warns(Caution::RawFlour),
            StepKind::Chill => warns(Caution::CoolQuickly),
            StepKind::Fill => warns(Caution::Perishable),
            StepKind::OvenHeats | StepKind::Bake => warns(Caution::HotOven),
            StepKind::Cook if component.kind == ComponentKind::Filling => {
                warns(Caution::HotCustard);
            }
            // Sugar on the hob, or jam, which is mostly sugar.
            StepKind::Cook if component.kind == ComponentKind::Glaze => warns(Caution::HotSugar),
            _ => {}
        }
        if egg && matches!(step.kind, StepKind::Mix | StepKind::Cook | StepKind::Wash) {
            warns(Caution::RawEgg);
        }
        if holds(component, FoodKind::Nut) && step.kind == StepKind::Cook && !egg {
            warns(Caution::Allergens);
        }
        let bake = only(formula, StepKind::Bake);
        let loads = bake.after.iter().any(|link| link.step == step.id);
        let touches_the_hot_bread = matches!(step.kind, StepKind::Prepare | StepKind::Finish)
            && step.after.iter().any(|link| link.step == bake.id);
        if loads || touches_the_hot_bread {
            warns(Caution::HotOven);
        }
    });
}
