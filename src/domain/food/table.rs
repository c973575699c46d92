//! The table of foods, a file for each shelf.
//!
//! Source of every composition: USDA National Nutrient Database for Standard
//! Reference, release 28 (2015), file ABBREV, public domain, by its NDB number out of the
//! [pantry](super::pantry), so that no figure is typed twice. What has no number is reckoned
//! from rows that have one. Where the database lacks a food, the row of the one next to it
//! stands in, and an `ASSUMPTION` beside it says so.
//!
//! Left out: alcohol, which the database doesn't count among these parts, so that wine, beer and
//! spirits seem to lack something; acids and leavening gas likewise.

mod dairy;
mod fats;
mod flavours;
mod flours;
mod fruit;
mod generic;
mod nuts;
mod others;
mod savoury;
mod sugars;

use std::sync::OnceLock;

use super::{Allergen, Composition, Food, FoodKind, pantry};
use crate::units::{JoulesPerGramKelvin, Share, joules_per_gram_kelvin, share};

/// Wheat flour of 12 to 13.5 % water: 1.80 to 1.88 in Geankoplis, *Transport
/// Processes and Separation Process Principles*, 4th ed., table A.4-1; 1.76 in
/// Çengel and Boles, *Thermodynamics*, 8th ed., ch. 5. Uncertain by 0.05. Taken for other flours too.
const FLOUR_SPECIFIC_HEAT: Option<JoulesPerGramKelvin> = Some(joules_per_gram_kelvin(1.80));

/// Whole milk of 87 to 88 % water: 3.942 ± 0.034 by an isoperibol calorimeter (abstract), 3.85 ± 0.1
/// in Geankoplis, the same table, and 3.90 ± 0.05 in Earle, *Unit Operations in Food Processing*,
/// appendix 7, weighed by their squared uncertainties. Uncertain by 0.03; Choi and Okos say 3.894.
const MILK_SPECIFIC_HEAT: Option<JoulesPerGramKelvin> = Some(joules_per_gram_kelvin(3.92));

/// Crystalline sucrose at 20 to 25 °C, from memory of sugar technology handbooks. Uncertain by 0.06.
const SUGAR_SPECIFIC_HEAT: Option<JoulesPerGramKelvin> = Some(joules_per_gram_kelvin(1.24));

/// Sodium chloride at 25 °C, 50.5 J/(mol K), *CRC Handbook of Chemistry and Physics*. Uncertain by 0.005.
const SALT_SPECIFIC_HEAT: Option<JoulesPerGramKelvin> = Some(joules_per_gram_kelvin(0.864));

/// Shares of the mass, from a database row of g per 100 g.
pub(super) const fn per_100_g(row: [f64; 7]) -> Composition {
    let [water, protein, fat, carbohydrate, fibre, ash, sugar] = row;
    Composition {
        water: share(water / 100.0),
        protein: share(protein / 100.0),
        fat: share(fat / 100.0),
        carbohydrate: share(carbohydrate / 100.0),
        fibre: share(fibre / 100.0),
        ash: share(ash / 100.0),
        sugar: share(sugar / 100.0),
    }
}

/// A food as the tables have it: what it is made of in hundredths of a per cent, as the database prints it, which is a
/// quarter of the same as [`Composition`]; phones load this before they do anything else.
#[derive(Clone, Copy)]
struct Entry {
    key: &'static str,
    name: &'static str,
    kind: FoodKind,
    /// Of which row it is made; of a mixture there are two.
    ndb: u32,
    made_of: [u16; 7],
    /// A second row, and how much of the mixture the first is.
    mixed_with: Option<(f64, [u16; 7])>,
    measured_specific_heat: Option<JoulesPerGramKelvin>,
    milk_fat: bool,
    allergens: &'static [Allergen],
}

/// The values of a row in hundredths of a per cent.
const fn hundredths(ndb: u32) -> [u16; 7] {
    let row = pantry::row(ndb);
    let mut hundredths = [0; 7];
    let mut place = 0;
    while place < row.len() {
        hundredths[place] = (row[place] * 100.0 + 0.5) as u16;
        place += 1;
    }
    hundredths
}

/// A food without milk fat and without a measured specific heat, made of what the row of that number says.
const fn food(
    key: &'static str,
    name: &'static str,
    kind: FoodKind,
    ndb: u32,
    allergens: &'static [Allergen],
) -> Entry {
    Entry {
        key,
        name,
        kind,
        ndb,
        made_of: hundredths(ndb),
        mixed_with: None,
        measured_specific_heat: None,
        milk_fat: false,
        allergens,
    }
}

/// The same food with a measured specific heat.
const fn measured(specific_heat: Option<JoulesPerGramKelvin>, food: Entry) -> Entry {
    Entry {
        measured_specific_heat: specific_heat,
        ..food
    }
}

/// The same food, whose fat is milk fat.
const fn with_milk_fat(food: Entry) -> Entry {
    Entry {
        milk_fat: true,
        ..food
    }
}

/// A food that no row describes, made of two that are.
const fn mixed(one_share: f64, one: u32, other: u32, food: Entry) -> Entry {
    Entry {
        made_of: hundredths(one),
        mixed_with: Some((one_share, hundredths(other))),
        ..food
    }
}

impl Entry {
    fn food(&self) -> Food {
        let made_of =
            |hundredths: [u16; 7]| per_100_g(hundredths.map(|one| f64::from(one) / 100.0));
        let one = made_of(self.made_of);
        let composition = match self.mixed_with {
            None => one,
            Some((share, other)) => between(share, &one, &made_of(other)),
        };
        Food {
            key: self.key,
            name: self.name,
            ndb: self.mixed_with.is_none().then_some(self.ndb),
            composition,
            measured_specific_heat: self.measured_specific_heat,
            kind: self.kind,
            milk_fat: self.milk_fat,
            allergens: self.allergens,
        }
    }
}

fn between(one_share: f64, one: &Composition, other: &Composition) -> Composition {
    let of = |pick: fn(&Composition) -> Share| {
        Share::clamped(one_share * pick(one).get() + (1.0 - one_share) * pick(other).get())
    };
    Composition {
        water: of(|made| made.water),
        protein: of(|made| made.protein),
        fat: of(|made| made.fat),
        carbohydrate: of(|made| made.carbohydrate),
        fibre: of(|made| made.fibre),
        ash: of(|made| made.ash),
        sugar: of(|made| made.sugar),
    }
}

const GROUPS: [&[Entry]; 10] = [
    flours::FLOURS,
    dairy::DAIRY,
    fats::FATS,
    sugars::SUGARS,
    nuts::NUTS,
    fruit::FRUIT,
    flavours::FLAVOURS,
    others::OTHERS,
    savoury::SAVOURY,
    generic::GENERIC,
];

/// All foods, by shelf, and those that stand for a kind at the end.
pub(super) fn all() -> &'static [Food] {
    static FOODS: OnceLock<Box<[Food]>> = OnceLock::new();
    FOODS.get_or_init(|| {
        let entries = GROUPS.iter().flat_map(|group| group.iter());
        entries.map(Entry::food).collect()
    })
}

/// The foods that stand for a kind.
pub(super) fn generic() -> &'static [Food] {
    let all = all();
    &all[all.len() - generic::GENERIC.len()..]
}
