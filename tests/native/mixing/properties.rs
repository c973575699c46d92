//! What must always hold of mixtures, kneading and ice.

use domain::thermal::kneading::{KneadingMethod, after_kneading};
use domain::thermal::liquid::ice::{ice_at, ice_for};
use domain::thermal::mixing::{Part, PartKind, Sources, melted_share, mixed_temperature};
use domain::units::{
    Celsius, Grams, JoulesPerGram, JoulesPerGramKelvin, celsius, celsius_delta, grams, minutes,
};
use proptest::prelude::*;

fn some_method() -> impl Strategy<Value = KneadingMethod> {
    prop::sample::select(KneadingMethod::ALL.to_vec())
}

fn some_part() -> impl Strategy<Value = Part> {
    let kind = prop::sample::select(vec![
        PartKind::Flour,
        PartKind::Sugar,
        PartKind::Salt,
        PartKind::Preferment,
        PartKind::Bowl,
        PartKind::Other,
    ]);
    (
        kind,
        1.0..=2000.0_f64,
        0.0..=60.0_f64,
        0.4..=4.2_f64,
        0.0..=1.0_f64,
    )
        .prop_map(|(kind, mass_g, at_c, specific_heat, fat)| Part {
            kind,
            mass: Grams::clamped(mass_g),
            temperature: Celsius::clamped(at_c),
            specific_heat: JoulesPerGramKelvin::clamped(specific_heat),
            milk_fat: Grams::clamped(mass_g * fat),
            off: celsius_delta(0.0),
        })
}

/// Heat in J that a part holds above 0 °C with its fat solid.
fn heat_above_zero_j(part: &Part, at_c: f64, fusion: f64) -> f64 {
    let sensible = part.mass.get() * part.specific_heat.get() * at_c;
    let melted = melted_share(Celsius::clamped(at_c)).get();
    sensible + part.milk_fat.get() * melted * fusion
}

