//! What is advised for a filling that cools too slowly, and where the rule's clock starts.

use domain::estimate::Basis;
use domain::thermal::cooling::{
    Chilled, FROM_AMBIENT, HORIZON, HOT, Remedy, WARM, cooling_window, remedies, two_stage,
};
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::{
    Body, Cooling, Doubt, Form, Held, Material, Spot, Surroundings, Vessel,
};
use domain::units::{Millimetres, celsius, celsius_delta, grams, millimetres, minutes};

use super::{START, fridge, newton_body, table};

/// A wide bag of cream in the fridge, its film of plastic and all.
fn flat_layer(thickness: Millimetres) -> Vessel {
    Vessel::of(Body {
        form: Form::Layer {
            depth: thickness * 0.5,
        },
        material: Material::CUSTARD,
        film: Held::Bag.through(Cooling::Fridge.film()),
    })
}

#[test]
fn an_ordinary_bowl_of_cream_fails_and_the_remedies_work() {
    let (mass, depth) = (grams(500.0), millimetres(60.0));
    let bowl = Vessel::filling(mass, depth, Cooling::Fridge);
    assert!(!two_stage(&bowl, celsius(85.0), &fridge(), START).passes);

    let cream = Material::CUSTARD;
    let chilled = |depth| Chilled {
        from: celsius(85.0),
        filling: cream,
        mass,
        depth,
        held: Held::Bowl,
        cooling: Cooling::Fridge,
        around: celsius(4.0),
        off: celsius_delta(0.0),
    };
    let found = remedies(&chilled(depth));
    assert!(found.iter().any(|one| matches!(one, Remedy::FlatBag(_))));
    assert!(!found.is_empty());
    for remedy in found {
        let (vessel, around) = match remedy {
            Remedy::BackIntoDish => unreachable!("it is in its dish"),
            Remedy::Spread(to) => (Vessel::filling(mass, to, Cooling::Fridge), 4.0),
            Remedy::FlatBag(thickness) => (flat_layer(thickness), 4.0),
            Remedy::IceBath => (Vessel::filling(mass, depth, Cooling::IceBath), 1.0),
            Remedy::StirInIceBath => (Vessel::filling_stirred(mass, depth, Cooling::IceBath), 1.0),
            Remedy::SpreadInIceBath(to) => (Vessel::filling(mass, to, Cooling::IceBath), 1.0),
        };
        let surroundings = Surroundings::constant(celsius(around));
        assert!(
            two_stage(&vessel, HOT, &surroundings, START).passes,
            "{remedy:?}"
        );
    }
    // A jar is as deep as it is, whatever the dish would be, and what it holds can be poured back.
    let held = |held, depth| Chilled {
        held,
        ..chilled(millimetres(depth))
    };
    let shallow = remedies(&held(Held::Jar, 10.0));
    assert_eq!(shallow.first(), Some(&Remedy::BackIntoDish), "{shallow:?}");
    let jar = |stirred: bool| {
        let cream = if stirred { cream.stirred() } else { cream };
        Vessel::filling_held(Held::Jar, cream, mass, depth, Cooling::IceBath)
    };
    let ice = Surroundings::constant(celsius(1.0));
    let passes = |vessel| two_stage(&vessel, HOT, &ice, START).passes;
    let said = |remedy| shallow.contains(&remedy);
    assert_eq!(said(Remedy::IceBath), passes(jar(false)), "{shallow:?}");
    let stirred = passes(jar(true)) && !passes(jar(false));
    assert_eq!(said(Remedy::StirInIceBath), stirred, "{shallow:?}");
    let deep = remedies(&held(Held::Jar, 60.0));
    assert!(!deep.contains(&Remedy::BackIntoDish), "{deep:?}");
    assert!(deep.iter().any(|one| matches!(one, Remedy::Spread(_))));
    // A bag that is laid flat passes by itself, and one whose content is stirred is none.
    for found in [
        remedies(&held(Held::Bag, 60.0)),
        remedies(&Chilled {
            around: celsius(4.9),
            ..held(Held::Bag, 60.0)
        }),
    ] {
        assert!(!found.contains(&Remedy::StirInIceBath), "{found:?}");
    }

    let shallow = millimetres(10.0);
    let thin = remedies(&chilled(shallow));
    assert_eq!(thin, Vec::new());
}

