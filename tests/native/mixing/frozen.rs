//! Frozen milk and juice, and flour that is chilled: what the model says where the liquid alone,
//! straight from the fridge, would leave the dough too warm.

use super::of;
use checks::{assert_close, starter};
use domain::food::Food;
use domain::kitchen::Kitchen;
use domain::thermal::constants as known;
use domain::thermal::kneading::KneadingMethod;
use domain::thermal::liquid::chilling::{COLDEST_FLOUR, LONGEST, chill, spread_flour, time_to};
use domain::thermal::liquid::frozen::{coldest_with, frozen_for};
use domain::thermal::liquid::ice::ice_for;
use domain::thermal::liquid::{
    Action, Advice, ColdPlace, LiquidAnswer, LiquidPart, LiquidQuestion, Reach, dough_with,
    liquid_temperature,
};
use domain::thermal::mixing::{Part, PartKind, Sources, mixed_temperature};
use domain::units::{Celsius, Grams, celsius, grams};
use proptest::prelude::*;

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

fn some_food() -> impl Strategy<Value = &'static Food> {
    prop::sample::select(vec!["water", "milk", "cream", "yoghurt", "orange-juice"]).prop_map(of)
}

fn some_liquids() -> impl Strategy<Value = Vec<LiquidPart>> {
    let one = (some_food(), 10.0..=600.0_f64, 1.0..=18.0_f64);
    prop::collection::vec(one, 1..4).prop_map(|parts| {
        let parts = parts.into_iter();
        parts
            .map(|(food, mass_g, at_c)| {
                liquid(food, Grams::clamped(mass_g), Celsius::clamped(at_c))
            })
            .collect()
    })
}

proptest! {
    /// At the very temperature that chilling gives nothing is frozen, and just below hardly anything:
    /// a tenth of a degree is worth a tenth of a per cent of the liquid.
    #[test]
    fn freezing_begins_where_chilling_ends(liquids in some_liquids(), colder_k in 0.0..=0.1_f64) {
        let all: Grams = liquids.iter().map(|part| part.mass).sum();
        let heat = |part: &LiquidPart| {
            let heat = if part.food.key == "water" { 4.1952 } else {
                Part::of(part.food, grams(1.0), celsius(20.0)).specific_heat.get()
            };
            part.mass.get() * heat
        };
        let capacity: f64 = liquids.iter().map(heat).sum();
        let chilled_c = liquids.iter().map(|part| heat(part) * part.coldest.get()).sum::<f64>() / capacity;
        let frozen = |at_c: f64| frozen_for(&liquids, 0, Celsius::clamped(at_c)).frozen;
        prop_assert!(frozen(chilled_c + 1e-9) <= grams(1e-6));
        // 4.2 J/g over at least 180 J/g of cream, 0.58 of it water.
        prop_assert!(frozen(chilled_c - colder_k) <= all * (colder_k * 4.2 / 180.0) + grams(1e-6));
    }

    #[test]
    fn colder_liquid_has_more_of_it_frozen_and_never_more_than_half(
        liquids in some_liquids(),
        wanted_c in -30.0..=18.0_f64,
        colder_k in 0.0..=10.0_f64,
    ) {
        let which = liquids[0];
        let all: Grams = liquids.iter().map(|part| part.mass).sum();
        let at = |at_c: f64| frozen_for(&liquids, 0, Celsius::clamped(at_c));
        prop_assert!(at(wanted_c - colder_k).frozen >= at(wanted_c).frozen);
        let most = frozen_for(&liquids, 0, coldest_with(&liquids, 0));
        prop_assert!(most.frozen.get() <= (all * known::MOST_ICE).get() + 1e-6);
        prop_assert!(most.frozen <= which.mass);
        prop_assert!(((most.frozen + most.rest).get() - which.mass.get()).abs() < 1e-9);
    }

    /// The one is the other with nothing but water; the table's water has a thousandth of ash.
    #[test]
    fn frozen_water_is_ice(total_g in 20.0..=1000.0_f64, tap_c in 5.0..=25.0_f64, colder_k in 0.0..=25.0_f64) {
        let (tap, total) = (Celsius::clamped(tap_c), Grams::clamped(total_g));
        let water = liquid(of("water"), total, tap);
        let wanted = Celsius::clamped(tap_c - colder_k);
        let (one, other) = (frozen_for(&[water], 0, wanted).frozen, ice_for(total, tap, wanted));
        prop_assert!((one.get() - other.get()).abs() <= 0.0012 * other.get() + 1e-9);
    }

    /// The frozen and the unfrozen part put into the bowl as they are, heat of fusion and all, make the
    /// same dough as liquid at the temperature that they count as.
    #[test]
    fn a_dough_cannot_tell_a_split_from_what_it_counts_as(
        mass_g in 50.0..=400.0_f64,
        wanted_c in -25.0..=5.0_f64,
        air_c in 20.0..=35.0_f64,
    ) {
        let milk = liquid(of("milk"), Grams::clamped(mass_g), known::FRIDGE);
        let split = frozen_for(&[milk], 0, Celsius::clamped(wanted_c));
        prop_assume!(split.frozen < milk.mass);
        let air = Celsius::clamped(air_c);
        let others = [
            Part::of(of("bread-flour"), grams(500.0), air),
            Part::of(of("egg"), grams(90.0), known::FRIDGE),
            Part::of(of("sugar"), grams(60.0), air),
        ];
        let bowl = |milk: &[Part]| [&others[..], milk].concat();
        let as_one = bowl(&[Part::of(milk.food, milk.mass, Celsius::clamped(wanted_c))]);
        let mixed = mixed_temperature(&as_one, &Sources::USUAL).expect("a dough");
        prop_assume!(mixed > celsius(1.0));

        // As two: the fusion as work that is missing, spread over all but nothing else.
        let thawed = Part::of(milk.food, split.frozen, known::FREEZER);
        let rest = Part::of(milk.food, split.rest, known::FRIDGE);
        let as_two = bowl(&[thawed, rest]);
        let water = milk.food.composition.water.get();
        // From −18 °C to 0 as ice, not as water, and the melting.
        let fusion_j = split.frozen.get() * water * (333.43 - 18.0 * (4.1952 - 2.03));
        let all_g: f64 = as_two.iter().map(|part| part.mass.get()).sum();
        let work = domain::units::JoulesPerGram::clamped(-fusion_j / all_g);
        let melted = Sources { work, ..Sources::USUAL };
        let together = mixed_temperature(&as_two, &melted).expect("a dough");
        prop_assert!((together.get() - mixed.get()).abs() < 1e-6, "{} and {}", together.get(), mixed.get());
    }

    #[test]
    fn colder_flour_takes_longer_and_its_window_holds_it(
        from_c in 16.0..=35.0_f64,
        to_c in 6.0..=15.0_f64,
        colder_k in 0.0..=0.9_f64,
    ) {
        let time = |to_c| time_to(
            spread_flour(),
            Celsius::clamped(from_c),
            known::FRIDGE,
            Celsius::clamped(to_c),
        ).expect("it is warmer");
        let (mild, cold) = (time(to_c), time(to_c - colder_k));
        prop_assert!(cold.likely() >= mild.likely());
        prop_assert!(mild.low() < mild.likely() && mild.likely() < mild.high());
    }
}
