//! Temperature of a mixture, before kneading and before any heat is lost to the room.
//!
//! Heat balance over the parts i of the bowl, T being what it all settles at:
//!
//! `sum(m_i c_i (T - T_i)) = H flour - S sugar - N salt - L sum(fat_i (f(T) - f(T_i))) + W sum(m_i)`
//!
//! with m in g, c in J/(g K), T in °C; H heat of hydration, S and N heats of
//! solution, L heat of fusion of milk fat, W work, all in J/g; f the melted
//! share of milk fat. The values and their sources are in
//! [`constants`](crate::thermal::constants). Heat of hydration as in the trade's
//! use (bakers' dictionary of *Baking Business*); the balance itself is
//! calorimetry.
//!
//! Valid from about 0 to 60 °C, where nothing freezes or sets; frozen liquid has its own
//! balance in [`liquid::frozen`](crate::thermal::liquid::frozen).
//!
//! How far off the dough ends up, reckoned for half a kilogram of enriched dough (1.9 kJ/K with
//! its bowl):
//!
//! - heat of hydration, 15.1 ± 4 J/g, of flour whose own moisture nobody knows: 0.7 K, the most of all
//! - melting butter, a quarter either way: 0.05 K when soft, 0.25 K straight from the fridge
//! - dissolving sugar and salt: below 0.05 K; honey and syrup have dissolved and count for nothing
//! - specific heats taken at 20 °C and flour's to 0.05 J/(g K): the first change by less than 2 % up
//!   to 45 °C (Choi and Okos), 0.1 K; the second 0.05 K, and 0.15 K for flour from the fridge
//!
//! These are in the window of [`forecast`], with a kelvin for what nobody measured. Left out: fat
//! that sets again when it cools, since milk fat takes far longer than mixing does to
//! crystallise (from memory), so f(T) - f(T_i) is never negative here: if all of it did, soft
//! butter in a dough at 20 °C would warm it by 0.3 K. Heat lost while mixing is
//! [`kneading`](super::kneading)'s, whose minutes count from the first stir.

use super::constants::{
    HEAT_OF_HYDRATION, HEAT_OF_HYDRATION_SPREAD, MILK_FAT_HEAT_OF_FUSION, MILK_FAT_MELTED,
    MILK_FAT_MELTING_SPREAD, SALT_HEAT_OF_SOLUTION, SUCROSE_HEAT_OF_SOLUTION,
    SUCROSE_HEAT_OF_SOLUTION_SPREAD, UNMEASURED,
};
use super::crossing::crossing_within;
use crate::estimate::{Basis, Estimate};
use crate::food::{self, Food, FoodKind};
use crate::units::{
    Celsius, CelsiusDelta, Grams, JoulesPerGram, JoulesPerGramKelvin, Share, celsius,
    celsius_delta, grams, joules_per_gram,
};

/// What happens to a part when it is mixed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartKind {
    /// Dry flour, which warms as it takes up water.
    Flour,
    /// Sugar crystals, which cool as they dissolve.
    Sugar,
    /// Salt crystals, which cool as they dissolve.
    Salt,
    /// Flour and water mixed long ago, which only bring their temperature.
    Preferment,
    /// The bowl.
    Bowl,
    /// Everything else.
    Other,
}

/// One thing that goes into the bowl, or the bowl.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// What happens to it.
    pub kind: PartKind,
    /// How much of it.
    pub mass: Grams,
    /// How warm it is.
    pub temperature: Celsius,
    /// How much heat it takes to warm it, without melting.
    pub specific_heat: JoulesPerGramKelvin,
    /// How much of it is milk fat, which melts as it warms.
    pub milk_fat: Grams,
    /// How far its temperature may be off, where that is known; [`forecast`] has a kelvin for all the others together.
    pub off: CelsiusDelta,
}

