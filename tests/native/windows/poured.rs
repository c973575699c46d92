//! The windows of what was poured into something else on the way, against days on which the same inputs act before and after.

use domain::estimate::{Basis, Estimate};
use domain::formula::Held;
use domain::thermal::cooling::FilmSpread;
use domain::thermal::vessel::{Cooling, Doubt, Material, Spot, Surroundings, Vessel};
use domain::units::{Celsius, Minutes, celsius, celsius_delta, grams, millimetres, minutes};
use domain::yeast::proof::{Learnt, Proof};

use super::cooling::FILM;
use super::proofs::Day;
use super::sample::{Allowed, Coverage, Draws, hold};
use super::{START, at, round};

/// Days of each case; each is drawn twice from its own seed, so that its errors are the same in both vessels.
const DAYS: u64 = 2_000;

fn kitchen(air: f64) -> Surroundings {
    Surroundings::constant(celsius(air)).doubted(Doubt {
        of: Spot::Kitchen,
        off: celsius_delta(2.0),
    })
}

/// As many kelvins in doubt as a proofer, or a fridge.
fn other(of: Spot, temperature: f64, off: f64) -> Surroundings {
    let off = celsius_delta(off);
    Surroundings::constant(celsius(temperature)).doubted(Doubt { of, off })
}

fn risen(dough: f64, off: f64, air: f64, held: Held) -> Proof {
    Proof {
        range: Estimate::new(minutes(75.0), minutes(90.0), minutes(110.0), Basis::Formula),
        reference: celsius(25.0),
        start: START,
        dough: round(celsius(dough), off),
        surroundings: kitchen(air),
        vessel: Vessel::dough_held(held, Material::DOUGH, grams(680.0)),
        had: minutes(0.0),
        learnt: Learnt::default(),
    }
}

#[test]
fn windows_of_poured_doughs_hold_what_a_sample_says() {
    use Held::{Bag, Bowl, Jar};
    let cases = [
        (
            "bowl to jar",
            risen(25.0, 2.0, 20.0, Bowl),
            30.0,
            Jar,
            kitchen(20.0),
        ),
        (
            "bowl to bag",
            risen(27.0, 0.5, 18.0, Bowl),
            40.0,
            Bag,
            kitchen(18.0),
        ),
        (
            "jar to bowl",
            risen(23.0, 0.5, 24.0, Jar),
            50.0,
            Bowl,
            kitchen(24.0),
        ),
        (
            "bowl to a jar in a proofer",
            risen(22.0, 2.0, 20.0, Bowl),
            40.0,
            Jar,
            other(Spot::Own, 28.0, 1.5),
        ),
    ];
    let cases = cases.map(|(name, before, poured, into, around)| {
        let vessel = Vessel::dough_held(into, Material::DOUGH, grams(680.0));
        let moment = at(poured);
        let after = before.poured(moment, vessel.clone(), around.clone());
        let sample = (1..=DAYS).map(|day| {
            let first = Day::drawn(&before, &mut Draws::seeded(day));
            let (had, dough) = first.by(poured);
            let second = Proof {
                start: moment,
                dough: Estimate::exact(dough, Basis::Model),
                surroundings: around.clone(),
                vessel: vessel.clone(),
                had: Minutes::clamped(had),
                ..before.clone()
            };
            poured + Day::drawn(&second, &mut Draws::seeded(day)).ready_after()
        });
        let window = after.window().map(|end| (end - START).get());
        let sample: Vec<f64> = sample.collect();
        (name.to_owned(), Coverage::of(&window, &sample))
    });
    let allowed = Allowed {
        ends: 3.0,
        inside: 7.0,
    };
    hold("poured doughs", cases.to_vec(), &allowed);
}

#[test]
fn windows_of_poured_creams_hold_what_a_sample_says() {
    let cream = |held, cooling| {
        let (mass, depth) = (grams(360.0), millimetres(15.0));
        Vessel::filling_held(held, Material::CUSTARD, mass, depth, cooling)
    };
    let (bowl, fridge) = (Held::Bowl, other(Spot::Fridge, 5.0, 3.2));
    let ice = other(Spot::Own, 1.0, 1.0);
    let cases = [
        (
            "kitchen to a bag in the fridge",
            kitchen(21.0),
            30.0,
            Held::Bag,
            Cooling::Fridge,
            &fridge,
            12.0,
        ),
        (
            "kitchen to a jar in the fridge",
            kitchen(21.0),
            20.0,
            Held::Jar,
            Cooling::Fridge,
            &fridge,
            12.0,
        ),
        (
            "kitchen to a bag in ice water",
            kitchen(21.0),
            15.0,
            Held::Bag,
            Cooling::IceBath,
            &ice,
            8.0,
        ),
        (
            "kitchen to a bag there",
            kitchen(21.0),
            60.0,
            Held::Bag,
            Cooling::Kitchen,
            &kitchen(21.0),
            30.0,
        ),
    ];
    let cases = cases.map(|(name, before, poured, into, cooling, around, to)| {
        let (dish, other) = (cream(bowl, Cooling::Kitchen), cream(into, cooling));
        let (hot, to) = (celsius(80.0), celsius(to));
        let sample = (1..=DAYS).map(|day| {
            let mut draws = Draws::seeded(day);
            let film = draws.factor(FILM);
            let spots = Spot::ALL.map(|_| draws.tenths());
            let dish = dish.with_film_times(film);
            let warm = dish
                .course(START, hot, &before.shifted(&spots))
                .mean_at(at(poured));
            let course =
                other
                    .with_film_times(film)
                    .course(at(poured), warm, &around.shifted(&spots));
            let cold = course.when_core_reaches(to, Minutes::MAX);
            cold.map_or(f64::INFINITY, |cold| (cold - START).get())
        });
        let sample: Vec<f64> = sample.collect();
        let start = Estimate::exact(hot, Basis::Model);
        let warm: Estimate<Celsius> =
            FilmSpread::of(dish.clone()).poured_at(at(poured), start, &before, START, None);
        let window = FilmSpread::of(other.clone()).window_from(warm, to, around, at(poured));
        let window = window.map(|end| (end - START).get());
        (name.to_owned(), Coverage::of(&window, &sample))
    });
    let allowed = Allowed {
        ends: 3.0,
        inside: 7.0,
    };
    hold("poured creams", cases.to_vec(), &allowed);
}
