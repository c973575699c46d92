//! What earlier rises of a dough leave for a later one.
//!
//! - A first rise that was left out, or broken off by leaving it out, leaves its minutes to the last one.
//! - Dough in the fridge goes on rising until its middle is cold. The formula reckons with a dough of
//!   its own reference temperature in a fridge of 5 °C; a dough that went in
//!   warmer, or a fridge that isn't as cold, has had more by the morning, and the last rise is shorter.
//!   How well the fridge's temperature is known is part of the last rise's window.
//! - What somebody saw of one rise tells something of the next ([`Found`]).
//!
//! The last rise takes `R (1 + k (missing - surplus) / R)` reference minutes, R being its own, with k
//! of a half and between 0.6 and 1.5 times R. That first and last rise are weighed
//! against each other is common practice, no source; the half and the ends are
//! ASSUMPTIONS. Left out: what time does to dough besides gas, in flavour and gluten.

use super::progress::How;
use super::rising::Ferment;
use super::state::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{Length, Step, StepId, StepKind};
use crate::thermal::constants::FRIDGE;
use crate::thermal::vessel::{Spot, Surroundings};
use crate::units::{Celsius, Minutes, Moment, minutes};
use crate::yeast::activity::{Cardinals, relative_rate};
use crate::yeast::proof::{Found, HORIZON, Learnt, Proof};

/// ASSUMPTION: this part of what an earlier rise lacks is made good by the last.
const MADE_GOOD: f64 = 0.5;
/// ASSUMPTION: the last rise is never changed beyond these parts of its own minutes.
const LEAST_OF_LAST_RISE: f64 = 0.6;
const MOST_OF_LAST_RISE: f64 = 1.5;

/// How a dough goes through its time in the fridge.
#[derive(Debug, Clone, PartialEq)]
pub struct Retarding {
    /// Its rise, which the cold brings almost to a stand.
    proof: Proof,
}

impl Retarding {
    /// What it has risen in the fridge by a moment, in minutes at the formula's reference temperature.
    #[must_use]
    pub fn worth(&self, at: Moment) -> Minutes {
        self.proof.reference_minutes_at(at)
    }

    /// The same in a fridge that is so many times its doubt warmer than said.
    fn worth_in_fridge(&self, warmer: f64, at: Moment) -> Minutes {
        self.proof.had_if(Spot::Fridge, warmer, at)
    }

    /// When it is nearly as cold as it gets, and yeast nearly stands still: all but a tenth of the way.
    #[must_use]
    pub fn cold_at(&self) -> Option<Moment> {
        let fridge = self.proof.surroundings.at(self.proof.start);
        let above = (self.proof.dough.likely() - fridge) * 0.1;
        let course = self.proof.vessel.course(
            self.proof.start,
            self.proof.dough.likely(),
            &self.proof.surroundings,
        );
        course.when_core_reaches(fridge + above, HORIZON)
    }

    /// The temperature that the minutes of [`Self::worth`] are at.
    #[must_use]
    pub fn reference(&self) -> Celsius {
        self.proof.reference
    }

    /// Whether yeast hardly works any more at a moment: at less than a twentieth of its pace at the reference.
    #[must_use]
    pub fn stands_still(&self, at: Moment) -> bool {
        let rate = |at: Celsius| relative_rate(at, &Cardinals::DOUGH);
        rate(self.dough_at(at)) < 0.05 * rate(self.proof.reference)
    }

    /// The dough's mean temperature at a moment.
    #[must_use]
    pub fn dough_at(&self, at: Moment) -> Celsius {
        self.proof.dough_at(at)
    }
}

impl State {
    /// What a rise asks for after all that went before it today.
    ///
    /// `out_at` says when its dough comes out of the fridge, where that is still to come.
    pub(super) fn today(&self, step: &Step, ferment: Ferment, out_at: Moment) -> Ferment {
        let range = self.found_before(step, ferment.range);
        if step.kind != StepKind::FinalProof {
            return ferment.asking(range);
        }
        let own = range.likely().get().max(1e-3);
        let (surplus, by_fridge) = self.surplus(step, out_at);
        let owed = (self.missing(step) - surplus).get();
        let whole = 1.0 + MADE_GOOD * owed / own;
        let factor = whole.clamp(LEAST_OF_LAST_RISE, MOST_OF_LAST_RISE);
        Ferment {
            range: range.map(|minutes| minutes * factor),
            // At its ends it stays, whatever the fridge was like.
            by_fridge: if factor == whole {
                -MADE_GOOD * by_fridge / own / factor
            } else {
                0.0
            },
            ..ferment
        }
    }

    /// The range as what was seen of earlier rises of the same dough leaves it.
    fn found_before(&self, step: &Step, range: Estimate<Minutes>) -> Estimate<Minutes> {
        let seen = |other: &&Step| {
            let of_it = other.component == step.component && other.id != step.id;
            of_it && self.looks.iter().any(|seen| seen.of == other.id)
        };
        let earlier = self
            .formula
            .steps
            .iter()
            .take_while(|other| other.id != step.id);
        let mut found = Found::NOTHING;
        for other in earlier.filter(seen) {
            let Some((ferment, start)) = self.ferment_of(other) else {
                continue;
            };
            // What one look has told of the day, the next doesn't tell once more.
            let range = found.for_later(&ferment.range);
            let (_, more) = self.proof_of(other, ferment.asking(range), start, None);
            found = found.and(more);
        }
        found.for_later(&range)
    }

