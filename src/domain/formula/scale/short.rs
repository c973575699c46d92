//! A formula made with what there is of one food.

use super::ScaleError;
use crate::food::Food;
use crate::formula::{ComponentId, Draft, Ingredient};
use crate::units::Grams;

impl Draft {
    fn ingredient(&self, component: ComponentId, place: usize) -> Option<&Ingredient> {
        self.component(component)?.ingredients.get(place)
    }

    /// How much of an ingredient the whole formula needs, in every component that has the same food,
    /// whatever it is called there; none where there is no such ingredient.
    ///
    /// `place` is where it stands in the component's ingredients, from nought.
    #[must_use]
    pub fn needs(&self, component: ComponentId, place: usize) -> Option<Grams> {
        let food = self.ingredient(component, place)?.food;
        let (inside, outside) = self.all_of(food);
        Some(inside + outside)
    }

    /// All of a food: in the dough and its fillings, and on the outside of the pieces.
    fn all_of(&self, food: &Food) -> (Grams, Grams) {
        let sum = |is_outside: bool| -> Grams {
            let components = self.components.iter();
            components
                .filter(|component| component.is_outside() == is_outside)
                .flat_map(|component| &component.ingredients)
                .filter(|part| part.food.key == food.key)
                .map(|part| part.mass)
                .sum()
        };
        (sum(false), sum(true))
    }

    /// How many times the dough takes so much of a food, the number of pieces staying.
    ///
    /// What is in the dough grows with the dough, and what is on the outside with its surface:
    /// `there = inside × t + outside × t^(2/3)`.
    pub(super) fn times_for(
        &self,
        component: ComponentId,
        place: usize,
        there: Grams,
    ) -> Result<f64, ScaleError> {
        let missing = ScaleError::NoSuchIngredient { component, place };
        let food = self.ingredient(component, place).ok_or(missing)?.food;
        let (inside, outside) = self.all_of(food);
        let (inside, outside, there) = (inside.get(), outside.get(), there.get());
        if inside + outside <= 0.0 || there <= 0.0 {
            return Err(ScaleError::Nothing);
        }
        if outside <= 0.0 {
            return Ok(there / inside);
        }
        // With t = y³: f(y) = inside y³ + outside y² − there, which rises and bends upwards, so that
        // Newton's steps from above come down to its root and never pass it.
        let mut y = (there / outside).sqrt();
        if inside > 0.0 {
            y = y.min((there / inside).cbrt());
        }
        for _ in 0..MOST_STEPS {
            let f = (inside * y + outside) * y * y - there;
            let slope = (3.0 * inside * y + 2.0 * outside) * y;
            let next = y - f / slope;
            if next.is_nan() || next >= y {
                break;
            }
            y = next;
        }
        Ok(y * y * y)
    }
}

/// More steps than it ever takes: from above, with both parts alike, it is there after six.
const MOST_STEPS: u32 = 60;
