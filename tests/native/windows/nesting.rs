//! Windows nest: what holds the truth one time in two lies inside what holds it four times in five, whatever is forecast.

use std::fmt::Debug;
use std::ops::{Add, Mul, Sub};

use checks::baker::Point;
use domain::bake::{Intent, State};
use domain::estimate::Estimate;
use domain::schedule::{outline, running};
use domain::thermal::liquid::liquid_temperature;
use domain::units::{Celsius, Moment, minutes, share};

use super::measured::{after, all_points};

/// How many windows of each kind were looked at.
#[derive(Default)]
struct Seen {
    moments: usize,
    lengths: usize,
    temperatures: usize,
    shares: usize,
}

fn nests<T, D>(what: &str, window: &Estimate<T>) -> usize
where
    T: Copy + PartialOrd + Debug + Sub<T, Output = D> + Add<D, Output = T> + Sub<D, Output = T>,
    D: Mul<f64, Output = D>,
{
    let (quarter, three_quarters) = window.middle_half();
    let inside = window.low() <= quarter && three_quarters <= window.high();
    let middle = quarter <= window.likely() && window.likely() <= three_quarters;
    assert!(inside && middle, "{what}: {window:?}");
    1
}

impl Seen {
    fn state(&mut self, state: &State, now: Moment) {
        for forecast in running(state, now) {
            self.moments += nests("a step that goes on", &forecast.window);
        }
        for step in &state.formula.steps {
            self.lengths += nests(&step.title, &state.length_if_started(step, now));
            let Some(drawn) = state.drawn(step.id, now) else {
                continue;
            };
            self.moments += nests("a drawn rise", &drawn.window);
            for point in &drawn.points {
                self.temperatures += nests("a drawn dough", &point.dough);
                // Shares have no differences of their own.
                self.shares += nests(
                    "a drawn way",
                    &point.progress.map(|share| minutes(share.get())),
                );
            }
        }
        self.moments += nests("the table", &outline(state, now).table);
        for component in &state.formula.components {
            let question = state.formula.liquid_question(component.id, &state.kitchen);
            let answer = question.and_then(|question| liquid_temperature(&question));
            if let Some(answer) = answer {
                self.temperatures += nests("the dough", &answer.dough);
                self.temperatures += nests("the dough of a milder liquid", &answer.mild_dough);
            }
        }
    }
}

#[test]
fn windows_of_every_kind_nest() {
    let mut seen = Seen::default();
    for Point { bake, now, .. } in all_points() {
        let now = now + minutes(9.0);
        seen.state(bake.state(), now);
        for forecast in running(bake.state(), now) {
            let step = forecast.step;
            let found = [
                Intent::CoreIs(step, Celsius::clamped(60.0)),
                Intent::RiseIs(step, share(0.4), minutes(2.0)),
            ];
            for intent in found {
                if domain::bake::decide(&bake, intent.clone(), now).is_ok() {
                    seen.state(after(&bake, intent, now).state(), now);
                }
            }
        }
    }
    let Seen {
        moments,
        lengths,
        temperatures,
        shares,
    } = seen;
    for many in [moments, lengths, temperatures, shares] {
        assert!(many > 100, "{moments} {lengths} {temperatures} {shares}");
    }
}
