//! A wish of one rise, through the whole bake that it is a part of.

use checks::assert_close;
use domain::formula::{Formula, Step, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::{if_started, rise_if_started, yeast_for};
use domain::units::{Moment, minutes};
use domain::yeast::proof::Unmet;
use records::starters;

use super::{START, rise, starter};

fn end_of(formula: &Formula, step: &Step) -> Moment {
    let outline = if_started(formula, &Kitchen::UNMEASURED, START).expect("it can start");
    let mut steps = outline.steps.iter();
    steps
        .find(|planned| planned.step == step.id)
        .expect("it is planned")
        .end
}

#[test]
fn a_rise_before_its_bake_is_the_outlines() {
    for formula in starters::all() {
        for step in &formula.steps {
            let rise = rise_if_started(&formula, &Kitchen::UNMEASURED, START, step.id);
            if let Some(rise) = rise {
                let (end, case) = (end_of(&formula, step), &step.title);
                assert_eq!(rise.window().likely(), end, "{}: {case}", formula.name);
            }
        }
    }
}

#[test]
fn through_the_whole_bake_a_first_rise_takes_the_yeast_of_its_proof_alone() {
    for id in ["plum-almond-buns", "orange-braid"] {
        let formula = starter(id);
        let step = rise(&formula, StepKind::Bulk);
        let proof = rise_if_started(&formula, &Kitchen::UNMEASURED, START, step.id)
            .expect("yeast works in it");
        let usual = proof.window().likely();
        for later in [-30.0, 0.0, 45.0, 120.0] {
            let ready = usual + minutes(later);
            let times = yeast_for(&formula, &Kitchen::UNMEASURED, START, step.id, ready);
            let (alone, times) = (proof.dose_for(ready), times.expect("in range"));
            // The dough that lost or gained grams of yeast cools a little quicker or slower.
            assert_close(id, times, alone.expect("in range"), 2e-3);
        }
    }
}

#[test]
fn through_the_whole_bake_every_rise_is_ready_at_the_wished_moment() {
    for formula in starters::all() {
        for kind in [StepKind::Bulk, StepKind::FinalProof] {
            let step = rise(&formula, kind);
            let usual = end_of(&formula, step);
            let mut last = f64::INFINITY;
            for later in [-20.0, 0.0, 40.0, 75.0] {
                let ready = usual + minutes(later);
                let times = yeast_for(&formula, &Kitchen::UNMEASURED, START, step.id, ready)
                    .expect("in range");
                let end = end_of(&formula.with_yeast(times, None), step);
                let case = format!("{}, {}, {later} min later", formula.name, step.title);
                assert!((end - ready).get().abs() < 0.2, "{case}: {:?}", end - ready);
                assert!(times < last, "{case}");
                last = times;
            }
            for (ready, expected) in [
                (START + minutes(40.0), Unmet::TooEarly),
                (usual + minutes(2000.0), Unmet::TooLate),
            ] {
                let refused = yeast_for(&formula, &Kitchen::UNMEASURED, START, step.id, ready);
                assert_eq!(refused, Err(expected), "{}", formula.name);
            }
        }
    }
}
