//! What bakers know of each way of kneading, against the model from the weighing to the last turn.
//!
//! By hand no measurement was found, so beside the published friction factors stands a fact of the
//! trade: common practice, no source. The factors are those of `reference/mixing.toml`; the
//! addenda on mixers are course notes, a maker's reply and a test on a forum, all of them weak.
//! The parameters of [`KneadingMethod::parameters`] were chosen with these in sight.

use super::{fahrenheit, friction_from_fahrenheit, of};
use checks::{assert_close, starter};
use domain::formula::{Length, StepKind};
use domain::kitchen::Kitchen;
use domain::thermal::constants as known;
use domain::thermal::kneading::{KneadingMethod, after_kneading};
use domain::thermal::liquid::rule::dough_by_rule;
use domain::thermal::liquid::{LiquidQuestion, dough_with};
use domain::thermal::mixing::{Part, Sources, mixed_temperature};
use domain::units::{Celsius, Minutes, celsius, grams, minutes};

/// A lean dough, everything in it and its bowl as warm as the kitchen, mixed and kneaded for so long.
fn lean(method: KneadingMethod, kitchen: Celsius, kneaded: Minutes) -> Celsius {
    let parts = [
        Part::of(of("bread-flour"), grams(1000.0), kitchen),
        Part::of(of("salt"), grams(20.0), kitchen),
        Part::of(of("water"), grams(620.0), kitchen),
        Part::bowl(grams(500.0), known::GLASS, kitchen),
    ];
    let mixed = mixed_temperature(&parts, &Sources::USUAL).expect("a dough");
    after_kneading(method, mixed, kitchen, kneaded).likely()
}

/// Common practice, no source: in a kitchen at 22 °C, with milk and egg from the fridge, so liquid
/// at about 8 °C, an enriched dough has about 25 °C after some six minutes of kneading by hand.
/// Tolerance: 1.5 K, two "abouts" of a degree each.
#[test]
fn by_hand_cold_milk_makes_a_dough_of_25_degrees() {
    let kitchen = Kitchen {
        air: celsius(22.0),
        ..Kitchen::UNMEASURED
    };
    for name in ["plum-almond-buns", "orange-braid"] {
        let buns = starter(name);
        let dough = buns.dough().expect("it has a dough").id;
        let mut asked = buns
            .liquid_question(dough, &kitchen)
            .expect("its milk is tempered");
        asked.kneading = minutes(6.0);
        let found = dough_with(&asked, celsius(8.0)).expect("a dough");
        assert_close(name, found.likely().get(), 25.0, 1.5);
        // "About 25 °C" begins half a degree below it.
        assert!(found.low() <= celsius(25.0) && celsius(24.5) <= found.high());
    }
    // As Americans say it.
    assert_eq!(celsius(25.0).to_fahrenheit(), 77.0);
}

/// The starters' hands stir and knead for 17 to 24 min, and the model has them knead for its usual nine.
/// If all of that were kneading, exp(−9 / 3.5) or a thirteenth of what the mixture is away from the hands' end
/// would be gone as well: at most 0.8 K for a mixture that is 10 K away.
#[test]
fn by_hand_a_formulas_longer_kneading_would_change_little() {
    let hand = KneadingMethod::Hand.parameters();
    let mut most_k: f64 = 0.0;
    for name in ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"] {
        let formula = starter(name);
        let dough = formula.dough().expect("it has a dough").id;
        let worked = formula.steps.iter().filter_map(|step| match &step.length {
            Length::Hands(range) if matches!(step.kind, StepKind::Mix | StepKind::Knead) => {
                (step.component == dough).then(|| range.likely())
            }
            _ => None,
        });
        let worked: Minutes = worked.sum();
        assert!(
            worked >= minutes(17.0) && worked <= minutes(24.0),
            "{worked:?}"
        );
        for air in [18.0, 22.0, 28.0] {
            let kitchen = Kitchen {
                air: celsius(air),
                ..Kitchen::UNMEASURED
            };
            let mut asked = formula
                .liquid_question(dough, &kitchen)
                .expect("its milk is tempered");
            assert_eq!(asked.kneading, hand.usual);
            for liquid in [8.0, 20.0, 35.0] {
                let with = |asked: &LiquidQuestion| {
                    dough_with(asked, celsius(liquid))
                        .expect("a dough")
                        .likely()
                };
                asked.kneading = hand.usual;
                let usual = with(&asked);
                asked.kneading = worked;
                most_k = most_k.max((with(&asked) - usual).get().abs());
            }
        }
    }
    assert!((0.4..0.8).contains(&most_k), "{most_k} K");
}

