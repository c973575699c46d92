//! Edits of steps, and that no order of any edits breaks a manuscript.

use super::*;
use crate::formula::{Length, StepKind};

fn kinds(manuscript: &Manuscript) -> Vec<StepKind> {
    manuscript.steps.iter().map(|line| line.step.kind).collect()
}

fn id_of(manuscript: &Manuscript, kind: StepKind) -> StepId {
    let found = manuscript.steps.iter().find(|line| line.step.kind == kind);
    found
        .map(|line| line.step.id)
        .expect("such a step stands there")
}

fn waits_for(manuscript: &Manuscript, step: StepId) -> Vec<StepId> {
    let line = manuscript.line(step).expect("it stands there");
    line.step.after.iter().map(|link| link.step).collect()
}

fn whole() -> Manuscript {
    let mut manuscript = dough_of(LEAN);
    assert_eq!(manuscript.apply(&Edit::UsualSteps), Ok(()));
    manuscript
}

#[test]
fn a_step_that_goes_is_bridged_and_its_number_stays_its_own() {
    let mut manuscript = whole();
    let (mix, knead) = (
        id_of(&manuscript, StepKind::Mix),
        id_of(&manuscript, StepKind::Knead),
    );
    let temperature = id_of(&manuscript, StepKind::TakeTemperature);
    let last = manuscript.last_step;
    assert_eq!(manuscript.apply(&Edit::RemoveStep(knead)), Ok(()));
    assert_eq!(waits_for(&manuscript, temperature), [mix]);
    assert_eq!(
        manuscript.apply(&Edit::RemoveStep(knead)),
        Err(Refused::NoStep)
    );
    let back = Edit::AddStep(StepKind::Knead, ComponentId(1), 2);
    assert_eq!(manuscript.apply(&back), Ok(()));
    let knead = id_of(&manuscript, StepKind::Knead);
    assert_eq!(knead, StepId(last.0 + 1));
    assert_eq!(waits_for(&manuscript, knead), [mix]);
    assert_eq!(waits_for(&manuscript, temperature), [knead]);
}

#[test]
fn the_oven_is_timed_anew_when_what_it_was_timed_for_goes() {
    let mut manuscript = whole();
    let (on, proof) = (
        id_of(&manuscript, StepKind::OvenOn),
        id_of(&manuscript, StepKind::FinalProof),
    );
    let ahead = |manuscript: &Manuscript| manuscript.line(on).and_then(|line| line.step.ahead_of);
    assert_eq!(ahead(&manuscript), Some(proof));
    assert_eq!(manuscript.apply(&Edit::RemoveStep(proof)), Ok(()));
    assert_eq!(ahead(&manuscript), Some(id_of(&manuscript, StepKind::Bulk)));
}

#[test]
fn another_kind_keeps_the_words_and_takes_all_else() {
    let mut manuscript = whole();
    let bulk = id_of(&manuscript, StepKind::Bulk);
    let edits = [
        Edit::Detail(bulk, "Overnight, in the fridge.".to_owned()),
        Edit::StepKind(bulk, StepKind::Retard),
        Edit::Time(bulk, minutes(600.0), minutes(720.0)),
    ];
    for edit in &edits {
        assert_eq!(manuscript.apply(edit), Ok(()), "{edit:?}");
    }
    let line = manuscript.line(bulk).expect("it keeps its number");
    assert_eq!(line.step.detail, "Overnight, in the fridge.");
    assert!(line.step.needs.fridge);
    let Length::Wait(range) = line.step.length else {
        panic!("a retard is waited for: {:?}", line.step.length);
    };
    assert_eq!(range.likely(), minutes(660.0));
    assert!(!line.assumed.time && !line.assumed.kind);
}

#[test]
fn times_that_follow_from_heat_are_no_bakers() {
    let mut manuscript = whole();
    let cool = id_of(&manuscript, StepKind::Cool);
    let edit = Edit::Time(cool, minutes(10.0), minutes(20.0));
    assert_eq!(manuscript.apply(&edit), Err(Refused::TimeFollows));
    let mix = id_of(&manuscript, StepKind::Mix);
    assert_eq!(
        manuscript.apply(&Edit::Heat(mix, celsius(200.0))),
        Err(Refused::NoOven)
    );
    let long = Edit::Instruction(mix, "a ".repeat(13));
    assert_eq!(manuscript.apply(&long), Err(Refused::TooManyWords));
}

