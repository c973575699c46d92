//! What a manuscript leaves open.

use super::{At, Component, Manuscript, MassBasis};
use crate::food::FoodKind;
use crate::formula::usual::{self, Reading, readings};
use crate::formula::{ComponentId, ComponentKind, FormulaError, Length, Step, StepId, StepKind};
use crate::units::{BakersPercent, Grams};

/// Something that is missing, or can't be meant.
#[derive(Debug, Clone, PartialEq)]
pub enum Open {
    /// It has no name.
    Name,
    /// An ingredient has no name.
    IngredientName(At),
    /// No amount stands with an ingredient.
    HowMuch(At),
    /// An amount that can't be weighed: a tin, a handful.
    HowHeavy(At),
    /// No food is known for an ingredient.
    WhatFood(At),
    /// It has no dough, or several components that say they are.
    Doughs(Vec<ComponentId>),
    /// Percentages without the mass of the flour.
    HowMuchFlour,
    /// Nothing in the dough is flour.
    NoFlour,
    /// Nothing raises the dough. A remark: there are flatbreads.
    NothingRaises,
    /// More of something than anybody means. A remark.
    CantBeMeant {
        /// The ingredient.
        at: At,
        /// What it is of the flour.
        percent: BakersPercent,
        /// The most that anybody means.
        most: BakersPercent,
    },
    /// The dough has less or more of something than is usual. A remark.
    Unusual(Reading),
    /// Neither how many pieces nor how heavy they are.
    Pieces,
    /// The pieces weigh something else than the dough that they are cut from. A remark.
    OtherDough {
        /// What all pieces weigh.
        pieces: Grams,
        /// What the dough weighs.
        dough: Grams,
    },
    /// It says nothing of how it is made.
    NoSteps,
    /// Nothing bakes. A remark: it may be cooked on the hob.
    NoBake,
    /// Nobody said how hot the oven is.
    OvenHeat(StepId),
    /// Nobody said how long a step takes, and it is reckoned with a usual time. A remark.
    Time(StepId),
    /// What is done in a step, or on what, was inferred. A remark.
    Work(StepId),
    /// Its parts don't fit together.
    Broken {
        /// What is wrong.
        cause: FormulaError,
    },
}

impl Open {
    /// Whether there is no formula before it is answered. Everything else is a remark.
    #[must_use]
    pub fn is_essential(&self) -> bool {
        !matches!(
            self,
            Self::NothingRaises
                | Self::CantBeMeant { .. }
                | Self::Unusual(_)
                | Self::OtherDough { .. }
                | Self::NoBake
                | Self::Time(_)
                | Self::Work(_)
        )
    }
}

/// Pieces may differ from their dough by this part of it before that is worth a remark. Common practice, no source:
/// what sticks to the bowl and the table.
const LEFT_IN_THE_BOWL: f64 = 0.03;

impl Manuscript {
    /// Everything that is missing or doubtful, in the order in which a baker would answer: amounts and foods, flour
    /// and yeast, what can't be meant, pieces, and the steps.
    #[must_use]
    pub fn open(&self) -> Vec<Open> {
        let mut open = Vec::new();
        if self.name.trim().is_empty() {
            open.push(Open::Name);
        }
        for component in &self.components {
            ask_ingredients(component, &mut open);
        }
        self.ask_dough(&mut open);
        self.doubt(&mut open);
        self.ask_pieces(&mut open);
        self.ask_steps(&mut open);
        self.ask_structure(&mut open);
        open
    }

    fn ask_dough(&self, open: &mut Vec<Open>) {
        let doughs = self.components.iter();
        let doughs = doughs.filter(|one| one.kind == ComponentKind::Dough);
        let doughs: Vec<_> = doughs.map(|one| one.id).collect();
        if doughs.len() != 1 {
            open.push(Open::Doughs(doughs));
        }
        let parts = || {
            let doughs = self.components.iter().filter(|one| one.is_dough());
            doughs.flat_map(|one| &one.ingredients)
        };
        let has_flour = parts().any(super::Ingredient::is_flour);
        if self.waits_for_flour() {
            open.push(Open::HowMuchFlour);
        } else if !has_flour {
            open.push(Open::NoFlour);
        }
        let raises = |part: &super::Ingredient| {
            let is_yeast = part.food.is_some_and(|food| food.kind == FoodKind::Yeast);
            is_yeast || part.food.is_none()
        };
        let has_preferment = self.components.iter();
        let has_preferment = has_preferment
            .clone()
            .any(|one| one.kind == ComponentKind::Preferment);
        if has_flour && !has_preferment && !parts().any(raises) {
            open.push(Open::NothingRaises);
        }
    }

