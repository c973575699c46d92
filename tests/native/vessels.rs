//! What holds a dough or a filling: pouring it into something else, moving it between air and water, and
//! its stay in the fridge.

use checks::{assert_close, say, starter};
use domain::bake::{Bake, Intent, LONGEST_IN_FRIDGE, State, alarms, decide};
use domain::estimate::{Basis, Estimate};
use domain::formula::{Formula, Held, Length, Step, StepId, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::schedule::outline;
use domain::thermal::vessel::{Cooling, Doubt, Material, Spot, Surroundings, Vessel};
use domain::units::{Minutes, Moment, celsius, celsius_delta, grams, millimetres, minutes, share};
use domain::yeast::proof::{Learnt, Proof};
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

/// A formula in its first rise, put into the fridge `after` so many minutes.
fn in_fridge(formula: &str, after: f64) -> (Bake, StepId, Moment) {
    let mut bake = begin(starter(formula), 21.0);
    let (bulk, now) = up_to(&mut bake, StepKind::Bulk);
    let now = now + minutes(after);
    say(&mut bake, Intent::Move(bulk, Place::Fridge), now);
    (bake, bulk, now)
}

#[test]
fn a_dough_put_into_the_fridge_has_an_end() {
    let (mut bake, bulk, now) = in_fridge("overnight-tin-loaf", 20.0);
    let forecast = bake.state().forecast(bulk, now).expect("it goes on");
    assert!(!forecast.stalls);
    let out = forecast.out_by.expect("it comes out");
    assert_eq!(out - now, LONGEST_IN_FRIDGE);
    assert_eq!(forecast.look, out);
    let lead = forecast.window.likely() - out;
    // It asks for 155 min at 24 °C, and has to warm from 3 °C in a kitchen of 21.
    assert!((150.0..300.0).contains(&lead.get()), "{lead:?}");
    assert!(forecast.window.low() < forecast.window.likely());
    // The rest of the bake is planned from there.
    let table = outline(bake.state(), now).table.likely();
    assert!(table > forecast.window.likely() && table - now < minutes(48.0 * 60.0));
    // It is called for then, and "not yet" leaves it there.
    let due = alarms(bake.state(), now).into_iter().map(|alarm| alarm.due);
    assert!(due.into_iter().any(|due| due == out));
    say(&mut bake, Intent::NotYet(bulk, minutes(60.0)), out);
    let later = bake.state().forecast(bulk, out).expect("it goes on");
    assert_eq!(later.out_by, Some(out + minutes(60.0)));

    // Taken out it goes on as ever, whenever that is: what it would take from then on is what was said, within what creeps on.
    for hours in [6.0, 14.0, 23.0] {
        let (mut bake, bulk, now) = in_fridge("overnight-tin-loaf", 20.0);
        let taken = now + minutes(hours * 60.0);
        say(&mut bake, Intent::Move(bulk, Place::Kitchen), taken);
        let after = bake.state().forecast(bulk, taken).expect("it goes on");
        assert_eq!(after.out_by, None);
        let took = after.window.likely() - taken;
        assert_close("after the fridge", took.get(), lead.get(), 25.0);
    }
}

#[test]
fn a_dough_that_gets_there_in_the_fridge_says_when() {
    let (bake, bulk, now) = in_fridge("orange-braid", 60.0);
    let forecast = bake.state().forecast(bulk, now).expect("it goes on");
    assert_eq!(forecast.out_by, None);
    assert_eq!(forecast.look, forecast.window.likely());
    // By hand: a lag of about two hours, from 24 °C towards 5; most of what is missing it gains while it is warm.
    let takes = forecast.window.likely() - now;
    assert!((45.0..720.0).contains(&takes.get()), "{takes:?}");
}

/// The night, once the loaf is shaped: in its tin, and so much sooner cold than all the dough in a bowl.
#[test]
fn what_is_shaped_before_its_night_lies_in_its_own_vessel() {
    let worth = |formula: Formula| {
        let mut bake = begin(formula, 22.0);
        let (retard, now) = up_to(&mut bake, StepKind::Retard);
        let held = bake.state().held_of(retard);
        let retarding = bake.state().retarding(retard).expect("it lies there");
        (held, retarding.worth(now + minutes(570.0)))
    };
    let (held, whole) = worth(starter("overnight-tin-loaf"));
    assert_eq!(held, Some(Held::Bowl));
    for (kind, expected) in [(StepKind::Shape, Held::Tin), (StepKind::Divide, Held::Tray)] {
        let (held, own) = worth(night_after(kind));
        assert_eq!(held, Some(expected));
        assert!(own < whole, "{own:?} and {whole:?}");
    }
}

/// The loaf with its night behind the step of a kind, and two loaves of half the mass.
fn night_after(kind: StepKind) -> Formula {
    let mut draft = starter("overnight-tin-loaf").into_draft();
    draft.pieces.count = 2;
    draft.pieces.mass = draft.pieces.mass * 0.5;
    let id_of = |kind| {
        let mut steps = draft.steps.iter();
        let step = steps.find(|step: &&Step| step.kind == kind);
        step.expect("a step of that kind").id
    };
    let (retard, last) = (id_of(StepKind::Retard), id_of(kind));
    let before = draft.steps.iter().find(|step| step.id == retard);
    let before = before.expect("a night").after[0].step;
    // Whatever followed the night follows what came before it, and what followed that step follows the night.
    for step in &mut draft.steps {
        for link in &mut step.after {
            if step.id == retard {
                link.step = last;
            } else if link.step == retard {
                link.step = before;
            } else if link.step == last {
                (link.step, link.greatest) = (retard, None);
            }
        }
    }
    let night = draft.steps.iter().position(|step| step.id == retard);
    let night = draft.steps.remove(night.expect("a night"));
    let place = draft.steps.iter().position(|step| step.id == last);
    draft.steps.insert(place.expect("that step") + 1, night);
    Formula::new(draft).expect("the night was moved")
}

/// What wasn't known of a rise before its dough was poured isn't known better afterwards.
#[test]
fn poured_into_the_like_of_what_held_it_a_rise_keeps_its_window() {
    let kitchen = Doubt {
        of: Spot::Kitchen,
        off: celsius_delta(2.0),
    };
    let around = Surroundings::constant(celsius(21.0)).doubted(kitchen);
    let vessel = Vessel::dough_in_bowl(grams(800.0));
    let begun = Proof {
        range: Estimate::new(minutes(80.0), minutes(95.0), minutes(115.0), Basis::Formula),
        reference: celsius(24.0),
        start: NINE,
        dough: Estimate::new(celsius(22.0), celsius(24.0), celsius(26.0), Basis::Model),
        surroundings: around.clone(),
        vessel: vessel.clone(),
        had: minutes(0.0),
        learnt: Learnt::default(),
    };
    let none = celsius_delta(0.0);
    let carrying = begun.carrying([celsius_delta(0.5), none, none], [0.0; 3]);
    let (seen, _) = carrying.seen(NINE + minutes(40.0), share(0.25));
    for before in [carrying, seen] {
        let mut poured = before.clone();
        for after in [15.0, 50.0, 70.0] {
            let at = NINE + minutes(after);
            poured = poured.poured(at, vessel.clone(), around.clone());
            assert_close(
                "the dough",
                poured.dough_at(at).get(),
                before.dough_at(at).get(),
                0.4,
            );
        }
        let (one, other) = (before.window(), poured.window());
        let close = |case: &str, one: Minutes, other: Minutes| {
            assert_close(case, other.get() / one.get(), 1.0, 0.08);
        };
        close("likely", one.likely() - NINE, other.likely() - NINE);
        close(
            "early",
            one.likely() - one.low(),
            other.likely() - other.low(),
        );
        close(
            "late",
            one.high() - one.likely(),
            other.high() - other.likely(),
        );
    }
}
