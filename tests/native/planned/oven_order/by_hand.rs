//! A model of the kitchen of its own: what is left of a plan, for each order of the breads in the oven.

mod fillings;

use domain::bake::State;
use domain::formula::{Length, Step, StepKind};
use domain::schedule::plan::{Plan, What};
use domain::schedule::solve::{Link, Outcome, Problem, Task, solve};
use domain::units::{Celsius, Minutes, Moment};

use self::fillings::{fillings, limit};

const HANDS: usize = 0;
const HOB: usize = 1;
const OVEN: usize = 2;

fn whole(length: Minutes) -> i32 {
    length.get().round() as i32
}

/// In how many minutes everything can be ready, of what is left of a plan: each step as long as there and each fold as long
/// before its rise ends, with whichever bread first in the oven. Where the plan keeps the fillings, so does this. None
/// where something has to wait too long.
pub(super) fn by_hand(states: &[&State], plan: &Plan, now: Moment) -> Option<i32> {
    let breads = (0..states.len()).filter(|&bake| heats(states, plan, bake).is_some());
    let breads: Vec<usize> = breads.collect();
    let orders: Vec<Vec<usize>> = match breads[..] {
        [one, other] => vec![vec![one, other], vec![other, one]],
        _ => vec![breads],
    };
    let soonest = |keeps: Option<(i32, i32)>| {
        let orders = orders.iter();
        let ends = orders.filter_map(|order| in_order(states, plan, now, order, keeps));
        ends.min()
    };
    let end = soonest(None)?;
    let is_sooner = f64::from(end) < (plan.end.likely() - now).get();
    match limit(&fillings(states), plan, now).filter(|_| is_sooner) {
        Some(limit) => (0..=limit)
            .filter_map(|wait| soonest(Some((wait, limit))))
            .min(),
        None => Some(end),
    }
}

/// The step by which the oven gets hot for a bread, if it is still to be turned on.
fn heats<'a>(states: &[&'a State], plan: &Plan, bake: usize) -> Option<&'a Step> {
    let state = states[bake];
    let mut steps = state.formula.steps.iter();
    let is_left = |step: &&Step| {
        let left = plan.item(What::Step(bake, step.id)).is_some();
        left && state.progress(step.id).open_since.is_none()
    };
    steps.find(|step| step.kind == StepKind::OvenHeats && is_left(step))
}

fn temperature(step: &Step) -> Celsius {
    match step.length {
        Length::OvenHeats { oven } => oven,
        _ => panic!("an oven heats to a temperature"),
    }
}

/// `keeps` is for how long at most a filling stands before its way into the fridge and in all, where it is to be kept.
fn in_order(
    states: &[&State],
    plan: &Plan,
    now: Moment,
    order: &[usize],
    keeps: Option<(i32, i32)>,
) -> Option<i32> {
    let (mut what, mut tasks, mut links) = (Vec::new(), Vec::new(), Vec::new());
    for item in &plan.items {
        let left = whole(item.end - item.start.max(now));
        let task = match item.what {
            What::Step(bake, step) => {
                let state = states[bake];
                let step = state.formula.step(step).expect("it is a step");
                let needs = [
                    (step.is_hands(), HANDS),
                    (step.needs.hob, HOB),
                    (step.needs.oven, OVEN),
                ];
                let needs: Vec<usize> = needs
                    .iter()
                    .filter(|need| need.0)
                    .map(|need| need.1)
                    .collect();
                let is_going = !step.is_hands() && state.progress(step.id).open_since.is_some();
                Task {
                    latest: (is_going || item.start < now).then_some(0),
                    block: step.needs.oven.then_some((OVEN, bake as u16)),
                    ..Task::new(left, &needs)
                }
            }
            What::Fold(..) => Task::new(left, &[HANDS]),
            What::Away => Task::away(whole(item.start.max(now) - now), left, &[HANDS]),
            What::Retard(..) | What::Kept(..) => continue,
        };
        what.push(item.what);
        tasks.push(task);
    }
    let place = |of: What| what.iter().position(|&other| other == of);
    for (to, &of) in what.iter().enumerate() {
        let (bake, step) = match of {
            What::Step(bake, step) => (bake, step),
            What::Fold(bake, rise, _) => {
                let from = place(What::Step(bake, rise))?;
                let before = plan.item(of)?.start - plan.item(what[from])?.end;
                links.push(Link {
                    from,
                    to,
                    least: whole(before),
                    most: Some(whole(before)),
                });
                continue;
            }
            _ => continue,
        };
        let state = states[bake];
        let step = state.formula.step(step)?;
        for link in &step.after {
            let least = whole(link.least);
            let at_once = !step.is_hands() && step.after.len() == 1;
            let most = if at_once {
                Some(least)
            } else {
                link.greatest.map(whole)
            };
            if let Some(from) = place(What::Step(bake, link.step)) {
                links.push(Link {
                    from,
                    to,
                    least,
                    most,
                });
            } else if tasks[to].latest != Some(0) {
                let since = whole(state.progress(link.step).ended?.at - now);
                let task: &mut Task = &mut tasks[to];
                task.earliest = task.earliest.max(since + least);
                let latest = most.map(|most| (since + most).max(task.earliest));
                task.latest = task.latest.into_iter().chain(latest).min();
            }
        }
        if let Some(from) = step.ahead_of.and_then(|rise| place(What::Step(bake, rise))) {
            let early = plan.item(what[from])?.slack.0 + state.kitchen.oven_heats_in;
            links.push(Link {
                from,
                to,
                least: -whole(early),
                most: None,
            });
        }
    }
    // The oven of the first is cold, and of the next as hot as the one before leaves it, if that isn't long before.
    for (nth, &bake) in order.iter().enumerate() {
        let step = heats(states, plan, bake)?;
        let (oven, kitchen) = (place(What::Step(bake, step.id))?, states[bake].kitchen);
        let cold = kitchen.oven_heats_in.get();
        tasks[oven].minutes = cold.round() as i32;
        let Some(before) = nth.checked_sub(1).map(|nth| order[nth]) else {
            continue;
        };
        let (from, to) = (temperature(heats(states, plan, before)?), temperature(step));
        let takes = if to >= from {
            (cold * (to - from).get() / (to - kitchen.air).get()).max(5.0)
        } else {
            ((from - to).get() / 5.0).max(5.0)
        };
        tasks[oven].minutes = takes.min(cold).round() as i32;
        let bakes = states[before]
            .formula
            .steps
            .iter()
            .find(|step| step.kind == StepKind::Bake)?;
        let from = place(What::Step(before, bakes.id))?;
        links.push(Link {
            from,
            to: oven,
            least: 0,
            most: Some(30),
        });
    }
    if let Some(keeps) = keeps {
        for filling in fillings(states) {
            if !filling.keep(keeps, now, &what, &mut tasks, &mut links) {
                return None;
            }
        }
    }
    let problem = Problem::new(tasks, links, vec![1, 4, 1]).expect("a kitchen's numbers");
    match solve(&problem, None, &mut || true) {
        Outcome::Optimal(schedule) => Some(schedule.end),
        Outcome::Infeasible => None,
        Outcome::BestFound { .. } => panic!("it was patient"),
    }
}
