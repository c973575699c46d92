//! What is uncertain about a proof, and what looks at it have told.
//!
//! Each input lies at z: 0 at its likely value, 1 and -1 at its ninetieth and tenth percentile, and
//! independent of the others, so that their covariance is the identity. A look at the dough
//! measures a sum of them: how far it has come, as a logarithm, with slopes h and a squared spread v. By the rule
//! for normal beliefs and a linear measurement (Kalman, J. Basic Eng. 82 (1960) 35),
//!
//! `S = h'Ch + v`, `z = z + C h (seen - expected) / S`, `C = C - (C h)(C h)' / S`
//!
//! - C: the covariance; `1 - sum(k k')`, one k for each look, is all that is kept of it
//!
//! What is forecast with slopes g has the squared spread `g'Cg`, in which what made a dough
//! late so far and what makes it late from now on are the same thing, or undo each other.

use super::Proof;
use super::meter::Case;
use super::seen::widths;
use crate::thermal::vessel::Spot;
use crate::units::{Celsius, CelsiusDelta, Minutes, Moment};
use crate::yeast::activity::Cardinals;

/// One number for each of them.
pub(super) type Inputs = [f64; 7];

/// The formula's range.
pub(super) const RANGE: usize = 0;
/// The dough's temperature at the start.
pub(super) const DOUGH: usize = 1;
/// How much yeast minds the cold.
const COLD: usize = 2;
/// How fast the dough follows what is around it.
pub(super) const LAG: usize = 3;
/// The temperatures around it, in the order of [`Spot::ALL`].
pub(super) const SPOTS: usize = 4;

/// ASSUMPTION: one time in ten the dough's lag is larger, or smaller, than said by this factor.
///
/// The heat transfer coefficient is known to about 30 % (bowl, cover, draught), and the lag goes with its inverse.
pub(crate) const LAG_SPREAD: f64 = 1.3;

/// What is known of a proof's inputs besides their own spreads.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Learnt {
    /// Where they likely lie.
    pub(super) likely: Inputs,
    /// What looks took off their spread.
    pub(super) taken: Vec<Inputs>,
    /// By how much, in K, each has moved the dough by the start, besides the dough's own spread.
    pub(super) carried: Inputs,
    /// By how much each spot's error moves the logarithm of what the rise asks for, from what is likely.
    pub(super) asked: [f64; 3],
    /// By how much each moves the logarithm of what it had at the start.
    pub(super) had: Inputs,
    /// The newest look.
    pub(super) at: Option<Moment>,
}

impl Learnt {
    /// What is left of the spread of each input.
    pub(super) fn own(&self) -> Inputs {
        let mut own = [1.0; 7];
        for taken in &self.taken {
            for (own, taken) in own.iter_mut().zip(taken) {
                *own -= taken * taken;
            }
        }
        // None is ever known so well that its slope couldn't be told.
        own.map(|own: f64| own.max(0.01).sqrt())
    }

    /// `C h`.
    pub(super) fn spread_along(&self, slopes: &Inputs) -> Inputs {
        let mut along = *slopes;
        for taken in &self.taken {
            let part = product(taken, slopes);
            for (along, taken) in along.iter_mut().zip(taken) {
                *along -= part * taken;
            }
        }
        along
    }

    /// Distances from the likely value, of each input at either end of what is left of it, in
    /// quadrature: those to below and those to above apart.
    pub(super) fn together(&self, apart: &[[f64; 2]; 7]) -> (f64, f64) {
        let (mut below, mut above) = (0.0, 0.0);
        let mut slopes = [0.0; 7];
        for ((own, ends), slope) in self.own().iter().zip(apart).zip(&mut slopes) {
            let [one, other] = ends.map(|end| end / own);
            below += one.min(other).min(0.0).powi(2);
            above += one.max(other).max(0.0).powi(2);
            *slope = 0.5 * (other - one);
        }
        let all = product(&slopes, &slopes);
        let left = product(&slopes, &self.spread_along(&slopes));
        let kept = if all > 0.0 {
            (left / all).max(0.0)
        } else {
            1.0
        };
        ((below * kept).sqrt(), (above * kept).sqrt())
    }
}

