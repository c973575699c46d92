//! A rise is drawn as it is forecast, whatever was measured on the way.

use domain::bake::{Drawn, Intent};
use domain::formula::Length;
use domain::units::{Celsius, Moment, Share, minutes};
use domain::yeast::proof::Point;
use proptest::prelude::*;

use super::days::quietly;
use super::forecasts::mid_proof;
use super::say;

/// The newest point at a moment.
fn here(drawn: &Drawn, at: Moment) -> Option<Point> {
    drawn.points.iter().rfind(|point| point.at == at).copied()
}

proptest! {
    #![proptest_config(quietly(128))]

    #[test]
    fn a_rise_is_drawn_as_it_is_forecast(
        (mut bake, step, now) in mid_proof(),
        readings in prop::collection::vec((10.0..34.0_f64, 1.0..15.0_f64), 0..4),
        later in 0.0..200.0_f64,
    ) {
        let component = bake.state().formula.step(step).expect("it is a step").component;
        let mut now = now;
        for (dough, later) in readings {
            now = now + minutes(later);
            let intent = Intent::DoughIs(component, Celsius::clamped(dough));
            now = say(&mut bake, intent, now).expect("doughs have such temperatures")[0].at;
        }
        now = now + minutes(later);
        let state = bake.state();
        let forecast = state.forecast(step, now).expect("it goes on");
        let Some(drawn) = state.drawn(step, now) else {
            prop_assert!(forecast.stalls);
            return Ok(());
        };
        prop_assert_eq!(drawn.window, forecast.window);
        let points = &drawn.points;
        prop_assert_eq!(points[0].at, forecast.start);
        prop_assert_eq!(points[points.len() - 1].at, forecast.window.high().max(now));
        prop_assert!(points.windows(2).all(|pair| pair[0].at <= pair[1].at));

        let here = points.iter().rfind(|point| point.at == now).expect("now is one of them");
        prop_assert!((here.progress.likely().get() - forecast.progress.get()).abs() < 1e-3);
        for pair in points.windows(2) {
            let (before, after) = (pair[0].progress.likely(), pair[1].progress.likely());
            prop_assert!(before.get() <= after.get() + 1e-4, "{before:?} {after:?}");
        }
        // From a reading on, the dough is what was read, unless it had risen enough before.
        let told = drawn.readings.iter().filter(|&&(at, _)| at < drawn.window.likely());
        for &(at, read) in told {
            let found = points.iter().rfind(|point| point.at == at).expect("a reading is one of them");
            prop_assert!((found.dough.likely() - read).get().abs() < 1e-6);
        }
        prop_assert!(drawn.folds.starts_with(&forecast.folds));
    }

    /// A look is weighed with what was believed: from then on the line lies between the two, and is surer.
    #[test]
    fn a_look_is_a_step_of_the_line_towards_what_was_seen(
        (mut bake, step, now) in mid_proof(),
        seen in 0.1..0.95_f64,
    ) {
        let before = bake.state().drawn(step, now);
        let Some(believed) = before.and_then(|drawn| here(&drawn, now)) else {
            return Ok(());
        };
        // A slip of the finger counts for less, and what has hardly begun or is ready isn't looked at.
        let way = believed.progress.likely().get();
        if believed.progress.high().get() > 0.99 || way < 0.05 || (seen / way).ln().abs() > 1.0 {
            return Ok(());
        }
        let intent = Intent::RiseIs(step, Share::clamped(seen), minutes(0.0));
        say(&mut bake, intent, now).expect("it rises");
        let drawn = bake.state().drawn(step, now).expect("it can be drawn still");
        let at_once: Vec<Point> = drawn.points.iter().filter(|point| point.at == now).copied().collect();
        let off = at_once[0].progress.likely().get() - way;
        prop_assert!(at_once.len() > 1 && off.abs() < 1e-6, "what was believed until then is drawn: {off}");
        let found = here(&drawn, now).expect("now is one of them");
        let between = (way.min(seen) - 0.01)..=(way.max(seen) + 0.01);
        prop_assert!(between.contains(&found.progress.likely().get()), "{way} {seen} {found:?}");
        // Of what has come further than was thought as a logarithm, for further on the band is wider of itself; of
        // what has come less far, and so is colder and slower than was thought, by the way itself.
        let width = |point: &Point| {
            let [low, high] = [point.progress.low(), point.progress.high()].map(Share::get);
            if seen > way { (high / low).ln() } else { high - low }
        };
        prop_assert!(width(&found) < width(&believed), "{seen} {believed:?} {found:?}");
        prop_assert!(drawn.window.low() >= now);
    }

    #[test]
    fn what_has_not_begun_is_drawn_as_if_it_began_now((bake, step, now) in mid_proof()) {
        let state = bake.state();
        for other in &state.formula.steps {
            let drawn = state.drawn(other.id, now);
            let rises = matches!(other.length, Length::Ferment { .. });
            let ended = state.progress(other.id).ended.is_some();
            prop_assert!(drawn.is_none() || (rises && !ended));
            if let Some(drawn) = drawn.filter(|_| other.id != step) {
                let forecast = state.forecast_if_started(other, now);
                prop_assert_eq!(drawn.points[0].at, now);
                prop_assert_eq!(drawn.window, forecast.window);
                prop_assert_eq!(drawn.folds, forecast.folds);
            }
        }
    }
}

#[test]
fn a_rise_that_was_measured_shows_what_was_believed_and_what_was_found() {
    let mut bake = super::start(0, domain::kitchen::Kitchen::UNMEASURED);
    let rise = bake.state().formula.steps.iter();
    let rise = rise
        .clone()
        .find(|step| matches!(step.length, Length::Ferment { .. }));
    let (step, component) = rise
        .map(|step| (step.id, step.component))
        .expect("it rises");
    let mut now = bake.state().started;
    while !bake.state().is_open(step) {
        let next = domain::schedule::focus(bake.state(), now)
            .step()
            .expect("there is more to do");
        now = now + minutes(4.0);
        say(&mut bake, Intent::Done(next), now).expect("it was asked for");
    }
    now = now + minutes(20.0);
    let cold = Celsius::clamped(19.0);
    now = say(&mut bake, Intent::DoughIs(component, cold), now).expect("it is a dough")[0].at;
    let drawn = bake.state().drawn(step, now).expect("it rises");
    assert_eq!(drawn.readings, [(now, cold)]);
    let here: Vec<f64> = drawn
        .points
        .iter()
        .filter(|point| point.at == now)
        .map(|point| point.dough.likely().get())
        .collect();
    assert!(here[0] > 22.0, "it was believed to be warmer: {here:?}");
    let found = here.last().expect("a reading is one of them");
    assert!((found - 19.0).abs() < 1e-6, "{here:?}");
}
