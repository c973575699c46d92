//! Where a bake stands: the fold of its log.

use super::event::{AlarmId, TimerId};
use super::progress::{Noted, Progress, Reading, Status, Timer};
use super::supposed::Supposed;
use super::windows::{Vessels, Windows};
use super::wishes::Wishes;
use crate::formula::{ComponentId, Formula, Held, StepId};
use crate::kitchen::{Kitchen, Place};
use crate::sorted::{Map, Set};
use crate::thermal::cooling::FilmSpread;
use crate::units::{Celsius, Grams, Moment, Share};

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
    /// The fridge over time, oldest first; never empty.
    pub fridge: Vec<(Moment, Celsius)>,
    /// Doughs' temperatures, oldest first.
    pub doughs: Vec<Reading<ComponentId>>,
    /// Temperatures in the middle of pieces and fillings, oldest first.
    pub cores: Vec<Reading<StepId>>,
    /// Where doughs and fillings were put while a step of theirs went on, oldest first.
    pub moves: Vec<Noted<Place>>,
    /// What they were poured into, likewise.
    pub pourings: Vec<Noted<Held>>,
    /// How far doughs were seen to have risen, oldest first.
    pub looks: Vec<Noted<Share>>,
    /// Masses of divided pieces, by piece from 0.
    pub masses: Map<u16, Grams>,
    /// Timers that are set, ringing or not.
    pub timers: Map<TimerId, Timer>,
    /// How many timers have ever been set, which numbers the next.
    pub timers_set: u32,
    /// Alarms that were heard, each with the newest moment it was.
    pub acknowledged: Map<AlarmId, Moment>,
    /// The step the baker turned to.
    pub picked: Option<StepId>,
    /// What the baker wishes of the time.
    pub wishes: Wishes,
    /// When steps shall start that the baker has fixed.
    pub pins: Map<StepId, Moment>,
    /// From when to when rises are planned to stand in the fridge.
    pub retards: Map<StepId, (Moment, Moment)>,
    /// The moment of the newest entry.
    pub newest: Moment,
    /// When a hand was first put to it.
    pub(super) begun: Option<Moment>,
    /// Since when the baker is at the step that was picked.
    pub(super) picked_since: Moment,
    /// When a line of it was last marked, if one was.
    pub(super) marked_at: Option<Moment>,
    pub(super) steps: Map<StepId, Progress>,
    // Follows from the formula alone, and takes too long to reckon at every look.
    pub(super) bodies: Map<StepId, FilmSpread>,
    pub(super) vessels: Vessels,
    pub(super) windows: Windows,
    /// Where a dough is supposed to be put, to see what would come of it; no log says so.
    pub(super) supposed: Option<Supposed>,
    /// Whether a dough that should have been moved by now is taken to be moved now, as plans take it.
    pub(super) moves_now: bool,
}

impl State {
    /// What a step chills or lets cool.
    pub(super) fn body(&self, step: StepId) -> Option<&FilmSpread> {
        self.bodies.get(&step)
    }

    /// How far a step has got. A step that isn't there has not got anywhere.
    #[must_use]
    pub fn progress(&self, step: StepId) -> &Progress {
        static NOWHERE: Progress = Progress {
            first_mark: None,
            open_since: None,
            ended: None,
            folds: Vec::new(),
            fold_later: None,
            look_again: None,
            rounds: 0,
            marks: Set::new(),
            oven_was: None,
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

    /// Whether a bake has got as far as another state of it has, with the same asked of it: what was said and taken back
    /// meanwhile is as if it had never been.
    #[must_use]
    pub fn stands_as(&self, was: &Self) -> bool {
        // What is compared first differs nearly always.
        self.steps == was.steps && {
            let mut was = was.clone();
            was.newest = self.newest;
            *self == was
        }
    }

    /// When the last step ended, once all have: from then on the bread is on the table.
    #[must_use]
    pub fn ready_at(&self) -> Option<Moment> {
        let ends = self.steps.values().map(|step| Some(step.ended?.at));
        ends.collect::<Option<Vec<Moment>>>()?.into_iter().max()
    }

    /// Whether the bake is over, one way or the other.
    #[must_use]
    pub fn is_over(&self) -> bool {
        matches!(
            self.status,
            Status::Finished { .. } | Status::Abandoned { .. }
        )
    }
}
