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
//! Source: Newton's law of cooling. No measurement of kneading at home was found, so every
//! parameter is an ASSUMPTION, chosen against what is published or known, which `trade.rs` of the
//! native checks holds it to. Valid for 0.3 to 2 kg of dough in a kitchen of 15 to 32 °C.
//!
//! By hand one set meets all there is, each only just. That a kitchen at 22 °C and liquid at 8 °C
//! make an enriched dough of about 25 °C in six minutes (common practice, no source) comes out
//! 1.4 K low. The friction factors 5 °F (*Cook's Illustrated*) and 12 °F (after Hamelman, *Bread*)
//! come out 2.4 and 1.1 K high for a lean dough that begins at 20 °C, 1.4 and 0.1 K at 24 °C.
//! More of the hands would mend the first and spoil the others. It makes a cold dough warm a lot and a warm one hardly.
//!
//! For the mixer the sources can't all be met: 20 °F (*Cook's Illustrated*) and 22 to 26 °F (after
//! Hamelman) are followed, the model having 21; an artisan baking centre's course notes have 6 to
//! 9 °F, which is 2.5 K less in the dough. For the food processor *Cook's Illustrated* has 25 °F.
//!
//! Left out, and how wrong that makes it for half a kilogram: evaporation, which the parameters
//! carry for a usual kitchen (half a gram is 0.7 K); a stone bench 7 K colder than the kitchen, 2
//! to 3 K; a mixer's warm motor, below 0.5 K (a guess); the yeast's own heat, 0.05 to 0.25 K; that a large dough
//! follows more slowly, by a third for four times the mass, up to 1 K in a cold one; that a formula's steps
//! have hands stir and knead for 17 to 24 min where the usual nine count, up to 0.8 K: the parameters were
//! chosen with those nine, and with 24 no liquid would matter to a dough at all.

use super::constants::{
    FRICTION_BY_HAND, FRICTION_FOOD_PROCESSOR, FRICTION_STAND_MIXER, HAND_SKIN, MEASURED_AIR,
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
                time_constant: minutes(3.5),
                time_constant_spread: minutes(1.5),
                hand_share: share(0.26),
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
/// // A cold dough warms by eight kelvin in the hands, a warm one cools by one.
/// let method = KneadingMethod::Hand;
/// let cold = after_kneading(method, celsius(16.0), celsius(22.0), minutes(9.0));
/// let warm = after_kneading(method, celsius(26.0), celsius(22.0), minutes(9.0));
/// assert!(cold.likely() > celsius(23.0));
/// assert!(warm.likely() > celsius(24.5) && warm.likely() < celsius(25.5));
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
/// The window combines the spread of the mixture, of each parameter, of the kitchen's
/// temperature (whoever asks has just been asked for that, so it counts as measured) and of what
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
    let warmer = usual.after(mixed.likely(), kitchen + MEASURED_AIR, kneaded) - likely;
    let mut squares = LEFT_OUT.get().powi(2) + warmer.get().powi(2);
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
