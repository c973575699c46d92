//! Where a bake stands: the fold of its log.
//!
//! The fold is total. An entry that makes no sense where it stands (a step that
//! isn't there, a fold of a dough that isn't rising) changes nothing, so that
//! every prefix of every log has a state.

use std::collections::{BTreeMap, BTreeSet};

use super::event::{AlarmId, Entry, Event, Mark, TimerId};
use super::forecast::filling;
use crate::formula::{ComponentId, Formula, Length, Step, StepId};
use crate::kitchen::Kitchen;
use crate::thermal::cooling::FilmSpread;
use crate::units::{Celsius, Grams, Minutes, Moment};

/// Whether the bake goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// It goes on.
    Running,
    /// The baker is away. The dough isn't.
    Paused {
        /// Since when.
        since: Moment,
    },
    /// It is over and went to the notebook.
    Finished {
        /// Since when.
        at: Moment,
    },
    /// It was given up.
    Abandoned {
        /// Since when.
        at: Moment,
    },
}

/// How a step ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// The baker said it was done.
    Done,
    /// The baker left it out.
    Skipped,
}

/// The end of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ended {
    /// When.
    pub at: Moment,
    /// How.
    pub how: How,
}

/// How far a step has got.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Progress {
    /// When it could start: everything it follows had ended. What goes on by itself started then.
    pub open_since: Option<Moment>,
    /// Its end.
    pub ended: Option<Ended>,
    /// When each fold was made.
    pub folds: Vec<Moment>,
    /// The moment to look again, after "not yet".
    pub look_again: Option<Moment>,
    /// How often "not yet" was said.
    pub rounds: u16,
    /// The marks of its checklist.
    pub marks: BTreeSet<Mark>,
}

/// A temperature somebody took.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading<Of> {
    /// When.
    pub at: Moment,
    /// Of what.
    pub of: Of,
    /// How warm it was.
    pub temperature: Celsius,
}

/// A timer that the baker set.
#[derive(Debug, Clone, PartialEq)]
pub struct Timer {
    /// What for.
    pub name: String,
    /// When it was set.
    pub set: Moment,
    /// When it rings.
    pub due: Moment,
}

/// Where a bake stands.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// What is baked.
    pub formula: Formula,
    /// The kitchen as last known.
    pub kitchen: Kitchen,
    /// When the bake began.
    pub started: Moment,
    /// Whether it goes on.
    pub status: Status,
    /// The kitchen's air over time, oldest first; never empty.
    pub air: Vec<(Moment, Celsius)>,
    /// Doughs' temperatures, oldest first.
    pub doughs: Vec<Reading<ComponentId>>,
    /// Temperatures in the middle of pieces and fillings, oldest first.
    pub cores: Vec<Reading<StepId>>,
    /// Masses of divided pieces, by piece from 0.
    pub masses: BTreeMap<u16, Grams>,
    /// Timers that are set, ringing or not.
    pub timers: BTreeMap<TimerId, Timer>,
    /// How many timers have ever been set, which numbers the next.
    pub timers_set: u32,
    /// Alarms that were heard, each with the newest moment it was.
    pub acknowledged: BTreeMap<AlarmId, Moment>,
    /// The step the baker turned to.
    pub picked: Option<StepId>,
    /// The moment of the newest entry.
    pub newest: Moment,
    steps: BTreeMap<StepId, Progress>,
    // Follows from the formula alone, and takes too long to reckon at every look.
    fillings: BTreeMap<StepId, FilmSpread>,
}

impl State {
    /// The state after a whole log. `None` when it doesn't begin with the start of a bake.
    #[must_use]
    pub fn fold(log: &[Entry]) -> Option<Self> {
        let undone = undone(log);
        let mut entries = log.iter().zip(0_u32..);
        let (first, _) = entries.next()?;
        let mut state = Self::start(first)?;
        for (entry, place) in entries {
            if undone.contains(&place) {
                continue;
            }
            state.apply(entry);
        }
        Some(state)
    }

