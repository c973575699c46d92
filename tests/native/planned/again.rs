//! What was found is checked again before it is asked for.

use domain::bake::{Bake, Wishes};
use domain::formula::StepKind;
use domain::schedule::plan::{Lever, Nearest, Way, levers, still_helps, still_kept};
use domain::units::{Moment, minutes};

use super::asked::{at_once, at_table, go_on, hours, planned, states, wish};
use super::conflict::found;
use super::retard::rising;
use super::{NINE, TABLES, begun};

fn ways(bakes: &[Bake], now: Moment) -> Vec<Way> {
    let bakes: Vec<&Bake> = bakes.iter().collect();
    at_once(levers(&bakes, now, &go_on)).expect("nobody left it off")
}

fn helps(way: &Way, bakes: &[Bake], now: Moment) -> bool {
    let bakes: Vec<&Bake> = bakes.iter().collect();
    at_once(still_helps(way, &bakes, now, &go_on)).expect("nobody left it off")
}

fn is_kept(nearest: &Nearest, bakes: &[Bake], now: Moment) -> bool {
    at_once(still_kept(nearest, &states(bakes), now, &go_on)).expect("nobody left it off")
}

/// Buns for a table that is some minutes too soon.
fn too_soon(by: f64) -> Vec<Bake> {
    let mut bakes = begun(TABLES[0]);
    let end = planned(&bakes, NINE).expect("there is a plan").plan.end;
    wish(&mut bakes, &at_table(end.likely() - minutes(by)), NINE);
    bakes
}

#[test]
fn a_way_helps_as_long_as_it_does_what_was_said_of_it() {
    let bakes = too_soon(20.0);
    let found = ways(&bakes, NINE);
    let yeast = found.iter().find(|way| {
        let is_yeast = matches!(way.lever, Lever::Yeast { .. });
        is_yeast && way.amiss().get() < 0.5
    });
    let yeast = yeast.expect("more yeast helps");
    assert!(helps(yeast, &bakes, NINE));
    // An hour later it would be far too late for that table.
    assert!(!helps(yeast, &bakes, NINE + hours(1.0)));
}

#[test]
fn every_way_that_was_just_found_helps_still() {
    let night = (NINE + hours(14.0), NINE + hours(21.5));
    let mut bakes = begun(TABLES[0]);
    let wishes = Wishes {
        away: vec![night],
        ..at_table(NINE + hours(25.0))
    };
    wish(&mut bakes, &wishes, NINE);
    let mut all = ways(&bakes, NINE);
    let soon = too_soon(20.0);
    let others = ways(&soon, NINE);
    assert!(others.len() > 1);
    for way in &others {
        assert!(helps(way, &soon, NINE), "{way:?}");
    }
    all.retain(|way| !helps(way, &bakes, NINE));
    assert_eq!(all, []);
}

/// A stay that ends while everybody is asleep is none that any search finds.
#[test]
fn another_stay_in_the_fridge_is_another_way() {
    let (bake, step, now) = rising(1, StepKind::Bulk).expect("it rises");
    let mut bakes = vec![bake];
    let asleep = (now + minutes(30.0), now + hours(9.0));
    let wishes = Wishes {
        away: vec![asleep],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, now);
    let found = ways(&bakes, now);
    let cold = |way: &&Way| matches!(way.lever, Lever::Fridge { step: of, .. } if of == step);
    let cold = found.iter().find(cold).expect("it has all night");
    assert!(helps(cold, &bakes, now));
    assert!(
        helps(cold, &bakes, now + minutes(8.0)),
        "it still comes out then"
    );
    let mut other = cold.clone();
    if let Lever::Fridge { out, .. } = &mut other.lever {
        *out = now + hours(4.0);
    }
    assert!(!helps(&other, &bakes, now));
}

#[test]
fn another_table_is_kept_until_time_has_run_past_it() {
    let bakes = too_soon(20.0);
    let conflict = found(&bakes, NINE).expect("it is too soon");
    let mut nearest = conflict.nearest.iter();
    let table = nearest.find(|way| matches!(way, Nearest::Table { .. }));
    let table = table.expect("a later table");
    assert!(is_kept(table, &bakes, NINE));
    assert!(!is_kept(table, &bakes, NINE + minutes(15.0)));
}
