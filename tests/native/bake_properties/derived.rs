//! Everything that is derived from a state, and what must hold of it.

use domain::bake::{Bake, State, alarms};
use domain::formula::{Link, StepId};
use domain::notebook::summary;
use domain::schedule::plan::{Bounds, plan};
use domain::schedule::{focus, likely_outline, offers, outline, running};
use domain::units::Moment;

use crate::planned::keeps;

/// Everything that is derived from a state, which must not panic.
pub(super) fn derive_all(bake: &Bake, now: Moment) {
    let state = bake.state();
    let ask = focus(state, now);
    assert!(ask.step().is_none_or(|step| state.is_open(step)));
    for step in offers(state, now) {
        assert!(state.is_open(step));
    }
    for forecast in running(state, now) {
        assert!(state.is_open(forecast.step));
    }
    let alarms = alarms(state, now);
    assert!(alarms.is_sorted_by_key(|alarm| alarm.due));
    let summary = summary(bake, &[]);
    assert_eq!(summary.rows.len(), state.formula.steps.len());
    check_outline(state, now);
    check_plan(state, now);
}

/// There is a plan, whatever has happened, and it keeps to what it should.
fn check_plan(state: &State, now: Moment) {
    let plan = plan(&[state], Bounds::default(), now, None, &mut || true);
    let kept = keeps::check(&[state], &plan.expect("there is one"), now, &[]);
    assert_eq!(kept, Ok(()));
}

/// Every step once, hands at one thing at a time, links kept, and nothing in the past.
fn check_outline(state: &State, now: Moment) {
    let outline = outline(state, now);
    let mut planned: Vec<StepId> = outline.steps.iter().map(|planned| planned.step).collect();
    planned.sort();
    let mut left: Vec<StepId> = state.formula.steps.iter().map(|step| step.id).collect();
    left.retain(|&step| state.progress(step).ended.is_none());
    left.sort();
    assert_eq!(planned, left);

    // Without its windows it has the same likely moments.
    let likely = likely_outline(state, now);
    for (one, other) in outline.steps.iter().zip(&likely.steps) {
        assert_eq!(one.step, other.step);
        let apart = [one.start - other.start, one.end - other.end];
        assert!(
            apart.iter().all(|apart| apart.get().abs() < 0.01),
            "{one:?} {other:?}"
        );
    }

    let mut hands_free = now;
    for planned in &outline.steps {
        let step = state.formula.step(planned.step).expect("just listed");
        assert!(planned.start <= planned.end);
        assert!(planned.end >= now);
        if step.is_hands() {
            // What the hands are in the middle of began before.
            let at_work = state.at_work(now).is_some_and(|work| work.step == step.id);
            assert!(at_work || planned.start >= hands_free, "two things at once");
            hands_free = planned.end;
        } else if !state.is_open(step.id) {
            assert!(planned.start >= now);
        }
        let follows = |link: &Link| match state.progress(link.step).ended {
            Some(ended) => planned.start >= ended.at + link.least || planned.start == now,
            None => {
                let mut others = outline.steps.iter();
                let other = others.find(|other| other.step == link.step);
                let end = other.expect("left, so planned").end;
                planned.start >= end + link.least
            }
        };
        assert!(step.after.iter().all(follows), "{} too early", step.title);
    }
    assert!(
        outline
            .steps
            .iter()
            .all(|planned| planned.end <= outline.table.likely())
    );
}
