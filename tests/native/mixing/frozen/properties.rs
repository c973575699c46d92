//! What holds of every liquid that is frozen in part.

use domain::food::Food;
use domain::thermal::constants as known;
use domain::thermal::liquid::LiquidPart;
use domain::thermal::liquid::chilling::{spread_flour, time_to};
use domain::thermal::liquid::frozen::{coldest_with, frozen_for};
use domain::thermal::liquid::ice::ice_for;
use domain::thermal::mixing::{Part, Sources, mixed_temperature};
use domain::units::{Celsius, Grams, celsius, grams};
use proptest::prelude::*;

use super::super::of;
use super::liquid;

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
