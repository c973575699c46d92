//! A dough with several liquids to temper, and how warm they may be for its yeast.

use super::of;
use checks::{assert_close, starter};
use domain::food::FoodKind;
use domain::formula::{ComponentKind, Formula, Ingredient, Kept};
use domain::kitchen::Kitchen;
use domain::thermal::constants as known;
use domain::thermal::kneading::KneadingMethod;
use domain::thermal::liquid::frozen::{coldest_with, frozen_for};
use domain::thermal::liquid::{LiquidQuestion, Reach, dough_with, liquid_temperature};
use domain::thermal::mixing::{Part, PartKind};
use domain::units::{Celsius, celsius, grams};
use proptest::prelude::*;

/// The braid with water and milk to temper, and its egg from the fridge.
fn water_and_milk(water_g: f64, milk_g: f64) -> Formula {
    let mut draft = starter("orange-braid").into_draft();
    let dough = &mut draft.components[0];
    for part in &mut dough.ingredients {
        if part.tempered {
            part.mass = grams(milk_g);
        }
    }
    dough.ingredients.insert(
        0,
        Ingredient {
            food: of("water"),
            name: "water".to_owned(),
            mass: grams(water_g),
            kept: Kept::Kitchen,
            tempered: true,
        },
    );
    Formula::new(draft).expect("only its liquids were changed")
}

fn asked(formula: &Formula, air: Celsius, kneading: KneadingMethod) -> LiquidQuestion {
    let kitchen = Kitchen {
        air,
        kneading,
        ..Kitchen::UNMEASURED
    };
    let dough = formula.dough().expect("it has a dough").id;
    let question = formula.liquid_question(dough, &kitchen);
    question.expect("its liquids are tempered")
}

#[test]
fn all_that_is_tempered_comes_to_one_temperature_and_nothing_else_does() {
    let formula = water_and_milk(60.0, 60.0);
    let question = asked(&formula, celsius(20.0), KneadingMethod::StandMixer);
    let foods: Vec<&str> = question.liquids.iter().map(|one| one.food.key).collect();
    assert_eq!(foods, ["water", "milk"]);
    let coldest: Vec<Celsius> = question.liquids.iter().map(|one| one.coldest).collect();
    assert_eq!(coldest, [celsius(15.0), known::FRIDGE]);
    // The egg waits in the fridge and isn't tempered.
    let egg = Part::of(of("egg"), grams(70.0), known::FRIDGE);
    assert!(question.parts.contains(&egg));
    let all = question.parts.len() + question.liquids.len();
    let dough = formula.dough().expect("it has a dough");
    // And the bowl.
    assert_eq!(all, dough.ingredients.len() + 1);

    let answer = liquid_temperature(&question).expect("there are liquids");
    assert_eq!(answer.reach, Reach::OnTarget);
    assert_close("dough", answer.dough.likely().get(), 25.0, 0.05);
}

#[test]
fn cold_liquids_are_as_cold_as_they_come_to_together() {
    // Milk at 5 °C holds 3.894 J/(g K), water at 15 °C 4.195.
    let together_c = (60.0 * 3.894 * 5.0 + 60.0 * 4.195 * 15.0) / (60.0 * 3.894 + 60.0 * 4.195);
    let mut question = asked(
        &water_and_milk(60.0, 60.0),
        celsius(24.0),
        KneadingMethod::StandMixer,
    );
    let reach_at = |question: &mut LiquidQuestion, liquid_c: f64| {
        let dough = dough_with(question, Celsius::clamped(liquid_c));
        question.target = dough.expect("a dough").likely();
        liquid_temperature(question).expect("liquids").reach
    };
    assert_eq!(reach_at(&mut question, together_c + 0.1), Reach::OnTarget);
    assert_eq!(reach_at(&mut question, together_c - 0.1), Reach::Frozen);
}

