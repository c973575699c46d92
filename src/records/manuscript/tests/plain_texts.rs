//! The starters, written as plain texts of their own steps, come back.

use domain::formula::compose::{Said, SaidHeat, compose};
use domain::formula::manuscript::Manuscript;
use domain::formula::{ComponentKind, Formula, Length, Step, StepKind};

use super::UNTOLD;

/// A step as a text of the formula would have it.
fn said(step: &Step) -> Said {
    let (minutes, heat) = match &step.length {
        Length::Hands(window) | Length::Wait(window) => (Some(window), None),
        Length::Ferment {
            reference_minutes, ..
        } => (Some(reference_minutes), None),
        Length::Bake { oven, range, .. } => (Some(range), Some(*oven)),
        Length::Chill { .. } | Length::Cool { .. } | Length::OvenHeats { .. } => (None, None),
    };
    Said {
        text: format!("{} {}", step.instruction, step.detail),
        kind: Some(step.kind),
        component: Some(step.component),
        minutes: minutes.map(|window| (window.low(), window.high())),
        heat: heat.map(|written| SaidHeat {
            written,
            fan: false,
            is_assumed: false,
        }),
    }
}

fn of_dough<'a>(formula: &Formula, steps: impl Iterator<Item = &'a Step>) -> Vec<StepKind> {
    let plays = |step: &&Step| {
        let component = formula.component(step.component);
        component.map(|component| component.kind) == Some(ComponentKind::Dough)
    };
    steps.filter(plays).map(|step| step.kind).collect()
}

/// Steps that every dough needs, in the starters all of them `Prepare`.
fn is_told(step: &&Step, with_preparing: bool) -> bool {
    !UNTOLD.contains(&step.kind) && (with_preparing || step.kind != StepKind::Prepare)
}

#[test]
fn the_starters_come_back_from_plain_texts_of_their_steps() {
    for formula in crate::starters::all() {
        for with_preparing in [true, false] {
            let blank = Manuscript {
                steps: Vec::new(),
                ..Manuscript::from(&formula)
            };
            let told = formula.steps.iter();
            let told: Vec<Said> = told
                .filter(|step| is_told(step, with_preparing))
                .map(said)
                .collect();
            let composed = compose(&blank, &told);
            let steps = || composed.steps.iter().map(|line| &line.step);
            let expected = of_dough(&formula, formula.steps.iter());
            assert_eq!(of_dough(&formula, steps()), expected, "{}", formula.name);
            let whole = Manuscript {
                steps: composed.steps.clone(),
                ..blank
            };
            let again = whole.formula();
            assert!(again.is_ok(), "{}: {again:?}", formula.name);
        }
    }
}

/// Where the text tells a kind, a component, a time or a heat, none of these is assumed.
#[test]
fn what_a_text_tells_is_not_assumed() {
    for formula in crate::starters::all() {
        let blank = Manuscript {
            steps: Vec::new(),
            ..Manuscript::from(&formula)
        };
        let told = formula.steps.iter();
        let told: Vec<Said> = told.filter(|step| is_told(step, true)).map(said).collect();
        for line in compose(&blank, &told).steps {
            let step = &line.step;
            if line.assumed.whole {
                assert!(!is_told(&step, true), "{}: {step:?}", formula.name);
                continue;
            }
            assert!(!line.assumed.kind && !line.assumed.component, "{step:?}");
            if let Length::Bake { oven, range, .. } = step.length {
                let mut own = formula.steps.iter().map(|step| &step.length);
                let same = |own: &Length| {
                    matches!(own, Length::Bake { oven: same, range: window, .. }
                        if *same == oven && window.low() == range.low() && window.high() == range.high())
                };
                assert!(own.any(same), "{step:?}");
                assert!(!line.assumed.heat && !line.assumed.time);
            }
        }
    }
}
