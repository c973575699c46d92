//! What a body is: its material, its form and what cools it.

use std::f64::consts::PI;

use crate::food::{Composition, choi_okos, crumb};
use crate::thermal::transient::{Axis, Shape};
use crate::units::{
    Celsius, Grams, JoulesPerGramKelvin, KilogramsPerCubicMetre, Millimetres, WattsPerMetreKelvin,
    WattsPerSquareMetreKelvin, joules_per_gram_kelvin, kilograms_per_cubic_metre, millimetres,
    watts_per_metre_kelvin, watts_per_square_metre_kelvin,
};

/// What a body is made of, as far as heat goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Material {
    /// k.
    pub conductivity: WattsPerMetreKelvin,
    /// ρ.
    pub density: KilogramsPerCubicMetre,
    /// c.
    pub specific_heat: JoulesPerGramKelvin,
}

impl Material {
    /// What a mixture of that composition is like at a temperature, by [`choi_okos`].
    ///
    /// The correlation throughout, also for the flour, sugar and salt that [`crate::food`] has
    /// measured values of: those are for the dry food, and in a dough or a cream flour is wet and
    /// sugar and salt are dissolved, which is what the correlation's components stand for. With the
    /// dry values an enriched dough would take 5 % less heat. Published doughs have c from 2.15 to
    /// 3.19 J/(g K).
    ///
    /// Left out: gas, which lowers k and ρ alike and makes the body larger, so that the three nearly
    /// cancel in its time constant; water that boils away in cooking (where a cream loses a tenth
    /// of its mass, k and c are 1.5 % lower than said and ρ 0.6 % higher); butterfat that melts,
    /// which takes 8 % more heat in a dough with a fifth of butter on the flour and more than that
    /// in a brioche; and crystals and alcohol.
    #[must_use]
    pub fn of(composition: &Composition, at: Celsius) -> Self {
        let (specific_heat, density, conductivity) = choi_okos::properties(composition, at);
        Self {
            conductivity,
            density,
            specific_heat,
        }
    }

    /// Enriched dough without gas, where nobody says which.
    ///
    /// Computed with Choi & Okos (1986) on USDA SR28 compositions for flour 500,
    /// milk 200, egg 100, butter 100, sugar 60, salt 9, dry yeast 7, at 20 °C.
    /// Measured doughs have c 2.15 to 3.19 J/(g K). Gas lowers k and ρ alike
    /// and makes the body larger; the three nearly cancel in its time constant.
    pub const DOUGH: Self = Self {
        conductivity: watts_per_metre_kelvin(0.378),
        density: kilograms_per_cubic_metre(1222.0),
        specific_heat: joules_per_gram_kelvin(2.563),
    };

    /// A cooked egg and milk cream, where nobody says which.
    ///
    /// Baked custard, SR28 19168, by Choi & Okos (1986). Creams with more sugar
    /// and fat hold less heat, so this is on the slow side.
    pub const CUSTARD: Self = Self {
        conductivity: watts_per_metre_kelvin(0.54),
        density: kilograms_per_cubic_metre(1053.0),
        specific_heat: joules_per_gram_kelvin(3.663),
    };

    /// Baked crumb of 70 % pores.
    ///
    /// ρ = 979 − 9.90 ε and α = exp(0.01 ε − 15.25) m²/s from Zanoni, Peri &
    /// Gianotti, J. Food Eng. 26 (1995) 497; c is measured
    /// ([`crumb::SPECIFIC_HEAT`]), and k = α ρ c, which includes what vapour carries.
    pub const CRUMB: Self = Self {
        conductivity: watts_per_metre_kelvin(0.3883),
        density: kilograms_per_cubic_metre(286.0),
        specific_heat: crumb::SPECIFIC_HEAT,
    };

    /// The same, stirred: as if it conducted better than any metal.
    #[must_use]
    pub const fn stirred(self) -> Self {
        Self {
            conductivity: WattsPerMetreKelvin::MAX,
            ..self
        }
    }
}

