//! What happens to food that spoils, read off the log.

use super::{WARM_FRIDGE, serves};
use crate::bake::progress::How;
use crate::bake::state::State;
use crate::formula::{ComponentId, Length, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::thermal::constants::FRIDGE;
use crate::units::Moment;

/// What happens to food that spoils.
#[derive(Clone, Copy)]
pub(super) enum Turn {
    Out,
    /// Where it is surely cold.
    Away,
    /// In the fridge, by itself.
    InFridge,
    /// It is brought to the dough or the bread.
    Joined,
    /// The dough goes into the fridge, with all that is in it.
    DoughAway,
    DoughOut,
    Oven,
    Baked,
    Served,
}

impl State {
    pub(super) fn add_turns(
        &self,
        step: &Step,
        component: Option<ComponentId>,
        now: Moment,
        turns: &mut Vec<(Moment, StepId, Turn)>,
    ) {
        let progress = self.progress(step.id);
        let (opened, ended) = (progress.open_since, progress.ended);
        let skipped = ended.is_some_and(|ended| ended.how == How::Skipped);
        let of_it = component == Some(step.component);
        // Kept in order of time, and of the formula where the time is the same.
        let mut add = |at: Option<Moment>, turn| {
            if let Some(at) = at {
                let place = turns.partition_point(|&(earlier, ..)| earlier <= at);
                turns.insert(place, (at, step.id, turn));
            }
        };
        let end = ended.map(|ended| ended.at);
        match (&step.length, step.kind) {
            // Nobody knows how cold it got, nor whether it ever stood in the fridge.
            (Length::Chill { .. }, _) if of_it && skipped => add(opened, Turn::Out),
            (Length::Chill { .. }, _) if of_it => {
                for noted in self.moves_of(step) {
                    let turn = match noted.what {
                        Place::Fridge => Turn::InFridge,
                        Place::Warm(at) | Place::Water(at) if at <= FRIDGE => Turn::Away,
                        _ => Turn::Out,
                    };
                    add(Some(noted.at), turn);
                }
                match self.place_of(step.id) {
                    Some(Place::Fridge) => add(end, Turn::InFridge),
                    _ => add(end, Turn::Out),
                }
            }
            (Length::Ferment { .. }, kind) if kind != StepKind::Retard => {
                let mut in_fridge = false;
                for noted in self.moves_of(step) {
                    in_fridge = noted.what == Place::Fridge;
                    let turn = if in_fridge {
                        Turn::DoughAway
                    } else {
                        Turn::DoughOut
                    };
                    add(Some(noted.at), turn);
                }
                if in_fridge {
                    let out_by = self.out_of_fridge_by(step).filter(|&by| by <= now);
                    add(end.or(out_by), Turn::DoughOut);
                }
            }
            (_, StepKind::Retard | StepKind::Bake) if skipped => {}
            (_, StepKind::Retard) => {
                add(opened, Turn::DoughAway);
                add(end, Turn::DoughOut);
            }
            (_, StepKind::Bake) => {
                add(opened, Turn::Oven);
                add(end, Turn::Baked);
            }
            _ if serves(step) && !skipped => add(end, Turn::Served),
            (Length::Hands(length), _) if of_it && step.handles_perishable() => {
                let done = ended.filter(|ended| ended.how == How::Done);
                if step.needs.fridge {
                    add(done.map(|done| done.at), Turn::InFridge);
                } else if !skipped {
                    // Whoever marks the first bun has the bowl out by then, however long the last one takes.
                    let begun = done.map(|done| {
                        let begun = done.at - length.likely();
                        opened.unwrap_or(begun).max(begun)
                    });
                    add(
                        begun.into_iter().chain(progress.first_mark).min(),
                        Turn::Joined,
                    );
                }
            }
            _ => {}
        }
    }

    /// Whether the fridge is too warm for food that spoils, in a stay before these turns.
    ///
    /// Who measures a fridge learns what it has been all along, so the newest reading by the end of the stay counts.
    pub(super) fn fridge_is_warm(&self, then: &[(Moment, StepId, Turn)]) -> bool {
        let mut ends = then.iter().filter(|(.., turn)| {
            matches!(turn, Turn::Out | Turn::Joined | Turn::DoughOut | Turn::Oven)
        });
        let fridge = match ends.next() {
            Some(&(until, ..)) => self.temperature_in(Place::Fridge, until),
            None => self.kitchen.fridge,
        };
        fridge > WARM_FRIDGE
    }
}
