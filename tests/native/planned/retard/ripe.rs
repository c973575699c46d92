//! A dough that went into the fridge late is ripe before it comes out, and stays there all the same: nobody looks at night.

use checks::say;
use domain::bake::Intent;
use domain::formula::StepKind;
use domain::kitchen::Place;
use domain::schedule::plan::What;
use domain::schedule::{Ask, focus};
use domain::units::{celsius, minutes};

use super::super::asked::{hours, planned, states};
use super::super::keeps::check;
use super::rising;

#[test]
fn what_is_ripe_in_the_fridge_stays_there_until_it_comes_out_as_planned() {
    let (mut bake, proof, start) = rising(1, StepKind::FinalProof).expect("a braid proofs");
    let to = start + hours(9.0);
    say(
        &mut bake,
        Intent::PlanRetard(proof, Some((start, to))),
        start,
    );
    let warm = bake.state().forecast(proof, start).expect("it rises");
    assert!(warm.ripe >= to, "in time it is far from ripe by then");
    // An hour late nearly all of it has happened, and two hours late all of it.
    let mut ripe = bake.clone();
    let later = start + minutes(120.0);
    say(&mut ripe, Intent::Move(proof, Place::Fridge), later);
    let found = ripe.state().forecast(proof, later).expect("it rises");
    assert!(found.ripe < later);
    assert_eq!((found.look, found.out_by), (to, Some(to)));
    let late = start + minutes(60.0);
    say(&mut bake, Intent::Move(proof, Place::Fridge), late);
    let state = bake.state();
    let found = state.forecast(proof, late).expect("it rises");
    assert!(late < found.ripe && found.ripe < to);
    let window = [
        found.window.low(),
        found.window.likely(),
        found.window.high(),
    ];
    assert_eq!(window, [to; 3]);
    assert_eq!((found.look, found.out_by), (to, Some(to)));
    // So no oven is heated for the night.
    let steps = &state.formula.steps;
    let oven = steps
        .iter()
        .find(|step| step.kind == StepKind::OvenOn)
        .expect("an oven");
    let on = state.oven_on_at(oven, late).expect("it is to be turned on");
    assert!(on >= to);
    assert_eq!(focus(state, late), Ask::Wait(proof));
    assert_eq!(focus(state, to), Ask::OutOfFridge(proof));
    // Once it is out, nobody is hours late.
    let mut out = bake.clone();
    say(&mut out, Intent::Move(proof, Place::Kitchen), to);
    let found = out.state().forecast(proof, to).expect("it rises");
    assert_eq!((found.look, found.out_by), (to, None));
    let bakes = [bake];
    let plan = planned(&bakes, late).expect("there is a plan").plan;
    assert_eq!(check(&states(&bakes), &plan, late, &[]), Ok(()));
    let item = plan.item(What::Step(0, proof)).expect("planned");
    let off = item.end - to;
    assert!(off.get().abs() <= 1.0, "{off:?} after it comes out");
}

/// What was to go into the fridge and was put where it rises faster lies in no fridge: once it is ripe it is ready there.
#[test]
fn what_was_put_where_it_is_warm_instead_is_ready_when_it_is_ripe() {
    let (mut bake, proof, start) = rising(1, StepKind::FinalProof).expect("a braid proofs");
    let to = start + hours(9.0);
    let stay = (start + minutes(30.0), to);
    say(&mut bake, Intent::PlanRetard(proof, Some(stay)), start);
    let later = start + minutes(120.0);
    for (place, is_in) in [(Place::Warm(celsius(26.0)), false), (Place::Fridge, true)] {
        let mut bake = bake.clone();
        say(&mut bake, Intent::Move(proof, place), later);
        let found = bake.state().forecast(proof, later).expect("it rises");
        assert!(found.ripe < later, "{:?}", found.ripe - start);
        let ends = found.window.likely();
        assert_eq!(ends, if is_in { to } else { found.ripe }, "{place:?}");
    }
}
