//! How a manuscript is changed.

mod ingredients;
mod steps;

use super::{Component, Ingredient, Manuscript};
use crate::food::Food;
use crate::formula::{ComponentId, ComponentKind, Kept, StepId, StepKind};
use crate::thermal::oven::BakeForm;
use crate::units::{BakersPercent, Celsius, Grams, Minutes};

/// The place of an ingredient.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct At {
    /// The component that it goes into.
    pub component: ComponentId,
    /// Its place there, from 0.
    pub place: usize,
}

/// One change. Places to move to count from 0, and one behind the end is the end.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// What it is called.
    Name(String),
    /// What is said about it.
    About(String),
    /// How many pieces; `None` where that follows from their mass.
    Count(Option<u16>),
    /// How heavy a piece is; `None` where that follows from their number.
    PieceMass(Option<Grams>),
    /// What one piece and several are called.
    Nouns(String, String),
    /// In what form they bake.
    Form(BakeForm),
    /// The dough temperature that times are written for.
    Reference(Option<Celsius>),

    /// A new component at the end.
    AddComponent(ComponentKind, String),
    /// A component with its ingredients and steps.
    RemoveComponent(ComponentId),
    /// What it is called.
    RenameComponent(ComponentId, String),
    /// What part it plays.
    ComponentKind(ComponentId, ComponentKind),
    /// To another place among the components.
    MoveComponent(ComponentId, usize),
    /// At what temperature it should come off the bench.
    Target(ComponentId, Option<Celsius>),

    /// A new ingredient of that name at the end of a component.
    AddIngredient(ComponentId, String),
    /// An ingredient at the end of a component, with all that a line says of it.
    PutIngredient(ComponentId, Box<Ingredient>),
    /// An ingredient.
    RemoveIngredient(At),
    /// What it is called.
    RenameIngredient(At, String),
    /// What else is to be said of it.
    Note(At, String),
    /// To another place, in its own component or another.
    MoveIngredient(At, At),
    /// What it weighs; its percentage follows.
    Mass(At, Option<Grams>),
    /// What it is of the flour; its mass follows, now and whenever the flour changes.
    Percent(At, BakersPercent),
    /// All the flour of the dough with its preferments, where its parts are given in per cent.
    Flour(Grams),
    /// What food it is.
    Food(At, Option<&'static Food>),
    /// Where it waits.
    Kept(At, Kept),
    /// Whether its amount is the baker's affair.
    AsLiked(At, bool),
    /// The liquid of a component whose temperature the baker chooses; no other is then.
    Tempered(ComponentId, Option<usize>),

    /// A usual step of that kind for a component, at a place of the list.
    AddStep(StepKind, ComponentId, usize),
    /// The usual steps for all components, where there are none.
    UsualSteps,
    /// A step; what waited for it waits for what it waited for.
    RemoveStep(StepId),
    /// To another place of the list.
    MoveStep(StepId, usize),
    /// What is done in it; its length, needs and cautions become the usual ones.
    StepKind(StepId, StepKind),
    /// The component that it works on.
    StepComponent(StepId, ComponentId),
    /// What it is called in lists.
    Title(StepId, String),
    /// What to do now, in at most twelve words.
    Instruction(StepId, String),
    /// How to do it.
    Detail(StepId, String),
    /// What to look for.
    Cue(StepId, String),
    /// How long it takes, from the least to the most.
    Time(StepId, Minutes, Minutes),
    /// The oven's temperature without a fan, of the bake and of the heating before it.
    Heat(StepId, Celsius),
}

/// Why an edit changes nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refused {
    /// There is no such component.
    NoComponent,
    /// There is no such ingredient.
    NoIngredient,
    /// There is no such step.
    NoStep,
    /// All numbers have been given.
    Full,
    /// The flours that are given in per cent would be all the flour or more, beside what is weighed.
    MoreThanAllFlour,
    /// No flour is given in per cent, so nothing says how to share the flour out.
    FlourIsWeighed,
    /// More words than can be read from across the kitchen.
    TooManyWords,
    /// How long the step takes follows from heat.
    TimeFollows,
    /// Nothing in the step is heated by the oven.
    NoOven,
    /// The steps stand already.
    HasSteps,
    /// There is no dough to make steps for.
    NoDough,
}

