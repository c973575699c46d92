//! How a log is folded, entry by entry, into where its bake stands.
//!
//! The fold is total. An entry that makes no sense where it stands (a step that
//! isn't there, a fold of a dough that isn't rising) changes nothing, so that
//! every prefix of every log has a state.

mod steps;

use super::event::{AlarmId, Entry, Event, TimerId};
use super::hot_body::bodies;
use super::progress::{How, Progress, Status, Timer, note, take_in};
use super::since;
use super::state::State;
use super::stay::can_be_retarded;
use super::timers::CALLED;
use super::undo::undone;
use super::windows::{Vessels, Windows};
use super::wishes::{self, Wishes};
use crate::formula::{Formula, StepId};
use crate::kitchen::Kitchen;
use crate::sorted::Map;
use crate::units::{Celsius, Grams, Minutes, Moment, minutes};

impl State {
    /// The state after a whole log. `None` when it doesn't begin with the start of a bake.
    #[must_use]
    pub fn fold(log: &[Entry]) -> Option<Self> {
        Self::fold_to(log, u32::MAX)
    }

    /// The state before the entry at a place, by all that is known of the moments before it.
    pub(super) fn fold_to(log: &[Entry], until: u32) -> Option<Self> {
        let undone = undone(log);
        let moments = since::moments(log, &undone);
        let mut entries = log.iter().zip(moments).zip(0..until);
        let ((first, at), _) = entries.next()?;
        let mut state = Self::start(&first.event, at)?;
        for ((entry, at), place) in entries {
            if undone.contains(&place) {
                continue;
            }
            if let Event::Undone { entries } = &entry.event {
                let gone = entries.iter().filter(|&&gone| gone < place);
                let mut gone = gone.filter_map(|&gone| log.get(gone as usize));
                let has_passed = gone.any(
                    |gone| matches!(gone.event, Event::Pinned { at: Some(pin), .. } if pin <= at),
                );
                if has_passed {
                    state.is_there(at);
                }
            }
            state.apply(&entry.event, at);
        }
        Some(state)
    }

    fn start(first: &Event, at: Moment) -> Option<Self> {
        let Event::Started(start) = first else {
            return None;
        };
        let steps = start.formula.steps.iter();
        let mut state = Self {
            formula: start.formula.clone(),
            kitchen: start.kitchen,
            started: at,
            status: Status::Running,
            air: vec![(at, start.kitchen.air)],
            fridge: vec![(at, start.kitchen.fridge)],
            doughs: Vec::new(),
            cores: Vec::new(),
            moves: Vec::new(),
            pourings: Vec::new(),
            looks: Vec::new(),
            masses: Map::new(),
            timers: Map::new(),
            timers_set: 0,
            acknowledged: Map::new(),
            picked: None,
            wishes: Wishes::default(),
            pins: Map::new(),
            retards: Map::new(),
            newest: at,
            begun: None,
            picked_since: at,
            marked_at: None,
            steps: steps.map(|step| (step.id, Progress::default())).collect(),
            bodies: bodies(&start.formula),
            vessels: Vessels::default(),
            windows: Windows::default(),
            supposed: None,
            moves_now: false,
        };
        state.open_steps();
        Some(state)
    }

