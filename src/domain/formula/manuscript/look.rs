//! What of a manuscript is known.

use super::{At, Component, Ingredient, Line, Manuscript, MassBasis};
use crate::food::FoodKind;
use crate::formula::palette::{Holds, Setting};
use crate::formula::{ComponentId, ComponentKind, Draft, StepId};
use crate::units::{BakersPercent, bakers_percent};

/// From this much sugar or fat on a dough is rich: a tenth of the flour ([`usual`](crate::formula::usual)).
const RICH: BakersPercent = bakers_percent(10.0);

impl Manuscript {
    /// The component of that number.
    #[must_use]
    pub fn component(&self, id: ComponentId) -> Option<&Component> {
        self.components.iter().find(|component| component.id == id)
    }

    /// The ingredient at a place.
    #[must_use]
    pub fn ingredient(&self, at: At) -> Option<&Ingredient> {
        self.component(at.component)?.ingredients.get(at.place)
    }

    /// The step of that number.
    #[must_use]
    pub fn line(&self, id: StepId) -> Option<&Line> {
        self.steps.iter().find(|line| line.step.id == id)
    }

    /// An ingredient's mass as a percentage of the flour of the dough with its preferments, where both are known.
    #[must_use]
    pub fn percent(&self, at: At) -> Option<BakersPercent> {
        let part = self.ingredient(at)?;
        let known = self.known();
        match (&part.basis, part.mass) {
            (MassBasis::Percentage(percent), None) => Some(*percent),
            (_, Some(mass)) if known.flour_mass().get() > 0.0 => Some(known.percent_of_flour(mass)),
            _ => None,
        }
    }

    /// All that is known of its ingredients as a draft without steps, to reckon with; what weighs nothing yet, or is no
    /// known food, isn't in it.
    #[must_use]
    pub fn known(&self) -> Draft {
        self.draft_of(Vec::new())
    }

    /// What the defaults of a component's steps hang on.
    #[must_use]
    pub fn setting<'a>(&self, component: &'a Component) -> Setting<'a> {
        let known = self.known();
        let has_flour = known.flour_mass().get() > 0.0;
        let is_rich =
            has_flour && (known.dough_percent(FoodKind::Sugar) >= RICH || known.fat() >= RICH);
        let all = self.components.iter().flat_map(Component::foods);
        let fillings = self.components.iter();
        let mut fillings = fillings.filter(|other| other.kind == ComponentKind::Filling);
        let piece =
            (known.pieces.count > 0 && known.pieces.mass.get() > 0.0).then(|| known.oven_piece());
        Setting {
            component: component.id,
            kind: component.kind,
            name: &component.name,
            holds: Holds::of(component.foods()),
            all: Holds::of(all),
            filling_spoils: fillings.any(|filling| Holds::of(filling.foods()).spoils()),
            piece,
            form: self.pieces.form,
            is_rich,
        }
    }
}
