//! A rise somewhere warmer or cooler.

use checks::say;
use domain::bake::{Intent, Wishes};
use domain::formula::StepKind;
use domain::kitchen::Place;
use domain::schedule::plan::Lever;
use domain::units::{celsius, minutes};

use super::super::asked::{amiss, at_table, planned, wish};
use super::{done, end, rise_end, rising, step_of, ways};

#[test]
fn a_rise_that_goes_on_is_sooner_ready_somewhere_warm() {
    let (mut bakes, now) = rising(0, StepKind::Bulk);
    let table = end(&bakes, now) - minutes(10.0);
    wish(&mut bakes, &at_table(table), now);
    let step = step_of(&bakes[0], StepKind::Bulk);
    let found = ways(&bakes, now);
    let way = found
        .iter()
        .find(|way| matches!(way.lever, Lever::Place { step: of, from: None, .. } if of == step));
    let way = way.expect("28 degrees are 7 more");
    let warm = Place::Warm(celsius(28.0));
    assert_eq!(way.intents, [(0, Intent::Move(step, warm))]);
    assert!(way.amiss() < minutes(1.0));
    assert_eq!(end(&done(&bakes, way, now), now), way.table.likely());
    // The buns of later rises are warmed when they rise.
    let later = found
        .iter()
        .any(|way| matches!(way.lever, Lever::Place { from: Some(_), .. }));
    assert!(
        later
            && found
                .iter()
                .all(|way| !matches!(way.lever, Lever::Yeast { .. }))
    );
}

/// The two-hour rule: by the late end of its rise, a filled bun bears no stay in the fridge and no cool room.
#[test]
fn no_filled_dough_is_slowed_for_whoever_is_away() {
    let (mut bakes, now) = rising(0, StepKind::FinalProof);
    let proof = step_of(&bakes[0], StepKind::FinalProof);
    let ready = rise_end(&bakes, proof, now);
    let wishes = Wishes {
        away: vec![(ready - minutes(20.0), ready + minutes(90.0))],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, now);
    assert!(amiss(&planned(&bakes, now).expect("there is a plan")) > 30.0);
    for way in ways(&bakes, now) {
        let slows = match way.lever {
            Lever::Place { step, air, .. } => step == proof && air < celsius(21.0),
            Lever::Fridge { step, .. } => step == proof,
            _ => false,
        };
        assert!(!slows, "{:?}", way.lever);
    }
}

/// Warmer and cooler are told from where the rise stands, not from the kitchen.
#[test]
fn a_warm_place_is_warmer_than_a_cool_room_even_where_the_kitchen_is_hot() {
    let (mut bakes, now) = rising(1, StepKind::Bulk);
    let step = step_of(&bakes[0], StepKind::Bulk);
    say(&mut bakes[0], Intent::KitchenIs(celsius(31.5)), now);
    let place = Place::Warm(celsius(20.0));
    say(&mut bakes[0], Intent::Move(step, place), now);
    let now = now + minutes(5.0);
    let table = end(&bakes, now) - minutes(10.0);
    wish(&mut bakes, &at_table(table), now);
    let found = ways(&bakes, now);
    let way = found
        .iter()
        .find(|way| matches!(way.lever, Lever::Place { step: of, .. } if of == step));
    let way = way.expect("28 degrees are 8 more");
    assert!(matches!(
        way.lever,
        Lever::Place {
            is_warmer: true,
            ..
        }
    ));
    // Whatever rises in the kitchen is cooler there.
    for way in &found {
        if let Lever::Place {
            step: of,
            is_warmer,
            ..
        } = way.lever
        {
            assert_eq!(is_warmer, of == step, "{:?}", way.lever);
        }
    }
}
