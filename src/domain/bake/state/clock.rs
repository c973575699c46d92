//! A phone's clock that was set in the middle of a bake.
//!
//! Entries carry the phone's own moments, which mean nothing by a clock that was
//! set since. What passes between them is real, so all of them move together.

use super::{Progress, State, Status, Timer};
use crate::units::{Minutes, Moment};

impl State {
    /// Moves everything that has happened, and what follows from it, by so much.
    pub(super) fn shift(&mut self, by: Minutes) {
        let shift = |moment: &mut Moment| *moment = *moment + by;
        // Without a rest, so that a moment which is added to the state has to come here too.
        let Self {
            formula: _,
            kitchen: _,
            started,
            status,
            air,
            fridge,
            doughs,
            cores,
            masses: _,
            timers,
            timers_set: _,
            acknowledged,
            picked: _,
            newest,
            steps,
            bodies: _,
            windows: _,
        } = self;
        shift(started);
        shift(newest);
        match status {
            Status::Running => {}
            Status::Paused { since: at } | Status::Finished { at } | Status::Abandoned { at } => {
                shift(at);
            }
        }
        for (at, _) in air.iter_mut().chain(fridge) {
            shift(at);
        }
        doughs.iter_mut().for_each(|reading| shift(&mut reading.at));
        cores.iter_mut().for_each(|reading| shift(&mut reading.at));
        acknowledged.values_mut().for_each(shift);
        for Timer { name: _, set, due } in timers.values_mut() {
            shift(set);
            shift(due);
        }
        for progress in steps.values_mut() {
            let Progress {
                open_since,
                ended,
                folds,
                fold_later,
                look_again,
                rounds: _,
                marks: _,
            } = progress;
            open_since.iter_mut().for_each(shift);
            ended.iter_mut().for_each(|ended| shift(&mut ended.at));
            folds.iter_mut().for_each(|fold| shift(&mut fold.at));
            fold_later.iter_mut().for_each(shift);
            look_again.iter_mut().for_each(shift);
        }
    }
}
