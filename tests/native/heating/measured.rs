//! Measured breads (`reference/oven.toml`, where sources and tolerances stand).

use checks::assert_close;
use domain::thermal::oven::{BakeForm, Baking, oven_course};
use domain::units::{celsius, minutes};
use serde::Deserialize;

use super::{START, baking, still};

#[derive(Deserialize)]
struct Table {
    measured_bread: MeasuredBread,
    measured_loaf: MeasuredLoaf,
}

#[derive(Deserialize)]
struct MeasuredBread {
    grams: f64,
    dough_c: f64,
    oven_c: f64,
    through_c: f64,
    through_min: f64,
    late_c: f64,
    tolerance_k: f64,
    late_tolerance_k: f64,
    minutes: Vec<f64>,
    centre_c: Vec<f64>,
}

#[derive(Deserialize)]
struct MeasuredLoaf {
    grams: f64,
    dough_c: f64,
    oven_c: f64,
    through_c: f64,
    through_min: f64,
    later_c: Vec<f64>,
    later_min: Vec<f64>,
    tolerance_min: Vec<f64>,
    from_bread_tolerance_min: f64,
}

fn table() -> Table {
    toml::from_str(include_str!("../../reference/oven.toml")).expect("the table reads")
}

#[test]
fn the_middle_goes_the_way_of_a_measured_bread() {
    let bread = table().measured_bread;
    let course = oven_course(
        &baking(bread.grams, bread.dough_c, bread.through_c),
        still(bread.oven_c),
        START,
        minutes(bread.through_min),
    );
    for (minute, measured_c) in bread.minutes.into_iter().zip(bread.centre_c) {
        let got = course.core_at(START + minutes(minute)).get();
        let late = measured_c >= bread.late_c;
        let tolerance = if late {
            bread.late_tolerance_k
        } else {
            bread.tolerance_k
        };
        assert_close(&format!("{minute} min"), got, measured_c, tolerance);
    }
}

#[test]
fn the_middle_goes_the_way_of_measured_loaves() {
    let loaf = table().measured_loaf;
    let course = oven_course(
        &baking(loaf.grams, loaf.dough_c, loaf.through_c),
        still(loaf.oven_c),
        START,
        minutes(loaf.through_min),
    );
    let tolerances = loaf.tolerance_min.into_iter();
    let rows = loaf.later_c.into_iter().zip(loaf.later_min).zip(tolerances);
    for ((core_c, measured_min), tolerance) in rows {
        let reached = course.when_core_reaches(celsius(core_c), minutes(120.0));
        let got = reached.expect("it gets there") - START;
        assert_close(&format!("{core_c} °C"), got.get(), measured_min, tolerance);
    }
}

/// From the time of the one follows that of the other, in another form, mass and oven.
#[test]
fn a_tin_loaf_s_time_follows_from_a_small_bread_s() {
    let (bread, loaf) = (table().measured_bread, table().measured_loaf);
    let small = baking(bread.grams, bread.dough_c, bread.through_c);
    let tin = Baking {
        form: BakeForm::Tin,
        ..baking(loaf.grams, loaf.dough_c, loaf.through_c)
    };
    let oven = (still(bread.oven_c), still(loaf.oven_c));
    let got = bread.through_min * tin.longer_than(oven.1, &small, oven.0);
    assert_close("loaf", got, loaf.through_min, loaf.from_bread_tolerance_min);
}
