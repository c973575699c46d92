//! The windows of proofs against a sample of all their uncertain inputs.

use domain::estimate::{Basis, Estimate};
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::{Course, Doubt, Material, Spot, Surroundings, Vessel};
use domain::units::{
    Celsius, CelsiusDelta, Minutes, Moment, celsius, celsius_delta, grams, minutes,
};
use domain::yeast::activity::{Cardinals, relative_rate};
use domain::yeast::proof::{Learnt, Proof};

use super::sample::{Allowed, Coverage, Draws, hold};
use super::{DRAWS, START, at, round};

/// As the module of proofs says: one time in ten the lag is longer, or shorter, by this factor.
const LAG: f64 = 1.3;

fn minutes_around([low, likely, high]: [f64; 3]) -> Estimate<Minutes> {
    Estimate::new(minutes(low), minutes(likely), minutes(high), Basis::Formula)
}

/// What a dough really does: one draw of all that is uncertain.
pub(super) struct Day {
    start: Moment,
    course: Course,
    cardinals: Cardinals,
    had: f64,
    per_rate: f64,
    /// Reference minutes that it takes.
    pub(super) wanted: f64,
}

impl Day {
    fn new(proof: &Proof, course: Course, cardinals: Cardinals, wanted: f64) -> Self {
        Self {
            start: proof.start,
            course,
            cardinals,
            had: proof.had.get(),
            per_rate: 1.0 / relative_rate(proof.reference, &cardinals),
            wanted,
        }
    }

    fn likely(proof: &Proof) -> Self {
        let vessel = &proof.vessel;
        let course = vessel.course(proof.start, proof.dough.likely(), &proof.surroundings);
        Self::new(proof, course, Cardinals::DOUGH, proof.range.likely().get())
    }

    pub(super) fn drawn(proof: &Proof, draws: &mut Draws) -> Self {
        let wanted = draws.log(&proof.range);
        // One error of a kitchen is that of all the time in it, and of what it has made of the dough before.
        let spots = Spot::ALL.map(|_| draws.tenths());
        let (carried, asked) = proof.carried();
        let of_spots = |by: [f64; 3]| std::iter::zip(by, spots).map(|(by, z)| by * z).sum::<f64>();
        let carried = of_spots(carried.map(CelsiusDelta::get));
        let wanted = wanted * of_spots(asked).exp();
        let dough = Celsius::clamped(draws.plain(&proof.dough) + carried);
        let minimum = Estimate::new(
            Cardinals::DOUGH_HARDY.minimum,
            Cardinals::DOUGH.minimum,
            Cardinals::DOUGH_TENDER.minimum,
            Basis::Model,
        );
        let cardinals = Cardinals {
            minimum: Celsius::clamped(draws.plain(&minimum)),
            ..Cardinals::DOUGH
        };
        let vessel = proof.vessel.with_lags_times(draws.factor(LAG));
        let around = proof.surroundings.shifted(&spots);
        let course = vessel.course(proof.start, dough, &around);
        Self::new(proof, course, cardinals, wanted)
    }

    fn dough_after(&self, t: f64) -> Celsius {
        self.course.mean_at(self.start + minutes(t))
    }

    fn rate(&self, t: f64) -> f64 {
        relative_rate(self.dough_after(t), &self.cardinals) * self.per_rate
    }

    /// Reference minutes had at `until` minutes, and when all that are wanted were had, by Simpson's rule over the
    /// public temperatures and rates.
    fn gains(&self, until: f64) -> (f64, Option<f64>) {
        let (mut gained, mut from, mut first) = (self.had, 0.0, self.rate(0.0));
        while from < until {
            let step = f64::min(3.0, until - from);
            let (middle, last) = (self.rate(from + 0.5 * step), self.rate(from + step));
            let gain = step / 6.0 * (first + 4.0 * middle + last);
            if gained + gain >= self.wanted {
                // Within so short a step the rate hardly changes.
                let after = from + step * (self.wanted - gained).max(0.0) / gain;
                return (self.wanted, Some(after));
            }
            (gained, from, first) = (gained + gain, from + step, last);
        }
        (gained, None)
    }

    /// What it has had after so many minutes, and how warm it is.
    pub(super) fn by(&self, minutes: f64) -> (f64, Celsius) {
        (self.gains(minutes).0, self.dough_after(minutes))
    }

    /// Minutes until it is ready.
    pub(super) fn ready_after(&self) -> f64 {
        const LONGEST: f64 = 3_000.0;
        self.gains(LONGEST).1.unwrap_or(LONGEST)
    }

    /// How far it has come after so many minutes, from 0 to 1.
    pub(super) fn share_after(&self, minutes: f64) -> f64 {
        self.gains(minutes).0 / self.wanted
    }
}

fn off(of: Spot, off: f64) -> Doubt {
    let off = celsius_delta(off);
    Doubt { of, off }
}

/// A kitchen in which a thermometer hangs.
const MEASURED: Doubt = Doubt {
    of: Spot::Kitchen,
    off: celsius_delta(1.0),
};

fn proof(dough: f64, off: f64, kitchen: f64, vessel: Vessel) -> Proof {
    Proof {
        range: minutes_around([75.0, 90.0, 110.0]),
        reference: celsius(25.0),
        start: START,
        dough: round(celsius(dough), off),
        surroundings: Surroundings::constant(celsius(kitchen)).doubted(MEASURED),
        vessel,
        had: minutes(0.0),
        learnt: Learnt::default(),
    }
}

