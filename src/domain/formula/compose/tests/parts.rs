//! What is made apart from the dough.

use super::*;
use crate::formula::ComponentKind;
use crate::formula::manuscript::Manuscript;
use crate::formula::manuscript::tests::with;

/// A dough with everything that is made apart, and what a text says of some of it.
fn whole() -> (Manuscript, Vec<Said>, [ComponentId; 4]) {
    let mut manuscript = dough_of(LEAN);
    let kind = ComponentKind::Filling;
    let cream = with(
        &mut manuscript,
        kind,
        "custard",
        &[("milk", 200.0), ("egg-yolk", 40.0)],
    );
    let kind = ComponentKind::Preferment;
    let poolish = with(
        &mut manuscript,
        kind,
        "poolish",
        &[("bread-flour", 100.0), ("water", 100.0)],
    );
    let wash = with(
        &mut manuscript,
        ComponentKind::Wash,
        "egg wash",
        &[("egg", 30.0)],
    );
    let glaze = with(
        &mut manuscript,
        ComponentKind::Glaze,
        "icing",
        &[("sugar", 80.0)],
    );
    let mut text = short_text();
    text.push(Said {
        component: Some(cream),
        ..said(Cook, "Boil the custard for two minutes, stirring.")
    });
    text.push(Said {
        component: Some(glaze),
        ..said(Mix, "Stir the icing smooth.")
    });
    (manuscript, text, [cream, poolish, wash, glaze])
}

#[test]
fn fillings_and_preferments_end_before_they_are_needed() {
    let (manuscript, text, [cream, poolish, ..]) = whole();
    let composed = compose(&manuscript, &text);
    let of = |component| {
        composed
            .steps
            .iter()
            .filter(move |line| line.step.component == component)
    };
    let cream_kinds: Vec<_> = of(cream).map(|line| line.step.kind).collect();
    // FDA: what is cooked with milk or egg is cold in time, and waits in the fridge.
    assert_eq!(cream_kinds, [Cook, Chill, Prepare, Fill]);
    let fill = only(&composed, Fill);
    link(&composed, fill, only(&composed, Shape));
    let away = of(cream)
        .find(|line| line.step.kind == Prepare)
        .expect("it is put away");
    link(&composed, fill, away);
    let poolish_kinds: Vec<_> = of(poolish).map(|line| line.step.kind).collect();
    assert_eq!(poolish_kinds, [Mix, Bulk]);
    let dough_mix = composed.steps.iter();
    let mut dough_mix =
        dough_mix.filter(|line| line.step.kind == Mix && line.step.component != poolish);
    let ripe = of(poolish).next_back().expect("it ripens");
    let mix = dough_mix.next().expect("the dough is mixed");
    assert_eq!(link(&composed, mix, ripe).greatest, Some(minutes(45.0)));
}

#[test]
fn washes_and_glazes_are_made_before_they_are_needed() {
    let (manuscript, text, [.., wash, glaze]) = whole();
    let composed = compose(&manuscript, &text);
    let of = |component| {
        composed
            .steps
            .iter()
            .filter(move |line| line.step.component == component)
    };
    let brushed = only(&composed, Wash);
    assert_eq!(brushed.step.component, wash);
    link(&composed, brushed, only(&composed, OvenHeats));
    let glaze_kinds: Vec<_> = of(glaze).map(|line| line.step.kind).collect();
    assert_eq!(glaze_kinds, [Prepare, Finish]);
    let made = of(glaze).next().expect("it is made");
    link(&composed, only(&composed, Finish), made);
    link(&composed, only(&composed, Finish), only(&composed, Cool));
    // USDA: cold again within two hours.
    let eaten = link(&composed, only(&composed, Serve), only(&composed, Bake));
    assert_eq!(eaten.greatest, Some(minutes(120.0)));
}

