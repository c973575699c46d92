//! Vessels and cooling against `reference/cooling.toml`.

mod drawn;
mod properties;

use checks::assert_close;
use domain::estimate::Basis;
use domain::thermal::cooling::{
    BOTH_STAGES, COLD, Chilled, FIRST_STAGE, FROM_AMBIENT, HORIZON, HOT, Remedy, WARM,
    cooling_window, deepest_layer_that_passes, remedies, two_stage,
};
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::{
    Body, Cooling, Doubt, Form, Held, Material, Spot, Surroundings, Vessel,
};
use domain::units::{
    Millimetres, Moment, celsius, celsius_delta, grams, joules_per_gram_kelvin,
    kilograms_per_cubic_metre, millimetres, minutes, watts_per_metre_kelvin,
    watts_per_square_metre_kelvin,
};
use serde::Deserialize;

#[derive(Deserialize)]
struct Table {
    rule: Rule,
    newton: Newton,
    chill: Chill,
    deepest: Deepest,
    surely: Surely,
    held: HeldTable,
    lag: Lag,
    crumb: Crumb,
    proofer: Proofer,
}

#[derive(Deserialize)]
struct Rule {
    hot_c: f64,
    warm_c: f64,
    cold_c: f64,
    first_stage_min: f64,
    both_stages_min: f64,
}

#[derive(Deserialize)]
struct Newton {
    source: String,
    tolerance_min: f64,
    row: Vec<NewtonRow>,
}

#[derive(Deserialize)]
struct NewtonRow {
    around_c: f64,
    longest_min: f64,
}

#[derive(Deserialize)]
struct Chill {
    source: String,
    tolerance_min: f64,
    row: Vec<ChillRow>,
}

#[derive(Deserialize)]
struct ChillRow {
    name: String,
    layer_mm: Option<f64>,
    sphere_mm: Option<f64>,
    roll_radius_mm: Option<f64>,
    roll_length_mm: Option<f64>,
    film: f64,
    minutes_to_21: f64,
    minutes_to_5: Option<f64>,
    passes: bool,
}

#[derive(Deserialize)]
struct Deepest {
    source: String,
    tolerance_mm: f64,
    row: Vec<DeepestRow>,
}

#[derive(Deserialize)]
struct DeepestRow {
    cooling: String,
    around_c: f64,
    depth_mm: f64,
}

#[derive(Deserialize)]
struct Surely {
    source: String,
    row: Vec<SurelyRow>,
}

#[derive(Deserialize)]
struct SurelyRow {
    around_c: f64,
    off_k: f64,
    spread_mm: Option<f64>,
}

#[derive(Deserialize)]
struct HeldTable {
    source: String,
    row: Vec<HeldRow>,
}

#[derive(Deserialize)]
struct HeldRow {
    name: String,
    held: String,
    what: String,
    from_c: f64,
    around_c: f64,
    film: f64,
    tolerance_k: f64,
    /// Minutes, the mean and the middle in °C.
    at: Vec<(f64, f64, f64)>,
}

#[derive(Deserialize)]
struct Lag {
    source: String,
    radius_mm: f64,
    film: f64,
    series_min: f64,
    lumped_min: f64,
    tolerance_min: f64,
}

#[derive(Deserialize)]
struct Crumb {
    source: String,
    density: f64,
    diffusivity: f64,
    tolerance_share: f64,
}

#[derive(Deserialize)]
struct Proofer {
    source: String,
    initial_c: f64,
    around_c: f64,
    minutes: f64,
    between_c: [f64; 2],
}

fn table() -> Table {
    toml::from_str(include_str!("../reference/cooling.toml")).expect("the table is well formed")
}

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

fn fridge() -> Surroundings {
    Surroundings::constant(celsius(4.0))
}

/// A stirred layer with the wanted lag: τ = ρ c depth / h, with ρ c = 1 MJ/(m³ K) and h = 10 W/(m² K).
pub(crate) fn newton_body(lag_min: f64) -> Vessel {
    Vessel::of(Body {
        form: Form::Layer {
            depth: millimetres(lag_min * 0.6),
        },
        material: Material {
            conductivity: watts_per_metre_kelvin(1.0),
            density: kilograms_per_cubic_metre(1000.0),
            specific_heat: joules_per_gram_kelvin(1.0),
        }
        .stirred(),
        film: watts_per_square_metre_kelvin(10.0),
    })
}

#[test]
fn the_rule_has_the_codes_limits() {
    let rule = table().rule;
    assert_eq!(HOT.get(), rule.hot_c);
    assert_eq!(WARM.get(), rule.warm_c);
    assert_eq!(COLD.get(), rule.cold_c);
    assert_eq!(FIRST_STAGE.get(), rule.first_stage_min);
    assert_eq!(BOTH_STAGES.get(), rule.both_stages_min);
}

#[test]
fn a_stirred_filling_passes_just_up_to_the_limit_of_newtons_law() {
    let table = table().newton;
    for row in &table.row {
        let surroundings = Surroundings::constant(celsius(row.around_c));
        let passes = |lag: f64| two_stage(&newton_body(lag), HOT, &surroundings, START).passes;
        assert!(
            passes(row.longest_min - table.tolerance_min),
            "{}",
            table.source
        );
        assert!(
            !passes(row.longest_min + table.tolerance_min),
            "{}",
            table.source
        );
    }
}