/// The scalar product.
pub(super) fn product(one: &Inputs, other: &Inputs) -> f64 {
    one.iter().zip(other).map(|(one, other)| one * other).sum()
}

impl Proof {
    /// The same, of a dough that has stood before its start. For each spot, in the order of
    /// [`Spot::ALL`], that is as warm as its ninetieth percentile: by how much it is warmer then, and
    /// how much more it asks for, as a logarithm.
    #[must_use]
    pub fn carrying(mut self, carried: [CelsiusDelta; 3], asked: [f64; 3]) -> Self {
        self.learnt.carried[SPOTS..].copy_from_slice(&carried.map(CelsiusDelta::get));
        self.learnt.asked = asked;
        self
    }

    /// What [`carrying`](Self::carrying) says.
    #[must_use]
    pub fn carried(&self) -> ([CelsiusDelta; 3], [f64; 3]) {
        let [.., kitchen, fridge, own] = self.learnt.carried.map(CelsiusDelta::clamped);
        ([kitchen, fridge, own], self.learnt.asked)
    }

    /// The reference minutes it will have had at a moment where a spot is so many times its doubt warmer than likely.
    #[must_use]
    pub fn had_if(&self, spot: Spot, warmer: f64, at: Moment) -> Minutes {
        let mut z = self.learnt.likely;
        z[SPOTS + spot as usize] += warmer;
        Minutes::clamped(self.had_by(&self.case(&z), at))
    }

    /// The proof with its inputs at z.
    pub(super) fn case(&self, z: &Inputs) -> Case {
        let side = |input: usize, (below, above): (f64, f64)| {
            z[input] * if z[input] < 0.0 { below } else { above }
        };
        let mut around = [0.0; 3];
        around.copy_from_slice(&z[SPOTS..]);
        let likely = self.dough.likely();
        let below = (likely - self.dough.low()).get();
        let above = (self.dough.high() - likely).get();
        let minimum = Cardinals::DOUGH.minimum;
        let minds = (
            (minimum - Cardinals::DOUGH_HARDY.minimum).get(),
            (Cardinals::DOUGH_TENDER.minimum - minimum).get(),
        );
        let mut away = *z;
        for (away, likely) in away.iter_mut().zip(&self.learnt.likely) {
            *away -= likely;
        }
        let asked = &self.learnt.asked;
        let asked: f64 = asked.iter().zip(&away[SPOTS..]).map(|(by, z)| by * z).sum();
        let way = side(RANGE, widths(&self.range)) + asked;
        let warmer = side(DOUGH, (below, above)) + product(&self.learnt.carried, z);
        Case {
            wanted: self.range.likely().get() * way.exp(),
            had: self.had.get() * product(&self.learnt.had, &away).exp(),
            dough: Celsius::clamped(likely.get() + warmer),
            cardinals: Cardinals {
                minimum: Celsius::clamped(minimum.get() + side(COLD, minds)),
                ..Cardinals::DOUGH
            },
            lag: (z[LAG] * LAG_SPREAD.ln()).exp(),
            around,
        }
    }

    /// The proof as it likely is.
    pub(super) fn likely(&self) -> Case {
        self.case(&self.learnt.likely)
    }

    /// The proof with one input at either end of what is left of its spread.
    pub(super) fn ends(&self, input: usize) -> [Case; 2] {
        let own = if self.learnt.taken.is_empty() {
            1.0
        } else {
            self.learnt.own()[input]
        };
        [-own, own].map(|by| {
            let mut z = self.learnt.likely;
            z[input] += by;
            self.case(&z)
        })
    }

    /// The inputs but the range that matter here, each at both of its ends.
    pub(super) fn spreads(&self) -> Vec<(usize, [Case; 2])> {
        let mut spreads = Vec::new();
        for input in DOUGH..self.learnt.likely.len() {
            let matters = match input {
                DOUGH => self.dough.low() < self.dough.high(),
                COLD | LAG => true,
                _ => {
                    let spot = input - SPOTS;
                    let (carried, asked) = (self.learnt.carried[input], self.learnt.asked[spot]);
                    carried != 0.0
                        || asked != 0.0
                        || self.surroundings.doubts(Spot::ALL[spot], self.start)
                }
            };
            if matters {
                spreads.push((input, self.ends(input)));
            }
        }
        spreads
    }
}
