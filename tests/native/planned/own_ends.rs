//! What moved, told at one of several breads: by that bread's own end.

use checks::{begin, say, starter};
use domain::bake::{Bake, BakeId, Intent};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Made, Moved, NOTABLE, Timetable, moved};
use domain::units::{Celsius, Moment, minutes};

use super::NINE;
use super::asked::{at_table, hours, planned};
use super::levers::step_of;

const IDS: [&str; 2] = ["plum-almond-buns", "orange-braid"];
const NAMES: [&str; 2] = ["Buns", "Braid"];

/// Buns for tomorrow, and a braid that is begun at once.
fn apart() -> Vec<Bake> {
    let mut bakes: Vec<Bake> = IDS
        .iter()
        .map(|id| {
            let mut bake = begin(starter(id), Kitchen::UNMEASURED, NINE);
            bake.id = BakeId((*id).to_owned());
            bake
        })
        .collect();
    say(
        &mut bakes[0],
        Intent::Wish(Box::new(at_table(NINE + hours(30.0)))),
        NINE,
    );
    let gather = step_of(&bakes[1], StepKind::Gather);
    say(&mut bakes[1], Intent::Done(gather), NINE + minutes(14.0));
    bakes
}

fn plan(bakes: &[Bake], now: Moment) -> Timetable {
    planned(bakes, now).expect("there is a plan")
}

fn told(before: (&Timetable, &[Bake]), after: (&Timetable, &[Bake]), now: Moment) -> Option<Moved> {
    let names = NAMES.map(str::to_owned);
    let [was, is]: [Vec<&Bake>; 2] = [before.1, after.1].map(|bakes| bakes.iter().collect());
    let made = |timetable, bakes| Made {
        timetable,
        bakes,
        names: &names[..],
    };
    moved(made(before.0, &was), made(after.0, &is), now)
}

/// The kitchen of one of the breads, and only that, is so warm from a moment on.
fn cools(bake: &mut Bake, air: f64, at: Moment) {
    say(bake, Intent::KitchenIs(Celsius::clamped(air)), at);
}

fn ends(of: &Timetable, bake: usize) -> Moment {
    of.plan.of(bake).expect("it is planned").table.likely()
}

#[test]
fn each_bread_tells_its_own_end_and_the_others_by_name() {
    let before = apart();
    let now = NINE + minutes(20.0);
    let was = plan(&before, now);
    let mut after = before.clone();
    let later = now + minutes(1.0);
    cools(&mut after[1], 16.0, later);
    let is = plan(&after, later);
    let moved = told((&was, &before), (&is, &after), later).expect("it takes longer");
    for (bake, own) in moved.each.iter().enumerate() {
        assert_eq!(own.bake, after[bake].id);
        assert_eq!(own.ready, (ends(&was, bake), ends(&is, bake)));
    }
    let by = |bake: usize| ends(&is, bake) - ends(&was, bake);
    assert!(by(1) > minutes(20.0) && by(0).get().abs() < NOTABLE.get());
    // At the braid it is the braid's, without its name.
    let braid = moved.end_at(&after[1].id);
    assert_eq!((braid.ready, braid.of.len()), (moved.each[1].ready, 0));
    assert!(braid.margin.is_none());
    // At the buns, which are ready when they were to be, it is the braid's by its name.
    let buns = moved.end_at(&after[0].id);
    assert_eq!(
        (buns.ready, buns.of),
        (moved.each[1].ready, &[NAMES[1].to_owned()][..])
    );
}

#[test]
fn at_each_of_two_breads_for_one_table_the_end_of_both_is_told_as_on_the_plan_s_page() {
    let mut before = apart();
    let table = NINE + hours(12.0);
    for bake in &mut before {
        say(
            bake,
            Intent::Wish(Box::new(at_table(table))),
            NINE + minutes(15.0),
        );
    }
    let now = NINE + minutes(20.0);
    let was = plan(&before, now);
    let mut after = before.clone();
    let later = now + minutes(1.0);
    cools(&mut after[1], 15.0, later);
    let is = plan(&after, later);
    let moved = told((&was, &before), (&is, &after), later).expect("it takes longer");
    let both = |of: &Timetable| ends(of, 0).max(ends(of, 1));
    assert_ne!(ends(&is, 0), ends(&is, 1), "one is ready before the other");
    for bake in &after {
        let end = moved.end_at(&bake.id);
        assert_eq!(
            (end.ready, end.ready),
            ((both(&was), both(&is)), moved.end().ready)
        );
        let margin = end.margin.expect("it has a table");
        assert_eq!((margin.table, margin.ready.likely()), (table, both(&is)));
    }
}

#[test]
fn what_one_press_told_twice_goes_on_from_the_first_for_every_bread() {
    let before = apart();
    let now = NINE + minutes(20.0);
    let was = plan(&before, now);
    let press = now + minutes(1.0);
    let mut between = before.clone();
    cools(&mut between[1], 16.0, press);
    let then = plan(&between, press);
    let mut after = between.clone();
    cools(&mut after[0], 16.0, press);
    let is = plan(&after, press);
    let first = told((&was, &before), (&then, &between), press).expect("the braid moves");
    let mut second = told((&then, &between), (&is, &after), press).expect("the buns move");
    second.goes_on_from(&first);
    for (bake, own) in second.each.iter().enumerate() {
        assert_eq!(own.ready, (ends(&was, bake), ends(&is, bake)));
    }
}
