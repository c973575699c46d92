//! The table of foods.
//!
//! Source of every composition: USDA National Nutrient Database for Standard
//! Reference, release 28 (2015), file ABBREV, public domain. Columns, in g per
//! 100 g: water, protein, fat, carbohydrate by difference, fibre, ash, sugars.
//! The database leaves the sugars of cardamom and orange peel blank; they count as none.

use super::Allergen::{self, Eggs, GlutenCereals, Milk as MilkAllergen, Nuts, Sesame, Sulphites};
use super::FoodKind::{
    self, Egg, Fat, Flour, Fruit, Milk, Nut, Other, Salt, Spice, Starch, Sugar, Water, Yeast,
};
use super::{Composition, Food};
use crate::units::{JoulesPerGramKelvin, joules_per_gram_kelvin, share};

/// Wheat flour of 12 to 13.5 % water: 1.80 to 1.88 in Geankoplis, *Transport
/// Processes and Separation Process Principles*, 4th ed., table A.4-1; 1.76 in
/// Çengel and Boles, *Thermodynamics*, 8th ed., ch. 5. Uncertain by 0.05. Taken for rye too.
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

/// A food without milk fat and without a measured specific heat.
const fn food(
    key: &'static str,
    name: &'static str,
    kind: FoodKind,
    ndb: u32,
    row: [f64; 7],
    allergens: &'static [Allergen],
) -> Food {
    Food {
        key,
        name,
        ndb: Some(ndb),
        composition: per_100_g(row),
        measured_specific_heat: None,
        kind,
        milk_fat: false,
        allergens,
    }
}

/// The same food with a measured specific heat.
const fn measured(specific_heat: Option<JoulesPerGramKelvin>, food: Food) -> Food {
    Food {
        measured_specific_heat: specific_heat,
        ..food
    }
}

/// The same food, whose fat is milk fat.
const fn with_milk_fat(food: Food) -> Food {
    Food {
        milk_fat: true,
        ..food
    }
}