impl Manuscript {
    /// Makes a change.
    ///
    /// # Errors
    /// [`Refused`] where it can't be made; nothing is then changed.
    pub fn apply(&mut self, edit: &Edit) -> Result<(), Refused> {
        let mut changed = self.clone();
        changed.change(edit)?;
        changed.settle();
        *self = changed;
        Ok(())
    }

    /// This manuscript after some edits, those that are refused passed over. Taking the last one back is asking for
    /// all but the last.
    #[must_use]
    pub fn after(&self, edits: &[Edit]) -> Self {
        let mut after = self.clone();
        for edit in edits {
            // A refused edit changes nothing, and whoever made it was told when it was made.
            let _refused = after.apply(edit);
        }
        after
    }

    fn change(&mut self, edit: &Edit) -> Result<(), Refused> {
        match edit {
            Edit::Name(name) => name.clone_into(&mut self.name),
            Edit::About(about) => about.clone_into(&mut self.about),
            Edit::Count(count) => self.pieces.count = *count,
            Edit::PieceMass(mass) => self.pieces.mass = *mass,
            Edit::Nouns(noun, plural) => {
                noun.clone_into(&mut self.pieces.noun);
                plural.clone_into(&mut self.pieces.plural);
            }
            Edit::Form(form) => {
                self.pieces.form = *form;
                self.pieces.form_is_assumed = false;
            }
            Edit::Reference(reference) => self.reference = *reference,
            Edit::AddComponent(..)
            | Edit::RemoveComponent(_)
            | Edit::RenameComponent(..)
            | Edit::ComponentKind(..)
            | Edit::MoveComponent(..)
            | Edit::Target(..) => return self.change_component(edit),
            Edit::AddIngredient(..)
            | Edit::PutIngredient(..)
            | Edit::RemoveIngredient(_)
            | Edit::RenameIngredient(..)
            | Edit::Note(..)
            | Edit::MoveIngredient(..)
            | Edit::Mass(..)
            | Edit::Percent(..)
            | Edit::Flour(_)
            | Edit::Food(..)
            | Edit::Kept(..)
            | Edit::AsLiked(..)
            | Edit::Tempered(..) => return self.change_ingredient(edit),
            Edit::AddStep(..)
            | Edit::UsualSteps
            | Edit::RemoveStep(_)
            | Edit::MoveStep(..)
            | Edit::StepKind(..)
            | Edit::StepComponent(..)
            | Edit::Title(..)
            | Edit::Instruction(..)
            | Edit::Detail(..)
            | Edit::Cue(..)
            | Edit::Time(..)
            | Edit::Heat(..) => return self.change_step(edit),
        }
        Ok(())
    }

    fn change_component(&mut self, edit: &Edit) -> Result<(), Refused> {
        match edit {
            Edit::AddComponent(kind, name) => {
                let next = self.last_component.0.checked_add(1).ok_or(Refused::Full)?;
                self.last_component = ComponentId(next);
                let added = Component::blank(ComponentId(next), *kind, name.clone());
                self.components.push(added);
            }
            Edit::RemoveComponent(id) => {
                let place = self.component_place(*id)?;
                let own = self.steps.iter().filter(|line| line.step.component == *id);
                for step in own.map(|line| line.step.id).collect::<Vec<_>>() {
                    self.remove_step(step)?;
                }
                self.components.remove(place);
            }
            Edit::RenameComponent(id, name) => name.clone_into(&mut self.component_mut(*id)?.name),
            Edit::ComponentKind(id, kind) => {
                let component = self.component_mut(*id)?;
                component.kind = *kind;
                component.kind_is_assumed = false;
            }
            Edit::MoveComponent(id, to) => {
                let from = self.component_place(*id)?;
                let component = self.components.remove(from);
                let to = (*to).min(self.components.len());
                self.components.insert(to, component);
            }
            Edit::Target(id, target) => self.component_mut(*id)?.target = *target,
            _ => {}
        }
        Ok(())
    }

    fn component_place(&self, id: ComponentId) -> Result<usize, Refused> {
        let place = self.components.iter().position(|one| one.id == id);
        place.ok_or(Refused::NoComponent)
    }

    fn component_mut(&mut self, id: ComponentId) -> Result<&mut Component, Refused> {
        let place = self.component_place(id)?;
        Ok(&mut self.components[place])
    }
}