/// A small generator of our own, for the model has no random numbers.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, below: usize) -> usize {
        // Knuth's MMIX constants.
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = self.0.wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % below
    }
}

fn any_edit(dice: &mut Dice) -> Edit {
    const KINDS: [StepKind; 9] = [
        StepKind::Mix,
        StepKind::Bulk,
        StepKind::Shape,
        StepKind::Fill,
        StepKind::FinalProof,
        StepKind::OvenOn,
        StepKind::Bake,
        StepKind::Finish,
        StepKind::Serve,
    ];
    const PLAYS: [ComponentKind; 4] = [
        ComponentKind::Preferment,
        ComponentKind::Filling,
        ComponentKind::Wash,
        ComponentKind::Glaze,
    ];
    let component = ComponentId(1 + dice.roll(4) as u16);
    let step = StepId(1 + dice.roll(30) as u16);
    let place = dice.roll(6);
    let at = At { component, place };
    let kind = KINDS[dice.roll(KINDS.len())];
    let to = dice.roll(25);
    let foods = crate::food::all();
    match dice.roll(19) {
        0 => Edit::AddComponent(PLAYS[dice.roll(PLAYS.len())], "x".to_owned()),
        1 => Edit::RemoveComponent(component),
        2 => Edit::MoveComponent(component, to),
        3 => Edit::AddIngredient(component, "y".to_owned()),
        4 => Edit::RemoveIngredient(at),
        5 => Edit::MoveIngredient(
            at,
            At {
                component,
                place: to,
            },
        ),
        6 => Edit::Mass(at, Some(Grams::clamped(dice.roll(900) as f64))),
        7 => Edit::Percent(at, bakers_percent(dice.roll(120) as f64)),
        8 => Edit::Flour(Grams::clamped(dice.roll(2000) as f64)),
        9 => Edit::Food(at, foods.get(dice.roll(foods.len()))),
        10 => Edit::Tempered(component, Some(place)),
        11 => Edit::AddStep(kind, component, to),
        12 => Edit::RemoveStep(step),
        13 | 14 => Edit::MoveStep(step, to),
        15 => Edit::StepKind(step, kind),
        16 => Edit::StepComponent(step, component),
        17 => Edit::ComponentKind(component, PLAYS[dice.roll(PLAYS.len())]),
        _ => Edit::UsualSteps,
    }
}

#[test]
fn no_order_of_edits_leaves_a_circle_a_stray_or_a_number_given_twice() {
    let mut dice = Dice(2027);
    for round in 0..300 {
        let mut manuscript = if round % 2 == 0 {
            whole()
        } else {
            dough_of(LEAN)
        };
        for _ in 0..40 {
            let edit = any_edit(&mut dice);
            let before = manuscript.clone();
            if manuscript.apply(&edit).is_err() {
                assert_eq!(manuscript, before, "{edit:?}");
            }
            let mut seen: Vec<StepId> = Vec::new();
            for Line { step, .. } in &manuscript.steps {
                let strays = step.after.iter().filter(|link| !seen.contains(&link.step));
                assert_eq!(strays.count(), 0, "{edit:?}: {step:?}");
                assert!(!seen.contains(&step.id) && step.id <= manuscript.last_step);
                assert!(manuscript.component(step.component).is_some(), "{edit:?}");
                seen.push(step.id);
            }
            for component in &manuscript.components {
                let tempered = component.ingredients.iter().filter(|part| part.tempered);
                assert!(tempered.count() <= 1, "{edit:?}");
            }
            // Whatever is open, asking is safe.
            let open = manuscript.open();
            let blocks = open.iter().any(Open::is_essential);
            assert_eq!(manuscript.formula().is_err(), blocks, "{edit:?}: {open:?}");
        }
        assert!(kinds(&manuscript).len() <= 70);
    }
}
