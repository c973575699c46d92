//! How a piece warms in the oven, and how its time depends on the oven's temperature.
//!
//! The piece is taken as a ball of risen dough, at one temperature when it goes in. Until its
//! surface boils, heat reaches it through a film as in [`transient`](crate::thermal::transient);
//! from then on evaporation holds the surface at boiling, for crumb gets no hotter:
//!
//! - before: `T = T_o − (T_o − T_0) Σ c_n exp(−ζ_n² Fo) sin(ζ_n r)/(ζ_n r)`
//! - after `Fo_s`, when that is `T_b` at the surface: `T = T_b − b exp(−π² (Fo − Fo_s))` in the middle,
//!   with `b = 2 (T_o − T_0) Σ c_n exp(−ζ_n² Fo_s) (sin ζ_n / ζ_n) ζ_n² / (π² − ζ_n²)`, the slowest mode of a
//!   ball whose surface is held, in the profile that the film left
//!
//! T_o is the oven, T_0 the dough, T_b boiling, all in °C; `Fo = α t / R²`; ζ_n are the roots of
//! `1 − ζ cot ζ = Bi`, `Bi = h R / k`; c_n their weights at the centre.
//!
//! Only ratios of times and courses through a formula's own time come from here, so α isn't asked
//! for. Sources: Carslaw & Jaeger, *Conduction of Heat in Solids*, §9.3 and §9.4 (section numbers
//! from memory); h from Baik et al. (1999), see [`Fan::film`].
//!
//! Checked against the measured middle and surface of a bread of 3.6 cm radius and 3.5 cm height at
//! 190 °C (Zhang and Datta, 2006, as open data beside a research code), to which k was fitted: the
//! course through its 90 °C is off by 5 K at most on the way and by 1 K from 88 °C on. Lab loaves in
//! the same data have 90, 95 and 98 °C at 17 to 19, 20 to 22 and 24 to 25 min; through the first of
//! these the course has the others at 22.5 and 28.5 min, late by 1.5 and 4: of the last kelvins below
//! boiling the model makes too much.
//!
//! Valid for pieces of 40 g to 2 kg in ovens of 150 to 260 °C, for a middle from 80 °C to below boiling.
//! Left out: the faster modes, which makes ratios up to 0.3 % wrong, and 1 % for the smallest pieces; the rise in the oven, which fixes the size to the risen one; the crust, which needs its
//! own time to brown, so that a cooler oven takes longer than said where colour decides; steam, which
//! warms the surface sooner by a minute or two; and other forms than a ball, in which the film
//! matters about as much as in a ball of their time.

use super::altitude::boiling_point;
use super::setting::Fan;
use crate::food::crumb;
use crate::thermal::cooling::HORIZON;
use crate::thermal::crossing::crossing;
use crate::thermal::transient::{Shape, Term, terms};
use crate::thermal::vessel::{Body, Course, Form, Material, Surroundings, Vessel};
use crate::units::{
    Celsius, CelsiusDelta, Grams, KilogramsPerCubicMetre, Metres, Millimetres, Minutes, Moment,
    WattsPerMetreKelvin, celsius_delta, kilograms_per_cubic_metre, watts_per_metre_kelvin,
};
use std::f64::consts::PI;

/// k of dough as it bakes, with what vapour carries through its pores.
///
/// ASSUMPTION: fitted, with the film of a still oven, to the measured course of one bread (see
/// above), which wants a Biot number of 0.7 to 0.8. It is what dough of [`RISEN`] has at a
/// diffusivity of 5.9e-7 m²/s, the fit's own; crumb has 4.8e-7 ([`crate::food::crumb`]). Dense dough
/// conducts half as well.
pub(super) const BAKING_CONDUCTIVITY: WattsPerMetreKelvin = watts_per_metre_kelvin(0.8);

/// How dense dough is as it bakes. ASSUMPTION: risen to two and a half times its size; measured are
/// 2.0 to 3.0 mL/g for proofed dough.
pub(super) const RISEN: KilogramsPerCubicMetre = kilograms_per_cubic_metre(484.0);

/// Nothing bakes in an oven that is hardly hotter than boiling water.
const HOTTER_THAN_BOILING: CelsiusDelta = celsius_delta(20.0);

/// So many terms before the surface boils: it is followed from a ten-thousandth of R²/α on.
const TERMS: usize = 32;
/// How much better than its film in the oven heat passes to a surface that is held at boiling: so well that it has no gap.
const AS_IN_WATER: f64 = 1e4;

/// What bakes: how large, from how cold to how hot, and at what height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Baking {
    /// A piece as it goes in.
    pub piece: Grams,
    /// How warm it goes in.
    pub dough: Celsius,
    /// How hot its middle gets; below boiling, as [`core_target`](super::core_target) sees to.
    pub core: Celsius,
    /// Where the kitchen lies.
    pub altitude: Metres,
}

/// An oven as it really is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heat {
    /// The temperature in it.
    pub air: Celsius,
    /// Whether its fan is on.
    pub fan: Fan,
}

impl Baking {
    /// How much longer it takes in one oven than in another.
    ///
    /// ```
    /// use domain::thermal::oven::{Baking, Fan, Heat};
    /// use domain::units::{celsius, grams, metres};
    ///
    /// let bun = Baking {
    ///     piece: grams(100.0),
    ///     dough: celsius(25.0),
    ///     core: celsius(92.0),
    ///     altitude: metres(0.0),
    /// };
    /// let oven = |air| Heat { air: celsius(air), fan: Fan::Off };
    /// let longer = bun.time_ratio(oven(190.0), oven(180.0));
    /// assert!(longer > 1.02 && longer < 1.06);
    /// ```
    #[must_use]
    pub fn time_ratio(&self, from: Heat, to: Heat) -> f64 {
        self.takes(to) / self.takes(from)
    }

