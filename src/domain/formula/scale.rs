//! A formula made for other pieces, and amounts that the baker's scales can show.
//!
//! Scaling multiplies every mass by one factor, so that every percentage stays.
//! Rounding is by largest remainders: the parts are rounded down and the ones
//! that lost most get a step back, until the sum is the rounded sum of the
//! exact amounts again. It is the method of apportionment of Hamilton (1792).

use std::fmt;
use std::sync::Arc;

use super::{Component, Draft, Formula};
use crate::decimal::fixed;
use crate::units::{Grams, grams};

/// What the baker wants to end up with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wish {
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

/// Why a wish can't be met.
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
    /// The same formula for other pieces, exactly: nothing is rounded here.
    ///
    /// # Errors
    /// [`ScaleError`] when the wish is for nothing, or beyond what is baked at home.
    pub fn scaled(&self, wish: Wish) -> Result<Self, ScaleError> {
        let now_g = self.dough_mass().get();
        let (count, wanted_g) = match wish {
            Wish::Pieces { count, mass } => (count, f64::from(count) * mass.get()),
            Wish::Dough(dough) => (self.pieces.count, dough.get()),
            Wish::Flour(flour) => (self.pieces.count, now_g * (flour / self.flour_mass())),
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
        // Masses don't touch how the parts hang together, so what fitted still fits.
        Ok(Self(Arc::new(draft)))
    }
}

/// Small scales for yeast, salt and spice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FineScales {
    /// The smallest difference they show.
    pub step: Grams,
    /// The heaviest amount they are used for.
    pub up_to: Grams,
}

/// What the baker weighs with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scales {
    /// The smallest difference the kitchen scales show.
    pub step: Grams,
    /// Small scales, where there are some.
    pub fine: Option<FineScales>,
}

impl Scales {
    /// Kitchen scales that show whole grams, and nothing finer.
    pub const KITCHEN: Self = Self {
        step: grams(1.0),
        fine: None,
    };

    /// Amounts these scales can show, in the order of the ingredients.
    ///
    /// Their sum is as near to the exact sum as the scales allow, and nothing
    /// that is in the formula is rounded away: what is lighter than a step is
    /// shown as one step. Each amount is within one step of the exact one,
    /// except that the heavier ones make up for those that were raised.
    #[must_use]
    pub fn amounts(&self, component: &Component) -> Vec<Grams> {
        let exact: Vec<f64> = component
            .ingredients
            .iter()
            .map(|part| part.mass.get())
            .collect();
        let mut shown = vec![0.0; exact.len()];
        let (fine, coarse): (Vec<usize>, Vec<usize>) =
            (0..exact.len()).partition(|&i| self.weighs_finely(exact[i]));
        if let Some(scales) = self.fine {
            apportion(&exact, &fine, scales.step.get(), &mut shown);
        }
        let fine_error: f64 = fine.iter().map(|&i| shown[i] - exact[i]).sum();
        apportion_with(&exact, &coarse, self.step.get(), -fine_error, &mut shown);
        shown.into_iter().map(Grams::clamped).collect()
    }

    fn weighs_finely(&self, mass_g: f64) -> bool {
        self.fine.is_some_and(|fine| mass_g <= fine.up_to.get())
    }
}

fn apportion(exact: &[f64], which: &[usize], step: f64, shown: &mut [f64]) {
    apportion_with(exact, which, step, 0.0, shown);
}

/// Rounds the chosen amounts to multiples of `step` so that their sum is the
/// nearest multiple to the exact sum plus `extra`.
fn apportion_with(exact: &[f64], which: &[usize], step: f64, extra: f64, shown: &mut [f64]) {
    if which.is_empty() {
        return;
    }
    let exact_steps = |i: usize| exact[i] / step;
    // A whisker below the next multiple is that multiple: 3 × 0.1 is not 0.3.
    let floor = |x: f64| (x + 1e-9).floor();
    let sum: f64 = which.iter().map(|&i| exact_steps(i)).sum::<f64>() + extra / step;
    let mut left = sum.round() as i64;
    let mut steps: Vec<(usize, i64)> = Vec::with_capacity(which.len());
    for &i in which {
        let least = i64::from(exact[i] > 0.0);
        let whole = (floor(exact_steps(i)) as i64).max(least);
        left -= whole;
        steps.push((i, whole));
    }
    let owed = |&(i, whole): &(usize, i64)| exact_steps(i) - whole as f64;
    while left > 0 {
        let Some(best) =
            (0..steps.len()).max_by(|&a, &b| owed(&steps[a]).total_cmp(&owed(&steps[b])))
        else {
            break;
        };
        steps[best].1 += 1;
        left -= 1;
    }
    while left < 0 {
        // Only an amount that keeps at least one step may give one back.
        let Some(best) = (0..steps.len())
            .filter(|&at| steps[at].1 > 1)
            .min_by(|&a, &b| owed(&steps[a]).total_cmp(&owed(&steps[b])))
        else {
            break;
        };
        steps[best].1 -= 1;
        left += 1;
    }
    for (i, whole) in steps {
        shown[i] = whole as f64 * step;
    }
}
