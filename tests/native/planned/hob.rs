//! The rings of a hob, where what simmers needs nobody.

use checks::{begin, starter};
use domain::bake::{Bake, BakeId};
use domain::estimate::{Basis, Estimate};
use domain::formula::{Draft, Formula, Length, Link, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Goal, What};
use domain::units::{Minutes, minutes};

use super::{NINE, length, planned};

/// Most hobs have four rings (common practice, no source).
const RINGS: usize = 4;

/// A pot that is put on in a minute, simmers for half an hour by itself, and is served in a minute.
fn pot() -> Formula {
    let mut formula = Draft::clone(&starter("plum-almond-buns"));
    formula.steps.retain(|step| {
        matches!(
            step.kind,
            StepKind::Gather | StepKind::Cook | StepKind::Serve
        )
    });
    // Each of them once.
    formula.steps.dedup_by_key(|step| step.kind);
    let takes = |long: f64| Estimate::exact(minutes(long), Basis::Formula);
    let mut before = None;
    for step in &mut formula.steps {
        step.needs.hob = step.kind == StepKind::Cook;
        step.length = if step.needs.hob {
            Length::Wait(takes(30.0))
        } else {
            Length::Hands(takes(1.0))
        };
        let after = before.replace(step.id).map(|step| Link {
            step,
            least: minutes(0.0),
            greatest: None,
        });
        step.after = after.into_iter().collect();
    }
    Formula::new(formula).expect("it holds together")
}

/// How many simmer at once at the most, and how long it all takes.
fn made(pots: usize) -> (usize, Minutes) {
    let pot = |place: usize| {
        let mut bake: Bake = begin(pot(), Kitchen::UNMEASURED, NINE);
        bake.id = BakeId(place.to_string());
        bake
    };
    let bakes: Vec<Bake> = (0..pots).map(pot).collect();
    let plan = planned(&bakes, Goal::Soonest, &[], None);
    let simmer: Vec<_> = (0..pots)
        .map(|bake| {
            let steps = &bakes[bake].state().formula.steps;
            let step = steps.iter().find(|step| step.needs.hob);
            let what = What::Step(bake, step.expect("it simmers").id);
            *plan.item(what).expect("it is planned")
        })
        .collect();
    let at_once = simmer.iter().map(|one| {
        let on = simmer.iter();
        on.filter(|other| other.start <= one.start && one.start < other.end)
            .count()
    });
    (at_once.max().unwrap_or(0), length(&plan))
}

#[test]
fn a_fifth_pot_waits_for_a_ring() {
    // One is put on each minute, and the last of four is served half an hour after that.
    assert_eq!(made(RINGS), (RINGS, minutes(4.0 + 30.0 + 1.0)));
    // The fifth is put on the ring of the first, as soon as that is free: after 31 minutes.
    assert_eq!(made(RINGS + 1), (RINGS, minutes(31.0 + 30.0 + 1.0)));
}
