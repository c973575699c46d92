//! A formula made for other pieces.
//!
//! Dough and filling are multiplied by one factor, so that every percentage of the dough stays and
//! each piece keeps its share of the filling. What goes on the outside (wash, glaze, coating) follows
//! the surface, which of a body that keeps its proportions grows with `m^(2/3)`:
//!
//! - dough, preferments, fillings: `count × mass / (own count × own mass)`
//! - wash, glaze, coating: `count / own count × (mass / own mass)^(2/3)`
//!
//! So with more pieces of the same mass everything multiplies by their number, twice the mass of a
//! piece wants 1.59 times its wash, and one loaf of the dough of eight buns wants half of theirs. Both
//! depend on nothing but number and mass, so two wishes that mean the same make the same, and a way
//! there and back ends where it began. That bodies keep their proportions is what
//! [`BakeForm`] has; the exponent is geometry, and the same rule is used for times in the oven.
//!
//! Left out: what sticks to a brush and a bowl, which is as much for few pieces as for many.

mod baked;
mod eggs;
mod error;
mod short;
mod tins;

pub use baked::{MOST_LOSS, baking_loss};
pub use eggs::{Change, EggCount, EggOffer, EggPart, EggRefusal, EggSize};
pub use error::ScaleError;
pub use tins::{Lid, Tin, Tins};

use std::sync::Arc;

use super::{Checklist, Component, ComponentId, ComponentKind, Draft, Formula, Held, Length};
use crate::estimate::Estimate;
use crate::thermal::oven::BakeForm;
use crate::units::{Grams, Share, grams};

/// What the baker wants to end up with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Size {
    /// So many pieces of such a mass, divided.
    Pieces {
        /// How many.
        count: u16,
        /// How heavy each is when divided.
        mass: Grams,
    },
    /// So much dough, in as many pieces as the formula makes.
    Dough(Grams),
    /// So much flour, in as many pieces as the formula makes.
    Flour(Grams),
    /// So many pieces that weigh so much when they are baked and cool, their filling included.
    Baked {
        /// How many.
        count: u16,
        /// How heavy each is when baked, before it is glazed and coated.
        mass: Grams,
        /// What baking and cooling take of what goes into the oven: [`baking_loss`], or what the
        /// baker has weighed. It is reckoned with the likely value.
        loss: Estimate<Share>,
    },
    /// As much as these tins hold.
    Tins {
        /// The tins that there are.
        tins: Tins,
        /// How many pieces go into each.
        pieces_each: u16,
        /// The tins that the formula was written for, where it was: dough then goes by the tins'
        /// volumes, else by the [room](Lid::room_for_dough) that dough takes.
        own: Option<Tins>,
    },
    /// As much as what there is of one food allows, in as many pieces as the formula makes.
    ///
    /// It is for the whole formula: flour for the poolish and for the dough, milk for the dough, the
    /// cream and the wash ([`Draft::needs`] adds them up). More than is needed is used up likewise.
    Short {
        /// A component that has it.
        component: ComponentId,
        /// Where in that component's ingredients it stands, from nought.
        place: usize,
        /// How much there is.
        mass: Grams,
    },
}

/// The most dough that is scaled to: a home mixer's bowl holds a third of it.
pub const MOST_DOUGH: Grams = grams(12_000.0);
/// The least dough that is scaled to: below it the yeast is less than kitchen scales show.
pub const LEAST_DOUGH: Grams = grams(100.0);
/// The lightest piece that is scaled to: the step of kitchen scales.
pub const LEAST_PIECE: Grams = grams(1.0);

/// So many pieces out of so much dough, in g, which may still be any number.
struct Wish {
    count: u16,
    dough_g: f64,
}

impl Wish {
    /// The mass of all dough, where it can be had.
    fn checked(&self) -> Result<Grams, ScaleError> {
        if self.count == 0 || self.dough_g.is_nan() || self.dough_g <= 0.0 {
            return Err(ScaleError::Nothing);
        }
        let dough = Grams::clamped(self.dough_g);
        if dough > MOST_DOUGH {
            let most = MOST_DOUGH;
            return Err(ScaleError::TooMuch { dough, most });
        }
        if dough < LEAST_DOUGH {
            let least = LEAST_DOUGH;
            return Err(ScaleError::TooLittle { dough, least });
        }
        let piece = dough * (1.0 / f64::from(self.count));
        // A whisker below a gram is a gram.
        if piece < LEAST_PIECE * (1.0 - 1e-9) {
            let least = LEAST_PIECE;
            return Err(ScaleError::TooLight { piece, least });
        }
        Ok(dough)
    }
}

