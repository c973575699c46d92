//! Milk and egg that are needed long after the rest is gathered stay in the fridge until then. The limit is the two-hour
//! rule of the USDA's FSIS.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, PERISHABLE_LIMIT, Wishes};
use domain::formula::{ComponentKind, StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Timetable, What};
use domain::schedule::{spoiling, weighed_out};
use domain::units::{Moment, minutes};

use super::asked::{hours, planned};
use super::{NINE, TABLES};

fn step(bake: &Bake, kind: StepKind) -> StepId {
    let mut steps = bake.state().formula.steps.iter();
    steps.find(|step| step.kind == kind).expect("it has one").id
}

fn item(plan: &Timetable, step: StepId) -> (Moment, Moment) {
    let item = plan.plan.item(What::Step(0, step)).expect("it is planned");
    (item.start, item.end)
}

/// What stays in the fridge, by what it is for, and until when.
fn told(bake: &Bake, plan: &Timetable) -> Vec<(ComponentKind, Moment)> {
    let state = bake.state();
    let parts = plan.plan.stay_in_fridge(0, state).into_iter();
    let kind = |component| state.formula.component(component).expect("it has it").kind;
    parts
        .map(|part| (kind(part.component), part.until))
        .collect()
}

#[test]
fn what_is_needed_within_two_hours_is_gathered_and_what_is_needed_later_stays() {
    for id in TABLES[..3].concat() {
        let bake = begin(starter(id), Kitchen::UNMEASURED, NINE);
        let plan = planned(std::slice::from_ref(&bake), NINE).expect("there is a plan");
        let gathered = item(&plan, step(&bake, StepKind::Gather)).1;
        let state = bake.state();
        let told = told(&bake, &plan);
        let mut expected = Vec::new();
        for part in &state.formula.components {
            let uses = plan.plan.items.iter().find(|item| {
                let of = item
                    .what
                    .of()
                    .and_then(|(_, step)| state.formula.step(step));
                of.is_some_and(|step| {
                    step.component == part.id && step.is_hands() && step.kind != StepKind::Gather
                })
            });
            let until = uses.expect("all of it is used").start;
            if until - gathered > PERISHABLE_LIMIT && spoiling(part).count() > 0 {
                expected.push((part.kind, until));
            }
        }
        expected.sort_by_key(|&(_, until)| until);
        assert_eq!(told, expected, "{id}");
        // A wash is brushed on hours later, of whatever dough.
        assert!(
            told.iter().any(|&(kind, _)| kind == ComponentKind::Wash),
            "{id}"
        );
    }
}

#[test]
fn a_dough_that_is_mixed_after_a_day_out_has_its_milk_and_egg_in_the_fridge() {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let (gather, mix) = (step(&bake, StepKind::Gather), step(&bake, StepKind::Mix));
    let wishes = Wishes {
        away: vec![(NINE + hours(1.0), NINE + hours(9.0))],
        ..Wishes::default()
    };
    say(&mut bake, Intent::Wish(Box::new(wishes)), NINE);
    say(&mut bake, Intent::Pin(mix, Some(NINE + hours(9.5))), NINE);
    let plan = planned(std::slice::from_ref(&bake), NINE).expect("there is a plan");
    let dough = |bake: &Bake, plan: &Timetable| {
        let mut told = told(bake, plan).into_iter();
        told.find(|&(kind, _)| kind == ComponentKind::Dough)
    };
    let until = NINE + hours(9.5);
    assert_eq!(dough(&bake, &plan), Some((ComponentKind::Dough, until)));
    // In heat an hour is too long already, and what is gathered was told of before.
    say(&mut bake, Intent::Done(gather), NINE + minutes(20.0));
    let plan = planned(std::slice::from_ref(&bake), NINE + minutes(20.0)).expect("there is a plan");
    assert_eq!(told(&bake, &plan), []);
}

/// Who was told to leave it in the fridge until a call has it out from the call on, and who wasn't from the weighing on.
#[test]
fn what_stayed_in_the_fridge_stands_out_from_when_it_was_needed() {
    let mut bake = begin(starter("orange-braid"), Kitchen::UNMEASURED, NINE);
    let (gather, mix) = (step(&bake, StepKind::Gather), step(&bake, StepKind::Mix));
    say(&mut bake, Intent::Done(gather), NINE);
    let out = |after: f64, called: Option<f64>| {
        let called = called.map(|called| NINE + hours(called));
        !weighed_out(bake.state(), mix, NINE + hours(after), called).is_empty()
    };
    assert!(out(9.0, None));
    assert!(!out(9.5, Some(9.0)));
    assert!(!out(11.0, Some(9.0)));
    assert!(out(11.1, Some(9.0)));
    assert!(out(2.5, Some(1.5)));
    assert!(!out(2.0, Some(1.5)));
}
