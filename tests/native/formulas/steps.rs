//! The steps of the starter formulas: how they hang together, their words and their cautions.
//!
//! Sources as in the module above; the European list of allergens is
//! Regulation (EU) No 1169/2011, Annex II.

mod words;

use domain::formula::{Caution, Checklist, Scope, StepId, StepKind};
use domain::units::minutes;
use records::starters;

use super::{before, buns, each_step, only};

#[test]
fn every_step_hangs_between_gathering_and_serving() {
    for formula in starters::all() {
        let gather = only(&formula, StepKind::Gather);
        let serve = only(&formula, StepKind::Serve);
        assert!(gather.after.is_empty());
        assert_eq!(gather.checklist, Some(Checklist::AllIngredients));
        let before_serving = before(&formula, serve);
        for step in &formula.steps {
            let first = step.id == gather.id;
            assert!(first || before(&formula, step).contains(&gather.id));
            let last = step.id == serve.id;
            assert!(last || before_serving.contains(&step.id), "{}", step.title);
        }
        for component in &formula.components {
            let mut steps = formula.steps.iter();
            assert!(steps.any(|step| step.component == component.id));
        }
    }
}

/// What a baker wrote at a step stands there next time, so a step keeps its number for good and a new
/// one takes the next that is free, wherever it comes in the day.
#[test]
fn steps_keep_the_numbers_they_were_released_with() {
    use StepKind::{
        Bake, BenchRest, Bulk, Chill, Cook, Cool, Divide, Fill, FinalProof, Finish, Gather, Knead,
        Mix, OvenHeats, OvenOn, PreShape, Prepare, Retard, Serve, Shape, TakeTemperature, Wash,
    };
    let buns = [
        Gather,
        Cook,
        Prepare,
        Chill,
        Prepare,
        Mix,
        Knead,
        TakeTemperature,
        Bulk,
        Cook,
        Divide,
        PreShape,
        BenchRest,
        Shape,
        Fill,
        FinalProof,
        OvenOn,
        OvenHeats,
        Wash,
        Prepare,
        Bake,
        Cool,
        Cook,
        Finish,
        Serve,
        Prepare,
        Prepare,
    ];
    let braid = [
        Gather,
        Mix,
        Knead,
        TakeTemperature,
        Bulk,
        Cook,
        Divide,
        PreShape,
        BenchRest,
        Shape,
        FinalProof,
        OvenOn,
        OvenHeats,
        Wash,
        Prepare,
        Bake,
        Cook,
        Finish,
        Cool,
        Serve,
        Prepare,
        Prepare,
    ];
    let loaf = [
        Gather,
        Mix,
        Bulk,
        Mix,
        Knead,
        TakeTemperature,
        Bulk,
        Prepare,
        Retard,
        Divide,
        PreShape,
        BenchRest,
        Shape,
        FinalProof,
        OvenOn,
        OvenHeats,
        Wash,
        Prepare,
        Bake,
        Finish,
        Cool,
        Serve,
        Prepare,
        Prepare,
    ];
    for (formula, released) in [
        (super::buns(), &buns[..]),
        (super::braid(), &braid[..]),
        (super::loaf(), &loaf[..]),
    ] {
        assert_eq!(formula.steps.len(), released.len(), "{}", formula.name);
        for (id, &kind) in (1..).zip(released) {
            let step = formula.step(StepId(id)).expect("no number is left out");
            assert_eq!(step.kind, kind, "{}, {id}", formula.name);
        }
    }
}

