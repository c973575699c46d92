//! A formula with more or less yeast: its rises take another time. And one with another kind of it, whose rises don't.
//!
//! How the time follows the dose, and how sure that is, stands in [`yeast::dose`](crate::yeast::dose).

use std::sync::Arc;

use super::usual::fresh_yeast_per_gram;
use super::{Component, ComponentId, ComponentKind, Draft, Formula, Ingredient, Kept, Length};
use crate::food::{FoodKind, food};
use crate::kitchen::Scales;
use crate::units::Grams;
use crate::yeast::dose;
use crate::yeast::kinds::YeastKind;

impl Ingredient {
    /// Its yeast reckoned as fresh, so that kinds can be added up; none in other foods.
    #[must_use]
    pub fn fresh_yeast(&self) -> Grams {
        match self.food.kind {
            FoodKind::Yeast => self.mass * fresh_yeast_per_gram(self.food.key),
            _ => Grams::MIN,
        }
    }
}

impl Component {
    fn fresh_yeast(&self) -> Grams {
        self.ingredients.iter().map(Ingredient::fresh_yeast).sum()
    }
}

impl Draft {
    /// All the yeast of the dough and its preferments, reckoned as fresh.
    #[must_use]
    pub fn fresh_yeast(&self) -> Grams {
        self.dough_ingredients().map(Ingredient::fresh_yeast).sum()
    }

    /// The kind of its yeast, of the first where there are several; none where none is in it.
    #[must_use]
    pub fn yeast_kind(&self) -> Option<YeastKind> {
        let mut parts = self.dough_ingredients();
        let first = parts.find(|part| part.food.kind == FoodKind::Yeast)?;
        Some(YeastKind::of_key(first.food.key))
    }

    /// The yeast that works in a component: a preferment's own, or all of it in the dough.
    fn yeast_in(&self, id: ComponentId) -> Grams {
        match self.component(id) {
            Some(alone) if alone.kind == ComponentKind::Preferment => alone.fresh_yeast(),
            Some(dough) if dough.is_dough() => self.fresh_yeast(),
            _ => Grams::MIN,
        }
    }
}

impl Formula {
    /// The same formula with another kind of yeast, as much of it as [does the same work](crate::yeast::kinds), exactly.
    ///
    /// Its rises keep their times, and the pieces become as much heavier or lighter as the dough does. Fresh yeast
    /// waits in the fridge, dry yeast on the shelf. Left out: what the steps say.
    #[must_use]
    pub fn with_yeast_kind(&self, kind: YeastKind) -> Self {
        let (before, Some(other)) = (self, food(kind.key())) else {
            return self.clone();
        };
        let mut draft: Draft = self.clone().into_draft();
        for component in draft.components.iter_mut().filter(|part| part.is_dough()) {
            for part in &mut component.ingredients {
                // What is that kind already keeps the baker's name for it.
                if part.food.kind == FoodKind::Yeast && part.food.key != other.key {
                    part.mass = YeastKind::of_key(part.food.key).as_kind(part.mass, kind);
                    part.food = other;
                    part.name = other.name.to_owned();
                    part.kept = match kind {
                        YeastKind::Fresh => Kept::Fridge,
                        _ => Kept::Kitchen,
                    };
                }
            }
        }
        draft.pieces.mass = draft.pieces.mass * (draft.dough_mass() / before.dough_mass());
        // Masses and foods don't touch how the parts hang together, so what fitted still fits.
        Self(Arc::new(draft))
    }

    /// The same formula with so many times its yeast: exactly, or in amounts that these scales can
    /// show, each for itself and within what the [dose]'s equation covers.
    ///
    /// All yeast of the dough and its preferments is changed. Their rises take as much longer or
    /// shorter as what is really weighed makes them, folds keep their place within the rise, and
    /// the window of each is widened. The pieces become as much heavier or lighter as the dough
    /// does. Left out: rests and times in the fridge, which the formula gives by the clock.
    ///
    /// What comes out may be unusual: [`readings`](super::usual::readings) says so.
    #[must_use]
    pub fn with_yeast(&self, times: f64, scales: Option<&Scales>) -> Self {
        let before = self;
        let mut draft: Draft = self.clone().into_draft();
        for component in draft.components.iter_mut().filter(|part| part.is_dough()) {
            for part in &mut component.ingredients {
                if part.food.kind == FoodKind::Yeast {
                    let own = part.mass;
                    part.mass = own * times;
                    if let Some(scales) = scales {
                        let (least, most) = (own * dose::LEAST_DOSE, own * dose::MOST_DOSE);
                        part.mass = scales.nearest(part.mass, least, most);
                    }
                }
            }
        }
        draft.pieces.mass = draft.pieces.mass * (draft.dough_mass() / before.dough_mass());
        for place in 0..draft.steps.len() {
            let id = draft.steps[place].component;
            let own = before.yeast_in(id);
            let times = draft.yeast_in(id) / own;
            if let Length::Ferment {
                reference_minutes,
                folds,
                ..
            } = &mut draft.steps[place].length
                && own > Grams::MIN
            {
                let longer = dose::lengthened(reference_minutes, times);
                let by = longer.likely() / reference_minutes.likely();
                for fold in folds.iter_mut() {
                    *fold = *fold * by;
                }
                *reference_minutes = longer;
            }
        }
        // Masses and times don't touch how the parts hang together, so what fitted still fits.
        Self(Arc::new(draft))
    }
}
