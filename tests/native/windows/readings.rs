//! Windows after a thermometer's reading, over days that are drawn from what was believed before it.
//!
//! A day is a body that goes faster or slower than forecast, and a thermometer that is off. Its reading is
//! given to the model, and the model's window is held against when that body really gets there.

use domain::estimate::{Basis, Estimate};
use domain::thermal::cooling::{FilmSpread, HORIZON};
use domain::thermal::oven::{BakeForm, Baking, Fan, Heat, oven_course};
use domain::thermal::probe::{OFF, window_after};
use domain::thermal::vessel::{Cooling, Course, Doubt, Spot, Surroundings, Vessel};
use domain::units::{
    Celsius, Minutes, Moment, celsius, celsius_delta, grams, metres, millimetres, minutes,
};

use super::cooling::FILM;
use super::looks::place;
use super::sample::{Allowed, Coverage, Draws, hold};
use super::{START, at};

const PACES: usize = 250;
const READINGS_EACH: usize = 8;

struct Case {
    name: &'static str,
    target: Celsius,
    forecast: Course,
    before: Estimate<Moment>,
    /// The window for a temperature on the way, where the model has one.
    passing: Box<dyn Fn(Celsius) -> Option<Estimate<Moment>>>,
    /// The body in surroundings as they might be.
    aside: Vec<Course>,
    /// One day's body.
    day: Box<dyn Fn(&mut Draws) -> Course>,
}

fn reached(course: &Course, target: Celsius) -> Moment {
    let there = course.when_core_reaches(target, HORIZON);
    there.expect("it gets there")
}

fn bakes(name: &'static str, form: BakeForm, mass: f64, range: [f64; 3], core: f64) -> Case {
    let [low, likely, high] = range.map(minutes);
    let range = Estimate::new(low, likely, high, Basis::Formula);
    let bread = Baking {
        piece: grams(mass),
        form,
        dough: celsius(25.0),
        core: celsius(core),
        altitude: metres(0.0),
    };
    let heat = Heat {
        air: celsius(190.0),
        fan: Fan::Off,
    };
    let course = move |likely: Minutes| oven_course(&bread, heat, START, likely);
    Case {
        name,
        target: celsius(core),
        forecast: course(range.likely()),
        before: range.map(|length| START + length),
        passing: Box::new(|_| None),
        aside: Vec::new(),
        day: Box::new(move |draws| course(Minutes::clamped(draws.log(&range)))),
    }
}

fn cools(name: &'static str, vessel: Vessel, from: f64, to: f64, around: Surroundings) -> Case {
    let (from, target) = (celsius(from), celsius(to));
    let spread = FilmSpread::of(vessel.clone());
    let air = around.certain();
    let before = spread.window(from, target, &air, START);
    let forecast = vessel.course(START, from, &around);
    let aside = around.aside(START).into_iter();
    let aside = aside.map(|around| vessel.course(START, from, &around));
    let aside = aside.collect();
    Case {
        name,
        target,
        forecast,
        before,
        passing: Box::new(move |core| Some(spread.window(from, core, &air, START))),
        aside,
        day: Box::new(move |draws| {
            let vessel = vessel.with_film_times(draws.factor(FILM));
            let around = around.shifted(&Spot::ALL.map(|_| draws.tenths()));
            vessel.course(START, from, &around)
        }),
    }
}

fn cases() -> Vec<Case> {
    let filling = |mass, depth, cooling| Vessel::filling(grams(mass), millimetres(depth), cooling);
    let constant = |around| Surroundings::constant(celsius(around));
    let unmeasured = Doubt {
        of: Spot::Kitchen,
        off: celsius_delta(2.0),
    };
    vec![
        bakes(
            "buns bake",
            BakeForm::Round,
            130.0,
            [16.0, 18.0, 22.0],
            90.0,
        ),
        bakes(
            "a loaf bakes",
            BakeForm::Tin,
            900.0,
            [35.0, 40.0, 46.0],
            94.0,
        ),
        bakes(
            "buns that touch bake",
            BakeForm::Touching,
            130.0,
            [19.0, 24.0, 31.0],
            90.0,
        ),
        cools(
            "buns cool, nobody measured",
            BakeForm::Round.cooling(grams(130.0)),
            95.0,
            35.0,
            constant(22.0).doubted(unmeasured),
        ),
        cools(
            "cream in the fridge",
            filling(360.0, 12.0, Cooling::Fridge),
            80.0,
            8.0,
            constant(4.0),
        ),
        cools(
            "cream on ice water",
            filling(360.0, 15.0, Cooling::IceBath),
            80.0,
            5.0,
            constant(1.0),
        ),
        cools(
            "buns cool",
            BakeForm::Round.cooling(grams(130.0)),
            95.0,
            35.0,
            constant(22.0),
        ),
        cools(
            "a loaf cools",
            BakeForm::Round.cooling(grams(900.0)),
            95.0,
            32.0,
            constant(20.0),
        ),
    ]
}

#[test]
fn windows_after_a_reading_hold_what_days_say() {
    let mut found = Vec::new();
    for (case, seed) in cases().into_iter().zip(1..) {
        for share in [0.3, 0.55, 0.75] {
            let mut draws = Draws::seeded(seed);
            let taken = at(share * (case.before.likely() - START).get());
            let mut sample = Vec::new();
            for _ in 0..PACES {
                let day = (case.day)(&mut draws);
                let end = reached(&day, case.target);
                for _ in 0..READINGS_EACH {
                    let off = draws.tenths() * OFF.get();
                    let reading = Celsius::clamped(day.core_at(taken).get() + off);
                    let passing = (case.passing)(reading);
                    let window = window_after(
                        &case.forecast,
                        &case.before,
                        passing.as_ref(),
                        &case.aside,
                        case.target,
                        taken,
                        reading,
                    );
                    // Read off as there already: not a window any more.
                    if window.high() > taken {
                        sample.push(place(&window, end));
                    }
                }
            }
            let name = format!("{} read at {share}", case.name);
            let tenths = Estimate::new(-1.0, 0.0, 1.0, Basis::Measured);
            found.push((name, Coverage::of(&tenths, &sample)));
        }
    }
    let allowed = Allowed {
        ends: 3.5,
        inside: 5.0,
    };
    hold("readings", found, &allowed);
}
