//! Two breads for the next morning, and an evening that has become too short for both.

use checks::{begin, say, starter};
use domain::bake::{Bake, BakeId, Intent, Wishes};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Lever, Nearest, Way, levers, still_kept, timetable};
use domain::units::{Moment, minutes};

use super::super::NINE;
use super::super::asked::{at_once, go_on, hours, planned, states};
use super::{check, found, take};

/// Braid at eight and buns at half past, nobody there from eleven to half past six; the filling is made in the
/// afternoon, and then nobody is there until twenty past six in the evening.
fn late() -> (Vec<Bake>, Moment) {
    let night = (NINE + hours(14.0), NINE + hours(21.5));
    let bake = |id: &str, table: f64| {
        let mut bake = begin(starter(id), Kitchen::UNMEASURED, NINE);
        bake.id = BakeId(id.to_owned());
        let wishes = Wishes {
            table: Some(NINE + hours(table)),
            away: vec![night],
            ..Wishes::default()
        };
        say(&mut bake, Intent::Wish(Box::new(wishes)), NINE);
        bake
    };
    let mut bakes = vec![bake("orange-braid", 23.0), bake("plum-almond-buns", 23.5)];
    let mut before = timetable(&states(&bakes), NINE, None, &mut || true);
    let afternoon = [
        (425.0, "Gather"),
        (429.0, "Cook the cream"),
        (433.0, "Spread the cream"),
        (481.0, "Cream cools"),
        (485.0, "Cream into fridge"),
    ];
    for (after, title) in afternoon {
        let mut steps = bakes[1].state().formula.steps.iter();
        let step = steps
            .find(|step| step.title == title)
            .expect("it is in the formula")
            .id;
        let now = NINE + minutes(after);
        say(&mut bakes[1], Intent::Done(step), now);
        before = timetable(&states(&bakes), now, before.as_ref(), &mut || true);
    }
    let now = NINE + minutes(560.0);
    (bakes, now)
}

/// Each of them misses its own table for its own reasons, and each table can be moved by itself.
#[test]
fn of_two_tables_that_are_missed_each_can_be_moved() {
    let (mut bakes, now) = late();
    let mut moved = 0;
    while let Some(conflict) = found(&bakes, now) {
        check(&bakes, &conflict, now).expect("it holds");
        let mut nearest = conflict.nearest.iter();
        let table = nearest.find(|nearest| matches!(nearest, Nearest::Table { .. }));
        let table = table.expect("a later table would do");
        let still = at_once(still_kept(table, &states(&bakes), now, &go_on));
        assert_eq!(still, Some(true), "{table:?}");
        bakes = take(&bakes, table, now);
        moved += 1;
        assert!(moved < 3, "{conflict:?}");
    }
    assert_eq!(moved, 2);
}

/// A night in the fridge helps one of them by most of what it is late, which is little of what both are.
#[test]
fn what_helps_one_of_two_tables_is_told() {
    let (bakes, now) = late();
    let all: Vec<&Bake> = bakes.iter().collect();
    let ways = at_once(levers(&all, now, &go_on)).expect("nobody left it off");
    let is_night = |way: &&Way| matches!(way.lever, Lever::Fridge { .. });
    let night = ways.iter().find(is_night).expect("it rises overnight");
    let was = planned(&bakes, now).expect("there is a plan").margins;
    let mut both = was.iter().zip(&night.margins);
    assert!(
        both.any(|(was, is)| is.late() <= was.late() * 0.5),
        "{night:?}"
    );
    assert!(ways.iter().all(|way| !way.is_little));
}