    /// A rise that has begun, and when.
    fn ferment_of(&self, step: &Step) -> Option<(Ferment, Moment)> {
        let ferment = Ferment::of(step, self.kitchen.altitude)?;
        Some((ferment, self.progress(step.id).open_since?))
    }

    /// What rises that were left out would still have had.
    fn missing(&self, step: &Step) -> Minutes {
        let steps = self.formula.steps.iter();
        let earlier =
            steps.filter(|other| other.component == step.component && other.id != step.id);
        let missing = earlier.filter_map(|other| {
            let ended = self.progress(other.id).ended?;
            let (ferment, start) = self.ferment_of(other)?;
            if ended.how != How::Skipped {
                return None;
            }
            let (proof, _) = self.proof_of(other, ferment, start, None);
            let left = proof.range.likely() - proof.reference_minutes_at(ended.at);
            Some(left.max(minutes(0.0)))
        });
        missing.sum()
    }

    /// What the dough has risen in the fridge beyond what the formula reckons with, and how many
    /// minutes more that is for a fridge as warm as its doubt allows. A night that is still to come counts as it is
    /// likely to go, so that nothing is told otherwise as it begins.
    fn surplus(&self, step: &Step, out_at: Moment) -> (Minutes, f64) {
        let steps = self.formula.steps.iter();
        let retards = steps
            .take_while(|other| other.id != step.id)
            .filter(|other| other.component == step.component && other.kind == StepKind::Retard);
        let (mut surplus, mut by_fridge) = (minutes(0.0), 0.0);
        for retard in retards {
            let Some(expected) = self.expected_retarding(retard) else {
                continue;
            };
            let ended = self.progress(retard.id).ended;
            if ended.is_some_and(|ended| ended.how == How::Skipped) {
                surplus = surplus - expected;
                continue;
            }
            // While it lies there, what it will have had by its likely end is the best that is known, unless it is planned
            // to lie there longer.
            if let Some((retarding, likely_end)) = self.retarding_to_its_end(retard, out_at) {
                let end = ended.map_or(likely_end, |ended| ended.at);
                surplus += retarding.worth(end) - expected;
                let [colder, warmer] = [-1.0, 1.0].map(|by| retarding.worth_in_fridge(by, end));
                by_fridge += 0.5 * (warmer - colder).get();
            }
        }
        (surplus, by_fridge)
    }

    /// How the dough of a step in the fridge goes on rising there, once it is there.
    #[must_use]
    pub fn retarding(&self, retard: StepId) -> Option<Retarding> {
        let since = self.progress(retard).open_since?;
        self.retarding_since(self.formula.step(retard)?, since, None)
    }

    /// The same from a moment on; `mixed` says since when its dough follows the kitchen, if it doesn't yet.
    fn retarding_since(
        &self,
        step: &Step,
        since: Moment,
        mixed: Option<Moment>,
    ) -> Option<Retarding> {
        let range = step.retards_for()?;
        let ferment = Ferment::new(range, self.own_held(step)?, false);
        let (proof, _) = self.proof_of(step, ferment, since, mixed);
        Some(Retarding { proof })
    }

    /// One that hasn't begun ends as its dough comes out at `out_at`.
    fn retarding_to_its_end(&self, retard: &Step, out_at: Moment) -> Option<(Retarding, Moment)> {
        let range = retard.retards_for()?;
        let begun = self.progress(retard.id).open_since;
        let since = begun.unwrap_or(out_at - range.likely());
        let mixed = begun
            .is_none()
            .then(|| since - self.rises_for(retard, since));
        let retarding = self.retarding_since(retard, since, mixed)?;
        let end = out_at.min(since + range.high());
        Some((retarding, end.max(since + range.likely())))
    }

    /// How long a dough that hasn't risen yet likely follows the kitchen before a step.
    fn rises_for(&self, until: &Step, at: Moment) -> Minutes {
        let steps = self.formula.steps.iter();
        let before = steps.take_while(|step| step.id != until.id);
        let rises = before.filter(|step| step.component == until.component);
        let rises = rises.skip_while(|step| !matches!(step.length, Length::Ferment { .. }));
        rises.map(|step| self.likely_length(step, at, None)).sum()
    }

    /// What the formula reckons a dough to rise in the fridge.
    fn expected_retarding(&self, retard: &Step) -> Option<Minutes> {
        let range = retard.retards_for()?;
        let start = self.started;
        let expected = Proof {
            range: *range,
            reference: self.formula.reference,
            start,
            dough: Estimate::exact(self.formula.reference, Basis::Formula),
            surroundings: Surroundings::constant(FRIDGE),
            vessel: self.dough_vessel(retard, self.own_held(retard)?),
            had: minutes(0.0),
            learnt: Learnt::default(),
        };
        Some(expected.reference_minutes_at(start + range.likely()))
    }
}
