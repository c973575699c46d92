//! The ends of a plan: how they stand to their tables, what hangs on them, and why one is sooner than it has to be.

use domain::bake::{HOT_KITCHEN, PERISHABLE_LIMIT, PERISHABLE_LIMIT_HOT, State};
use domain::formula::{Length, StepKind};
use domain::schedule::plan::{Item, Margin, What, away, table_of};
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

/// Of what is for a table, beside how it stands to that.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Early {
    /// Why it is ready sooner than it has to be.
    pub(crate) because: Option<Because>,
    /// Whether something of it keeps only in the fridge.
    pub(crate) spoils: bool,
    /// What of that is out of the oven for longer before the table than it may stand out, where there are other breads.
    pub(crate) cold: Option<Vec<String>>,
    /// What is least sure of how long it takes.
    pub(crate) unsure: Unsure,
}

/// What a table has time to spare for: of all that is left, what is least sure of how long it takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Unsure {
    /// Rises, which hang on yeast and warmth.
    Rises,
    /// Baking.
    Bakes,
    /// What cools.
    Cools,
    /// What rests, or stands in the fridge.
    Rests,
    /// Hands.
    Hands,
}

impl Unsure {
    fn of<'a>(left: impl Iterator<Item = &'a Length> + Clone) -> Self {
        let any = |is: fn(&Length) -> bool| left.clone().any(is);
        if any(|length| matches!(length, Length::Ferment { .. })) {
            Self::Rises
        } else if any(|length| matches!(length, Length::Bake { .. })) {
            Self::Bakes
        } else if any(|length| matches!(length, Length::Cool { .. } | Length::Chill { .. })) {
            Self::Cools
        } else if any(|length| matches!(length, Length::Wait(_))) {
            Self::Rests
        } else {
            Self::Hands
        }
    }
}

/// Why bread is ready sooner than it has to be: later something would be in its way.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Because {
    /// It goes on already.
    GoesOn,
    /// Another bread has the oven from a moment on.
    Oven(String, Moment),
    /// Nobody is there from one moment to another.
    Nobody(Moment, Moment),
    /// The hands are at another bread.
    Hands(String),
}

/// How what is for each table is early. Bread is as late as its table allows, unless that would bring it into the way of
/// something that stays where it is: the oven that another bread has by then, hands that are there, or nobody's.
pub(super) fn early(planned: &Planned, states: &[&State], names: &[String]) -> Vec<Early> {
    let items = &planned.timetable.plan.items;
    let step = |item: &Item| match item.what {
        What::Step(bake, step) => Some((bake, states[bake].formula.step(step)?)),
        _ => None,
    };
    let away = away(states);
    let early = |margin: &Margin| {
        let is_for = |bake: usize| table_of(states[bake]) == Some(margin.table);
        let later = margin.spare() - margin.buffer;
        let hands = || {
            let of = items.iter().filter_map(|item| Some((item, step(item)?)));
            of.filter(|(_, (_, step))| step.is_hands() && step.kind != StepKind::Serve)
        };
        let own = || hands().filter(|&(_, (bake, _))| is_for(bake));
        let meets = |from: Moment, to: Moment| {
            let mut own = own();
            own.any(|(item, _)| item.start < to && from < item.end + later)
        };
        // By their starts, so whatever comes after the last that is out is another bread's.
        let ovens = || {
            let of = items.iter().filter_map(|item| Some((item, step(item)?)));
            of.filter(|(_, (_, step))| step.needs.oven)
        };
        let out = ovens().rfind(|&(_, (bake, _))| is_for(bake));
        let out = out.map(|(item, _)| item.end);
        let mut next =
            ovens().filter(|(item, (bake, _))| !is_for(*bake) && out <= Some(item.start));
        let next = next.next().filter(|(item, _)| {
            let latest = out.map(|out| out + later);
            Some(item.start) < latest
        });
        let mut of = of_table(margin.table, states).into_iter();
        let because = if of.clone().any(|bake| !states[bake].can_wait()) {
            Some(Because::GoesOn)
        } else if let Some((item, (bake, _))) = next {
            Some(Because::Oven(names[bake].clone(), item.start))
        } else if let Some(&(from, to)) = away.iter().rfind(|&&(from, to)| meets(from, to)) {
            Some(Because::Nobody(from, to))
        } else {
            let mut others = hands().filter(|&(_, (bake, _))| !is_for(bake));
            let other = others.find(|(item, _)| meets(item.start, item.end));
            other.map(|(_, (bake, _))| Because::Hands(names[bake].clone()))
        };
        let keeps = |bake: usize| {
            let mut steps = states[bake].formula.steps.iter();
            steps.any(|step| states[bake].kept_after(step).is_some())
        };
        let is_cold = |&bake: &usize| {
            let limit = if states[bake].kitchen.air > HOT_KITCHEN {
                PERISHABLE_LIMIT_HOT
            } else {
                PERISHABLE_LIMIT
            };
            let out = ovens().rfind(|&(_, (of, _))| of == bake);
            keeps(bake) && out.is_some_and(|(item, _)| margin.table - item.end > limit)
        };
        let cold = of.clone().filter(is_cold).map(|bake| names[bake].clone());
        let cold: Vec<String> = cold.collect();
        let left = items.iter().filter_map(step);
        let left = left.filter(|&(bake, _)| is_for(bake));
        Early {
            because,
            spoils: of.any(keeps),
            cold: (!cold.is_empty()).then_some(cold),
            unsure: Unsure::of(left.map(|(_, step)| &step.length)),
        }
    };
    planned.timetable.margins.iter().map(early).collect()
}

