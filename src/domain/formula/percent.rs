//! Baker's percentages: every mass as a share of all the flour in the dough.
//!
//! `percent = mass / flour × 100`, the flour of preferments included.
//! Source of the convention: Gisslen, *Professional Baking*, ch. 1 (baker's percentages).
//! For fillings, washes and glazes the percentage is still of the dough's flour:
//! it says how much goes with this much dough, in pieces of the formula's own mass (in
//! [other pieces](super::Size) what goes on the outside follows their surface).

use super::{Component, Draft, Ingredient};
use crate::food::{Composition, FoodKind};
use crate::thermal::vessel::Material;
use crate::units::{BakersPercent, Celsius, Grams};

impl Draft {
    /// All the flour of the dough and its preferments.
    #[must_use]
    pub fn flour_mass(&self) -> Grams {
        self.dough_ingredients()
            .filter(|part| part.food.kind == FoodKind::Flour)
            .map(|part| part.mass)
            .sum()
    }

    /// A mass as a percentage of the dough's flour.
    #[must_use]
    pub fn percent_of_flour(&self, mass: Grams) -> BakersPercent {
        BakersPercent::clamped(mass / self.flour_mass() * 100.0)
    }

    /// The percentage of one kind of food in the dough, preferments included.
    #[must_use]
    pub fn dough_percent(&self, kind: FoodKind) -> BakersPercent {
        let mass = self
            .dough_ingredients()
            .filter(|part| part.food.kind == kind)
            .map(|part| part.mass)
            .sum();
        self.percent_of_flour(mass)
    }

    /// Water of every ingredient but the flour itself, as a percentage of the flour:
    /// what milk, egg and butter bring counts as the water that it is.
    #[must_use]
    pub fn hydration(&self) -> BakersPercent {
        let water = self
            .dough_ingredients()
            .filter(|part| part.food.kind != FoodKind::Flour)
            .map(|part| part.mass * part.food.composition.water)
            .sum();
        self.percent_of_flour(water)
    }

    /// Fat of every ingredient, as a percentage of the flour.
    #[must_use]
    pub fn fat(&self) -> BakersPercent {
        let fat = self
            .dough_ingredients()
            .map(|part| part.mass * part.food.composition.fat)
            .sum();
        self.percent_of_flour(fat)
    }

    /// What the divided dough is made of as far as heat goes, at the temperature its times are
    /// written for.
    #[must_use]
    pub fn dough_material(&self) -> Material {
        let parts = &mut self.dough_ingredients();
        material(parts, self.reference, Material::DOUGH)
    }

    /// Every ingredient that ends up in the divided dough.
    pub fn dough_ingredients(&self) -> impl Iterator<Item = &Ingredient> {
        self.components
            .iter()
            .filter(|component| component.is_dough())
            .flat_map(|component| &component.ingredients)
    }
}

impl Component {
    /// What it is made of as far as heat goes, raw as it is weighed.
    #[must_use]
    pub fn material(&self, at: Celsius) -> Material {
        let unknown = if self.is_dough() {
            Material::DOUGH
        } else {
            Material::CUSTARD
        };
        material(&mut self.ingredients.iter(), at, unknown)
    }
}

/// The mixture of ingredients; what weighs nothing counts as `unknown`.
fn material(
    parts: &mut dyn Iterator<Item = &Ingredient>,
    at: Celsius,
    unknown: Material,
) -> Material {
    let parts: Vec<_> = parts
        .map(|part| (part.mass, part.food.composition))
        .collect();
    Composition::of_mixture(&parts).map_or(unknown, |mixture| Material::of(&mixture, at))
}