proptest! {
    #[test]
    fn a_mixture_lies_between_its_parts(parts in prop::collection::vec(some_part(), 1..8)) {
        let mixed = mixed_temperature(&parts, &Sources::NONE).expect("it weighs something").get();
        let temperatures = || parts.iter().map(|part| part.temperature.get());
        let coldest = temperatures().fold(f64::INFINITY, f64::min);
        let warmest = temperatures().fold(f64::NEG_INFINITY, f64::max);
        prop_assert!(mixed >= coldest - 1e-9 && mixed <= warmest + 1e-9);
    }

    /// What the sources give is what the parts have more of afterwards. Fat that cools stays
    /// melted, so only parts that warm are counted with their melting.
    #[test]
    fn heat_is_conserved(parts in prop::collection::vec(some_part(), 1..8), work in 0.0..=40.0_f64) {
        let sources = Sources { work: JoulesPerGram::clamped(work), ..Sources::USUAL };
        let mixed = mixed_temperature(&parts, &sources).expect("it weighs something");
        // Dry salt that dissolves in nothing would leave the range that temperatures have here.
        prop_assume!(mixed > Celsius::MIN && mixed < Celsius::MAX);
        let mixed_c = mixed.get();
        let (mut gained_j, mut given_j, mut moved_j) = (0.0, 0.0, 1.0);
        for part in &parts {
            let from_c = part.temperature.get();
            let fusion = if mixed_c > from_c { sources.milk_fat.get() } else { 0.0 };
            let change_j = heat_above_zero_j(part, mixed_c, fusion) - heat_above_zero_j(part, from_c, fusion);
            gained_j += change_j;
            moved_j += change_j.abs();
            given_j += part.mass.get() * match part.kind {
                PartKind::Flour => sources.hydration.get() + work,
                PartKind::Sugar => work - sources.sugar.get(),
                PartKind::Salt => work - sources.salt.get(),
                PartKind::Bowl => 0.0,
                PartKind::Preferment | PartKind::Other => work,
            };
        }
        prop_assert!((gained_j - given_j).abs() <= 1e-6 * moved_j, "{gained_j} J against {given_j} J");
    }

    #[test]
    fn a_warmer_part_never_cools_the_mixture(
        mut parts in prop::collection::vec(some_part(), 1..8),
        which in any::<prop::sample::Index>(),
        warmer_k in 0.0..=30.0_f64,
    ) {
        let before = mixed_temperature(&parts, &Sources::USUAL).expect("it weighs something");
        let part = which.get_mut(&mut parts);
        part.temperature = part.temperature + celsius_delta(warmer_k);
        let after = mixed_temperature(&parts, &Sources::USUAL).expect("it weighs something");
        prop_assert!(after.get() >= before.get() - 1e-9);
    }

    #[test]
    fn kneading_keeps_the_order_of_doughs_kitchens_and_windows(
        method in some_method(),
        mixed_c in 5.0..=45.0_f64,
        kitchen_c in 10.0..=35.0_f64,
        warmer_k in 0.0..=10.0_f64,
        kneaded_min in 0.0..=30.0_f64,
    ) {
        let after = |mixed_c, kitchen_c| after_kneading(
            method,
            Celsius::clamped(mixed_c),
            Celsius::clamped(kitchen_c),
            minutes(kneaded_min),
        );
        let base = after(mixed_c, kitchen_c);
        prop_assert!(base.low() < base.likely() && base.likely() < base.high());
        prop_assert!(after(mixed_c + warmer_k, kitchen_c).likely() >= base.likely());
        prop_assert!(after(mixed_c, kitchen_c + warmer_k).likely() >= base.likely());
        let unkneaded = after_kneading(method, Celsius::clamped(mixed_c), celsius(20.0), minutes(0.0));
        prop_assert!((unkneaded.likely().get() - mixed_c).abs() < 1e-9);
    }

    /// Between what was mixed and where hours of it would end, and nearer to that the longer it takes.
    #[test]
    fn a_kneaded_dough_stays_between_its_beginning_and_its_end(
        method in some_method(),
        mixed_c in 5.0..=45.0_f64,
        kitchen_c in 10.0..=35.0_f64,
        kneaded_min in 0.0..=60.0_f64,
        longer_min in 0.0..=60.0_f64,
    ) {
        let after = |kneaded_min| {
            let (mixed, kitchen) = (Celsius::clamped(mixed_c), Celsius::clamped(kitchen_c));
            after_kneading(method, mixed, kitchen, minutes(kneaded_min)).likely().get()
        };
        let (end, now, later) = (after(10_000.0), after(kneaded_min), after(kneaded_min + longer_min));
        let between = |t: f64, one: f64, other: f64| {
            t >= one.min(other) - 1e-9 && t <= one.max(other) + 1e-9
        };
        prop_assert!(between(now, mixed_c, end), "{now} from {mixed_c} to {end}");
        prop_assert!(between(later, now, end), "{later} from {now} to {end}");
    }

    #[test]
    fn kneading_is_undone_by_its_inverse(
        method in some_method(),
        wanted_c in 18.0..=32.0_f64,
        kitchen_c in 15.0..=32.0_f64,
        kneaded_min in 0.0..=12.0_f64,
    ) {
        let (wanted, kitchen) = (Celsius::clamped(wanted_c), Celsius::clamped(kitchen_c));
        let parameters = method.parameters();
        let mixed = parameters.mixed_for(wanted, kitchen, minutes(kneaded_min));
        prop_assume!(mixed > Celsius::MIN && mixed < Celsius::MAX);
        let back = parameters.after(mixed, kitchen, minutes(kneaded_min));
        prop_assert!((back.get() - wanted_c).abs() < 1e-6);
    }

    #[test]
    fn colder_water_takes_more_ice(
        tap_c in 5.0..=30.0_f64,
        wanted_c in 0.0..=30.0_f64,
        colder_k in 0.0..=10.0_f64,
    ) {
        let tap = Celsius::clamped(tap_c);
        let ice = |wanted_c| ice_for(grams(500.0), tap, Celsius::clamped(wanted_c));
        prop_assert!(ice(wanted_c - colder_k) >= ice(wanted_c));
        if wanted_c < tap_c {
            let at_zero = ice_at(grams(500.0), tap, Celsius::clamped(wanted_c), celsius(0.0));
            prop_assert!(ice(wanted_c) < at_zero, "colder ice, less of it");
        }
    }

    #[test]
    fn warmer_milk_fat_is_never_less_melted(at_c in -10.0..=60.0_f64, warmer_k in 0.0..=20.0_f64) {
        let melted = |at_c| melted_share(Celsius::clamped(at_c));
        prop_assert!(melted(at_c + warmer_k) >= melted(at_c));
    }
}
