//! A forecast is never a bare number: it is a window with what it rests on.
//!
//! # How sure
//!
//! Windows are reckoned without random numbers. Each uncertain input is moved
//! alone to its tenth and its ninetieth percentile, and the distances from the
//! likely answer are added in quadrature, those to either side apart. The checks
//! hold them against brute force, thousands of draws of all inputs at once: 7 to
//! 13 % of them lie below the low end and as many above the high end, over a dozen
//! kitchens each of proofs, cooling and days with a thermometer. The worst found
//! are a dough kneaded far from its kitchen's temperature (6 to 14 %) and a rise
//! after a look at it (6 to 10 % below, 8 to 15 % above). A bake's whole end takes its steps as
//! independent: of whole days drawn with one kitchen each, 4 to 8 % end before its window and 11 to 17 %
//! after it, of which the common kitchen makes 2 at most and the steps' longer late ends the rest
//! ([`outline`](crate::schedule::outline)).
//!
//! What is open, and what its width rests on; the width and its reasons stand at
//! each constant. The formula's own ranges are the formula's, and how far hands
//! and machines differ is judgement
//! ([`Parameters`](crate::thermal::kneading::Parameters)).
//!
//! | spread | of | rests on |
//! |---|---|---|
//! | `LAG_SPREAD` | how fast a dough follows its surroundings | judgement |
//! | `DOUGH_HARDY`, `DOUGH_TENDER` | how much yeast minds the cold | judgement |
//! | `MEASURED_DOUGH` | a dough that was measured | judgement |
//! | `UNMEASURED_DOUGH` | a dough that nobody measured | judgement |
//! | `CHILLED_DOUGH` | a dough out of the fridge | judgement |
//! | `MEASURED_AIR`, `UNMEASURED_AIR` | the kitchen, measured today or not | judgement |
//! | `UNMEASURED_FRIDGE` | a fridge that nobody measured | published |
//! | `MEASURED_FRIDGE` | a fridge that was measured | judgement |
//! | `WARM_PLACE_OFF`, `BATH_OFF`, `ICE_BATH_OFF` | a warm place, water and ice water | judgement |
//! | `EYE`, `MOST_OFF_LN` | how far a dough has risen, by eye | judgement |
//! | `EXPONENT_SPREAD` | how much the dose of yeast matters | judgement |
//! | `FILM_SPREAD` | how fast what is hot cools | judgement |
//! | `OFF` | a thermometer in the middle | judgement |
//! | `HEATING_UP_SPREAD` | how long an oven takes to be hot | judgement |
//! | `FORM_SPREAD` | how long another form or tin bakes | judgement |
//! | `OF_HEIGHT` | how much longer a bake takes high up | judgement |
//! | `sooner` | how much sooner a dough has risen in thin air | judgement |
//! | `UNCHECKED_OVEN`, `CHECKED_OVEN` | how far an oven is from its dial | judgement |
//! | `CROWDED` | how long a full oven may take | judgement |
//! | `UNMEASURED` | ingredients that nobody measured | judgement |
//! | `HEAT_OF_HYDRATION_SPREAD` | heat of wetted flour | published |
//! | `SUCROSE_HEAT_OF_SOLUTION_SPREAD` | cold of dissolving sugar | published |
//! | `MILK_FAT_MELTING_SPREAD` | cold of melting butter | judgement |
//! | `LEFT_OUT` | what kneading leaves out | judgement |
//! | `UNSURE` | how fast flour and a bowl chill | judgement |
//!
//! Likely values and bounds that are judgement as well:
//!
//! | value | of | rests on |
//! |---|---|---|
//! | `DOUGH` | yeast's pace against temperature | judgement |
//! | `dough_in_bowl`, `filling`, `body`, `rising`, `jar_of`, `bag_of` | the shapes of bodies | judgement |
//! | `JAR_WALL`, `BAG_WALL`, `FLAT_BAG` | a jar, and a bag that lies flat | judgement |
//! | `HAND_SKIN`, `BOWL` | what a dough touches | judgement |
//! | `MILK_FAT_MELTED` | butter's melting, at its cold end | judgement |
//! | `MOST_ICE`, `COLD_TAP`, `takes_hours` | cold and frozen liquid | judgement |
//! | `NO_YEAST_LIQUID_CAP` | liquid as warm as flour bears | judgement |
//! | `SPREAD`, `WALL`, `LONGEST`, `COLDEST_FLOUR` | flour and a bowl that are chilled | judgement |
//! | `WARMED_FLOUR`, `WARMED_BOWL`, `ANOTHER_PLACE` | what else to warm or chill | judgement |
//! | `NOTICEABLE`, `WORTH_DOING` | what a baker would notice | judgement |
//! | `BAKING_CONDUCTIVITY`, `RISEN` | dough as it bakes, for ratios of times | judgement |
//! | `film` | a fan oven's heat | judgement |
//! | `CORE_BELOW_BOILING` | the middle of bread at its hottest | judgement |
//! | `WARMEST_PLACE` | where a dough is put | judgement |
//! | `THINNEST` | a spread cream | judgement |
//! | `MOST_LN` | how far a reading moves a pace | judgement |
//! | `MADE_GOOD`, `LEAST_OF_LAST_RISE` | a last rise after a first that was left out, or a night in the fridge | judgement |
//! | `EXPONENT`, `LEAST_DOSE`, `MOST_DOSE` | pace against the dose, and where that ends | judgement |
//! | `SUGAR`, `SALT` | pace against sugar and salt | judgement |
//! | `COLD_THROUGH` | how long a dough takes to be as cold as the fridge | judgement |
//! | `WARMEST_RISE` | the warmest place for a rise | judgement |
//! | `EGG_AND_MILK_OUT`, `DOUGH_LOST` | a dough with raw egg or milk outside a fridge | judgement |
//! | `RINGS`, `FRIDGE_HOLDS`, `TRAYS_WITH_FAN`, `DIAL_STEP`, `FOLD`, `FOLD_LATER` | a hob, a fridge, an oven that breads share, and what a fold takes | judgement |
//! | `WARM`, `COOL`, `OTHER_K`, `STAYS_NOW_H`, `STAYS_TO_COME_H`, `MORE_YEAST`, `LESS_YEAST`, `WORTH`, `AS_SAID`, `FRESHER`, `DAY_BEFORE` | what may help a plan, and when it is told | judgement |
//! | `EARLIER`, `LESS_BUFFER`, `MOST` | when a bake begins that was promised to, and how much sooner for a night | judgement |
//! | `TO_COME`, `OUT_WITHIN` | how soon hands are called to what waits for them, and to what bakes or has baked | judgement |
//! | `RISEN_AGAIN`, `RISEN_FOR`, `PUT_AWAY`, `TO_SPARE` | calls for what has risen too far, how late a filling is put away, and how long before its limit it is baked | judgement |
//! | `PUT_IN_AGAIN`, `PUT_IN_FOR`, `NO_FOLD` | calls for a dough that isn't in the fridge yet, and a fold that is too late | judgement |
//! | `LEFT_ON`, `RECOVERS`, `COOLS` | an oven that is hot from the bread before | judgement |
//! | `SPOILS` | how much a minute of waiting matters | judgement |
//! | `SAME_JUMP` | two tabs' clocks | judgement |
//! | `IN_ONE_GO`, `LATE` | what is said some time after it was done | judgement |
//! | `PINCH_OF_TEASPOON`, `PINCH_G`, `DASH_OF_TEASPOON`, `KNOB_G`, `HANDFUL_OF_CUP`, `SPRIG_G`, `BUNCH_G`, `OF_ONE` | what nobody weighs, in formulas that are read | judgement |
//! | `NOISE` | how far time alone has to move a plan to be told | judgement |
//! | `room_for_dough` | the room that dough takes in a tin | judgement |
//! | `YOLK`, `WHITE`, `WHOLE`, `MOST_EGG`, `MOST_OF_LIQUID`, `WATERY` | eggs in whole numbers | judgement |