#[test]
fn ice_takes_the_place_of_water_up_to_all_of_it_and_then_it_is_milk_that_is_frozen() {
    let warm = celsius(29.0);
    let mixer = KneadingMethod::StandMixer;
    let enough = liquid_temperature(&asked(&water_and_milk(80.0, 60.0), warm, mixer));
    let split = enough.expect("liquids").frozen.expect("ice");
    assert_eq!(split.which, 0);
    assert!(split.frozen <= grams(70.0) && !split.takes_hours);

    // Ten grams of water are no help, even all as ice.
    let question = asked(&water_and_milk(10.0, 150.0), warm, mixer);
    let answer = liquid_temperature(&question).expect("liquids");
    let split = answer.frozen.expect("frozen milk");
    assert_eq!(split.which, 1);
    assert!(answer.unfrozen_dough.is_some());

    // By hand no milk is frozen, so ice is all there is: the whole of the water.
    let question = asked(
        &water_and_milk(10.0, 150.0),
        celsius(33.0),
        KneadingMethod::Hand,
    );
    let answer = liquid_temperature(&question).expect("liquids");
    assert!(matches!(answer.reach, Reach::TooColdWanted { .. }));
    if let Some(split) = answer.frozen {
        assert_eq!(split.which, 0);
        assert!(split.frozen <= grams(10.0));
    }
}

#[test]
fn as_much_ice_melts_as_half_of_all_that_is_poured_but_never_more_than_the_water() {
    for (water_g, milk_g, most_g) in [(40.0, 100.0, 40.0), (100.0, 40.0, 70.0)] {
        let formula = water_and_milk(water_g, milk_g);
        let liquids = asked(&formula, celsius(25.0), KneadingMethod::Hand).liquids;
        let coldest = coldest_with(&liquids, 0);
        let split = frozen_for(&liquids, 0, coldest);
        assert_close("ice", split.frozen.get(), most_g, 1e-6);
        assert_close("water", split.rest.get(), water_g - most_g, 1e-6);
    }
}

/// A loaf with another yeast in its dough, or none, and with its poolish or without.
fn cap(yeast: Option<&str>, poolish: bool) -> Celsius {
    let mut draft = starter("overnight-tin-loaf").into_draft();
    for component in &mut draft.components {
        if component.kind == ComponentKind::Dough {
            let parts = &mut component.ingredients;
            parts.retain(|part| yeast.is_some() || part.food.kind != FoodKind::Yeast);
            for part in parts {
                if part.food.kind == FoodKind::Yeast {
                    part.food = yeast.map_or(part.food, of);
                }
            }
        }
        if !poolish && component.kind == ComponentKind::Preferment {
            component.kind = ComponentKind::Filling;
        }
    }
    let formula = Formula::new(draft).expect("only its yeast was changed");
    asked(&formula, celsius(20.0), KneadingMethod::StandMixer).cap
}

#[test]
fn the_liquid_is_as_warm_as_the_most_tender_yeast_it_meets_bears() {
    let (instant, live) = (known::INSTANT_YEAST_LIQUID_CAP, known::YEAST_LIQUID_CAP);
    assert_eq!(cap(Some("yeast-instant"), false), instant);
    assert_eq!(cap(Some("yeast-active-dry"), false), live);
    assert_eq!(cap(Some("yeast-fresh"), false), live);
    // A preferment is full of live yeast, whatever else there is.
    assert_eq!(cap(Some("yeast-instant"), true), live);
    assert_eq!(cap(None, true), live);
    // Nothing lives in it: then it is the flour that must not swell.
    assert_eq!(cap(None, false), known::NO_YEAST_LIQUID_CAP);
}

