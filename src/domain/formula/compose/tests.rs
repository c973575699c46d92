//! Steps from plain texts. All texts are our own.

mod parts;
mod properties;
mod words;

use super::*;
use crate::formula::manuscript::tests::{LEAN, dough_of};
use crate::formula::{Checklist, Length, Link};
use crate::units::{celsius, minutes};
use StepKind::{
    Bake, BenchRest, Bulk, Chill, Cook, Cool, Divide, Fill, FinalProof, Finish, Gather, Knead, Mix,
    OvenHeats, OvenOn, Prepare, Retard, Serve, Shape, TakeTemperature, Wash,
};

fn said(kind: StepKind, text: &str) -> Said {
    Said {
        text: text.to_owned(),
        kind: Some(kind),
        ..Said::default()
    }
}

fn for_minutes(said: Said, told: f64) -> Said {
    let told = Minutes::clamped(told);
    Said {
        minutes: Some((told, told)),
        ..said
    }
}

fn at(said: Said, told: f64, fan: bool) -> Said {
    let heat = SaidHeat {
        written: Celsius::clamped(told),
        fan,
        is_assumed: false,
    };
    Said {
        heat: Some(heat),
        ..said
    }
}

fn kinds(composed: &Composed) -> Vec<StepKind> {
    composed.steps.iter().map(|line| line.step.kind).collect()
}

fn only(composed: &Composed, kind: StepKind) -> &Line {
    let mut found = composed.steps.iter().filter(|line| line.step.kind == kind);
    let line = found.next().expect("there is one");
    assert!(found.next().is_none(), "{kind:?} stands twice");
    line
}

fn link(composed: &Composed, from: &Line, to: &Line) -> Link {
    let mut links = from.step.after.iter();
    let found = links.find(|link| link.step == to.step.id).copied();
    found.unwrap_or_else(|| panic!("no link: {:?} {:?}, {composed:?}", from.step, to.step))
}

fn short_text() -> Vec<Said> {
    vec![
        for_minutes(said(Knead, "Knead everything for 10 minutes."), 10.0),
        for_minutes(said(Bulk, "Let rise for an hour and a half."), 90.0),
        said(Shape, "Shape rolls."),
        for_minutes(said(Bulk, "Let rise again for 45 minutes."), 45.0),
        for_minutes(
            at(
                said(Bake, "Bake at 200 °C fan for 18 minutes."),
                200.0,
                true,
            ),
            18.0,
        ),
    ]
}

#[test]
fn what_no_text_says_is_added_and_marked() {
    let composed = compose(&dough_of(LEAN), &short_text());
    let expected = [
        Gather,
        Mix,
        Knead,
        TakeTemperature,
        Prepare,
        Bulk,
        Divide,
        Shape,
        FinalProof,
        OvenOn,
        OvenHeats,
        Prepare,
        Bake,
        Prepare,
        Cool,
        Serve,
    ];
    assert_eq!(kinds(&composed), expected);
    let told: Vec<_> = composed
        .steps
        .iter()
        .filter(|line| !line.assumed.whole)
        .map(|line| line.step.kind)
        .collect();
    assert_eq!(told, [Knead, Bulk, Shape, FinalProof, Bake]);
    let gather = only(&composed, Gather);
    assert_eq!(gather.step.checklist, Some(Checklist::AllIngredients));
    let mix = only(&composed, Mix);
    assert_eq!(mix.step.checklist, Some(Checklist::Ingredients));
    // The second rise was called by the same name, so that it is the last was inferred.
    assert!(only(&composed, FinalProof).assumed.kind);
    assert!(only(&composed, Shape).assumed.time);
    assert!(!only(&composed, Knead).assumed.time);
}

/// 20 K lower with a fan (New South Wales Government, *Healthy Kids*, conversion chart).
#[test]
fn the_oven_is_told_without_its_fan_and_hot_in_time() {
    let composed = compose(&dough_of(LEAN), &short_text());
    let (bake, heats) = (only(&composed, Bake), only(&composed, OvenHeats));
    let Length::Bake { oven, range, .. } = bake.step.length else {
        panic!("it bakes: {:?}", bake.step.length);
    };
    assert_eq!((oven, range.likely()), (celsius(220.0), minutes(18.0)));
    assert_eq!(heats.step.length, Length::OvenHeats { oven });
    assert!(!bake.assumed.heat && !heats.assumed.heat);
    let (on, proof) = (only(&composed, OvenOn), only(&composed, FinalProof));
    assert_eq!(on.step.ahead_of, Some(proof.step.id));
    link(&composed, heats, on);
    let into = composed
        .steps
        .iter()
        .find(|line| line.step.id == bake.step.after[0].step);
    let into = into.expect("it is put into the oven");
    link(&composed, into, heats);
    assert_eq!(link(&composed, into, proof).greatest, Some(minutes(15.0)));
}

#[test]
fn an_oven_that_is_turned_on_early_in_a_text_is_turned_on_in_time() {
    let mut text = short_text();
    text[4].heat = None;
    let oven = at(said(OvenOn, "Heat the oven to 230 °C."), 230.0, false);
    text.insert(0, oven);
    let composed = compose(&dough_of(LEAN), &text);
    let on = only(&composed, OvenOn);
    assert_eq!(on.step.instruction, "Heat the oven to 230 °C.");
    assert!(!on.assumed.whole);
    assert_eq!(on.step.ahead_of, Some(only(&composed, FinalProof).step.id));
    let bake = only(&composed, Bake);
    assert!(matches!(bake.step.length, Length::Bake { oven, .. } if oven == celsius(230.0)));
    assert!(!bake.assumed.heat);
}

