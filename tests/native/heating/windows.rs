//! The window in the oven: the oven's error, its load, and what a formula remembers of them.

use checks::{assert_close, starter};
use domain::bake::{Intent, decide};
use domain::estimate::{Basis, Estimate};
use domain::formula::{Formula, Length, Size};
use domain::kitchen::{FURTHEST_OVEN, Kitchen, OvenKind};
use domain::thermal::oven::{BakeForm, Fan, Today, Written, bake_window, window_in};
use domain::units::{CelsiusDelta, Minutes, celsius, celsius_delta, grams, minutes};

use super::{START, bake_step, baking, begin, in_oven, still};

fn window(low: f64, likely: f64, high: f64) -> Estimate<Minutes> {
    Estimate::new(minutes(low), minutes(likely), minutes(high), Basis::Formula)
}

#[test]
fn a_window_takes_in_the_oven_and_its_load() {
    let (stated, bread) = (window(16.0, 18.0, 22.0), baking(130.0, 25.0, 90.0));
    let written = Written {
        form: BakeForm::Round,
        load: Some(grams(1000.0)),
        conventional: celsius(190.0),
    };
    let today = |fan, off, load| Today {
        load: grams(1000.0 * load),
        fan,
        off: celsius_delta(off),
    };
    let within = |fan, off, load| window_in(&stated, &bread, written, today(fan, off, load));
    let sure = within(Fan::Off, 0.0, 1.0);
    assert_close("low", sure.low().get(), 16.0, 1e-9);
    assert_close("high", sure.high().get(), 22.0, 1e-9);
    let by_oven = |to_c: f64| bread.time_ratio(still(190.0), still(to_c)).ln();
    let unsure = within(Fan::Off, 10.0, 1.0);
    let end = |stated: f64, by_oven: f64| (stated / 18.0).ln().hypot(by_oven).exp();
    assert_close(
        "low",
        unsure.low().get(),
        18.0 / end(16.0, by_oven(200.0)),
        1e-9,
    );
    assert_close(
        "high",
        unsure.high().get(),
        18.0 * end(22.0, by_oven(180.0)),
        1e-9,
    );
    assert_eq!(unsure.likely(), stated.likely());
    assert!(within(Fan::On, 10.0, 1.0).low() < unsure.low());
    assert_eq!(within(Fan::On, 10.0, 1.0).high(), unsure.high());
    // 5 % for twice the load, 10 for four times and no more than that; nothing for less.
    for (load, longer) in [(0.5, 1.0), (2.0, 1.05), (4.0, 1.1), (40.0, 1.1)] {
        let high = within(Fan::Off, 0.0, load).high().get();
        assert_close(&format!("× {load}"), high, 22.0 * longer, 1e-9);
    }
    let nothing = window(0.0, 0.0, 0.0);
    assert_eq!(
        window_in(&nothing, &bread, written, today(Fan::On, 10.0, 1.0)),
        nothing
    );
    // As it is written, a window doesn't say what else was in the oven.
    let as_written = Written {
        load: None,
        ..written
    };
    assert_eq!(
        window_in(&stated, &bread, as_written, today(Fan::Off, 0.0, 4.0)),
        sure
    );
}

#[test]
fn an_oven_that_was_checked_narrows_the_window() {
    let buns = || starter("plum-almond-buns");
    let unchecked = Kitchen::UNMEASURED;
    let checked = Kitchen {
        oven_off: Some(celsius_delta(-10.0)),
        ..unchecked
    };
    let (wide, narrow) = (in_oven(buns(), unchecked), in_oven(buns(), checked));
    assert!(wide.low() < narrow.low() && narrow.high() < wide.high());
    assert!(narrow.low() < minutes(16.0) && narrow.high() > minutes(22.0));
    assert_eq!(wide.likely(), narrow.likely());
    assert_eq!(checked.dial_for(celsius(190.0)), celsius(200.0));
    assert_eq!(unchecked.dial_for(celsius(190.0)), celsius(190.0));
    assert_eq!(OvenKind::Gas.fan(), Fan::Off);
}

#[test]
fn more_buns_at_once_may_take_longer_and_fewer_don_t_take_less() {
    let buns = starter("plum-almond-buns");
    let made = |formula: &Formula, count| {
        let mass = grams(85.0);
        formula
            .scaled(Size::Pieces { count, mass })
            .expect("it can be made")
    };
    let kitchen = Kitchen::UNMEASURED;
    let as_written = in_oven(buns.clone(), kitchen);
    let sixteen = made(&buns, 16);
    let more = in_oven(sixteen.clone(), kitchen);
    assert_close(
        "16",
        more.high().get(),
        as_written.high().get() * 1.05,
        1e-6,
    );
    assert_close("16", more.likely().get(), as_written.likely().get(), 1e-9);
    let fewer = in_oven(made(&buns, 4), kitchen);
    assert_close("4", fewer.high().get(), as_written.high().get(), 1e-9);
    // Made from what was scaled already, it still knows what its time was written for.
    let back = in_oven(made(&sixteen, 8), kitchen);
    assert_close("8 again", back.high().get(), as_written.high().get(), 1e-9);
    let Length::Bake { load, .. } = bake_step(&sixteen).length else {
        panic!("it bakes");
    };
    assert_close(
        "load",
        load.expect("it was scaled").get(),
        8.0 * 130.0,
        1e-9,
    );
}

#[test]
fn an_oven_too_far_from_its_dial_is_refused() {
    let bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED);
    let changed = |off: CelsiusDelta| {
        let kitchen = Kitchen {
            oven_off: Some(off),
            ..Kitchen::UNMEASURED
        };
        decide(&bake, Intent::KitchenChanged(Box::new(kitchen)), START)
    };
    assert!(changed(FURTHEST_OVEN).is_ok());
    assert!(changed(celsius_delta(-40.5)).is_err());
}

/// Another size follows the trade's law of 2/3; what the model of the oven makes of it lies between that and the 1/3
/// of an oven whose air is the bottleneck, so the window holds both.
#[test]
fn another_size_by_the_model_lies_within_the_window() {
    let one = window(18.0, 18.0, 18.0);
    for form in BakeForm::ALL {
        for (piece_g, oven_c) in [
            (60.0, 190.0),
            (130.0, 190.0),
            (500.0, 200.0),
            (900.0, 200.0),
        ] {
            let of = |mass_g: f64| domain::thermal::oven::Baking {
                form,
                ..baking(mass_g, 25.0, 92.0)
            };
            for times in [0.5, 2.0] {
                let other = piece_g * times;
                let by_law = bake_window(&one, grams(piece_g), grams(other));
                let heat = still(oven_c);
                let by_model = 18.0 * of(other).longer_than(heat, &of(piece_g), heat);
                let held = by_law.low().get()..=by_law.high().get();
                assert!(
                    held.contains(&by_model),
                    "{form:?}, {piece_g} g × {times}: {by_model} in {held:?}"
                );
            }
        }
    }
}