/// The form of a body and the faces through which heat leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Form {
    /// A ball.
    Sphere {
        /// Its radius.
        radius: Millimetres,
    },
    /// A stick so long, or a ring, that its ends don't count.
    Stick {
        /// Its radius.
        radius: Millimetres,
    },
    /// A wide layer that loses heat through one face only.
    Layer {
        /// Its whole depth.
        depth: Millimetres,
    },
    /// A round dish that loses heat through its side and one face.
    Dish {
        /// The radius inside.
        radius: Millimetres,
        /// The depth of what is in it.
        depth: Millimetres,
    },
    /// A short cylinder that loses heat all around.
    Roll {
        /// Its radius.
        radius: Millimetres,
        /// From end to end.
        length: Millimetres,
    },
}

impl Form {
    /// The shapes whose product the form is.
    pub(crate) fn axes(self) -> (Axis, Option<Axis>) {
        // A body of no size would follow at once; a tenth of a millimetre nearly does.
        let axis = |shape, length: Millimetres| Axis {
            shape,
            length: length.max(millimetres(0.1)),
        };
        match self {
            Self::Sphere { radius } => (axis(Shape::Sphere, radius), None),
            Self::Stick { radius } => (axis(Shape::Cylinder, radius), None),
            Self::Layer { depth } => (axis(Shape::Slab, depth), None),
            Self::Dish { radius, depth } => (
                axis(Shape::Cylinder, radius),
                Some(axis(Shape::Slab, depth)),
            ),
            Self::Roll { radius, length } => (
                axis(Shape::Cylinder, radius),
                Some(axis(Shape::Slab, length * 0.5)),
            ),
        }
    }
}

/// A body and what cools it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// Its form.
    pub form: Form,
    /// What it is made of.
    pub material: Material,
    /// h, at its cooled faces.
    pub film: WattsPerSquareMetreKelvin,
}

/// How a filling is being cooled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cooling {
    /// In a fridge, uncovered or under a film that touches it.
    Fridge,
    /// On the counter.
    Kitchen,
    /// Its dish standing in water with ice.
    IceBath,
}

impl Cooling {
    /// h, the heat transfer coefficient.
    ///
    /// Still air: 10, the sum of natural convection and radiation for a 10 cm
    /// body, 4.3 + 5.4 at 30 °C in 20 °C and 6.3 + 5.8 at 60 °C in 4 °C
    /// (Churchill's correlation for spheres, computed with the Python library
    /// ht 1.2.0); textbooks give 2 to 25 for free convection in gases
    /// (Incropera & DeWitt, Table 1.1). Ice bath: 200, a value from memory for
    /// stirred water around a thin dish.
    #[must_use]
    pub const fn film(self) -> WattsPerSquareMetreKelvin {
        match self {
            Self::Fridge | Self::Kitchen => STILL_AIR,
            Self::IceBath => watts_per_square_metre_kelvin(200.0),
        }
    }
}

/// h in still air at kitchen temperatures; see [`Cooling::film`].
pub(crate) const STILL_AIR: WattsPerSquareMetreKelvin = watts_per_square_metre_kelvin(10.0);
/// h around something hot from the oven: 6.3 convective and 5.8 radiative (same source).
pub(crate) const HOT_IN_AIR: WattsPerSquareMetreKelvin = watts_per_square_metre_kelvin(12.0);

/// The ball that this much of a material makes.
pub(crate) fn sphere(mass: Grams, material: Material) -> Form {
    // V = 4/3 π r³
    Form::Sphere {
        radius: from_metres((volume_m3(mass, material) * 0.75 / PI).cbrt()),
    }
}

/// The round dish that this much of a material fills to `depth`.
pub(super) fn dish(mass: Grams, depth: Millimetres, material: Material) -> Form {
    let depth_m = depth.get().max(0.1) / 1000.0;
    // V = π r² d
    Form::Dish {
        radius: from_metres((volume_m3(mass, material) / (PI * depth_m)).sqrt()),
        depth,
    }
}

pub(crate) fn volume_m3(mass: Grams, material: Material) -> f64 {
    mass.get() / 1000.0 / material.density.get()
}

pub(crate) fn from_metres(metres: f64) -> Millimetres {
    Millimetres::clamped(metres * 1000.0)
}
