//! Until when something is kept in the fridge: until the last of it is fetched, and by nothing that only comes after it.

use checks::{begin, starter};
use domain::bake::{Bake, State};
use domain::estimate::{Basis, Estimate};
use domain::formula::{ComponentId, Draft, Formula, Length, Link, Needs, Step, StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Goal, Plan, What, plan};
use domain::units::minutes;

use super::keeps::check;
use super::{NINE, bounds};

fn after(steps: &[StepId]) -> Vec<Link> {
    let link = |&step: &StepId| Link {
        step,
        least: minutes(0.0),
        greatest: None,
    };
    steps.iter().map(link).collect()
}

/// Some minutes of work at a part, after some steps.
fn work(formula: &Draft, id: u16, kind: StepKind, part: ComponentId, steps: &[StepId]) -> Step {
    let like = formula.steps.iter().find(|step| step.kind == kind);
    let like = like.or_else(|| formula.steps.iter().find(|step| step.is_hands()));
    let takes = Estimate::new(minutes(4.0), minutes(5.0), minutes(7.0), Basis::Formula);
    Step {
        id: StepId(id),
        component: part,
        kind,
        needs: Needs {
            hands: true,
            ..Needs::default()
        },
        after: after(steps),
        length: Length::Hands(takes),
        checklist: None,
        ahead_of: None,
        ..like.expect("some step is work").clone()
    }
}

fn of_kind(formula: &Draft, kind: StepKind) -> Step {
    let found = formula.steps.iter().find(|step| step.kind == kind);
    found.expect("it has one").clone()
}

/// The buns, with their step that puts the cream away and the one that fills it in.
fn buns() -> (Draft, StepId, Step) {
    let formula = Draft::clone(&starter("plum-almond-buns"));
    let cold = formula.steps.iter().find(|step| step.needs.fridge);
    let cold = cold.expect("cream is put away").id;
    let fill = of_kind(&formula, StepKind::Fill);
    (formula, cold, fill)
}

fn step_mut(formula: &mut Draft, of: StepId) -> &mut Step {
    let mut steps = formula.steps.iter_mut();
    steps.find(|step| step.id == of).expect("it is there")
}

fn insert_after(formula: &mut Draft, of: StepId, step: Step) {
    let place = formula.steps.iter().position(|step| step.id == of);
    formula.steps.insert(place.expect("it is there") + 1, step);
}

/// When what was put away is fetched for the last time, as the plan says, held against the start of a step.
fn is_kept_until(draft: Draft, cold: StepId, last: StepId) {
    let formula = Formula::new(draft).expect("it holds together");
    let bakes = [begin(formula, Kitchen::UNMEASURED, NINE)];
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let plan: Plan = plan(&states, bounds(Goal::Soonest, &[]), NINE, None, &mut || {
        true
    })
    .expect("there is a plan");
    assert_eq!(check(&states, &plan, NINE, &[]), Ok(()));
    let kept = plan.item(What::Kept(0, cold)).expect("it waits there");
    let last = plan.item(What::Step(0, last)).expect("planned");
    assert_eq!(kept.end, last.start);
}

#[test]
fn what_only_comes_after_it_fetches_nothing() {
    let (mut formula, cold, fill) = buns();
    is_kept_until(formula.clone(), cold, fill.id);
    // Whoever glazes has put the cream away long since, and needs none of it.
    let finish = of_kind(&formula, StepKind::Finish).id;
    let links = after(&[cold]);
    step_mut(&mut formula, finish).after.extend(links);
    is_kept_until(formula, cold, fill.id);
}

#[test]
fn a_filling_that_is_divided_is_kept_until_the_last_of_it_is_fetched() {
    let (formula, cold, fill) = buns();
    let proof = of_kind(&formula, StepKind::FinalProof).id;
    // Told of both, or of the first alone, after which the second comes.
    for takes in [&[fill.id, cold][..], &[fill.id]] {
        let mut formula = formula.clone();
        let second = work(&formula, 90, StepKind::Fill, fill.component, takes);
        insert_after(&mut formula, fill.id, second);
        step_mut(&mut formula, proof).after = after(&[StepId(90)]);
        is_kept_until(formula, cold, StepId(90));
    }
}

/// In whatever order the formula lists them.
#[test]
fn the_last_that_fetches_is_the_last_in_time() {
    let (mut formula, cold, fill) = buns();
    let cool = of_kind(&formula, StepKind::Cool).id;
    let rest = work(
        &formula,
        90,
        StepKind::Finish,
        fill.component,
        &[cool, cold],
    );
    insert_after(&mut formula, cold, rest);
    is_kept_until(formula, cold, StepId(90));
}

#[test]
fn a_wash_that_is_brushed_on_twice_is_kept_until_the_second_time() {
    let mut formula = Draft::clone(&starter("plum-almond-buns"));
    let (gather, wash) = (
        of_kind(&formula, StepKind::Gather).id,
        of_kind(&formula, StepKind::Wash),
    );
    let (fill, proof) = (
        of_kind(&formula, StepKind::Fill).id,
        of_kind(&formula, StepKind::FinalProof).id,
    );
    let mut beat = work(&formula, 90, StepKind::Prepare, wash.component, &[gather]);
    beat.needs.fridge = true;
    insert_after(&mut formula, gather, beat);
    let ids = [fill, StepId(90)];
    let first = work(&formula, 91, StepKind::Wash, wash.component, &ids);
    insert_after(&mut formula, fill, first);
    step_mut(&mut formula, proof).after = after(&[StepId(91)]);
    is_kept_until(formula, StepId(90), wash.id);
}
