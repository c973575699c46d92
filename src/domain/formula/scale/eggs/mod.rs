//! A formula with a whole number of eggs.
//!
//! A scaled formula asks for 1.2 eggs. Of each ingredient that is egg the next smaller and the next
//! greater whole number are offered, and what the change brings in water the component's liquid
//! gives up, so that a dough stays as soft as it was:
//!
//! - `liquid = own liquid − (egg − own egg) × water of egg / water of liquid`
//!
//! The liquid is the one whose temperature the baker chooses, else water, else milk. A filling without
//! a liquid takes the egg as it is. A wash is egg with a little milk and nothing else: all of it is
//! made more or less, and what is left over harms nothing.
//!
//! Left out: the fat and the dry matter of the egg, by which the dough gets a little richer or leaner.

mod sizes;

pub use sizes::{EggPart, EggSize};

use std::fmt;
use std::sync::Arc;

use crate::decimal::{fixed, plain};
use crate::food::FoodKind;
use crate::formula::{Component, ComponentId, ComponentKind, Draft, Formula, Ingredient};
use crate::units::{Grams, Share, grams, share};

/// An ingredient and how it is changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// Its component.
    pub component: ComponentId,
    /// Where it stands in the component's ingredients, from nought.
    pub place: usize,
    /// How much the formula had of it.
    pub before: Grams,
    /// How much goes in now.
    pub after: Grams,
}

/// A formula with a whole number of eggs in one of its ingredients.
#[derive(Debug, Clone, PartialEq)]
pub struct EggOffer {
    /// What comes of it. The pieces become as much heavier or lighter as the dough does.
    pub formula: Formula,
    /// How many eggs, yolks or whites it has there.
    pub eggs: u16,
    /// How the egg is changed.
    pub egg: Change,
    /// How the liquid is changed, where one is.
    pub liquid: Option<Change>,
}

/// Why a whole number of eggs doesn't suit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EggRefusal {
    /// It would be another bread.
    TooMuchEgg {
        /// How much egg it would be.
        egg: Grams,
        /// The most that is offered: twice the formula's own.
        most: Grams,
    },
    /// The dough has no liquid that could make up for the egg's water.
    NoLiquid,
    /// The liquid would change by too much.
    TooMuchLiquid {
        /// By how much.
        by: Grams,
        /// The most that is offered: half of the formula's own.
        most: Grams,
    },
}

impl fmt::Display for EggRefusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooMuchEgg { egg, most } => write!(
                f,
                "that is {} g of egg, more than {} g, which is twice the formula's own",
                fixed(egg.get(), 0),
                fixed(most.get(), 0)
            ),
            Self::NoLiquid => write!(f, "no liquid can make up for the water of the egg"),
            Self::TooMuchLiquid { by, most } => write!(
                f,
                "the liquid would change by {} g, more than {} g, which is half of it",
                plain(by.get(), 1),
                plain(most.get(), 1)
            ),
        }
    }
}

impl std::error::Error for EggRefusal {}

/// The eggs of one ingredient, and how they could be whole.
#[derive(Debug, Clone, PartialEq)]
pub struct EggCount {
    /// The ingredient's component.
    pub component: ComponentId,
    /// Where it stands in the component's ingredients, from nought.
    pub place: usize,
    /// What of the egg it is.
    pub part: EggPart,
    /// How many eggs it is now, with a fraction.
    pub eggs: f64,
    /// The next whole numbers, the smaller first: what comes of each, or why it isn't offered. Empty
    /// where it is a whole number already.
    pub offers: Vec<(u16, Result<EggOffer, EggRefusal>)>,
}

/// ASSUMPTION: an egg that is off by less than this is whole; eggs of one size differ by more.
const WHOLE: Grams = grams(1.0);
/// ASSUMPTION: with more than twice its egg a bread is another bread.
const MOST_EGG: f64 = 2.0;
/// ASSUMPTION: the greatest part of the liquid that is given up or added. With less than half of it
/// the dough could hardly be brought to its temperature.
const MOST_OF_LIQUID: f64 = 0.5;
/// ASSUMPTION: what is as watery as this is a liquid, which can make up for water: milk, yoghurt and
/// juice, and neither cream nor egg yolk.
const WATERY: Share = share(0.8);

