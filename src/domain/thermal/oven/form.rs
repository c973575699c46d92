//! How long another form of the same dough takes: rolls, a loaf, a tin, a tray bake.
//!
//! The surface of what bakes is taken to be at boiling from the beginning, and its middle is followed
//! by the product of the series along each direction ([`reach`](crate::thermal::reach)): a ball; a
//! free-standing loaf as a short cylinder; what fills a tin or a tray as a slab in each of three
//! directions, heated on every face. The ratio of two such times is the likely one, `t ∝ L²` for
//! bodies of one form. Where the oven's heat is the bottleneck it is that of their volumes over
//! their surfaces, `t ∝ V/A`, and the window takes in both.
//!
//! Source: Carslaw & Jaeger, *Conduction of Heat in Solids*, §5.6 for the product (section from memory).
//! Valid for what is baked through to a middle below boiling, from 20 mm thick to a large loaf.
//! Left out: the tin. Bright metal that shines heat away, or thick glass or pottery that takes time to
//! warm, makes it a tenth longer, and dark metal a tenth shorter (common practice, no source). The top
//! of a tin counts as heated like its sides; tins that touch, and lids, are slower than said.
//!
//! Asked only by the checks so far: no formula changes its form yet.

use super::altitude::boiling_point;
use super::heating::{BAKING_CONDUCTIVITY, RISEN};
use crate::estimate::{Basis, Estimate};
use crate::food::crumb;
use crate::thermal::reach::{Extent, Solid};
use crate::thermal::transient::Shape;
use crate::thermal::vessel::Material;
use crate::units::{Celsius, Grams, Metres, Millimetres, WattsPerSquareMetreKelvin};
use std::f64::consts::PI;

/// The form of what bakes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Baked {
    /// A bun or a round loaf.
    Ball {
        /// What it weighs.
        mass: Grams,
    },
    /// A long loaf that stands free, a braid or a stick.
    Roll {
        /// What it weighs.
        mass: Grams,
        /// From end to end.
        length: Millimetres,
    },
    /// What fills a loaf tin or a tray as deep as it comes.
    Filled {
        /// What it weighs.
        mass: Grams,
        /// The tin's inside.
        width: Millimetres,
        /// The tin's inside.
        length: Millimetres,
    },
}

impl Baked {
    /// It as a body that conducts.
    fn solid(self) -> Solid {
        let volume_mm3 = |mass: Grams| mass.get().max(1.0) * 1e6 / RISEN.get();
        let extent = |shape, length_mm| Extent {
            shape,
            length: Millimetres::clamped(length_mm),
        };
        let at_least = |length: Millimetres| length.get().max(1.0);
        let extents = match self {
            Self::Ball { mass } => {
                let radius_mm = (volume_mm3(mass) * 0.75 / PI).cbrt();
                vec![extent(Shape::Sphere, radius_mm)]
            }
            Self::Roll { mass, length } => {
                let length_mm = at_least(length);
                let radius_mm = (volume_mm3(mass) / (PI * length_mm)).sqrt();
                vec![
                    extent(Shape::Cylinder, radius_mm),
                    extent(Shape::Slab, 0.5 * length_mm),
                ]
            }
            Self::Filled {
                mass,
                width,
                length,
            } => {
                let (width_mm, length_mm) = (at_least(width), at_least(length));
                let depth_mm = volume_mm3(mass) / (width_mm * length_mm);
                [width_mm, length_mm, depth_mm]
                    .map(|across_mm| extent(Shape::Slab, 0.5 * across_mm))
                    .to_vec()
            }
        };
        Solid {
            extents,
            material: Material {
                conductivity: BAKING_CONDUCTIVITY,
                density: RISEN,
                specific_heat: crumb::SPECIFIC_HEAT,
            },
            film: WattsPerSquareMetreKelvin::MAX,
        }
    }
}

/// How much longer one form takes than another, from the dough's temperature to the wanted one in
/// the middle; `None` where the middle can't get there.
///
/// ```
/// use domain::thermal::oven::{Baked, form_ratio};
/// use domain::units::{celsius, grams, metres};
///
/// let ball = |mass| Baked::Ball { mass: grams(mass) };
/// let ratio = form_ratio(ball(80.0), ball(160.0), celsius(25.0), celsius(92.0), metres(0.0));
/// let ratio = ratio.expect("both get there").likely();
/// // 2^(2/3), but for a film that is only nearly as if there were none.
/// assert!((ratio - 1.587).abs() < 0.002);
/// ```
#[must_use]
pub fn form_ratio(
    from: Baked,
    to: Baked,
    dough: Celsius,
    core: Celsius,
    altitude: Metres,
) -> Option<Estimate<f64>> {
    let (from, to) = (from.solid(), to.solid());
    let boiling = boiling_point(altitude);
    let taken = |solid: &Solid| solid.time_to(dough, boiling, core);
    let by_conduction = taken(&to)? / taken(&from)?;
    // τ = ρ c (V/A) / h, of one material and film.
    let by_surface = to.lumped_time_constant() / from.lumped_time_constant();
    Some(Estimate::new(
        by_conduction.min(by_surface),
        by_conduction,
        by_conduction.max(by_surface),
        Basis::Model,
    ))
}
