//! Edits of amounts and components.

use super::*;

fn mass_g(manuscript: &Manuscript, place: usize) -> Option<f64> {
    let mass = manuscript.ingredient(at(place))?.mass?;
    Some((mass.get() * 1e6).round() / 1e6)
}

fn percent(manuscript: &Manuscript, place: usize) -> Option<f64> {
    let percent = manuscript.percent(at(place))?;
    Some((percent.get() * 1e6).round() / 1e6)
}

#[test]
fn mass_and_percentage_drive_each_other() {
    let mut manuscript = dough_of(LEAN);
    assert_eq!(percent(&manuscript, 1), Some(65.0));
    let edit = Edit::Percent(at(1), bakers_percent(70.0));
    assert_eq!(manuscript.apply(&edit), Ok(()));
    assert_eq!(mass_g(&manuscript, 1), Some(350.0));
    // More flour takes more water, but no more of what was weighed.
    let edit = Edit::Mass(at(0), Some(grams(1000.0)));
    assert_eq!(manuscript.apply(&edit), Ok(()));
    assert_eq!(mass_g(&manuscript, 1), Some(700.0));
    assert_eq!(mass_g(&manuscript, 2), Some(10.0));
    assert_eq!(percent(&manuscript, 2), Some(1.0));
    let edit = Edit::Mass(at(1), Some(grams(600.0)));
    assert_eq!(manuscript.apply(&edit), Ok(()));
    assert_eq!(percent(&manuscript, 1), Some(60.0));
}

#[test]
fn the_flour_of_a_preferment_counts() {
    let mut manuscript = dough_of(LEAN);
    let kind = ComponentKind::Preferment;
    with(
        &mut manuscript,
        kind,
        "poolish",
        &[("bread-flour", 500.0), ("water", 500.0)],
    );
    // 10 g of 1000 g.
    assert_eq!(percent(&manuscript, 2), Some(1.0));
    let edit = Edit::Percent(at(2), bakers_percent(2.0));
    assert_eq!(manuscript.apply(&edit), Ok(()));
    assert_eq!(mass_g(&manuscript, 2), Some(20.0));
}

#[test]
fn a_flour_in_per_cent_is_a_part_of_all_the_flour() {
    let mut manuscript = dough_of(LEAN);
    add(
        &mut manuscript,
        ComponentId(1),
        &[("rye-flour-medium", 0.0)],
    );
    // 20 % rye beside 500 g: 500 / 0.8 = 625 g in all, 125 of them rye.
    let edit = Edit::Percent(at(4), bakers_percent(20.0));
    assert_eq!(manuscript.apply(&edit), Ok(()));
    assert_eq!(mass_g(&manuscript, 4), Some(125.0));
    assert_eq!(percent(&manuscript, 4), Some(20.0));
    let before = manuscript.clone();
    let all = Edit::Percent(at(4), bakers_percent(100.0));
    assert_eq!(manuscript.apply(&all), Err(Refused::MoreThanAllFlour));
    assert_eq!(manuscript, before);
}

#[test]
fn percentages_without_flour_wait_for_it() {
    let mut manuscript = Manuscript::blank("x");
    for (place, (key, of)) in [
        ("bread-flour", 90.0),
        ("spelt-flour", 10.0),
        ("water", 65.0),
    ]
    .into_iter()
    .enumerate()
    {
        let edits = [
            Edit::AddIngredient(ComponentId(1), key.to_owned()),
            Edit::Food(at(place), food(key)),
            Edit::Percent(at(place), bakers_percent(of)),
        ];
        for edit in &edits {
            assert_eq!(manuscript.apply(edit), Ok(()), "{edit:?}");
        }
    }
    assert!(manuscript.open().contains(&Open::HowMuchFlour));
    assert_eq!(mass_g(&manuscript, 2), None);
    assert_eq!(percent(&manuscript, 2), Some(65.0));
    assert_eq!(manuscript.apply(&Edit::Flour(grams(600.0))), Ok(()));
    assert_eq!(mass_g(&manuscript, 0), Some(540.0));
    assert_eq!(mass_g(&manuscript, 1), Some(60.0));
    assert_eq!(mass_g(&manuscript, 2), Some(390.0));
    let again = manuscript.apply(&Edit::Flour(grams(600.0)));
    assert_eq!(again, Err(Refused::FlourIsWeighed));
}

#[test]
fn one_liquid_at_most_is_tempered() {
    let mut manuscript = dough_of(LEAN);
    let tempered = |manuscript: &Manuscript| {
        let parts = manuscript.components[0].ingredients.iter();
        parts.map(|part| part.tempered).collect::<Vec<_>>()
    };
    let dough = ComponentId(1);
    for place in [3, 1] {
        assert_eq!(
            manuscript.apply(&Edit::Tempered(dough, Some(place))),
            Ok(())
        );
    }
    assert_eq!(tempered(&manuscript), [false, true, false, false]);
    let nowhere = manuscript.apply(&Edit::Tempered(dough, Some(4)));
    assert_eq!(nowhere, Err(Refused::NoIngredient));
    // A tempered liquid that comes from another component is one too many.
    let other = with(
        &mut manuscript,
        ComponentKind::Preferment,
        "sponge",
        &[("water", 50.0)],
    );
    assert_eq!(manuscript.apply(&Edit::Tempered(other, Some(0))), Ok(()));
    let from = At {
        component: other,
        place: 0,
    };
    assert_eq!(manuscript.apply(&Edit::MoveIngredient(from, at(0))), Ok(()));
    assert_eq!(tempered(&manuscript), [false, false, true, false, false]);
    assert_eq!(manuscript.apply(&Edit::Tempered(dough, None)), Ok(()));
    assert_eq!(tempered(&manuscript), [false; 5]);
}

#[test]
fn numbers_of_components_are_never_given_again() {
    let mut manuscript = dough_of(LEAN);
    let first = with(&mut manuscript, ComponentKind::Filling, "jam", &[]);
    assert_eq!(manuscript.apply(&Edit::RemoveComponent(first)), Ok(()));
    let second = with(&mut manuscript, ComponentKind::Filling, "cheese", &[]);
    assert_eq!((first, second), (ComponentId(2), ComponentId(3)));
    manuscript.last_component = ComponentId(u16::MAX);
    let full = Edit::AddComponent(ComponentKind::Wash, String::new());
    assert_eq!(manuscript.apply(&full), Err(Refused::Full));
}

#[test]
fn taking_back_is_all_but_the_last() {
    let begun = dough_of(LEAN);
    let edits = [
        Edit::Name("Rolls".to_owned()),
        Edit::UsualSteps,
        Edit::RemoveIngredient(at(3)),
        Edit::RemoveIngredient(at(9)),
        Edit::Percent(at(1), bakers_percent(80.0)),
    ];
    let after = begun.after(&edits);
    assert_eq!(mass_g(&after, 1), Some(400.0));
    let before = begun.after(&edits[..4]);
    assert_eq!(mass_g(&before, 1), Some(325.0));
    assert_eq!(before.components[0].ingredients.len(), 3);
    assert_eq!(begun.after(&[]), begun);
}
