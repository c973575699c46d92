//! What ingredients bring into a dough, and what their mixture is like as far as heat goes.

use checks::{assert_close, starter};
use domain::food::{Composition, food};
use domain::formula::{Brings, ComponentKind, Draft, Ingredient, Kept};
use domain::thermal::vessel::Material;
use domain::units::{BakersPercent, celsius, grams};

use super::food::STANDARD_DOUGH;

fn ingredient(key: &str, mass_g: f64) -> Ingredient {
    let food = food(key).expect("a food of the table");
    Ingredient {
        food,
        name: food.name.to_owned(),
        mass: grams(mass_g),
        kept: Kept::Kitchen,
        tempered: false,
    }
}

/// The buns with another dough.
fn with_dough(parts: &[(&str, f64)]) -> Draft {
    let mut draft = starter("plum-almond-buns").into_draft();
    for component in &mut draft.components {
        if component.kind == ComponentKind::Dough {
            component.ingredients = parts.iter().map(|&(key, g)| ingredient(key, g)).collect();
        }
    }
    draft
}

fn sum(from: &[(&str, BakersPercent)]) -> f64 {
    from.iter().map(|(_, percent)| percent.get()).sum()
}

/// Gisslen, *Professional Baking*, ch. 9: brioche for 300 g of flour. Water of milk, egg and butter
/// 68.26 % of the flour and 71.71 with the yeast's, by plain arithmetic on USDA SR28; 0.005 for its decimals.
#[test]
fn a_brioche_s_water_comes_from_egg_milk_butter_and_yeast() {
    let brioche = with_dough(&[
        ("milk", 60.0),
        ("yeast-fresh", 15.0),
        ("bread-flour", 300.0),
        ("egg", 150.0),
        ("sugar", 15.0),
        ("salt", 6.0),
        ("butter", 210.0),
    ]);
    let water = brioche.brought(Brings::Water);
    let percent = |of: &str| {
        let found = water.iter().find(|(name, _)| *name == of);
        found.expect("it holds water").1.get()
    };
    let enriching = percent("whole milk") + percent("whole egg") + percent("unsalted butter");
    assert_close("milk, egg, butter", enriching, 68.26, 0.005);
    assert_close(
        "with yeast",
        enriching + percent("fresh yeast"),
        71.71,
        0.005,
    );
    // Sugar and salt hold 0.2 % of water and less.
    assert_close("all", sum(&water), brioche.hydration().get(), 1e-9);
    assert_close("all", sum(&water), 71.71, 0.01);
    for (what, expected) in [
        (Brings::Egg, 50.0),
        (Brings::Salt, 2.0),
        (Brings::FreshYeast, 5.0),
        // Milk 5.05 %, egg 0.37, butter 0.06, sugar 99.8: (3.03 + 0.555 + 0.126 + 14.97) / 300.
        (Brings::Sugar, 6.227),
        // Butter 81.11 %, egg 9.51, milk 3.25, flour 1.66, yeast 1.9: (170.331 + 14.265 + 1.95 + 4.98 + 0.285) / 300.
        (Brings::Fat, 63.937),
        (Brings::PrefermentedFlour, 0.0),
    ] {
        let got = sum(&brioche.brought(what));
        assert_close(&format!("{what:?}"), got, expected, 0.001);
    }
}

/// By hand: 155 g of milk of 88.13 % water, 60 g of egg of 76.15 % and of butter of 17.94 %, on 345 g of flour.
#[test]
fn the_buns_water_is_told_by_ingredient() {
    let buns = starter("plum-almond-buns");
    let water = buns.brought(Brings::Water);
    for ((name, percent), (expected_name, expected)) in water.iter().zip([
        ("whole milk", 39.595),
        ("beaten egg", 13.243),
        ("soft unsalted butter", 3.120),
    ]) {
        assert_eq!(*name, expected_name);
        assert_close(name, percent.get(), expected, 0.001);
    }
    // 5 g of instant yeast are 15.15 g of fresh.
    assert_close(
        "yeast",
        sum(&buns.brought(Brings::FreshYeast)),
        4.392,
        0.001,
    );
}

