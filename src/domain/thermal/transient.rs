//! How the inside of a body follows a sudden change of the temperature around it.
//!
//! Conduction in a plane slab, a long cylinder or a sphere of one material,
//! first at one temperature throughout, then in surroundings at another, with
//! a constant heat transfer coefficient at its surface. With the temperature
//! ratio `θ = (T − T∞) / (T₀ − T∞)`:
//!
//! `θ(t) = Σ wₙ exp(−ζₙ² Fo)`
//!
//! - `Fo = α t / L²`, the Fourier number, with diffusivity α in m²/s and time t in s
//! - `Bi = h L / k`, the Biot number, with h in W/(m² K) and conductivity k in W/(m K)
//! - L in m: half the thickness of a slab cooled on both faces, the whole depth
//!   of one cooled on a single face, the radius of a cylinder or sphere
//! - ζₙ: the roots of `ζ tan ζ = Bi` (slab), `ζ J₁(ζ) / J₀(ζ) = Bi` (cylinder),
//!   `1 − ζ cot ζ = Bi` (sphere)
//! - wₙ: one weight for the centre (Cₙ) and one for the mean over the volume
//!
//! Biot, Fourier and the ratios have no unit, so they are bare numbers here.
//!
//! Source: Carslaw & Jaeger, Conduction of Heat in Solids (1959), §3.11, §7.7,
//! §9.4; the one-term form is Incropera & DeWitt, Fundamentals of Heat and Mass
//! Transfer, ch. 5 (section numbers from memory). A short cylinder is the
//! product of a long cylinder and a slab (same sources).
//!
//! Left out: properties that change with temperature, evaporation, heat made
//! inside. Valid for any time; at `Fo` below 0.0001 the sum is cut short and
//! the ratio is within 0.01 of its true value.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI};

use super::crossing::newton_within;
use crate::trig::sin_cos;
use crate::units::Millimetres;

/// The three bodies with a series of their own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Large and flat.
    Slab,
    /// Long and round.
    Cylinder,
    /// A ball.
    Sphere,
}

impl Shape {
    /// In how many dimensions heat flows: cooled area per volume, as a part of 1/L.
    #[must_use]
    pub const fn dimensions(self) -> f64 {
        match self {
            Self::Slab => 1.0,
            Self::Cylinder => 2.0,
            Self::Sphere => 3.0,
        }
    }
}

/// One direction of a body: the series along it, and its L.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    /// Which series it follows.
    pub shape: Shape,
    /// L: half the thickness, the depth cooled on one face, or the radius.
    pub length: Millimetres,
}

impl Axis {
    /// L in m; a body of no size would follow at once, and a thousandth of a millimetre nearly does.
    pub(crate) fn length_m(self) -> f64 {
        self.length.get().max(1e-3) / 1000.0
    }

    /// Cooled area per volume, in 1/m.
    pub(crate) fn area_per_volume(self) -> f64 {
        self.shape.dimensions() / self.length_m()
    }
}

/// One decaying part of the answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Term {
    /// ζ, without unit.
    pub eigenvalue: f64,
    /// Weight at the centre: the C of the one-term tables.
    pub centre: f64,
    /// Weight in the mean over the volume.
    pub mean: f64,
}

/// The first `n` roots ζ of the shape's own equation, smallest first.
///
/// A Biot number outside 0.000001 to 1000000 is moved to the nearer end: below
/// it nothing flows, above it the surface simply has the surroundings' temperature.
#[must_use]
pub fn eigenvalues(shape: Shape, biot: f64, n: usize) -> Vec<f64> {
    let biot = bounded_biot(biot);
    (1..=n)
        .map(|index| eigenvalue(shape, biot, index))
        .collect()
}

/// The first `n` terms of the series, slowest first.
#[must_use]
pub fn terms(shape: Shape, biot: f64, n: usize) -> Vec<Term> {
    eigenvalues(shape, biot, n)
        .into_iter()
        .map(|eigenvalue| term(shape, eigenvalue))
        .collect()
}

/// The slowest term, which is all that is left of the series after `Fo` of about 0.2.
#[must_use]
pub fn one_term(shape: Shape, biot: f64) -> Term {
    term(shape, eigenvalue(shape, bounded_biot(biot), 1))
}

/// θ at the centre.
#[must_use]
pub fn centre_ratio(shape: Shape, biot: f64, fourier: f64) -> f64 {
    ratio(shape, biot, fourier, |term| term.centre)
}

/// θ of the mean over the volume.
#[must_use]
pub fn mean_ratio(shape: Shape, biot: f64, fourier: f64) -> f64 {
    ratio(shape, biot, fourier, |term| term.mean)
}

fn ratio(shape: Shape, biot: f64, fourier: f64, weight: impl Fn(Term) -> f64) -> f64 {
    if fourier.is_nan() || fourier <= 0.0 {
        return 1.0;
    }
    // Terms beyond ζ² Fo = 40 are below 1e-17; roots lie about π apart.
    let needed = (((40.0 / fourier).sqrt() / PI).ceil() + 1.0).min(200.0);
    let sum: f64 = terms(shape, biot, needed as usize)
        .into_iter()
        .map(|term| weight(term) * (-term.eigenvalue * term.eigenvalue * fourier).exp())
        .sum();
    sum.clamp(0.0, 1.0)
}

fn bounded_biot(biot: f64) -> f64 {
    if biot.is_nan() {
        1e-6
    } else {
        biot.clamp(1e-6, 1e6)
    }
}

