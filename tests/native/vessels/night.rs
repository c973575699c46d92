//! What a dough stands in while it is in the fridge.

use checks::{assert_close, say, starter};
use domain::bake::{Bake, Intent, LONGEST_IN_FRIDGE, alarms};
use domain::estimate::{Basis, Estimate};
use domain::formula::{Formula, Held, Step, StepId, StepKind};
use domain::kitchen::Place;
use domain::schedule::outline;
use domain::thermal::vessel::{Doubt, Spot, Surroundings, Vessel};
use domain::units::{Minutes, Moment, celsius, celsius_delta, grams, minutes, share};
use domain::yeast::proof::{Learnt, Proof};

use super::{NINE, begin, up_to};

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
