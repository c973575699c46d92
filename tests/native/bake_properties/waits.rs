//! Waits that the baker ends, puts off or leaves out, wherever they stand. The rules are our own.

use domain::bake::{AlarmKind, Bake, How, Intent, alarms};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::running;
use domain::units::{Moment, celsius, minutes};
use proptest::prelude::*;

use super::days::{Move, NINE, any_kitchen, any_move, follow, quietly, start};
use super::{derive_all, same_state, say};

/// No two intents share a millisecond, so a few of them may pass.
const PRESSES_MIN: f64 = 0.001;

/// A bake after so many moves, and the moment then.
fn after(which: usize, kitchen: Kitchen, moves: Vec<Move>) -> (Bake, Moment) {
    let mut bake = start(which, kitchen);
    let mut now = bake.state().started;
    for step in moves {
        now = follow(&mut bake, step, now);
    }
    (bake, now)
}

proptest! {
    #![proptest_config(quietly(96))]

    #[test]
    fn a_wait_put_off_calls_so_much_later_than_it_would_have(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..60),
        pick in 0_usize..8,
        by in 1_u32..60,
    ) {
        let (mut bake, now) = after(which, kitchen, moves);
        let going = running(bake.state(), now);
        prop_assume!(!going.is_empty());
        let before = &going[pick % going.len()];
        let by = minutes(f64::from(by));
        let was = bake.state().clone();
        say(&mut bake, Intent::NotYet(before.step, by), now).expect("it goes on");
        let after = bake.state().forecast(before.step, now).expect("it still goes on");
        let moved = after.look - (before.look.max(now) + by);
        prop_assert!((0.0..PRESSES_MIN).contains(&moved.get()), "{moved:?}");
        prop_assert_eq!(&after.window, &before.window);
        let calls = alarms(bake.state(), now).into_iter().filter(|alarm| {
            alarm.kind == AlarmKind::Check && alarm.step == Some(before.step)
        });
        prop_assert!(calls.into_iter().all(|alarm| alarm.due >= after.look));
        derive_all(&bake, now);
        say(&mut bake, Intent::Undo, now).expect("it can be taken back");
        prop_assert!(same_state(bake.state(), &was));
    }

    #[test]
    fn a_wait_can_be_left_out_at_any_moment_and_comes_back_as_it_was(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..60),
        pick in 0_usize..8,
    ) {
        let (mut bake, now) = after(which, kitchen, moves);
        let going = running(bake.state(), now);
        prop_assume!(!going.is_empty());
        let step = going[pick % going.len()].step;
        let was = bake.state().clone();
        say(&mut bake, Intent::Skip(step), now).expect("it goes on");
        let ended = bake.state().progress(step).ended.expect("it was left out");
        prop_assert_eq!(ended.how, How::Skipped);
        // What spoils has an alarm of its own, which leaving something out never ends.
        let mut left = alarms(bake.state(), now).into_iter();
        prop_assert!(left.all(|alarm| alarm.step != Some(step) || alarm.kind == AlarmKind::Perishable));
        for standing in was.standing() {
            let still = bake.state().standing().into_iter();
            let since = still.map(|still| still.since).min();
            prop_assert!(since.is_some_and(|since| since <= standing.since));
        }
        derive_all(&bake, now);
        say(&mut bake, Intent::Undo, now).expect("it can be taken back");
        prop_assert!(same_state(bake.state(), &was));
    }
}

/// The loaf's night in the fridge.
const NIGHT: StepId = StepId(9);

#[test]
fn a_dough_whose_night_in_the_fridge_was_left_out_is_as_warm_as_the_kitchen() {
    let formulas = records::starters::all();
    let loaf = formulas
        .iter()
        .position(|formula| formula.id.0 == "overnight-tin-loaf");
    let loaf = loaf.expect("a starter of that name");
    let kitchen = Kitchen {
        air: celsius(22.0),
        ..Kitchen::UNMEASURED
    };
    // Everything but the night goes the same way, and the last rise begins within the hour.
    let last_rise = |leave_out: bool| {
        let mut bake = start(loaf, kitchen);
        let steps = bake.state().formula.steps.clone();
        let proof = steps.iter().find(|step| step.kind == StepKind::FinalProof);
        let proof = proof.expect("a loaf proofs").id;
        let mut now = NINE;
        for step in &steps {
            if step.id == proof {
                break;
            }
            now = now + minutes(3.0);
            let intent = if step.id != NIGHT {
                Intent::Done(step.id)
            } else if leave_out {
                Intent::Skip(step.id)
            } else {
                now = now + minutes(570.0);
                Intent::Done(step.id)
            };
            say(&mut bake, intent, now).expect("the steps stand in order");
        }
        let forecast = bake.state().forecast(proof, now).expect("it rises");
        match forecast.reason {
            domain::bake::Reason::Yeast { dough, .. } => dough,
            other => panic!("a rise that rests on {other:?}"),
        }
    };
    assert!(last_rise(false) < celsius(10.0));
    assert!(last_rise(true) > celsius(20.0));
}
