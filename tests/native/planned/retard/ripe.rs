//! A dough that went into the fridge late is ripe before it comes out, and stays there all the same: nobody looks at night.

use checks::say;
use domain::bake::Intent;
use domain::formula::StepKind;
use domain::kitchen::Place;
use domain::schedule::plan::What;
use domain::schedule::{Ask, focus};
use domain::units::minutes;

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
    // An hour late nearly all of it has happened.
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