    fn start(first: &Entry) -> Option<Self> {
        let Event::Started(start) = &first.event else {
            return None;
        };
        let steps = start.formula.steps.iter();
        let mut state = Self {
            formula: start.formula.clone(),
            kitchen: start.kitchen,
            started: first.at,
            status: Status::Running,
            air: vec![(first.at, start.kitchen.air)],
            doughs: Vec::new(),
            cores: Vec::new(),
            masses: BTreeMap::new(),
            timers: BTreeMap::new(),
            timers_set: 0,
            acknowledged: BTreeMap::new(),
            picked: None,
            newest: first.at,
            steps: steps.map(|step| (step.id, Progress::default())).collect(),
            fillings: fillings(&start.formula),
        };
        state.open_steps();
        Some(state)
    }

    /// The filling that a step chills, in its dish.
    pub(super) fn filling(&self, step: StepId) -> Option<&FilmSpread> {
        self.fillings.get(&step)
    }

    /// How far a step has got. A step that isn't there has not got anywhere.
    #[must_use]
    pub fn progress(&self, step: StepId) -> &Progress {
        static NOWHERE: Progress = Progress {
            open_since: None,
            ended: None,
            folds: Vec::new(),
            look_again: None,
            rounds: 0,
            marks: BTreeSet::new(),
        };
        self.steps.get(&step).unwrap_or(&NOWHERE)
    }

    /// Whether a step has started or could start, and has not ended.
    #[must_use]
    pub fn is_open(&self, step: StepId) -> bool {
        let progress = self.progress(step);
        progress.open_since.is_some() && progress.ended.is_none()
    }

    /// Whether every step has ended.
    #[must_use]
    pub fn all_ended(&self) -> bool {
        self.steps.values().all(|step| step.ended.is_some())
    }

    /// Whether the bake is over, one way or the other.
    #[must_use]
    pub fn is_over(&self) -> bool {
        matches!(
            self.status,
            Status::Finished { .. } | Status::Abandoned { .. }
        )
    }

    /// The newest reading of a dough.
    #[must_use]
    pub fn dough_reading(&self, component: ComponentId) -> Option<Reading<ComponentId>> {
        let mut newest_first = self.doughs.iter().rev();
        newest_first
            .find(|reading| reading.of == component)
            .copied()
    }

    /// The newest reading in the middle of a step's pieces.
    #[must_use]
    pub fn core_reading(&self, step: StepId) -> Option<Reading<StepId>> {
        let mut newest_first = self.cores.iter().rev();
        newest_first.find(|reading| reading.of == step).copied()
    }

    /// Takes in one more entry. [`Event::Undone`] needs the whole log and is left to [`State::fold`].
    pub(super) fn apply(&mut self, entry: &Entry) {
        if self.is_over() {
            return; // A bake that is over stays as it was.
        }
        let at = entry.at;
        self.newest = self.newest.max(at);
        match &entry.event {
            Event::Started(_) | Event::Undone { .. } => {}
            Event::Picked { step } if self.is_open(*step) => self.picked = Some(*step),
            Event::Picked { .. } => {}
            Event::Done { step } => self.end(*step, at, How::Done),
            Event::Skipped { step } => self.end(*step, at, How::Skipped),
            Event::Reopened { step } => self.reopen(*step),
            Event::Marked { step, mark, on } => {
                if let Some(progress) = self.open_step(*step) {
                    if *on {
                        progress.marks.insert(*mark);
                    } else {
                        progress.marks.remove(mark);
                    }
                }
            }
            Event::Folded { step } => {
                if let Some(progress) = self.open_step(*step) {
                    progress.folds.push(at);
                }
            }
            Event::Extended { step, by } => {
                if let Some(progress) = self.open_step(*step) {
                    progress.look_again = Some(at + *by);
                    progress.rounds = progress.rounds.saturating_add(1);
                    // "Not yet" turns away from it, so that other work is offered meanwhile.
                    self.picked = self.picked.filter(|picked| picked != step);
                }
            }
            Event::KitchenMeasured { air } => {
                let place = self.air.partition_point(|&(before, _)| before <= at);
                self.air.insert(place, (at, *air));
                self.kitchen.air = self.air.last().map_or(*air, |&(_, newest)| newest);
            }
            Event::DoughMeasured {
                component,
                temperature,
            } => {
                let (of, temperature) = (*component, *temperature);
                take_in(
                    &mut self.doughs,
                    Reading {
                        at,
                        of,
                        temperature,
                    },
                );
            }
            Event::CoreMeasured { step, temperature } => {
                let (of, temperature) = (*step, *temperature);
                take_in(
                    &mut self.cores,
                    Reading {
                        at,
                        of,
                        temperature,
                    },
                );
            }
            Event::PieceWeighed { piece, mass } => {
                if *piece < self.formula.pieces.count {
                    self.masses.insert(*piece, *mass);
                }
            }
            Event::TimerSet {
                timer,
                name,
                length,
            } => self.set_timer(*timer, name, at, *length),
            Event::TimerStopped { timer } => {
                self.timers.remove(timer);
            }
            Event::Acknowledged { alarm } => {
                self.acknowledged.insert(*alarm, at);
            }
            Event::Paused => self.status = Status::Paused { since: at },
            Event::Resumed => self.status = Status::Running,
            Event::Finished => self.status = Status::Finished { at },
            Event::Abandoned => self.status = Status::Abandoned { at },
        }
    }

