//! The plan as it is shown: every item with its names, where it is drawn and what it waits for.

mod ends;
mod entry;
mod limits;
mod why;

use domain::bake::{Bake, CALLED, State};
use domain::estimate::Estimate;
use domain::formula::{Step, StepKind};
use domain::schedule::plan::{BeforeAway, Item, Margin, Proven, RetardPart, What, away, table_of};
use domain::sorted;
use domain::units::Moment;

pub(crate) use self::ends::{Because, Early, of_table};
use self::ends::{chains, early, margins, tables_on};
pub(crate) use self::entry::{AWAY, Entry, Lane, Why, window};
use self::entry::{short, title};
use super::{Planned, stands};
use crate::words;

/// What is proven of a plan holds for this.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Given {
    /// Somebody is away, a step is fixed, a rise stands in the fridge, or something isn't begun before it is wished to be.
    pub(crate) as_wished: bool,
    /// The oven is heated as it is in the plan.
    pub(crate) as_heated: bool,
    /// Something waits too long, and no more does.
    pub(crate) waits: bool,
}

/// The plan as it is shown.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Told {
    /// By start.
    pub(crate) entries: Vec<Entry>,
    /// The columns, by what they are, with their names.
    pub(crate) lanes: Vec<(Lane, String)>,
    pub(crate) end: Estimate<Moment>,
    pub(crate) proven: Proven,
    /// Whether it is proven that none that is ready so soon lets less wait.
    pub(crate) waits_least: bool,
    /// From when to when more is to stand in the fridge than fits.
    pub(crate) full: Option<(Moment, Moment)>,
    pub(crate) given: Given,
    /// How it stands to each table, with what is for it where that isn't everything.
    pub(crate) margins: Vec<(Option<String>, Margin)>,
    /// By margin: why it is sooner than it has to be, and what waits in the fridge.
    pub(crate) early: Vec<Early>,
    /// How the hands stand to the times at which nobody is there, with why they aren't done sooner.
    pub(crate) before_away: Vec<(BeforeAway, String)>,
    /// What stood out for too long, or will while something waits, in words.
    pub(crate) left_out: Vec<String>,
    /// What hasn't begun and when it is to, soonest first.
    pub(crate) begins: Vec<(String, (Moment, bool))>,
    /// When the plan was made.
    pub(crate) at: Moment,
}

