//! Finished bakes: what was planned, what happened, and what to do differently.
//!
//! Everything but the baker's own words is derived from the bake's log.

use crate::bake::{Bake, BakeId, Ended, Noted, Reading};
use crate::formula::{ComponentId, Draft, FormulaId, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::schedule::{Outline, Planned, outline};
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

/// One step of a bake, as planned at the start and as it happened.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The step.
    pub step: StepId,
    /// As planned when the bake began.
    pub planned: Option<Planned>,
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
        Some(self.ended?.at - self.planned?.end)
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

/// Looks back on a bake.
#[must_use]
pub fn summary(bake: &Bake) -> Summary {
    let state = bake.state();
    let planned = planned_at_start(bake);
    let rows = state.formula.steps.iter().map(|step| {
        let progress = state.progress(step.id);
        let mut plans = planned.iter().flat_map(|outline| &outline.steps);
        Row {
            step: step.id,
            planned: plans.find(|planned| planned.step == step.id).copied(),
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

fn planned_at_start(bake: &Bake) -> Option<Outline> {
    let mut first = bake.log().first()?.clone();
    // By the newest clock, as everything it is compared with.
    let at = bake.state().started;
    first.at = at;
    let start = Bake::from_log(bake.id.clone(), vec![first])?;
    Some(outline(start.state(), at))
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
