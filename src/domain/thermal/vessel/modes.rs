//! The decaying modes that a body consists of.

use std::f64::consts::PI;

use super::body::Body;
use crate::sorted;
use crate::thermal::transient::{self, Axis, Term};
use crate::units::Minutes;

/// One thermometer with a lag.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mode {
    /// τ, its lag.
    pub time_constant: Minutes,
    /// Its weight in the mean over the volume.
    pub mean: f64,
    /// Its weight at the centre, the last point to follow.
    pub core: f64,
    /// τ as if heat flowed along the body's first direction only; the same where there is no other.
    pub(super) first: Minutes,
}

impl Mode {
    /// The same with its lag multiplied.
    pub(super) fn with_lag_times(self, factor: f64) -> Self {
        Self {
            time_constant: self.time_constant * factor,
            first: self.first * factor,
            ..self
        }
    }

    /// τ along the body's second direction, in min; rates add.
    pub(super) fn second(self) -> f64 {
        1.0 / (1.0 / self.time_constant.get() - 1.0 / self.first.get())
    }
}

/// Modes faster than the slowest by this factor are folded into the last one kept.
const FASTEST: f64 = 500.0;
/// The most terms along one axis. Only a layer more than ten times as wide as deep would need more.
const MOST_TERMS: usize = 48;
/// Modes that never make up more than this part of the difference at the start are left out.
const NEGLIGIBLE: f64 = 1e-5;

/// The modes of a body, slowest first; at least one, and the weights of each kind sum to 1.
pub(super) fn modes_of(body: &Body) -> Vec<Mode> {
    let (first, second) = body.form.axes();
    let film_w_m2k = body.film.get().max(1e-9);
    let conductivity_w_mk = body.material.conductivity.get().max(1e-9);
    // J/(g K) is kJ/(kg K).
    let heat_j_m3k = body.material.density.get() * body.material.specific_heat.get() * 1000.0;
    let area_per_volume = first.area_per_volume() + second.map_or(0.0, Axis::area_per_volume);
    // Bi = h Lc / k, with Lc the volume over the cooled area
    if film_w_m2k / (conductivity_w_mk * area_per_volume) < 0.1 {
        let lag = lag(film_w_m2k * area_per_volume / heat_j_m3k);
        return vec![Mode {
            time_constant: lag,
            mean: 1.0,
            core: 1.0,
            first: lag,
        }];
    }

    let diffusivity_m2_s = conductivity_w_mk / heat_j_m3k.max(1e-9);
    let biot = |axis: Axis| film_w_m2k * axis.length_m() / conductivity_w_mk;
    // 1/τ = α ζ² / L²
    let rate =
        |axis: Axis, term: &Term| diffusivity_m2_s * (term.eigenvalue / axis.length_m()).powi(2);
    let slowest_of = |axis: Axis| rate(axis, &transient::one_term(axis.shape, biot(axis)));
    let slowest = slowest_of(first) + second.map_or(0.0, slowest_of);
    let along = |axis: Axis| {
        // Roots lie about π apart, so this many reach the fastest rate that counts.
        let zeta = axis.length_m() * (FASTEST * slowest / diffusivity_m2_s).sqrt();
        let needed = (zeta / PI).ceil() as usize + 1;
        transient::terms(axis.shape, biot(axis), needed.min(MOST_TERMS))
            .into_iter()
            .map(|term| Part {
                rate: rate(axis, &term),
                first: rate(axis, &term),
                mean: term.mean,
                core: term.centre,
            })
            .collect::<Vec<_>>()
    };
    let parts = match second {
        None => along(first),
        Some(second) => product(&along(first), &along(second)),
    };
    folded(parts, FASTEST * slowest)
}

/// `τ = ρ c Lc / h` along one direction, in min, as if the body had one temperature along it, in a film in W/(m² K).
pub(super) fn lumped_along(body: &Body, axis: Axis, film_w_m2k: f64) -> f64 {
    let heat_j_m3k = body.material.density.get() * body.material.specific_heat.get() * 1000.0;
    lag(film_w_m2k * axis.area_per_volume() / heat_j_m3k).get()
}

/// One mode before its lag is known to fit the range of [`Minutes`].
#[derive(Clone, Copy)]
struct Part {
    /// 1/τ, in 1/s.
    rate: f64,
    /// The part of it along the first direction.
    first: f64,
    mean: f64,
    core: f64,
}

/// The modes of a body that is the product of two: rates add, weights multiply.
fn product(first: &[Part], second: &[Part]) -> Vec<Part> {
    let pairs = first.iter().flat_map(|a| {
        second.iter().map(move |b| Part {
            rate: a.rate + b.rate,
            first: a.rate,
            mean: a.mean * b.mean,
            core: a.core * b.core,
        })
    });
    pairs.collect()
}

/// The parts that matter, slowest first, the last of them carrying what the others had.
fn folded(mut parts: Vec<Part>, fastest_rate: f64) -> Vec<Mode> {
    parts.retain(|part| {
        part.rate <= fastest_rate && part.mean.abs().max(part.core.abs()) > NEGLIGIBLE
    });
    // No rate is below nought, and such numbers stand in the order of their bits.
    sorted::by_key(&mut parts, |part| part.rate.to_bits());
    let rest_of_mean = 1.0 - parts.iter().map(|part| part.mean).sum::<f64>();
    let rest_of_core = 1.0 - parts.iter().map(|part| part.core).sum::<f64>();
    let mut modes: Vec<Mode> = parts
        .into_iter()
        .map(|part| Mode {
            time_constant: lag(part.rate),
            mean: part.mean,
            core: part.core,
            first: lag(part.first),
        })
        .collect();
    if let Some(last) = modes.last_mut() {
        last.mean += rest_of_mean;
        last.core += rest_of_core;
    }
    modes
}

/// τ of a rate in 1/s; never zero, so that a mode can always be divided by its lag.
fn lag(rate_per_s: f64) -> Minutes {
    Minutes::clamped((1.0 / (60.0 * rate_per_s)).max(1e-6))
}
