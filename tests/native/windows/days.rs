//! The window of a whole bake against days that are drawn with one kitchen each.
//!
//! A kitchen that is colder than said is so all day, and makes every rise in it longer. What else is uncertain
//! about a step is its own: its window without the kitchen's part, in logarithms. The kitchen's part isn't taken from
//! the windows but from the bake itself, planned anew in a kitchen that is so much colder or warmer.

use checks::begin;
use domain::estimate::Estimate;
use domain::formula::{Formula, StepId};
use domain::kitchen::Kitchen;
use domain::schedule::{Outline, Planned, outline};
use domain::thermal::constants::UNMEASURED_AIR;
use domain::units::{Celsius, celsius};
use records::starters;

use super::sample::{Allowed, Coverage, Draws, hold};
use super::{DRAWS, START};

/// So far a kitchen's error is followed, in its tenth percentiles, and in such steps.
const FARTHEST: f64 = 3.0;
const STEP: f64 = 0.5;

/// A bake from now on in kitchens that are off.
struct Kitchens(Vec<Outline>);

impl Kitchens {
    fn of(formula: &Formula, air: Celsius) -> Self {
        let steps = (2.0 * FARTHEST / STEP) as i32;
        let planned = (0..=steps).map(|step| {
            let off = f64::from(step) * STEP - FARTHEST;
            let kitchen = Kitchen {
                air: air + UNMEASURED_AIR * off,
                ..Kitchen::UNMEASURED
            };
            outline(begin(formula.clone(), kitchen, START).state(), START)
        });
        Self(planned.collect())
    }

    fn as_said(&self) -> &Outline {
        &self.0[self.0.len() / 2]
    }

    /// What a kitchen so many tenth percentiles warmer makes of something, between those that were planned.
    fn at(&self, off: f64, of: &dyn Fn(&Outline) -> f64) -> f64 {
        let place = ((off + FARTHEST) / STEP).clamp(0.0, (self.0.len() - 1) as f64);
        let before = (place as usize).min(self.0.len() - 2);
        let (one, other) = (of(&self.0[before]), of(&self.0[before + 1]));
        one + (place - before as f64) * (other - one)
    }
}

fn planned(outline: &Outline, step: StepId) -> Planned {
    let mut steps = outline.steps.iter();
    *steps.find(|planned| planned.step == step).expect("planned")
}

fn length(outline: &Outline, step: StepId) -> f64 {
    let planned = planned(outline, step);
    (planned.end - planned.start).get()
}

/// The steps that the end hangs on.
fn chain(outline: &Outline) -> Vec<StepId> {
    let last = outline.steps.iter().max_by_key(|planned| planned.end);
    let first = last.map(|planned| planned.step);
    std::iter::successors(first, |&step| planned(outline, step).waited_for).collect()
}

/// How far a step's end is off to either side for other reasons than the kitchen, in logarithms.
fn own(kitchens: &Kitchens, step: StepId) -> (StepId, f64, f64) {
    let likely = |off| kitchens.at(off, &|outline| length(outline, step));
    let slack = planned(kitchens.as_said(), step).slack;
    let whole = likely(0.0).max(1e-3);
    let (mut early, mut late) = (0.0, 0.0);
    for off in [-1.0, 1.0] {
        let apart = (likely(off).max(1e-3) / whole).ln();
        *if apart < 0.0 { &mut early } else { &mut late } += apart * apart;
    }
    let without = |end: f64, kitchen: f64| (end.max(1e-3).ln().powi(2) - kitchen).max(0.0).sqrt();
    (
        step,
        without(1.0 - slack.0.get() / whole, early),
        without(1.0 + slack.1.get() / whole, late),
    )
}

/// A bake in a kitchen, with days that are drawn for it: with one kitchen each, or with another at every step.
struct Bake {
    name: String,
    window: Estimate<f64>,
    days: [Vec<f64>; 2],
}

fn bakes() -> Vec<Bake> {
    let mut bakes = Vec::new();
    for (formula, seed) in starters::all().into_iter().zip(1..) {
        for air in [18.0, 22.0, 26.0] {
            let kitchens = Kitchens::of(&formula, celsius(air));
            let said = kitchens.as_said();
            let steps = chain(said).into_iter();
            let own: Vec<_> = steps.map(|step| own(&kitchens, step)).collect();
            let mut draws = Draws::seeded(seed);
            let mut day = |one_kitchen: bool| {
                let off = draws.tenths();
                let table = |outline: &Outline| (outline.table.likely() - START).get();
                let mut end = kitchens.at(if one_kitchen { off } else { 0.0 }, &table);
                for &(step, early, late) in &own {
                    let length = |off| kitchens.at(off, &|outline| length(outline, step));
                    let by = draws.tenths();
                    let by = (by * if by < 0.0 { early } else { late }).exp();
                    end += if one_kitchen {
                        length(off) * (by - 1.0)
                    } else {
                        length(draws.tenths()) * by - length(0.0)
                    };
                }
                end
            };
            let days = [true, false].map(|one| (0..DRAWS).map(|_| day(one)).collect());
            bakes.push(Bake {
                name: format!("{}, {air} °C", formula.id.0),
                window: said.table.map(|end| (end - START).get()),
                days,
            });
        }
    }
    bakes
}

#[test]
fn the_tables_window_holds_days_with_one_kitchen_each() {
    let mut cases = Vec::new();
    for bake in bakes() {
        let [one, each] = bake.days.map(|days| Coverage::of(&bake.window, &days));
        // That the kitchen is common moves an end by no more; what does is that most steps can take much longer than
        // likely and only a little less long, so that half of all days end later than the likely moments' sum.
        for (end, common, apart) in [("low", one.low, each.low), ("high", one.high, each.high)] {
            let (name, off) = (&bake.name, common - apart);
            println!("whole bakes, {name}, {end}: one kitchen adds {off:.1} points");
            assert!(off.abs() < 2.5, "{name}, {end}: {off}");
        }
        cases.push((bake.name, one));
    }
    // What lies before the low end is 4 to 8 %, and beyond the high end 11 to 17 %.
    let allowed = Allowed {
        ends: 8.0,
        inside: 21.0,
    };
    hold("whole bakes", cases, &allowed);
}