pub(super) fn kitchens() -> Vec<(&'static str, Proof)> {
    let bowl = || Vessel::dough_in_bowl(grams(680.0));
    let bun = || BakeForm::Round.rising(grams(130.0), Material::DOUGH);
    let tin = || BakeForm::Tin.rising(grams(900.0), Material::DOUGH);
    let (measured, hoped) = (0.5, 2.0);
    let first_rise = |dough, off, kitchen| proof(dough, off, kitchen, bowl());
    let final_proof = |dough, off, kitchen, vessel| Proof {
        range: minutes_around([48.0, 58.0, 70.0]),
        ..proof(dough, off, kitchen, vessel)
    };
    let mut cooled = first_rise(25.0, measured, 22.0);
    let colder = celsius(17.0);
    cooled.surroundings = cooled
        .surroundings
        .put(at(30.0), colder, 1.0, Some(MEASURED));
    let mut on_the_way = first_rise(23.5, measured, 20.0);
    on_the_way.had = minutes(40.0);
    let mut sure = first_rise(25.0, measured, 21.0);
    sure.range = minutes_around([90.0, 90.0, 90.0]);
    // As a model says of fridges that nobody measured, and of proofers.
    let (fridge, proofer) = (off(Spot::Fridge, 3.2), off(Spot::Own, 1.5));
    let unknown =
        |kitchen| Surroundings::constant(celsius(kitchen)).doubted(off(Spot::Kitchen, 2.0));
    let mut unmeasured = first_rise(25.0, hoped, 20.0);
    unmeasured.surroundings = unknown(20.0);
    // It has stood in that kitchen for long enough to be where that is.
    let mut followed = final_proof(21.0, measured, 20.0, bun());
    followed.surroundings = unknown(20.0);
    let followed = followed.carrying([1.6, 0.0, 0.0].map(celsius_delta), [0.0; 3]);
    let mut warm = first_rise(24.0, measured, 20.0);
    warm.surroundings = unknown(20.0).put(at(25.0), celsius(29.0), 1.0, Some(proofer));
    let mut chilled = first_rise(25.0, measured, 20.0);
    chilled.surroundings = unknown(20.0)
        .put(at(20.0), celsius(5.0), 1.0, Some(fridge))
        .put(at(60.0), celsius(20.0), 1.0, Some(MEASURED));
    let out = final_proof(8.0, 1.0, 21.0, tin());
    let out = out.carrying([0.3, 2.9, 0.0].map(celsius_delta), [0.0, -0.15, 0.0]);
    vec![
        ("first rise, nobody measured anything", unmeasured),
        (
            "buns that have followed a kitchen nobody measured",
            followed,
        ),
        ("first rise, kitchen and then proofer", warm),
        ("first rise, an hour in a fridge nobody measured", chilled),
        ("tin loaf out of a fridge nobody measured", out),
        (
            "first rise at its reference",
            first_rise(25.0, measured, 25.0),
        ),
        ("first rise, 22 °C", first_rise(25.0, measured, 22.0)),
        (
            "first rise, 22 °C, nobody measured",
            first_rise(25.0, hoped, 22.0),
        ),
        ("first rise, 19 °C", first_rise(24.0, measured, 19.0)),
        (
            "first rise, 19 °C, nobody measured",
            first_rise(25.0, hoped, 19.0),
        ),
        (
            "first rise, cold at 16 °C",
            first_rise(23.0, measured, 16.0),
        ),
        ("first rise, hot at 29 °C", first_rise(27.0, measured, 29.0)),
        ("first rise, 22 °C and then 17 °C", cooled),
        ("first rise, measured on the way", on_the_way),
        ("first rise whose time is sure", sure),
        ("buns, 22 °C", final_proof(23.0, measured, 22.0, bun())),
        (
            "buns, 26 °C, nobody measured",
            final_proof(24.0, hoped, 26.0, bun()),
        ),
        ("tin loaf, 21 °C", final_proof(24.0, measured, 21.0, tin())),
        (
            "first rise in a larder at 12 °C",
            first_rise(20.0, measured, 12.0),
        ),
        (
            "tin loaf out of the fridge, 22 °C",
            final_proof(7.0, 1.0, 22.0, tin()),
        ),
    ]
}

/// The brute force reckons the same model: with the likely inputs it comes to the likely moment.
#[test]
fn the_brute_force_comes_to_the_likely_moment() {
    for (name, proof) in kitchens() {
        let likely = (proof.window().likely() - START).get();
        checks::assert_close(name, Day::likely(&proof).ready_after(), likely, 0.02);
    }
}

#[test]
fn proof_windows_hold_what_a_sample_says() {
    let cases = kitchens()
        .into_iter()
        .zip(1..)
        .map(|((name, proof), seed)| {
            let mut draws = Draws::seeded(seed);
            let sample: Vec<f64> = (0..DRAWS)
                .map(|_| Day::drawn(&proof, &mut draws).ready_after())
                .collect();
            let window = proof.window().map(|end| (end - START).get());
            (name.to_owned(), Coverage::of(&window, &sample))
        });
    let allowed = Allowed {
        ends: 3.0,
        inside: 7.0,
    };
    hold("proofs", cases.collect(), &allowed);
}
