//! What could be wished instead, and what that asks of the bakes.

use crate::bake::{State, Wishes};
use crate::formula::StepId;
use crate::sorted;
use crate::units::Moment;

/// What could be wished instead, and would be kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Nearest {
    /// A later table: by the likely times, and with what it may become later.
    Table {
        /// As it was wished.
        was: Moment,
        /// The soonest.
        at: Moment,
        /// With its buffer.
        safely: Option<Moment>,
    },
    /// An earlier beginning.
    Begin {
        /// As it was wished.
        was: Moment,
        /// The latest that would do.
        at: Moment,
    },
    /// Being away, but only until then.
    Back {
        /// As it was wished.
        away: (Moment, Moment),
        /// The latest.
        at: Moment,
    },
    /// Being away, but only from then on.
    Leave {
        /// As it was wished.
        away: (Moment, Moment),
        /// The earliest.
        at: Moment,
    },
    /// Not being away.
    Stay {
        /// As it was wished.
        away: (Moment, Moment),
    },
    /// A step fixed to another moment, or to none.
    Fixed {
        /// The bake.
        bake: usize,
        /// Its step.
        step: StepId,
        /// The nearest.
        at: Option<Moment>,
    },
    /// A rise in the fridge at other times, or not at all.
    Retard {
        /// The bake.
        bake: usize,
        /// Its rise.
        step: StepId,
        /// From when to when.
        stay: Option<(Moment, Moment)>,
    },
    /// Room in the fridge for so many.
    Room {
        /// More than it was said to have.
        holds: u32,
    },
}

/// What a [`Nearest`] asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Asks {
    /// Of some bakes.
    Wishes(Vec<(usize, Wishes)>),
    /// Of one bake.
    Pin(usize, StepId, Option<Moment>),
    /// Of one bake.
    Retard(usize, StepId, Option<(Moment, Moment)>),
    /// Of the kitchen's fridge.
    Room(u32),
}

impl Nearest {
    /// What it asks for of bakes.
    #[must_use]
    pub fn asks(&self, bakes: &[&State]) -> Asks {
        match *self {
            Self::Fixed { bake, step, at } => return Asks::Pin(bake, step, at),
            Self::Retard { bake, step, stay } => return Asks::Retard(bake, step, stay),
            Self::Room { holds } => return Asks::Room(holds),
            _ => {}
        }
        let changed = bakes.iter().enumerate().filter_map(|(bake, state)| {
            let mut wishes = state.wishes.clone();
            self.edit(&mut wishes);
            (wishes != state.wishes).then_some((bake, wishes))
        });
        Asks::Wishes(changed.collect())
    }

    /// Makes of what was wished what could be.
    pub(super) fn edit(&self, wishes: &mut Wishes) {
        let instead =
            |wishes: &mut Wishes, away: (Moment, Moment), by: Option<(Moment, Moment)>| {
                // Times away that overlap are told as one.
                wishes
                    .away
                    .retain(|&(from, to)| from < away.0 || to > away.1);
                wishes.away.extend(by);
                sorted::by_key(&mut wishes.away, |&away| away);
            };
        match *self {
            Self::Table { was, at, .. } if wishes.table == Some(was) => wishes.table = Some(at),
            Self::Begin { was, at } if wishes.not_before == Some(was) => {
                wishes.not_before = Some(at)
            }
            Self::Back { away, at } => instead(wishes, away, Some((away.0, at))),
            Self::Leave { away, at } => instead(wishes, away, Some((at, away.1))),
            Self::Stay { away } => instead(wishes, away, None),
            Self::Fixed { .. }
            | Self::Retard { .. }
            | Self::Room { .. }
            | Self::Table { .. }
            | Self::Begin { .. } => {}
        }
    }
}
