//! Finished bakes: what was planned, what happened, and what to do differently.
//!
//! Everything but the baker's own words is derived from the bake's log.

use crate::bake::{Bake, BakeId, Ended, Entry, Event, Noted, Reading, State};
use crate::formula::{ComponentId, Draft, FormulaId, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::schedule::outline;
use crate::schedule::plan::{Timetable, What, patience, timetable};
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
        Some(self.ended?.at.clock_minute() - self.planned?.clock_minute())
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

/// Looks back on a bake, beside what else was baked then. Each step is held against the plan as it was just before that
/// step was begun, which is what the baker went by.
#[must_use]
pub fn summary(bake: &Bake, others: &[&Bake]) -> Summary {
    let state = bake.state();
    let rows = rows(state, &followed(bake, others));
    Summary {
        rows,
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

/// What became of each step, beside what was planned of it.
fn rows(state: &State, planned: &[(StepId, Moment)]) -> Vec<Row> {
    let steps = state.formula.steps.iter();
    let rows = steps.map(|step| {
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
    rows.collect()
}

/// The steps of a bake beside what its start promised: quickly reckoned, for a list of bakes.
#[must_use]
pub fn as_begun(bake: &Bake) -> Vec<Row> {
    rows(bake.state(), &planned_at_start(bake))
}

/// When every step was to end by the plan just before it was begun; by the last plan where it never was.
///
/// Plans aren't stored, so each is made again from what was known then, after the one before it, whose beginnings it keeps
/// to.
fn followed(bake: &Bake, others: &[&Bake]) -> Ends {
    let (log, state) = (bake.log(), bake.state());
    // A clock that is set tells nothing of the bread.
    let tells = |entry: &Entry| !matches!(entry.event, Event::ClockSet { .. });
    let last = log.iter().rposition(tells).map_or(0, |place| place + 1);
    let known: Vec<State> = (1..=last)
        .filter_map(|length| State::fold(&log[..length]))
        .collect();
    // What was taken back was begun for good only later.
    let waits = |step: &Step| known.iter().rposition(|known| !known.is_begun(step));
    let mut ends = Ends::new();
    let mut plan: Option<Timetable> = None;
    for (place, known) in known.iter().enumerate() {
        let steps = state.formula.steps.iter();
        let mut begun = steps
            .filter(|step| waits(step).unwrap_or(0) == place)
            .peekable();
        if begun.peek().is_none() {
            continue;
        }
        let until = log.get(place + 1).map(|entry| entry.at);
        let (found, own) = plan_then(known, others, until, plan.as_ref());
        // By the newest clock, as everything it is compared with.
        let set = state.started - known.started;
        for step in begun {
            let item = found
                .as_ref()
                .and_then(|found| found.plan.item(What::Step(own, step.id)));
            ends.extend(item.map(|item| (step.id, item.end + set)));
        }
        plan = found;
    }
    ends
}

/// The plan with what was known of a bake, and of others until a moment, and the place of the bake in it.
fn plan_then(
    known: &State,
    others: &[&Bake],
    until: Option<Moment>,
    before: Option<&Timetable>,
) -> (Option<Timetable>, usize) {
    let beside = others.iter().filter_map(|other| {
        let log = other.log().iter();
        let length = log.take_while(|entry| until.is_none_or(|until| entry.at < until));
        let state = State::fold(&other.log()[..length.count()])?;
        Some(state).filter(|state| !state.is_over() && !state.all_ended())
    });
    let mut states: Vec<State> = beside.collect();
    // In the order in which they were begun, as the plan had them.
    let place = states.partition_point(|other| other.started < known.started);
    states.insert(place, known.clone());
    let at = states.iter().map(|state| state.newest).max();
    let all: Vec<&State> = states.iter().collect();
    // One of more or fewer breads has other places.
    let before = before.filter(|before| before.begins.len() == all.len());
    let plan = timetable(&all, at.unwrap_or(known.newest), before, &mut patience());
    (plan, place)
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
