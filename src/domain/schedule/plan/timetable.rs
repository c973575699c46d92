//! The plan that keeps to what the baker wishes: tables, the earliest beginning, times away.
//!
//! A bake that hasn't begun is kept back until it has to begin for its table, which the search
//! backwards proves; from there on everything goes as soon as it can, so that the hands have the
//! time to spare behind them and not before them. A buffer is left before the table, because
//! bread can wait there and nowhere else: as much as the end may be late by.
//!
//! When a bake is to begin was promised, and stays as long as what is for its table is ready when it was to be.
//! What goes on already goes first. Beside that, and beside what is for a sooner table, is looked for how late
//! the breads of a table can begin: what has begun is no reason to begin another at another moment, unless
//! they get in each other's way.

use super::{Bounds, Goal, NOTABLE, Plan, What, plan};
use crate::bake::{State, Wishes};
use crate::estimate::Estimate;
use crate::formula::StepId;
use crate::sorted::Map;
use crate::units::{Minutes, Moment, minutes};

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
    /// By bake: what was asked of its time.
    asked: Vec<Option<Asked>>,
}

/// What was asked of the time of a bake: when that changes, nothing is promised any more.
#[derive(Debug, Clone, PartialEq)]
struct Asked {
    wishes: Wishes,
    pins: Map<StepId, Moment>,
    retards: Map<StepId, (Moment, Moment)>,
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

/// A bake that is ready later than it was to be by more than this begins sooner: plans go by whole minutes.
const LATER: Minutes = NOTABLE;
/// One that is ready so much earlier may begin later.
///
/// ASSUMPTION: judgement: less is no reason to call off a beginning that was promised.
const EARLIER: Minutes = minutes(15.0);
/// So much of a buffer may be lost to what was promised.
///
/// ASSUMPTION: judgement: buffers are told in steps of as much.
const LESS_BUFFER: Minutes = minutes(5.0);

/// When nobody is in the kitchen in which some bakes share the hands.
#[must_use]
pub fn away(bakes: &[&State]) -> Vec<(Moment, Moment)> {
    // A bread that is ready has no wishes any more.
    let left = bakes.iter().filter(|state| !state.all_ended());
    let mut away: Vec<(Moment, Moment)> =
        left.flat_map(|state| &state.wishes.away).copied().collect();
    away.sort();
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
    timetable_with(bakes, true, now, before, go_on)
}

/// The same with or without a buffer before tables.
pub(super) fn timetable_with(
    bakes: &[&State],
    buffers: bool,
    now: Moment,
    before: Option<&Timetable>,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Timetable> {
    let mut search = Search {
        bakes,
        away: away(bakes),
        buffers,
        now,
        before,
        go_on,
    };
    if let Some(kept) = before.and_then(|before| search.as_promised(before)) {
        return Some(kept);
    }
    let begins = search.begins();
    let buffer = |table: Moment| {
        let of_table = |(state, _): &(&&State, &Begin)| table_of(state) == Some(table);
        let mut begins = bakes.iter().zip(&begins).filter(of_table);
        begins.find_map(|(_, begin)| begin.buffer)
    };
    let at: Vec<_> = begins.iter().map(|begin| begin.at).collect();
    search.begun(&at, &buffer)
}

/// How a plan stands to the tables of its bakes, where that is the buffer known of a table.
pub(super) fn margins(
    bakes: &[&State],
    plan: &Plan,
    buffer: &dyn Fn(Moment) -> Option<Minutes>,
) -> Vec<Margin> {
    let margin = |table: Moment| {
        let of_table = (0..bakes.len()).filter(|&bake| table_of(bakes[bake]) == Some(table));
        let ends = of_table.filter_map(|bake| Some(plan.of(bake)?.table));
        let ready = ends.max_by_key(Estimate::likely)?;
        let buffer = buffer(table).unwrap_or_else(|| buffer_of(&ready));
        Some(Margin {
            table,
            ready,
            buffer,
        })
    };
    tables(bakes).into_iter().filter_map(margin).collect()
}

/// When a bake has to begin at the latest, and how much sooner than its table it is ready then.
#[derive(Clone, Copy, Default)]
struct Begin {
    at: Option<Moment>,
    buffer: Option<Minutes>,
}

/// One search after the other, of the bakes at some places each.
struct Search<'a> {
    bakes: &'a [&'a State],
    away: Vec<(Moment, Moment)>,
    buffers: bool,
    now: Moment,
    before: Option<&'a Timetable>,
    go_on: &'a mut dyn FnMut() -> bool,
}

