//! How long cooked fillings and baked pieces take to cool, and whether a filling cools fast enough.
//!
//! The two-stage rule for cooked food that spoils: from 57 to 21 °C within 2 h,
//! and to 5 °C within 6 h in all. Source: FDA Food Code 2022, § 3-501.14(A);
//! the wording was read in Delaware's adoption, 16 Del. Admin. Code § 3-501.14.
//! Other countries have other limits (5 or 8 °C for what stays in the fridge):
//! local food-safety guidance comes first.
//!
//! What is at 21 °C or below from the start, as food made from ingredients at the kitchen's temperature is, has one
//! stage: to 5 °C within 4 h (same source, § 3-501.14(B)).
//!
//! Temperatures are those of the centre of a [`Vessel`], the warmest point
//! while it cools, reckoned with the modes described there. The clock of the
//! rule starts when the centre passes 57 °C, or at once for what is cooler.
//!
//! Left out: evaporation, which cools an open dish faster than said, and a
//! fridge that is warmed by what is put into it.

mod remedies;
mod spread;

use super::vessel::{Body, Cooling, Form, Material, SAME_K, Surroundings, Vessel};
use crate::units::{
    Celsius, Millimetres, Minutes, Moment, WattsPerSquareMetreKelvin, celsius, minutes,
};

pub use remedies::{Chilled, Remedy, remedies};
pub use spread::{FilmSpread, cooling_window};

/// Where the clock of the rule starts.
pub const HOT: Celsius = celsius(57.0);
/// The end of the first stage.
pub const WARM: Celsius = celsius(21.0);
/// The end of the second stage.
pub const COLD: Celsius = celsius(5.0);
/// Time allowed from [`HOT`] to [`WARM`].
pub const FIRST_STAGE: Minutes = minutes(120.0);
/// Time allowed from [`HOT`] to [`COLD`].
pub const BOTH_STAGES: Minutes = minutes(360.0);
/// Time allowed to [`COLD`] for what is no warmer than [`WARM`] from the start.
pub const FROM_AMBIENT: Minutes = minutes(240.0);

/// What food that starts at a temperature has to keep to: how cold, within how long.
#[must_use]
pub fn stages(from: Celsius) -> &'static [(Celsius, Minutes)] {
    if from <= WARM {
        &[(COLD, FROM_AMBIENT)]
    } else {
        &[(WARM, FIRST_STAGE), (COLD, BOTH_STAGES)]
    }
}

/// How far ahead cooling is followed: two days.
pub const HORIZON: Minutes = minutes(2.0 * 24.0 * 60.0);

/// Whether a cooked filling passes the two-stage rule.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoStage {
    /// From 57 to 21 °C; `None` when it is not there within [`HORIZON`].
    pub minutes_to_21: Option<Minutes>,
    /// From 57 to 5 °C; `None` when it is not there within [`HORIZON`].
    pub minutes_to_5: Option<Minutes>,
    /// Whether each of its [`stages`] is within its time.
    pub passes: bool,
}

/// How a filling that starts at one temperature throughout does against the rule.
#[must_use]
pub fn two_stage(
    vessel: &Vessel,
    initial: Celsius,
    surroundings: &Surroundings,
    start: Moment,
) -> TwoStage {
    let course = vessel.course(start, initial, surroundings);
    let horizon = HORIZON.get();
    let cooled_to = |target: Celsius, from: f64| {
        if course.core_after(from) < target.get() + SAME_K {
            Some(from)
        } else {
            course.core_reaches_after(target.get(), from, horizon)
        }
    };
    let hot = cooled_to(HOT, 0.0);
    let warm = hot.and_then(|hot| cooled_to(WARM, hot));
    let cold = warm.and_then(|warm| cooled_to(COLD, warm));
    let since_hot = |t: Option<f64>| Some(Minutes::clamped(t? - hot?));
    let minutes_to_21 = since_hot(warm);
    let minutes_to_5 = since_hot(cold);
    TwoStage {
        minutes_to_21,
        minutes_to_5,
        passes: stages(initial).iter().all(|&(to, within)| {
            let taken = if to == COLD {
                minutes_to_5
            } else {
                minutes_to_21
            };
            taken.is_some_and(|taken| taken <= within)
        }),
    }
}

/// The deepest wide layer that passes, cooled through one face from 57 °C, to a tenth of a millimetre below.
///
/// `None` when even 2 mm is too deep, as in a kitchen that isn't below 5 °C.
#[must_use]
pub fn deepest_layer_that_passes(cooling: Cooling, ambient: Celsius) -> Option<Millimetres> {
    deepest_layer_of(Material::CUSTARD, cooling.film(), ambient)
}

/// The same for any material and heat transfer coefficient.
#[must_use]
pub fn deepest_layer_of(
    material: Material,
    film: WattsPerSquareMetreKelvin,
    ambient: Celsius,
) -> Option<Millimetres> {
    deepest_layer_from(HOT, material, film, ambient)
}

fn deepest_layer_from(
    from: Celsius,
    material: Material,
    film: WattsPerSquareMetreKelvin,
    ambient: Celsius,
) -> Option<Millimetres> {
    let passes = |depth_mm: f64| {
        let layer = Vessel::of(Body {
            form: Form::Layer {
                depth: Millimetres::clamped(depth_mm),
            },
            material,
            film,
        });
        passes_at(&layer, from, ambient)
    };
    // A deeper layer is always slower, so the answer can be closed in on.
    let (mut fits, mut too_deep) = (2.0, 500.0);
    if !passes(fits) {
        return None;
    }
    while too_deep - fits > 0.05 {
        let middle = 0.5 * (fits + too_deep);
        if passes(middle) {
            fits = middle;
        } else {
            too_deep = middle;
        }
    }
    Some(Millimetres::clamped(fits))
}

fn passes_at(vessel: &Vessel, from: Celsius, ambient: Celsius) -> bool {
    let start = Moment::from_epoch_ms(0);
    two_stage(vessel, from, &Surroundings::constant(ambient), start).passes
}