use std::ops::{Add, Mul, Sub};

use crate::units::Quantity;

/// What a forecast rests on, weakest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// The formula's own words ("8 to 12 minutes").
    Formula,
    /// A model, from temperatures nobody has measured today.
    Model,
    /// A model, from a temperature measured today.
    Measured,
}

/// A window: nine times in ten the truth is later than `low`, and nine in ten it is earlier than `high`.
///
/// ```
/// use domain::estimate::{Basis, Estimate};
/// use domain::units::minutes;
///
/// let bulk = Estimate::new(minutes(80.0), minutes(95.0), minutes(115.0), Basis::Model);
/// assert!(bulk.low() <= bulk.likely() && bulk.likely() <= bulk.high());
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate<T> {
    // Always low <= likely <= high; the constructors see to it.
    low: T,
    likely: T,
    high: T,
    basis: Basis,
}

impl<T: Copy + PartialOrd> Estimate<T> {
    /// A window around its likely value. Ends on the wrong side of it are moved to it.
    pub fn new(low: T, likely: T, high: T, basis: Basis) -> Self {
        Self {
            low: if low < likely { low } else { likely },
            likely,
            high: if high > likely { high } else { likely },
            basis,
        }
    }

    /// A window of no width, for what is known.
    pub fn exact(value: T, basis: Basis) -> Self {
        Self {
            low: value,
            likely: value,
            high: value,
            basis,
        }
    }