#[test]
fn a_custard_cools_as_reckoned_elsewhere() {
    let table = table().chill;
    for row in &table.row {
        let mm = |value: Option<f64>| millimetres(value.expect("a row names one form"));
        let form = if row.layer_mm.is_some() {
            Form::Layer {
                depth: mm(row.layer_mm),
            }
        } else if row.sphere_mm.is_some() {
            Form::Sphere {
                radius: mm(row.sphere_mm),
            }
        } else {
            Form::Roll {
                radius: mm(row.roll_radius_mm),
                length: mm(row.roll_length_mm),
            }
        };
        let vessel = Vessel::of(Body {
            form,
            material: Material::CUSTARD,
            film: watts_per_square_metre_kelvin(row.film),
        });
        let got = two_stage(&vessel, HOT, &fridge(), START);
        let case = format!("{}: {}", row.name, table.source);
        let to_21 = got.minutes_to_21.expect("a fridge gets it to 21 °C").get();
        assert_close(&case, to_21, row.minutes_to_21, table.tolerance_min);
        if let Some(expected) = row.minutes_to_5 {
            let to_5 = got.minutes_to_5.expect("a fridge gets it to 5 °C").get();
            assert_close(&case, to_5, expected, table.tolerance_min);
        }
        assert_eq!(got.passes, row.passes, "{case}");
    }
}

#[test]
fn the_deepest_layer_is_the_one_found_elsewhere() {
    let table = table().deepest;
    for row in &table.row {
        let cooling = match row.cooling.as_str() {
            "fridge" => Cooling::Fridge,
            "ice bath" => Cooling::IceBath,
            other => panic!("no cooling called {other}"),
        };
        let got = deepest_layer_that_passes(cooling, celsius(row.around_c))
            .expect("there is such a layer")
            .get();
        assert_close(&table.source, got, row.depth_mm, table.tolerance_mm);
    }
    assert_eq!(
        deepest_layer_that_passes(Cooling::Kitchen, celsius(20.0)),
        None
    );
}

#[test]
fn a_ball_of_dough_lags_as_reckoned_elsewhere() {
    let lag = table().lag;
    let dough = Material {
        conductivity: watts_per_metre_kelvin(0.45),
        density: kilograms_per_cubic_metre(1100.0),
        specific_heat: joules_per_gram_kelvin(2.8),
    };
    let ball = |material| {
        Vessel::of(Body {
            form: Form::Sphere {
                radius: millimetres(lag.radius_mm),
            },
            material,
            film: watts_per_square_metre_kelvin(lag.film),
        })
    };
    let series = ball(dough);
    assert!(series.modes().len() > 1);
    assert_close(
        &lag.source,
        series.time_constant().get(),
        lag.series_min,
        lag.tolerance_min,
    );
    let lumped = ball(dough.stirred());
    assert_eq!(lumped.modes().len(), 1);
    assert_close(
        &lag.source,
        lumped.time_constant().get(),
        lag.lumped_min,
        lag.tolerance_min,
    );
}

/// The wall is a body of its own in the table, and here a film and a little more heat.
#[test]
fn a_jar_and_a_bag_follow_as_with_walls_of_their_own() {
    let table = table().held;
    for row in &table.row {
        let held = match row.held.as_str() {
            "jar" => Held::Jar,
            _ => Held::Bag,
        };
        let mass = grams(500.0);
        let vessel = match row.what.as_str() {
            "dough" => Vessel::dough_held(held, Material::DOUGH, mass),
            _ => Vessel::filling_held(
                held,
                Material::CUSTARD,
                mass,
                millimetres(50.0),
                Cooling::Fridge,
            ),
        };
        let still_air = Cooling::Fridge.film();
        let film = watts_per_square_metre_kelvin(row.film);
        let times = held.through(film).get() / held.through(still_air).get();
        let around = celsius(row.around_c);
        let around = Surroundings::constant(around).moved(START, around, times);
        let course = vessel.course(START, celsius(row.from_c), &around);
        for &(minute, mean_c, middle_c) in &row.at {
            let at = START + minutes(minute);
            let what = format!("{} after {minute} min; {}", row.name, table.source);
            assert_close(&what, course.mean_at(at).get(), mean_c, row.tolerance_k);
            assert_close(&what, course.core_at(at).get(), middle_c, row.tolerance_k);
        }
    }
}

#[test]
fn crumb_has_the_published_density_and_diffusivity() {
    let crumb = table().crumb;
    let Material {
        conductivity,
        density,
        specific_heat,
    } = Material::CRUMB;
    assert_eq!(density.get(), crumb.density);
    let diffusivity = conductivity.get() / (density.get() * specific_heat.get() * 1000.0);
    let share = diffusivity / crumb.diffusivity;
    assert_close(&crumb.source, share, 1.0, crumb.tolerance_share);
}

#[test]
fn a_tin_loaf_warms_in_a_proofer_as_bakers_measure() {
    let proofer = table().proofer;
    for mass in [500.0, 700.0, 900.0] {
        let around = Surroundings::constant(celsius(proofer.around_c));
        let dough = BakeForm::Tin
            .rising(grams(mass), Material::DOUGH)
            .course(START, celsius(proofer.initial_c), &around)
            .mean_at(START + minutes(proofer.minutes))
            .get();
        let [least, greatest] = proofer.between_c;
        assert!(
            (least..=greatest).contains(&dough),
            "{mass} g: {dough} °C; {}",
            proofer.source
        );
    }
}

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