/// All foods, by kind.
#[rustfmt::skip]
pub(super) static FOODS: &[Food] = &[
    measured(FLOUR_SPECIFIC_HEAT, food("bread-flour", "bread flour", Flour, 20083, [13.36, 11.98, 1.66, 72.53, 2.4, 0.47, 0.31], &[GlutenCereals])),
    measured(FLOUR_SPECIFIC_HEAT, food("all-purpose-flour", "all-purpose flour", Flour, 20081, [11.92, 10.33, 0.98, 76.31, 2.7, 0.47, 0.27], &[GlutenCereals])),
    measured(FLOUR_SPECIFIC_HEAT, food("whole-wheat-flour", "whole-wheat flour", Flour, 20080, [10.74, 13.21, 2.5, 71.97, 10.7, 1.58, 0.41], &[GlutenCereals])),
    measured(FLOUR_SPECIFIC_HEAT, food("rye-flour-light", "light rye flour", Flour, 20065, [11.4, 9.82, 1.33, 76.68, 8.0, 0.78, 0.93], &[GlutenCereals])),
    measured(FLOUR_SPECIFIC_HEAT, food("rye-flour-medium", "medium rye flour", Flour, 20064, [10.97, 10.88, 1.52, 75.43, 11.8, 1.2, 1.1], &[GlutenCereals])),
    measured(FLOUR_SPECIFIC_HEAT, food("rye-flour-dark", "dark rye flour", Flour, 20063, [10.75, 15.91, 2.22, 68.63, 23.8, 2.5, 2.31], &[GlutenCereals])),
    food("water", "water", Water, 14429, [99.9, 0.0, 0.0, 0.0, 0.0, 0.1, 0.0], &[]),
    measured(MILK_SPECIFIC_HEAT, with_milk_fat(food("milk", "whole milk", Milk, 1077, [88.13, 3.15, 3.25, 4.8, 0.0, 0.67, 5.05], &[MilkAllergen]))),
    with_milk_fat(food("milk-reduced-fat", "reduced-fat milk", Milk, 1079, [89.21, 3.3, 1.98, 4.8, 0.0, 0.71, 5.06], &[MilkAllergen])),
    // The database calls it heavy whipping cream, 36 % fat.
    with_milk_fat(food("cream", "whipping cream", Milk, 1053, [57.81, 2.84, 36.08, 2.74, 0.0, 0.53, 2.92], &[MilkAllergen])),
    with_milk_fat(food("yoghurt", "whole-milk yoghurt", Milk, 1116, [87.9, 3.47, 3.25, 4.66, 0.0, 0.72, 4.66], &[MilkAllergen])),
    food("egg", "whole egg", Egg, 1123, [76.15, 12.56, 9.51, 0.72, 0.0, 1.06, 0.37], &[Eggs]),
    food("egg-yolk", "egg yolk", Egg, 1125, [52.31, 15.86, 26.54, 3.59, 0.0, 1.71, 0.56], &[Eggs]),
    food("egg-white", "egg white", Egg, 1124, [87.57, 10.9, 0.17, 0.73, 0.0, 0.63, 0.71], &[Eggs]),
    with_milk_fat(food("butter", "unsalted butter", Fat, 1145, [17.94, 0.85, 81.11, 0.06, 0.0, 0.09, 0.06], &[MilkAllergen])),
    with_milk_fat(food("butter-salted", "salted butter", Fat, 1001, [15.87, 0.85, 81.11, 0.06, 0.0, 2.11, 0.06], &[MilkAllergen])),
    food("oil-sunflower", "sunflower oil", Fat, 4506, [0.0, 0.0, 100.0, 0.0, 0.0, 0.0, 0.0], &[]),
    food("oil-olive", "olive oil", Fat, 4053, [0.0, 0.0, 100.0, 0.0, 0.0, 0.0, 0.0], &[]),
    // The database calls it canola oil.
    food("oil-rapeseed", "rapeseed oil", Fat, 4582, [0.0, 0.0, 100.0, 0.0, 0.0, 0.0, 0.0], &[]),
    measured(SUGAR_SPECIFIC_HEAT, food("sugar", "sugar", Sugar, 19335, [0.02, 0.0, 0.0, 99.98, 0.0, 0.01, 99.8], &[])),
    measured(SUGAR_SPECIFIC_HEAT, food("icing-sugar", "icing sugar", Sugar, 19336, [0.23, 0.0, 0.0, 99.77, 0.0, 0.01, 97.81], &[])),
    measured(SUGAR_SPECIFIC_HEAT, food("brown-sugar", "brown sugar", Sugar, 19334, [1.34, 0.12, 0.0, 98.09, 0.0, 0.45, 97.02], &[])),
    food("honey", "honey", Sugar, 19296, [17.1, 0.3, 0.0, 82.4, 0.2, 0.2, 82.12], &[]),
    measured(SALT_SPECIFIC_HEAT, food("salt", "salt", Salt, 2047, [0.2, 0.0, 0.0, 0.0, 0.0, 99.8, 0.0], &[])),
    food("yeast-fresh", "fresh yeast", Yeast, 18374, [69.0, 8.4, 1.9, 18.1, 8.1, 1.8, 0.0], &[]),
    food("yeast-active-dry", "active dry yeast", Yeast, 18375, [5.08, 40.44, 7.61, 41.22, 26.9, 5.65, 0.0], &[]),
    // ASSUMPTION: the database has no instant yeast, so this is the row of active dry yeast.
    food("yeast-instant", "instant yeast", Yeast, 18375, [5.08, 40.44, 7.61, 41.22, 26.9, 5.65, 0.0], &[]),
    food("cornstarch", "cornstarch", Starch, 20027, [8.32, 0.26, 0.05, 91.27, 0.9, 0.09, 0.0], &[]),
    // ASSUMPTION: the database has no ground almonds, so this is the row of whole ones.
    food("almonds-ground", "ground almonds", Nut, 12061, [4.41, 21.15, 49.93, 21.55, 12.5, 2.97, 4.35], &[Nuts]),
    food("almonds-blanched", "blanched almonds", Nut, 12062, [4.51, 21.4, 52.52, 18.67, 9.9, 2.91, 4.63], &[Nuts]),
    food("hazelnuts", "hazelnuts", Nut, 12120, [5.31, 14.95, 60.75, 16.7, 9.7, 2.29, 4.34], &[Nuts]),
    food("walnuts", "walnuts", Nut, 12155, [4.07, 15.23, 65.21, 13.71, 6.7, 1.78, 2.61], &[Nuts]),
    // Coconut is not among the nuts of the law.
    food("coconut", "desiccated coconut", Nut, 12108, [3.0, 6.88, 64.53, 23.65, 16.3, 1.94, 7.35], &[]),
    food("sunflower-seeds", "sunflower seeds", Nut, 12036, [4.73, 20.78, 51.46, 20.0, 8.6, 3.02, 2.62], &[]),
    food("sesame-seeds", "sesame seeds", Nut, 12023, [4.69, 17.73, 49.67, 23.45, 11.8, 4.45, 0.3], &[Sesame]),
    food("poppy-seeds", "poppy seeds", Nut, 2033, [5.95, 17.99, 41.56, 28.13, 19.5, 6.37, 2.99], &[]),
    food("plums", "plums", Fruit, 9279, [87.23, 0.7, 0.28, 11.42, 1.4, 0.37, 9.92], &[]),
    food("prunes", "dried plums", Fruit, 9291, [30.92, 2.18, 0.38, 63.88, 7.1, 2.64, 38.13], &[]),
    // The database has one row for jams and preserves of most fruits.
    food("plum-jam", "plum jam", Fruit, 19297, [30.47, 0.37, 0.07, 68.86, 1.1, 0.23, 48.5], &[]),
    food("apricot-jam", "apricot jam", Fruit, 19719, [34.5, 0.7, 0.2, 64.4, 0.3, 0.2, 43.4], &[]),
    food("marmalade", "orange marmalade", Fruit, 19303, [33.2, 0.3, 0.0, 66.3, 0.7, 0.2, 60.0], &[]),
    // The row is for sulphured apricots.
    food("apricots-dried", "dried apricots", Fruit, 9032, [30.89, 3.39, 0.51, 62.64, 7.3, 2.57, 53.44], &[Sulphites]),
    food("raisins", "raisins", Fruit, 9298, [15.43, 3.07, 0.46, 79.18, 3.7, 1.85, 59.19], &[]),
    food("orange-juice", "orange juice", Fruit, 9206, [88.3, 0.7, 0.2, 10.4, 0.2, 0.4, 8.4], &[]),
    food("orange-peel", "orange peel", Fruit, 9216, [72.5, 1.5, 0.2, 25.0, 10.6, 0.8, 0.0], &[]),
    food("lemon-juice", "lemon juice", Fruit, 9152, [92.31, 0.35, 0.24, 6.9, 0.3, 0.21, 2.52], &[]),
    food("lemon-peel", "lemon peel", Fruit, 9156, [81.6, 1.5, 0.3, 16.0, 10.6, 0.6, 4.17], &[]),
    // A third of it is alcohol, which the composition does not count.
    food("vanilla-extract", "vanilla extract", Spice, 2050, [52.58, 0.06, 0.06, 12.65, 0.0, 0.26, 12.65], &[]),
    food("cardamom", "ground cardamom", Spice, 2006, [8.28, 10.76, 6.7, 68.47, 28.0, 5.78, 0.0], &[]),
    food("cinnamon", "ground cinnamon", Spice, 2010, [10.58, 3.99, 1.24, 80.59, 53.1, 3.6, 2.17], &[]),
    food("cocoa", "cocoa", Other, 19165, [3.0, 19.6, 13.7, 57.9, 37.0, 5.8, 1.75], &[]),
    // The row is for 70 to 85 % cocoa. Lecithin from soya and traces of milk are common: read the packet.
    food("dark-chocolate", "dark chocolate", Other, 19904, [1.37, 7.79, 42.63, 45.9, 10.9, 2.32, 23.99], &[]),
    food("rolled-oats", "rolled oats", Other, 8120, [10.84, 13.15, 6.52, 67.7, 10.1, 1.77, 0.99], &[GlutenCereals]),
    // A dish rather than an ingredient, kept as a check of moist fillings.
    food("egg-custard", "baked egg custard", Other, 19168, [78.86, 5.02, 4.58, 11.0, 0.0, 0.76, 11.0], &[Eggs, MilkAllergen]),
];