impl Part {
    /// So much of a food at a temperature.
    #[must_use]
    pub fn of(food: &Food, mass: Grams, temperature: Celsius) -> Self {
        // Honey and syrup are sugars that have dissolved already.
        let crystals = food.composition.water < Share::clamped(0.05);
        Self {
            kind: match food.kind {
                FoodKind::Flour => PartKind::Flour,
                FoodKind::Sugar if crystals => PartKind::Sugar,
                FoodKind::Salt => PartKind::Salt,
                _ => PartKind::Other,
            },
            mass,
            temperature,
            specific_heat: food::specific_heat(food, celsius(20.0)),
            milk_fat: if food.milk_fat {
                mass * food.composition.fat
            } else {
                grams(0.0)
            },
            off: celsius_delta(0.0),
        }
    }

    /// A bowl. Only the part of it that the dough warms counts.
    #[must_use]
    pub fn bowl(mass: Grams, specific_heat: JoulesPerGramKelvin, temperature: Celsius) -> Self {
        Self {
            kind: PartKind::Bowl,
            mass,
            temperature,
            specific_heat,
            milk_fat: grams(0.0),
            off: celsius_delta(0.0),
        }
    }

    /// Parts that were mixed earlier and have come to a temperature together,
    /// or `None` when they weigh nothing.
    #[must_use]
    pub fn preferment(parts: &[Self], temperature: Celsius) -> Option<Self> {
        let mass: Grams = parts.iter().map(|part| part.mass).sum();
        let capacity_j_per_k: f64 = parts.iter().map(Self::capacity_j_per_k).sum();
        (mass > grams(0.0)).then(|| Self {
            kind: PartKind::Preferment,
            mass,
            temperature,
            specific_heat: JoulesPerGramKelvin::clamped(capacity_j_per_k / mass.get()),
            milk_fat: parts.iter().map(|part| part.milk_fat).sum(),
            off: celsius_delta(0.0),
        })
    }

    pub(super) fn capacity_j_per_k(&self) -> f64 {
        self.mass.get() * self.specific_heat.get()
    }
}

/// Heat that mixing sets free or takes up, per gram of what causes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sources {
    /// Set free by wetted flour, per gram of flour.
    pub hydration: JoulesPerGram,
    /// Taken up by dissolving sugar, per gram of sugar.
    pub sugar: JoulesPerGram,
    /// Taken up by dissolving salt, per gram of salt.
    pub salt: JoulesPerGram,
    /// Taken up by melting milk fat, per gram that melts.
    pub milk_fat: JoulesPerGram,
    /// Work done on the dough, per gram of everything but the bowl.
    pub work: JoulesPerGram,
}

impl Sources {
    /// Nothing but the temperatures of the parts.
    pub const NONE: Self = Self {
        hydration: joules_per_gram(0.0),
        sugar: joules_per_gram(0.0),
        salt: joules_per_gram(0.0),
        milk_fat: joules_per_gram(0.0),
        work: joules_per_gram(0.0),
    };

    /// The values of [`constants`](crate::thermal::constants), and no work: kneading has its own model.
    pub const USUAL: Self = Self {
        hydration: HEAT_OF_HYDRATION,
        sugar: SUCROSE_HEAT_OF_SOLUTION,
        salt: SALT_HEAT_OF_SOLUTION,
        milk_fat: MILK_FAT_HEAT_OF_FUSION,
        work: joules_per_gram(0.0),
    };
}

/// The share of milk fat that is melted at a temperature, on the way up.
#[must_use]
pub fn melted_share(at: Celsius) -> Share {
    let [(first, least), .., (last, most)] = MILK_FAT_MELTED;
    if at <= first {
        return least;
    }
    if at >= last {
        return most;
    }
    let share = MILK_FAT_MELTED.windows(2).find_map(|pair| match pair {
        [(below, low), (above, high)] if at < *above => {
            let way = (at.get() - below.get()) / (above.get() - below.get());
            Some(low.get() + way * (high.get() - low.get()))
        }
        _ => None,
    });
    share.map_or(most, Share::clamped)
}

