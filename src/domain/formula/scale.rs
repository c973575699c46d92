//! A formula made for other pieces: every mass is multiplied by one factor, so
//! that every percentage stays.

use std::fmt;
use std::sync::Arc;

use super::{Checklist, Draft, Formula, Held, Length};
use crate::decimal::fixed;
use crate::thermal::oven::BakeForm;
use crate::units::{Grams, grams};

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
}

/// Why a size can't be had.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ScaleError {
    /// No pieces, no dough or no flour was asked for.
    Nothing,
    /// More dough than anybody kneads at home.
    TooMuch {
        /// What was asked for.
        dough: Grams,
        /// The most this program scales to.
        most: Grams,
    },
    /// So little that scales can't show it.
    TooLittle {
        /// What was asked for.
        dough: Grams,
        /// The least this program scales to.
        least: Grams,
    },
}

impl fmt::Display for ScaleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => write!(f, "nothing to bake was asked for"),
            Self::TooMuch { dough, most } => write!(
                f,
                "that is {} g of dough, more than the {} g this model covers",
                fixed(dough.get(), 0),
                fixed(most.get(), 0)
            ),
            Self::TooLittle { dough, least } => write!(
                f,
                "that is {} g of dough, less than the {} g this model covers",
                fixed(dough.get(), 0),
                fixed(least.get(), 0)
            ),
        }
    }
}

impl std::error::Error for ScaleError {}

/// The most dough that is scaled to: a home mixer's bowl holds a third of it.
pub const MOST_DOUGH: Grams = grams(12_000.0);
/// The least dough that is scaled to: below it the yeast is less than kitchen scales show.
pub const LEAST_DOUGH: Grams = grams(100.0);

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
    /// The hands' time of work on every piece grows with the number of pieces.
    ///
    /// # Errors
    /// [`ScaleError`] when it is of nothing, or beyond what is baked at home.
    pub fn scaled(&self, size: Size) -> Result<Self, ScaleError> {
        let now_g = self.dough_mass().get();
        let (count, wanted_g) = match size {
            Size::Pieces { count, mass } => (count, f64::from(count) * mass.get()),
            Size::Dough(dough) => (self.pieces.count, dough.get()),
            Size::Flour(flour) => (self.pieces.count, now_g * (flour / self.flour_mass())),
        };
        if count == 0 || wanted_g <= 0.0 {
            return Err(ScaleError::Nothing);
        }
        let dough = Grams::clamped(wanted_g);
        if dough > MOST_DOUGH {
            let most = MOST_DOUGH;
            return Err(ScaleError::TooMuch { dough, most });
        }
        if dough < LEAST_DOUGH {
            let least = LEAST_DOUGH;
            return Err(ScaleError::TooLittle { dough, least });
        }
        let factor = wanted_g / now_g;
        let mut draft: Draft = self.clone().into_draft();
        draft.pieces.count = count;
        draft.pieces.mass = Grams::clamped(wanted_g / f64::from(count));
        for component in &mut draft.components {
            for part in &mut component.ingredients {
                part.mass = part.mass * factor;
            }
        }
        let more = f64::from(count) / f64::from(self.pieces.count);
        for step in &mut draft.steps {
            match &mut step.length {
                Length::Hands(range)
                    if step.checklist.as_ref().is_some_and(Checklist::is_by_piece) =>
                {
                    // ASSUMPTION: what is set up once for all pieces takes no time worth counting.
                    *range = range.map(|time| time * more);
                }
                // The time in the oven stays the one that was written for this formula.
                Length::Bake { load, .. } => *load = load.or(Some(self.oven_load())),
                _ => {}
            }
        }
        // Masses and times don't touch how the parts hang together, so what fitted still fits.
        Ok(Self(Arc::new(draft)))
    }
}
