//! What kneading does to the temperature of a dough.
//!
//! The dough relaxes towards what it touches while work warms it:
//!
//! `dT/dt = (S - T) / tau + w`, with `S = kitchen + h (skin - kitchen)`, so
//! `T(t) = S + w tau + (T(0) - S - w tau) exp(-t / tau)`
//!
//! with T in °C, t and tau in min, w in K/min; h is the share of the touching
//! that hands do, `skin` their temperature.
//!
//! Source: Newton's law of cooling. No measurement of kneading at home was
//! found, so every parameter is an ASSUMPTION, chosen so that a lean dough
//! mixed by the trade's rule with its published friction factor (*Cook's
//! Illustrated*: hand 5 °F, stand mixer 20 °F, food processor 25 °F; after
//! Hamelman, *Bread*: 12 °F by hand, 22 to 26 °F by mixer) comes out near the
//! temperature the rule was aimed at. By hand this makes a cold dough warm a
//! lot and a warm one hardly. Valid for 0.3 to 2 kg of dough in a kitchen of 15
//! to 32 °C. Left out: evaporation, a cold stone bench, a mixer's warm motor.

use super::constants::{
    FRICTION_BY_HAND, FRICTION_FOOD_PROCESSOR, FRICTION_STAND_MIXER, HAND_SKIN,
};
use crate::estimate::{Basis, Estimate};
use crate::units::{Celsius, CelsiusDelta, Minutes, Share, celsius_delta, minutes, share};

/// How the dough is kneaded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum KneadingMethod {
    /// By hand, on the bench.
    Hand,
    /// In a stand mixer with a hook.
    StandMixer,
    /// In a food processor with a blade.
    FoodProcessor,
    /// Mixed with a spoon and only folded afterwards.
    FoldOnly,
}

/// The parameters of one way of kneading, each with half the width of its window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parameters {
    /// How long the dough takes to come within 37 % of its surroundings.
    pub time_constant: Minutes,
    /// Spread of `time_constant`.
    pub time_constant_spread: Minutes,
    /// The share of hands in what the dough touches.
    pub hand_share: Share,
    /// Spread of `hand_share`.
    pub hand_share_spread: Share,
    /// How much work alone would warm the dough in a minute.
    pub warming_per_minute: CelsiusDelta,
    /// Spread of `warming_per_minute`.
    pub warming_per_minute_spread: CelsiusDelta,
    /// How long mixing and kneading usually take together.
    pub usual: Minutes,
}

/// What the model leaves out, in K either way. ASSUMPTION.
const LEFT_OUT: CelsiusDelta = celsius_delta(0.5);

impl KneadingMethod {
    /// All ways of kneading.
    pub const ALL: [Self; 4] = [
        Self::Hand,
        Self::StandMixer,
        Self::FoodProcessor,
        Self::FoldOnly,
    ];

    /// Its parameters.
    #[must_use]
    pub const fn parameters(self) -> Parameters {
        match self {
            // Spread out thin between hands and bench, the dough follows them within minutes.
            // How much of it the hands touch, and how fast, differs most from baker to baker.
            Self::Hand => Parameters {
                time_constant: minutes(4.0),
                time_constant_spread: minutes(1.5),
                hand_share: share(0.3),
                hand_share_spread: share(0.1),
                warming_per_minute: celsius_delta(0.0),
                warming_per_minute_spread: celsius_delta(0.05),
                usual: minutes(9.0),
            },
            // A ball in a bowl of air loses heat slowly. 0.3 K/min is 0.8 kJ/kg a minute; a maker's
            // reply quoted on a forum has 1 °F (0.56 K) a minute at a higher speed.
            Self::StandMixer => Parameters {
                time_constant: minutes(20.0),
                time_constant_spread: minutes(8.0),
                hand_share: share(0.0),
                hand_share_spread: share(0.02),
                warming_per_minute: celsius_delta(0.3),
                warming_per_minute_spread: celsius_delta(0.15),
                usual: minutes(8.0),
            },
            // One forum test of a minute's run saw 0 to 6 K, depending on where the probe went in.
            Self::FoodProcessor => Parameters {
                time_constant: minutes(20.0),
                time_constant_spread: minutes(8.0),
                hand_share: share(0.0),
                hand_share_spread: share(0.02),
                warming_per_minute: celsius_delta(1.6),
                warming_per_minute_spread: celsius_delta(0.9),
                usual: minutes(1.5),
            },
            // A spoon does no work to speak of and hands touch the dough only in passing.
            Self::FoldOnly => Parameters {
                time_constant: minutes(20.0),
                time_constant_spread: minutes(8.0),
                hand_share: share(0.05),
                hand_share_spread: share(0.05),
                warming_per_minute: celsius_delta(0.0),
                warming_per_minute_spread: celsius_delta(0.02),
                usual: minutes(5.0),
            },
        }
    }

