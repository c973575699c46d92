//! Frozen milk and juice, and flour that is chilled: what the model says where the liquid alone,
//! straight from the fridge, would leave the dough too warm.

mod properties;

use checks::{assert_close, starter};
use domain::food::Food;
use domain::kitchen::Kitchen;
use domain::thermal::constants as known;
use domain::thermal::kneading::KneadingMethod;
use domain::thermal::liquid::chilling::{COLDEST_FLOUR, LONGEST, chill, spread_flour, time_to};
use domain::thermal::liquid::frozen::frozen_for;
use domain::thermal::liquid::{
    Action, Advice, ColdPlace, LiquidAnswer, LiquidPart, LiquidQuestion, Reach, dough_with,
    liquid_temperature,
};
use domain::thermal::mixing::{Part, PartKind};
use domain::units::{Celsius, Grams, celsius, grams};

use super::of;

fn buns_in(air: Celsius, kneading: KneadingMethod) -> LiquidQuestion {
    let kitchen = Kitchen {
        air,
        kneading,
        ..Kitchen::UNMEASURED
    };
    let buns = starter("plum-almond-buns");
    let dough = buns.dough().expect("it has a dough").id;
    let question = buns.liquid_question(dough, &kitchen);
    question.expect("its milk is tempered")
}

fn answered(question: &LiquidQuestion) -> LiquidAnswer {
    liquid_temperature(question).expect("there is milk")
}

#[test]
fn in_a_warm_kitchen_a_machine_wants_some_of_the_milk_frozen() {
    for (method, air_c) in [
        (KneadingMethod::StandMixer, 30.0),
        (KneadingMethod::FoodProcessor, 33.0),
    ] {
        let asked = buns_in(celsius(air_c), method);
        let answer = answered(&asked);
        assert_eq!(answer.reach, Reach::Frozen, "{method:?}");
        let split = answer.frozen.expect("some of the milk");
        assert_eq!(split.which, 0);
        assert!(split.takes_hours);
        assert_close("all of it", (split.frozen + split.rest).get(), 155.0, 1e-9);
        assert!(split.frozen.get() > 5.0 && split.frozen.get() <= 77.5);
        assert_close("dough", answer.dough.likely().get(), 25.0, 0.05);
        // The way without is told, and what helps on it.
        let without = answer.unfrozen_dough.expect("freezing takes hours");
        assert_eq!(Some(without), dough_with(&asked, asked.fridge));
        assert!(without.likely() > celsius(25.3));
        let flour = |one: &Advice| one.action == Action::ChillFlour;
        assert!(answer.advice.iter().any(flour));
    }
}

#[test]
fn nobody_freezes_milk_for_what_a_thermometer_does_not_show() {
    let mut asked = buns_in(celsius(27.0), KneadingMethod::StandMixer);
    let chilled = dough_with(&asked, asked.fridge).expect("a dough").likely();
    asked.target = Celsius::clamped(chilled.get() - 0.2);
    let answer = answered(&asked);
    assert_eq!(answer.reach, Reach::Frozen);
    assert_eq!((answer.mild, answer.frozen), (asked.fridge, None));
    assert!(answer.advice.is_empty());
}

#[test]
fn hands_are_not_given_frozen_milk_and_eggs_are_never_frozen() {
    let by_hand = buns_in(celsius(31.0), KneadingMethod::Hand);
    let answer = answered(&by_hand);
    assert_eq!(answer.frozen, None);
    let coldest = known::FRIDGE;
    assert_eq!(answer.reach, Reach::TooColdWanted { coldest });

    let mut egg = buns_in(celsius(31.0), KneadingMethod::StandMixer);
    egg.liquids[0].food = of("egg");
    assert_eq!(answered(&egg).frozen, None);
}

/// A ball of ice in milk: what is frozen and what isn't, mixed with their own heats and the heat of
/// fusion, settle where the split says that they count as.
#[test]
fn a_frozen_part_holds_just_the_heat_that_is_missing() {
    for (key, wanted_c) in [("milk", -5.0), ("milk", 2.0), ("orange-juice", -12.0)] {
        let part = liquid(of(key), grams(200.0), celsius(5.0));
        let split = frozen_for(&[part], 0, celsius(wanted_c));
        let heat = Part::of(part.food, grams(1.0), celsius(5.0))
            .specific_heat
            .get();
        let water = part.food.composition.water.get();
        // Above the freezing point every gram holds c T; frozen, its water lacks the heat of fusion
        // and has warmed from −18 °C only as ice.
        let frozen_heat = heat - water * (4.1952 - 2.03);
        let frozen_j = split.frozen.get() * (-18.0 * frozen_heat - water * 333.43);
        let rest_j = split.rest.get() * heat * 5.0;
        let together_c = (frozen_j + rest_j) / (heat * 200.0);
        assert_close(key, together_c, wanted_c, 1e-6);
    }
}

