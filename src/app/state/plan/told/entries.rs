//! The entries of a plan: each item that somebody wants to see, with its place, its names and why it starts then.

use domain::bake::{CALLED, State, Stay};
use domain::formula::{Step, StepKind};
use domain::schedule::plan::{Item, RetardPart, What, table_of};
use domain::units::{Minutes, Moment};

use super::ends::{chains, tables_on};
use super::entry::{AWAY, Entry, Lane, Why, short, title, window};
use super::why::why;
use crate::state::Planned;
use crate::words;

/// What every entry of a plan is told from.
pub(super) struct Telling<'a> {
    planned: &'a Planned,
    states: &'a [&'a State],
    names: &'a [String],
    /// What each end hangs on.
    chains: Vec<(Option<Moment>, Vec<usize>)>,
    /// By bake: whether what is said of its food takes the place of all lateness in it.
    lost: Vec<bool>,
    now: Moment,
}

impl<'a> Telling<'a> {
    pub(super) fn new(
        planned: &'a Planned,
        states: &'a [&'a State],
        names: &'a [String],
        lost: Vec<bool>,
        now: Moment,
    ) -> Self {
        Self {
            chains: chains(planned, states),
            planned,
            states,
            names,
            lost,
            now,
        }
    }

    /// All of them but what stands in the fridge, in the order of the plan.
    pub(super) fn entries(&self) -> Vec<Entry> {
        let items = self.planned.timetable.plan.items.iter().enumerate();
        let entries = items.filter_map(|(place, item)| self.entry(place, item));
        entries.collect()
    }

    /// Whether something waits too long, also where that is told otherwise.
    pub(super) fn waits(&self) -> bool {
        let mut items = self.planned.timetable.plan.items.iter();
        items.any(|item| self.of(item).is_some() && too_late_by(item).is_some())
    }

    fn entry(&self, place: usize, item: &Item) -> Option<Entry> {
        let plain = || self.of_nobody(place, item);
        match self.of(item) {
            Some((bake, step)) => Some(self.of_step(plain(), item, bake, step)),
            // Beyond the end nobody is missed.
            None => {
                let end = self.planned.timetable.plan.end.high();
                (item.what == What::Away && item.start < end).then(plain)
            }
        }
    }

    /// Which bake's and step's an item is; nothing of a time at which nobody is there. What stands in the fridge comes
    /// last, with what no plan has an item for.
    fn of(&self, item: &Item) -> Option<(usize, &'a Step)> {
        if matches!(
            item.what,
            What::Retard(_, _, RetardPart::Stands) | What::Kept(..)
        ) {
            return None;
        }
        let (bake, step) = item.what.of()?;
        Some((bake, self.states[bake].formula.step(step)?))
    }

    /// An entry with what there is to tell of any, whosever it is.
    fn of_nobody(&self, place: usize, item: &Item) -> Entry {
        Entry {
            key: format!("{AWAY}{}", item.start.epoch_ms()),
            of: None,
            lane: Lane::Hands,
            part: None,
            title: title(item.what, self.states),
            short: short(item.what),
            whose: None,
            start: item.start,
            end: item.end,
            window: None,
            hangs: self.chains.iter().any(|(_, chain)| chain.contains(&place)),
            for_table: !self.planned.timetable.margins.is_empty(),
            tables: tables_on(&self.chains, place),
            pinned: None,
            passed: None,
            cold: None,
            is_cold: false,
            can_fix: false,
            why: Why::Free,
            too_late_by: too_late_by(item),
        }
    }

    /// The same with what there is to tell of a step, or of a part of one.
    fn of_step(&self, entry: Entry, item: &Item, bake: usize, step: &Step) -> Entry {
        let id = &self.planned.bakes[bake];
        let several = self.states.len() > 1;
        let goes_on = self.goes_on(item, bake, step);
        let entry = Entry {
            key: format!("{}/{}", id.0, step.id.0),
            of: Some((id.clone(), step.id)),
            part: Some(Lane::Part(bake, step.component)),
            whose: several.then(|| self.names[bake].clone()),
            cold: self.stay(bake, step),
            why: if goes_on {
                Why::GoesOn
            } else {
                self.why(item, bake, step)
            },
            too_late_by: entry.too_late_by.filter(|_| !self.lost[bake]),
            ..entry
        };
        match item.what {
            What::Fold(_, _, nth) => Entry {
                key: format!("{}/{nth}", entry.key),
                ..entry
            },
            What::Retard(_, _, part) => of_retard(entry, part),
            _ => self.of_whole(entry, item, bake, step),
        }
    }

    fn goes_on(&self, item: &Item, bake: usize, step: &Step) -> bool {
        let is_open = || self.states[bake].progress(step.id).open_since.is_some();
        item.start < self.planned.at || (!step.is_hands() && is_open())
    }

    fn why(&self, item: &Item, bake: usize, step: &Step) -> Why {
        // What is another bread's is told with its name.
        let named = |other: &Item| {
            let of = other.what.of().filter(|&(of, _)| of != bake);
            let whose = of.map(|(of, _)| self.names[of].as_str());
            words::of_bread(&title(other.what, self.states), whose)
        };
        let plan = &self.planned.timetable.plan;
        why(plan, item, step, self.planned.at, &named)
    }

    /// When the rise that something is, or belongs to, is planned to stand in the fridge.
    fn stay(&self, bake: usize, step: &Step) -> Option<Stay> {
        let state = self.states[bake];
        let rises = state.progress(step.id).ended.is_none() && !step.is_hands();
        let rise = self.planned.timetable.plan.item(What::Step(bake, step.id));
        let rise = rise.filter(|_| rises)?;
        state.stay(step.id, rise.start)
    }

    /// A step with all of it: where it is fixed, when it may end, and what it takes up.
    fn of_whole(&self, mut entry: Entry, item: &Item, bake: usize, step: &Step) -> Entry {
        let (state, goes_on) = (self.states[bake], self.goes_on(item, bake, step));
        entry.can_fix = !goes_on;
        let pin = state.pins.get(&step.id).copied();
        let pin = pin.filter(|_| !goes_on && !state.is_begun(step));
        let has_passed = |&pin: &Moment| self.now - pin >= CALLED;
        entry.passed = pin.filter(has_passed);
        entry.pinned = pin.filter(|pin| !has_passed(pin));
        if entry.pinned == Some(item.start) {
            entry.why = Why::Fixed;
        } else if let Some(table) = serves(step, state, item).filter(|_| !goes_on) {
            (entry.start, entry.end) = (table - (item.end - item.start), table);
            entry.why = Why::Planned;
        }
        if !step.is_hands() {
            entry.lane = if step.needs.oven {
                Lane::Oven
            } else {
                Lane::Part(bake, step.component)
            };
            entry.is_cold = step.needs.fridge;
            entry.window = window(item);
        }
        entry
    }
}

/// A way into the fridge or out of it.
fn of_retard(mut entry: Entry, part: RetardPart) -> Entry {
    entry.key += if part == RetardPart::Out {
        "/out"
    } else {
        "/in"
    };
    let at = entry.cold.map(|stay| match part {
        RetardPart::Out => stay.to,
        RetardPart::In | RetardPart::Stands => stay.from,
    });
    // Whoever can't come then has another reason.
    if at.is_some_and(|at| (at - entry.start).get().abs() < 1.0) {
        entry.why = Why::Planned;
    }
    entry
}

/// How much longer something waits than is good for it, where that is a minute or more.
fn too_late_by(item: &Item) -> Option<Minutes> {
    item.too_late_by.filter(|late| late.get() >= 1.0)
}

/// The table that a step serves at, where what is for it is ready before: whoever serves does it then.
fn serves(step: &Step, state: &State, item: &Item) -> Option<Moment> {
    let table = table_of(state).filter(|_| step.kind == StepKind::Serve);
    table.filter(|&table| table > item.end)
}
