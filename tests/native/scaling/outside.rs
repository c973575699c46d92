//! What goes on the outside of the pieces: wash, glaze and coating.
//!
//! It covers a surface, and that of a body which keeps its proportions grows with `m^(2/3)`: geometry.
//! A ball of 85 g of dough at 0.85 mL/g has 0.0840 m², hundredths of which are reckoned below from its
//! radius, `r = (3 V / 4 π)^(1/3)` and `A = 4 π r²`.

use std::f64::consts::PI;

use checks::{assert_close, starter};
use domain::formula::{Component, ComponentKind, Formula, Size};
use domain::units::grams;
use proptest::prelude::*;
use records::starters;

fn part(formula: &Formula, kind: ComponentKind) -> &Component {
    let mut parts = formula.components.iter();
    parts
        .find(|part| part.kind == kind)
        .expect("the buns have it")
}

fn mass_g(formula: &Formula, kind: ComponentKind) -> f64 {
    part(formula, kind).mass().get()
}

/// The surface of so many balls of such a mass, with any density.
fn balls(count: f64, mass_g: f64) -> f64 {
    let radius = (3.0 * mass_g / (4.0 * PI)).powf(1.0 / 3.0);
    count * 4.0 * PI * radius.powi(2)
}

const OUTSIDE: [ComponentKind; 3] = [
    ComponentKind::Wash,
    ComponentKind::Glaze,
    ComponentKind::Coating,
];

#[test]
fn with_more_pieces_of_the_same_mass_everything_multiplies() {
    let buns = starter("plum-almond-buns");
    let mass = buns.pieces.mass;
    let scaled = buns
        .scaled(Size::Pieces { count: 20, mass })
        .expect("two trays of buns");
    for (own, twenty) in std::iter::zip(&buns.components, &scaled.components) {
        for (own, twenty) in std::iter::zip(&own.ingredients, &twenty.ingredients) {
            let times = twenty.mass / own.mass;
            assert_close(&twenty.name, times, 20.0 / 8.0, 1e-12);
        }
    }
}

#[test]
fn the_outside_follows_the_surface_and_the_filling_the_dough() {
    let buns = starter("plum-almond-buns");
    for (count, piece_g) in [(1_u16, 680.0), (16, 42.5), (8, 170.0), (12, 60.0)] {
        let mass = grams(piece_g);
        let size = Size::Pieces { count, mass };
        let scaled = buns.scaled(size).expect("it is baked at home");
        let dough = f64::from(count) * piece_g / 680.0;
        let filling = ComponentKind::Filling;
        let times = mass_g(&scaled, filling) / mass_g(&buns, filling);
        assert_close("filling", times, dough, 1e-12);
        let surface = balls(f64::from(count), piece_g) / balls(8.0, 85.0);
        for kind in OUTSIDE {
            let times = mass_g(&scaled, kind) / mass_g(&buns, kind);
            assert_close(&format!("{kind:?} of {count}"), times, surface, 1e-12);
        }
    }
    // Eight balls made one have half the surface, exactly.
    assert_close(
        "one of eight",
        balls(1.0, 680.0) / balls(8.0, 85.0),
        0.5,
        1e-12,
    );
}

proptest! {
    #[test]
    fn whatever_the_way_the_outside_ends_the_same(
        which in 0_usize..3,
        counts in (1_u16..30, 1_u16..30),
        dough_g in (400.0..11_000.0_f64, 400.0..11_000.0_f64),
    ) {
        let formula = &starters::all()[which];
        let pieces = |count: u16, dough_g: f64| {
            Size::Pieces { count, mass: grams(dough_g / f64::from(count)) }
        };
        let fail = |cause: domain::formula::ScaleError| TestCaseError::fail(cause.to_string());
        let first = formula.scaled(pieces(counts.0, dough_g.0)).map_err(fail)?;
        let by_a_detour = first.scaled(pieces(counts.1, dough_g.1)).map_err(fail)?;
        let straight = formula.scaled(pieces(counts.1, dough_g.1)).map_err(fail)?;
        for (one, other) in std::iter::zip(&by_a_detour.components, &straight.components) {
            for (one, other) in std::iter::zip(&one.ingredients, &other.ingredients) {
                prop_assert!((one.mass / other.mass - 1.0).abs() < 1e-9, "{}", one.name);
            }
        }
        // Dough and flour are the same wishes, said otherwise.
        let by_flour = straight.scaled(Size::Flour(first.flour_mass())).map_err(fail)?;
        let by_dough = straight.scaled(Size::Dough(first.dough_mass())).map_err(fail)?;
        for (one, other) in std::iter::zip(super::masses_g(&by_flour), super::masses_g(&by_dough)) {
            prop_assert!((one / other - 1.0).abs() < 1e-9);
        }
    }
}
