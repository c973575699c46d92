//! The window of a dough's temperature after kneading against a sample of all that mixing and kneading leave open.

use checks::starter;
use domain::estimate::{Basis, Estimate};
use domain::food::food;
use domain::thermal::constants::{
    HEAT_OF_HYDRATION_SPREAD, MEASURED_AIR, MILK_FAT_MELTING_SPREAD,
    SUCROSE_HEAT_OF_SOLUTION_SPREAD, UNMEASURED, YEAST_LIQUID_CAP,
};
use domain::thermal::kneading::{KneadingMethod, Parameters, after_kneading};
use domain::thermal::liquid::{LiquidPart, LiquidQuestion, dough_with};
use domain::thermal::mixing::{Part, Sources, mixed_temperature};
use domain::units::{
    Celsius, CelsiusDelta, JoulesPerGram, Minutes, Share, celsius, grams, minutes,
};

use super::DRAWS;
use super::sample::{Allowed, Coverage, Draws, hold};

/// The starter's bun dough, with what is kept in the fridge cold from it.
fn question(method: KneadingMethod, kitchen: f64, kneaded: f64) -> LiquidQuestion {
    let formula = starter("plum-almond-buns");
    let dough = formula.dough().expect("buns have a dough");
    let part = |key: &str, at: f64| {
        let mut ingredients = dough.ingredients.iter();
        let found = ingredients.find(|one| one.food.key == key);
        let mass = found.expect("the dough has it").mass;
        Part::of(food(key).expect("it is in the table"), mass, celsius(at))
    };
    LiquidQuestion {
        parts: vec![
            part("bread-flour", kitchen),
            part("egg", 5.0),
            part("butter", kitchen),
            part("sugar", kitchen),
            part("salt", kitchen),
            part("yeast-instant", kitchen),
        ],
        liquids: vec![LiquidPart {
            food: food("milk").expect("it is in the table"),
            mass: grams(155.0),
            coldest: celsius(5.0),
        }],
        target: celsius(25.0),
        kitchen: celsius(kitchen),
        method,
        kneading: minutes(kneaded),
        cap: YEAST_LIQUID_CAP,
        fridge: celsius(5.0),
    }
}

/// What kneading leaves out: all that is open of a dough that isn't kneaded at all.
fn left_out() -> CelsiusDelta {
    let unkneaded = after_kneading(
        KneadingMethod::Hand,
        celsius(22.0),
        celsius(22.0),
        minutes(0.0),
    );
    unkneaded.high() - unkneaded.likely()
}

fn drawn(question: &LiquidQuestion, liquid_at: Celsius, draws: &mut Draws) -> f64 {
    let usual = Sources::USUAL;
    let joules = |value: JoulesPerGram, off: f64| JoulesPerGram::clamped(value.get() + off);
    let sources = Sources {
        hydration: joules(
            usual.hydration,
            draws.tenths() * HEAT_OF_HYDRATION_SPREAD.get(),
        ),
        sugar: joules(
            usual.sugar,
            draws.tenths() * SUCROSE_HEAT_OF_SOLUTION_SPREAD.get(),
        ),
        milk_fat: usual.milk_fat * (1.0 + draws.tenths() * MILK_FAT_MELTING_SPREAD.get()).max(0.0),
        ..usual
    };
    let milk = &question.liquids[0];
    let liquid = Part::of(milk.food, milk.mass, liquid_at);
    let parts: Vec<Part> = question.parts.iter().copied().chain([liquid]).collect();
    let mixed = mixed_temperature(&parts, &sources).expect("there is something in the bowl");
    let mixed = Celsius::clamped(mixed.get() + draws.tenths() * UNMEASURED.get());
    let usual = question.method.parameters();
    let parameters = Parameters {
        // One draw in a thousand would make it nothing.
        time_constant: Minutes::clamped(
            (usual.time_constant.get() + draws.tenths() * usual.time_constant_spread.get())
                .max(0.2),
        ),
        hand_share: Share::clamped(
            usual.hand_share.get() + draws.tenths() * usual.hand_share_spread.get(),
        ),
        warming_per_minute: CelsiusDelta::clamped(
            usual.warming_per_minute.get() + draws.tenths() * usual.warming_per_minute_spread.get(),
        ),
        ..usual
    };
    let kitchen = Celsius::clamped(question.kitchen.get() + draws.tenths() * MEASURED_AIR.get());
    let kneaded = parameters.after(mixed, kitchen, question.kneading);
    kneaded.get() + draws.tenths() * left_out().get()
}

#[test]
fn dough_temperatures_hold_what_a_sample_says() {
    use KneadingMethod::{FoldOnly, FoodProcessor, Hand, StandMixer};
    let cases = [
        (Hand, 22.0, 9.0, 30.0),
        (Hand, 22.0, 15.0, 40.0),
        (Hand, 17.0, 9.0, 40.0),
        (Hand, 28.0, 9.0, 10.0),
        (StandMixer, 22.0, 8.0, 25.0),
        (StandMixer, 17.0, 8.0, 35.0),
        (StandMixer, 28.0, 8.0, 8.0),
        (StandMixer, 22.0, 15.0, 20.0),
        (FoodProcessor, 22.0, 1.5, 20.0),
        (FoodProcessor, 28.0, 1.5, 8.0),
        (FoldOnly, 22.0, 5.0, 35.0),
        (FoldOnly, 17.0, 5.0, 40.0),
    ];
    let cases = cases.into_iter().zip(1..).map(|(case, seed)| {
        let (method, kitchen, kneaded, liquid) = case;
        let question = question(method, kitchen, kneaded);
        let mut draws = Draws::seeded(seed);
        let sample: Vec<f64> = (0..DRAWS)
            .map(|_| drawn(&question, celsius(liquid), &mut draws))
            .collect();
        let window =
            dough_with(&question, celsius(liquid)).expect("there is something in the bowl");
        let name = format!("{method:?}, {kneaded} min at {kitchen} °C, milk of {liquid} °C");
        (name, Coverage::of(&window.map(Celsius::get), &sample))
    });
    // The two sides of each parameter are averaged, so a dough that is far from its kitchen, and would come nearer to
    // it much sooner than it would keep away from it, falls below the cool end a little too often.
    let allowed = Allowed {
        ends: 4.0,
        inside: 7.0,
    };
    hold("doughs", cases.collect(), &allowed);
}

#[test]
fn a_window_of_no_width_has_no_middle() {
    let exact = Estimate::exact(celsius(25.0), Basis::Measured);
    assert_eq!(exact.middle_half(), (celsius(25.0), celsius(25.0)));
}
