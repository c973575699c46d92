//! What temperatures may and may not do to the forecasts of a running bake.

use domain::bake::{Bake, Intent, State};
use domain::formula::{Length, Step, StepId};
use domain::kitchen::Kitchen;
use domain::schedule::focus;
use domain::units::{Celsius, Moment, minutes};
use proptest::prelude::*;

use super::days::{any_kitchen, any_move, follow, quietly, start};
use super::say;

fn ferments(state: &State) -> impl Iterator<Item = &Step> {
    let steps = state.formula.steps.iter();
    steps.filter(|step| matches!(step.length, Length::Ferment { .. }))
}

/// A bake after some moves, and how late it is.
fn any_day() -> impl Strategy<Value = (Bake, Moment)> {
    let moves = prop::collection::vec(any_move(), 0..50);
    (0_usize..3, any_kitchen(), moves).prop_map(|(which, kitchen, moves)| {
        let mut bake = start(which, kitchen);
        let mut now = bake.state().started;
        for one in moves {
            now = follow(&mut bake, one, now);
        }
        (bake, now)
    })
}

/// A bake in the midst of a fermentation, that far into its likely time.
pub(super) fn mid_proof() -> impl Strategy<Value = (Bake, StepId, Moment)> {
    (0_usize..3, any_kitchen(), 0_usize..3, 0.05..1.3_f64).prop_map(
        |(which, kitchen, nth, share)| {
            let mut bake = start(which, kitchen);
            let steps: Vec<StepId> = ferments(bake.state()).map(|step| step.id).collect();
            let wanted = steps[nth % steps.len()];
            let mut now = bake.state().started;
            while !bake.state().is_open(wanted) {
                let step = focus(bake.state(), now)
                    .step()
                    .expect("there is more to do");
                now = now + minutes(4.0);
                if let Some(forecast) = bake.state().forecast(step, now) {
                    now = now.max(forecast.look);
                }
                say(&mut bake, Intent::Done(step), now).expect("it was asked for");
            }
            let forecast = bake.state().forecast(wanted, now).expect("it goes on");
            let whole = forecast.window.likely() - forecast.start;
            now = now.max(forecast.start + whole * share);
            (bake, wanted, now)
        },
    )
}

/// Milliseconds round, and so do the moments made of them.
const ROUNDING_MS: i64 = 2;

fn not_before(later: Moment, earlier: Moment) -> bool {
    later.epoch_ms() + ROUNDING_MS >= earlier.epoch_ms()
}

proptest! {
    #![proptest_config(quietly(128))]

    #[test]
    fn a_colder_kitchen_never_shortens_a_rise_under_way(
        (bake, step, now) in mid_proof(),
        warmer in 8.0..34.0_f64,
        colder_by in 0.0..15.0_f64,
    ) {
        let end_in = |air: f64| {
            let mut bake = bake.clone();
            let said = say(&mut bake, Intent::KitchenIs(Celsius::clamped(air)), now);
            said.expect("kitchens have such temperatures");
            let forecast = bake.state().forecast(step, now).expect("it goes on");
            forecast.window
        };
        let (warm, cold) = (end_in(warmer), end_in(warmer - colder_by));
        prop_assert!(not_before(cold.likely(), warm.likely()));
    }

    #[test]
    fn a_colder_kitchen_never_shortens_any_rise_to_come(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        colder_by in 0.0..12.0_f64,
    ) {
        let colder = Kitchen {
            air: Celsius::clamped(kitchen.air.get() - colder_by),
            ..kitchen
        };
        let (warm, cold) = (start(which, kitchen), start(which, colder));
        let now = warm.state().started;
        for step in ferments(warm.state()) {
            let warm = warm.state().length_if_started(step, now);
            let cold = cold.state().length_if_started(step, now);
            prop_assert!(cold.likely().get() >= warm.likely().get() - 1e-4);
        }
    }

    #[test]
    fn what_has_been_proofed_stays_proofed_when_the_kitchen_changes(
        (mut bake, step, now) in mid_proof(),
        air in 2.0..36.0_f64,
    ) {
        let before = bake.clone();
        let intent = Intent::KitchenIs(Celsius::clamped(air));
        let at = say(&mut bake, intent, now).expect("kitchens have such temperatures")[0].at;
        let progress = |bake: &Bake, at| bake.state().forecast(step, at).expect("it goes on").progress;
        prop_assert!((progress(&before, at).get() - progress(&bake, at).get()).abs() < 1e-9);
        // Nor is anything changed that lies further back.
        let earlier = at - minutes(7.0);
        prop_assert!((progress(&before, earlier).get() - progress(&bake, earlier).get()).abs() < 1e-9);
    }

    #[test]
    fn what_has_been_proofed_stays_proofed_when_the_dough_is_measured(
        (mut bake, step, now) in mid_proof(),
        readings in prop::collection::vec((10.0..34.0_f64, 1.0..15.0_f64), 1..4),
    ) {
        let component = bake.state().formula.step(step).expect("it is a step").component;
        let progress = |bake: &Bake, at| bake.state().forecast(step, at).expect("it goes on").progress;
        let mut now = now;
        for (dough, later) in readings {
            now = now + minutes(later);
            let before = bake.clone();
            let intent = Intent::DoughIs(component, Celsius::clamped(dough));
            let at = say(&mut bake, intent, now).expect("doughs have such temperatures")[0].at;
            prop_assert!((progress(&before, at).get() - progress(&bake, at).get()).abs() < 1e-9);
        }
    }

    #[test]
    fn going_back_to_a_rise_keeps_what_has_been_proofed(
        (mut bake, step, now) in mid_proof(),
        more in 0_usize..4,
        meanwhile in 0.0..60.0_f64,
    ) {
        let risen_on = bake.clone();
        say(&mut bake, Intent::Done(step), now).expect("it goes on");
        let mut now = now;
        for _ in 0..more {
            let next = focus(bake.state(), now).step().expect("there is more to do");
            now = now + minutes(meanwhile / 4.0);
            say(&mut bake, Intent::Done(next), now).expect("it was asked for");
        }
        say(&mut bake, Intent::GoBack(step), now).expect("it had ended");
        let wanted = risen_on.state().forecast(step, now).expect("it went on");
        let got = bake.state().forecast(step, now).expect("it goes on again");
        prop_assert_eq!(got, wanted);
    }

    #[test]
    fn not_yet_moves_the_next_look(
        (mut bake, now) in any_day(),
        by in 1.0..120.0_f64,
    ) {
        let going_on: Vec<StepId> = domain::schedule::running(bake.state(), now)
            .iter()
            .map(|running| running.step)
            .collect();
        for step in going_on {
            let entries = say(&mut bake, Intent::NotYet(step, minutes(by)), now);
            let entries = entries.expect("it goes on");
            let asked_for = entries[0].at + minutes(by);
            let forecast = bake.state().forecast(step, now).expect("it goes on");
            prop_assert!(forecast.look >= asked_for);
            let alarms = domain::bake::alarms(bake.state(), now);
            let check = alarms.iter().find(|alarm| {
                alarm.step == Some(step) && alarm.kind == domain::bake::AlarmKind::Check
            });
            prop_assert!(check.is_none_or(|alarm| alarm.due >= asked_for));
        }
    }
}
