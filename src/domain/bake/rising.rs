//! The dough of a step in which yeast works: what it rises in, and what was found out about it on the way.

use super::dough_at_start::spread;
use super::state::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{ComponentKind, Held, Length, Step};
use crate::sorted;
use crate::thermal::oven::BakeForm;
use crate::thermal::vessel::Vessel;
use crate::units::{Celsius, CelsiusDelta, Metres, Minutes, Moment, Share, celsius_delta, minutes};
use crate::yeast::proof::{Found, Learnt, Proof};
use crate::yeast::thin_air;

/// How well a kitchen thermometer pushed into dough reads. ASSUMPTION: ±0.5 K, a usual maker's claim.
pub(super) const MEASURED_DOUGH: CelsiusDelta = celsius_delta(0.5);

/// What a formula asks of a fermentation, without its folds.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ferment {
    pub(super) range: Estimate<Minutes>,
    pub(super) held: Held,
    pub(super) from_fridge: bool,
    /// How much longer it takes, as a logarithm, for a fridge as warm as its doubt allows.
    pub(super) by_fridge: f64,
}

/// Something that was found out about a dough while it rose.
#[derive(Clone, Copy)]
enum OnTheWay {
    /// How warm it was.
    Warm(Celsius),
    /// How far it had risen.
    Risen(Share),
    /// That it was poured into something else.
    Poured(Held),
}

impl Ferment {
    /// What a step asks of it at a height; none where nothing rises.
    pub(super) fn of(step: &Step, altitude: Metres) -> Option<Self> {
        match &step.length {
            Length::Ferment {
                reference_minutes,
                held,
                from_fridge,
                ..
            } => {
                let range = thin_air::sooner(reference_minutes, altitude);
                Some(Self::new(&range, *held, *from_fridge))
            }
            _ => None,
        }
    }

    /// The same for other minutes.
    pub(super) fn asking(self, range: Estimate<Minutes>) -> Self {
        Self { range, ..self }
    }

    pub(super) fn new(range: &Estimate<Minutes>, held: Held, from_fridge: bool) -> Self {
        Self {
            range: *range,
            held,
            from_fridge,
            by_fridge: 0.0,
        }
    }
}

impl State {
    /// The proof of a step, going on from each reading taken, and each look at it, while it rose.
    ///
    /// `warming_since` says when its dough will begin to follow the kitchen, if it hasn't yet.
    pub(super) fn proof(
        &self,
        step: &Step,
        ferment: Ferment,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> Proof {
        let out_at = warming_since.unwrap_or(start).min(start);
        let today = self.today(step, ferment, out_at);
        self.proof_of(step, today, start, warming_since).0
    }

    /// The same for a range that is today's already, with what looks at it say of later rises.
    pub(super) fn proof_of(
        &self,
        step: &Step,
        ferment: Ferment,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> (Proof, Found) {
        self.proof_after(step, ferment, start, warming_since, &mut |_, _| ())
    }

    /// The same, telling on the way until when what was believed before something was found out.
    pub(super) fn proof_after(
        &self,
        step: &Step,
        ferment: Ferment,
        start: Moment,
        warming_since: Option<Moment>,
        believed: &mut dyn FnMut(&Proof, Moment),
    ) -> (Proof, Found) {
        let mut found_out = Found::NOTHING;
        let vessel = self.dough_vessel(step, ferment.held);
        let around = self.around_dough(step, start, ferment.held);
        let before = self.held_before(step);
        let (dough, carried) = if before == ferment.held {
            let stood_in = vessel.for_mean(1.0);
            self.dough_at_start(step, ferment, start, warming_since, &stood_in, &around)
        } else {
            let stood_in = self.dough_vessel(step, before).for_mean(1.0);
            let around = self.around_dough(step, start, before);
            self.dough_at_start(step, ferment, start, warming_since, &stood_in, &around)
        };
        let proof = Proof {
            range: ferment.range,
            reference: self.formula.reference,
            start,
            dough,
            surroundings: around,
            vessel,
            had: minutes(0.0),
            learnt: Learnt::default(),
        };
        let mut proof = proof.carrying(carried, [0.0, ferment.by_fridge, 0.0]);
        for (at, found) in self.found_on_the_way(step, start) {
            // Once it has had enough, a reading must not make it look as if it were ready only now.
            let enough = proof.reference_minutes_at(at) >= proof.range.likely();
            let next = match found {
                OnTheWay::Warm(_) | OnTheWay::Poured(_) if enough => continue,
                OnTheWay::Warm(reading) => {
                    let dough = spread(reading, MEASURED_DOUGH, Basis::Measured);
                    proof.measured(at, dough)
                }
                OnTheWay::Poured(held) => proof.poured(
                    at,
                    self.dough_vessel(step, held),
                    self.around_dough(step, start, held),
                ),
                OnTheWay::Risen(share) => {
                    let (next, found) = proof.seen(at, share);
                    found_out = found_out.and(found);
                    next
                }
            };
            believed(&proof, at);
            proof = next;
        }
        (proof, found_out)
    }

    /// What was found out about a dough while it rose, oldest first.
    fn found_on_the_way(&self, step: &Step, start: Moment) -> Vec<(Moment, OnTheWay)> {
        let until = self.progress(step.id).ended.map(|ended| ended.at);
        let mut found = Vec::new();
        let mut add = |at: Moment, what| {
            if until.is_none_or(|until| at <= until) {
                found.push((at, what));
            }
        };
        for reading in &self.doughs {
            if reading.of == step.component && reading.at > start {
                add(reading.at, OnTheWay::Warm(reading.temperature));
            }
        }
        for seen in &self.looks {
            if seen.of == step.id && seen.at > start {
                add(seen.at, OnTheWay::Risen(seen.what));
            }
        }
        for seen in self.poured(step) {
            add(seen.at.max(start), OnTheWay::Poured(seen.what));
        }
        sorted::by_key(&mut found, |&(at, _)| at);
        found
    }

    pub(super) fn vessel_of_dough(&self, step: &Step, held: Held) -> Vessel {
        let component = self.formula.component_of(step);
        let alone = component.is_some_and(|component| component.kind == ComponentKind::Preferment);
        let mass = match component {
            Some(component) if alone => component.mass(),
            _ => self.formula.dough_mass(),
        };
        let dough = match component {
            Some(component) if alone => component.material(self.formula.reference),
            _ => self.formula.dough_material(),
        };
        match held {
            Held::Tray => {
                let form = self.formula.pieces.form;
                form.rising(self.formula.oven_piece(), dough)
            }
            // In logs from before forms were known a tin loaf has the form of a bun, so the tin itself speaks.
            Held::Tin => BakeForm::Tin.rising(self.formula.oven_piece(), dough),
            _ => Vessel::dough_held(held, dough, mass),
        }
    }
}
