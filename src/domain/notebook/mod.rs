//! Finished bakes: what was planned, what happened, and what to do differently.
//!
//! Everything but the baker's own words is derived from the bake's log.

use crate::bake::{Bake, BakeId, Ended, Entry, Event, Noted, Reading, State};
use crate::formula::{ComponentId, Draft, FormulaId, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::schedule::outline;
use crate::schedule::plan::{What, patience, timetable};
use crate::sorted;
use crate::thermal::oven::BakeForm;
use crate::units::{Celsius, Grams, Minutes, Moment, Share};

/// What the baker wrote about a bake.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// The bake.
    pub bake: BakeId,
    /// What was baked.
    pub formula: FormulaId,
    /// The form of its pieces, where it wasn't the formula's own.
    pub form: Option<BakeForm>,
    /// When the bake ended, which orders notes.
    pub at: Moment,
    /// How it was.
    pub text: String,
    /// What to do differently next time, at which step.
    pub differently: Vec<(StepId, String)>,
}

/// What earlier bakes of a formula say about a step, newest first.
///
/// Of the steps that hang on a piece's form only bakes in the same form say anything.
#[must_use]
pub fn lessons<'a>(notes: &'a [Note], formula: &Draft, step: &Step) -> Vec<&'a str> {
    let form = formula.other_form();
    let hangs_on_form = matches!(
        step.kind,
        StepKind::FinalProof | StepKind::Bake | StepKind::Cool
    );
    let mut matching: Vec<&Note> = notes
        .iter()
        .filter(|note| note.formula == formula.id && (note.form == form || !hangs_on_form))
        .collect();
    sorted::by_key(&mut matching, |note| std::cmp::Reverse(note.at));
    matching
        .into_iter()
        .flat_map(|note| &note.differently)
        .filter(|(at, text)| *at == step.id && !text.trim().is_empty())
        .map(|(_, text)| text.as_str())
        .collect()
}

/// One step of a bake, as it was planned and as it happened.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The step.
    pub step: StepId,
    /// When it was to end.
    pub planned: Option<Moment>,
    /// How it ended.
    pub ended: Option<Ended>,
    /// Folds that were made or left out, oldest first.
    pub folds: Vec<Ended>,
    /// How often "not yet" was said of its end.
    pub not_yet: u16,
}

impl Row {
    /// How much later than planned it ended; negative when earlier.
    #[must_use]
    pub fn late_by(&self) -> Option<Minutes> {
        Some(self.ended?.at - self.planned?)
    }
}

/// Masses of divided pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Masses {
    /// How many were weighed.
    pub weighed: usize,
    /// The lightest.
    pub least: Grams,
    /// The heaviest.
    pub most: Grams,
    /// The mean of those weighed.
    pub mean: Grams,
}

/// A bake looked back on.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary {
    /// Every step, in the formula's order.
    pub rows: Vec<Row>,
    /// The kitchen's temperatures that were taken while it went on.
    pub air: Vec<(Moment, Celsius)>,
    /// Doughs' temperatures.
    pub doughs: Vec<Reading<ComponentId>>,
    /// Temperatures in the middle.
    pub cores: Vec<Reading<StepId>>,
    /// Where doughs and fillings were put.
    pub moves: Vec<Noted<Place>>,
    /// How far doughs were seen to have risen.
    pub looks: Vec<Noted<Share>>,
    /// Piece masses, if any were taken.
    pub masses: Option<Masses>,
}

/// Looks back on a bake. What it is held against is the plan as it was made when it was last wished for a table before
/// it had to begin, beside others if there were any, and otherwise what its start promised.
#[must_use]
pub fn summary(bake: &Bake, others: &[&Bake]) -> Summary {
    let state = bake.state();
    let planned = planned_for_table(bake, others).unwrap_or_else(|| planned_at_start(bake));
    let rows = state.formula.steps.iter().map(|step| {
        let progress = state.progress(step.id);
        let plan = planned.iter().find(|(of, _)| *of == step.id);
        Row {
            step: step.id,
            planned: plan.map(|&(_, end)| end),
            ended: progress.ended,
            folds: progress.folds.clone(),
            not_yet: progress.rounds,
        }
    });
    Summary {
        rows: rows.collect(),
        // The first is the kitchen as it was known at the start.
        air: state.air.iter().skip(1).copied().collect(),
        doughs: state.doughs.clone(),
        cores: state.cores.clone(),
        moves: state.moves.clone(),
        looks: state.looks.clone(),
        masses: masses(state.masses.values().copied()),
    }
}

/// When every step was to end, as it was planned.
type Ends = Vec<(StepId, Moment)>;

fn planned_at_start(bake: &Bake) -> Ends {
    let at = bake.state().started;
    let start = bake.log().first().and_then(|first| {
        let mut first = first.clone();
        // By the newest clock, as everything it is compared with.
        first.at = at;
        Bake::from_log(bake.id.clone(), vec![first])
    });
    let planned = start.map(|start| outline(start.state(), at).steps);
    let planned = planned.iter().flatten();
    planned.map(|planned| (planned.step, planned.end)).collect()
}

/// Nothing where it was for no table when it had to begin. Whoever wishes for one later finds it on its way.
fn planned_for_table(bake: &Bake, others: &[&Bake]) -> Option<Ends> {
    let log = bake.log();
    let until = |length: usize| State::fold(&log[..length]);
    let waits = |length: &usize| until(*length).is_some_and(|state| state.can_wait());
    let began = (1..=log.len()).rev().find(waits)?;
    let wishes = until(began)?.wishes;
    wishes.table?;
    let same = (1..=began).rev();
    let as_wished = |&length: &usize| until(length).is_some_and(|state| state.wishes == wishes);
    let wished = same.take_while(as_wished).last()?;
    // What was wished of another bread until then moved this one as well.
    let begins = log.get(began).map(|entry| entry.at);
    let wishes = others.iter().flat_map(|other| {
        let is_wish = |entry: &&Entry| matches!(entry.event, Event::Started(_) | Event::Wished(_));
        other.log().iter().filter(is_wish).map(|entry| entry.at)
    });
    let before = wishes.filter(|&at| begins.is_none_or(|begins| at < begins));
    let at = before.fold(log[wished - 1].at, Moment::max);
    let known = |log: &[Entry]| log.iter().take_while(|entry| entry.at <= at).count();

    let own = until(known(log).clamp(wished, began))?;
    let beside = others.iter().filter_map(|other| {
        let state = State::fold(&other.log()[..known(other.log())])?;
        Some(state).filter(|state| !state.is_over() && !state.all_ended())
    });
    let mut states: Vec<State> = beside.collect();
    // In the order in which they were begun, as the plan had them.
    let place = states.partition_point(|other| other.started < own.started);
    let set = bake.state().started - own.started;
    states.insert(place, own);
    let all: Vec<&State> = states.iter().collect();
    let found = timetable(&all, at, None, &mut patience())?;
    let items = found.plan.items.iter();
    let own = items.filter_map(|item| match item.what {
        What::Step(of, step) if of == place => Some((step, item.end + set)),
        _ => None,
    });
    Some(own.collect())
}

fn masses(pieces: impl Iterator<Item = Grams> + Clone) -> Option<Masses> {
    let weighed = pieces.clone().count();
    let least = pieces.clone().reduce(Grams::min)?;
    let most = pieces.clone().reduce(Grams::max)?;
    let sum: Grams = pieces.sum();
    Some(Masses {
        weighed,
        least,
        most,
        mean: sum * (1.0 / weighed as f64),
    })
}
