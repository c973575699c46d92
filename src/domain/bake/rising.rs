//! The dough of a step in which yeast works: how warm it starts, and what it rises in.

use super::progress::{How, Progress};
use super::state::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{ComponentKind, Held, Length, Step, StepKind};
use crate::thermal::vessel::Vessel;
use crate::units::{Celsius, CelsiusDelta, Minutes, Moment, celsius_delta, minutes};
use crate::yeast::proof::Proof;

/// How far a dough may lie from its target when nobody measured it.
///
/// ASSUMPTION: judgement.
const UNMEASURED_DOUGH: CelsiusDelta = celsius_delta(2.0);
/// How well a kitchen thermometer pushed into dough reads. ASSUMPTION: ±0.5 K, a usual maker's claim.
const MEASURED_DOUGH: CelsiusDelta = celsius_delta(0.5);
/// How far dough from the fridge may be from the fridge. ASSUMPTION: judgement.
const CHILLED_DOUGH: CelsiusDelta = celsius_delta(1.0);

/// What a formula asks of a fermentation, without its folds.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ferment {
    range: Estimate<Minutes>,
    held: Held,
    from_fridge: bool,
}

impl Ferment {
    pub(super) fn new(range: &Estimate<Minutes>, held: Held, from_fridge: bool) -> Self {
        Self {
            range: *range,
            held,
            from_fridge,
        }
    }
}

impl State {
    /// The proof of a step, going on from each reading taken while it rose.
    ///
    /// `warming_since` says when its dough will begin to follow the kitchen, if it hasn't yet.
    pub(super) fn proof(
        &self,
        step: &Step,
        ferment: Ferment,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> Proof {
        let assumed = Proof {
            range: ferment.range,
            reference: self.formula.reference,
            start,
            dough: self.dough_at_start(step, ferment, start, warming_since),
            surroundings: self.air(),
            vessel: self.dough_vessel(step, ferment.held),
            had: minutes(0.0),
        };
        let on_the_way = self
            .doughs
            .iter()
            .filter(|reading| reading.of == step.component && reading.at > start);
        on_the_way.fold(assumed, |proof, reading| {
            // Once it has had enough, a reading must not make it look as if it were ready only now.
            if proof.reference_minutes_at(reading.at) >= proof.range.likely() {
                return proof;
            }
            let dough = spread(reading.temperature, MEASURED_DOUGH, Basis::Measured);
            proof.measured(reading.at, dough)
        })
    }

    /// How warm the dough is when a fermentation starts: measured before and
    /// carried on through its bowl, or cold from the fridge, or as the formula hopes.
    fn dough_at_start(
        &self,
        step: &Step,
        ferment: Ferment,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> Estimate<Celsius> {
        let bowl = self.dough_vessel(step, Held::Bowl);
        if ferment.from_fridge && !self.stayed_in_the_kitchen(step) {
            // It has been warming since it came out, under the hands that shaped it.
            let out_at = self.out_of_the_fridge(step).or(warming_since);
            let out_at = out_at.unwrap_or(start).min(start);
            let course = bowl.course(out_at, self.fridge().at(out_at), &self.air());
            return spread(course.mean_at(start), CHILLED_DOUGH, Basis::Model);
        }
        let reading = self
            .dough_reading(step.component)
            .filter(|reading| reading.at <= start);
        if let Some(reading) = reading {
            let course = bowl.course(reading.at, reading.temperature, &self.air());
            return spread(course.mean_at(start), MEASURED_DOUGH, Basis::Measured);
        }
        let component = self.formula.component_of(step);
        let target = component
            .and_then(|component| component.target)
            .unwrap_or(self.air().at(start));
        // What rose before this step has been drifting towards the kitchen since it was mixed.
        let mixed_at = self.first_ferment_start(step).or(warming_since);
        let mixed_at = mixed_at.unwrap_or(start).min(start);
        let course = bowl.course(mixed_at, target, &self.air());
        spread(course.mean_at(start), UNMEASURED_DOUGH, Basis::Model)
    }

    /// How far the dough's times in the fridge have got.
    fn retards(&self, step: &Step) -> impl Iterator<Item = &Progress> {
        let component = step.component;
        let steps = self.formula.steps.iter();
        steps
            .filter(move |other| other.component == component && other.kind == StepKind::Retard)
            .map(|other| self.progress(other.id))
    }

    fn out_of_the_fridge(&self, step: &Step) -> Option<Moment> {
        let ended = self.retards(step).filter_map(|retard| retard.ended);
        ended.map(|ended| ended.at).max()
    }

    /// Whether the dough of a step never got into the fridge, because its time there was left out.
    fn stayed_in_the_kitchen(&self, step: &Step) -> bool {
        let left_out = |retard: &Progress| {
            let ended = retard.ended;
            ended.is_some_and(|ended| ended.how == How::Skipped)
        };
        self.retards(step).next().is_some() && self.retards(step).all(left_out)
    }

    fn first_ferment_start(&self, step: &Step) -> Option<Moment> {
        self.formula
            .steps
            .iter()
            .filter(|other| other.component == step.component)
            .filter(|other| matches!(other.length, Length::Ferment { .. }))
            .filter_map(|other| self.progress(other.id).open_since)
            .min()
    }

    fn dough_vessel(&self, step: &Step, held: Held) -> Vessel {
        let component = self.formula.component_of(step);
        let alone = component.is_some_and(|component| component.kind == ComponentKind::Preferment);
        let mass = match component {
            Some(component) if alone => component.mass(),
            _ => self.formula.dough_mass(),
        };
        match held {
            Held::Bowl => Vessel::dough_in_bowl(mass),
            Held::Tray => Vessel::piece(self.oven_piece()),
            Held::Tin => Vessel::loaf_in_tin(self.formula.pieces.mass),
        }
    }
}

fn spread(likely: Celsius, off: CelsiusDelta, basis: Basis) -> Estimate<Celsius> {
    Estimate::new(likely - off, likely, likely + off, basis)
}
