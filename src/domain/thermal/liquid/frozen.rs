//! Liquid colder than the tap or the fridge gives it: a part of it frozen.
//!
//! Liquids i, each at its coldest `T_i`, are poured together. With a mass F of one of them, k,
//! straight from the freezer, all together count as liquid at T:
//!
//! `sum(m_i c_i (T_i - T)) = F (w L + c_k T_k - c_f T_f)`
//!
//! with m and F in g, c in J/(g K), T in °C; w the share of water of k, L the heat of fusion of
//! ice in J/g, `T_f` the freezer and `c_f = c_k - w (c_water - c_ice)` the specific heat of k
//! frozen. This is [`ice`](super::ice)'s balance, with other liquids beside the water or in its
//! place. It also holds for T below zero: then some is left that melts in the dough.
//!
//! Source: calorimetry; the values are in [`constants`](crate::thermal::constants).
//!
//! Left out: water that never freezes and what the freezer leaves liquid, because salts and
//! sugars lower the freezing point. By `x = (w - 0.4 p) (1 - t_0 / T_f)` (ASHRAE *Refrigeration*,
//! ch. 9, from memory; p the share of protein, `t_0` where freezing begins, −0.6 °C for milk and
//! about −1.2 °C for orange juice) milk is frozen to 95 % of its water and juice to 93 %. What stays
//! liquid takes more heat on the way up, so 4 and 5 % more would have to be frozen. In a bun dough
//! with half of its milk frozen, the most we ask for, the mixture ends up 0.5 K warmer than said,
//! and 0.25 K with a quarter. A freezer 3 K off is worth 2 %. Cream's fat that a fridge at 8 °C has begun to melt: below 0.05 K. Liquid that waits in a warm kitchen warms by about 0.4 K a minute, so what is
//! frozen comes out at the last moment.

use super::{LiquidPart, LiquidQuestion};
use crate::food::{self, FoodKind};
use crate::thermal::constants::{
    COLD_WATER_SPECIFIC_HEAT, FREEZER, ICE_HEAT_OF_FUSION, ICE_SPECIFIC_HEAT, MOST_ICE,
};
use crate::thermal::kneading::KneadingMethod;
use crate::units::{Celsius, Grams, JoulesPerGramKelvin, Share, celsius};

/// What of the liquid is frozen, and what isn't.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrozenSplit {
    /// Of which of the liquids a part is frozen, counted from 0; water becomes ice.
    pub which: usize,
    /// How much of it is frozen.
    pub frozen: Grams,
    /// How much of it isn't.
    pub rest: Grams,
    /// Whether that has to be thought of hours before: ice is at hand, frozen milk is not.
    pub takes_hours: bool,
}

/// The heat in J that a gram from the freezer takes up until it is liquid of a temperature.
///
/// `heat` is that of the liquid, `water` how much of it is water.
pub(super) fn taken_j_per_g(
    heat: JoulesPerGramKelvin,
    water: Share,
    at: Celsius,
    frozen_at: Celsius,
) -> f64 {
    // c_f = c_k - w (c_water - c_ice)
    let freezing = COLD_WATER_SPECIFIC_HEAT.get() - ICE_SPECIFIC_HEAT.get();
    let frozen_heat = heat.get() - water.get() * freezing;
    // w L + c_k T_k - c_f T_f
    water.get() * ICE_HEAT_OF_FUSION.get() + heat.get() * at.get().max(0.0)
        - frozen_heat * frozen_at.get().min(0.0)
}

impl LiquidPart {
    fn heat(&self) -> JoulesPerGramKelvin {
        match self.food.kind {
            FoodKind::Water => COLD_WATER_SPECIFIC_HEAT,
            _ => food::specific_heat(self.food, celsius(20.0)),
        }
    }

    fn capacity_j_per_k(&self) -> f64 {
        self.mass.get() * self.heat().get()
    }

