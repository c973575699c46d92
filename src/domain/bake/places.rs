//! Where a dough and a filling stood over time, and so what was around them.
//!
//! A dough is in the kitchen, but for its times in the fridge and for what the
//! baker says of a rise: in the fridge, somewhere warm, in water. What was said of a
//! step holds until the step ends; then hands take the dough back into the kitchen.
//!
//! A kitchen warms and cools, so its readings count from their moments on. A
//! fridge keeps its temperature: who measures it learns what it has been all along, so
//! the newest reading by the end of a stay counts for all of it.

use super::progress::{How, Noted};
use super::state::State;
use crate::formula::{Held, Length, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::thermal::vessel::{Cooling, Surroundings};
use crate::units::{Celsius, Moment, WattsPerSquareMetreKelvin};

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

    /// Whether what a step is about is in a bowl or a dish, which alone can stand in water.
    #[must_use]
    pub fn stands_in_dish(&self, step: StepId) -> bool {
        let step = self.formula.step(step);
        step.is_some_and(|step| match step.length {
            Length::Ferment { held, .. } => held == Held::Bowl,
            Length::Chill { .. } => true,
            _ => false,
        })
    }

    /// Where the baker put what a step is about, since the step last started.
    pub(super) fn moves_of(&self, step: &Step) -> impl DoubleEndedIterator<Item = &Noted<Place>> {
        let (id, since) = (step.id, self.progress(step.id).open_since);
        let moves = self.moves.iter();
        moves.filter(move |seen| seen.of == id && since.is_some_and(|since| seen.at >= since))
    }

    /// What has been around the dough of a step over time, and is from `start` on, when the step
    /// starts: whatever it stood in before is over then.
    pub(super) fn around_dough(&self, of: &Step, start: Moment) -> Surroundings {
        let mut places: Vec<(Moment, Place)> = Vec::new();
        for step in &self.formula.steps {
            let progress = self.progress(step.id);
            let Some(since) = progress.open_since else {
                continue;
            };
            if step.component != of.component {
                continue;
            }
            let left_out = progress.ended.is_some_and(|end| end.how == How::Skipped);
            let before = places.len();
            if step.kind == StepKind::Retard && !left_out {
                places.push((since, Place::Fridge));
            }
            places.extend(self.moves_of(step).map(|seen| (seen.at, seen.what)));
            if places.len() > before {
                let ended = progress.ended.map(|end| end.at);
                let back = ended.or_else(|| (step.id != of.id).then_some(start));
                places.extend(back.map(|back| (back, Place::Kitchen)));
            }
        }
        places.sort_by_key(|&(at, _)| at);
        self.around(Place::Kitchen, &places, Place::Kitchen.film())
    }

    /// What has been around the filling of a step over time, and is from now on.
    pub(super) fn around_filling(&self, step: &Step, cooling: Cooling) -> Surroundings {
        let places: Vec<_> = self
            .moves_of(step)
            .map(|seen| (seen.at, seen.what))
            .collect();
        self.around(Place::of(cooling), &places, cooling.film())
    }

    /// Places in order of time, in a kitchen and a fridge that change; `own` is the body's own film.
    fn around(
        &self,
        first: Place,
        places: &[(Moment, Place)],
        own: WattsPerSquareMetreKelvin,
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
        let times = |place: Place| place.film().get() / own.get();
        let readings = self.air.iter().map(|&(at, _)| at);
        let mut moments: Vec<Moment> = readings.chain(places.iter().map(|&(at, _)| at)).collect();
        moments.sort_unstable();
        moments.dedup();
        let start = moments.first().copied().unwrap_or(self.started);
        let until = places.first().map(|&(until, _)| until);
        let around = Surroundings::constant(temperature_in(first, start, until));
        let mut last = None;
        moments.into_iter().fold(around, |around, at| {
            let (place, until) = place_at(at);
            let here = (temperature_in(place, at, until), times(place));
            // What stands in the fridge doesn't mind the kitchen, and every change is a new beginning for a course.
            if last.replace(here) == Some(here) {
                return around;
            }
            around.moved(at, here.0, here.1)
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
