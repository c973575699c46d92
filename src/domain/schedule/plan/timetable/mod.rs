//! The plan that keeps to what the baker wishes: tables, the earliest beginning, times away.
//!
//! A bake that hasn't begun is kept back until it has to begin for its table, which the search
//! backwards finds, and proves unless patience comes to an end; from there on everything goes as soon as it can, so that the hands have the
//! time to spare behind them and not before them. A buffer is left before the table, because
//! bread can wait there and nowhere else: as much as the end may be late by. Hands before a time away have one of
//! their own ([`BeforeAway`]).
//!
//! When a bake is to begin was promised, and stays as long as what is for its table is ready when it was to be.
//! What goes on already goes first. Beside that, and beside what is for a sooner table, is looked for how late
//! the breads of a table can begin: what has begun is no reason to begin another at another moment, unless
//! they get in each other's way.

mod before_away;
mod begins;
mod evenings;
mod hinders;
mod lead;
mod promise;
mod reordered;
mod search;
mod together;
mod weighing;

use super::{Plan, What};
use crate::bake::{State, Wishes};
use crate::estimate::Estimate;
use crate::formula::StepId;
use crate::schedule::outline::likely_outline;
use crate::schedule::plan::read::chain;
use crate::schedule::plan::ways::trial::PATIENCE;
use crate::sorted::{self, Map};
use crate::units::{Minutes, Moment, minutes};
pub use before_away::BeforeAway;
pub(super) use before_away::{MOST, NEAR, is_last};
use begins::Begin;
pub(super) use begins::LESS_BUFFER;
pub use hinders::Hinders;
pub(super) use lead::after_retards;
pub use promise::{Promise, Promised, Promises};
use search::Search;

/// How a plan stands to a table that was wished.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margin {
    /// The table.
    pub table: Moment,
    /// When everything for it is ready.
    pub ready: Estimate<Moment>,
    /// How much sooner it should be ready, because it may be so much later than likely.
    pub buffer: Minutes,
}

impl Margin {
    /// How much sooner everything is likely ready; negative where it is later.
    #[must_use]
    pub fn spare(&self) -> Minutes {
        self.table - self.ready.likely()
    }

    /// By how much it is later; nothing where it isn't.
    #[must_use]
    pub fn late(&self) -> Minutes {
        (-self.spare()).max(minutes(0.0))
    }

    /// Whether it is later than the table by more than rounding makes.
    #[must_use]
    pub fn is_late(&self) -> bool {
        self.spare().get() < -0.5
    }
}

/// A plan, with what became of the wishes.
#[derive(Debug, Clone, PartialEq)]
pub struct Timetable {
    /// The plan.
    pub plan: Plan,
    /// How it stands to every table that was wished, the soonest first.
    pub margins: Vec<Margin>,
    /// By bake: when it begins, of those that haven't.
    pub begins: Vec<Option<Moment>>,
    /// By bake: when it is ready, as the plan has it.
    pub ready: Vec<Option<Estimate<Moment>>>,
    /// By bake, of those that wait: what was known of it.
    known: Vec<Option<Known>>,
}

/// What was asked of the time of a bake: when that changes, nothing is promised any more.
#[derive(Debug, Clone, PartialEq)]
struct Asked {
    wishes: Wishes,
    pins: Map<StepId, Moment>,
    retards: Map<StepId, (Moment, Moment)>,
}

/// What was known of a bake when it was planned.
#[derive(Debug, Clone, PartialEq)]
struct Known {
    asked: Asked,
    /// How long it takes with nothing else in the kitchen.
    takes: Minutes,
}

impl Known {
    fn of(state: &State, now: Moment) -> Self {
        Self {
            asked: Asked::of(state),
            takes: likely_outline(state, now).table.likely() - now,
        }
    }
}

impl Asked {
    fn of(state: &State) -> Self {
        Self {
            wishes: state.wishes.clone(),
            pins: state.pins.clone(),
            retards: state.retards.clone(),
        }
    }
}

impl Timetable {
    /// How it stands to the table of a bake, if it has one.
    #[must_use]
    pub fn margin(&self, state: &State) -> Option<&Margin> {
        let table = table_of(state)?;
        self.margins.iter().find(|margin| margin.table == table)
    }

    /// How it stands to the table that it keeps worst.
    #[must_use]
    pub fn tightest(&self) -> Option<&Margin> {
        let spare = |margin: &Margin| margin.spare().get();
        let margins = self.margins.iter();
        margins.min_by(|one, other| spare(one).total_cmp(&spare(other)))
    }
}

/// When nobody is in the kitchen in which some bakes share the hands.
#[must_use]
pub fn away(bakes: &[&State]) -> Vec<(Moment, Moment)> {
    // A bread that is ready has no wishes any more.
    let left = bakes.iter().filter(|state| !state.all_ended());
    let mut away: Vec<(Moment, Moment)> =
        left.flat_map(|state| &state.wishes.away).copied().collect();
    sorted::by_key(&mut away, |&away| away);
    // What overlaps is one time.
    let mut apart: Vec<(Moment, Moment)> = Vec::new();
    for (from, to) in away {
        match apart.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ => apart.push((from, to)),
        }
    }
    apart
}