    fn frozen_takes_j_per_g(&self) -> f64 {
        let water = self.food.composition.water;
        taken_j_per_g(self.heat(), water, self.coldest, FREEZER)
    }
}

fn capacity_j_per_k(liquids: &[LiquidPart]) -> f64 {
    liquids.iter().map(LiquidPart::capacity_j_per_k).sum()
}

/// What the liquids come to together, each as cold as it is to be had.
pub(super) fn chilled(liquids: &[LiquidPart]) -> Celsius {
    let heat_j: f64 = liquids
        .iter()
        .map(|part| part.capacity_j_per_k() * part.coldest.get())
        .sum();
    Celsius::clamped(heat_j / capacity_j_per_k(liquids).max(f64::MIN_POSITIVE))
}

/// How much of one of the liquids must be frozen for all to count as liquid at `wanted`; none where they are that cold.
///
/// # Panics
/// When there is no liquid of that number, counted from 0.
#[must_use]
pub fn frozen_for(liquids: &[LiquidPart], which: usize, wanted: Celsius) -> FrozenSplit {
    // F = sum(m_i c_i (T_i - T)) / (w L + c_k T_k - c_f T_f)
    let part = &liquids[which];
    let cooled_j = capacity_j_per_k(liquids) * (chilled(liquids) - wanted).get();
    let frozen = Grams::clamped(cooled_j / part.frozen_takes_j_per_g()).min(part.mass);
    FrozenSplit {
        which,
        frozen,
        rest: part.mass - frozen,
        takes_hours: part.food.kind != FoodKind::Water,
    }
}

/// What the liquids count as with as much of one of them frozen as melts in time.
///
/// # Panics
/// When there is no liquid of that number, counted from 0.
#[must_use]
pub fn coldest_with(liquids: &[LiquidPart], which: usize) -> Celsius {
    let part = &liquids[which];
    let all: Grams = liquids.iter().map(|part| part.mass).sum();
    let most = part.mass.min(all * MOST_ICE);
    // T = T_chilled - F (w L + c_k T_k - c_f T_f) / sum(m_i c_i)
    let cooled_k = most.get() * part.frozen_takes_j_per_g() / capacity_j_per_k(liquids);
    Celsius::clamped(chilled(liquids).get() - cooled_k)
}

/// Whether a part of a liquid can be frozen, and takes hours.
///
/// ASSUMPTION: milk and juice only for what a machine or a spoon mixes. Hands don't melt
/// frozen lumps in time, and a dough that they knead forgets its liquid anyway.
fn takes_hours(question: &LiquidQuestion, part: &LiquidPart) -> Option<bool> {
    match part.food.kind {
        FoodKind::Water => Some(false),
        FoodKind::Milk | FoodKind::Fruit if question.method != KneadingMethod::Hand => Some(true),
        _ => None,
    }
}

/// The coldest that the liquids can count as.
pub(super) fn coldest(question: &LiquidQuestion) -> Celsius {
    let liquids = &question.liquids;
    let mut coldest = chilled(liquids);
    for (which, part) in liquids.iter().enumerate() {
        if takes_hours(question, part).is_some() {
            coldest = coldest.min(coldest_with(liquids, which));
        }
    }
    coldest
}

/// What must be frozen for the liquids to count as `wanted`, or `None` where nothing must or can:
/// water first, because ice is at hand.
pub(super) fn split(question: &LiquidQuestion, wanted: Celsius) -> Option<FrozenSplit> {
    let liquids = &question.liquids;
    if wanted >= chilled(liquids) {
        return None;
    }
    for hours in [false, true] {
        for (which, part) in liquids.iter().enumerate() {
            // The last hundred-thousandth may be lost on the way here from `coldest`.
            let is_enough = || coldest_with(liquids, which).get() <= wanted.get() + 1e-5;
            if takes_hours(question, part) == Some(hours) && is_enough() {
                return Some(frozen_for(liquids, which, wanted));
            }
        }
    }
    None
}