#[test]
fn a_preferment_has_the_cap_of_its_own_yeast_and_a_sourdough_that_of_live_yeast() {
    let kitchen = Kitchen::UNMEASURED;
    let cap = |with_yeast: bool| {
        let mut draft = starter("overnight-tin-loaf").into_draft();
        let mut poolish = draft.components.iter_mut();
        let poolish = poolish.find(|part| part.kind == ComponentKind::Preferment);
        let poolish = poolish.expect("it has a poolish");
        let yeast = |part: &Ingredient| part.food.kind == FoodKind::Yeast;
        poolish
            .ingredients
            .retain(|part| with_yeast || !yeast(part));
        let id = poolish.id;
        let formula = Formula::new(draft).expect("only its yeast was changed");
        let question = formula.liquid_question(id, &kitchen);
        question.expect("its water is tempered").cap
    };
    assert_eq!(cap(true), known::INSTANT_YEAST_LIQUID_CAP);
    assert_eq!(cap(false), known::YEAST_LIQUID_CAP);
}

#[test]
fn the_poolish_of_a_loaf_is_in_its_dough_and_its_water_is_tempered_on_its_own() {
    let loaf = starter("overnight-tin-loaf");
    let question = asked(&loaf, celsius(20.0), KneadingMethod::Hand);
    let poolish = question.parts.iter();
    let poolish: Vec<&Part> = poolish
        .filter(|part| part.kind == PartKind::Preferment)
        .collect();
    assert_eq!(poolish.len(), 1);
    assert_close("poolish", poolish[0].mass.get(), 301.0, 1e-9);
    assert_eq!(question.liquids.len(), 1);
}

proptest! {
    /// Two liquids of one kind are one liquid, and it doesn't matter in which order they are poured.
    #[test]
    fn liquids_are_one_when_they_are_the_same(
        first_g in 10.0..=150.0_f64,
        second_g in 10.0..=150.0_f64,
        air_c in 15.0..=33.0_f64,
        method in prop::sample::select(KneadingMethod::ALL.to_vec()),
    ) {
        let both = asked(&water_and_milk(first_g, second_g), Celsius::clamped(air_c), method);
        let mut turned = both.clone();
        turned.liquids.reverse();
        let [one, other] = [&both, &turned].map(|question| liquid_temperature(question).expect("liquids"));
        prop_assert!((one.temperature.get() - other.temperature.get()).abs() < 1e-6);
        prop_assert!((one.dough.likely().get() - other.dough.likely().get()).abs() < 1e-6);

        let (mut halves, mut whole) = (both.clone(), both);
        halves.liquids[1] = halves.liquids[0];
        whole.liquids.truncate(1);
        whole.liquids[0].mass = whole.liquids[0].mass * 2.0;
        let [one, other] = [&halves, &whole].map(|question| liquid_temperature(question).expect("liquids"));
        prop_assert!((one.wanted.get() - other.wanted.get()).abs() < 1e-6);
        // Unless ice stands in for water, when one half may be all ice and the other not.
        if one.reach == Reach::OnTarget {
            prop_assert_eq!(one.reach, other.reach);
        }
    }

    #[test]
    fn the_dough_of_several_liquids_meets_its_target_or_says_why_not(
        water_g in 5.0..=150.0_f64,
        milk_g in 5.0..=150.0_f64,
        air_c in 12.0..=34.0_f64,
        method in prop::sample::select(KneadingMethod::ALL.to_vec()),
    ) {
        let question = asked(&water_and_milk(water_g, milk_g), Celsius::clamped(air_c), method);
        let answer = liquid_temperature(&question).expect("liquids");
        let off_k = (answer.dough.likely() - question.target).get();
        match answer.reach {
            Reach::OnTarget | Reach::Frozen => prop_assert!(off_k.abs() < 0.05),
            Reach::TooWarmWanted { .. } => prop_assert!(off_k < 0.0),
            Reach::TooColdWanted { .. } => prop_assert!(off_k > 0.0),
        }
        if let Some(split) = answer.frozen {
            let all_g = water_g + milk_g;
            prop_assert!(split.frozen <= question.liquids[split.which].mass);
            prop_assert!(split.frozen.get() <= 0.5 * all_g + 1e-6);
            prop_assert_eq!(split.takes_hours, answer.unfrozen_dough.is_some());
        }
    }
}