/// *Cook's Illustrated*: 5 °F; after Hamelman, *Bread*: 12 °F. With flour, water and kitchen at the
/// same temperature the rule says a third of that above it.
/// Tolerance: 2.5 K, because the two are 1.3 K apart and the rule knows no heat of hydration.
#[test]
fn by_hand_a_lean_dough_agrees_with_the_published_friction_factors() {
    for kitchen_c in [20.0, 22.0, 24.0] {
        let kitchen = celsius(kitchen_c);
        let hand = KneadingMethod::Hand;
        let dough = lean(hand, kitchen, hand.parameters().usual);
        for factor_f in [5.0, 12.0] {
            let rule = dough_by_rule(&[kitchen; 3], friction_from_fahrenheit(factor_f));
            let rule = rule.expect("a temperature").get();
            let case = format!("{factor_f} °F in a kitchen at {kitchen_c} °C");
            assert_close(&case, dough.get(), rule, 2.5);
        }
    }
}

/// *Cook's Illustrated*: 20 °F; after Hamelman: 22 to 26 °F. Course notes of an artisan baking
/// centre have small doughs end 1.1 to 1.7 K above the rule without friction, which is a factor
/// of 6 to 9 °F. Nothing can meet both: the model follows the books, and misses the notes by 2.5 K.
#[test]
fn a_stand_mixer_agrees_with_the_books_and_not_with_the_notes() {
    let mixer = KneadingMethod::StandMixer;
    for kitchen_c in [20.0, 22.0, 24.0] {
        let kitchen = celsius(kitchen_c);
        let above_k = (lean(mixer, kitchen, mixer.parameters().usual) - kitchen).get();
        // Tolerance: a third of 6 °F, the spread of the books, which is 1.1 K.
        for factor_f in [20.0, 22.0, 26.0] {
            let published_k = friction_from_fahrenheit(factor_f).get() / 3.0;
            let case = format!("{factor_f} °F in a kitchen at {kitchen_c} °C");
            assert_close(&case, above_k, published_k, 1.1);
        }
        assert_close("above the notes", above_k - 1.4, 2.5, 0.2);
    }
    // A maker's reply: 1 °F a minute at speed 2, over two to five minutes, with nothing said of dough
    // or room. Tolerance: 0.4 K a minute, twice the model's own spread and what a dough loses that
    // is 2 K warmer than the room; with more the books could not be met.
    let warming = |from: f64, to: f64| {
        let after = |at| after_kneading(mixer, celsius(24.0), celsius(22.0), minutes(at)).likely();
        (after(to) - after(from)).get() / (to - from)
    };
    let published = friction_from_fahrenheit(1.0).get();
    assert_close("a minute", warming(2.0, 5.0), published, 0.4);
}

/// A forum's test: 425 g of flour and 283 g of water run for a minute, 89 °F before and 89 to
/// 100 °F after, depending on where the probe went in. The model has to lie within, and its window
/// has to come within a kelvin and a half of the middle, half of what the probe was unsure of.
/// *Cook's Illustrated*: 25 °F, with 6 °F to either side as for mixers.
#[test]
fn a_food_processor_warms_within_what_was_measured() {
    let (before, kitchen) = (fahrenheit(89.0), celsius(22.0));
    let after = after_kneading(KneadingMethod::FoodProcessor, before, kitchen, minutes(1.0));
    assert!(after.likely() > before && after.likely() < fahrenheit(100.0));
    let middle = fahrenheit(94.5);
    let off_k = (middle - after.high()).get();
    assert!(off_k < 1.5, "the middle lies {off_k} K above the window");

    let processor = KneadingMethod::FoodProcessor;
    for kitchen_c in [20.0, 22.0, 24.0] {
        let kitchen = celsius(kitchen_c);
        let above_k = (lean(processor, kitchen, processor.parameters().usual) - kitchen).get();
        let published_k = friction_from_fahrenheit(25.0).get() / 3.0;
        assert_close("25 °F", above_k, published_k, 2.0 / 1.8);
    }
}

/// A spoon and a few folds do nothing but let the dough follow the room: within ten minutes by less
/// than half of what separates them. Common practice, no source.
#[test]
fn folding_hardly_changes_a_dough() {
    let fold = KneadingMethod::FoldOnly;
    let kitchen = celsius(21.0);
    for mixed_c in [18.0, 24.0, 28.0] {
        let mixed = celsius(mixed_c);
        let dough = after_kneading(fold, mixed, kitchen, fold.parameters().usual).likely();
        let moved_k = (dough - mixed).get().abs();
        assert!(moved_k < 0.5 * (mixed - kitchen).get().abs(), "{dough:?}");
    }
}
