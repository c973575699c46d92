//! The plan of everything that runs, redone whenever something happens.

mod back;
mod calling;
mod changes;
pub(crate) mod nights;
mod planned;
mod promises;
mod stands;
pub(crate) mod told;
mod wishes;

use domain::bake::{Alarm, Bake, BakeId, State};
use domain::schedule::plan::{Made, Moved, moved, patience, timetable};
use domain::units::{Minutes, Moment, minutes};

use super::{Late, Oventide};
use crate::reactive::effect;
use crate::words;
use back::goes_on_from;
pub(crate) use changes::Change;
use changes::{MOST_CHANGES, keep_change};
pub(crate) use planned::Planned;
use planned::wished_at;
pub(super) use promises::Keeping;
pub(crate) use wishes::{WishEdit, WishedOf, running_bakes, running_states};

/// A baker who is behind the plan is planned for anew no more often than this.
const AGAIN: Minutes = minutes(1.0);

/// Whether somebody has a bake before their eyes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Look {
    /// The Bench shows it.
    Goes,
    /// It doesn't, and last did then, if it ever has.
    Went(Option<Moment>),
}

/// What the plan was last told to be, with the bakes as they were then: what moves is held against that, so that
/// minutes that are too few to be told add up.
#[derive(Clone)]
struct Promised {
    planned: Planned,
    bakes: Vec<Bake>,
}

/// What was seen at the last look.
#[derive(Default)]
struct Seen {
    running: Vec<Bake>,
    /// What was told of, oldest first; what moves is held against the last.
    told: Vec<Promised>,
    /// Whether the newest change was only of time that went by: then it grows, or gives way to what somebody did.
    is_passing: bool,
}

impl Oventide {
    /// Plans anew whenever a bake's log has grown, and when the bakes have fallen behind the plan.
    ///
    /// There is no plan before the late half of the app is here, and so nobody is called by one to begin.
    pub(super) fn watch_plan(self) {
        let mut seen = Seen::default();
        effect(move || {
            if self.late.get() == Late::Here {
                door()(self, &mut seen);
            }
        });
    }

    /// Forgets what moved in bakes that were put away. One that only waits to be finished is still on the Bench.
    fn forget_over(self, seen: &mut Seen, running: &[Bake]) {
        let changes = self.changes.read_untracked();
        let Some(newest) = changes.first() else {
            return;
        };
        let tells_of_over = newest.is_over(running);
        let any = changes.iter().any(|change| change.is_over(running));
        drop(changes);
        if tells_of_over {
            seen.is_passing = false;
            self.tells_change.set(false);
        }
        if any {
            self.changes
                .update(|changes| changes.retain(|change| !change.is_over(running)));
        }
    }

    /// Tells what has moved since the plan that was last told of.
    fn tell_moved(self, seen: &mut Seen, planned: Option<&Planned>, running: &[Bake], now: Moment) {
        let Some(planned) = planned else {
            seen.told.clear();
            return;
        };
        let is = Promised {
            planned: planned.clone(),
            bakes: running.to_vec(),
        };
        let Some(promised) = seen.told.last() else {
            seen.told.push(is);
            return;
        };
        let told = compare(promised, &is, now).filter(Moved::is_news);
        let was_passing = std::mem::take(&mut seen.is_passing);
        self.changes.update(|changes| {
            // Nobody did anything meanwhile, so it is the same that grew, or has come to nothing.
            if was_passing {
                changes.remove(0);
            }
            if let Some(moved) = told {
                seen.is_passing = moved.why.is_passing();
                keep_change(changes, Change::of(moved, &is, now));
                if !seen.is_passing {
                    seen.told.push(is);
                    let old = seen.told.len().saturating_sub(MOST_CHANGES + 1);
                    seen.told.drain(..old);
                }
                self.tells_change.set(true);
            } else if was_passing {
                self.tells_change.set(false);
            }
        });
    }
}

fn compare(promised: &Promised, is: &Promised, now: Moment) -> Option<Moved> {
    let [before, after]: [Vec<&Bake>; 2] =
        [promised, is].map(|promised| promised.bakes.iter().collect());
    let names = [&before, &after].map(|bakes| {
        let states: Vec<&State> = bakes.iter().map(|bake| bake.state()).collect();
        words::distinct_names(&states)
    });
    let before = Made {
        timetable: &promised.planned.timetable,
        bakes: &before,
        names: &names[0],
    };
    let after = Made {
        timetable: &is.planned.timetable,
        bakes: &after,
        names: &names[1],
    };
    moved(before, after, now)
}

/// What plans anew. It must not be called before the late half is here, and the compilers may not see what it is:
/// the whole solver would come into the first one.
fn door() -> fn(Oventide, &mut Seen) {
    std::hint::black_box(plan_anew)
}

fn plan_anew(app: Oventide, seen: &mut Seen) {
    let now = app.beat.get();
    let bakes = app.bakes.read();
    let running: Vec<Bake> = running_bakes(&bakes).cloned().collect();
    let before = app.plan.read_untracked();
    let recalled = app.recall(&bakes, &running, before.as_ref(), seen);
    let shown = recalled.as_ref().or(before.as_ref());
    let states: Vec<&State> = running.iter().map(Bake::state).collect();
    let has_news = seen.running != running;
    let is_new = recalled.is_some() || has_news;
    let is_behind = shown.is_some_and(|planned| {
        (now - planned.at).get().abs() >= AGAIN.get()
            && planned.timetable.plan.is_overtaken(&states, now)
    });
    if is_new || is_behind {
        let ids: Vec<BakeId> = running.iter().map(|bake| bake.id.clone()).collect();
        let before = goes_on_from(&seen.told, shown, &seen.running, &running);
        let before = before.map(|planned| planned.before(&ids));
        let found =
            (!states.is_empty()).then(|| timetable(&states, now, before.as_ref(), &mut patience()));
        let planned = found.flatten();
        let planned = planned.map(|timetable| Planned::new(&running, timetable, now, shown));
        app.forget_over(seen, &running);
        app.tell_moved(seen, planned.as_ref(), &running, now);
        match &planned {
            Some(planned) if has_news || planned.promises_other_than(shown) => {
                app.keep_promises(planned, &running, &seen.told);
            }
            Some(_) => {}
            None => app.planned_anew.set(false),
        }
        app.plan.set(planned);
    }
    seen.running = running;
}

/// What finds whom a plan calls, late as the plan itself.
pub(super) fn door_to_calls() -> fn(Oventide, &Planned, &Bake, Moment) -> Vec<Alarm> {
    std::hint::black_box(calls)
}

fn calls(app: Oventide, planned: &Planned, bake: &Bake, now: Moment) -> Vec<Alarm> {
    let bakes = app.bakes.read_untracked();
    let states = planned.states(&bakes);
    planned.alarms(bake, states.as_deref(), app.look_at(&bake.id), now)
}
