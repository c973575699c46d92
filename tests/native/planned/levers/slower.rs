//! What makes a rise end later: a cooler place, or less yeast in the dough. That these do is common practice, no source;
//! how much is the models' own, and checked where they are.

use checks::say;
use domain::bake::{Intent, Wishes};
use domain::formula::StepKind;
use domain::kitchen::Place;
use domain::schedule::plan::{Lever, What};
use domain::units::{celsius, minutes};

use super::super::asked::{amiss, at_table, planned, some_points, wish};
use super::super::{NINE, TABLES, begun};
use super::{done, end, rise_end, rising, step_of, ways, work};

/// Mixing is fixed, and from an hour before the first rise ends until an hour after it nobody is there.
#[test]
fn less_yeast_is_offered_where_a_rise_is_to_end_later() {
    let mut bakes = begun(TABLES[1]);
    let (mix, bulk) = (
        step_of(&bakes[0], StepKind::Mix),
        step_of(&bakes[0], StepKind::Bulk),
    );
    let plan = planned(&bakes, NINE).expect("there is a plan").plan;
    let mixing = plan.item(What::Step(0, mix)).expect("it is planned").start;
    say(&mut bakes[0], Intent::Pin(mix, Some(mixing)), NINE);
    let ready = rise_end(&bakes, bulk, NINE);
    let away = (ready - minutes(60.0), ready + minutes(60.0));
    let wishes = Wishes {
        away: vec![away],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, NINE);
    assert!(amiss(&planned(&bakes, NINE).expect("there is a plan")) > 60.0);

    let found = ways(&bakes, NINE);
    let less = found
        .iter()
        .find(|way| matches!(way.lever, Lever::Yeast { times, .. } if times < 1.0));
    let less = less.unwrap_or_else(|| panic!("it rises until somebody is back: {found:#?}"));
    assert!(less.amiss() < minutes(1.0));
    // The braid's dough has egg in it, and stands in the kitchen for hours.
    assert!(less.is_long_out);
    let after = done(&bakes, less, NINE);
    let yeast = [&bakes, &after].map(|bakes| bakes[0].state().formula.fresh_yeast());
    assert!(yeast[1] < yeast[0]);
    // Dividing may follow a quarter of an hour after that.
    assert!(rise_end(&after, bulk, NINE) >= away.1 - minutes(15.0));
    let after = planned(&after, NINE).expect("there is a plan");
    assert!(amiss(&after) < 0.5);
    assert_eq!(after.plan.end.likely(), less.table.likely());
}

/// The last rise goes on, and would end while nobody is there.
#[test]
fn whoever_is_away_as_the_final_proof_ends_is_offered_a_cooler_place_for_it() {
    let (mut bakes, now) = rising(1, StepKind::FinalProof);
    let proof = step_of(&bakes[0], StepKind::FinalProof);
    let ready = rise_end(&bakes, proof, now);
    let away = (ready - minutes(20.0), ready + minutes(20.0));
    let wishes = Wishes {
        away: vec![away],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, now);
    assert!(amiss(&planned(&bakes, now).expect("there is a plan")) > 10.0);
    let found = ways(&bakes, now);
    let cooler = found.iter().find(|way| {
        matches!(way.lever, Lever::Place { step, is_warmer: false, from: None, .. } if step == proof)
    });
    let cooler = cooler.unwrap_or_else(|| panic!("16 degrees are 5 fewer: {found:#?}"));
    let cool = Place::Warm(celsius(16.0));
    assert_eq!(cooler.intents, [(0, Intent::Move(proof, cool))]);
    assert!(cooler.amiss() < minutes(1.0));
    let after = done(&bakes, cooler, now);
    assert!(rise_end(&after, proof, now) > ready);
    assert_eq!(end(&after, now), cooler.table.likely());
    assert!(amiss(&planned(&after, now).expect("there is a plan")) < 0.5);
}

/// It is advice until the dough is there: done when its time has come, it keeps what was wished.
///
/// Only its own rise is planned by the cool place; the dough of those that follow counts as if it had been in the kitchen,
/// so what comes of it is as said by the window, and not to the minute.
#[test]
fn a_rise_to_come_is_offered_a_cooler_place_from_its_beginning_on() {
    let mut points = some_points()[1].iter();
    let kneaded = points.find(|point| {
        let knead = step_of(&point.bake, StepKind::Knead);
        point.bake.state().progress(knead).ended.is_some()
    });
    let kneaded = kneaded.expect("it is kneaded");
    let (mut bakes, now) = (vec![kneaded.bake.clone()], kneaded.now);
    let bulk = step_of(&bakes[0], StepKind::Bulk);
    assert_eq!(bakes[0].state().progress(bulk).open_since, None);
    let ready = rise_end(&bakes, bulk, now);
    let away = (ready - minutes(20.0), ready + minutes(20.0));
    let wishes = Wishes {
        away: vec![away],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, now);
    assert!(amiss(&planned(&bakes, now).expect("there is a plan")) > 1.0);
    let found = ways(&bakes, now);
    let cooler = found.iter().find(
        |way| matches!(way.lever, Lever::Place { step, is_warmer: false, .. } if step == bulk),
    );
    let cooler = cooler.unwrap_or_else(|| panic!("16 degrees are 5 fewer: {found:#?}"));
    let Lever::Place {
        air,
        from: Some(from),
        ..
    } = cooler.lever
    else {
        panic!("it hasn't begun: {:?}", cooler.lever)
    };
    assert_eq!((air, cooler.intents.len()), (celsius(16.0), 0));
    assert!(cooler.amiss() < minutes(1.0));

    work(&mut bakes, now, from);
    say(&mut bakes[0], Intent::Move(bulk, Place::Warm(air)), from);
    // Dividing may follow a quarter of an hour after that.
    assert!(rise_end(&bakes, bulk, from) >= away.1 - minutes(15.0));
    let (is, said) = (end(&bakes, from), cooler.table);
    assert!(said.low() <= is && is <= said.high(), "{is:?} of {said:?}");
    assert!(amiss(&planned(&bakes, from).expect("there is a plan")) < 0.5);
}

/// What makes it later still is no way to a table that is too soon.
#[test]
fn nothing_slower_is_offered_to_whoever_wants_it_sooner() {
    let mut bakes = begun(TABLES[1]);
    let table = end(&bakes, NINE) - minutes(20.0);
    wish(&mut bakes, &at_table(table), NINE);
    let found = ways(&bakes, NINE);
    assert!(!found.is_empty());
    for way in found {
        let is_slower = match way.lever {
            Lever::Place { is_warmer, .. } => !is_warmer,
            Lever::Yeast { times, .. } => times < 1.0,
            Lever::Fridge { .. } => true,
            Lever::DayBefore { .. } => false,
        };
        assert!(!is_slower, "{:?}", way.lever);
    }
}
