//! Where a dough and a filling stood over time, and so what was around them.
//!
//! A dough is in the kitchen, but for its times in the fridge and for what the
//! baker says of a rise: in the fridge, somewhere warm, in water. What was said of a
//! step holds until the step ends; then hands take the dough back into the kitchen.
//!
//! What is put into the fridge in the midst of a rise is taken to come out after a day at the latest
//! ([`LONGEST_IN_FRIDGE`]), and to rise in the kitchen from then on; so it has an end, and the plan of
//! the rest as well. "Not yet" leaves it there so much longer.
//!
//! What holds it is said likewise, and holds until the step ends. It is poured then, and as
//! warm throughout as it was on average.
//!
//! A kitchen warms and cools, so its readings count from their moments on. A
//! fridge keeps its temperature: who measures it learns what it has been all along, so
//! the newest reading by the end of a stay counts for all of it.

use super::progress::{How, Noted};
use super::state::State;
use super::stay::Stay;
use crate::formula::{Held, Length, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::sorted;
use crate::thermal::vessel::{Cooling, Surroundings};
use crate::units::{Celsius, Minutes, Moment, WattsPerSquareMetreKelvin, minutes};

/// A dough that was put into the fridge to gain time is left there no longer than a day: common
/// practice, no source. Yeast hardly works there, but acid and what softens gluten do.
pub const LONGEST_IN_FRIDGE: Minutes = minutes(24.0 * 60.0);

impl State {
    /// Where the dough or filling of an open step stands; none where nothing rises or is chilled.
    #[must_use]
    pub fn place_of(&self, step: StepId) -> Option<Place> {
        let step = self.formula.step(step)?;
        let begins = match &step.length {
            Length::Ferment { .. } => Place::Kitchen,
            Length::Chill { cooling, .. } => Place::of(*cooling),
            _ => return None,
        };
        Some(self.moves_of(step).last().map_or(begins, |seen| seen.what))
    }

    /// What holds what a step is about now; none where nothing rises, is chilled or lies in the fridge.
    #[must_use]
    pub fn held_of(&self, step: StepId) -> Option<Held> {
        let step = self.formula.step(step)?;
        let own = self.own_held(step)?;
        Some(self.poured(step).last().map_or(own, |seen| seen.what))
    }

    /// What holds it by the formula.
    pub(super) fn own_held(&self, step: &Step) -> Option<Held> {
        match step.length {
            Length::Ferment { held, .. } => Some(held),
            Length::Chill { .. } => Some(Held::Bowl),
            _ if step.kind == StepKind::Retard => Some(self.retarded_in(step)),
            _ => None,
        }
    }

    /// What holds a dough in the fridge: all of it a bowl, its pieces a tray, and once they are shaped
    /// whatever they rise in.
    fn retarded_in(&self, retard: &Step) -> Held {
        let (mut before, mut divided, mut shaped) = (true, false, false);
        let mut rises_in = Held::Tray;
        for step in &self.formula.steps {
            if step.component != retard.component {
                continue;
            }
            before &= step.id != retard.id;
            match (step.kind, &step.length) {
                (StepKind::Divide, _) => divided |= before,
                (StepKind::Shape, _) => shaped |= before,
                (StepKind::FinalProof, Length::Ferment { held, .. }) => rises_in = *held,
                _ => {}
            }
        }
        match (shaped, divided) {
            (true, _) => rises_in,
            (_, true) => Held::Tray,
            _ => Held::Bowl,
        }
    }

    /// What held the dough before a step: in the last rise or the last time in the fridge before it.
    pub(super) fn held_before(&self, step: &Step) -> Held {
        let mut newest = Held::Bowl;
        for other in &self.formula.steps {
            if other.id == step.id {
                break;
            }
            if other.component == step.component {
                newest = self.held_of(other.id).unwrap_or(newest);
            }
        }
        newest
    }

    /// Where the baker put what a step is about, since the step last started.
    pub(super) fn moves_of(&self, step: &Step) -> impl DoubleEndedIterator<Item = &Noted<Place>> {
        self.noted(&self.moves, step)
    }

    /// What the baker poured it into, likewise.
    pub(super) fn poured(&self, step: &Step) -> impl DoubleEndedIterator<Item = &Noted<Held>> {
        self.noted(&self.pourings, step)
    }

    fn noted<'a, What>(
        &self,
        all: &'a [Noted<What>],
        step: &Step,
    ) -> impl DoubleEndedIterator<Item = &'a Noted<What>> {
        let (id, since) = (step.id, self.progress(step.id).open_since);
        let all = all.iter();
        all.filter(move |seen| seen.of == id && since.is_some_and(|since| seen.at >= since))
    }

    /// When a rising dough that was put into the fridge comes out of it at the latest, while it is there.
    #[must_use]
    pub fn out_of_fridge_by(&self, step: &Step) -> Option<Moment> {
        let progress = self.progress(step.id);
        let rises = matches!(step.length, Length::Ferment { .. }) && progress.ended.is_none();
        let newest = self.moves_of(step).last().filter(|_| rises)?;
        let planned = self.retards.get(&step.id).map(|&(_, to)| to);
        let by = planned.unwrap_or(newest.at + LONGEST_IN_FRIDGE);
        let by = progress.look_again.map_or(by, |later| by.max(later));
        (newest.what == Place::Fridge).then_some(by)
    }

    /// From when to when the dough of a rise that begins at `start`, or began then, is in the fridge.
    pub(super) fn times_in_fridge(&self, step: &Step, start: Moment) -> Vec<(Moment, Moment)> {
        let (mut times, mut since) = (Vec::new(), None);
        for moved in self.moves_of(step) {
            match since {
                None if moved.what == Place::Fridge => since = Some(moved.at),
                Some(from) if moved.what != Place::Fridge => {
                    times.push((from, moved.at));
                    since = None;
                }
                _ => {}
            }
        }
        let ended = self.progress(step.id).ended.map(|ended| ended.at);
        times.extend(since.zip(ended.or_else(|| self.out_of_fridge_by(step))));
        let stay = self.stay_or_supposed(step.id, start);
        let stay = stay.filter(|stay| !stay.is_in && ended.is_none());
        times.extend(stay.map(|stay| (stay.from, stay.to)));
        times
    }

    /// What has been around the dough of a step over time, and is from `start` on, when the step
    /// starts: whatever it stood in before is over then.
    pub(super) fn around_dough(&self, of: &Step, start: Moment, held: Held) -> Surroundings {
        let mut places: Vec<(Moment, Place)> = Vec::new();
        let mut comes_later = false;
        for step in &self.formula.steps {
            let progress = self.progress(step.id);
            // What a later step's dough is put into says nothing of an earlier one.
            if step.component != of.component || comes_later {
                continue;
            }
            comes_later = step.id == of.id;
            // What is planned of the steps that lead to this one, and of itself.
            let stay = self.stay(
                step.id,
                if step.id == of.id {
                    start
                } else {
                    self.started
                },
            );
            let stay = stay.filter(|_| progress.ended.is_none());
            let reached = |stay: &Stay| step.id == of.id || stay.from < start;
            if let Some(stay) = stay.filter(reached).filter(|stay| !stay.is_in) {
                places.push((stay.from, Place::Fridge));
                places.push((stay.to, Place::Kitchen));
                let back = (step.id != of.id).then_some((start, Place::Kitchen));
                places.extend(back);
            }
            // What is asked of one that is still to come is how it would go from `start` on.
            let to_come = (step.id == of.id && step.kind == StepKind::Retard).then_some(start);
            let Some(since) = progress.open_since.or(to_come) else {
                continue;
            };
            let left_out = progress.ended.is_some_and(|end| end.how == How::Skipped);
            let before = places.len();
            if step.kind == StepKind::Retard && !left_out {
                places.push((since, Place::Fridge));
            }
            places.extend(self.moves_of(step).map(|seen| (seen.at, seen.what)));
            let out_by = self.out_of_fridge_by(step);
            // What is planned knows of what was said since it should have come out.
            let planned = stay.filter(|stay| stay.is_in).map(|stay| stay.to);
            let out_by = planned.or(out_by);
            places.extend(out_by.map(|by| (by, Place::Kitchen)));
            if places.len() > before {
                let ended = progress.ended.map(|end| end.at);
                let back = ended.or_else(|| (step.id != of.id).then_some(start));
                places.extend(back.map(|back| (back, Place::Kitchen)));
            }
        }
        places.extend(self.supposed_places(of, start));
        sorted::by_key(&mut places, |&(at, _)| at);
        self.around(Place::Kitchen, &places, Place::Kitchen.film(), held)
    }

    /// What has been around the filling of a step over time, and is from now on.
    pub(super) fn around_filling(&self, step: &Step, cooling: Cooling, held: Held) -> Surroundings {
        let places: Vec<_> = self
            .moves_of(step)
            .map(|seen| (seen.at, seen.what))
            .collect();
        self.around(Place::of(cooling), &places, cooling.film(), held)
    }

    /// Places in order of time, in a kitchen and a fridge that change; `own` is the film outside
    /// what holds the body that the body was made for.
    fn around(
        &self,
        first: Place,
        places: &[(Moment, Place)],
        own: WattsPerSquareMetreKelvin,
        held: Held,
    ) -> Surroundings {
        // With the end of the stay there.
        let place_at = |at: Moment| {
            let past = places.partition_point(|&(since, _)| since <= at);
            let place = past.checked_sub(1).map_or(first, |newest| places[newest].1);
            (place, places.get(past).map(|&(until, _)| until))
        };
        let temperature_in = |place: Place, at: Moment, until: Option<Moment>| match until {
            Some(until) if place == Place::Fridge => self.temperature_in(place, until),
            None if place == Place::Fridge => self.kitchen.fridge,
            _ => self.temperature_in(place, at),
        };
        let own = held.through(own);
        let times = |place: Place| held.through(place.film()).get() / own.get();
        let readings = self.air.iter().map(|&(at, _)| at);
        let mut moments: Vec<Moment> = readings.chain(places.iter().map(|&(at, _)| at)).collect();
        sorted::by_key(&mut moments, |&at| at);
        moments.dedup();
        let start = moments.first().copied().unwrap_or(self.started);
        let until = places.first().map(|&(until, _)| until);
        let around = Surroundings::constant(temperature_in(first, start, until));
        let around = around.doubted(self.doubt(first));
        let mut last = None;
        moments.into_iter().fold(around, |around, at| {
            let (place, until) = place_at(at);
            let here = (temperature_in(place, at, until), times(place));
            // What stands in the fridge doesn't mind the kitchen, and every change is a new beginning for a course.
            if last.replace(here) == Some(here) {
                return around;
            }
            around.put(at, here.0, here.1, Some(self.doubt(place)))
        })
    }

    /// How warm it is in a place at a moment.
    pub(super) fn temperature_in(&self, place: Place, at: Moment) -> Celsius {
        match place {
            Place::Kitchen => newest(&self.air, at).unwrap_or(self.kitchen.air),
            Place::Fridge => newest(&self.fridge, at).unwrap_or(self.kitchen.fridge),
            Place::Warm(own) | Place::Water(own) => own,
        }
    }
}

/// The newest of some readings at a moment, and before them all the first.
fn newest(readings: &[(Moment, Celsius)], at: Moment) -> Option<Celsius> {
    let past = readings.partition_point(|&(since, _)| since <= at);
    readings
        .get(past.saturating_sub(1))
        .map(|&(_, reading)| reading)
}
