//! The plan: everything that is left of some bakes, one pair of hands, and the soonest table, proven.
//!
//! All times are the likely ones, in whole minutes of the clock. [`solve`](super::solve) finds the
//! schedule that ends soonest and proves that none ends sooner. Where a greatest lag can't be kept
//! any more, because the baker is late or two doughs want the hands at once, the plan lets go of
//! as little as it can: of what bears waiting longest, and of that a few minutes at a time.
//!
//! How long a rise takes hangs a little on when it starts, so the lengths are reckoned anew for the
//! schedule and the schedule for the lengths (`starts::rounds`). What is proven holds for the lengths of the last round.
//!
//! The window of an end combines those of all that it hangs on, up to whatever stands by the clock (`read::reach`).
//!
//! | room | question |
//! |---|---|
//! | [`tasks`] | what there is to do, as tasks, links and capacities of the solver |
//! | [`lengths`] | how long each takes, which hangs on when it starts |
//! | [`starts`] | when each starts: the proof, and what gives way where not all can be kept |
//! | [`read`] | what a plan says: windows, what an end depends on, whom to call when |
//! | [`timetable`] | the plan that keeps tables, times away, shifts and promises |
//! | [`ways`] | what could be wished or done instead where they don't fit together |
//! | [`moved`] | what moved between two plans, and why |

mod lengths;
mod moved;
mod read;
mod starts;
mod tasks;
mod timetable;
mod ways;
mod what;

use crate::bake::State;
use crate::estimate::Estimate;
use crate::formula::StepId;
use crate::units::{Minutes, Moment, minutes};
use lengths::ovens::reheated;
use lengths::{Lengths, as_promised, begun_by, misses_its_stay, outlined, redone, told_at_work};
pub use moved::{Ends, Made, Moved, NOTABLE, Named, OwnEnd, Shifted, Why, moved};
pub use read::agenda::{Call, agenda};
pub use read::in_use::in_use;
use starts::rounds::{Found, Guess, Rounds};
pub use timetable::{
    BeforeAway, Hinders, Margin, Promise, Promised, Promises, Timetable, away, later_than_fixed,
    table_of, tables, timetable,
};
pub use ways::conflict::{Asks, Claim, Conflict, Nearest, conflict, still_kept};
pub use ways::levers::{Lever, Way, levers, still_helps};
pub use ways::trial::{Rest, patience};
pub use what::{RetardPart, What};

/// How much of what is put off is looked at: more than one bread seldom waits at once.
const AT_ONCE: usize = 3;

/// Something planned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Item {
    /// What it is.
    pub what: What,
    /// When it starts, or started.
    pub start: Moment,
    /// When it ends.
    pub end: Moment,
    /// How far its end may be off for its own reasons: earlier and later.
    pub slack: (Minutes, Minutes),
    /// The same for all reasons: also those of what it hangs on.
    pub reach: (Minutes, Minutes),
    /// The place of the item that its start waits for; none where it waits for nothing but now.
    pub waits_for: Option<usize>,
    /// How much longer it waits than it should, where it begins later than is good for it.
    pub too_late_by: Option<Minutes>,
}

/// How good a plan is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Proven {
    /// None takes less time.
    Soonest,
    /// Patience came to an end: one may take less time, but by no more than this.
    Short(Minutes),
}

impl Proven {
    /// The same where something else may take so much longer than it has to.
    fn but_for(self, short_by: Minutes) -> Self {
        match self {
            Self::Short(by) => Self::Short(by.max(short_by)),
            Self::Soonest if short_by > minutes(0.0) => Self::Short(short_by),
            Self::Soonest => self,
        }
    }
}

/// What is left of some bakes, in time.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// By start.
    pub items: Vec<Item>,
    /// When everything has ended.
    pub end: Estimate<Moment>,
    /// How good it is.
    pub proven: Proven,
    /// Whether it is proven that of the plans that end so none lets less wait of what suffers from it.
    pub waits_least: bool,
    /// Whether all that is so only with the oven heated as it is here: what one bread leaves to the next hangs on their
    /// order, which was taken as given.
    pub as_heated: bool,
}

/// What a plan aims at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Goal {
    /// Ready as soon as can be.
    #[default]
    Soonest,
    /// Ready no later than then, and begun no sooner than that needs.
    By(Moment),
}