/// The places of the bakes that are for a table.
pub(crate) fn of_table(table: Moment, states: &[&State]) -> Vec<usize> {
    let bakes = states.iter().enumerate();
    let of = bakes.filter(|(_, state)| table_of(state) == Some(table));
    of.map(|(bake, _)| bake).collect()
}

#[cfg(test)]
mod tests {
    use checks::{begin, say, starter};
    use domain::bake::{Bake, BakeId, Intent, Wishes};
    use domain::kitchen::Kitchen;
    use domain::schedule::plan::timetable;
    use domain::units::minutes;

    use super::*;

    const NINE: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    fn hours(hours: f64) -> Moment {
        NINE + minutes(60.0 * hours)
    }

    /// What is told of some starters, each for a table so many hours ahead.
    fn told(of: &[(&str, f64)], away: &[(f64, f64)]) -> Vec<Early> {
        let bake = |(nth, &(id, table)): (usize, &(&str, f64))| {
            let begun = begin(starter(id), Kitchen::UNMEASURED, NINE);
            let mut bake = Bake::from_log(BakeId(nth.to_string()), begun.log().to_vec())
                .expect("its log is a bake's");
            let wishes = Wishes {
                table: Some(hours(table)),
                away: away
                    .iter()
                    .map(|&(from, to)| (hours(from), hours(to)))
                    .collect(),
                ..Wishes::default()
            };
            say(&mut bake, Intent::Wish(Box::new(wishes)), NINE);
            bake
        };
        let bakes: Vec<Bake> = of.iter().enumerate().map(bake).collect();
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let found = timetable(&states, NINE, None, &mut || true).expect("there is a plan");
        let planned = Planned::new(&bakes, found, NINE, None);
        let names: Vec<String> = (1..=bakes.len())
            .map(|nth| format!("Bread {nth}"))
            .collect();
        early(&planned, &states, &names)
    }

    /// Perishable food is chilled within two hours (Food Standards Agency; USDA): of two batches for one table one is out
    /// of the oven for longer than that before it.
    #[test]
    fn each_filled_bread_that_is_out_too_long_before_its_table_is_named() {
        let buns = ("plum-almond-buns", 9.0);
        let alone = told(&[buns], &[]);
        assert!(alone[0].spoils && alone[0].cold.is_none(), "{alone:?}");
        let two = told(&[buns, buns], &[]);
        assert_eq!(two.len(), 1);
        let cold = two[0].cold.as_ref().expect("the first is out long before");
        assert_eq!(cold.len(), 1, "{cold:?}");
        // What isn't filled waits on the rack.
        let loaf = ("overnight-tin-loaf", 40.0);
        let loaves = told(&[loaf, loaf], &[]);
        assert_eq!(loaves[0].cold, None);
    }

    /// Of what is left of a bake only rises hang on yeast, and what comes after them is surer. Common practice, no source.
    #[test]
    fn what_is_least_sure_is_told_by_what_is_left() {
        let steps = starter("plum-almond-buns").steps.clone();
        let left = |from: StepKind| {
            let first = steps.iter().position(|step| step.kind == from);
            let left = &steps[first.expect("the buns have it")..];
            Unsure::of(left.iter().map(|step| &step.length))
        };
        assert_eq!(left(StepKind::Gather), Unsure::Rises);
        assert_eq!(left(StepKind::FinalProof), Unsure::Rises);
        assert_eq!(left(StepKind::Wash), Unsure::Bakes);
        assert_eq!(left(StepKind::Cool), Unsure::Cools);
        assert_eq!(left(StepKind::Finish), Unsure::Hands);
        let rest = steps.iter().find(|step| step.kind == StepKind::BenchRest);
        let rest = rest.map(|step| &step.length);
        assert_eq!(Unsure::of(rest.into_iter()), Unsure::Rests);
    }

    #[test]
    fn what_is_sooner_than_it_has_to_be_has_a_reason() {
        let table = 23.0;
        let free = told(&[("orange-braid", table)], &[]);
        // From eleven at night until half past six nobody is there, and the table is at eight.
        let night = told(&[("orange-braid", table)], &[(14.0, 21.5)]);
        let nobody = Because::Nobody(hours(14.0), hours(21.5));
        assert_eq!(night[0].because, Some(nobody));
        assert_eq!(free[0].because, None);
    }
}
