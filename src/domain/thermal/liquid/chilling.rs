//! How long flour or a bowl takes in the fridge or the freezer.
//!
//! Flour spread out in a tray is a wide layer in air, cooled from above and, through thin metal on
//! a wire shelf, from below; its mean temperature follows the series of
//! [`transient`](crate::thermal::transient) for a slab of half its depth, and a bowl's wall the same:
//!
//! `T(t) = T_air + (T_0 - T_air) sum(w_n exp(-zeta_n² alpha t / L²))`, `alpha = k / (rho c)`
//!
//! with T in °C, t in s, k in W/(m K), rho in kg/m³, c in J/(kg K), L in m. How cold it must be
//! follows from the heat that the mixture has too much: `T = T_0 + missing / (m c)`.
//!
//! Sources: k 0.109 W/(m K), dry flour in a probe's cell, application note of a maker of
//! conductivity meters (C-Therm, "Dry vs. saturated"); rho from 137 and 125 g to the US cup,
//! bread and plain flour, USDA SR26; c as in [`food`](crate::food), measured; h as in
//! [`vessel`](crate::thermal::vessel). Valid for layers of 1 to 5 cm in still air.
//!
//! Left out: what the flour gives off or takes up as vapour (0.1 % of its mass as water is 2.4 J/g,
//! 1.4 K), the tray's own heat (a thin one holds as much as 3 mm of flour, so a tenth more time),
//! a fan (a quarter less time), and a fridge that warms when a tray is put in (a degree, a tenth
//! more time). Deeper it takes much longer: 5 cm two and a half times as long, a bag of a
//! kilogram, 7 cm thick, four times. All but the depth is meant to be in the window.

use crate::estimate::{Basis, Estimate};
use crate::thermal::constants::FREEZER;
use crate::thermal::crossing::crossing;
use crate::thermal::vessel::{Body, Cooling, Form, Material, Surroundings, Vessel};
use crate::units::{
    Celsius, KilogramsPerCubicMetre, Millimetres, Minutes, Moment, WattsPerMetreKelvin,
    WattsPerSquareMetreKelvin, celsius, joules_per_gram_kelvin, kilograms_per_cubic_metre,
    millimetres, minutes, watts_per_metre_kelvin,
};

/// Where something is chilled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ColdPlace {
    /// In the fridge.
    Fridge,
    /// In the freezer.
    Freezer,
}

/// How something is chilled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chill {
    /// Where.
    pub place: ColdPlace,
    /// How long.
    pub time: Estimate<Minutes>,
    /// What it has then, on average.
    pub to: Celsius,
}

/// Poured flour. Density: the middle of 579 and 528 kg/m³, the two cups; uncertain by 60, as
/// sifting and shaking down make it. Conductivity: uncertain by 0.03, its density not being told.
pub const FLOUR: Material = Material {
    conductivity: watts_per_metre_kelvin(0.109),
    density: kilograms_per_cubic_metre(554.0),
    specific_heat: joules_per_gram_kelvin(1.80),
};

/// ASSUMPTION: how deep flour lies when it is spread out to chill.
pub const SPREAD: Millimetres = millimetres(25.0);
/// ASSUMPTION: the wall of a mixing bowl, in glass; one of steel takes half the time.
const WALL: Millimetres = millimetres(4.0);

/// ASSUMPTION: half the width of the window of a material's conductivity and density and of the film, as parts of each.
const UNSURE: [f64; 3] = [0.28, 0.11, 0.3];

/// Nobody waits longer before mixing. ASSUMPTION.
pub const LONGEST: Minutes = minutes(60.0);
/// ASSUMPTION: flour colder than this would freeze the liquid that touches it.
pub const COLDEST_FLOUR: Celsius = celsius(0.0);

/// A layer cooled on both faces.
fn layer(material: Material, depth: Millimetres) -> Body {
    Body {
        form: Form::Layer { depth: depth * 0.5 },
        material,
        film: Cooling::Fridge.film(),
    }
}

/// Flour spread out in a tray.
#[must_use]
pub fn spread_flour() -> Body {
    layer(FLOUR, SPREAD)
}

/// An empty bowl.
#[must_use]
pub fn empty_bowl() -> Body {
    layer(Material::GLASS, WALL)
}

/// When a body has a temperature on average, at most `longest` after it was put there.
fn minutes_to(body: Body, from: Celsius, around: Celsius, to: Celsius, longest: f64) -> f64 {
    let start = Moment::from_epoch_ms(0);
    let course = Vessel::of(body).course(start, from, &Surroundings::constant(around));
    let above_k = |minutes: f64| course.mean_after(minutes) - to.get();
    if above_k(longest) >= 0.0 {
        longest
    } else {
        crossing(0.0, longest, 1e-6, &above_k)
    }
}

/// How long a body takes in surroundings that are colder than `to`, or `None` where that isn't so.
///
/// The window combines, as independent, conductivity, density and film; it ends at ten hours.
#[must_use]
pub fn time_to(
    body: Body,
    from: Celsius,
    around: Celsius,
    to: Celsius,
) -> Option<Estimate<Minutes>> {
    if around >= to || to > from {
        return None;
    }
    let takes = |[conducts, weighs, film]: [f64; 3]| {
        let Body { material, .. } = body;
        let changed = Body {
            material: Material {
                conductivity: WattsPerMetreKelvin::clamped(material.conductivity.get() * conducts),
                density: KilogramsPerCubicMetre::clamped(material.density.get() * weighs),
                ..material
            },
            film: WattsPerSquareMetreKelvin::clamped(body.film.get() * film),
            ..body
        };
        minutes_to(changed, from, around, to, 600.0)
    };
    let likely = takes([1.0; 3]);
    let (mut earlier, mut later) = (0.0, 0.0);
    for which in 0..UNSURE.len() {
        for part in [1.0 - UNSURE[which], 1.0 + UNSURE[which]] {
            let mut factors = [1.0; 3];
            factors[which] = part;
            let apart = takes(factors) - likely;
            let side = if apart < 0.0 {
                &mut earlier
            } else {
                &mut later
            };
            *side += apart * apart;
        }
    }
    let at = Minutes::clamped;
    let low = at((likely - f64::sqrt(earlier)).max(0.0));
    Some(Estimate::new(
        low,
        at(likely),
        at(likely + f64::sqrt(later)),
        Basis::Model,
    ))
}

/// How to bring a body to `wanted` within the hour: in the fridge where that will do, else in the
/// freezer, where neither flour nor bowl takes that long to [`COLDEST_FLOUR`], which ends it.
///
/// `None` where it is that cold already.
#[must_use]
pub fn chill(body: Body, from: Celsius, wanted: Celsius, fridge: Celsius) -> Option<Chill> {
    let within = |place: ColdPlace, around: Celsius, to: Celsius| {
        let time = time_to(body, from, around, to)?;
        (time.likely() <= LONGEST).then_some(Chill { place, time, to })
    };
    let to = wanted.max(COLDEST_FLOUR);
    within(ColdPlace::Fridge, fridge, to).or_else(|| within(ColdPlace::Freezer, FREEZER, to))
}