    /// Takes in one more event at its moment. [`Event::Undone`], [`Event::ClockSet`] and [`Event::Since`] need the whole
    /// log and are left to [`State::fold`].
    pub(super) fn apply(&mut self, event: &Event, at: Moment) {
        if self.is_over() {
            return; // A bake that is over stays as it was.
        }
        self.forget_windows();
        self.newest = self.newest.max(at);
        if event.begins() {
            self.begun = self.begun.or(Some(at));
        }
        match event {
            Event::Started(_)
            | Event::ClockSet { .. }
            | Event::Since { .. }
            | Event::Undone { .. } => {}
            Event::Picked { step } if self.is_open(*step) => self.turn_to(*step, at),
            Event::Picked { .. } => {}
            Event::Done { step } => self.end(*step, at, How::Done),
            Event::Skipped { step } => self.end(*step, at, How::Skipped),
            Event::Reopened { step } => self.reopen(*step),
            Event::Marked { step, mark, on } => self.mark(*step, *mark, *on, at),
            Event::Folded { step } => self.fold_ended(*step, at, How::Done),
            Event::FoldSkipped { step } => self.fold_ended(*step, at, How::Skipped),
            Event::FoldPutOff { step, by } => self.put_fold_off(*step, at + *by),
            Event::Extended { step, by } => self.look_again(*step, at + *by),
            Event::KitchenMeasured { air } => self.air_measured(*air, at),
            Event::KitchenChanged(kitchen) => self.change_kitchen(kitchen, at),
            Event::DoughMeasured {
                component,
                temperature,
            } => take_in(&mut self.doughs, at, *component, *temperature),
            Event::CoreMeasured { step, temperature } => {
                take_in(&mut self.cores, at, *step, *temperature);
            }
            Event::OvenHot { step, oven } => self.oven_found_hot(*step, *oven),
            // What had ended by then was in somebody's hands.
            Event::Moved { step, place } if self.is_open(*step) => {
                self.moved_by_plan(*step, *place, at);
                note(&mut self.moves, at, *step, *place);
            }
            Event::RiseSeen { step, share, ago } if self.is_open(*step) => {
                note(&mut self.looks, at - ago.max(minutes(0.0)), *step, *share);
            }
            Event::Poured { step, held } if self.is_open(*step) => {
                note(&mut self.pourings, at, *step, *held);
            }
            Event::Moved { .. } | Event::Poured { .. } | Event::RiseSeen { .. } => {}
            Event::PieceWeighed { piece, mass } => self.weigh(*piece, *mass),
            Event::MassRemoved { piece } => {
                self.masses.remove(piece);
            }
            Event::TimerSet {
                timer,
                name,
                length,
            } => self.set_timer(*timer, name, at, *length),
            Event::TimerStopped { timer } => {
                self.timers.remove(timer);
            }
            Event::Wished(wishes) if wishes::check(wishes, at).is_err() => {}
            Event::Wished(wishes) => self.wishes = (**wishes).clone(),
            Event::Pinned { at: Some(to), .. } if wishes::ahead(*to, at).is_err() => {}
            Event::Pinned { step, at: to } => self.pin(*step, *to, at),
            Event::RetardPlanned { step, stay } => self.plan_stay(*step, *stay, at),
            Event::Refitted(formula) => self.refit(formula),
            Event::Acknowledged { alarm } => {
                self.acknowledged.insert(*alarm, at);
            }
            Event::Paused => self.status = Status::Paused { since: at },
            Event::Resumed => self.status = Status::Running,
            Event::Finished => self.status = Status::Finished { at },
            Event::Abandoned => self.status = Status::Abandoned { at },
        }
    }

    /// Who lets go of a step whose moment has passed, or fixes it anew, is there, and isn't called to begin for what was
    /// called by its own name.
    fn is_there(&mut self, at: Moment) {
        self.acknowledged.insert(AlarmId::Begin, at);
    }

    /// A step that starts at a moment, or whenever it can again; whoever says so of one that is past is there.
    fn pin(&mut self, step: StepId, to: Option<Moment>, at: Moment) {
        if self.pins.get(&step).is_some_and(|&pin| pin <= at) {
            self.is_there(at);
        }
        match to.filter(|_| self.progress(step).ended.is_none()) {
            Some(to) => {
                self.pins.insert(step, to);
                if to - at < CALLED {
                    let alarm = AlarmId::Fixed { step };
                    self.acknowledged.insert(alarm, at.max(to));
                }
            }
            None => {
                self.pins.remove(&step);
            }
        }
    }

    /// Another formula, from the moment of the start on, as long as nothing of the first was begun.
    fn refit(&mut self, formula: &Formula) {
        if self.has_begun() {
            return;
        }
        let steps = formula.steps.iter();
        self.steps = steps.map(|step| (step.id, Progress::default())).collect();
        self.bodies = bodies(formula);
        self.vessels = Vessels::default();
        self.formula = formula.clone();
        let kept = self
            .pins
            .iter()
            .filter(|(step, _)| self.steps.contains_key(step));
        self.pins = kept.map(|(&step, &at)| (step, at)).collect();
        let kept = self.retards.iter();
        let kept = kept.filter(|&(&step, _)| formula.step(step).is_some_and(can_be_retarded));
        self.retards = kept.map(|(&step, &stay)| (step, stay)).collect();
        self.open_steps();
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

    fn weigh(&mut self, piece: u16, mass: Grams) {
        if piece < self.formula.pieces.count {
            self.masses.insert(piece, mass);
        }
    }

    fn air_measured(&mut self, air: Celsius, at: Moment) {
        let place = self.air.partition_point(|&(before, _)| before <= at);
        self.air.insert(place, (at, air));
        self.kitchen.air = self.air.last().map_or(air, |&(_, newest)| newest);
    }

    /// The air is measured on its own, so what is said of it here counts for nothing.
    fn change_kitchen(&mut self, kitchen: &Kitchen, at: Moment) {
        let air = self.kitchen.air;
        if kitchen.fridge != self.kitchen.fridge {
            let place = self.fridge.partition_point(|&(before, _)| before <= at);
            self.fridge.insert(place, (at, kitchen.fridge));
        }
        self.kitchen = Kitchen { air, ..*kitchen };
    }
}