/// The plan of some bakes in one kitchen, as they are wished.
///
/// Where a table can't be kept, what is for it goes as soon as it can. `before` and `go_on` are those
/// of [`plan`].
#[must_use]
pub fn timetable(
    bakes: &[&State],
    now: Moment,
    before: Option<&Timetable>,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Timetable> {
    timetable_with(bakes, true, now, before, PATIENCE, go_on)
}

/// The same with or without a buffer before tables, and with so much patience for each of its three parts: what was
/// promised, when to begin, and how it goes from there.
pub(super) fn timetable_with(
    bakes: &[&State],
    buffers: bool,
    now: Moment,
    before: Option<&Timetable>,
    patience: u32,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Timetable> {
    let mut search = Search {
        bakes,
        away: away(bakes),
        buffers,
        now,
        before,
        known: vec![None; bakes.len()],
        together: None,
        rests: Vec::new(),
        left: patience,
        short_by: minutes(0.0),
        go_on,
    };
    let kept = before.and_then(|before| search.as_promised(before));
    if let Some((kept, false)) = kept {
        return Some(kept);
    }
    search.left = patience;
    let begins = search.begins();
    let buffer = |table: Moment| {
        let of_table = |(state, _): &(&&State, &Begin)| table_of(state) == Some(table);
        let mut begins = bakes.iter().zip(&begins).filter(of_table);
        begins.find_map(|(_, begin)| begin.buffer)
    };
    let at: Vec<_> = begins.iter().map(|begin| begin.at).collect();
    search.left = patience;
    let mut found = search.begun(&at, &buffer);
    if let Some(found) = &mut found {
        found.plan.proven = found.plan.proven.but_for(search.short_by);
    }
    // What was promised is called off only for a plan that is safer.
    match kept {
        Some((kept, _))
            if !found
                .as_ref()
                .is_some_and(|found| search.is_safer(found, &kept)) =>
        {
            Some(kept)
        }
        _ => found,
    }
}

/// When a step that is fixed to a moment at which it can't start would start at the soonest; nothing where it can.
/// `before` and `go_on` are those of [`timetable`].
#[must_use]
pub fn later_than_fixed(
    bakes: &[&State],
    (bake, step): (usize, StepId),
    now: Moment,
    before: Option<&Timetable>,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Moment> {
    let at = *bakes.get(bake)?.pins.get(&step)?;
    let planned = timetable(bakes, now, before, go_on)?;
    let start = planned.plan.item(What::Step(bake, step))?.start;
    (start - at >= REFUSED).then_some(start)
}

/// A step is fixed to a moment that is so much too soon only once somebody is told; by less, the plan's head says it: what
/// a sheet proposes is some minutes old when it is pressed.
const REFUSED: Minutes = minutes(10.0);

/// How a plan stands to the tables of its bakes, where that is the buffer known of a table.
pub(super) fn margins(
    bakes: &[&State],
    plan: &Plan,
    buffer: &dyn Fn(Moment) -> Option<Minutes>,
) -> Vec<Margin> {
    let margin = |table: Moment| {
        let of_table = (0..bakes.len()).filter(|&bake| table_of(bakes[bake]) == Some(table));
        let ends = of_table.filter_map(|bake| Some(plan.of(bake)?.table));
        let ready = chain::together(ends)?;
        let buffer = buffer(table).unwrap_or_else(|| buffer_of(&ready));
        Some(Margin {
            table,
            ready,
            buffer,
        })
    };
    tables(bakes).into_iter().filter_map(margin).collect()
}

/// How much sooner than the table something should be ready.
pub(super) fn buffer_of(ready: &Estimate<Moment>) -> Minutes {
    (ready.high() - ready.likely()).up_to_five()
}

/// The tables that some bakes are for, the soonest first.
#[must_use]
pub fn tables(bakes: &[&State]) -> Vec<Moment> {
    let mut tables: Vec<Moment> = bakes.iter().filter_map(|state| table_of(state)).collect();
    sorted::by_key(&mut tables, |&table| table);
    tables.dedup();
    tables
}

/// The table that a bake is for. A bread that is ready has no wishes any more.
#[must_use]
pub fn table_of(state: &State) -> Option<Moment> {
    state.wishes.table.filter(|_| !state.all_ended())
}

/// Before when nothing of a bake may start, if it hasn't begun.
pub(super) fn not_before(state: &State) -> Option<Moment> {
    state.wishes.not_before.filter(|_| state.can_wait())
}

/// Whether a bake is kept back until it has to begin. One that was started without a table was started to be begun.
fn waits_for_table(state: &State) -> bool {
    state.can_wait() && state.wishes.table.is_some()
}
