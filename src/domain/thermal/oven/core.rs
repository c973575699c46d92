//! How the middle of a piece warms in the oven, to go on from a thermometer's reading.
//!
//! The crumb under the crust cannot get hotter than boiling, so the piece is
//! taken as a ball whose surface is held there: `θ(t) = 2 Σ (−1)ⁿ⁺¹ exp(−n² π² Fo)`
//! at its centre (Carslaw & Jaeger, *Conduction of Heat in Solids*, §9.3, section
//! from memory). Its diffusivity isn't asked for: the formula says when the
//! middle has its temperature, and that fixes the scale of time.
//!
//! ASSUMPTION: the surface is at boiling from the beginning, and every shape
//! follows like a ball. Both matter little late in a bake, where people measure:
//! what is left of the series then is one exponential.

use super::altitude::boiling_point;
use crate::thermal::cooling::HORIZON;
use crate::thermal::vessel::{Course, Surroundings, Vessel};
use crate::units::{Celsius, Grams, Metres, Minutes, Moment};

/// The middle of a piece that goes in at `start` as warm as `dough`, and has `wanted` after `likely`.
///
/// `wanted` lies below boiling at that altitude, as [`core_target`](super::core_target) sees to.
#[must_use]
pub fn core_course(
    piece: Grams,
    start: Moment,
    likely: Minutes,
    dough: Celsius,
    wanted: Celsius,
    altitude: Metres,
) -> Course {
    let boiling = Surroundings::constant(boiling_point(altitude));
    // So much heat comes to it that the surface is as hot as what surrounds it.
    let ball = Vessel::baked_piece(piece).with_film_times(1e6);
    let unscaled = ball.course(start, dough, &boiling);
    let after = unscaled.core_reaches_after(wanted.get(), 0.0, HORIZON.get());
    let slower = likely.get() / after.unwrap_or(HORIZON.get()).max(1e-6);
    ball.with_lags_times(slower.max(1e-6))
        .course(start, dough, &boiling)
}
