//! What is left of a piece when it is baked and cool.
//!
//! - `baked = piece × (1 − loss)`, and so `piece = baked / (1 − loss)`
//!
//! The piece is what goes into the oven: its dough and its share of the fillings. What evaporates
//! leaves through the outside, so a filled piece loses as much as one of dough alone that weighs the
//! same. What is brushed on before dries to next to nothing, and what comes on after is not in it.
//!
//! Left out: that a small piece loses a greater part than a large one, one that stands free more than
//! one in a tin, and one that bakes longer more again. Gisslen says so without a figure, and the
//! figures that are printed are for lean rolls and rye bread, which bake otherwise. The baker who
//! weighs a bread of their own knows better than any table: that loss goes into
//! [`Size::Baked`](super::Size::Baked) instead.

use super::ScaleError;
use crate::estimate::{Basis, Estimate};
use crate::formula::{Draft, Formula};
use crate::units::{Grams, Share, share};

/// The greatest loss that is reckoned with: the most that is quoted for hearth bread (20 %, Hamelman)
/// twice over.
pub const MOST_LOSS: Share = share(0.4);

/// What baking and cooling take of the dough, as a share of it.
///
/// Ten to thirteen percent: Gisslen, *Professional Baking* (2008), ch. 6, and the middle of it taken
/// as likely. A trade dictionary has 9.8 to 11.5 %, its bake-out loss with cooling; 10 to 20 % are
/// quoted for hearth bread (Hamelman). Beside his percentages Gisslen has 50 to 65 g more for 500 g
/// of bread, which are 9 to 11.5 % of the dough.
#[must_use]
pub fn baking_loss() -> Estimate<Share> {
    Estimate::new(share(0.10), share(0.115), share(0.13), Basis::Model)
}

impl Draft {
    /// What one piece weighs when it is baked and cool, its filling included, before it is glazed
    /// and coated.
    #[must_use]
    pub fn baked_piece(&self, loss: &Estimate<Share>) -> Estimate<Grams> {
        let piece = self.oven_piece();
        let left = |loss: Share| piece * (1.0 - loss.get());
        // The greatest loss leaves the least.
        Estimate::new(
            left(loss.high()),
            left(loss.likely()),
            left(loss.low()),
            loss.basis(),
        )
    }
}

impl Formula {
    /// The dough, in g, of a piece that weighs so much when it is baked, its filling in proportion.
    pub(super) fn piece_for_baked_g(
        &self,
        baked: Grams,
        loss: &Estimate<Share>,
    ) -> Result<f64, ScaleError> {
        let (loss, most) = (loss.likely(), MOST_LOSS);
        if loss > most {
            return Err(ScaleError::TooGreatALoss { loss, most });
        }
        // The dough's share of what goes into the oven; all of it is divided, whatever the pieces say.
        let dough = self.dough_mass().get() / f64::from(self.pieces.count);
        let filling = self.oven_piece() - self.pieces.mass;
        let of_dough = dough / (dough + filling.get());
        Ok(baked.get() / (1.0 - loss.get()) * of_dough)
    }
}
