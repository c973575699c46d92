//! What the height does to the rise and to the oven (`reference/oven.toml`, where sources stand).

use checks::{assert_close, starter};
use domain::bake::State;
use domain::formula::{Step, StepKind};
use domain::kitchen::Kitchen;
use domain::thermal::oven::{BakeForm, Baking, core_target};
use domain::units::{Metres, celsius, metres};
use domain::yeast::thin_air;
use proptest::prelude::*;
use serde::Deserialize;

use super::{START, bake_step, baking, begin, still};

#[derive(Deserialize)]
struct Table {
    done_high_up: Vec<Done>,
    rises_faster: Faster,
    bakes_no_longer: NoLonger,
}

#[derive(Deserialize)]
struct Done {
    metres: f64,
    done_c: f64,
    tolerance_k: f64,
}

#[derive(Deserialize)]
struct Faster {
    least: f64,
    most: f64,
    metres: [f64; 2],
}

#[derive(Deserialize)]
struct NoLonger {
    metres: Vec<f64>,
}

fn table() -> Table {
    toml::from_str(include_str!("../../reference/oven.toml")).expect("the table reads")
}

fn kitchen_at(height_m: f64) -> Kitchen {
    Kitchen {
        altitude: metres(height_m),
        ..Kitchen::UNMEASURED
    }
}

#[test]
fn the_middle_to_look_for_is_what_bakers_look_for_high_up() {
    for row in table().done_high_up {
        let got = core_target(celsius(97.0), Metres::clamped(row.metres));
        let case = format!("{} m", row.metres);
        assert_close(&case, got.get(), row.done_c, row.tolerance_k);
    }
}

/// The likely time is the gas law's, to the whole percents that its documentation states, and the window holds all
/// that is published.
#[test]
fn dough_rises_as_much_sooner_as_is_published() {
    let faster = table().rises_faster;
    let [low, high] = faster.metres.map(Metres::clamped);
    let square = |height| thin_air::times(height).powi(2);
    assert!(1.0 / square(low) >= faster.least, "{}", square(low));
    assert!(1.0 / square(high) >= faster.most, "{}", square(high));
    assert!(1.0 / thin_air::times(high) <= faster.most);
    for (height_m, times) in [(1000.0, 0.92), (1500.0, 0.86), (2500.0, 0.76)] {
        let got = thin_air::times(metres(height_m));
        assert_close(&format!("{height_m} m"), got, times, 0.005);
    }
}

/// Published is no change, the model says longer: the window goes from the one to the other.
#[test]
fn the_window_in_the_oven_holds_no_change_and_all_of_the_model_s() {
    let formula = starter("overnight-tin-loaf");
    let lengths = |height_m: f64| {
        let bake = begin(formula.clone(), kitchen_at(height_m));
        let step = bake_step(&bake.state().formula).clone();
        bake.state().length_if_started(&step, START)
    };
    let low_down = lengths(0.0);
    for height_m in table().bakes_no_longer.metres {
        let loaf = Baking {
            form: BakeForm::Tin,
            altitude: Metres::clamped(height_m),
            ..baking(900.0, 24.0, 94.0)
        };
        let by_model = loaf.height_ratio(still(200.0));
        assert!(by_model > 1.1 && by_model < 1.3, "{height_m} m: {by_model}");
        let window = lengths(height_m);
        let half = 0.5 * (1.0 + by_model);
        assert_close("likely", window.likely() / low_down.likely(), half, 1e-9);
        assert!(window.low() <= low_down.likely(), "{height_m} m");
        assert!(window.low() > low_down.low() * 0.9, "{height_m} m");
        assert!(
            window.high() >= low_down.likely() * by_model,
            "{height_m} m"
        );
    }
}

/// What the documentation says of the model, to its own whole percents; SciPy's roots say the same.
#[test]
fn the_model_takes_longer_high_up() {
    for (height_m, bun_longer, loaf_longer) in [(1000.0, 1.07, 1.16), (1500.0, 1.14, 1.23)] {
        let altitude = metres(height_m);
        let bun = Baking {
            altitude,
            ..baking(130.0, 25.0, 90.0)
        };
        let loaf = Baking {
            altitude,
            form: BakeForm::Tin,
            ..baking(900.0, 24.0, 94.0)
        };
        assert_close("bun", bun.height_ratio(still(190.0)), bun_longer, 0.005);
        assert_close("loaf", loaf.height_ratio(still(200.0)), loaf_longer, 0.005);
    }
}

fn of_kind(state: &State, kind: StepKind) -> &Step {
    let mut steps = state.formula.steps.iter();
    steps.find(|step| step.kind == kind).expect("it has one")
}

/// Folds keep their place within the rise, and all of it is over sooner.
#[test]
fn a_rise_and_its_folds_come_sooner_high_up() {
    let rise = |height_m: f64| {
        let bake = begin(starter("plum-almond-buns"), kitchen_at(height_m));
        let state = bake.state();
        state.forecast_if_started(of_kind(state, StepKind::Bulk), START)
    };
    let (sea, high) = (rise(0.0), rise(1500.0));
    let likely = |rise: &domain::bake::Forecast| (rise.window.likely() - START).get();
    let shorter = likely(&high) / likely(&sea);
    // The dough drifts to a kitchen that is cooler, so what comes first counts for more.
    let times = thin_air::times(metres(1500.0));
    assert_close("rise", shorter, times, 0.02);
    let fold = |rise: &domain::bake::Forecast| (rise.folds[0] - START).get() / likely(rise);
    assert_close("fold", fold(&high), fold(&sea), 0.01);
    assert!(high.window.low() < sea.window.low());
    assert!(high.window.high() > START + (sea.window.high() - START) * times);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_changes_low_down_and_nothing_jumps(height_m in -500.0..=6000.0_f64, form in prop::sample::select(&BakeForm::ALL[..])) {
        let at = |height_m: f64| Baking { altitude: Metres::clamped(height_m), form, ..baking(130.0, 25.0, 90.0) };
        let (here, above) = (at(height_m), at(height_m + 1.0));
        let (rise, oven) = (thin_air::times(here.altitude), here.height_ratio(still(190.0)));
        if height_m <= 300.0 {
            prop_assert_eq!((rise, oven), (1.0, 1.0));
        }
        prop_assert!(rise > 0.4 && rise <= 1.0 && (1.0..1.6).contains(&oven), "{} {}", rise, oven);
        prop_assert!((rise - thin_air::times(above.altitude)).abs() < 1e-3);
        prop_assert!((oven - above.height_ratio(still(190.0))).abs() < 1e-2);
    }
}