    /// Its time as Fo.
    pub(super) fn takes(&self, heat: Heat) -> f64 {
        Ball::of(self, heat).done()
    }
}

/// The middle of a piece that goes in at `start` and is done after `likely`.
///
/// Nearer to what was measured than [`core_course`](super::core_course), most of all before its surface boils. What a
/// thermometer's reading corrects is still that one: after a reading the profile inside is kept in proportion, which
/// suits a body that stays in one film. With this one windows would hold six days in ten instead of eight.
///
/// Asked only by the checks so far.
#[must_use]
pub fn oven_course(baking: &Baking, heat: Heat, start: Moment, likely: Minutes) -> Course {
    let ball = Ball::of(baking, heat);
    let body = Vessel::of(Body {
        form: Form::Sphere {
            radius: ball.radius,
        },
        material: Material {
            conductivity: BAKING_CONDUCTIVITY,
            density: RISEN,
            specific_heat: crumb::SPECIFIC_HEAT,
        },
        film: heat.fan.film(),
    });
    let boils = ball.surface_reaches(ball.boiling);
    // By the time that passes while Fo grows by one.
    let through = |minutes: f64| {
        let at = start + Minutes::clamped(boils * minutes);
        // Where evaporation holds the surface it is as if boiling water were around it.
        let around = Surroundings::constant(ball.oven).moved(at, ball.boiling, AS_IN_WATER);
        let slower = minutes / ball.minutes.get();
        body.with_lags_times(slower.max(1e-6))
            .course(start, baking.dough, &around)
    };
    let guess = likely.get() / ball.done();
    let after = through(guess).core_reaches_after(baking.core.get(), 0.0, HORIZON.get());
    through(guess * likely.get() / after.unwrap_or(HORIZON.get()).max(1e-6))
}

/// A piece in an oven, with time as Fo.
struct Ball {
    terms: Vec<Term>,
    biot: f64,
    radius: Millimetres,
    /// R²/α, which is Fo of one.
    minutes: Minutes,
    oven: Celsius,
    dough: Celsius,
    core: Celsius,
    boiling: Celsius,
}

impl Ball {
    fn of(baking: &Baking, heat: Heat) -> Self {
        let volume_m3 = baking.piece.get().max(1.0) / 1000.0 / RISEN.get();
        let radius_m = (volume_m3 * 0.75 / PI).cbrt();
        // Bi = h R / k
        let biot = heat.fan.film().get() * radius_m / BAKING_CONDUCTIVITY.get();
        // J/(g K) is kJ/(kg K).
        let heat_j_m3k = RISEN.get() * crumb::SPECIFIC_HEAT.get() * 1000.0;
        let boiling = boiling_point(baking.altitude);
        Self {
            terms: terms(Shape::Sphere, biot, TERMS),
            biot,
            radius: Millimetres::clamped(radius_m * 1000.0),
            minutes: Minutes::clamped(
                radius_m * radius_m * heat_j_m3k / BAKING_CONDUCTIVITY.get() / 60.0,
            ),
            oven: heat.air.max(boiling + HOTTER_THAN_BOILING),
            dough: baking.dough,
            core: baking.core,
            boiling,
        }
    }

    /// Σ c_n exp(−ζ_n² Fo) (sin ζ_n / ζ_n) f(ζ_n²), of which f = 1 is what is left at the surface.
    ///
    /// The film brings what the mean takes up, so c_n sin ζ_n / ζ_n is the mean's weight times ζ_n² / (3 Bi).
    fn at_surface(&self, fourier: f64, f: &dyn Fn(f64) -> f64) -> f64 {
        let of_term = |term: &Term| {
            let squared = term.eigenvalue * term.eigenvalue;
            term.mean * squared * (-squared * fourier).exp() * f(squared)
        };
        self.terms.iter().map(of_term).sum::<f64>() / (3.0 * self.biot)
    }

    /// Fo at which the surface has a temperature between the dough's and boiling.
    fn surface_reaches(&self, wanted: Celsius) -> f64 {
        let left = (self.oven - wanted) / (self.oven - self.dough);
        first_fall(1e-4, &|fourier| self.at_surface(fourier, &|_| 1.0) - left)
    }

    /// Fo at which the middle is done; one that is done before its surface boils is done when that boils.
    fn done(&self) -> f64 {
        let rate = PI * PI;
        let boils = self.surface_reaches(self.boiling);
        let spread = self.at_surface(boils, &|squared| squared / (rate - squared));
        let gap_k = 2.0 * (self.oven - self.dough).get() * spread;
        let left_k = (self.boiling - self.core).get().max(0.1);
        boils + ((gap_k / left_k).ln() / rate).max(0.0)
    }
}

/// Where a function that falls for good comes below zero, looked for in intervals that double.
fn first_fall(first: f64, function: &dyn Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, first);
    // It falls to below zero in the end; a thousand is far beyond.
    while function(high) > 0.0 && high < 1e3 {
        (low, high) = (high, 2.0 * high);
    }
    crossing(low, high, 1e-7 * high, function)
}
