//! What is overdue at one bread, or due at another.

use checks::{say, up_to};
use domain::bake::Intent;
use domain::formula::StepKind;
use domain::units::Moment;

use super::tests::{START, planned, two};
use super::*;

/// Both breads in their first rise, with nothing else to do; the buns begin so much later than the braid.
fn rising(later: Minutes) -> (Vec<Bake>, [StepId; 2], Moment) {
    let mut bakes = two();
    let quick = |_: StepKind| minutes(5.0);
    let (braid, _) = up_to(&mut bakes[1], StepKind::Bulk, START, quick);
    let (buns, now) = up_to(&mut bakes[0], StepKind::Bulk, START + later, quick);
    for bake in &mut bakes {
        while let Ask::Work(step) = focus(bake.state(), now) {
            say(bake, Intent::Done(step), now);
        }
    }
    (bakes, [buns, braid], now)
}

fn look(bake: &Bake, step: StepId, now: Moment) -> Moment {
    let forecast = bake.state().forecast(step, now);
    forecast.expect("it rises").look
}

#[test]
fn a_look_that_is_due_at_another_bread_leads_there() {
    let (mut bakes, [buns, braid], now) = rising(minutes(60.0));
    say(&mut bakes[0], Intent::SkipFold(buns), now);
    let late = look(&bakes[1], braid, now) + minutes(9.2);
    assert!(late < look(&bakes[0], buns, now));
    let plan = planned(&bakes, late, None);
    let shown = by_plan(&views(&bakes, late), Some(&plan));
    assert_eq!(shown[1].ask, Ask::Look(braid));
    assert_eq!(shown[0].by_plan.rests, Some(Ask::Wait(buns)));
    let there = (bakes[1].id.clone(), braid);
    assert_eq!(
        (shown[0].ask, &shown[0].by_plan.hands_at),
        (Ask::Idle, &Some(there))
    );
    // Whoever stays here does.
    say(&mut bakes[0], Intent::Pick(buns), late);
    let plan = planned(&bakes, late, Some(&plan));
    let shown = by_plan(&views(&bakes, late), Some(&plan));
    assert_eq!(shown[0].ask, Ask::Wait(buns));
}

/// Nobody divides a dough that nobody called ready, and nobody kneads one that isn't mixed.
#[test]
fn what_was_not_done_is_next_however_late_it_is() {
    let (bakes, [buns, _], now) = rising(minutes(0.0));
    let bakes = bakes[..1].to_vec();
    let steps = &bakes[0].state().formula.steps;
    let next_kind = |bakes: &[Bake], plan: &Planned, now: Moment| {
        let shown = by_plan(&views(bakes, now), Some(plan));
        let (_, step, at) = shown[0].by_plan.next.clone().expect("there is more to do");
        assert!(at >= now);
        bakes[0].state().formula.step(step).expect("it has it").kind
    };
    let divide = steps.iter().find(|step| step.kind == StepKind::Divide);
    assert!(divide.is_some());
    let ready = look(&bakes[0], buns, now);
    let mut plan = planned(&bakes, ready - minutes(5.0), None);
    for late in [0.3, 15.4, 48.7, 138.2] {
        let now = ready + minutes(late);
        plan = planned(&bakes, now, Some(&plan));
        let shown = by_plan(&views(&bakes, now), Some(&plan));
        assert!(matches!(shown[0].ask, Ask::Look(_) | Ask::Fold(_)));
        assert_eq!(next_kind(&bakes, &plan, now), StepKind::Divide, "{late}");
    }
    // A braid that nobody began to gather.
    let bakes = two()[1..].to_vec();
    let mut plan = planned(&bakes, START, None);
    for late in [1.4, 20.6, 42.3] {
        let now = START + minutes(late);
        plan = planned(&bakes, now, Some(&plan));
        assert_eq!(next_kind(&bakes, &plan, now), StepKind::Mix, "{late}");
    }
}

#[test]
fn a_fold_near_the_end_of_its_rise_is_better_left_out() {
    let (bakes, [buns, _], now) = rising(minutes(0.0));
    let of = |now: Moment| BakeView::of(&bakes[0], now);
    let forecast = bakes[0].state().forecast(buns, now).expect("it rises");
    let fold = forecast.folds[0];
    assert_eq!(of(fold).ask, Ask::Fold(buns));
    assert!(!of(fold).folds_too_late() && !of(fold + minutes(5.0)).folds_too_late());
    let rises = forecast.window.likely() - forecast.start;
    let near = forecast.start + rises * 0.8;
    assert_eq!(of(near).ask, Ask::Fold(buns));
    assert!(of(near).folds_too_late());
}