#[test]
fn no_heat_is_made_up_without_saying_so() {
    let mut text = short_text();
    text[4].heat = None;
    let composed = compose(&dough_of(LEAN), &text);
    assert!(only(&composed, Bake).assumed.heat);
}

#[test]
fn one_time_in_the_oven_at_two_heats_is_one_bake() {
    let mut text = short_text();
    text.push(for_minutes(
        at(said(Bake, "Bake 20 minutes more at 180 °C."), 180.0, false),
        20.0,
    ));
    let composed = compose(&dough_of(LEAN), &text);
    let bake = only(&composed, Bake);
    let Length::Bake { oven, range, .. } = bake.step.length else {
        panic!("it bakes: {:?}", bake.step.length);
    };
    assert_eq!((oven, range.likely()), (celsius(220.0), minutes(38.0)));
    assert_eq!(
        bake.step.detail,
        "Bake at 200 °C fan for 18 minutes. Bake 20 minutes more at 180 °C."
    );
}

#[test]
fn a_night_in_the_fridge_is_a_retard_and_what_rises_next_is_cold() {
    let text = [
        said(Mix, "Stir everything together."),
        for_minutes(said(Bulk, "Leave 30 minutes."), 30.0),
        said(Chill, "Overnight into the fridge."),
        said(Shape, "Shape a loaf."),
        for_minutes(said(FinalProof, "Let it rise 2 hours."), 120.0),
        said(Bake, "Bake."),
    ];
    let composed = compose(&dough_of(LEAN), &text);
    let retard = only(&composed, Retard);
    assert!(retard.step.needs.fridge && retard.assumed.time);
    assert_eq!(retard.step.instruction, "Overnight into the fridge.");
    let before = composed
        .steps
        .iter()
        .find(|line| line.step.id == retard.step.after[0].step);
    assert!(before.is_some_and(|line| line.step.needs.fridge && line.step.is_hands()));
    let from_fridge = |line: &Line| {
        matches!(
            line.step.length,
            Length::Ferment {
                from_fridge: true,
                ..
            }
        )
    };
    assert!(!from_fridge(only(&composed, Bulk)));
    assert!(from_fridge(only(&composed, FinalProof)));
}

/// Yeast's pace is the model's own, `yeast::activity`; 28 °C is quicker than 25.
#[test]
fn rises_are_reckoned_for_the_temperature_that_is_told() {
    let mut text = short_text();
    text[1] = at(text[1].clone(), 28.0, false);
    text[3] = at(text[3].clone(), 25.0, false);
    let composed = compose(&dough_of(LEAN), &text);
    assert_eq!(composed.reference, Some(celsius(28.0)));
    let likely = |kind| match &only(&composed, kind).step.length {
        Length::Ferment {
            reference_minutes, ..
        } => reference_minutes.likely().get(),
        other => panic!("it ferments: {other:?}"),
    };
    assert!((likely(Bulk) - 90.0).abs() < 1e-9);
    assert!(likely(FinalProof) < 45.0 && likely(FinalProof) > 30.0);
    assert_eq!(compose(&dough_of(LEAN), &short_text()).reference, None);
}

#[test]
fn long_rests_are_rises_where_a_text_has_no_others() {
    let text = [
        said(Mix, "Mix."),
        for_minutes(said(BenchRest, "Leave to rest for 1 hour."), 60.0),
        said(Divide, "Divide in 8."),
        for_minutes(said(BenchRest, "Rest 10 minutes."), 10.0),
        said(Shape, "Shape."),
        for_minutes(
            Said {
                kind: None,
                ..said(BenchRest, "Leave on the tray 40 minutes.")
            },
            40.0,
        ),
        said(Bake, "Bake."),
    ];
    let composed = compose(&dough_of(LEAN), &text);
    let bulk = only(&composed, Bulk);
    assert!(bulk.assumed.kind);
    assert_eq!(bulk.step.instruction, "Leave to rest for 1 hour.");
    assert_eq!(
        only(&composed, BenchRest).step.instruction,
        "Rest 10 minutes."
    );
    assert_eq!(
        only(&composed, FinalProof).step.instruction,
        "Leave on the tray 40 minutes."
    );
}

#[test]
fn what_is_cooked_on_the_hob_is_not_baked() {
    let text = [
        said(Mix, "Mix."),
        said(Bulk, "Let rise."),
        said(Shape, "Roll out thinly."),
        said(Cook, "Cook in a dry pan, a minute on each side."),
    ];
    let composed = compose(&dough_of(LEAN), &text);
    assert!(!kinds(&composed).contains(&Bake));
    assert!(!kinds(&composed).contains(&OvenOn));
    assert_eq!(kinds(&composed).last(), Some(&Serve));
}

#[test]
fn nothing_comes_of_no_dough() {
    let mut manuscript = dough_of(LEAN);
    manuscript.components.clear();
    assert!(compose(&manuscript, &short_text()).steps.is_empty());
}