impl Search<'_> {
    /// Begun when it was promised, if everything is then ready when it was to be.
    fn as_promised(&mut self, before: &Timetable) -> Option<Timetable> {
        let mut at = Vec::new();
        let mut waits = false;
        for (bake, state) in self.bakes.iter().enumerate() {
            let promised = before.begins.get(bake).copied().flatten();
            if waits_for_table(state) {
                waits = true;
                let was = before.asked.get(bake)?.as_ref();
                at.push(Some(promised.filter(|_| was == Some(&Asked::of(state)))?));
            } else {
                at.push(not_before(state));
            }
        }
        if !waits {
            return None;
        }
        let margins = &before.margins;
        let buffer = |table: Moment| {
            let mut margins = margins.iter();
            Some(margins.find(|margin| margin.table == table)?.buffer)
        };
        let kept = self.begun(&at, &buffer)?;
        let mut bakes = self.bakes.iter().enumerate();
        let stands = bakes.all(|(bake, state)| {
            let (true, Some(table)) = (waits_for_table(state), table_of(state)) else {
                return true;
            };
            let ready = |plan: &Plan| plan.of(bake).map(|outline| outline.table);
            let (Some(was), Some(is)) = (ready(&before.plan), ready(&kept.plan)) else {
                return false;
            };
            let (later, spare) = (is.likely() - was.likely(), table - is.likely());
            let is_safe = spare >= buffer_of(&is) - LESS_BUFFER || later.get() < 0.5;
            later < LATER && later > -EARLIER && is_safe
        });
        stands.then_some(kept)
    }

    /// Everything as soon as it can be, but nothing before it is to begin.
    fn begun(
        &mut self,
        at: &[Option<Moment>],
        buffer: &dyn Fn(Moment) -> Option<Minutes>,
    ) -> Option<Timetable> {
        let ready_by = |state: &&State| {
            let table = table_of(state)?;
            Some(buffer(table).map_or(table, |early| table - early))
        };
        let bakes = self.bakes;
        let ready_by: Vec<_> = bakes.iter().map(ready_by).collect();
        let all: Vec<usize> = (0..bakes.len()).collect();
        let plan = self.soonest(&all, &ready_by, at)?;
        let waiting = bakes.iter().enumerate().map(|(bake, state)| {
            let (_, first) = plan.first_of(bake)?;
            state.can_wait().then_some(first)
        });
        Some(Timetable {
            margins: margins(bakes, &plan, buffer),
            begins: waiting.collect(),
            asked: bakes.iter().map(|state| Some(Asked::of(state))).collect(),
            plan,
        })
    }

    /// By bake: when it is kept back until.
    fn begins(&mut self) -> Vec<Begin> {
        let mut begins: Vec<Begin> = vec![Begin::default(); self.bakes.len()];
        let waits = |&bake: &usize| waits_for_table(self.bakes[bake]);
        let (waiting, going): (Vec<usize>, Vec<usize>) = (0..self.bakes.len()).partition(waits);
        for &bake in &going {
            begins[bake].at = not_before(self.bakes[bake]);
        }
        let (mut beside, last) = (None, tables(self.bakes).last().copied());
        for table in tables(self.bakes) {
            let of: Vec<usize> = waiting
                .iter()
                .copied()
                .filter(|&bake| table_of(self.bakes[bake]) == Some(table))
                .collect();
            if of.is_empty() {
                continue;
            }
            if beside.is_none() && !going.is_empty() {
                beside = self.going(&going);
            }
            let planned = self.begin_for(table, &of, beside.as_ref(), &mut begins);
            if let Some(planned) = planned.filter(|_| last != Some(table)) {
                match &mut beside {
                    Some(beside) => beside.items.extend(planned.items),
                    None => beside = Some(planned),
                }
            }
        }
        begins
    }

    /// What goes on, by the places of all.
    fn going(&mut self, going: &[usize]) -> Option<Plan> {
        let ready_by: Vec<_> = self.bakes.iter().map(|state| table_of(state)).collect();
        let not_before: Vec<_> = self.bakes.iter().map(|state| not_before(state)).collect();
        let plan = self.soonest(going, &ready_by, &not_before)?;
        Some(plan.reordered(&|place| going.get(place).copied()))
    }

    /// How late the bakes for one table can begin. Gives the plan of them by that, if there is one.
    fn begin_for(
        &mut self,
        table: Moment,
        of: &[usize],
        beside: Option<&Plan>,
        begins: &mut [Begin],
    ) -> Option<Plan> {
        let Some(latest) = self.by(table, of, beside) else {
            // Something else can't be kept any more, which is no reason to begin at once.
            for &bake in of {
                let alone = self.by(table, &[bake], None);
                let at =
                    alone.and_then(|alone| Some(alone.first_of(bake)?.1 - buffer_of(&alone.end)));
                begins[bake].at = at.max(not_before(self.bakes[bake]));
            }
            return None;
        };
        let buffer = if self.buffers {
            buffer_of(&latest.end)
        } else {
            minutes(0.0)
        };
        let earlier = if self.can_shift(&latest, of, buffer, beside) {
            Some(latest.shifted(-buffer))
        } else {
            self.by(table - buffer, of, beside)
        };
        for &bake in of {
            // Where a fixed step or a time away leaves no room for all of the buffer, what comes before
            // that begins sooner by as much, or now.
            let at = match &earlier {
                Some(earlier) => earlier.first_of(bake).map(|(_, at)| at),
                None => latest.first_of(bake).map(|(_, at)| at - buffer),
            };
            begins[bake] = Begin {
                at: at.max(not_before(self.bakes[bake])),
                buffer: Some(buffer),
            };
        }
        Some(earlier.unwrap_or(latest))
    }

    /// Whether a plan that is as late as can be is so for a table that is sooner by some time as well: nothing that
    /// stands where it stands, and doesn't move with the table, lies between.
    fn can_shift(&self, latest: &Plan, of: &[usize], by: Minutes, beside: Option<&Plan>) -> bool {
        let firsts = of
            .iter()
            .map(|&bake| latest.first_of(bake).map(|(_, at)| at - by));
        let is_early = |at: Moment| {
            let from = of.iter().filter_map(|&bake| not_before(self.bakes[bake]));
            from.fold(self.now, Moment::max) <= at
        };
        let first = firsts.clone().flatten().min();
        let Some(first) =
            first.filter(|&first| firsts.clone().all(|at| at.is_some()) && is_early(first))
        else {
            return false;
        };
        let other = beside.into_iter().flat_map(|plan| &plan.items);
        let mut fixed = other
            .map(|item| (item.start, item.end))
            .chain(self.away.iter().copied());
        let stands = |&bake: &usize| {
            let state = self.bakes[bake];
            !state.pins.is_empty() || !state.retards.is_empty()
        };
        !of.iter().any(stands) && fixed.all(|(from, to)| to <= first || from >= latest.end.likely())
    }

    /// Some of the bakes as late as a table allows.
    fn by(&mut self, table: Moment, of: &[usize], beside: Option<&Plan>) -> Option<Plan> {
        let from: Vec<_> = of
            .iter()
            .map(|&bake| not_before(self.bakes[bake]))
            .collect();
        let bounds = Bounds {
            goal: Goal::By(table),
            not_before: &from,
            ..Bounds::default()
        };
        let plan = self.planned(of, bounds, beside)?;
        Some(plan.reordered(&|place| of.get(place).copied()))
    }

    /// Some of the bakes as soon as can be.
    fn soonest(
        &mut self,
        of: &[usize],
        ready_by: &[Option<Moment>],
        not_before: &[Option<Moment>],
    ) -> Option<Plan> {
        let among = |all: &[Option<Moment>]| of.iter().map(|&bake| all[bake]).collect::<Vec<_>>();
        let (ready_by, not_before) = (among(ready_by), among(not_before));
        let bounds = Bounds {
            ready_by: &ready_by,
            not_before: &not_before,
            ..Bounds::default()
        };
        self.planned(of, bounds, None)
    }

    fn planned(&mut self, of: &[usize], bounds: Bounds, beside: Option<&Plan>) -> Option<Plan> {
        let bakes: Vec<&State> = of.iter().map(|&bake| self.bakes[bake]).collect();
        let before = self.before.map(|before| {
            let place = |old| of.iter().position(|&bake| bake == old);
            before.plan.clone().reordered(&place)
        });
        let bounds = Bounds {
            closed: &self.away,
            beside: beside.map(|plan| (plan, self.bakes)),
            pins: true,
            ..bounds
        };
        plan(&bakes, bounds, self.now, before.as_ref(), self.go_on)
    }
}