/// What a plan has to keep beside the bakes themselves.
#[derive(Debug, Clone, Copy, Default)]
pub struct Bounds<'a> {
    /// What it aims at.
    pub goal: Goal,
    /// By bake: when it should be ready, where that isn't the same for all. What should be ready sooner comes
    /// first, and gives back what it has to spare where something that should be ready later is late by it.
    pub ready_by: &'a [Option<Moment>],
    /// When nobody is in the kitchen.
    pub closed: &'a [(Moment, Moment)],
    /// The plan of other bakes, which goes first.
    pub beside: Option<(&'a Plan, &'a [&'a State])>,
    /// By bake: nothing of it starts before then. Empty where nothing is kept back.
    pub not_before: &'a [Option<Moment>],
    /// Whether steps that the baker fixed to a moment stay there.
    pub pins: bool,
    /// Whether hands have as much to spare before a time away as they may be late, where that costs no end anything.
    pub spares: bool,
    /// When the hands rest for that as if nobody were there, where they are looked for as late as can be.
    pub rests: &'a [(Moment, Moment)],
}

/// The plan of what is left of some bakes, of which nothing may have ended yet.
///
/// A plan from `before` is kept where it is as good as any. `go_on` is asked thousands of times a
/// second and ends the search with "no". `None` where no plan was found in time, or the times at
/// which nobody is there leave none.
#[must_use]
pub fn plan(
    bakes: &[&State],
    bounds: Bounds,
    now: Moment,
    before: Option<&Plan>,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Plan> {
    let now = whole_minute(now);
    // A dough that should have been moved by now is moved now.
    let unmoved: Vec<_> = bakes.iter().map(|state| state.unmoved_by(now)).collect();
    let known = bakes.iter().zip(&unmoved);
    let known: Vec<&State> = known
        .map(|(state, unmoved)| unmoved.as_ref().unwrap_or(state))
        .collect();
    let bakes = &known[..];
    let mut assumed = None;
    let found = plan_once(bakes, bounds, now, before, Some(&mut assumed), go_on);
    // Hands can't be at what has to give way to something else.
    let Some(gives_way) = assumed else {
        return found;
    };
    let left_out = found.as_ref().map_or(0.0, Plan::left_out_for);
    if !gives_way && left_out == 0.0 {
        return found;
    }
    // Nor is anybody taken to have mixed, unsaid, what would then be left out.
    let without = plan_once(bakes, bounds, now, before, None, go_on);
    let is_less = |plan: &Plan| plan.left_out_for() < left_out;
    if gives_way || without.as_ref().is_some_and(is_less) {
        // There is none only where patience has ended.
        without.or(found)
    } else {
        found
    }
}

/// The same, with or without taking hands to be at what the plan from before had let begin by now. Where that was
/// taken to be so, `assumed` tells whether it can't be.
fn plan_once(
    bakes: &[&State],
    bounds: Bounds,
    now: Moment,
    before: Option<&Plan>,
    assumed: Option<&mut Option<bool>>,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Plan> {
    // How late something can begin is found anew from nothing but the bakes, so that it is always the same.
    let kept = before.filter(|_| bounds.goal == Goal::Soonest);
    let mut was: Vec<(What, Moment)> = kept.map_or_else(Vec::new, |plan| {
        let items = plan.items.iter();
        items.map(|item| (item.what, item.start)).collect()
    });
    was.retain(|&(what, start)| !misses_its_stay(bakes, what, start));
    // Those that the plan from before was made with, as far as nothing has changed.
    let mut lengths: Vec<Lengths> = bakes.iter().map(|state| outlined(state, now)).collect();
    lengths = redone_all(bakes, &lengths, &was, now);
    let hot = reheated(bakes, &mut lengths, &was, now);
    let promised = kept.map_or(&[][..], |plan| &plan.items);
    as_promised(bakes, &mut lengths, promised, now);
    let told = told_at_work(bakes, now);
    let at_work = match (&assumed, told) {
        (Some(_), None) => begun_by(bakes, &mut lengths, &was, now),
        _ => told,
    };
    let mut never = None;
    let assumed = assumed.filter(|_| told.is_none()).unwrap_or(&mut never);
    *assumed = at_work.map(|_| true);
    let mut rounds = Rounds {
        bakes,
        bounds,
        now,
        promised,
        at_work,
        kept: &was,
        at_once: Vec::new(),
    };
    let late = promised.iter().filter(|item| item.too_late_by.is_some());
    let guess = Guess {
        was: was.clone(),
        lengths,
        hot,
        lets_wait: late.map(|item| item.what).collect(),
    };
    let mut found = rounds.best(guess, go_on)?;
    while bounds.goal == Goal::Soonest && rounds.at_once.len() < AT_ONCE {
        let Some((what, at)) = found.plan.put_off(bakes, now) else {
            break;
        };
        rounds.at_once.push((what, at));
        let sooner = rounds.best(found.settled.clone(), go_on);
        let is_at_once = |found: &Found| found.plan.item(what).is_some_and(|is| is.start <= at);
        let Some(sooner) = sooner.filter(is_at_once) else {
            break;
        };
        found = sooner;
    }
    if let Some(gives_way) = assumed {
        *gives_way = found.gives_way;
    }
    Some(found.plan)
}

/// The next whole minute of the clock: counted from any other moment, what was planned would be rounded to another
/// second at every new plan.
fn whole_minute(now: Moment) -> Moment {
    const MINUTE_MS: i64 = 60_000;
    let over = now.epoch_ms().rem_euclid(MINUTE_MS);
    let to_come = (MINUTE_MS - over) % MINUTE_MS;
    Moment::from_epoch_ms(now.epoch_ms().saturating_add(to_come))
}

fn redone_all(
    bakes: &[&State],
    lengths: &[Lengths],
    starts: &[(What, Moment)],
    now: Moment,
) -> Vec<Lengths> {
    let both = bakes.iter().zip(lengths).enumerate();
    both.map(|(bake, (state, lengths))| {
        let start_of = |step: StepId| start_in(starts, What::Step(bake, step));
        redone(state, lengths, &start_of, now)
    })
    .collect()
}

fn start_in(starts: &[(What, Moment)], what: What) -> Option<Moment> {
    starts
        .iter()
        .find(|(other, _)| *other == what)
        .map(|&(_, start)| start)
}
