//! The reverse question: what makes a dough ready at a wished moment.
//!
//! A proof that asks for m reference minutes gains so many by the moment; call them g.
//!
//! - **dose**: with a pace p it asks for `m / p`, so `p = m / g`, and the [dose](super::super::dose)
//!   that has this pace follows from its equation. No search is needed.
//! - **temperature**: g rises with a constant temperature of the surroundings, up to the yeast's
//!   optimum at 38 °C. The one with g = m is found between [`COLDEST_RISE`] and [`WARMEST_RISE`].
//! - **fridge first**: g falls with the time that the dough lies in a fridge before it comes into the
//!   kitchen. The dough is followed all the way, so a middle that is still warm goes on rising in
//!   the fridge, and a cold one is late to start in the kitchen.
//!
//! Every answer is for the likely values of all that is uncertain; what it does to the window, the
//! proof that follows from it says. Reckoned forwards again, each is ready within a
//! second of the moment.
//!
//! Left out: what another temperature or a long time in the cold does to taste and to gluten.

use super::{HORIZON, Proof};
use crate::thermal::crossing::crossing;
use crate::thermal::vessel::Surroundings;
use crate::units::{Celsius, Minutes, Moment, celsius};
use crate::yeast::dose;

/// The coldest surroundings that are answered with: a fridge.
pub const COLDEST_RISE: Celsius = celsius(4.0);

/// The warmest surroundings that are answered with: warmer ones soften butter, and dough to paste.
///
/// ASSUMPTION: common practice, no source. It lies below the yeast's optimum, as it must.
pub const WARMEST_RISE: Celsius = celsius(35.0);

/// Why something can't make a dough ready at a moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unmet {
    /// The moment is too early: it isn't ready by then, whatever is done of it.
    TooEarly,
    /// The moment is too late: it is ready before, whatever is done of it.
    TooLate,
}

impl Proof {
    /// The same proof with so many times the yeast.
    #[must_use]
    pub fn dosed(&self, times: f64) -> Self {
        Self {
            range: dose::lengthened(&self.range, times),
            ..self.clone()
        }
    }

    /// How many times its yeast makes it likely ready at a moment.
    ///
    /// It is meant for a dough that isn't mixed yet. One that has had reference minutes counts as
    /// if it had had the other dose all the while.
    ///
    /// # Errors
    /// [`Unmet`] where that is more than [`dose::MOST_DOSE`] or less than [`dose::LEAST_DOSE`].
    pub fn dose_for(&self, ready: Moment) -> Result<f64, Unmet> {
        let gained = self.gained_by(ready)?;
        let wanted = self.range.likely().get();
        // What asks for nothing is ready as it begins, with any dose; 0 / 0 would be no answer.
        if wanted <= 0.0 {
            return Err(Unmet::TooLate);
        }
        let times = dose::for_pace(wanted / gained);
        if times > dose::MOST_DOSE {
            Err(Unmet::TooEarly)
        } else if times < dose::LEAST_DOSE {
            Err(Unmet::TooLate)
        } else {
            Ok(times)
        }
    }

    /// The same proof in other surroundings from its start on.
    #[must_use]
    pub fn around(&self, surroundings: Surroundings) -> Self {
        Self {
            surroundings,
            ..self.clone()
        }
    }

    /// The temperature of the surroundings, from its start on, that makes it likely ready at a moment.
    ///
    /// # Errors
    /// [`Unmet`] where not even [`WARMEST_RISE`] or [`COLDEST_RISE`] does.
    pub fn temperature_for(&self, ready: Moment) -> Result<Celsius, Unmet> {
        let around = |at| Surroundings::constant(Celsius::clamped(at));
        self.solved(COLDEST_RISE.get(), WARMEST_RISE.get(), ready, &around)
            .map(Celsius::clamped)
    }

    /// A fridge at first, and from `out` on, in still air, the temperature that there would have been then.
    #[must_use]
    pub fn fridge_until(&self, out: Moment, fridge: Celsius) -> Surroundings {
        Surroundings::constant(fridge).changed(out, self.surroundings.at(out))
    }

    /// When it has to come out of the fridge, where it lay from its start on, to be likely ready at a moment.
    ///
    /// # Errors
    /// [`Unmet`] where it isn't ready by then without any fridge, or is before then in it.
    pub fn out_of_fridge_for(&self, ready: Moment, fridge: Celsius) -> Result<Moment, Unmet> {
        let out_at = |before: f64| ready - Minutes::clamped(before);
        // By the time in the kitchen, so that more of it is more gained.
        let around = |before| self.fridge_until(out_at(before), fridge);
        self.solved(0.0, (ready - self.start).get(), ready, &around)
            .map(out_at)
    }

    /// Where between two ends it gains what is asked for by a moment, in surroundings in which it
    /// gains more towards the second end.
    fn solved(
        &self,
        least: f64,
        most: f64,
        ready: Moment,
        around: &dyn Fn(f64) -> Surroundings,
    ) -> Result<f64, Unmet> {
        self.gained_by(ready)?;
        let wanted = self.range.likely();
        let over = |at: f64| (self.around(around(at)).reference_minutes_at(ready) - wanted).get();
        if over(most) < 0.0 {
            Err(Unmet::TooEarly)
        } else if over(least) > 0.0 {
            Err(Unmet::TooLate)
        } else {
            Ok(crossing(least, most, 1e-7, &over))
        }
    }

    /// The reference minutes it will have had at a moment that is still to come for it, and not beyond its horizon.
    fn gained_by(&self, ready: Moment) -> Result<f64, Unmet> {
        if ready <= self.start {
            Err(Unmet::TooEarly)
        } else if ready > self.start + HORIZON {
            Err(Unmet::TooLate)
        } else {
            Ok(self.reference_minutes_at(ready).get())
        }
    }
}
