//! What else to do when the liquid alone can't bring the dough to its target.
//!
//! Each thing is tried in the model and offered only with what it gains. Flour and bowl are
//! chilled just as far as the target wants ([`chilling`]); what else there is comes from
//! the fridge, where it was since yesterday, for butter takes more than the hour that flour does.

use super::chilling::{self, Chill};
use super::{LiquidQuestion, dough_with};
use crate::thermal::constants::{ANOTHER_PLACE, WARMED_BOWL, WARMED_FLOUR};
use crate::thermal::mixing::{Part, PartKind};
use crate::units::{Celsius, CelsiusDelta, celsius_delta};

/// One thing to do besides choosing the liquid's temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Action {
    /// Warm the flour to about 30 °C.
    WarmFlour,
    /// Rinse the bowl with hot water.
    WarmBowl,
    /// Let what comes from the fridge stand until it is as warm as the kitchen.
    WarmTheRest,
    /// Knead in a warmer spot.
    WarmerPlace,
    /// Chill the flour, spread out.
    ChillFlour,
    /// Chill the bowl.
    ChillBowl,
    /// Use the other ingredients straight from the fridge.
    ChillTheRest,
    /// Knead in a cooler spot.
    CoolerPlace,
}

/// A thing to do and how much nearer to its target it brings the dough.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Advice {
    /// What to do.
    pub action: Action,
    /// How much nearer the dough comes by that alone.
    pub gain: CelsiusDelta,
    /// Where and how long, for what is chilled before mixing.
    pub chill: Option<Chill>,
}

/// ASSUMPTION: a gain below this isn't worth the trouble.
const WORTH_DOING: CelsiusDelta = celsius_delta(0.2);

impl Action {
    const WARMING: [Self; 4] = [
        Self::WarmFlour,
        Self::WarmBowl,
        Self::WarmTheRest,
        Self::WarmerPlace,
    ];
    const COOLING: [Self; 4] = [
        Self::ChillFlour,
        Self::ChillBowl,
        Self::ChillTheRest,
        Self::CoolerPlace,
    ];

    /// How flour or bowl is chilled for the dough to meet its target, or as near as can be.
    fn chill(self, question: &LiquidQuestion, liquid_at: Celsius) -> Option<Chill> {
        let (kind, body) = match self {
            Self::ChillFlour => (PartKind::Flour, chilling::spread_flour()),
            Self::ChillBowl => (PartKind::Bowl, chilling::empty_bowl()),
            _ => return None,
        };
        let parts = || question.parts.iter().filter(|part| part.kind == kind);
        let capacity_j_per_k: f64 = parts().map(Part::capacity_j_per_k).sum();
        if capacity_j_per_k <= 0.0 {
            return None;
        }
        let heat = |part: &Part| part.capacity_j_per_k() * part.temperature.get();
        let from_c = parts().map(heat).sum::<f64>() / capacity_j_per_k;
        // T = T_0 + missing / (m c): neither flour nor bowl holds fat that would melt.
        let wanted_c = from_c + question.missing_j(liquid_at) / capacity_j_per_k;
        let [from, wanted] = [from_c, wanted_c].map(Celsius::clamped);
        chilling::chill(body, from, wanted, question.fridge)
    }

    /// The question as it would be afterwards, or `None` where there is nothing to do it to.
    fn applied(self, question: &LiquidQuestion, chill: Option<Chill>) -> Option<LiquidQuestion> {
        let mut changed = question.clone();
        let (kitchen, fridge) = (question.kitchen, question.fridge);
        let mut bring = |which: fn(PartKind) -> bool, change: &dyn Fn(Celsius) -> Celsius| {
            for part in changed.parts.iter_mut().filter(|part| which(part.kind)) {
                part.temperature = change(part.temperature);
            }
        };
        let is_flour = |kind| kind == PartKind::Flour;
        let is_bowl = |kind| kind == PartKind::Bowl;
        let is_rest = |kind| matches!(kind, PartKind::Other | PartKind::Preferment);
        match self {
            Self::WarmFlour => bring(is_flour, &|now| now.max(WARMED_FLOUR)),
            Self::WarmBowl => bring(is_bowl, &|now| now.max(WARMED_BOWL)),
            Self::WarmTheRest => bring(is_rest, &|now| now.max(kitchen)),
            Self::WarmerPlace => changed.kitchen = kitchen + ANOTHER_PLACE,
            Self::ChillFlour | Self::ChillBowl => {
                let to = chill?.to;
                let which = if self == Self::ChillFlour {
                    is_flour
                } else {
                    is_bowl
                };
                bring(which, &|now| now.min(to));
            }
            Self::ChillTheRest => bring(is_rest, &|now| now.min(fridge)),
            Self::CoolerPlace => changed.kitchen = kitchen - ANOTHER_PLACE,
        }
        Some(changed)
    }
}

/// What would help, the most helpful first, when the dough will come to `dough` instead of its target.
pub(super) fn for_shortfall(
    question: &LiquidQuestion,
    liquid_at: Celsius,
    dough: Celsius,
) -> Vec<Advice> {
    let missing_k = (question.target - dough).get();
    let moves = if missing_k > 0.0 {
        Action::WARMING
    } else {
        Action::COOLING
    };
    let mut advice: Vec<Advice> = moves
        .into_iter()
        .filter_map(|action| {
            let chill = action.chill(question, liquid_at);
            let after = dough_with(&action.applied(question, chill)?, liquid_at)?.likely();
            // What overshoots the target gains no more than what was missing.
            let gain_k = ((after - dough).get() * missing_k.signum()).min(missing_k.abs());
            let gain = CelsiusDelta::clamped(gain_k);
            (gain >= WORTH_DOING).then_some(Advice {
                action,
                gain,
                chill,
            })
        })
        .collect();
    advice.sort_by(|one, other| other.gain.get().total_cmp(&one.gain.get()));
    advice
}
