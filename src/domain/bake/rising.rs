//! The dough of a step in which yeast works: how warm it starts, and what it rises in.

use super::progress::{How, Progress};
use super::state::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{ComponentKind, Held, Length, Step, StepKind};
use crate::kitchen::Place;
use crate::thermal::oven::BakeForm;
use crate::thermal::vessel::{Spot, Surroundings, Vessel};
use crate::units::{Celsius, CelsiusDelta, Metres, Minutes, Moment, Share, celsius_delta, minutes};
use crate::yeast::proof::{Found, Learnt, Proof};
use crate::yeast::thin_air;

/// How far a dough may lie from its target when nobody measured it.
///
/// ASSUMPTION: judgement.
const UNMEASURED_DOUGH: CelsiusDelta = celsius_delta(2.0);
/// How well a kitchen thermometer pushed into dough reads. ASSUMPTION: ±0.5 K, a usual maker's claim.
const MEASURED_DOUGH: CelsiusDelta = celsius_delta(0.5);
/// How far dough from the fridge may be from the fridge. ASSUMPTION: judgement.
const CHILLED_DOUGH: CelsiusDelta = celsius_delta(1.0);

/// How long a dough is in the fridge until it is as cold as that.
///
/// ASSUMPTION: judgement: a loaf's dough in its bowl is within a tenth of the way by then.
const COLD_THROUGH: Minutes = minutes(360.0);

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
        let today = self.today(step, ferment);
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
        found.sort_by_key(|&(at, _)| at);
        found
    }

    /// How warm the dough is when a fermentation starts: measured before, or as the formula
    /// hopes when it is mixed, and carried on through all that was around it since; cold where
    /// it is still to come from the fridge. Beside it, what the error of each spot has made of it by then.
    ///
    /// All of that time counts as if it had stood in one vessel, that of the step before. Buns that were divided 45 min
    /// before their last rise are really 1.8 K colder than said in a kitchen of 18 °C, and 0.8 K in one of 22;
    /// after 20 min it is 1.1 and 0.5 K. A tin loaf is within 0.4 K. A reading at the rise makes it good.
    fn dough_at_start(
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

fn spread(likely: Celsius, off: CelsiusDelta, basis: Basis) -> Estimate<Celsius> {
    Estimate::new(likely - off, likely, likely + off, basis)
}
