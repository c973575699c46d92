//! When a dough has had enough: the integral of yeast's rate along its temperature.
//!
//! A formula says how long a step takes at a temperature: so many *reference
//! minutes*. A dough at temperature T gains them at the rate
//!
//! `dm/dt = γ(T(t)) / γ(T_ref)`
//!
//! - m: reference minutes had; t: minutes
//! - γ: relative rate of yeast, [`relative_rate`](super::activity::relative_rate) with [`Cardinals::DOUGH`]
//! - T(t): the mean temperature of the dough in its [`Vessel`], in °C
//!
//! and the step ends when m is what the formula asks for. What has been gained
//! stays gained: a change of the surroundings acts from its moment on.
//!
//! The integral is summed by three-point Gauss quadrature over the course's own
//! steps, which start small after each change of surroundings and never cross
//! one. Against the heat equation solved another way it is right to 0.00002 of its value.
//!
//! # The window
//!
//! These are uncertain, each with a tenth and a ninetieth percentile: the
//! formula's own range, the dough's temperature at the start, how much yeast
//! minds the cold, how fast the dough follows its surroundings, and how warm each
//! of those is: kitchen, fridge, and a place by itself. One error of the kitchen is
//! common to all the time in it, and to what it has made of the dough before. Each is
//! moved alone to both percentiles, the proof is reckoned again, and the
//! distances of the logarithm of the time from the likely one are added in
//! quadrature, those to earlier and those to later apart. There are no random
//! numbers, so the same inputs give the same window. Of a sample of all inputs at
//! once a tenth lies beyond either end, within three percentage points and down
//! to a larder at 8 °C. Where the dough comes nearer to standing still the ends
//! are rough: one input alone then decides.
//!
//! What is measured or seen on the day moves and narrows it: [`Proof::measured`] and [`Proof::seen`].
//!
//! Left out: differences of temperature inside the dough, its heat of
//! fermentation, the yeast's lag and growth, and sugar, salt and dose (the
//! formula's time already holds them at its own reference).

mod backwards;
mod inputs;
mod meter;
mod seen;
mod trace;

pub use self::backwards::{COLDEST_RISE, Unmet, WARMEST_RISE};
pub(crate) use self::inputs::LAG_SPREAD;
pub use self::inputs::Learnt;
use self::inputs::{DOUGH, Inputs, LAG, RANGE, product};
use self::meter::{Case, Goal, Meter, reach};
pub use self::seen::Found;
pub use self::trace::Point;
use crate::estimate::{Basis, Estimate};
use crate::thermal::vessel::{Surroundings, Vessel};
use crate::units::{Celsius, CelsiusDelta, Minutes, Moment, Share, minutes};

/// How far ahead a proof is followed: five days.
pub const HORIZON: Minutes = minutes(5.0 * 24.0 * 60.0);

/// A dough that is fermenting, resting or proofing.
#[derive(Debug, Clone, PartialEq)]
pub struct Proof {
    /// The reference minutes that the formula asks for, at its reference temperature.
    pub range: Estimate<Minutes>,
    /// The temperature at which the formula's minutes are minutes of the clock.
    ///
    /// It should be a temperature at which dough is proofed, 15 °C or more; a
    /// cold retard is better given as a plain range of time.
    pub reference: Celsius,
    /// When the dough was at the temperature `dough`.
    pub start: Moment,
    /// The dough's temperature at the start, the same throughout.
    pub dough: Estimate<Celsius>,
    /// What is around it, from the start on.
    pub surroundings: Surroundings,
    /// How it follows its surroundings.
    pub vessel: Vessel,
    /// Reference minutes it already had at the start: 0 unless it was [measured](Self::measured) on the way.
    pub had: Minutes,
    /// What else is known of its inputs; nothing unless it was looked at, or [carries](Self::carrying) something.
    pub learnt: Learnt,
}

impl Proof {
    /// When it will be ready.
    ///
    /// What doesn't come within [`HORIZON`] of the start is given as that moment; see [`Self::stalls`].
    #[must_use]
    pub fn window(&self) -> Estimate<Moment> {
        let mut spreads = self.spreads();
        spreads.push((RANGE, self.ends(RANGE)));
        let mut goals = vec![Goal::of(self, &self.likely())];
        for (input, ends) in &spreads {
            if *input != LAG {
                goals.extend(ends.each_ref().map(|case| Goal::of(self, case)));
            }
        }
        reach(&mut goals);
        let mut reached = goals.iter().map(|goal| goal.after);
        let likely = reached.next().unwrap_or(HORIZON.get());
        let likely_log = self.log_of(likely);
        let mut apart = [[0.0; 2]; 7];
        for (input, ends) in &spreads {
            for (end, case) in ends.iter().enumerate() {
                let after = if *input == LAG { None } else { reached.next() };
                let log = after.map_or_else(|| self.log_after(case), |after| self.log_of(after));
                apart[*input][end] = log - likely_log;
            }
        }
        let (earlier, later) = self.learnt.together(&apart);
        // Whoever looked saw that it wasn't ready.
        let looked = self.learnt.at.map_or(0.0, |at| (at - self.start).get());
        let moment = |after: f64| self.start + Minutes::clamped(after.clamp(looked, HORIZON.get()));
        let at_log = |log: f64| moment(log.exp() - self.had.get());
        let basis = match self.dough.basis() {
            Basis::Measured => Basis::Measured,
            Basis::Formula | Basis::Model => Basis::Model,
        };
        Estimate::new(
            at_log(likely_log - earlier),
            moment(likely),
            at_log(likely_log + later),
            basis,
        )
    }