impl Told {
    /// What a plan of some of these bakes says; nothing where one of those is gone.
    pub(crate) fn of(planned: &Planned, bakes: &[Bake], now: Moment) -> Option<Self> {
        let plan = &planned.timetable.plan;
        let several = planned.bakes.len() > 1;
        let states = planned.states(bakes)?;
        let names = words::distinct_names(&states);
        let chains = chains(planned, &states);
        let title = |item: &Item| title(item.what, &states);
        let past = states.iter().enumerate();
        let past = past.map(|(bake, state)| limits::limits(plan, bake, state, now));
        let past: Vec<(bool, String)> = past.collect();
        let mut waits = false;
        let mut entries = Vec::with_capacity(plan.items.len());
        for (place, item) in plan.items.iter().enumerate() {
            let mut entry = Entry {
                key: format!("{AWAY}{}", item.start.epoch_ms()),
                of: None,
                lane: Lane::Hands,
                part: None,
                title: title(item),
                short: short(item.what),
                whose: None,
                start: item.start,
                end: item.end,
                window: None,
                hangs: chains.iter().any(|(_, chain)| chain.contains(&place)),
                for_table: !planned.timetable.margins.is_empty(),
                tables: tables_on(&chains, place),
                pinned: None,
                passed: None,
                cold: None,
                is_cold: false,
                can_fix: false,
                why: Why::Free,
                too_late_by: item.too_late_by.filter(|late| late.get() >= 1.0),
            };
            // What stands there comes last, with what no plan has an item for.
            if matches!(
                item.what,
                What::Retard(_, _, RetardPart::Stands) | What::Kept(..)
            ) {
                continue;
            }
            let Some((bake, step)) = item.what.of() else {
                // Beyond the end nobody is missed.
                if item.start < plan.end.high() {
                    entries.push(entry);
                }
                continue;
            };
            let state = states[bake];
            let Some(known) = state.formula.step(step) else {
                continue;
            };
            let id = &planned.bakes[bake];
            entry.of = Some((id.clone(), step));
            waits |= entry.too_late_by.is_some();
            entry.too_late_by = entry.too_late_by.filter(|_| !past[bake].0);
            entry.part = Some(Lane::Part(bake, known.component));
            entry.whose = several.then(|| names[bake].clone());
            entry.key = format!("{}/{}", id.0, step.0);
            let goes_on = item.start < planned.at
                || (!known.is_hands() && state.progress(step).open_since.is_some());
            // What is another bread's is told with its name.
            let named = |other: &Item| {
                let of = other.what.of().filter(|&(of, _)| of != bake);
                let whose = of.map(|(of, _)| names[of].as_str());
                words::of_bread(&title(other), whose)
            };
            entry.why = if goes_on {
                Why::GoesOn
            } else {
                why::why(plan, item, known, planned.at, &named)
            };
            let rise = plan.item(What::Step(bake, step));
            let rises = state.progress(step).ended.is_none() && !known.is_hands();
            let rise = rise.filter(|_| rises);
            entry.cold = rise.and_then(|rise| state.stay(step, rise.start));
            if let What::Fold(_, _, nth) = item.what {
                entry.key = format!("{}/{nth}", entry.key);
            } else if let What::Retard(_, _, cold) = item.what {
                entry.key += if cold == RetardPart::Out {
                    "/out"
                } else {
                    "/in"
                };
                let at = entry.cold.map(|stay| match cold {
                    RetardPart::Out => stay.to,
                    RetardPart::In | RetardPart::Stands => stay.from,
                });
                // Whoever can't come then has another reason.
                if at.is_some_and(|at| (at - item.start).get().abs() < 1.0) {
                    entry.why = Why::Planned;
                }
            } else {
                entry.can_fix = !goes_on && known.retards_for().is_none();
                let pin = state.pins.get(&step).copied();
                let pin = pin.filter(|_| !goes_on && !state.is_begun(known));
                let has_passed = |&pin: &Moment| now - pin >= CALLED;
                entry.passed = pin.filter(has_passed);
                entry.pinned = pin.filter(|pin| !has_passed(pin));
                if entry.pinned == Some(item.start) {
                    entry.why = Why::Fixed;
                } else if let Some(table) = serves(known, state, item).filter(|_| !goes_on) {
                    (entry.start, entry.end) = (table - (item.end - item.start), table);
                    entry.why = Why::Planned;
                }
                if !known.is_hands() {
                    entry.lane = if known.needs.oven {
                        Lane::Oven
                    } else {
                        Lane::Part(bake, known.component)
                    };
                    entry.is_cold = known.needs.fridge;
                    entry.window = window(item);
                }
            }
            entries.push(entry);
        }
        stands::add(&mut entries, planned, &states);
        let begins = planned.timetable.begins.iter().zip(&states).zip(&names);
        let mut begins: Vec<(String, (Moment, bool))> = begins
            .filter_map(|((at, state), name)| Some((name.clone(), ((*at)?, state.has_begun()))))
            .collect();
        sorted::by_key(&mut begins, |&(_, at)| at);
        let mut left_out = Vec::new();
        for (bake, ((state, name), (_, past))) in states.iter().zip(&names).zip(past).enumerate() {
            let left = plan.left_out(bake, state, planned.called(bake, now));
            let left = left.map(|left| words::plan::left_out(state, left, now));
            for said in [past, left.unwrap_or_default()] {
                if !said.is_empty() {
                    left_out.push(if states.len() > 1 {
                        format!("{name}: {said}")
                    } else {
                        said
                    });
                }
            }
        }
        Some(Self {
            given: Given {
                // Who queues for the hands wishes nothing.
                as_wished: states
                    .iter()
                    .any(|state| state.wishes.table.is_some() || state.wishes.not_before.is_some())
                    || entries.iter().any(|entry| {
                        entry.of.is_none() || entry.pinned.is_some() || entry.cold.is_some()
                    }),
                as_heated: plan.as_heated,
                waits,
            },
            lanes: lanes(&entries, &states, &names),
            entries,
            end: done_at(&states).map_or(plan.end, |at| Estimate::exact(at, plan.end.basis())),
            proven: plan.proven,
            waits_least: plan.waits_least,
            full: plan.fridge_full(&states),
            early: early(planned, &states, &names),
            margins: margins(planned, &states, &names),
            before_away: before_away(planned, &states, &names, now),
            left_out,
            begins,
            at: planned.at,
        })
    }
}

/// The table that a step serves at, where what is for it is ready before: whoever serves does it then.
fn serves(step: &Step, state: &State, item: &Item) -> Option<Moment> {
    let table = table_of(state).filter(|_| step.kind == StepKind::Serve);
    table.filter(|&table| table > item.end)
}

fn before_away(
    planned: &Planned,
    states: &[&State],
    names: &[String],
    now: Moment,
) -> Vec<(BeforeAway, String)> {
    let plan = &planned.timetable.plan;
    let told = plan.before_away(states, &away(states), now).into_iter();
    let told = told.map(|before| {
        let because = words::plan::hinders(&before, states, names, now);
        (before, because.unwrap_or_default())
    });
    told.collect()
}

/// When the last of some bakes was ready, once all of them are: a plan has nothing left of them, and ends now.
fn done_at(states: &[&State]) -> Option<Moment> {
    let ready = states.iter().map(|state| state.ready_at());
    ready.collect::<Option<Vec<Moment>>>()?.into_iter().max()
}

/// The columns that something is drawn in.
fn lanes(entries: &[Entry], states: &[&State], names: &[String]) -> Vec<(Lane, String)> {
    let mut lanes = vec![Lane::Hands];
    lanes.extend(entries.iter().map(|entry| entry.lane));
    sorted::by_key(&mut lanes, |&lane| lane);
    lanes.dedup();
    let name = |lane| match lane {
        Lane::Hands => words::plan::HANDS.to_owned(),
        Lane::Oven => words::plan::OVEN.to_owned(),
        Lane::Part(bake, component) => {
            let state = states[bake];
            let part = state.formula.component(component);
            let part = part.map_or("", |part| words::plan::part(part.kind));
            if names.len() > 1 {
                words::plan::part_of(part, &names[bake])
            } else {
                part.to_owned()
            }
        }
    };
    lanes.into_iter().map(|lane| (lane, name(lane))).collect()
}

#[cfg(test)]
mod tests;
