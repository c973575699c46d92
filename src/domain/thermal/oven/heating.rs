//! How a piece warms in the oven, and how its time depends on its form, the oven and the height.
//!
//! The piece is taken as one body of risen dough ([`BakeForm`]), at one temperature when it goes in. Until its
//! surface boils, heat reaches it through a film as in [`transient`](crate::thermal::transient);
//! from then on evaporation holds the surface at boiling, for crumb gets no hotter:
//!
//! - before: `T = T_o − (T_o − T_0) Σ c_n exp(−ζ_n² Fo) φ_n`, with φ_n the mode's own profile
//! - after `Fo_s`, when that is `T_b` at the surface: `T = T_b − b exp(−λ² (Fo − Fo_s))` in the middle,
//!   with `b = C (T_o − T_0) Σ s_n exp(−ζ_n² Fo_s) ζ_n² / (λ² − ζ_n²)`, the slowest mode of a
//!   body whose surface is held, in the profile that the film left
//!
//! T_o is the oven, T_0 the dough, T_b boiling, all in °C; `Fo = α t / L²`; ζ_n are the roots for
//! `Bi = h L / k`, c_n their weights at the centre, and `s_n = m_n ζ_n² / (d Bi)` what each has at the
//! surface, for the film brings what the mean takes up (m_n the mean's weight, d the dimensions in
//! which heat flows). λ and C are the root and weight of a body that is held: π and 2 for a ball, 2.405
//! and 1.602 for a stick, π/2 and 4/π for a layer. (Green's identity for the two modes gives b.)
//!
//! Only ratios of times and courses through a formula's own time come from here, so that an error in α
//! cancels. Sources: Carslaw & Jaeger, *Conduction of Heat in Solids*, §9.3 and §9.4 (section numbers
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
//! Left out: the faster modes, which makes ratios up to 0.3 % wrong, and 1 % for the smallest pieces; the
//! rise in the oven, which fixes the size to the risen one; the dough's own temperature, for a bake takes in
//! every dough at its formula's reference (out of the fridge, at 8 °C instead of 25, buns and braids take 11 % longer and a
//! tin loaf 8 %, at 30 °C 3 % less long; that is within the window, but for the coldest); the crust, which needs its own time to
//! brown, so that a cooler oven takes longer than said where colour decides; and steam, which warms the
//! surface sooner by a minute or two.
//!
//! # Height
//!
//! Where water boils at a lower temperature, surface and middle are both nearer to it, and the last
//! kelvins take longer. Against [`LOW`], down to which no formula says where it was written, the model takes 7 %
//! longer for a bun and 16 % for a tin loaf at 1000 m, 14 and 23 % at 1500 m. Of the last kelvins it
//! makes half as much again as was measured, and what is published for yeast breads doesn't ask for
//! more time at all: no other temperature is needed (Colorado Wheat Administrative Committee; Ask
//! Extension, New Mexico, 2016), look a few minutes before the earliest (magazine); breads are
//! taken out at 195 °F at 7,700 ft and at 188 °F at 10,000 ft (state specialists, Ask Extension,
//! Colorado, 2017), 1.5 and 3.3 K below boiling there, which is about what [`core_target`] says.
//! So the likely time is longer by [`OF_HEIGHT`] of what the model says; the early end stays where it
//! was and the late one has all of it.

use super::altitude::{LOW, boiling_point};
use super::core_target;
use super::form::BakeForm;
use super::setting::Fan;
use crate::food::crumb;
use crate::thermal::cooling::HORIZON;
use crate::thermal::crossing::first_fall;
use crate::thermal::transient::{Axis, Term, one_term, terms};
use crate::thermal::vessel::{Body, Course, Material, Surroundings, Vessel};
use crate::units::{
    Celsius, CelsiusDelta, Grams, KilogramsPerCubicMetre, Metres, Minutes, Moment,
    WattsPerMetreKelvin, celsius_delta, kilograms_per_cubic_metre, watts_per_metre_kelvin,
};

