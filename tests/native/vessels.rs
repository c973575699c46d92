//! What holds a dough or a filling: pouring it into something else, moving it between air and water, and
//! its stay in the fridge.

mod night;

use checks::{say, starter};
use domain::bake::{Bake, Intent, State, decide};
use domain::formula::{Formula, Held, Length, Step, StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::thermal::vessel::{Cooling, Material, Surroundings, Vessel};
use domain::units::{Moment, celsius, grams, millimetres, minutes};
use proptest::prelude::*;

const NINE: Moment = Moment::from_epoch_ms(1_795_251_600_000);

fn begin(formula: Formula, air: f64) -> Bake {
    let kitchen = Kitchen {
        air: celsius(air),
        fridge: celsius(3.0),
        ..Kitchen::UNMEASURED
    };
    checks::begin(formula, kitchen, NINE)
}

/// Ends every step before the first of a kind, three minutes each, and gives that step with the time.
fn up_to(bake: &mut Bake, kind: StepKind) -> (StepId, Moment) {
    checks::up_to(bake, kind, NINE, |_| minutes(3.0))
}

fn likely(state: &State, step: StepId, now: Moment) -> Moment {
    let forecast = state.forecast(step, now).expect("it goes on");
    forecast.window.likely()
}

fn any_vessel() -> impl Strategy<Value = Vessel> {
    let mass = || (100.0..2000.0_f64).prop_map(grams_of);
    prop_oneof![
        (mass(), any_held())
            .prop_map(|(mass, held)| { Vessel::dough_held(held, Material::DOUGH, mass) }),
        (mass(), 8.0..60.0_f64).prop_map(|(mass, depth)| {
            Vessel::filling(mass, millimetres(depth), Cooling::Fridge)
        }),
    ]
}

fn grams_of(mass: f64) -> domain::units::Grams {
    domain::units::Grams::clamped(mass)
}

fn any_held() -> impl Strategy<Value = Held> {
    proptest::sample::select(vec![Held::Bowl, Held::Tin, Held::Jar, Held::Bag])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// A film that changes takes no heat and gives none, inside and on average, in bodies of any form.
    #[test]
    fn nothing_jumps_when_a_body_changes_its_film(
        vessel in any_vessel(), since in 20.0..300.0_f64, times in 2.0..20.0_f64,
    ) {
        let at = NINE + minutes(since);
        let around = Surroundings::constant(celsius(4.0)).moved(at, celsius(4.0), times);
        let course = vessel.course(NINE, celsius(60.0), &around);
        let (before, after) = (at - minutes(0.001), at + minutes(0.001));
        let mean_k = (course.mean_at(before) - course.mean_at(after)).get();
        prop_assert!(mean_k.abs() < 0.1, "{mean_k}");
        let core_k = (course.core_at(before) - course.core_at(after)).get();
        // What is cut off the series shows for the first moments, a fortieth of the difference.
        prop_assert!(core_k.abs() < 1.4, "{core_k}");
    }

    /// Poured into something else, it is as warm on average as it was, and has risen as far.
    #[test]
    fn a_dough_that_is_poured_out_stays_as_warm_and_as_far(
        air in 15.0..30.0_f64, after in 0.0..60.0_f64, held in any_held(),
    ) {
        prop_assume!(held.is_whole());
        let mut bake = begin(starter("orange-braid"), air);
        let (bulk, now) = up_to(&mut bake, StepKind::Bulk);
        let now = now + minutes(after);
        let before = bake.state().forecast(bulk, now).expect("it goes on");
        say(&mut bake, Intent::Pour(bulk, held), now);
        let after = bake.state().forecast(bulk, now).expect("it goes on");
        prop_assert!((after.progress.get() - before.progress.get()).abs() < 1e-6);
        let dough = |reason| match reason {
            domain::bake::Reason::Yeast { dough, .. } => dough,
            other => panic!("{other:?}"),
        };
        let jump_k = (dough(after.reason) - dough(before.reason)).get();
        prop_assert!(jump_k.abs() < 1e-6, "{jump_k}");
    }
}

#[test]
fn a_flat_bag_follows_soonest_and_a_jar_last() {
    let lag = |held| Vessel::dough_held(held, Material::DOUGH, grams(700.0)).time_constant();
    assert!(lag(Held::Bag) < lag(Held::Bowl) * 0.7);
    assert!(lag(Held::Jar) > lag(Held::Bowl));
    let cream = |held| {
        let depth = millimetres(50.0);
        Vessel::filling_held(
            held,
            Material::CUSTARD,
            grams(500.0),
            depth,
            Cooling::Fridge,
        )
    };
    assert!(cream(Held::Bag).time_constant() < cream(Held::Bowl).time_constant() * 0.5);
}

/// The poolish may stand in a jar; its pieces stay where they are once a dough is shaped.
#[test]
fn what_is_whole_can_be_poured_and_what_is_shaped_cant() {
    let mut bake = begin(starter("overnight-tin-loaf"), 21.0);
    let (ripens, now) = up_to(&mut bake, StepKind::Bulk);
    let usual = likely(bake.state(), ripens, now);
    assert_eq!(
        decide(&bake, Intent::Pour(ripens, Held::Bowl), now),
        Ok(vec![])
    );
    assert!(decide(&bake, Intent::Pour(ripens, Held::Tin), now).is_err());
    say(&mut bake, Intent::Pour(ripens, Held::Jar), now);
    assert_eq!(bake.state().held_of(ripens), Some(Held::Jar));
    // It comes out of the bowl warmer than the kitchen, and a jar keeps it warm.
    let in_jar = likely(bake.state(), ripens, now);
    assert!(in_jar != usual && (in_jar - usual).get().abs() < 10.0);
    say(&mut bake, Intent::Undo, now + minutes(1.0));
    assert_eq!(likely(bake.state(), ripens, now + minutes(1.0)), usual);

    let mut bake = begin(starter("orange-braid"), 21.0);
    let (proof, now) = up_to(&mut bake, StepKind::FinalProof);
    assert!(decide(&bake, Intent::Pour(proof, Held::Jar), now).is_err());
}

/// A cream that is deep in its dish is poured into a bag and laid flat in the fridge.
#[test]
fn a_cream_in_a_flat_bag_is_cold_sooner() {
    let mut draft = starter("plum-almond-buns").into_draft();
    for step in &mut draft.steps {
        if let Length::Chill { depth, cooling, .. } = &mut step.length {
            (*depth, *cooling) = (millimetres(50.0), Cooling::Fridge);
        }
    }
    let deep = Formula::new(draft).expect("only a chill was changed");
    let mut bake = begin(deep, 21.0);
    let (chill, now) = up_to(&mut bake, StepKind::Chill);
    let in_dish = likely(bake.state(), chill, now) - now;
    let poured = now + minutes(20.0);
    say(&mut bake, Intent::Pour(chill, Held::Bag), poured);
    let state = bake.state();
    let in_bag = state.forecast(chill, poured).expect("it goes on").window;
    assert!(in_bag.likely() - now < in_dish * 0.6);
    assert!(in_bag.low() < in_bag.likely() && in_bag.likely() < in_bag.high());
    // From the bag on it is a new body, as warm throughout as the cream was: a thermometer that shows just that moves nothing.
    let bag = Vessel::filling_held(
        Held::Bag,
        chilled(state, chill),
        state.formula.components[1].mass(),
        millimetres(50.0),
        Cooling::Fridge,
    );
    let fridge = Surroundings::constant(celsius(3.0));
    let cold = |from: f64| {
        let course = bag.course(poured, celsius(from), &fridge);
        course.when_core_reaches(celsius(5.0), minutes(2880.0))
    };
    // It began at 80 °C and has lost something, but nothing like half of it, in 20 min.
    assert!(cold(80.0) > Some(in_bag.likely()) && cold(60.0) < Some(in_bag.likely()));
    assert_eq!(
        state.chills(step(state, chill), poured).map(|one| one.held),
        Some(Held::Bag)
    );
}

fn step(state: &State, id: StepId) -> &Step {
    state.formula.step(id).expect("the step is there")
}

fn chilled(state: &State, id: StepId) -> Material {
    let chills = state.chills(step(state, id), NINE);
    chills.expect("it chills").filling
}

/// What was read before it was poured counts as well.
#[test]
fn a_reading_before_a_cream_is_poured_isnt_lost() {
    let cold = |read: Option<f64>| {
        let mut bake = begin(starter("plum-almond-buns"), 21.0);
        let (chill, now) = up_to(&mut bake, StepKind::Chill);
        if let Some(read) = read {
            say(
                &mut bake,
                Intent::CoreIs(chill, celsius(read)),
                now + minutes(5.0),
            );
        }
        say(
            &mut bake,
            Intent::Pour(chill, Held::Bag),
            now + minutes(6.0),
        );
        likely(bake.state(), chill, now + minutes(6.0))
    };
    assert!(cold(Some(40.0)) < cold(None) && cold(Some(79.0)) > cold(None));
}
