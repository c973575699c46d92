//! Doughs that stand elsewhere for a while, nights in the fridge, and what somebody saw of a rise.

mod fridge;

use checks::{say, starter};
use domain::bake::{Bake, Entry, Event, Forecast, Intent, Reason, State, decide};
use domain::estimate::Estimate;
use domain::formula::{Formula, Held, StepId, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::thermal::vessel::{Material, Surroundings, Vessel};
use domain::units::{Celsius, Minutes, Moment, celsius, grams, minutes, share};
use proptest::prelude::*;

const NINE: Moment = Moment::from_epoch_ms(1_795_251_600_000);

fn begin(formula: Formula, air: Celsius) -> Bake {
    let kitchen = Kitchen {
        air,
        ..Kitchen::UNMEASURED
    };
    checks::begin(formula, kitchen, NINE)
}

/// Ends every step before the first of a kind, each after its `length`, and gives that step with the time.
fn up_to(
    bake: &mut Bake,
    kind: StepKind,
    length: impl Fn(StepKind) -> Minutes,
) -> (StepId, Moment) {
    checks::up_to(bake, kind, NINE, length)
}

fn three_minutes(_: StepKind) -> Minutes {
    minutes(3.0)
}

fn braid_rising(air: Celsius) -> (Bake, StepId, Moment) {
    let mut bake = begin(starter("orange-braid"), air);
    let (bulk, now) = up_to(&mut bake, StepKind::Bulk, three_minutes);
    (bake, bulk, now)
}

fn forecast(state: &State, step: StepId, now: Moment) -> Forecast {
    state.forecast(step, now).expect("it goes on")
}

fn dough_of(forecast: &Forecast) -> Celsius {
    match forecast.reason {
        Reason::Yeast { dough, .. } => dough,
        other => panic!("a rise that rests on {other:?}"),
    }
}

fn width(window: &Estimate<Moment>) -> f64 {
    (window.high() - window.low()).get()
}

proptest! {
    /// Warmer surroundings from some moment on never make yeast below its optimum slower, in air or in water.
    #[test]
    fn a_warmer_place_is_never_later(
        air in 15.0..24.0_f64, after in 0.0..60.0_f64, warm in 25.0..34.0_f64, water in any::<bool>(),
    ) {
        let (mut bake, bulk, now) = braid_rising(celsius(air));
        let now = now + minutes(after);
        let before = forecast(bake.state(), bulk, now);
        prop_assume!(celsius(warm) >= dough_of(&before));
        let place = if water { Place::Water(celsius(warm)) } else { Place::Warm(celsius(warm)) };
        say(&mut bake, Intent::Move(bulk, place), now);
        let after = forecast(bake.state(), bulk, now);
        prop_assert!(after.window.likely() <= before.window.likely());
        // What has risen so far stays risen, and the dough doesn't jump.
        prop_assert!((after.progress.get() - before.progress.get()).abs() < 1e-6);
        prop_assert!((dough_of(&after) - dough_of(&before)).get().abs() < 1e-6);
    }

    /// Water of the air's temperature takes the dough there sooner, and never past it.
    #[test]
    fn water_brings_a_dough_to_its_temperature_sooner(at in 5.0..40.0_f64, later in 5.0..120.0_f64) {
        let (bake, bulk, now) = braid_rising(celsius(21.0));
        let put = |place: Place| {
            let mut bake = bake.clone();
            say(&mut bake, Intent::Move(bulk, place), now);
            let dough = dough_of(&forecast(bake.state(), bulk, now + minutes(later)));
            (dough - celsius(at)).get()
        };
        let start = (dough_of(&forecast(bake.state(), bulk, now)) - celsius(at)).get();
        let (air, water) = (put(Place::Warm(celsius(at))), put(Place::Water(celsius(at))));
        prop_assert!(water.abs() <= air.abs() + 1e-6, "{water} in water, {air} in air");
        prop_assert!(water * start >= -1e-6);
    }

    /// Whoever looks knows better: the window is never wider by it, and it moves towards what was seen.
    #[test]
    fn a_look_at_the_dough_narrows_its_window(
        air in 18.0..28.0_f64, passed in 0.3..0.95_f64, quarters in 1_u8..=4,
    ) {
        let (mut bake, bulk, now) = braid_rising(celsius(air));
        let whole = forecast(bake.state(), bulk, now).window.likely() - now;
        let now = now + whole * passed;
        let before = forecast(bake.state(), bulk, now);
        let seen = f64::from(quarters) / 4.0;
        prop_assume!((seen - before.progress.get()).abs() > 0.02);
        say(&mut bake, Intent::RiseIs(bulk, share(seen), minutes(0.0)), now);
        let after = forecast(bake.state(), bulk, now);
        let further = seen > before.progress.get();
        prop_assert_eq!(further, after.window.likely() < before.window.likely());
        let narrower = width(&after.window) < width(&before.window);
        // A dough that lags has longer to go, and so more time to be wrong about.
        prop_assert!(narrower || !further, "{} then {}", width(&before.window), width(&after.window));
    }
}

#[test]
fn what_was_said_of_a_place_ends_with_its_step() {
    let (mut bake, bulk, now) = braid_rising(celsius(19.0));
    say(
        &mut bake,
        Intent::Move(bulk, Place::Warm(celsius(30.0))),
        now,
    );
    assert_eq!(
        bake.state().place_of(bulk),
        Some(Place::Warm(celsius(30.0)))
    );
    let ready = forecast(bake.state(), bulk, now).window.likely();
    say(&mut bake, Intent::Done(bulk), ready);
    let (proof, now) = up_to(&mut bake, StepKind::FinalProof, three_minutes);
    let now = now.max(ready + minutes(30.0));
    assert_eq!(bake.state().place_of(proof), Some(Place::Kitchen));
    let later = forecast(bake.state(), proof, now);
    let Reason::Yeast { air, .. } = later.reason else {
        panic!("a rise rests on its yeast");
    };
    assert_eq!(air, celsius(19.0));
    // The warmth it brings along stays with it for a while.
    assert!(dough_of(&later) > celsius(19.5));
}

#[test]
fn a_place_that_is_no_news_or_makes_no_sense_adds_nothing() {
    let (bake, bulk, now) = braid_rising(celsius(21.0));
    let said = |step, place| decide(&bake, Intent::Move(step, place), now);
    assert_eq!(said(bulk, Place::Kitchen), Ok(Vec::new()));
    assert!(said(bulk, Place::Warm(celsius(80.0))).is_err());
    assert!(said(StepId(99), Place::Fridge).is_err());
    let oven_on = StepId(12);
    assert!(said(oven_on, Place::Fridge).is_err());
    let looked = |ago: f64| decide(&bake, Intent::RiseIs(bulk, share(0.5), minutes(ago)), now);
    assert!(looked(0.0).is_ok());
    assert!(looked(500.0).is_err(), "before it began to rise");
}

/// What somebody saw of the first rise says something of the last.
#[test]
fn a_quick_yeast_is_quick_again() {
    let last = |seen: Option<f64>| {
        let (mut bake, bulk, now) = braid_rising(celsius(24.0));
        let ready = forecast(bake.state(), bulk, now).window.likely();
        let looked = now + (ready - now) * 0.6;
        if let Some(seen) = seen {
            say(
                &mut bake,
                Intent::RiseIs(bulk, share(seen), minutes(0.0)),
                looked,
            );
        }
        say(&mut bake, Intent::Done(bulk), ready);
        let (proof, _) = up_to(&mut bake, StepKind::FinalProof, three_minutes);
        let state = bake.state();
        let start = state.progress(proof).open_since.expect("it has begun");
        (forecast(state, proof, start).window.likely() - start).get()
    };
    assert!(last(Some(1.0)) < last(None) - 5.0);
    // A quarter is hard to tell by eye, so it says less.
    assert!(last(Some(0.25)) > last(None) + 1.0);
}

/// Two tabs can be joined so that what happened to a dough stands behind the end of its step.
#[test]
fn what_comes_after_a_step_has_ended_moves_nothing() {
    let (mut bake, bulk, now) = braid_rising(celsius(21.0));
    let ready = forecast(bake.state(), bulk, now).window.likely();
    say(&mut bake, Intent::Done(bulk), ready);
    let mut joined = bake.clone();
    joined.append([
        Entry {
            at: ready + minutes(5.0),
            event: Event::Moved {
                step: bulk,
                place: Place::Fridge,
            },
        },
        Entry {
            at: ready + minutes(6.0),
            event: Event::RiseSeen {
                step: bulk,
                share: share(0.25),
                ago: minutes(-30.0),
            },
        },
    ]);
    let (proof, now) = up_to(&mut bake, StepKind::FinalProof, three_minutes);
    let (_, _) = up_to(&mut joined, StepKind::FinalProof, three_minutes);
    let later = now.max(ready) + minutes(60.0);
    let dough = |bake: &Bake| dough_of(&forecast(bake.state(), proof, later));
    assert!((dough(&bake) - dough(&joined)).get().abs() < 0.1);
    assert!(joined.state().looks.is_empty());
}

/// A dough in its jar is a body of two directions; what goes into water and out keeps its heat.
#[test]
fn a_jar_that_goes_into_water_keeps_the_heat_of_its_dough() {
    let proof = domain::yeast::proof::Proof {
        range: Estimate::exact(minutes(80.0), domain::estimate::Basis::Formula),
        reference: celsius(24.0),
        start: NINE,
        dough: Estimate::exact(celsius(8.0), domain::estimate::Basis::Measured),
        surroundings: Surroundings::constant(celsius(22.0)).moved(
            NINE + minutes(60.0),
            celsius(30.0),
            20.0,
        ),
        vessel: Vessel::dough_held(Held::Jar, Material::DOUGH, grams(900.0)),
        had: minutes(0.0),
        learnt: domain::yeast::proof::Learnt::default(),
    };
    let just = |after: f64| proof.dough_at(NINE + minutes(after)).get();
    assert!(
        (just(60.01) - just(59.99)).abs() < 0.1,
        "{} {}",
        just(59.99),
        just(60.01)
    );
    assert!(just(70.0) > just(60.0));
}

#[test]
fn only_a_bowl_or_a_dish_goes_into_water() {
    let (mut bake, bulk, now) = braid_rising(celsius(21.0));
    let warm = Place::Water(celsius(30.0));
    assert!(decide(&bake, Intent::Move(bulk, warm), now).is_ok());
    say(&mut bake, Intent::Done(bulk), now + minutes(90.0));
    let (proof, _) = up_to(&mut bake, StepKind::FinalProof, three_minutes);
    let later = now + minutes(200.0);
    assert!(decide(&bake, Intent::Move(proof, warm), later).is_err());
    assert!(
        decide(
            &bake,
            Intent::Move(proof, Place::Warm(celsius(30.0))),
            later
        )
        .is_ok()
    );
}