    /// Whether it is too cold, or too hot, ever to be ready within [`HORIZON`].
    #[must_use]
    pub fn stalls(&self) -> bool {
        self.ready_after(&self.likely()).is_none()
    }

    /// The reference minutes it has had at a moment.
    #[must_use]
    pub fn reference_minutes_at(&self, now: Moment) -> Minutes {
        Minutes::clamped(self.had_by(&self.likely(), now))
    }

    /// How far it is at a moment, as a share of the likely reference minutes.
    #[must_use]
    pub fn progress(&self, now: Moment) -> Share {
        let wanted = self.range.likely().get();
        if wanted <= 0.0 {
            return Share::MAX;
        }
        Share::clamped(self.reference_minutes_at(now).get() / wanted)
    }

    /// The moment at which it will have had so many reference minutes, at the latest [`HORIZON`] after the start.
    #[must_use]
    pub fn moment_when(&self, reference: Minutes) -> Moment {
        let case = Case {
            wanted: reference.get(),
            ..self.likely()
        };
        let after = self.ready_after(&case).unwrap_or(HORIZON.get());
        self.start + Minutes::clamped(after)
    }

    /// The dough's likely mean temperature at a moment.
    #[must_use]
    pub fn dough_at(&self, moment: Moment) -> Celsius {
        let meter = Meter::new(self, &self.likely());
        Celsius::clamped(meter.dough_after((moment - self.start).get()))
    }

    /// The same proof after someone took the dough's temperature.
    ///
    /// It keeps the reference minutes it has had and goes on from what was measured.
    #[must_use]
    pub fn measured(&self, at: Moment, dough: Estimate<Celsius>) -> Self {
        let mut learnt = self.learnt.clone();
        if !learnt.taken.is_empty() {
            // What was seen ties what it had to what it will need.
            learnt.had = self.slopes(&|case| self.had_by(case, at).max(1e-3).ln());
        }
        learnt.likely[DOUGH] = 0.0;
        learnt.carried = [0.0; 7];
        for taken in &mut learnt.taken {
            taken[DOUGH] = 0.0;
        }
        Self {
            start: at,
            dough,
            had: self.reference_minutes_at(at),
            learnt,
            ..self.clone()
        }
    }

    /// The same proof after the dough was poured into something else, as warm throughout as it was on average.
    ///
    /// Its inputs stay the same ones: each has made something of the dough and of what it has had
    /// by then, and goes on doing so.
    #[must_use]
    pub fn poured(&self, at: Moment, vessel: Vessel, surroundings: Surroundings) -> Self {
        let after = (at - self.start).get();
        let warmer = self.slopes(&|case| Meter::new(self, case).dough_after(after));
        let mut learnt = self.learnt.clone();
        learnt.had = self.slopes(&|case| self.had_by(case, at).max(1e-3).ln());
        let moved = product(&warmer, &learnt.likely);
        let dough = self.dough_at(at) - CelsiusDelta::clamped(moved);
        let off = CelsiusDelta::clamped(warmer[DOUGH]);
        learnt.carried = warmer;
        // The dough's own spread is its window.
        learnt.carried[DOUGH] = 0.0;
        Self {
            start: at,
            dough: Estimate::new(dough - off, dough, dough + off, self.dough.basis()),
            had: self.reference_minutes_at(at),
            surroundings,
            vessel,
            learnt,
            ..self.clone()
        }
    }

    /// How much the inputs but the range move something, each by its own spread.
    fn slopes(&self, of: &dyn Fn(&Case) -> f64) -> Inputs {
        let own = self.learnt.own();
        let mut slopes = [0.0; 7];
        for (input, [one, other]) in self.spreads() {
            slopes[input] = 0.5 * (of(&other) - of(&one)) / own[input];
        }
        slopes
    }

    /// The reference minutes that a case has had by a moment.
    fn had_by(&self, case: &Case, at: Moment) -> f64 {
        let until = (at - self.start).get().min(HORIZON.get());
        case.had + Meter::new(self, case).gained_after(until)
    }

    /// Minutes from the start until a case is ready, if that is within the horizon.
    fn ready_after(&self, case: &Case) -> Option<f64> {
        let mut goal = [Goal::of(self, case)];
        reach(&mut goal);
        (goal[0].after < HORIZON.get()).then_some(goal[0].after)
    }

    fn log_after(&self, case: &Case) -> f64 {
        self.log_of(self.ready_after(case).unwrap_or(HORIZON.get()))
    }

    /// The logarithm of the whole time, counting what was had before the start.
    fn log_of(&self, after: f64) -> f64 {
        // A proof of no length would have no logarithm; a second is as good as none.
        (self.had.get() + after).max(1.0 / 60.0).ln()
    }
}
