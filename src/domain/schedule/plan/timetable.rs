//! The plan that keeps to what the baker wishes: the table, the earliest beginning, times away.
//!
//! A bake that hasn't begun is kept back until it has to begin for the table, which the search
//! backwards proves; from there on everything goes as soon as it can, so that the hands have the
//! time to spare behind them and not before them. A buffer is left before the table, because
//! bread can wait there and nowhere else: as much as the end may be late by.

use super::{Bounds, Goal, Plan, What, plan};
use crate::bake::{State, Wishes};
use crate::units::{Minutes, Moment};

/// How a plan stands to the table that was wished.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margin {
    /// The table.
    pub table: Moment,
    /// How much sooner everything is likely ready; negative where it is later.
    pub spare: Minutes,
    /// How much sooner it should be ready, because it may be so much later than likely.
    pub buffer: Minutes,
}

/// A plan, with what became of the wishes.
#[derive(Debug, Clone, PartialEq)]
pub struct Timetable {
    /// The plan.
    pub plan: Plan,
    /// How it stands to the table, if one was wished.
    pub kept: Option<Margin>,
    /// By bake: when it begins, of those that haven't.
    pub begins: Vec<Option<Moment>>,
}

/// What some bakes for one table wish together.
#[must_use]
pub fn together(bakes: &[&State]) -> Wishes {
    // A bread that is ready has no wishes any more.
    let left = || bakes.iter().filter(|state| !state.all_ended());
    let wishes = || left().map(|state| &state.wishes);
    let mut away: Vec<(Moment, Moment)> =
        wishes().flat_map(|wishes| &wishes.away).copied().collect();
    away.sort();
    // What overlaps is one time.
    let mut apart: Vec<(Moment, Moment)> = Vec::new();
    for (from, to) in away {
        match apart.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ => apart.push((from, to)),
        }
    }
    Wishes {
        table: wishes().filter_map(|wishes| wishes.table).min(),
        not_before: wishes().filter_map(|wishes| wishes.not_before).max(),
        away: apart,
    }
}

/// The plan of some bakes for one table, as they wish it.
///
/// Where the table can't be kept, everything goes as soon as it can. `before` and `go_on` are those
/// of [`plan`].
#[must_use]
pub fn timetable(
    bakes: &[&State],
    now: Moment,
    before: Option<&Plan>,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Timetable> {
    timetable_so(bakes, &together(bakes), now, before, go_on)
}

/// The same for other wishes than theirs.
pub(super) fn timetable_so(
    bakes: &[&State],
    wishes: &Wishes,
    now: Moment,
    before: Option<&Plan>,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Timetable> {
    let mut not_before = kept_back(bakes, wishes);
    let mut by = |bakes: &[&State], goal, not_before: &[Option<Moment>], before: Option<&Plan>| {
        let bounds = Bounds {
            goal,
            closed: &wishes.away,
            not_before,
            pins: true,
        };
        plan(bakes, bounds, now, before, go_on)
    };
    let mut buffer = None;
    if let Some(table) = wishes.table
        && bakes.iter().any(wait)
    {
        let mut late = |table| by(bakes, Goal::By(table), &not_before, before);
        let latest = late(table);
        buffer = latest.as_ref().map(buffer_of);
        let earlier = buffer.and_then(|buffer| late(table - buffer));
        // Where a fixed step or a time away leaves no room for all of the buffer, what comes before
        // that begins sooner by as much, or now.
        let begin = |bake: usize| match (&earlier, &latest, buffer) {
            (Some(earlier), _, _) => Some(earlier.first_of(bake)?.1),
            (None, Some(latest), Some(buffer)) => Some(latest.first_of(bake)?.1 - buffer),
            _ => None,
        };
        let mut begins: Vec<_> = (0..bakes.len()).map(begin).collect();
        if latest.is_none() {
            // Something else can't be kept any more, which is no reason to begin at once.
            for (bake, state) in bakes.iter().enumerate().filter(|(_, state)| wait(state)) {
                let alone = by(&[state], Goal::By(table), &not_before[bake..=bake], None);
                begins[bake] =
                    alone.and_then(|alone| Some(alone.first_of(0)?.1 - buffer_of(&alone)));
            }
        }
        for (bake, _) in bakes.iter().enumerate().filter(|(_, state)| wait(state)) {
            not_before[bake] = begins[bake].max(not_before[bake]);
        }
    }
    let plan = by(bakes, Goal::Soonest, &not_before, before)?;
    let kept = wishes.table.map(|table| Margin {
        table,
        spare: table - plan.end.likely(),
        buffer: buffer.unwrap_or_else(|| buffer_of(&plan)),
    });
    let waiting = bakes.iter().enumerate().map(|(bake, state)| {
        let (_, first) = plan.first_of(bake)?;
        state.can_wait().then_some(first)
    });
    let begins = waiting.collect();
    Some(Timetable { plan, kept, begins })
}

/// How much sooner than the table a plan should end.
pub(super) fn buffer_of(plan: &Plan) -> Minutes {
    (plan.end.high() - plan.end.likely()).up_to_five()
}

/// By bake: before when nothing of it may start, of those that haven't begun.
pub(super) fn kept_back(bakes: &[&State], wishes: &Wishes) -> Vec<Option<Moment>> {
    let of = |state: &&State| wishes.not_before.filter(|_| wait(state));
    bakes.iter().map(of).collect()
}

/// Whether a bake is kept back until it has to begin. One that was started without a table, and with
/// nothing said of when, was started to be begun.
fn wait(state: &&State) -> bool {
    let wishes = &state.wishes;
    state.can_wait() && (wishes.table.is_some() || wishes.not_before.is_some())
}

impl Plan {
    /// Whether the bakes have fallen behind it: something should have ended or begun, and hasn't.
    #[must_use]
    pub fn is_overtaken(&self, bakes: &[&State], now: Moment) -> bool {
        self.items.iter().any(|item| {
            let What::Step(bake, step) = item.what else {
                return false;
            };
            let progress = bakes.get(bake).map(|state| state.progress(step));
            progress.is_some_and(|progress| {
                let is_open = progress.open_since.is_some();
                progress.ended.is_none() && (item.end < now || (item.start < now && !is_open))
            })
        })
    }

    /// The same plan where the bakes stand in another order: `place_of` says where each stands now,
    /// if it is planned still.
    #[must_use]
    pub fn reordered(mut self, place_of: &dyn Fn(usize) -> Option<usize>) -> Self {
        let moved = |what| match what {
            What::Step(bake, step) => Some(What::Step(place_of(bake)?, step)),
            What::Fold(bake, step, nth) => Some(What::Fold(place_of(bake)?, step, nth)),
            What::Away => Some(What::Away),
        };
        // Only starts are looked at in a plan from before, so what waited for what may go.
        self.items.retain_mut(|item| {
            item.waits_for = None;
            moved(item.what).map(|what| item.what = what).is_some()
        });
        self
    }
}
