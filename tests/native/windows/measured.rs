//! A measurement on the day narrows what remains: no window is wider after a reading that finds what was forecast.

use checks::baker::{Point, points};
use checks::starter;
use domain::bake::{Bake, Intent, Reason, decide};
use domain::estimate::{Basis, Estimate};
use domain::formula::{ComponentId, StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::running;
use domain::thermal::vessel::{Surroundings, Vessel};
use domain::units::{Celsius, Minutes, Moment, celsius, grams, minutes};
use domain::yeast::proof::{Learnt, Proof};
use proptest::prelude::*;

use super::{START, at, round};

/// Moments are whole milliseconds, so the ends of two windows may round apart.
const ROUNDING: Minutes = minutes(3.0 / 60_000.0);

fn width(window: &Estimate<Moment>) -> Minutes {
    window.high() - window.low()
}

pub(super) fn after(bake: &Bake, intent: Intent, now: Moment) -> Bake {
    let mut bake = bake.clone();
    bake.append(decide(&bake, intent, now).expect("it can be so"));
    bake
}

const STARTERS: [&str; 3] = ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"];

pub(super) fn all_points() -> Vec<Point> {
    let formulas = STARTERS.into_iter().map(starter);
    formulas
        .flat_map(|formula| points(formula, Kitchen::UNMEASURED, START))
        .collect()
}

/// Rises that go on, each with its dough and how warm that is now.
fn rises(bake: &Bake, now: Moment) -> Vec<(StepId, ComponentId, Celsius, Estimate<Moment>)> {
    let forecasts = running(bake.state(), now).into_iter();
    let rises = forecasts.filter_map(|forecast| match forecast.reason {
        Reason::Yeast { dough, .. } => {
            let step = bake.state().formula.step(forecast.step)?;
            Some((forecast.step, step.component, dough, forecast.window))
        }
        _ => None,
    });
    rises.collect()
}

#[test]
fn a_dough_measured_before_its_rise_narrows_it() {
    let mut seen = 0;
    for Point { bake, ask, now } in all_points() {
        let state = bake.state();
        let Some(step) = ask.step().and_then(|step| state.formula.step(step)) else {
            continue;
        };
        if step.kind != StepKind::TakeTemperature {
            continue;
        }
        let mut steps = state.formula.steps.iter();
        let rise =
            steps.find(|rise| rise.component == step.component && rise.kind == StepKind::Bulk);
        let rise = rise.expect("what is measured rises");
        let before = state.forecast_if_started(rise, now);
        let Reason::Yeast { dough, .. } = before.reason else {
            panic!("a rise rests on its yeast");
        };
        let measured = after(&bake, Intent::DoughIs(step.component, dough), now);
        let forecast = measured.state().forecast_if_started(rise, now);
        assert_eq!(forecast.window.basis(), Basis::Measured);
        // Two degrees either way have become half a degree.
        let narrower = width(&before.window) - width(&forecast.window);
        assert!(narrower > minutes(1.0), "{}: {narrower:?}", step.title);
        seen += 1;
    }
    assert_eq!(seen, STARTERS.len());
}

#[test]
fn a_dough_found_as_forecast_never_widens_its_rise() {
    let mut seen = 0;
    for Point { bake, now, .. } in all_points() {
        for later in [0.0, 10.0, 25.0] {
            let now = now + minutes(later);
            for (rise, component, dough, before) in rises(&bake, now) {
                let measured = after(&bake, Intent::DoughIs(component, dough), now);
                let mut rises = rises(&measured, now).into_iter();
                let (.., window) = rises.find(|(step, ..)| *step == rise).expect("it goes on");
                assert!(
                    width(&window) <= width(&before) + ROUNDING,
                    "{before:?} {window:?}"
                );
                seen += 1;
            }
        }
    }
    assert!(seen > 30, "only {seen} readings");
}

#[test]
fn a_kitchen_found_as_it_was_changes_no_window() {
    for Point { bake, now, .. } in all_points() {
        let now = now + minutes(7.0);
        let air = bake.state().kitchen.air;
        let measured = after(&bake, Intent::KitchenIs(air), now);
        let windows = |bake: &Bake| {
            let running = running(bake.state(), now).into_iter();
            running.map(|forecast| forecast.window).collect::<Vec<_>>()
        };
        for (before, window) in std::iter::zip(windows(&bake), windows(&measured)) {
            assert!(
                width(&window) <= width(&before) + ROUNDING,
                "{before:?} {window:?}"
            );
            let moved = (window.likely() - before.likely()).get().abs();
            assert!(moved <= ROUNDING.get(), "{before:?} {window:?}");
        }
    }
}

proptest! {
    #[test]
    fn a_reading_on_the_way_never_widens_a_proof(
        dough in 18.0..30.0_f64,
        off in 0.5..2.5_f64,
        kitchen in 15.0..30.0_f64,
        mass in 100.0..1500.0_f64,
        share in 0.05..0.95_f64,
    ) {
        let range = Estimate::new(minutes(80.0), minutes(95.0), minutes(115.0), Basis::Formula);
        let proof = Proof {
            range,
            reference: celsius(25.0),
            start: START,
            dough: round(celsius(dough), off),
            surroundings: Surroundings::constant(celsius(kitchen)),
            vessel: Vessel::dough_in_bowl(grams(mass)),
            had: minutes(0.0),
            learnt: Learnt::default(),
        };
        let before = proof.window();
        let taken = at(share * (before.likely() - START).get());
        let found = round(proof.dough_at(taken), 0.5);
        let window = proof.measured(taken, found).window();
        prop_assert!(width(&window) <= width(&before) + ROUNDING, "{:?} {:?}", before, window);
    }
}