/// Cool enough in a larder that is colder than said, it never is once it has come back into the kitchen.
#[test]
fn what_may_be_cold_before_it_warms_again_has_that_in_its_window() {
    let bun = BakeForm::Round.cooling(grams(50.0));
    let off = celsius_delta(2.0);
    let larder = Surroundings::constant(celsius(16.0)).doubted(Doubt { of: Spot::Own, off });
    let back = START + minutes(80.0);
    let around = larder.changed(back, celsius(20.6));
    let window = cooling_window(&bun, celsius(88.0), celsius(15.5), &around, START);
    assert_eq!(window.likely(), START + HORIZON);
    assert!(window.low() < back, "{window:?}");
}

#[test]
fn what_is_advised_works_with_a_slow_film_in_a_warm_fridge() {
    let table = table().surely;
    for row in table.row {
        let found = remedies(&Chilled {
            from: celsius(85.0),
            filling: Material::CUSTARD,
            mass: grams(500.0),
            depth: millimetres(60.0),
            held: Held::Bowl,
            cooling: Cooling::Fridge,
            around: celsius(row.around_c),
            off: celsius_delta(row.off_k),
        });
        let spread = found.iter().find_map(|remedy| match remedy {
            Remedy::Spread(depth) => Some(depth.get()),
            _ => None,
        });
        assert_eq!(
            spread, row.spread_mm,
            "{} °C; {}",
            row.around_c, table.source
        );
        // Where no fridge is surely cold enough, ice is.
        assert!(!found.is_empty());
    }
}

/// By hand: in 3 °C a body of Newton's law comes from 20 to 5 °C in τ ln(17/2), and from 22 in τ ln(19/2).
#[test]
fn what_starts_at_the_kitchens_temperature_has_four_hours() {
    let around = Surroundings::constant(celsius(3.0));
    let passes =
        |lag: f64, from: f64| two_stage(&newton_body(lag), celsius(from), &around, START).passes;
    assert_eq!(FROM_AMBIENT, minutes(240.0));
    let longest = 240.0 / (17.0_f64 / 2.0).ln();
    assert!(passes(longest - 0.1, 20.0));
    assert!(!passes(longest + 0.1, 20.0));
    // Warmer from the start, it has six hours in all.
    assert!(passes(longest + 0.1, 22.0));
    assert!(!passes(360.0 / (19.0_f64 / 2.0).ln() + 0.1, 22.0));
}

#[test]
fn the_clock_of_the_rule_starts_at_57_degrees() {
    let vessel = Vessel::filling(grams(400.0), millimetres(12.0), Cooling::Fridge);
    let from_hot = two_stage(&vessel, celsius(90.0), &fridge(), START);
    let taken = cooling_window(&vessel, celsius(90.0), WARM, &fridge(), START).likely() - START;
    let counted = from_hot.minutes_to_21.expect("it gets there");
    assert!(counted.get() + 5.0 < taken.get());
    let lukewarm = two_stage(&vessel, celsius(20.0), &fridge(), START);
    assert_eq!(lukewarm.minutes_to_21, Some(minutes(0.0)));
}

#[test]
fn what_never_cools_is_given_the_horizon() {
    let vessel = Vessel::filling(grams(400.0), millimetres(20.0), Cooling::Kitchen);
    let kitchen = Surroundings::constant(celsius(22.0));
    let window = cooling_window(&vessel, celsius(60.0), celsius(8.0), &kitchen, START);
    assert_eq!(window.likely(), START + HORIZON);
    assert_eq!(window.basis(), Basis::Model);
    let stages = two_stage(&vessel, celsius(60.0), &kitchen, START);
    assert_eq!(stages.minutes_to_5, None);
    assert!(!stages.passes);
}