    /// What is known well enough to be doubted: of the whole dough only once all of it is known.
    fn doubt(&self, open: &mut Vec<Open>) {
        let known = self.known();
        if known.flour_mass().get() <= 0.0 {
            return;
        }
        let before = open.len();
        let mut all_is_known = true;
        for component in self.components.iter().filter(|one| one.is_dough()) {
            for (place, part) in component.ingredients.iter().enumerate() {
                let (Some(food), Some(mass)) = (part.food, part.mass) else {
                    all_is_known &= part.as_liked;
                    continue;
                };
                let percent = known.percent_of_flour(mass);
                let most = usual::most_of(food);
                if percent > most {
                    let component = component.id;
                    let at = At { component, place };
                    open.push(Open::CantBeMeant { at, percent, most });
                }
            }
        }
        // One slip is told once.
        if all_is_known && open.len() == before {
            let unusual = readings(&known).into_iter();
            open.extend(unusual.filter(|one| !one.is_usual()).map(Open::Unusual));
        }
    }

    fn ask_pieces(&self, open: &mut Vec<Open>) {
        let known = self.known();
        let has_none = self.pieces.count.is_none_or(|count| count == 0)
            && self.pieces.mass.is_none_or(|mass| mass.get() <= 0.0);
        let is_nothing =
            self.pieces.count == Some(0) || self.pieces.mass.is_some_and(|mass| mass.get() <= 0.0);
        if has_none || is_nothing {
            open.push(Open::Pieces);
            return;
        }
        let all_is_known = self
            .components
            .iter()
            .filter(|one| one.is_dough())
            .all(|one| {
                let mut parts = one.ingredients.iter();
                parts.all(|part| part.as_liked || (part.mass.is_some() && part.food.is_some()))
            });
        let (dough, count) = (known.dough_mass(), f64::from(known.pieces.count));
        let pieces = Grams::clamped(known.pieces.mass.get() * count);
        if all_is_known && count < 1.0 {
            open.push(Open::Pieces);
        } else if all_is_known
            && dough.get() > 0.0
            && (pieces / dough - 1.0).abs() > LEFT_IN_THE_BOWL
        {
            open.push(Open::OtherDough { pieces, dough });
        }
    }

    fn ask_steps(&self, open: &mut Vec<Open>) {
        if self.steps.is_empty() {
            open.push(Open::NoSteps);
            return;
        }
        let mut heats = false;
        for line in &self.steps {
            let (id, assumed) = (line.step.id, line.assumed);
            let bakes = matches!(line.step.length, Length::Bake { .. });
            heats |= bakes;
            if bakes && assumed.heat {
                open.push(Open::OvenHeat(id));
            }
            if assumed.time && !assumed.whole && has_time(&line.step) {
                open.push(Open::Time(id));
            }
            if !assumed.whole && assumed.kind {
                open.push(Open::Work(id));
            }
        }
        let cooks = |line: &super::Line| line.step.kind == StepKind::Cook;
        if !heats && !self.steps.iter().any(cooks) {
            open.push(Open::NoBake);
        }
    }

    /// Whatever else keeps it from being a formula, once nothing else does.
    fn ask_structure(&self, open: &mut Vec<Open>) {
        if open.iter().any(Open::is_essential) {
            return;
        }
        if let Err(cause) = crate::formula::check::check(&self.draft()) {
            open.push(Open::Broken { cause });
        }
    }
}

/// Whether somebody can say how long a step takes: what follows from heat nobody has to.
fn has_time(step: &Step) -> bool {
    match step.length {
        Length::Wait(_) | Length::Ferment { .. } | Length::Bake { .. } => true,
        Length::Hands(_) | Length::Chill { .. } | Length::Cool { .. } => false,
        Length::OvenHeats { .. } => false,
    }
}

fn ask_ingredients(component: &Component, open: &mut Vec<Open>) {
    for (place, part) in component.ingredients.iter().enumerate() {
        let component = component.id;
        let at = At { component, place };
        if part.name.trim().is_empty() {
            open.push(Open::IngredientName(at));
        }
        let is_percent = matches!(part.basis, MassBasis::Percentage(_));
        if part.mass.is_none() && !part.as_liked && !is_percent {
            open.push(if part.written.trim().is_empty() {
                Open::HowMuch(at)
            } else {
                Open::HowHeavy(at)
            });
        }
        // What is as liked is never weighed, so nobody has to know what it is.
        if part.food.is_none() && !(part.as_liked && part.mass.is_none()) {
            open.push(Open::WhatFood(at));
        }
    }
}
