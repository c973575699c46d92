//! When the baker sleeps: said once, it is a habit of this kitchen, and counts for every plan that has a table.
//!
//! The nights are counted up to the last table, into the wishes of the bake that has it. A table that is moved later
//! takes along the nights between, and no others: who is up in a night that was counted before has taken it away.

use domain::bake::{Bake, BakeId, Intent, State};
use domain::formula::Step;
use domain::schedule::plan::{Timetable, What, away, patience, tables, timetable};
use domain::sorted;
use domain::units::{Moment, minutes};
use platform::clock;
use platform::store::Asleep;

use super::running_states;
use crate::state::Oventide;

/// When most people sleep.
pub(crate) const USUAL: Asleep = Asleep {
    bed: 23 * 60,
    up: 6 * 60 + 30,
};
/// More would be a mistake.
const MOST_NIGHTS: usize = 14;

impl Oventide {
    /// When the baker sleeps, or else when most people do.
    pub(crate) fn asleep(self) -> Asleep {
        self.settings.read().asleep.unwrap_or(USUAL)
    }

    /// Remembers when the baker sleeps, or that no plan is to count it.
    pub(crate) fn remember_asleep(self, asleep: Option<Asleep>) {
        self.change_settings(Box::new(move |to| to.asleep = asleep));
    }

    /// Remembers it, and counts every night up to the last table that is wished or, where none is, up to the end.
    pub(crate) fn sleep(self, asleep: Asleep) {
        self.remember_asleep(Some(asleep));
        let bakes = self.bakes.get_untracked();
        let table = tables(&running_states(&bakes)).last().copied();
        let plan = self.plan.read_untracked();
        // A night that is left out makes the end later, perhaps into the next one.
        let end = plan
            .as_ref()
            .map(|planned| planned.timetable.plan.end.high());
        let until = table.or(end.map(|end| end + minutes(24.0 * 60.0)));
        drop(plan);
        if let Some(until) = until {
            let mut nights = nights(asleep, clock::now(), until);
            if table.is_none() {
                keep_needed(&mut nights, &running_states(&bakes));
            }
            self.wish_away(Box::new(move |known| add_apart(known, nights)));
        }
    }

    /// Whether some bakes would need hands at night if a table that is asked of them were wished.
    pub(crate) fn needs_night(
        self,
        bakes: &[Bake],
        asks: &[(BakeId, Intent)],
        now: Moment,
    ) -> bool {
        let asleep = self.settings.read_untracked().asleep.unwrap_or(USUAL);
        let wished = |bake: &Bake| {
            let mut state = bake.state().clone();
            let asked = asks.iter().find(|(of, _)| *of == bake.id);
            if let Some((_, Intent::Wish(wishes))) = asked {
                state.wishes = (**wishes).clone();
            }
            state
        };
        let states: Vec<State> = bakes.iter().map(wished).collect();
        let states: Vec<&State> = states.iter().collect();
        let planned = timetable(&states, now, None, &mut patience());
        planned.is_some_and(|planned| has_hands_asleep(&planned, &states, asleep, now))
    }

    /// When nobody is there with the nights up to a table that is about to be wished, by habit; nothing where those are
    /// no more.
    pub(in crate::state) fn nights_until(
        self,
        table: Option<Moment>,
    ) -> Option<Vec<(Moment, Moment)>> {
        let (asleep, table) = (self.settings.read_untracked().asleep?, table?);
        let bakes = self.bakes.get_untracked();
        let states = running_states(&bakes);
        let now = clock::now();
        let before = tables(&states).last().map_or(now, |&last| last.max(now));
        let known = away(&states);
        let mut all = known.clone();
        add_apart(&mut all, nights(asleep, before, table));
        (all != known).then_some(all)
    }
}

/// Whether hands work in a night by a plan, and not only in this one, in which somebody is up already.
fn has_hands_asleep(planned: &Timetable, states: &[&State], asleep: Asleep, now: Moment) -> bool {
    let this_night = if is_asleep(asleep, now) {
        clock::next_time_of_day(asleep.up, now)
    } else {
        now
    };
    planned.plan.items.iter().any(|item| {
        let hands = match item.what {
            What::Step(bake, step) => states[bake].formula.step(step).is_some_and(Step::is_hands),
            What::Fold(..) => true,
            _ => false,
        };
        hands && item.start > this_night && works_asleep(asleep, item.start, item.end)
    })
}

/// Keeps of some nights those that begin before all of some bakes is ready, if all of them are slept.
fn keep_needed(nights: &mut Vec<(Moment, Moment)>, bakes: &[&State]) {
    let mut states: Vec<State> = bakes.iter().map(|state| (*state).clone()).collect();
    for state in &mut states {
        add_apart(&mut state.wishes.away, nights.clone());
    }
    let states: Vec<&State> = states.iter().collect();
    if let Some(slept) = timetable(&states, clock::now(), None, &mut patience()) {
        let end = slept.plan.end.high();
        nights.retain(|&(from, _)| from < end);
    }
}

/// Adds those of some nights that meet no time which is known.
fn add_apart(known: &mut Vec<(Moment, Moment)>, nights: Vec<(Moment, Moment)>) {
    for (from, to) in nights {
        if known
            .iter()
            .all(|&(other, until)| to <= other || until <= from)
        {
            known.push((from, to));
        }
    }
    sorted::by_key(known, |&night| night);
}

/// Whether somebody is asleep then.
pub(crate) fn is_asleep(asleep: Asleep, at: Moment) -> bool {
    let minute = clock::minute_of_day(at);
    if asleep.bed < asleep.up {
        (asleep.bed..asleep.up).contains(&minute)
    } else {
        minute >= asleep.bed || minute < asleep.up
    }
}

/// Whether work from one moment to another falls into the night; who goes to bed as it ends is asleep after it.
/// No work is as long as a night, so its two ends tell.
pub(crate) fn works_asleep(asleep: Asleep, from: Moment, to: Moment) -> bool {
    [from, to - minutes(1.0)]
        .iter()
        .any(|&at| is_asleep(asleep, at))
}

/// The nights from one moment to another.
fn nights(asleep: Asleep, now: Moment, until: Moment) -> Vec<(Moment, Moment)> {
    let Asleep { bed, up } = asleep;
    let mut nights = Vec::new();
    let mut from = clock::next_time_of_day(bed, now);
    // In the night it is this one first.
    let wakes = clock::next_time_of_day(up, now);
    if wakes < from && now < until {
        nights.push((now, wakes));
    }
    while from < until && nights.len() < MOST_NIGHTS {
        let to = clock::next_time_of_day(up, from + minutes(1.0));
        nights.push((from, to));
        from = clock::next_time_of_day(bed, to);
    }
    nights
}