#[test]
fn honey_and_juice_bring_sugar_and_a_preferment_its_flour() {
    // Sugar 30 g of 99.8 %, honey 25 of 82.12, juice 40 of 8.4, milk 119 of 5.05, egg 70 of 0.37, on 390 g.
    let braid = starter("orange-braid");
    let sugar = braid.brought(Brings::Sugar);
    let names: Vec<&str> = sugar.iter().map(|(name, _)| *name).collect();
    assert_eq!(names[..2], ["whole milk", "orange juice"]);
    assert!(names.contains(&"sugar") && names.contains(&"honey"));
    assert_close(
        "braid",
        sum(&sugar),
        (29.94 + 20.53 + 3.36 + 6.0095 + 0.259 + 0.033) / 3.9,
        0.01,
    );
    // 150 g of 500; the poolish's flour and the dough's have one name, and only the poolish's counts.
    let loaf = starter("overnight-tin-loaf");
    let ahead = loaf.brought(Brings::PrefermentedFlour);
    assert_eq!(ahead.len(), 1);
    assert_close("loaf", sum(&ahead), 30.0, 1e-9);
    // Both of the loaf's portions of yeast are one.
    assert_eq!(loaf.brought(Brings::FreshYeast).len(), 1);
}

/// The dough that the standard was computed for, with the same tables apart from this project.
/// 0.1 % for its printed digits.
#[test]
fn a_dough_s_material_follows_from_its_ingredients() {
    let dough = with_dough(&STANDARD_DOUGH);
    let mixed = dough.dough().expect("a dough").material(celsius(20.0));
    near("the standard", mixed, Material::DOUGH, 0.001);
    let at_25 = dough.dough_material();
    // The same Python at the formula's 25 °C.
    assert_close("c", at_25.specific_heat.get(), 2.56847, 1e-4);
    assert_close("rho", at_25.density.get(), 1221.012, 0.01);
    assert_close("k", at_25.conductivity.get(), 0.383597, 1e-5);
}

fn near(case: &str, got: Material, expected: Material, part: f64) {
    for (what, got, expected) in [
        ("k", got.conductivity.get(), expected.conductivity.get()),
        ("rho", got.density.get(), expected.density.get()),
        ("c", got.specific_heat.get(), expected.specific_heat.get()),
    ] {
        assert_close(&format!("{case}: {what}"), got, expected, part * expected);
    }
}

/// Published doughs have 2.15 to 3.19 J/(g K) (isoperibol calorimeter, 20 to 90 °C, abstract).
#[test]
fn every_starter_s_dough_is_as_published_doughs_are() {
    for id in ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"] {
        let formula = starter(id);
        let dough = formula.dough_material();
        assert!((2.15..=3.19).contains(&dough.specific_heat.get()), "{id}");
        // An enriched dough like the standard's; the loaf's is leaner and wetter and conducts better.
        near(id, dough, Material::DOUGH, 0.15);
    }
}

/// REFERENCES' own check values, by the same tables in plain Python at 20 °C: c, rho and k.
#[test]
fn foods_have_the_published_materials() {
    for (key, c, rho, k) in [
        ("milk", 3.894, 1023.2, 0.5660),
        ("egg-yolk", 3.117, 1037.0, 0.414),
        ("egg-custard", 3.663, 1052.6, 0.537),
    ] {
        let of = food(key).expect("a food of the table").composition;
        let got = Material::of(&of, celsius(20.0));
        assert_close(key, got.specific_heat.get(), c, 0.0006);
        assert_close(key, got.density.get(), rho, 0.5);
        assert_close(key, got.conductivity.get(), k, 0.0006);
    }
}

/// Half-way from 80 to 5 °C the almond cream is fatter and drier than a custard: less heat, less conduction.
#[test]
fn a_filling_s_material_is_its_own() {
    let buns = starter("plum-almond-buns");
    let mut parts = buns.components.iter();
    let cream = parts.find(|it| it.kind == ComponentKind::Filling);
    let cream = cream.expect("the buns are filled").material(celsius(42.5));
    assert!(cream.specific_heat < Material::CUSTARD.specific_heat);
    assert!(cream.conductivity < Material::CUSTARD.conductivity);
    assert_close("rho", cream.density.get(), 1090.0, 40.0);
}

#[test]
fn nothing_mixed_is_the_standard() {
    let mut draft = starter("plum-almond-buns").into_draft();
    for component in &mut draft.components {
        component.ingredients.clear();
        let of = component.material(celsius(20.0));
        let standard = if component.is_dough() {
            Material::DOUGH
        } else {
            Material::CUSTARD
        };
        assert_eq!(of, standard);
    }
    assert_eq!(draft.dough_material(), Material::DOUGH);
    assert_eq!(Composition::of_mixture(&[]), None);
}