fn term(shape: Shape, zeta: f64) -> Term {
    let (sin, cos) = sin_cos(zeta);
    let (centre, mean_of_mode) = match shape {
        // C = 4 sin ζ / (2ζ + sin 2ζ)
        Shape::Slab => (4.0 * sin / (2.0 * zeta + 2.0 * sin * cos), sin / zeta),
        // C = (2/ζ) J₁ / (J₀² + J₁²)
        Shape::Cylinder => {
            let (j0, j1) = bessel_j0_j1(zeta);
            (2.0 / zeta * j1 / (j0 * j0 + j1 * j1), 2.0 * j1 / zeta)
        }
        // C = 4 (sin ζ − ζ cos ζ) / (2ζ − sin 2ζ)
        Shape::Sphere => {
            let lag = sin - zeta * cos;
            (
                4.0 * lag / (2.0 * zeta - 2.0 * sin * cos),
                3.0 * lag / (zeta * zeta * zeta),
            )
        }
    };
    Term {
        eigenvalue: zeta,
        centre,
        mean: centre * mean_of_mode,
    }
}

/// The root number `index`, counted from 1.
///
/// Each shape's equation is written without its poles, and each root stands
/// alone between two places that are known beforehand.
fn eigenvalue(shape: Shape, biot: f64, index: usize) -> f64 {
    let before = (index - 1) as f64;
    // Zero itself solves the sphere's equation without being a mode.
    let above_zero = 1e-3 * biot.sqrt().min(1.0);
    match shape {
        Shape::Slab => root(PI * before, PI * before + FRAC_PI_2, |zeta| {
            let (sin, cos) = sin_cos(zeta);
            (zeta * sin - biot * cos, sin + zeta * cos + biot * sin)
        }),
        Shape::Cylinder => {
            let from = if index == 1 {
                0.0
            } else {
                zero_of_j0(index - 1)
            };
            root(from, zero_of_j0(index), |zeta| {
                let (j0, j1) = bessel_j0_j1(zeta);
                (zeta * j1 - biot * j0, zeta * j0 + biot * j1)
            })
        }
        Shape::Sphere => root((PI * before).max(above_zero), PI * (before + 1.0), |zeta| {
            let (sin, cos) = sin_cos(zeta);
            (zeta * cos - (1.0 - biot) * sin, biot * cos - zeta * sin)
        }),
    }
}

/// The sign change between `low` and `high`, to the last digits.
fn root(low: f64, high: f64, value_and_slope: impl Fn(f64) -> (f64, f64)) -> f64 {
    let rises = value_and_slope(high).0 > 0.0;
    let near = |moved, guess| moved <= 1e-14 * guess;
    newton_within(
        (low, high),
        0.5 * (low + high),
        rises,
        near,
        value_and_slope,
    )
}

/// Zero number `index` of J₀: McMahon's expansion (DLMF 10.21.19), then Newton's method.
fn zero_of_j0(index: usize) -> f64 {
    let beta = PI * (index as f64 - 0.25);
    let mut zero = beta + 1.0 / (8.0 * beta);
    for _ in 0..3 {
        let (j0, j1) = bessel_j0_j1(zero);
        zero += j0 / j1;
    }
    zero
}

/// Bessel functions of the first kind J₀ and J₁ for `x ≥ 0`, to about 1e-11.
///
/// Our own, because the two sums fit on a page and a crate of special
/// functions would cost more to load than to write: the power series
/// (DLMF 10.2.2) up to x = 14, where it still keeps 11 digits, and Hankel's
/// expansion (DLMF 10.17.3) beyond, where its smallest term is below 1e-12.
fn bessel_j0_j1(x: f64) -> (f64, f64) {
    if x < 14.0 {
        let quarter_square = -0.25 * x * x;
        let (mut term0, mut term1) = (1.0, 0.5 * x);
        let (mut sum0, mut sum1) = (term0, term1);
        for k in 1..60 {
            let k = f64::from(k);
            term0 *= quarter_square / (k * k);
            term1 *= quarter_square / (k * (k + 1.0));
            sum0 += term0;
            sum1 += term1;
            if term0.abs() + term1.abs() < 1e-18 {
                break;
            }
        }
        (sum0, sum1)
    } else {
        (hankel(0.0, x), hankel(1.0, x))
    }
}

/// `J_ν(x) ≈ √(2/πx) (P cos χ − Q sin χ)` with `χ = x − νπ/2 − π/4`, for large x.
fn hankel(order: f64, x: f64) -> f64 {
    let mu = 4.0 * order * order;
    let (mut p, mut q) = (1.0, 0.0);
    let mut term: f64 = 1.0;
    for k in 1..40_i32 {
        let odd = f64::from(2 * k - 1);
        let next = term * (mu - odd * odd) / (8.0 * f64::from(k) * x);
        // The expansion diverges in the end; it is best where its terms are smallest.
        if next.abs() >= term.abs() {
            break;
        }
        term = next;
        // Signs go + P, + Q, − P, − Q.
        match k % 4 {
            1 => q += term,
            2 => p -= term,
            3 => q -= term,
            _ => p += term,
        }
        if term.abs() < 1e-17 {
            break;
        }
    }
    let (sin, cos) = sin_cos(x - order * FRAC_PI_2 - FRAC_PI_4);
    (2.0 / (PI * x)).sqrt() * (p * cos - q * sin)
}
