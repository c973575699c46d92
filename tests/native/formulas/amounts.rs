//! How much there is of fillings, washes, glazes and coatings, against what is usual, so that a
//! slipped digit is noticed.
//!
//! The pastry cream follows W. Gisslen, *Professional Baking* (2008): to a litre of milk 250 g of
//! sugar, 75 g of starch, 90 g of yolk with 120 g of whole egg, and 60 g of butter; from memory.
//! How far to either side, and every other range here, is common practice, no source.

use std::ops::RangeInclusive;

use domain::formula::{Component, ComponentKind, Formula};
use records::starters;

use super::{braid, buns, loaf};

fn part(formula: &Formula, kind: ComponentKind) -> &Component {
    let mut found = formula.components.iter().filter(|it| it.kind == kind);
    let part = found.next().expect("a component of that kind");
    assert!(found.next().is_none(), "{}: two of {kind:?}", formula.name);
    part
}

/// The mass of all that is of one of these foods, in g.
fn mass_g(component: &Component, keys: &[&str]) -> f64 {
    let parts = component.ingredients.iter();
    let of_it = parts.filter(|part| keys.contains(&part.food.key));
    let masses: Vec<f64> = of_it.map(|part| part.mass.get()).collect();
    assert!(!masses.is_empty(), "{}: no {keys:?}", component.name);
    masses.iter().sum()
}

/// The mass of a component in percent of the divided dough.
fn percent_of_dough(formula: &Formula, kind: ComponentKind) -> f64 {
    100.0 * part(formula, kind).mass().get() / formula.dough_mass().get()
}

fn assert_usual(what: &str, found: f64, usual: RangeInclusive<f64>) {
    assert!(usual.contains(&found), "{what}: {found}, not {usual:?}");
}

#[test]
fn the_pastry_cream_is_one() {
    let buns = buns();
    let cream = part(&buns, ComponentKind::Filling);
    let milk_l = mass_g(cream, &["milk"]) / 1000.0;
    for (what, keys, usual_g) in [
        ("sugar", ["sugar"], 150.0..=300.0),
        ("starch", ["cornstarch"], 60.0..=100.0),
        ("yolk", ["egg-yolk"], 120.0..=260.0),
        ("butter", ["butter"], 0.0..=150.0),
    ] {
        assert_usual(what, mass_g(cream, &keys) / milk_l, usual_g);
    }
    // Enough to taste of, and not so much that it can't be boiled in a pan.
    let almonds = mass_g(cream, &["almonds-ground"]) / cream.mass().get();
    assert_usual("almonds, part of the cream", almonds, 0.1..=0.3);
}

#[test]
fn pieces_can_be_closed_over_their_filling() {
    let formulas = starters::all();
    let filled = formulas.iter().filter(|formula| {
        let mut parts = formula.components.iter();
        parts.any(|part| part.kind == ComponentKind::Filling)
    });
    let mut seen = 0;
    for formula in filled {
        seen += 1;
        let filling = percent_of_dough(formula, ComponentKind::Filling);
        assert_usual(&formula.name, filling, 30.0..=60.0);
    }
    assert_eq!(seen, 1);
}

#[test]
fn a_wash_covers_and_does_not_run() {
    for formula in [buns(), braid()] {
        let wash = percent_of_dough(&formula, ComponentKind::Wash);
        assert_usual(&formula.name, wash, 3.0..=8.0);
        let wash = part(&formula, ComponentKind::Wash);
        // Milk thins the egg to where a brush spreads it.
        let thinned = mass_g(wash, &["milk"]) / mass_g(wash, &["egg"]);
        assert_usual(&formula.name, thinned, 0.1..=0.6);
    }
    // Milk alone is thin, and a tin leaves only the top to brush.
    let loaf = loaf();
    let wash = percent_of_dough(&loaf, ComponentKind::Wash);
    assert_usual(&loaf.name, wash, 0.5..=2.5);
}

#[test]
fn glazes_are_thick_enough_and_enough() {
    for formula in [buns(), braid()] {
        let glaze = percent_of_dough(&formula, ComponentKind::Glaze);
        assert_usual(&formula.name, glaze, 5.0..=20.0);
    }
    let buns = buns();
    let jam = part(&buns, ComponentKind::Glaze);
    let loosened = mass_g(jam, &["water", "lemon-juice"]) / mass_g(jam, &["plum-jam"]);
    assert_usual("liquid to jam", loosened, 0.1..=0.4);
    // A simple syrup has as much sugar as water, and juice brings some of its own.
    let braid = braid();
    let syrup = part(&braid, ComponentKind::Glaze);
    let sweetened = mass_g(syrup, &["sugar"]) / mass_g(syrup, &["orange-juice"]);
    assert_usual("sugar to juice", sweetened, 0.6..=1.5);
    // Melted butter, brushed on thinly.
    let loaf = loaf();
    let glaze = percent_of_dough(&loaf, ComponentKind::Glaze);
    assert_usual(&loaf.name, glaze, 0.5..=2.0);
}

#[test]
fn coatings_cover_what_is_seen() {
    for formula in [buns(), braid()] {
        let coating = percent_of_dough(&formula, ComponentKind::Coating);
        assert_usual(&formula.name, coating, 2.0..=8.0);
    }
}
