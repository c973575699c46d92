//! What the baker weighs with, and amounts that it can show.
//!
//! Rounding is by largest remainders: the parts are rounded down and the ones
//! that lost most get a step back, until the sum is the rounded sum of the
//! exact amounts again. It is the method of apportionment of Hamilton (1792).

use crate::units::{Grams, grams};

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

    /// The parts of one whole as these scales can show them, in the same order.
    ///
    /// Their sum is as near to the exact sum as the scales allow, and nothing
    /// is rounded away: what is lighter than a step is shown as one step. Each
    /// amount is within one step of the exact one, except that the heavier ones
    /// make up for those that were raised.
    #[must_use]
    pub fn shown(&self, exact: impl Iterator<Item = Grams>) -> Vec<Grams> {
        let exact: Vec<f64> = exact.map(Grams::get).collect();
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

    /// The smallest difference they show where so much is weighed.
    #[must_use]
    pub fn step_for(&self, mass: Grams) -> Grams {
        let finely = self.fine.filter(|fine| mass <= fine.up_to);
        finely.map_or(self.step, |fine| fine.step)
    }

    /// One amount by itself as these scales can show it: a step at least, and between two bounds
    /// where there is a step between them.
    #[must_use]
    pub fn nearest(&self, exact: Grams, least: Grams, most: Grams) -> Grams {
        let step = self.step_for(exact);
        // A whisker beyond a step is that step.
        let (first, last) = ((least / step - 1e-9).ceil(), (most / step + 1e-9).floor());
        step * (exact / step).round().min(last).max(first).max(1.0)
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