    /// The friction factor that the trade's rule has for it; none for folding only.
    #[must_use]
    pub const fn published_friction(self) -> Option<CelsiusDelta> {
        match self {
            Self::Hand => Some(FRICTION_BY_HAND),
            Self::StandMixer => Some(FRICTION_STAND_MIXER),
            Self::FoodProcessor => Some(FRICTION_FOOD_PROCESSOR),
            Self::FoldOnly => None,
        }
    }
}

impl Parameters {
    /// What the dough would come to if kneading never ended, in °C.
    fn end_c(&self, kitchen: Celsius) -> f64 {
        // S + w tau, with S = kitchen + h (skin - kitchen)
        let surroundings_c = kitchen.get() + self.hand_share.get() * (HAND_SKIN - kitchen).get();
        surroundings_c + self.warming_per_minute.get() * self.time_constant.get()
    }

    /// How much of its distance from that end the dough still has after kneading.
    fn kept(&self, kneaded: Minutes) -> f64 {
        // exp(-t / tau); no kneading has a negative length.
        (-kneaded.get().max(0.0) / self.time_constant.get()).exp()
    }

    /// The dough's temperature after kneading.
    #[must_use]
    pub fn after(&self, mixed: Celsius, kitchen: Celsius, kneaded: Minutes) -> Celsius {
        // T(t) = S + w tau + (T(0) - S - w tau) exp(-t / tau)
        let end_c = self.end_c(kitchen);
        Celsius::clamped(end_c + (mixed.get() - end_c) * self.kept(kneaded))
    }

    /// The temperature to mix to, so that kneading ends at `wanted`.
    ///
    /// By hand this soon leaves anything that can be mixed; it stops at the range of [`Celsius`].
    #[must_use]
    pub fn mixed_for(&self, wanted: Celsius, kitchen: Celsius, kneaded: Minutes) -> Celsius {
        let end_c = self.end_c(kitchen);
        Celsius::clamped(end_c + (wanted.get() - end_c) / self.kept(kneaded))
    }
}

/// The dough's temperature after kneading, from one that is known exactly.
///
/// ```
/// use domain::thermal::kneading::{KneadingMethod, after_kneading};
/// use domain::units::{celsius, minutes};
///
/// // A cold dough warms in the hands, a warm one hardly changes.
/// let method = KneadingMethod::Hand;
/// let cold = after_kneading(method, celsius(16.0), celsius(22.0), minutes(9.0));
/// let warm = after_kneading(method, celsius(26.0), celsius(22.0), minutes(9.0));
/// assert!(cold.likely() > celsius(23.0));
/// assert!(warm.likely() > celsius(25.0) && warm.likely() < celsius(26.0));
/// ```
#[must_use]
pub fn after_kneading(
    method: KneadingMethod,
    mixed: Celsius,
    kitchen: Celsius,
    kneaded: Minutes,
) -> Estimate<Celsius> {
    after_kneading_of(
        method,
        &Estimate::exact(mixed, Basis::Model),
        kitchen,
        kneaded,
    )
}

/// The dough's temperature after kneading, from a forecast of the mixture.
///
/// The window combines the spread of the mixture, of each parameter and of what
/// is left out as independent of each other, by the root of the sum of squares.
/// The two sides of a parameter are averaged, so a dough far from its kitchen's
/// temperature falls beyond the end on that side one time in seven instead of ten.
#[must_use]
pub fn after_kneading_of(
    method: KneadingMethod,
    mixed: &Estimate<Celsius>,
    kitchen: Celsius,
    kneaded: Minutes,
) -> Estimate<Celsius> {
    let usual = method.parameters();
    let likely = usual.after(mixed.likely(), kitchen, kneaded);
    let halves = [
        (
            Parameters {
                time_constant: usual.time_constant - usual.time_constant_spread,
                ..usual
            },
            Parameters {
                time_constant: usual.time_constant + usual.time_constant_spread,
                ..usual
            },
        ),
        (
            Parameters {
                hand_share: Share::clamped(usual.hand_share.get() - usual.hand_share_spread.get()),
                ..usual
            },
            Parameters {
                hand_share: Share::clamped(usual.hand_share.get() + usual.hand_share_spread.get()),
                ..usual
            },
        ),
        (
            Parameters {
                warming_per_minute: usual.warming_per_minute - usual.warming_per_minute_spread,
                ..usual
            },
            Parameters {
                warming_per_minute: usual.warming_per_minute + usual.warming_per_minute_spread,
                ..usual
            },
        ),
    ];
    let mut squares = LEFT_OUT.get() * LEFT_OUT.get();
    for (less, more) in halves {
        let apart = more.after(mixed.likely(), kitchen, kneaded)
            - less.after(mixed.likely(), kitchen, kneaded);
        squares += (apart.get() / 2.0).powi(2);
    }
    let end = |from: Celsius| {
        let own_k = (usual.after(from, kitchen, kneaded) - likely).get();
        CelsiusDelta::clamped((squares + own_k * own_k).sqrt())
    };
    Estimate::new(
        likely - end(mixed.low()),
        likely,
        likely + end(mixed.high()),
        mixed.basis(),
    )
}