#[test]
fn a_component_that_a_text_names_is_the_one_it_works_on() {
    let mut manuscript = dough_of(LEAN);
    let kind = ComponentKind::Filling;
    let filling = with(
        &mut manuscript,
        kind,
        "plum compote",
        &[("plum-jam", 200.0)],
    );
    let mut text = short_text();
    text.insert(0, said(Cook, "Simmer the compote until thick."));
    let composed = compose(&manuscript, &text);
    let cook = only(&composed, Cook);
    assert_eq!(cook.step.component, filling);
    assert!(cook.assumed.component && !cook.assumed.kind);
}

#[test]
fn a_preferment_that_a_text_names_is_made_before_it_is_taken_up() {
    let mut manuscript = dough_of(LEAN);
    let kind = ComponentKind::Preferment;
    let sponge = with(
        &mut manuscript,
        kind,
        "For the sponge",
        &[("bread-flour", 100.0), ("water", 100.0)],
    );
    let night = for_minutes(said(Bulk, "Mix the sponge and leave it overnight."), 600.0);
    let mut text = vec![night, said(Mix, "Mix the sponge with all the rest.")];
    text.extend(short_text());
    let composed = compose(&manuscript, &text);
    let own = composed
        .steps
        .iter()
        .filter(|line| line.step.component == sponge);
    let own: Vec<_> = own
        .map(|line| (line.step.kind, line.assumed.whole))
        .collect();
    assert_eq!(own, [(Mix, true), (Bulk, false)]);
    let mixed = composed
        .steps
        .iter()
        .filter(|line| line.step.kind == Mix)
        .count();
    assert_eq!(mixed, 2);
}

#[test]
fn what_keeps_only_cools_and_what_was_never_hot_is_put_into_the_fridge() {
    let mut manuscript = dough_of(LEAN);
    let kind = ComponentKind::Filling;
    let apples = with(&mut manuscript, kind, "apples", &[("apples", 300.0)]);
    let mut text = short_text();
    text.push(Said {
        component: Some(apples),
        ..said(Cook, "Stew the apples.")
    });
    text.push(said(Cool, "Leave to cool."));
    let composed = compose(&manuscript, &text);
    let chill = only(&composed, Chill);
    assert_eq!(chill.step.component, apples);
    assert!(matches!(chill.step.length, Length::Chill { to, .. } if to > celsius(20.0)));
    let cold = Said {
        component: Some(apples),
        ..for_minutes(said(Chill, "Chill for an hour."), 60.0)
    };
    let mut text = short_text();
    text.push(cold);
    let composed = compose(&manuscript, &text);
    let chill = only(&composed, Chill);
    assert!(matches!(chill.step.length, Length::Wait(window) if window.likely() == minutes(60.0)));
    assert!(chill.step.needs.fridge);
}

/// A sheet that is filled is cut afterwards.
#[test]
fn a_baking_tray_bakes_nothing_and_a_filled_sheet_was_not_divided() {
    let mut manuscript = dough_of(LEAN);
    with(
        &mut manuscript,
        ComponentKind::Filling,
        "jam",
        &[("plum-jam", 200.0)],
    );
    let mut text = short_text();
    text.insert(
        3,
        said(Fill, "Spread the jam, roll it up and cut it in 12."),
    );
    text.insert(4, said(Bake, "Put it on a baking tray."));
    let composed = compose(&manuscript, &text);
    let tray = composed
        .steps
        .iter()
        .find(|line| line.step.instruction.contains("tray"));
    let tray = tray.expect("it is kept");
    assert!(tray.step.kind == Prepare && tray.assumed.kind);
    assert!(!kinds(&composed).contains(&Divide));
    only(&composed, Bake);
    only(&composed, FinalProof);
}

#[test]
fn what_rises_for_the_last_time_was_shaped() {
    let text = [
        said(Mix, "Mix."),
        said(Bulk, "Let rise."),
        said(FinalProof, "Shape and let rise again."),
        said(Bake, "Bake."),
    ];
    let composed = compose(&dough_of(LEAN), &text);
    assert!(only(&composed, Shape).assumed.whole);
    assert!(
        kinds(&composed)
            .windows(2)
            .any(|pair| pair == [Shape, FinalProof])
    );
}
