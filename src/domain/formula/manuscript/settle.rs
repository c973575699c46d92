//! Masses that follow from percentages of the flour.
//!
//! With `W` the flour that is weighed and `P` the percentages of the other flours together:
//!
//! - `flour = W / (1 − P / 100)`
//! - `mass = flour × percent / 100`
//!
//! The flour is that of the dough with its preferments, as everywhere in the model.

use super::{Ingredient, Manuscript, MassBasis};
use crate::units::Grams;

impl Manuscript {
    /// Every ingredient that counts as dough.
    fn dough_parts(&self) -> impl Iterator<Item = &Ingredient> {
        let doughs = self.components.iter().filter(|one| one.is_dough());
        doughs.flat_map(|component| &component.ingredients)
    }

    /// All the flour, where that can be told although some of it is given in per cent; in g.
    pub(super) fn flour_g(&self) -> Option<f64> {
        let (mut weighed_g, mut percents) = (0.0, 0.0);
        for flour in self.dough_parts().filter(|part| part.is_flour()) {
            match (&flour.basis, flour.mass) {
                (MassBasis::Percentage(percent), _) => percents += percent.get(),
                (_, Some(mass)) => weighed_g += mass.get(),
                (_, None) => {}
            }
        }
        let left = 1.0 - percents / 100.0;
        (weighed_g > 0.0 && left > 0.0).then(|| weighed_g / left)
    }

    /// Whether anything is given in per cent of a flour that nobody knows.
    pub(super) fn waits_for_flour(&self) -> bool {
        let all = self.components.iter().flat_map(|one| &one.ingredients);
        let mut of_flour = all.filter(|part| matches!(part.basis, MassBasis::Percentage(_)));
        of_flour.any(|part| part.mass.is_none())
    }

    /// Reckons every mass anew that is a percentage.
    pub(super) fn settle(&mut self) {
        let flour_g = self.flour_g();
        let all = self.components.iter_mut();
        for part in all.flat_map(|component| &mut component.ingredients) {
            if let MassBasis::Percentage(percent) = part.basis {
                let mass_g = flour_g.map(|flour_g| flour_g * percent.get() / 100.0);
                part.mass = mass_g.and_then(|mass_g| Grams::new(mass_g).ok());
            }
        }
    }
}
