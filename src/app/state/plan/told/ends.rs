//! The ends of a plan: how they stand to their tables, what hangs on them, and why one is sooner than it has to be.

use domain::bake::State;
use domain::schedule::plan::{Item, Margin, What, table_of};
use domain::units::Moment;

use crate::state::Planned;
use crate::words;

/// What the end for each table hangs on, or that of everything where no table is wished.
pub(super) fn chains(planned: &Planned, states: &[&State]) -> Vec<(Option<Moment>, Vec<usize>)> {
    let plan = &planned.timetable.plan;
    let mut chains = Vec::new();
    for Margin { table, .. } in &planned.timetable.margins {
        chains.push((Some(*table), plan.critical_of(&of_table(*table, states))));
    }
    if chains.is_empty() {
        chains.push((None, plan.critical()));
    }
    for (_, chain) in &mut chains {
        // What was put off beyond a time away for its own sake isn't kept by that.
        let is_tight = |away: &Item, next: &Item| (next.start - away.end).get() < 1.5;
        if let [first, next, ..] = chain[..]
            && plan.items[first].what == What::Away
            && !is_tight(&plan.items[first], &plan.items[next])
        {
            chain.remove(0);
        }
    }
    chains
}

/// Of several tables those that hang on an item.
pub(super) fn tables_on(chains: &[(Option<Moment>, Vec<usize>)], place: usize) -> Vec<Moment> {
    let several = chains.len() > 1;
    let on_it = chains.iter();
    let on_it = on_it.filter(|(_, chain)| several && chain.contains(&place));
    on_it.filter_map(|&(table, _)| table).collect()
}

pub(super) fn margins(
    planned: &Planned,
    states: &[&State],
    names: &[String],
) -> Vec<(Option<String>, Margin)> {
    let margins = planned.timetable.margins.iter();
    let told = margins.map(|margin| {
        let bakes = of_table(margin.table, states);
        let name = |&bake: &usize| names[bake].clone();
        let whose = words::listed(&bakes.iter().map(name).collect::<Vec<_>>());
        ((bakes.len() < states.len()).then_some(whose), *margin)
    });
    told.collect()
}

/// Of a bread that is ready sooner than it has to be.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Early {
    /// The bread that has the oven when this one could be baked otherwise, and from when on it has.
    pub(crate) oven_then: Option<(String, Moment)>,
    /// Whether something of it keeps only in the fridge.
    pub(crate) spoils: bool,
}

/// What is for a table and ready sooner than it has to be couldn't be baked as late as that where the oven is another
/// bread's by then.
pub(super) fn early(planned: &Planned, states: &[&State], names: &[String]) -> Vec<Early> {
    let mut then = Vec::new();
    for margin in &planned.timetable.margins {
        let mut out = None;
        // By their starts, so whatever comes after the last that is out is another bread's.
        let mut next = None;
        for item in &planned.timetable.plan.items {
            let What::Step(bake, step) = item.what else {
                continue;
            };
            let step = states[bake].formula.step(step);
            if !step.is_some_and(|step| step.needs.oven) {
                continue;
            }
            if table_of(states[bake]) == Some(margin.table) {
                (out, next) = (Some(item.end), None);
            } else if next.is_none() {
                next = Some((bake, item.start));
            }
        }
        let latest = out.map(|out| out + (margin.spare() - margin.buffer));
        let next = next.filter(|&(_, start)| out <= Some(start) && Some(start) < latest);
        let keeps = |state: &State| {
            let mut steps = state.formula.steps.iter();
            steps.any(|step| state.kept_after(step).is_some())
        };
        let mut of = of_table(margin.table, states).into_iter();
        then.push(Early {
            oven_then: next.map(|(bake, start)| (names[bake].clone(), start)),
            spoils: of.any(|bake| keeps(states[bake])),
        });
    }
    then
}

/// The places of the bakes that are for a table.
pub(crate) fn of_table(table: Moment, states: &[&State]) -> Vec<usize> {
    let bakes = states.iter().enumerate();
    let of = bakes.filter(|(_, state)| table_of(state) == Some(table));
    of.map(|(bake, _)| bake).collect()
}
