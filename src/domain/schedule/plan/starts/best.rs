//! Of the schedules that end soonest the one in which least that suffers from it has to wait, and of
//! these one that keeps what was planned before where it can, or else with few switches of attention.

use super::aims::{Aim, Met, met};
use super::backwards::{mirror, mirrored};
use super::keep::put_back;
use crate::schedule::plan::tasks::Tasks;
use crate::schedule::plan::ways::trial::is_patient;
use crate::schedule::solve::{
    Calm, Problem, Schedule, fewer_switches, least_waiting, least_waiting_in_order,
};

/// How often each of what comes after the ends may ask whether to go on: what waits, and how often attention switches, aren't
/// worth a plan that is late.
const BESIDE: u32 = 1_000;

/// The best schedule that was found.
pub(crate) struct Best {
    pub starts: Vec<i32>,
    /// By how many minutes one of the ends may be farther off than it has to be.
    pub short_by: i32,
    /// Whether it is proven that none with these ends waits less.
    pub waits_least: bool,
}

/// The schedule of which the ends that are aimed at come soonest, one after the other, and of these the one
/// that waits least; `None` where there is none.
pub(crate) fn calmest(
    problem: &Problem,
    tasks: &Tasks,
    aims: &[Aim],
    before: &[i32],
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Best> {
    let waits_least = |problem: &Problem, at_hand: &Schedule, go_on: &mut dyn FnMut() -> bool| {
        let mut left = BESIDE;
        let turn = &mut || is_patient(&mut left) && go_on();
        least_waiting(problem, at_hand, &tasks.weights, turn)
    };
    calmest_by(problem, tasks, aims, before, &waits_least, go_on)
}

/// Of the schedules with the same end as the one at hand, one that waits little.
type Calms<'a> = &'a dyn Fn(&Problem, &Schedule, &mut dyn FnMut() -> bool) -> Calm;

/// The same with another search for what waits least.
fn calmest_by(
    problem: &Problem,
    tasks: &Tasks,
    aims: &[Aim],
    before: &[i32],
    calms: Calms,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Best> {
    let held = tasks.spares.then(|| tasks.held(problem, aims, before));
    let mut whole = held.flatten().unwrap_or_else(|| problem.clone());
    let mut is = met(&whole, aims, before, go_on)?;
    let mut tried = Vec::new();
    let mut calm = loop {
        let Met {
            problem, schedule, ..
        } = &is;
        // A plan that is as good as any stays as it is.
        let stays = problem.holds(before) && problem.makespan(before) == schedule.end;
        let at_hand = Schedule {
            starts: if stays { before } else { &schedule.starts }.to_vec(),
            end: schedule.end,
        };
        let calm = calms(problem, &at_hand, go_on);
        let starts = &calm.schedule.starts;
        let spared = match tasks.spares {
            true => tasks.spared((&whole, &is), aims, starts, &mut tried, go_on),
            false => None,
        };
        match spared {
            Some(spared) => (whole, is) = spared,
            None => break calm,
        }
    };
    let Met {
        problem, short_by, ..
    } = is;
    // Looked for once: a plan from before has its order, and keeps to it where it can.
    if !tasks.has_order {
        let kinds = tasks.kinds_of_work();
        let kind = |task: usize| kinds[task];
        let was = calm.clone();
        let mut left = BESIDE;
        let turn = &mut || is_patient(&mut left) && go_on();
        calm = fewer_switches(&problem, calm, &tasks.weights, &kind, turn);
        let missing = |calm: &Calm| tasks.missing(&calm.schedule.starts);
        if tasks.spares && missing(&calm) > missing(&was) {
            calm = was;
        }
    }
    let mut starts = calm.schedule.starts;
    put_back(&problem, &tasks.weights, before, &mut starts);
    Some(Best {
        starts,
        short_by,
        waits_least: calm.is_proven,
    })
}

/// The schedule that begins as late as it can and has ended by minute `horizon`, in which nothing waits longer than its order
/// asks for; `None` where none ends by then.
pub(crate) fn latest(
    problem: &Problem,
    tasks: &Tasks,
    aims: &[Aim],
    horizon: i32,
    before: &[i32],
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Best> {
    let turned = mirrored(problem, horizon)?;
    let before = mirror(problem, horizon, before);
    // The beginning is proven before this; what waits changes it only through the lengths of the next round.
    let calms = |problem: &Problem, at_hand: &Schedule, _: &mut dyn FnMut() -> bool| {
        least_waiting_in_order(problem, at_hand, &tasks.weights)
    };
    let best = calmest_by(&turned, tasks, aims, &before, &calms, go_on)?;
    Some(Best {
        starts: mirror(problem, horizon, &best.starts),
        ..best
    })
}