    fn open_step(&mut self, step: StepId) -> Option<&mut Progress> {
        let progress = self.steps.get_mut(&step)?;
        (progress.open_since.is_some() && progress.ended.is_none()).then_some(progress)
    }

    fn set_timer(&mut self, timer: TimerId, name: &str, at: Moment, length: Minutes) {
        self.timers_set = self.timers_set.max(timer.0.saturating_add(1));
        let timer_state = Timer {
            name: name.to_owned(),
            set: at,
            due: at + length,
        };
        self.timers.insert(timer, timer_state);
    }

    fn end(&mut self, step: StepId, at: Moment, how: How) {
        let Some(progress) = self.open_step(step) else {
            return;
        };
        progress.ended = Some(Ended { at, how });
        if self.picked == Some(step) {
            self.picked = None;
        }
        self.open_steps();
    }

    /// Going back keeps when the step started, so that what has been proofed
    /// stays proofed; what had opened because of its end closes again, and when
    /// it opens next it starts anew, with its folds before it. Marks stay: they
    /// tell what was done by hand.
    fn reopen(&mut self, step: StepId) {
        let Some(progress) = self.steps.get_mut(&step) else {
            return;
        };
        progress.ended = None;
        loop {
            let mut closed_any = false;
            let closing: Vec<StepId> = self
                .formula
                .steps
                .iter()
                .filter(|step| self.is_open(step.id) && self.opening_of(step).is_none())
                .map(|step| step.id)
                .collect();
            for id in closing {
                if let Some(progress) = self.steps.get_mut(&id) {
                    progress.open_since = None;
                    progress.folds.clear();
                    progress.look_again = None;
                    closed_any = true;
                }
            }
            if !closed_any {
                break;
            }
        }
    }

    /// Opens every step whose links are now met.
    fn open_steps(&mut self) {
        let opening: Vec<(StepId, Moment)> = self
            .formula
            .steps
            .iter()
            .filter(|step| self.progress(step.id).open_since.is_none())
            .filter_map(|step| Some((step.id, self.opening_of(step)?)))
            .collect();
        for (id, at) in opening {
            if let Some(progress) = self.steps.get_mut(&id) {
                progress.open_since = Some(at);
            }
        }
    }

    /// When everything that a step follows had ended long enough ago, if it all has.
    fn opening_of(&self, step: &Step) -> Option<Moment> {
        let mut opens = self.started;
        for link in &step.after {
            let ended = self.progress(link.step).ended?;
            opens = opens.max(ended.at + link.least);
        }
        Some(opens)
    }
}

/// Puts a reading where its moment belongs: where two tabs wrote, an older one can stand later in the log.
fn take_in<Of>(readings: &mut Vec<Reading<Of>>, reading: Reading<Of>) {
    let place = readings.partition_point(|before| before.at <= reading.at);
    readings.insert(place, reading);
}

fn fillings(formula: &Formula) -> BTreeMap<StepId, FilmSpread> {
    let chilled = |step: &Step| {
        let Length::Chill { depth, cooling, .. } = step.length else {
            return None;
        };
        Some((step.id, filling(formula, step, depth, cooling)))
    };
    formula.steps.iter().filter_map(chilled).collect()
}

/// The places of entries that later ones took back.
pub(super) fn undone(log: &[Entry]) -> BTreeSet<u32> {
    (0_u32..)
        .zip(log)
        .filter_map(|(place, entry)| match &entry.event {
            Event::Undone { entries } => Some((place, entries)),
            _ => None,
        })
        // What comes after it can't have been taken back by it.
        .flat_map(|(place, entries)| entries.iter().filter(move |&&earlier| earlier < place))
        .copied()
        .collect()
}
