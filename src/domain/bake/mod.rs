//! A bake under way: an append-only log of events, and what follows from it.
//!
//! The log is the only thing that is stored. [`State`] is its fold; windows,
//! alarms and what to do next are derived from the state and `now`, and never
//! kept. So a phone that dies half-way reads the log, folds, and carries on.
//!
//! ```text
//! intent --decide--> events --stored by the caller--> append --fold--> state
//! ```

mod absence;
mod at_work;
mod clock;
mod cooled;
mod course;
mod decide;
mod doubt;
mod dough_at_start;
mod drawn;
mod earlier;
mod event;
mod fold;
mod forecast;
mod heard;
mod hot_body;
mod if_started;
mod intent;
mod keeps;
mod late_press;
mod liquid;
mod marks;
mod measured;
mod opening;
mod oven;
mod perishable;
mod places;
mod progress;
mod reading;
mod rejoin;
mod rising;
mod since;
mod state;
mod stay;
mod supposed;
mod timers;
mod undo;
mod windows;
mod wishes;

pub use at_work::AtWork;
pub use clock::SAME_JUMP;
pub use cooled::{Cooled, Stage, Warmth};
pub use decide::decide;
pub use drawn::Drawn;
pub use earlier::Retarding;
pub use event::{AlarmId, BakeId, Entry, Event, Mark, Start, TimerId};
pub use forecast::{Forecast, Reason};
pub use heard::{clock_was_set, heard, moment_of_press};
pub use intent::{Intent, Refusal};
pub use keeps::Kept;
pub use marks::{marks_of, next_mark};
pub(crate) use oven::{LEFT_ON, heats};
pub use oven::{found_hot, left_on_by};
pub use perishable::{
    EGG_AND_MILK_OUT, HOT_KITCHEN, Keeps, LONGEST_OUT, PERISHABLE_LIMIT, PERISHABLE_LIMIT_HOT,
    Spoils, Standing, Stood, WARM_FRIDGE,
};
pub use places::LONGEST_IN_FRIDGE;
pub use progress::{Ended, How, Noted, Progress, Reading, Status, Timer};
pub use rejoin::rejoin;
pub use since::Pressed;
pub use state::State;
pub use stay::Stay;
pub(crate) use supposed::Supposed;
pub use timers::{Alarm, AlarmKind, CALLED, alarms, begin_alarm, due, waiting_alarm};
pub use wishes::Wishes;

/// A bake: its log, and the state the log folds to.
#[derive(Debug, Clone)]
pub struct Bake {
    /// Which bake it is.
    pub id: BakeId,
    // `state` is always the fold of `log`; both change only together, in `append`.
    log: Vec<Entry>,
    state: State,
}

/// The same log folds to the same state, so the state needn't be compared.
impl PartialEq for Bake {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id && self.log == other.log
    }
}

impl Bake {
    /// Reads a log. `None` when it doesn't begin with the start of a bake.
    #[must_use]
    pub fn from_log(id: BakeId, log: Vec<Entry>) -> Option<Self> {
        let state = State::fold(&log)?;
        Some(Self { id, log, state })
    }

    /// Everything that happened, oldest first.
    #[must_use]
    pub fn log(&self) -> &[Entry] {
        &self.log
    }

    /// The place of the next entry in the log, from 0.
    #[must_use]
    pub fn next_place(&self) -> u32 {
        u32::try_from(self.log.len()).unwrap_or(u32::MAX)
    }

    /// Where the bake stands.
    #[must_use]
    pub fn state(&self) -> &State {
        &self.state
    }

    /// Adds entries that are already stored.
    pub fn append(&mut self, entries: impl IntoIterator<Item = Entry>) {
        for entry in entries {
            self.append_one(entry);
        }
    }

    /// Apart from [`Self::append`], which is compiled anew for every kind of list.
    fn append_one(&mut self, entry: Entry) {
        let rewrites = matches!(
            entry.event,
            Event::Undone { .. } | Event::ClockSet { .. } | Event::Since { .. }
        );
        if !rewrites {
            self.state.apply(&entry.event, entry.at);
        }
        self.log.push(entry);
        // Taking something back, a clock that was set and what was earlier change what earlier entries
        // meant, so everything is read again.
        if rewrites && let Some(state) = State::fold(&self.log) {
            self.state = state;
        }
    }
}