/// What the model leaves out stays as small as it says: of milk's water 5 % never freezes or is kept
/// liquid by what is dissolved, by ASHRAE's `x = (w - 0.4 p) (1 - t_0 / T_f)`, from memory.
#[test]
fn what_stays_liquid_in_frozen_milk_is_worth_half_a_kelvin_at_most() {
    let asked = buns_in(celsius(32.0), KneadingMethod::StandMixer);
    let milk = of("milk").composition;
    let (water, protein) = (milk.water.get(), milk.protein.get());
    let ice = (water - 0.4 * protein) * (1.0 - -0.6 / -18.0);
    assert_close("frozen of its water", ice / water, 0.95, 0.005);
    // J a gram: the heat of fusion, less what liquid water takes up more than ice from −18 °C on.
    let short_j_per_g = (water - ice) * (333.43 - 18.0 * (4.1952 - 2.03));
    let capacity: f64 = asked
        .parts
        .iter()
        .map(|part| part.mass.get() * part.specific_heat.get())
        .sum();
    let capacity = capacity + 155.0 * 3.894;
    let warmer_k = |frozen_g: f64| frozen_g * short_j_per_g / capacity;
    assert_close("half of it", warmer_k(77.5), 0.5, 0.1);
    assert_close("a quarter", warmer_k(38.75), 0.25, 0.05);
}

fn liquid(food: &'static Food, mass: Grams, coldest: Celsius) -> LiquidPart {
    LiquidPart {
        food,
        mass,
        coldest,
    }
}

#[test]
fn chilled_flour_brings_the_dough_to_its_target() {
    let asked = buns_in(celsius(32.0), KneadingMethod::StandMixer);
    let answer = answered(&asked);
    let mut advice = answer.advice.iter();
    let flour = advice.find(|one| one.action == Action::ChillFlour);
    let told = flour.expect("flour helps").chill.expect("it takes a while");
    assert!(told.time.likely() <= LONGEST && told.to >= COLDEST_FLOUR);

    let mut chilled = asked.clone();
    for part in &mut chilled.parts {
        if part.kind == PartKind::Flour {
            part.temperature = told.to;
        }
    }
    let dough = dough_with(&chilled, asked.fridge).expect("a dough");
    assert_close("the target", dough.likely().get(), 25.0, 0.02);
}

#[test]
fn the_freezer_is_for_what_the_fridge_does_not_do_in_an_hour() {
    let fridge = known::FRIDGE;
    let from = celsius(28.0);
    let mild = chill(spread_flour(), from, celsius(15.0), fridge).expect("warm flour");
    assert_eq!((mild.place, mild.to), (ColdPlace::Fridge, celsius(15.0)));
    let cold = chill(spread_flour(), from, celsius(5.5), fridge).expect("warm flour");
    assert_eq!((cold.place, cold.to), (ColdPlace::Freezer, celsius(5.5)));
    // What no flour can do is done as far as it can be: not below freezing, and within the hour.
    let beyond = chill(spread_flour(), from, celsius(-30.0), fridge).expect("warm flour");
    assert_eq!(
        (beyond.place, beyond.to),
        (ColdPlace::Freezer, COLDEST_FLOUR)
    );
    assert!(beyond.time.likely() <= LONGEST);
    assert_eq!(
        chill(spread_flour(), celsius(4.0), celsius(5.0), fridge),
        None
    );
}

/// The heat equation for the same layer, by finite differences in plain Python: 28 to 12 °C in
/// 5 °C and 28 to 0 °C in −18 °C. Tolerance: 0.1 min, what a grid of a hundred leaves.
#[test]
fn flour_takes_as_long_as_the_heat_equation_says() {
    for (to_c, around_c, expected_min) in [(12.0, 5.0, 34.21), (0.0, -18.0, 26.88)] {
        let time = time_to(
            spread_flour(),
            celsius(28.0),
            celsius(around_c),
            celsius(to_c),
        );
        let time = time.expect("it is warmer than the air");
        assert_close("min", time.likely().get(), expected_min, 0.1);
        let (low, high) = (time.low().get(), time.high().get());
        assert!(low < 0.8 * expected_min && high > 1.25 * expected_min);
    }
}