impl Component {
    /// Whether it goes on the outside of the pieces, so that it follows their surface.
    #[must_use]
    pub fn is_outside(&self) -> bool {
        match self.kind {
            ComponentKind::Wash | ComponentKind::Glaze | ComponentKind::Coating => true,
            ComponentKind::Preferment | ComponentKind::Dough | ComponentKind::Filling => false,
        }
    }
}

impl Formula {
    /// The same formula with its pieces in another form: they rise, bake and cool in it.
    ///
    /// Left out: what the steps say, and how many pieces a tray holds.
    #[must_use]
    pub fn in_form(&self, form: BakeForm) -> Self {
        let own = self.pieces.form;
        if form == own {
            return self.clone();
        }
        let mut draft: Draft = self.clone().into_draft();
        draft.pieces.form = form;
        for step in &mut draft.steps {
            match &mut step.length {
                // The time in the oven stays the one that was written for this formula.
                Length::Bake { form: written, .. } => *written = written.or(Some(own)),
                Length::Ferment {
                    held: held @ (Held::Tray | Held::Tin),
                    ..
                } => {
                    *held = if form == BakeForm::Tin {
                        Held::Tin
                    } else {
                        Held::Tray
                    };
                }
                _ => {}
            }
        }
        // Forms don't touch how the parts hang together, so what fitted still fits.
        Self(Arc::new(draft))
    }

    /// The same formula for other pieces, exactly: nothing is rounded here.
    ///
    /// What is wished in another way than by pieces keeps the formula's number of them, unless tins
    /// or baked pieces are counted: for another number scale to that first. The hands' time of work
    /// on every piece grows with the number of pieces.
    ///
    /// # Errors
    /// [`ScaleError`] when it is of nothing, or beyond what is baked at home.
    pub fn scaled(&self, size: Size) -> Result<Self, ScaleError> {
        let wish = self.wish(size)?;
        let dough_g = wish.checked()?.get();
        let count = wish.count;
        // How often the dough, the pieces, and what goes on their outside.
        let dough = dough_g / self.dough_mass().get();
        let pieces = f64::from(count) / f64::from(self.pieces.count);
        let outside = pieces * surface(dough / pieces);
        let mut draft: Draft = self.clone().into_draft();
        draft.pieces.count = count;
        draft.pieces.mass = Grams::clamped(dough_g / f64::from(count));
        for component in &mut draft.components {
            let times = if component.is_outside() {
                outside
            } else {
                dough
            };
            for part in &mut component.ingredients {
                part.mass = part.mass * times;
            }
        }
        for step in &mut draft.steps {
            match &mut step.length {
                Length::Hands(range)
                    if step.checklist.as_ref().is_some_and(Checklist::is_by_piece) =>
                {
                    // ASSUMPTION: what is set up once for all pieces takes no time worth counting.
                    *range = range.map(|time| time * pieces);
                }
                // The time in the oven stays the one that was written for this formula.
                Length::Bake { load, .. } => *load = load.or(Some(self.oven_load())),
                _ => {}
            }
        }
        // Masses and times don't touch how the parts hang together, so what fitted still fits.
        Ok(Self(Arc::new(draft)))
    }

    /// What a size comes to, before it is looked at whether that can be had.
    fn wish(&self, size: Size) -> Result<Wish, ScaleError> {
        let now_g = self.dough_mass().get();
        let as_many = |dough_g| Wish {
            count: self.pieces.count,
            dough_g,
        };
        Ok(match size {
            Size::Pieces { count, mass } => Wish {
                count,
                dough_g: f64::from(count) * mass.get(),
            },
            Size::Dough(dough) => as_many(dough.get()),
            Size::Flour(flour) => as_many(now_g * (flour / self.flour_mass())),
            Size::Baked { count, mass, loss } => Wish {
                count,
                dough_g: f64::from(count) * self.piece_for_baked_g(mass, &loss)?,
            },
            Size::Tins {
                tins,
                pieces_each,
                own,
            } => Wish {
                count: tins.pieces(pieces_each)?,
                dough_g: tins.dough_g(own, now_g),
            },
            Size::Short {
                component,
                place,
                mass,
            } => as_many(now_g * self.times_for(component, place, mass)?),
        })
    }
}

/// How often the surface of a body that becomes so many times as heavy and keeps its proportions.
fn surface(times_as_heavy: f64) -> f64 {
    let side = times_as_heavy.cbrt();
    side * side
}
