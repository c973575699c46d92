//! How far bodies of dough, cream and crumb lag behind what is around them.

use checks::assert_close;
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::{Body, Cooling, Form, Held, Material, Surroundings, Vessel};
use domain::units::{
    celsius, grams, joules_per_gram_kelvin, kilograms_per_cubic_metre, millimetres, minutes,
    watts_per_metre_kelvin, watts_per_square_metre_kelvin,
};

use super::{START, table};

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
