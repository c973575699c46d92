//! What is open, what an edit does, and that no order of edits breaks anything.
//!
//! These are properties of the model's own rules; the convention of baker's percentages is Gisslen's (see
//! [`percent`](crate::formula::Draft::percent_of_flour)).

mod edits;
mod steps;

use super::*;
use crate::food::food;
use crate::units::{bakers_percent, grams, minutes};

/// A dough of these foods, by key and mass in g.
pub(in crate::formula) fn dough_of(parts: &[(&str, f64)]) -> Manuscript {
    let mut manuscript = Manuscript::blank("test");
    manuscript.name = "Test".to_owned();
    add(&mut manuscript, ComponentId(1), parts);
    manuscript.pieces.count = Some(8);
    manuscript
}

/// Adds foods to a component.
pub(in crate::formula) fn add(
    manuscript: &mut Manuscript,
    component: ComponentId,
    parts: &[(&str, f64)],
) {
    for &(key, mass_g) in parts {
        let place = manuscript
            .component(component)
            .map_or(0, |component| component.ingredients.len());
        let at = At { component, place };
        let edits = [
            Edit::AddIngredient(component, key.to_owned()),
            Edit::Food(at, food(key)),
            Edit::Mass(at, Some(Grams::clamped(mass_g))),
        ];
        for edit in &edits {
            assert_eq!(manuscript.apply(edit), Ok(()), "{edit:?}");
        }
    }
}

/// A new component of these foods.
pub(in crate::formula) fn with(
    manuscript: &mut Manuscript,
    kind: ComponentKind,
    name: &str,
    parts: &[(&str, f64)],
) -> ComponentId {
    let added = manuscript.apply(&Edit::AddComponent(kind, name.to_owned()));
    assert_eq!(added, Ok(()));
    let id = manuscript.last_component;
    add(manuscript, id, parts);
    id
}

pub(in crate::formula) const LEAN: &[(&str, f64)] = &[
    ("bread-flour", 500.0),
    ("water", 325.0),
    ("salt", 10.0),
    ("yeast-instant", 5.0),
];

fn at(place: usize) -> At {
    let component = ComponentId(1);
    At { component, place }
}

#[test]
fn a_whole_dough_leaves_only_its_steps_open() {
    let mut manuscript = dough_of(LEAN);
    assert_eq!(manuscript.open(), [Open::NoSteps]);
    assert_eq!(manuscript.apply(&Edit::UsualSteps), Ok(()));
    let bake = manuscript.steps.iter();
    let bake = bake.filter(|line| line.step.kind == crate::formula::StepKind::Bake);
    let bake: Vec<_> = bake.map(|line| line.step.id).collect();
    assert_eq!(manuscript.open(), [Open::OvenHeat(bake[0])]);
    assert_eq!(
        manuscript.apply(&Edit::Heat(bake[0], celsius(230.0))),
        Ok(())
    );
    let formula = manuscript.formula().expect("nothing is open");
    // 840 g of dough in 8 pieces.
    assert!((formula.pieces.mass.get() - 105.0).abs() < 1e-9);
    assert_eq!(formula.reference, USUAL_REFERENCE);
    assert_eq!(Manuscript::from(&formula).formula(), Ok(formula));
}

#[test]
fn what_is_missing_is_asked_in_the_order_of_the_list() {
    let mut manuscript = Manuscript::blank("x");
    for edit in [
        Edit::AddIngredient(ComponentId(1), "mystery".to_owned()),
        Edit::AddIngredient(ComponentId(1), "tinned milk".to_owned()),
        Edit::Food(at(1), food("milk-evaporated")),
    ] {
        assert_eq!(manuscript.apply(&edit), Ok(()));
    }
    manuscript.components[0].ingredients[1].written = "1 tin".to_owned();
    let expected = [
        Open::Name,
        Open::HowMuch(at(0)),
        Open::WhatFood(at(0)),
        Open::HowHeavy(at(1)),
        Open::NoFlour,
        Open::Pieces,
        Open::NoSteps,
    ];
    assert_eq!(manuscript.open(), expected);
    assert!(expected.iter().all(Open::is_essential));
    assert_eq!(manuscript.formula(), Err(expected.to_vec()));
}

#[test]
fn a_slipped_digit_is_remarked_and_blocks_nothing() {
    let little_salt = dough_of(&[
        ("bread-flour", 500.0),
        ("water", 325.0),
        ("salt", 2.0),
        ("yeast-instant", 5.0),
    ]);
    // Salt 1.5 to 2.2 % of the flour is usual (see `usual`); 2 g are 0.4 %.
    let open = little_salt.open();
    let salt = open.iter().find_map(|one| match one {
        Open::Unusual(reading) => Some(reading),
        _ => None,
    });
    let salt = salt.expect("it is remarked");
    assert_eq!(salt.measure, crate::formula::usual::Measure::Salt);
    assert!((salt.found.get() - 0.4).abs() < 1e-9);
    assert!(!Open::Unusual(*salt).is_essential());
    let much_yeast = dough_of(&[
        ("bread-flour", 500.0),
        ("water", 325.0),
        ("salt", 10.0),
        ("yeast-instant", 70.0),
    ]);
    let slip = much_yeast.open().into_iter().find_map(|one| match one {
        Open::CantBeMeant { at, percent, .. } => Some((at, percent.get().round())),
        _ => None,
    });
    assert_eq!(slip, Some((at(3), 14.0)));
}

#[test]
fn flour_for_the_table_is_asked_for_by_nobody_and_not_weighed() {
    let mut manuscript = dough_of(LEAN);
    let added = Edit::AddIngredient(ComponentId(1), "flour for dusting".to_owned());
    assert_eq!(manuscript.apply(&added), Ok(()));
    assert!(manuscript.open().contains(&Open::HowMuch(at(4))));
    assert_eq!(manuscript.apply(&Edit::AsLiked(at(4), true)), Ok(()));
    assert_eq!(manuscript.open(), [Open::NoSteps]);
    assert_eq!(manuscript.known().components[0].ingredients.len(), 4);
}

#[test]
fn pieces_that_the_dough_does_not_make_are_remarked() {
    let mut manuscript = dough_of(LEAN);
    manuscript.pieces.mass = Some(grams(85.0));
    // 8 × 85 = 680 g of 840.
    let said = manuscript.open();
    let is_said = |one: &Open| matches!(one, Open::OtherDough { .. });
    assert!(said.iter().any(is_said), "{said:?}");
    manuscript.pieces.count = None;
    // 840 / 85 = 9.9, so ten of them: 850 g, within what sticks to the bowl.
    assert_eq!(manuscript.known().pieces.count, 10);
    assert_eq!(manuscript.open(), [Open::NoSteps]);
}

#[test]
fn a_flatbread_is_remarked_and_may_be_meant() {
    let flat = dough_of(&[("bread-flour", 300.0), ("water", 180.0), ("salt", 6.0)]);
    assert!(flat.open().contains(&Open::NothingRaises));
    assert!(!Open::NothingRaises.is_essential());
}
