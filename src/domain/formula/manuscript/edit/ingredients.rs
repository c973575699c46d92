//! Changes of ingredients.

use super::{At, Edit, Refused};
use crate::formula::manuscript::{Ingredient, Manuscript, MassBasis};
use crate::units::{BakersPercent, Grams};

impl Manuscript {
    pub(super) fn change_ingredient(&mut self, edit: &Edit) -> Result<(), Refused> {
        match edit {
            Edit::AddIngredient(component, name) => {
                let ingredients = &mut self.component_mut(*component)?.ingredients;
                ingredients.push(Ingredient::named(name.clone()));
            }
            Edit::PutIngredient(component, part) => {
                let component = self.component_mut(*component)?;
                // Only a dough has a liquid whose temperature is chosen, and one of them.
                let is_tempered = component.ingredients.iter().any(|other| other.tempered);
                let tempered = part.tempered && component.is_dough() && !is_tempered;
                let part = Ingredient::clone(part);
                component.ingredients.push(Ingredient { tempered, ..part });
            }
            Edit::RemoveIngredient(at) => {
                self.take_ingredient(*at)?;
            }
            Edit::RenameIngredient(at, name) => {
                name.clone_into(&mut self.ingredient_mut(*at)?.name);
            }
            Edit::Note(at, note) => note.clone_into(&mut self.ingredient_mut(*at)?.note),
            Edit::MoveIngredient(from, to) => {
                self.component_mut(to.component)?;
                let moved = self.take_ingredient(*from)?;
                let ingredients = &mut self.component_mut(to.component)?.ingredients;
                let place = to.place.min(ingredients.len());
                let is_tempered = ingredients.iter().any(|other| other.tempered);
                let tempered = moved.tempered && !is_tempered;
                ingredients.insert(place, Ingredient { tempered, ..moved });
            }
            Edit::Mass(at, mass) => {
                let part = self.ingredient_mut(*at)?;
                part.mass = *mass;
                part.basis = MassBasis::Weighed;
            }
            Edit::Percent(at, percent) => self.take_percent(*at, *percent)?,
            Edit::Flour(flour) => self.share_out(*flour)?,
            Edit::Food(at, food) => {
                let part = self.ingredient_mut(*at)?;
                part.food = *food;
                part.food_is_assumed = false;
            }
            Edit::Kept(at, kept) => self.ingredient_mut(*at)?.kept = *kept,
            Edit::AsLiked(at, as_liked) => self.ingredient_mut(*at)?.as_liked = *as_liked,
            Edit::Tempered(component, place) => {
                let ingredients = &mut self.component_mut(*component)?.ingredients;
                if place.is_some_and(|place| place >= ingredients.len()) {
                    return Err(Refused::NoIngredient);
                }
                for (at, part) in ingredients.iter_mut().enumerate() {
                    part.tempered = Some(at) == *place;
                }
            }
            _ => {}
        }
        Ok(())
    }

    fn ingredient_mut(&mut self, at: At) -> Result<&mut Ingredient, Refused> {
        let ingredients = &mut self.component_mut(at.component)?.ingredients;
        ingredients.get_mut(at.place).ok_or(Refused::NoIngredient)
    }

    fn take_ingredient(&mut self, at: At) -> Result<Ingredient, Refused> {
        self.ingredient_mut(at)?;
        Ok(self
            .component_mut(at.component)?
            .ingredients
            .remove(at.place))
    }

    /// A flour's percentage is of all the flour, itself included, so those that are given must leave some for what is
    /// weighed. Where no flour is weighed the masses wait for one.
    fn take_percent(&mut self, at: At, percent: BakersPercent) -> Result<(), Refused> {
        let part = self.ingredient_mut(at)?;
        part.basis = MassBasis::Percentage(percent);
        part.mass = None;
        let (mut given, mut is_weighed) = (0.0, false);
        for flour in self.flours() {
            match flour.basis {
                MassBasis::Percentage(percent) => given += percent.get(),
                _ => is_weighed |= flour.mass.is_some_and(|mass| mass.get() > 0.0),
            }
        }
        if is_weighed && given >= 100.0 {
            return Err(Refused::MoreThanAllFlour);
        }
        Ok(())
    }

    /// Weighs the flours that are given in per cent: what those that are weighed leave of all the flour, by their
    /// percentages.
    fn share_out(&mut self, flour: Grams) -> Result<(), Refused> {
        let (mut percents, mut weighed_g) = (0.0, 0.0);
        for part in self.flours() {
            match (&part.basis, part.mass) {
                (MassBasis::Percentage(percent), _) => percents += percent.get(),
                (_, Some(mass)) => weighed_g += mass.get(),
                (_, None) => {}
            }
        }
        let left_g = flour.get() - weighed_g;
        if percents <= 0.0 {
            return Err(Refused::FlourIsWeighed);
        }
        if left_g <= 0.0 {
            return Err(Refused::MoreThanAllFlour);
        }
        let doughs = self.components.iter_mut().filter(|one| one.is_dough());
        for part in doughs.flat_map(|one| &mut one.ingredients) {
            if let (true, MassBasis::Percentage(percent)) = (part.is_flour(), &part.basis) {
                part.mass = Some(Grams::clamped(left_g * percent.get() / percents));
                part.basis = MassBasis::Weighed;
            }
        }
        Ok(())
    }

    fn flours(&self) -> impl Iterator<Item = &Ingredient> {
        let doughs = self.components.iter().filter(|one| one.is_dough());
        let all = doughs.flat_map(|one| &one.ingredients);
        all.filter(|part| part.is_flour())
    }
}
