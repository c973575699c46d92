//! What is planned beside others that go first keeps out of their way.

use checks::say;
use domain::bake::{Bake, Intent, State};
use domain::formula::StepKind;
use domain::schedule::plan::{Bounds, Goal, Plan, What, plan};
use domain::units::{Minutes, Moment, minutes};

use super::keeps::check;
use super::levers::step_of;
use super::{NINE, begun, bounds, planned};

const BREADS: [[&str; 2]; 3] = [
    ["plum-almond-buns", "orange-braid"],
    ["orange-braid", "plum-almond-buns"],
    ["orange-braid", "orange-braid"],
];

/// Two plans as that of all their bakes, those of the second coming after those of the first.
fn both(first: &Plan, second: &Plan, place: usize) -> Plan {
    let mut all = first.clone();
    let items = second.items.iter().filter(|item| item.what != What::Away);
    all.items.extend(items.map(|item| {
        let mut item = *item;
        item.what = match item.what {
            What::Step(_, step) => What::Step(place, step),
            What::Fold(_, step, nth) => What::Fold(place, step, nth),
            What::Retard(_, step, part) => What::Retard(place, step, part),
            What::Kept(_, step) => What::Kept(place, step),
            What::Away => What::Away,
        };
        item
    }));
    for item in &mut all.items {
        item.waits_for = None;
    }
    all.items.sort_by_key(|item| item.start);
    all
}

/// A bread whose oven is on hours before it is put in, and the other one to begin so much later than the first.
fn beside(ids: [&str; 2], waits: Minutes, later: Minutes) -> (Vec<Bake>, Plan, Plan) {
    let mut bakes = begun(&ids);
    let (on, load) = {
        let steps = &bakes[0].state().formula.steps;
        let put_in = steps.iter().find(|step| step.kind == StepKind::Bake);
        let load = put_in.expect("it is baked").after[0].step;
        (step_of(&bakes[0], StepKind::OvenOn), load)
    };
    let free = planned(&bakes[..1], Goal::Soonest, &[], None);
    let start = |step| free.item(What::Step(0, step)).expect("planned").start;
    let (on_at, in_at) = (start(on), start(load) + waits);
    say(&mut bakes[0], Intent::Pin(on, Some(on_at)), NINE);
    say(&mut bakes[0], Intent::Pin(load, Some(in_at)), NINE);
    let of = |bakes: &[Bake], bounds: Bounds| {
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let found = plan(&states, bounds, NINE, None, &mut || true);
        found.expect("there is a plan")
    };
    let first = of(&bakes[..1], bounds(Goal::Soonest, &[]));
    let not_before: [Option<Moment>; 1] = [Some(NINE + later)];
    let others = [bakes[0].state()];
    let second = of(
        &bakes[1..],
        Bounds {
            beside: Some((&first, &others)),
            not_before: &not_before,
            ..bounds(Goal::Soonest, &[])
        },
    );
    (bakes, first, second)
}

/// An oven that is hot and still empty is the bread's that it is hot for.
#[test]
fn no_bread_is_baked_in_the_oven_that_was_heated_for_another() {
    let mut held_up = 0;
    for ids in BREADS {
        for waits in [100.0, 160.0] {
            for nth in 0..12 {
                let later = minutes(20.0 * f64::from(nth));
                let (bakes, first, second) = beside(ids, minutes(waits), later);
                let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
                let all = both(&first, &second, 1);
                assert_eq!(
                    check(&states, &all, NINE, &[]),
                    Ok(()),
                    "{ids:?}, {waits} min, {later:?}"
                );
                let of = |plan: &Plan, bake: usize, kind| {
                    let step = step_of(&bakes[bake], kind);
                    *plan.item(What::Step(bake, step)).expect("planned")
                };
                let hot = of(&all, 0, StepKind::OvenHeats).end;
                let taken = of(&all, 1, StepKind::OvenOn).start;
                let out = of(&all, 0, StepKind::Bake).end;
                held_up += usize::from(hot < taken && taken < out + minutes(10.0));
            }
        }
    }
    assert!(held_up > 0, "none would have had the time for it");
}
