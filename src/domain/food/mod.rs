//! Foods: what they are made of, and how they take up and pass on heat.
//!
//! Composition is that of the USDA National Nutrient Database for Standard
//! Reference, release 28 (2015, public domain), file ABBREV, quoted by its NDB
//! number. Heat follows from composition by Choi and Okos ([`choi_okos`]),
//! except where a measured specific heat is known to be better: dry flour, sugar and salt, and
//! whole milk, which has been measured often. A handbook's value isn't followed where
//!
//! - it can't be: 3.18 J/(g K) for fresh eggs (Geankoplis) is what their water alone takes, and
//!   nothing would be left for a quarter of the egg; Choi and Okos have 3.65, and 3.63 is in other
//!   tables (from memory);
//! - its food was another: egg yolk of 2.81 (Geankoplis) is 10 % below ours, as if it held 40 %
//!   water instead of 52; whoever measured it doesn't say;
//! - it holds melting, which we count apart: cream of 45 to 60 % fat at 3.06 to 3.27 (Geankoplis);
//!   liquid milk fat at 2.1 (*Dairy Science* e-book, Guelph) is 3 % above our fat, and butter, at
//!   2.30 (Geankoplis), 4 % below.
//!
//! Left out: the spread between mills, breeds and seasons. Flour of one label
//! varies by about a percent of water, eggs by about two.

mod allergen;
pub mod choi_okos;
pub mod crumb;
pub mod household;
mod letters;
pub mod moisture;
pub mod pantry;
mod table;

pub use allergen::Allergen;
pub use letters::{folded, is_accent, unaccented};

use crate::units::{
    Celsius, Grams, JoulesPerGramKelvin, KilogramsPerCubicMetre, Share, WattsPerMetreKelvin,
};

/// What a food does in a dough.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FoodKind {
    /// Ground grain: what baker's percentages are counted from.
    Flour,
    /// Water itself.
    Water,
    /// Milk, cream, yoghurt.
    Milk,
    /// Egg, whole or in part.
    Egg,
    /// Butter and oils.
    Fat,
    /// Sugars, honey, syrup.
    Sugar,
    /// Salt.
    Salt,
    /// Baker's yeast of any kind.
    Yeast,
    /// Nuts and oily seeds.
    Nut,
    /// Fruit: fresh, dried, pressed or preserved.
    Fruit,
    /// Spices and extracts.
    Spice,
    /// Starches for thickening.
    Starch,
    /// Everything else.
    Other,
}

/// What a food is made of, each as a share of its mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Composition {
    /// Water.
    pub water: Share,
    /// Protein.
    pub protein: Share,
    /// Fat.
    pub fat: Share,
    /// Carbohydrate by difference, so with fibre, as the database counts it.
    pub carbohydrate: Share,
    /// Dietary fibre, a part of `carbohydrate`.
    pub fibre: Share,
    /// Ash: what is left after burning.
    pub ash: Share,
    /// Sugars, a part of `carbohydrate`; none where the database leaves them blank.
    pub sugar: Share,
}

impl Composition {
    /// The same food wetter or drier, what is dry in it keeping its proportions.
    #[must_use]
    pub fn with_water(&self, water: Share) -> Self {
        let dry = (1.0 - water.get()) / (1.0 - self.water.get()).max(f64::MIN_POSITIVE);
        let scaled = |part: Share| Share::clamped(part.get() * dry);
        Self {
            water,
            protein: scaled(self.protein),
            fat: scaled(self.fat),
            carbohydrate: scaled(self.carbohydrate),
            fibre: scaled(self.fibre),
            ash: scaled(self.ash),
            sugar: scaled(self.sugar),
        }
    }

    /// The same food fatter or leaner, what is not fat in it keeping its proportions.
    #[must_use]
    pub fn with_fat(&self, fat: Share) -> Self {
        let rest = (1.0 - fat.get()) / (1.0 - self.fat.get()).max(f64::MIN_POSITIVE);
        let scaled = |part: Share| Share::clamped(part.get() * rest);
        Self {
            water: scaled(self.water),
            protein: scaled(self.protein),
            fat,
            carbohydrate: scaled(self.carbohydrate),
            fibre: scaled(self.fibre),
            ash: scaled(self.ash),
            sugar: scaled(self.sugar),
        }
    }

