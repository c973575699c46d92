//! How warm a dough is when a rise of it starts.

use super::progress::{How, Progress};
use super::rising::{Ferment, MEASURED_DOUGH};
use super::state::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{Length, Step, StepKind};
use crate::kitchen::Place;
use crate::thermal::vessel::{Spot, Surroundings, Vessel};
use crate::units::{Celsius, CelsiusDelta, Minutes, Moment, celsius_delta, minutes};

/// How far a dough may lie from its target when nobody measured it.
///
/// ASSUMPTION: judgement.
const UNMEASURED_DOUGH: CelsiusDelta = celsius_delta(2.0);
/// How far dough from the fridge may be from the fridge. ASSUMPTION: judgement.
const CHILLED_DOUGH: CelsiusDelta = celsius_delta(1.0);
/// How long a dough is in the fridge until it is as cold as that.
///
/// ASSUMPTION: judgement: a loaf's dough in its bowl is within a tenth of the way by then.
const COLD_THROUGH: Minutes = minutes(360.0);

impl State {
    /// How warm the dough is when a fermentation starts: measured before, or as the formula
    /// hopes when it is mixed, and carried on through all that was around it since; cold where
    /// it is still to come from the fridge. Beside it, what the error of each spot has made of it by then.
    ///
    /// All of that time counts as if it had stood in one vessel, that of the step before. Buns that were divided 45 min
    /// before their last rise are really 1.8 K colder than said in a kitchen of 18 °C, and 0.8 K in one of 22;
    /// after 20 min it is 1.1 and 0.5 K. A tin loaf is within 0.4 K. A reading at the rise makes it good.
    pub(super) fn dough_at_start(
        &self,
        step: &Step,
        ferment: Ferment,
        start: Moment,
        warming_since: Option<Moment>,
        stood_in: &Vessel,
        around: &Surroundings,
    ) -> (Estimate<Celsius>, [CelsiusDelta; 3]) {
        let out_of_fridge = self.out_of_the_fridge(step);
        let to_come = ferment.from_fridge && self.retards(step).all(|one| one.ended.is_none())
            || self.supposed_out(step).is_some();
        if to_come {
            // It will have been warming since it came out, under the hands that shape it.
            let out_at = warming_since.unwrap_or(start).min(start);
            let fridge = self.temperature_in(Place::Fridge, out_at);
            let (off, air) = (self.doubt(Place::Fridge).off, self.air());
            return carried(CHILLED_DOUGH, Basis::Model, &|spots| {
                let fridge = fridge + off * spots[Spot::Fridge as usize];
                let course = stood_in.course(out_at, fridge, &air.shifted(spots));
                course.mean_at(start)
            });
        }
        let (since, dough, off, basis) = match self.last_known(step, start, warming_since) {
            // A night takes it to the fridge's own temperature, whatever it was before.
            (since, dough, ..)
                if out_of_fridge.is_some_and(|out_at| out_at > since)
                    || self.was_cold_through(step, since, start) =>
            {
                (since, dough, CHILLED_DOUGH, Basis::Model)
            }
            known => known,
        };
        if since >= start {
            return (spread(dough, off, basis), [celsius_delta(0.0); 3]);
        }
        carried(off, basis, &|spots| {
            let course = stood_in.course(since, dough, &around.shifted(spots));
            course.mean_at(start)
        })
    }

    /// What was last known of a dough by `start`, and since when: a reading of it, or else what the
    /// formula hopes for when it is mixed.
    pub(super) fn last_known(
        &self,
        step: &Step,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> (Moment, Celsius, CelsiusDelta, Basis) {
        // One taken since then goes on from this, and doesn't take its place.
        let mut newest_first = self.doughs.iter().rev();
        let reading =
            newest_first.find(|reading| reading.of == step.component && reading.at <= start);
        if let Some(read) = reading {
            return (read.at, read.temperature, MEASURED_DOUGH, Basis::Measured);
        }
        let component = self.formula.component_of(step);
        let target = component.and_then(|component| component.target);
        // What rose before this step has been following the kitchen since it was mixed.
        let mixed_at = self.first_ferment_start(step).or(warming_since);
        let mixed_at = mixed_at.unwrap_or(start).min(start);
        let dough = target.unwrap_or(self.air().at(start));
        (mixed_at, dough, UNMEASURED_DOUGH, Basis::Model)
    }

    /// How far the dough's times in the fridge have got.
    fn retards(&self, step: &Step) -> impl Iterator<Item = &Progress> {
        let component = step.component;
        let steps = self.formula.steps.iter();
        steps
            .filter(move |other| other.component == component && other.kind == StepKind::Retard)
            .map(|other| self.progress(other.id))
    }

    /// When the dough last came out of the fridge. A time there that was left out takes nothing out.
    fn out_of_the_fridge(&self, step: &Step) -> Option<Moment> {
        let ended = self.retards(step).filter_map(|retard| retard.ended);
        let ended = ended.filter(|ended| ended.how == How::Done);
        ended.map(|ended| ended.at).max()
    }

    /// Whether the dough stood in the fridge in an earlier rise, for so long that nothing is left of what it was before.
    fn was_cold_through(&self, step: &Step, since: Moment, start: Moment) -> bool {
        let steps = self.formula.steps.iter();
        let earlier = steps.take_while(|other| other.id != step.id);
        let mut earlier = earlier.filter(|other| other.component == step.component);
        earlier.any(|other| {
            let opened = self.progress(other.id).open_since.unwrap_or(self.started);
            let mut times = self.times_in_fridge(other, opened).into_iter();
            times.any(|(from, to)| from.max(since) + COLD_THROUGH <= to.min(start))
        })
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
}

/// A dough at its start, and how much warmer it is for each spot that is as warm as its doubt allows.
fn carried(
    off: CelsiusDelta,
    basis: Basis,
    at: &dyn Fn(&[f64; 3]) -> Celsius,
) -> (Estimate<Celsius>, [CelsiusDelta; 3]) {
    let likely = at(&[0.0; 3]);
    let carried = Spot::ALL.map(|spot| {
        let mut spots = [0.0; 3];
        spots[spot as usize] = 1.0;
        at(&spots) - likely
    });
    (spread(likely, off, basis), carried)
}

pub(super) fn spread(likely: Celsius, off: CelsiusDelta, basis: Basis) -> Estimate<Celsius> {
    Estimate::new(likely - off, likely, likely + off, basis)
}