    /// One time in ten the truth is below this.
    pub fn low(&self) -> T {
        self.low
    }

    /// As often below as above.
    pub fn likely(&self) -> T {
        self.likely
    }

    /// One time in ten the truth is above this.
    pub fn high(&self) -> T {
        self.high
    }

    /// What it rests on.
    pub fn basis(&self) -> Basis {
        self.basis
    }

    /// The same window seen through a function that never reverses order.
    pub fn map<U: Copy + PartialOrd>(&self, monotone: impl Fn(T) -> U) -> Estimate<U> {
        Estimate::new(
            monotone(self.low),
            monotone(self.likely),
            monotone(self.high),
            self.basis,
        )
    }
}

/// How far a normal distribution's quartile lies on the way to its tenth percentile: 0.67449 / 1.28155.
const TO_THE_QUARTILE: f64 = 0.526_307;

impl<T: Copy> Estimate<T> {
    /// The middle half of the window: one time in four the truth is below the
    /// first value, and one time in four it is above the second.
    ///
    /// Either side of the likely value is taken as one half of a normal
    /// distribution, so its quartile lies at 0.526 of its distance. Where a side
    /// is very long, as that of a proof below 12 °C, the truth lies in the middle
    /// half more than half the time.
    ///
    /// Asked only by the checks so far: the page shows no quartiles.
    pub fn middle_half<D>(&self) -> (T, T)
    where
        T: Sub<T, Output = D> + Add<D, Output = T> + Sub<D, Output = T>,
        D: Mul<f64, Output = D>,
    {
        let earlier = (self.likely - self.low) * TO_THE_QUARTILE;
        let later = (self.high - self.likely) * TO_THE_QUARTILE;
        (self.likely - earlier, self.likely + later)
    }
}

impl<T: Quantity> Estimate<T> {
    /// The same window so many times as long, with what that leaves open at either end.
    ///
    /// The distances of the logarithms from the likely value are added in quadrature, as in a
    /// [`Proof`](crate::yeast::proof::Proof)'s window: what the window held before is independent of it.
    #[must_use]
    pub(crate) fn longer(&self, by: f64, sooner_ln: f64, later_ln: f64) -> Self {
        let likely = self.likely.get();
        // Where nothing changes nothing may be rounded either, and nought has no logarithm.
        if (by, sooner_ln, later_ln) == (1.0, 0.0, 0.0) || likely <= 0.0 {
            return *self;
        }
        // A window that begins at nought has none, either; a thousandth is as good.
        let end = |end: T, open_ln: f64| (end.get() / likely).max(1e-3).ln().hypot(open_ln);
        Self::new(
            T::clamped(likely * by * (-end(self.low, sooner_ln)).exp()),
            T::clamped(likely * by),
            T::clamped(likely * by * end(self.high, later_ln).exp()),
            self.basis,
        )
    }

    /// The same window on another footing.
    pub fn on(self, basis: Basis) -> Self {
        Self { basis, ..self }
    }
}