    /// The composition of several foods together, or `None` when they weigh nothing.
    #[must_use]
    pub fn of_mixture(parts: &[(Grams, Self)]) -> Option<Self> {
        let total_g: f64 = parts.iter().map(|(mass, _)| mass.get()).sum();
        if total_g <= 0.0 {
            return None;
        }
        let average = |pick: fn(&Self) -> Share| {
            let sum_g: f64 = parts
                .iter()
                .map(|(mass, of)| mass.get() * pick(of).get())
                .sum();
            Share::clamped(sum_g / total_g)
        };
        Some(Self {
            water: average(|of| of.water),
            protein: average(|of| of.protein),
            fat: average(|of| of.fat),
            carbohydrate: average(|of| of.carbohydrate),
            fibre: average(|of| of.fibre),
            ash: average(|of| of.ash),
            sugar: average(|of| of.sugar),
        })
    }
}

/// One food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Food {
    /// The name that never changes and that stored formulas use: "bread-flour".
    pub key: &'static str,
    /// What it is called: "bread flour".
    pub name: &'static str,
    /// The NDB number of the row its composition comes from.
    pub ndb: Option<u32>,
    /// What it is made of.
    pub composition: Composition,
    /// A measured specific heat, where Choi and Okos are known to be off.
    pub measured_specific_heat: Option<JoulesPerGramKelvin>,
    /// What it does in a dough.
    pub kind: FoodKind,
    /// Whether its fat is milk fat, which melts between fridge and hand.
    pub milk_fat: bool,
    /// Allergens of the food itself; what a maker adds or lets in stands on the packet.
    pub allergens: &'static [Allergen],
}

/// The food of that key.
///
/// ```
/// let butter = domain::food::food("butter").expect("butter is in the table");
/// assert!(butter.composition.fat > domain::units::share(0.8));
/// ```
#[must_use]
pub fn food(key: &str) -> Option<&'static Food> {
    table::all().iter().find(|food| food.key == key)
}

/// All foods, by shelf, and those that stand for a kind at the end.
#[must_use]
pub fn all() -> &'static [Food] {
    table::all()
}

/// The food that stands for a kind, for what a baker names and no table knows: "some-flour".
///
/// ```
/// use domain::food::{FoodKind, generic};
///
/// assert_eq!(generic(FoodKind::Nut).key, "some-nut");
/// ```
#[must_use]
pub fn generic(kind: FoodKind) -> &'static Food {
    let all = table::generic();
    let found = all.iter().find(|food| food.kind == kind);
    // There is one for each kind, by a test.
    found.unwrap_or(&all[all.len() - 1])
}

impl Food {
    /// Whether it stands for a kind of food, and for none in particular.
    #[must_use]
    pub fn is_generic(&self) -> bool {
        table::generic().iter().any(|food| food.key == self.key)
    }
}

/// How much heat it takes to warm a food at that temperature.
///
/// The measured value where there is one, else Choi and Okos on the
/// composition; never with the melting of fat or ice in it.
#[must_use]
pub fn specific_heat(food: &Food, at: Celsius) -> JoulesPerGramKelvin {
    food.measured_specific_heat
        .unwrap_or_else(|| choi_okos::specific_heat(&food.composition, at))
}

/// How well a food passes heat on, free of air, by Choi and Okos.
#[must_use]
pub fn conductivity(food: &Food, at: Celsius) -> WattsPerMetreKelvin {
    choi_okos::conductivity(&food.composition, at)
}

/// How dense a food is, free of air, by Choi and Okos.
///
/// Flour, sugar or ground almonds as they are poured hold air and weigh about half as much.
#[must_use]
pub fn density(food: &Food, at: Celsius) -> KilogramsPerCubicMetre {
    choi_okos::density(&food.composition, at)
}