/// The heat in J that is missing for all parts to be at `mixed_c`.
///
/// It never falls as `mixed_c` rises, nor rises as any part is warmer.
pub(super) fn missing_heat_j(parts: &[Part], sources: &Sources, mixed_c: f64) -> f64 {
    let melted = |t_c: f64| melted_share(Celsius::clamped(t_c)).get();
    parts
        .iter()
        .map(|part| {
            let mass_g = part.mass.get();
            let warming_j = part.capacity_j_per_k() * (mixed_c - part.temperature.get());
            let melts = (melted(mixed_c) - melted(part.temperature.get())).max(0.0);
            let melting_j = part.milk_fat.get() * melts * sources.milk_fat.get();
            let released_j = match part.kind {
                PartKind::Flour => mass_g * sources.hydration.get(),
                PartKind::Sugar => -mass_g * sources.sugar.get(),
                PartKind::Salt => -mass_g * sources.salt.get(),
                PartKind::Preferment | PartKind::Bowl | PartKind::Other => 0.0,
            };
            let work_j = match part.kind {
                PartKind::Bowl => 0.0,
                _ => mass_g * sources.work.get(),
            };
            warming_j + melting_j - released_j - work_j
        })
        .sum()
}

/// The temperature all parts settle at, or `None` for an empty bowl.
///
/// It stops at the range of [`Celsius`], which only mixtures of little but salt come to.
///
/// ```
/// use domain::food::food;
/// use domain::thermal::mixing::{Part, Sources, mixed_temperature};
/// use domain::units::{celsius, grams};
///
/// let milk = food("milk").expect("milk is in the table");
/// let parts = [
///     Part::of(milk, grams(100.0), celsius(10.0)),
///     Part::of(milk, grams(100.0), celsius(30.0)),
/// ];
/// let mixed = mixed_temperature(&parts, &Sources::NONE).expect("there is something in the bowl");
/// assert!((mixed.get() - 20.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn mixed_temperature(parts: &[Part], sources: &Sources) -> Option<Celsius> {
    let capacity_j_per_k: f64 = parts.iter().map(Part::capacity_j_per_k).sum();
    if capacity_j_per_k <= 0.0 {
        return None;
    }
    Some(temperature_where(&|t_c| {
        missing_heat_j(parts, sources, t_c)
    }))
}

/// Where a function of the temperature that never falls crosses zero.
pub(super) fn temperature_where(function: &dyn Fn(f64) -> f64) -> Celsius {
    let (coldest, hottest) = (Celsius::MIN.get(), Celsius::MAX.get());
    Celsius::clamped(crossing_within(coldest, hottest, function))
}

/// The temperature all parts settle at, with how sure we are of it.
///
/// The window combines, as independent, what the sources of heat leave open, what the temperatures
/// of parts that nobody measured do, and what is open of each that is known by itself.
#[must_use]
pub fn forecast(parts: &[Part]) -> Option<Estimate<Celsius>> {
    let usual = Sources::USUAL;
    let likely = mixed_temperature(parts, &usual)?;
    let more_hydration = Sources {
        hydration: usual.hydration + HEAT_OF_HYDRATION_SPREAD,
        ..usual
    };
    let more_solution = Sources {
        sugar: usual.sugar + SUCROSE_HEAT_OF_SOLUTION_SPREAD,
        ..usual
    };
    let more_melting = Sources {
        milk_fat: usual.milk_fat * (1.0 + MILK_FAT_MELTING_SPREAD.get()),
        ..usual
    };
    let mut squares = UNMEASURED.get() * UNMEASURED.get();
    for changed in [more_hydration, more_solution, more_melting] {
        let shift_k = (mixed_temperature(parts, &changed)? - likely).get();
        squares += shift_k * shift_k;
    }
    let mut warmer = parts.to_vec();
    for (place, part) in parts.iter().enumerate() {
        if part.off > celsius_delta(0.0) {
            warmer[place].temperature = part.temperature + part.off;
            let shift_k = (mixed_temperature(&warmer, &usual)? - likely).get();
            squares += shift_k * shift_k;
            warmer[place] = *part;
        }
    }
    let spread = CelsiusDelta::clamped(squares.sqrt());
    Some(Estimate::new(
        likely - spread,
        likely,
        likely + spread,
        Basis::Model,
    ))
}
