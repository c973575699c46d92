//! The question how warm the liquid should be, put for one dough of a formula.
//!
//! All liquids that are tempered are poured together; what isn't (egg from the fridge) keeps the
//! temperature of its place. A preferment that nobody has begun yet is taken to come out of the fridge where a time
//! there is its last step, and else to have stood for hours in the kitchen; that of a bake under way is
//! as warm as [its course](crate::bake::State::liquid_question) says.

use super::{Component, ComponentId, ComponentKind, Formula, Ingredient, Kept, StepKind};
use crate::food::FoodKind;
use crate::kitchen::Kitchen;
use crate::thermal::constants::{
    GLASS, INSTANT_YEAST_LIQUID_CAP, NO_YEAST_LIQUID_CAP, YEAST_LIQUID_CAP,
};
use crate::thermal::kneading::KneadingMethod;
use crate::thermal::liquid::{LiquidPart, LiquidQuestion};
use crate::thermal::mixing::Part;
use crate::units::{Celsius, CelsiusDelta, Grams, celsius, celsius_delta, grams};

/// How warm a preferment is and how far that may be off, where it is known.
pub(crate) type Warmth<'a> = &'a dyn Fn(ComponentId) -> Option<(Celsius, CelsiusDelta)>;

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
        self.liquid_question_with(component, kitchen, &|_| None)
    }

    /// The same with preferments as warm as they are.
    pub(crate) fn liquid_question_with(
        &self,
        component: ComponentId,
        kitchen: &Kitchen,
        preferment: Warmth,
    ) -> Option<LiquidQuestion> {
        let component = self.component(component)?;
        let target = component.target?;
        let (mut liquids, mut parts) = (Vec::new(), Vec::new());
        for part in &component.ingredients {
            if part.tempered {
                liquids.push(LiquidPart {
                    food: part.food,
                    mass: part.mass,
                    coldest: match part.food.kind {
                        FoodKind::Water => COLD_TAP.min(kitchen.air),
                        _ => kitchen.fridge,
                    },
                });
            } else {
                parts.push(at_its_place(part, kitchen));
            }
        }
        if liquids.is_empty() {
            return None;
        }
        if component.kind == ComponentKind::Dough {
            parts.extend(self.preferments(kitchen, preferment));
        }
        parts.push(Part::bowl(BOWL, GLASS, kitchen.air));
        let method = match component.kind {
            // A preferment is stirred, whatever the dough is kneaded with.
            ComponentKind::Preferment => KneadingMethod::FoldOnly,
            _ => kitchen.kneading,
        };
        Some(LiquidQuestion {
            parts,
            liquids,
            target,
            kitchen: kitchen.air,
            fridge: kitchen.fridge,
            method,
            kneading: method.parameters().usual,
            cap: self.cap(component),
        })
    }

    /// The warmest the liquid may be: for the most tender of all the yeast it meets.
    ///
    /// A preferment is full of live yeast whatever it was begun with, and a sourdough has
    /// some that no ingredient tells of.
    fn cap(&self, component: &Component) -> Celsius {
        let of_its_own = component.ingredients.iter().filter_map(|part| {
            let instant = part.food.key == "yeast-instant";
            (part.food.kind == FoodKind::Yeast).then_some(if instant {
                INSTANT_YEAST_LIQUID_CAP
            } else {
                YEAST_LIQUID_CAP
            })
        });
        let own = of_its_own.fold(NO_YEAST_LIQUID_CAP, Celsius::min);
        let is_preferment = |part: &Component| part.kind == ComponentKind::Preferment;
        let meets_live_yeast = match component.kind {
            ComponentKind::Dough => self.components.iter().any(is_preferment),
            ComponentKind::Preferment => own == NO_YEAST_LIQUID_CAP,
            _ => false,
        };
        if meets_live_yeast {
            own.min(YEAST_LIQUID_CAP)
        } else {
            own
        }
    }

    fn preferments<'a>(
        &'a self,
        kitchen: &'a Kitchen,
        warmth: Warmth<'a>,
    ) -> impl Iterator<Item = Part> + 'a {
        let all = self.components.iter();
        all.filter(|component| component.kind == ComponentKind::Preferment)
            .filter_map(|component| {
                let parts: Vec<Part> = component
                    .ingredients
                    .iter()
                    .map(|part| at_its_place(part, kitchen))
                    .collect();
                let (temperature, off) = warmth(component.id)
                    .unwrap_or_else(|| (self.stands_at(component.id, kitchen), celsius_delta(0.0)));
                let part = Part::preferment(&parts, temperature)?;
                Some(Part { off, ..part })
            })
    }

    /// How warm it is where a preferment stands at last, by its steps; hours there bring it to that.
    fn stands_at(&self, preferment: ComponentId, kitchen: &Kitchen) -> Celsius {
        let mut last_first = self.steps.iter().rev();
        match last_first.find(|step| step.component == preferment) {
            Some(step) if step.kind == StepKind::Retard => kitchen.fridge,
            _ => kitchen.air,
        }
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