/// k of dough as it bakes, with what vapour carries through its pores.
///
/// ASSUMPTION: fitted, with the film of a still oven, to the measured course of one bread (see
/// above), which wants a Biot number of 0.7 to 0.8. It is what dough of [`RISEN`] has at a
/// diffusivity of 5.9e-7 m²/s, the fit's own; crumb has 4.8e-7 ([`crate::food::crumb`]). Dense dough
/// conducts half as well.
const BAKING_CONDUCTIVITY: WattsPerMetreKelvin = watts_per_metre_kelvin(0.8);

/// How dense dough is as it bakes. ASSUMPTION: risen to two and a half times its size; measured are
/// 2.0 to 3.0 mL/g for proofed dough.
const RISEN: KilogramsPerCubicMetre = kilograms_per_cubic_metre(484.0);

/// What bakes.
const BAKING: Material = Material {
    conductivity: BAKING_CONDUCTIVITY,
    density: RISEN,
    specific_heat: crumb::SPECIFIC_HEAT,
};

/// ASSUMPTION: this part of what the model has height take longer is likely, and all of it the late end.
pub(super) const OF_HEIGHT: f64 = 0.5;

/// Nothing bakes in an oven that is hardly hotter than boiling water.
const HOTTER_THAN_BOILING: CelsiusDelta = celsius_delta(20.0);

/// So many terms before the surface boils: it is followed from a two-hundredth of L²/α on.
const TERMS: usize = 20;
/// As if nothing were between a surface and what holds it.
const HELD: f64 = f64::MAX;
/// How much better than its film in the oven heat passes to a surface that is held at boiling: so well that it has no gap.
const AS_IN_WATER: f64 = 1e4;

/// What bakes: how large and in what form, from how cold to how hot, and at what height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Baking {
    /// A piece as it goes in.
    pub piece: Grams,
    /// Its form.
    pub form: BakeForm,
    /// How warm it goes in.
    pub dough: Celsius,
    /// How hot its middle is to get, where crumb gets as hot as that.
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
    /// use domain::thermal::oven::{BakeForm, Baking, Fan, Heat};
    /// use domain::units::{celsius, grams, metres};
    ///
    /// let bun = Baking {
    ///     piece: grams(100.0),
    ///     form: BakeForm::Round,
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
        self.longer_than(to, self, from)
    }

    /// How much longer it takes in an oven than another piece in another. A formula's time for another size
    /// doesn't come from here but from [`bake_window`](super::bake_window).
    #[must_use]
    pub fn longer_than(&self, heat: Heat, other: &Self, in_other: Heat) -> f64 {
        self.takes(heat) / other.takes(in_other)
    }

    /// How much longer it takes than the same piece in another form.
    #[must_use]
    pub fn form_ratio(&self, from: BakeForm, heat: Heat) -> f64 {
        if from == self.form {
            return 1.0;
        }
        let other = Self {
            form: from,
            ..*self
        };
        self.longer_than(heat, &other, heat)
    }

    /// How much longer it takes than low down, by the model; never less long.
    #[must_use]
    pub fn height_ratio(&self, heat: Heat) -> f64 {
        if self.altitude <= LOW {
            return 1.0;
        }
        let low = Self {
            altitude: LOW,
            ..*self
        };
        self.longer_than(heat, &low, heat).max(1.0)
    }

    /// Its time in min, of which only ratios mean anything.
    pub(super) fn takes(&self, heat: Heat) -> f64 {
        let [takes] = self.takes_in([heat]);
        takes
    }

    /// The same for several ovens. The terms follow from the film alone and take longest, so ovens that are told
    /// one after the other and have the same one share them.
    pub(super) fn takes_in<const N: usize>(&self, ovens: [Heat; N]) -> [f64; N] {
        let mut last: Option<(Fan, Bread)> = None;
        ovens.map(|heat| {
            let bread = match last.take() {
                Some((fan, bread)) if fan == heat.fan => bread.in_air(heat.air),
                _ => Bread::of(self, heat),
            };
            let takes = bread.done() * bread.minutes;
            last = Some((heat.fan, bread));
            takes
        })
    }
}