/// What can't wait is asked for when its moment comes, and not among the words of a step that only
/// goes on by itself.
#[test]
fn the_bowl_is_covered_and_the_oven_emptied_by_steps_of_their_own() {
    for formula in starters::all() {
        let after = |step: StepId| {
            let mut steps = formula.steps.iter().filter(|later| {
                let mut links = later.after.iter();
                links.any(|link| {
                    let soon = link.greatest.is_some_and(|wait| wait <= minutes(5.0));
                    link.step == step && soon
                })
            });
            steps.find(|later| later.kind == StepKind::Prepare)
        };
        let temperature = only(&formula, StepKind::TakeTemperature);
        let cover = after(temperature.id).expect("the dough goes into its bowl");
        assert!(cover.instruction.contains("cover"), "{}", formula.name);
        let bake = only(&formula, StepKind::Bake);
        let out = after(bake.id).expect("the bread comes out of the oven");
        assert!(out.instruction.contains("out"), "{}", formula.name);
        for step in &formula.steps {
            let rises = step.kind == StepKind::Bulk && step.component == cover.component;
            assert!(!rises || before(&formula, step).contains(&cover.id));
            let later = step.kind == StepKind::Cool || step.kind == StepKind::Finish;
            assert!(!later || before(&formula, step).contains(&out.id));
        }
    }
}

#[test]
fn what_goes_on_by_itself_needs_no_hands() {
    each_step(|formula, _, step| {
        let case = format!("{}, {}", formula.name, step.title);
        let by_itself = matches!(
            step.kind,
            StepKind::Chill
                | StepKind::Bulk
                | StepKind::Retard
                | StepKind::BenchRest
                | StepKind::FinalProof
                | StepKind::OvenHeats
                | StepKind::Bake
                | StepKind::Cool
        );
        assert_eq!(step.is_hands(), !by_itself, "{case}");
        assert_eq!(step.needs.hands, !by_itself, "{case}");
        assert!(step.needs.hob == (step.kind == StepKind::Cook), "{case}");
        assert!(step.needs.fridge || step.kind != StepKind::Retard, "{case}");
        let in_oven = matches!(
            step.kind,
            StepKind::OvenOn | StepKind::OvenHeats | StepKind::Bake
        );
        assert!(step.needs.oven || !in_oven, "{case}");
    });
}

#[test]
fn the_oven_is_hot_when_the_proof_is_over_and_nothing_waits_before_it() {
    for formula in starters::all() {
        let proof = only(&formula, StepKind::FinalProof);
        let on = only(&formula, StepKind::OvenOn);
        let heats = only(&formula, StepKind::OvenHeats);
        let wash = only(&formula, StepKind::Wash);
        let bake = only(&formula, StepKind::Bake);
        assert_eq!(on.ahead_of, Some(proof.id));
        assert!(!before(&formula, on).contains(&proof.id));
        assert!(before(&formula, wash).contains(&heats.id));
        let load = formula.step(bake.after[0].step).expect("checked when read");
        let greatest = |step: StepId| {
            let mut links = load.after.iter().filter(|link| link.step == step);
            links.next().and_then(|link| link.greatest)
        };
        // Common practice, no source.
        assert!(greatest(proof.id).is_some_and(|wait| wait <= minutes(15.0)));
        assert!(greatest(wash.id).is_some_and(|wait| wait <= minutes(5.0)));
    }
}

#[test]
fn filled_pieces_go_into_the_fridge_within_two_hours() {
    let buns = buns();
    let bake = only(&buns, StepKind::Bake);
    let serve = only(&buns, StepKind::Serve);
    assert!(serve.cautions.contains(&Caution::Perishable));
    let mut links = serve.after.iter().filter(|link| link.step == bake.id);
    let link = links.next().expect("serving is tied to the end of baking");
    // USDA two-hour rule.
    assert!(link.greatest.is_some_and(|wait| wait <= minutes(120.0)));
    assert!(serve.instruction.contains("two hours"));
    assert!(serve.detail.contains("ocal food-safety guidance"));
}

#[test]
fn each_piece_is_finished_before_the_next() {
    let buns = buns();
    let glaze = only(&buns, StepKind::Finish);
    let Some(Checklist::Marks { scope, items }) = &glaze.checklist else {
        panic!("finishing has marks");
    };
    assert_eq!((*scope, items.len()), (Scope::EachPiece, 2));
    let divide = only(&buns, StepKind::Divide);
    assert_eq!(divide.checklist, Some(Checklist::PieceMasses));
    assert_eq!(buns.pieces.count, 8);
}
