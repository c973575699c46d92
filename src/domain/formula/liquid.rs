//! The question how warm the liquid should be, put for one dough of a formula.

use super::{Component, ComponentId, ComponentKind, Formula, Ingredient, Kept};
use crate::food::FoodKind;
use crate::kitchen::Kitchen;
use crate::thermal::constants::{GLASS, INSTANT_YEAST_LIQUID_CAP, YEAST_LIQUID_CAP};
use crate::thermal::kneading::KneadingMethod;
use crate::thermal::liquid::{LiquidPart, LiquidQuestion};
use crate::thermal::mixing::Part;
use crate::units::{Celsius, Grams, celsius, grams};

/// ASSUMPTION: the part of a mixing bowl that a dough warms or cools, in glass.
const BOWL: Grams = grams(500.0);
/// ASSUMPTION: water as cold as the tap gives it; below that there is ice.
const COLD_TAP: Celsius = celsius(15.0);

impl Formula {
    /// What the liquid's temperature depends on, or `None` when the component
    /// has no target or no liquid whose temperature the baker chooses.
    #[must_use]
    pub fn liquid_question(
        &self,
        component: ComponentId,
        kitchen: &Kitchen,
    ) -> Option<LiquidQuestion> {
        let component = self.component(component)?;
        let target = component.target?;
        let chosen = |part: &&Ingredient| part.tempered;
        let liquid = component.ingredients.iter().find(chosen)?;
        let others = component.ingredients.iter().filter(|part| !part.tempered);
        let mut parts: Vec<Part> = others.map(|part| at_its_place(part, kitchen)).collect();
        if component.kind == ComponentKind::Dough {
            parts.extend(self.preferments(kitchen));
        }
        parts.push(Part::bowl(BOWL, GLASS, kitchen.air));
        let method = match component.kind {
            // A preferment is stirred, whatever the dough is kneaded with.
            ComponentKind::Preferment => KneadingMethod::FoldOnly,
            _ => kitchen.kneading,
        };
        Some(LiquidQuestion {
            parts,
            liquid: LiquidPart {
                food: liquid.food,
                mass: liquid.mass,
            },
            target,
            kitchen: kitchen.air,
            method,
            kneading: method.parameters().usual,
            yeast_cap: yeast_cap(component),
            coldest: if liquid.food.kind == FoodKind::Water {
                COLD_TAP.min(kitchen.air)
            } else {
                kitchen.fridge
            },
        })
    }

    fn preferments<'a>(&'a self, kitchen: &'a Kitchen) -> impl Iterator<Item = Part> + 'a {
        let all = self.components.iter();
        all.filter(|component| component.kind == ComponentKind::Preferment)
            .filter_map(|component| {
                let parts: Vec<Part> = component
                    .ingredients
                    .iter()
                    .map(|part| at_its_place(part, kitchen))
                    .collect();
                // It has stood for hours, so it has come to the kitchen.
                Part::preferment(&parts, kitchen.air)
            })
    }
}

fn at_its_place(part: &Ingredient, kitchen: &Kitchen) -> Part {
    Part::of(part.food, part.mass, temperature_of(part, kitchen))
}

/// How warm an ingredient is where it waits.
fn temperature_of(part: &Ingredient, kitchen: &Kitchen) -> Celsius {
    match part.kept {
        Kept::Fridge => kitchen.fridge,
        Kept::Kitchen if part.food.kind == FoodKind::Flour => kitchen.flour_temperature(),
        Kept::Kitchen => kitchen.air,
    }
}

fn yeast_cap(component: &Component) -> Celsius {
    let instant = |part: &Ingredient| part.food.key == "yeast-instant";
    if component.ingredients.iter().any(instant) {
        INSTANT_YEAST_LIQUID_CAP
    } else {
        YEAST_LIQUID_CAP
    }
}