/// How much sooner than the table something should be ready.
pub(super) fn buffer_of(ready: &Estimate<Moment>) -> Minutes {
    (ready.high() - ready.likely()).up_to_five()
}

/// The tables that some bakes are for, the soonest first.
#[must_use]
pub fn tables(bakes: &[&State]) -> Vec<Moment> {
    let mut tables: Vec<Moment> = bakes.iter().filter_map(|state| table_of(state)).collect();
    tables.sort();
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

impl Timetable {
    /// The same where the bakes stand in another order: `place_of` says where each stands now, of
    /// so many, if it is planned still.
    #[must_use]
    pub fn reordered(&self, place_of: &dyn Fn(usize) -> Option<usize>, bakes: usize) -> Self {
        let mut moved = Self {
            plan: self.plan.clone().reordered(place_of),
            margins: self.margins.clone(),
            begins: vec![None; bakes],
            asked: vec![None; bakes],
        };
        for (old, (begins, asked)) in self.begins.iter().zip(&self.asked).enumerate() {
            if let Some(place) = place_of(old) {
                (moved.begins[place], moved.asked[place]) = (*begins, asked.clone());
            }
        }
        moved
    }
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

    /// The same plan at other times.
    #[must_use]
    fn shifted(&self, by: Minutes) -> Self {
        let mut shifted = self.clone();
        for item in &mut shifted.items {
            (item.start, item.end) = (item.start + by, item.end + by);
        }
        let end = self.end;
        shifted.end = Estimate::new(
            end.low() + by,
            end.likely() + by,
            end.high() + by,
            end.basis(),
        );
        shifted
    }

    /// The same plan where the bakes stand in another order.
    pub(super) fn reordered(mut self, place_of: &dyn Fn(usize) -> Option<usize>) -> Self {
        let moved = |what: What| match what.of() {
            Some((bake, _)) => Some(what.at(place_of(bake)?)),
            None => Some(what),
        };
        // Only starts are looked at in a plan from before, so what waited for what may go.
        self.items.retain_mut(|item| {
            item.waits_for = None;
            moved(item.what).map(|what| item.what = what).is_some()
        });
        self
    }
}
