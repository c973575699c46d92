//! The plan as it is shown: every item with its names, where it is drawn and what it waits for.

mod ends;
mod entries;
mod entry;
mod limits;
mod why;

use domain::bake::{Bake, State};
use domain::estimate::Estimate;
use domain::schedule::plan::{BeforeAway, Margin, Proven, away};
use domain::sorted;
use domain::units::Moment;

pub(crate) use self::ends::{Because, Early, Unsure, of_table};
use self::ends::{early, margins};
use self::entries::Telling;
pub(crate) use self::entry::{AWAY, Entry, Lane, Why, window};
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
        let states = planned.states(bakes)?;
        let names = words::distinct_names(&states);
        let past = states.iter().enumerate();
        let past = past.map(|(bake, state)| limits::limits(plan, bake, state, now));
        let (lost, past): (Vec<bool>, Vec<String>) = past.unzip();
        let telling = Telling::new(planned, &states, &names, lost, now);
        let mut entries = telling.entries();
        stands::add(&mut entries, planned, &states);
        Some(Self {
            given: Given {
                as_wished: is_as_wished(&entries, &states),
                as_heated: plan.as_heated,
                waits: telling.waits(),
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
            left_out: limits::left_out(planned, &states, &names, past, now),
            begins: begins(planned, &states, &names),
            at: planned.at,
        })
    }
}

/// Whether what is proven holds only for what is asked of the time. Who queues for the hands wishes nothing.
fn is_as_wished(entries: &[Entry], states: &[&State]) -> bool {
    let wishes = |state: &&State| {
        let wishes = &state.wishes;
        wishes.table.is_some() || wishes.not_before.is_some()
    };
    let asks = |entry: &Entry| entry.of.is_none() || entry.pinned.is_some() || entry.cold.is_some();
    states.iter().any(wishes) || entries.iter().any(asks)
}

/// When each bake begins with what can still wait, soonest first, and whether it has begun with something else.
fn begins(planned: &Planned, states: &[&State], names: &[String]) -> Vec<(String, (Moment, bool))> {
    let begins = planned.timetable.begins.iter().zip(states).zip(names);
    let begins =
        begins.filter_map(|((at, state), name)| Some((name.clone(), ((*at)?, state.has_begun()))));
    let mut begins: Vec<_> = begins.collect();
    sorted::by_key(&mut begins, |&(_, at)| at);
    begins
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
