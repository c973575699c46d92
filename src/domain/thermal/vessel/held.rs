//! What holds a dough or a filling, and how well heat passes its wall.
//!
//! | | form | cooled | wall |
//! |---|---|---|---|
//! | bowl | a ball; a filling's dish as deep as the formula says | all around; side and one face | left out |
//! | tray | a piece in its form, with its filling ([`BakeForm`](crate::thermal::oven::BakeForm)) | as that says | left out |
//! | tin | a piece in the form of a tin, with its filling | as a ball | left out |
//! | jar | a cylinder as high as wide | side and one end | 3 mm of glass |
//! | bag | a disc, 20 mm thick | all around | a film of plastic |
//!
//! A wall hinders, `1 / h = 1 / h∞ + wall / k`, which takes 3 % off the film of still air for a jar and
//! 0.2 % for a bag, but 38 and 4 % off that of water. The glass of a jar has to follow as well, which is left out, and so is that
//! it is wider outside than in: against the same jar with its glass as a body of its own (finite
//! volumes, `tests/reference/cooling.toml`) that cancels within 0.3 K of a fall by 21 K.
//!
//! A piping bag that lies is a disc as well, if a thicker one: on its own, round as it is when full, it is slower.

use std::f64::consts::PI;

use super::body::{self, Body, Form, Material};
use crate::thermal::constants::GLASS;
use crate::units::{
    Grams, Millimetres, WattsPerSquareMetreKelvin, kilograms_per_cubic_metre, millimetres,
    watts_per_metre_kelvin,
};

/// What a fermenting dough or a filling sits in, which says how fast it follows its surroundings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// All of it in a covered bowl, or a filling in its dish.
    Bowl,
    /// Shaped pieces on a tray.
    Tray,
    /// One piece in a loaf tin.
    Tin,
    /// All of it in a jar of glass, open or with its lid on.
    Jar,
    /// All of it in a plastic bag that lies flat, both faces free.
    Bag,
}

impl Material {
    /// Soda-lime glass, from memory of handbook tables.
    pub(crate) const GLASS: Self = Self {
        conductivity: watts_per_metre_kelvin(1.0),
        density: kilograms_per_cubic_metre(2500.0),
        specific_heat: GLASS,
    };
}

/// ASSUMPTION: the wall of a jar, in glass; those for preserves have 2.5 to 4 mm.
const JAR_WALL: Millimetres = millimetres(3.0);
/// ASSUMPTION: the film of a freezer bag or a piping bag; common ones have 0.05 to 0.08 mm.
const BAG_WALL: Millimetres = millimetres(0.06);
/// k of polyethylene of low density, in W/(m K), from memory of handbook tables.
const POLYETHYLENE: f64 = 0.33;
/// ASSUMPTION: a bag that is laid down to cool is pressed as flat as this; common practice, no source.
pub const FLAT_BAG: Millimetres = millimetres(20.0);

impl Held {
    /// Whether all of it is in one vessel that could be another: shaped pieces stay where they are.
    #[must_use]
    pub fn is_whole(self) -> bool {
        !matches!(self, Self::Tray | Self::Tin)
    }

    /// h at what it holds, where the surroundings have such an h at its outside.
    #[must_use]
    pub fn through(self, film: WattsPerSquareMetreKelvin) -> WattsPerSquareMetreKelvin {
        let wall_m2k_w = match self {
            Self::Jar => JAR_WALL.get() / 1000.0 / Material::GLASS.conductivity.get(),
            Self::Bag => BAG_WALL.get() / 1000.0 / POLYETHYLENE,
            _ => return film,
        };
        WattsPerSquareMetreKelvin::clamped(1.0 / (1.0 / film.get().max(1e-9) + wall_m2k_w))
    }
}

/// So much of a material in a jar.
///
/// ASSUMPTION: it stands as high as it is wide, in a jar that leaves it room to rise. The top under a
/// lid or a cloth and the bottom on a shelf each pass half of what a free face would.
pub(super) fn jar_of(material: Material, mass: Grams, film: WattsPerSquareMetreKelvin) -> Body {
    // V = π r² · 2r
    let radius_m = (body::volume_m3(mass, material) / (2.0 * PI)).cbrt();
    let radius = body::from_metres(radius_m);
    Body {
        form: Form::Dish {
            radius,
            depth: radius * 2.0,
        },
        material,
        film: Held::Jar.through(film),
    }
}

/// So much of a material in a bag that lies flat.
///
/// ASSUMPTION: a disc, its edge as thick as its middle.
pub(super) fn bag_of(material: Material, mass: Grams, film: WattsPerSquareMetreKelvin) -> Body {
    let form = match body::dish(mass, FLAT_BAG, material) {
        Form::Dish { radius, depth } => Form::Roll {
            radius,
            length: depth,
        },
        other => other,
    };
    Body {
        form,
        material,
        film: Held::Bag.through(film),
    }
}