impl Formula {
    /// Every ingredient that is egg, with the next whole numbers of eggs of a size.
    ///
    /// No egg at all is not offered. Each offer changes one ingredient: for the others ask what comes
    /// of it again.
    #[must_use]
    pub fn whole_eggs(&self, size: EggSize) -> Vec<EggCount> {
        let mut found = Vec::new();
        for component in &self.components {
            for (place, egg) in component.ingredients.iter().enumerate() {
                let Some(part) = EggPart::of(egg.food).filter(|_| egg.mass > Grams::MIN) else {
                    continue;
                };
                let each = size.mass(part);
                let eggs = egg.mass / each;
                let off = each * (eggs - eggs.round()).abs();
                let is_whole = eggs.round() >= 1.0 && off < WHOLE;
                let next = if is_whole { None } else { Some(eggs) };
                let next = next
                    .into_iter()
                    .flat_map(|eggs| [eggs.floor(), eggs.ceil()]);
                let offers = next.filter(|eggs| *eggs >= 1.0).map(|eggs| {
                    let after = each * eggs;
                    let eggs = eggs as u16;
                    (eggs, self.with_eggs(component, place, eggs, after))
                });
                found.push(EggCount {
                    component: component.id,
                    place,
                    part,
                    eggs,
                    offers: offers.collect(),
                });
            }
        }
        found
    }

    /// The formula with that much egg, and its liquid to suit.
    fn with_eggs(
        &self,
        component: &Component,
        place: usize,
        eggs: u16,
        after: Grams,
    ) -> Result<EggOffer, EggRefusal> {
        let egg = &component.ingredients[place];
        let most = egg.mass * MOST_EGG;
        if after > most * (1.0 + 1e-9) {
            return Err(EggRefusal::TooMuchEgg { egg: after, most });
        }
        let liquid = liquid_of(component);
        let change = |place: usize, after: Grams| Change {
            component: component.id,
            place,
            before: component.ingredients[place].mass,
            after,
        };
        // How often what isn't the egg, and how much liquid there is then.
        let times = match component.kind {
            ComponentKind::Wash => after / egg.mass,
            _ => 1.0,
        };
        let liquid = match liquid {
            Some(place) if component.kind == ComponentKind::Wash => {
                let own = component.ingredients[place].mass;
                Some(change(place, own * times))
            }
            Some(place) => {
                let own = &component.ingredients[place];
                Some(change(place, made_up(egg, after, own)?))
            }
            None if component.is_dough() => return Err(EggRefusal::NoLiquid),
            None => None,
        };
        let egg = change(place, after);
        let mut draft: Draft = self.clone().into_draft();
        let changed = draft.components.iter_mut();
        for part in changed
            .filter(|it| it.id == component.id)
            .flat_map(|it| &mut it.ingredients)
        {
            part.mass = part.mass * times;
        }
        for change in [Some(egg), liquid].into_iter().flatten() {
            draft.set(change);
        }
        draft.pieces.mass = draft.pieces.mass * (draft.dough_mass() / self.dough_mass());
        Ok(EggOffer {
            // Masses don't touch how the parts hang together, so what fitted still fits.
            formula: Self(Arc::new(draft)),
            eggs,
            egg,
            liquid,
        })
    }
}

impl Draft {
    fn set(&mut self, change: Change) {
        let mut components = self.components.iter_mut();
        let component = components.find(|component| component.id == change.component);
        let part = component.and_then(|component| component.ingredients.get_mut(change.place));
        if let Some(part) = part {
            part.mass = change.after;
        }
    }
}

/// Where a component's liquid stands: of the tempered ones the heaviest, else of water, else of milk.
fn liquid_of(component: &Component) -> Option<usize> {
    let heaviest = |is_it: &dyn Fn(&Ingredient) -> bool| {
        let parts = component.ingredients.iter().enumerate();
        let liquids = parts.filter(|(_, part)| {
            let food = part.food;
            food.kind != FoodKind::Egg && food.composition.water >= WATERY && is_it(part)
        });
        liquids
            .max_by(|(_, one), (_, other)| one.mass.get().total_cmp(&other.mass.get()))
            .map(|(place, _)| place)
    };
    heaviest(&|part| part.tempered)
        .or_else(|| heaviest(&|part| part.food.kind == FoodKind::Water))
        .or_else(|| heaviest(&|part| part.food.kind == FoodKind::Milk))
}

/// The liquid that goes with so much egg for the same water.
fn made_up(egg: &Ingredient, after: Grams, liquid: &Ingredient) -> Result<Grams, EggRefusal> {
    // liquid = own liquid − (egg − own egg) × water of egg / water of liquid
    let water = |part: &Ingredient| part.food.composition.water.get();
    let less_g = (after.get() - egg.mass.get()) * water(egg) / water(liquid);
    let most = liquid.mass * MOST_OF_LIQUID;
    let by = Grams::clamped(less_g.abs());
    if by > most {
        return Err(EggRefusal::TooMuchLiquid { by, most });
    }
    Ok(Grams::clamped(liquid.mass.get() - less_g))
}