/// The middle of a piece that goes in at `start` and is done after `likely`.
///
/// A reading takes it to where its middle has what was read, and from there at another pace, boiling
/// included: its surroundings change with it and not by the clock.
#[must_use]
pub fn oven_course(baking: &Baking, heat: Heat, start: Moment, likely: Minutes) -> Course {
    let bread = Bread::of(baking, heat);
    let vessel = Vessel::of(bread.body);
    let boils = bread.surface_boils();
    // By the time that passes while Fo grows by one.
    let through = |minutes: f64| {
        let at = start + Minutes::clamped(boils * minutes);
        // Where evaporation holds the surface it is as if boiling water were around it.
        let around = Surroundings::constant(bread.oven).moved(at, bread.boiling, AS_IN_WATER);
        let slower = minutes / bread.minutes;
        vessel
            .with_lags_times(slower.max(1e-6))
            .course(start, baking.dough, &around)
    };
    let guess = likely.get() / bread.done();
    let after = through(guess).core_reaches_after(bread.core.get(), 0.0, HORIZON.get());
    through(guess * likely.get() / after.unwrap_or(HORIZON.get()).max(1e-6)).at_its_own_pace()
}

/// A piece in an oven, with time as Fo.
struct Bread {
    body: Body,
    axis: Axis,
    terms: Vec<Term>,
    /// d Bi.
    brings: f64,
    /// L²/α in min, which is Fo of one.
    minutes: f64,
    oven: Celsius,
    dough: Celsius,
    core: Celsius,
    boiling: Celsius,
}

impl Bread {
    fn of(baking: &Baking, heat: Heat) -> Self {
        let film = heat.fan.film();
        let piece = Grams::clamped(baking.piece.get().max(1.0));
        let body = baking.form.body(piece, BAKING, film);
        let (axis, _) = body.form.axes();
        let length_m = axis.length_m();
        // Bi = h L / k
        let biot = film.get() * length_m / BAKING_CONDUCTIVITY.get();
        // J/(g K) is kJ/(kg K).
        let heat_j_m3k = RISEN.get() * crumb::SPECIFIC_HEAT.get() * 1000.0;
        let boiling = boiling_point(baking.altitude);
        Self {
            body,
            axis,
            terms: terms(axis.shape, biot, TERMS),
            brings: axis.shape.dimensions() * biot,
            minutes: length_m * length_m * heat_j_m3k / BAKING_CONDUCTIVITY.get() / 60.0,
            oven: heat.air,
            dough: baking.dough,
            core: core_target(baking.core, baking.altitude),
            boiling,
        }
        .in_air(heat.air)
    }

    /// The same in an oven of another temperature.
    fn in_air(self, air: Celsius) -> Self {
        Self {
            oven: air.max(self.boiling + HOTTER_THAN_BOILING),
            ..self
        }
    }

    /// Σ s_n exp(−ζ_n² Fo) f(ζ_n²), of which f = 1 is what is left at the surface.
    fn at_surface(&self, fourier: f64, f: &dyn Fn(f64) -> f64) -> f64 {
        let of_term = |term: &Term| {
            let squared = term.eigenvalue * term.eigenvalue;
            term.mean * squared * (-squared * fourier).exp() * f(squared)
        };
        self.terms.iter().map(of_term).sum::<f64>() / self.brings
    }

    /// Fo at which the surface boils.
    fn surface_boils(&self) -> f64 {
        let left = (self.oven - self.boiling) / (self.oven - self.dough);
        let above = |fourier: f64| self.at_surface(fourier, &|_| 1.0) - left;
        first_fall(1e-4, 1e3, &above).unwrap_or(1e3)
    }

    /// Fo at which the middle is done; one that is done before its surface boils is done when that boils.
    fn done(&self) -> f64 {
        let held = one_term(self.axis.shape, HELD);
        let rate = held.eigenvalue * held.eigenvalue;
        let boils = self.surface_boils();
        let spread = self.at_surface(boils, &|squared| squared / (rate - squared));
        let gap_k = held.centre * (self.oven - self.dough).get() * spread;
        let left_k = (self.boiling - self.core).get().max(0.1);
        boils + ((gap_k / left_k).ln() / rate).max(0.0)
    }
}
