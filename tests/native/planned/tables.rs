//! Breads for one table or for several, and when each of them begins.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{NOTABLE, Timetable, What, timetable};
use domain::units::{Minutes, Moment, minutes};

use super::NINE;
use super::asked::{planned, states};

pub(super) const HOUR: Minutes = minutes(60.0);

pub(super) fn for_table(id: &str, hours: f64) -> Bake {
    let mut bake = begin(starter(id), Kitchen::UNMEASURED, NINE);
    let wishes = Wishes {
        table: Some(NINE + HOUR * hours),
        ..Wishes::default()
    };
    say(&mut bake, Intent::Wish(Box::new(wishes)), NINE);
    bake
}

fn begins(bakes: &[Bake], now: Moment) -> Vec<Option<Moment>> {
    planned(bakes, now).expect("there is a plan").begins
}

/// A fold that falls into a time away can't be kept, and is no reason to begin tomorrow's bread tonight.
#[test]
fn what_cannot_be_kept_at_one_bread_does_not_begin_another() {
    let mut runs = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let mut waits = for_table("orange-braid", 30.0);
    let first = runs.state().formula.steps[0].id;
    say(&mut runs, Intent::Done(first), NINE + minutes(13.0));
    for hours in 1..6 {
        // Whatever of the buns falls into the next three hours.
        let from = NINE + HOUR * f64::from(hours);
        let wishes = Wishes {
            away: vec![(from, from + HOUR * 3.0)],
            ..waits.state().wishes.clone()
        };
        say(
            &mut waits,
            Intent::Wish(Box::new(wishes)),
            NINE + minutes(20.0),
        );
        let found = begins(&[runs.clone(), waits.clone()], NINE + minutes(21.0));
        let begin = found[1].expect("it waits");
        assert!(
            begin > NINE + HOUR * 15.0,
            "away from hour {hours}: {begin:?}"
        );
    }
}

#[test]
fn one_that_was_started_without_a_table_is_not_kept_back_for_that_of_another() {
    let waits = for_table("orange-braid", 30.0);
    let now = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let found = planned(&[waits, now], NINE).expect("there is a plan");
    assert_eq!(found.begins[1], Some(NINE));
    // The table is the braid's, so it isn't late for having the buns beside it.
    assert!(found.tightest().expect("a table").spare().get() >= 0.0);
}

/// Bread for tomorrow's breakfast isn't planned for today's tea.
#[test]
fn each_of_two_breads_is_ready_its_buffer_before_its_own_table() {
    let bakes = [
        for_table("orange-braid", 26.0),
        for_table("plum-almond-buns", 10.0),
    ];
    let both = planned(&bakes, NINE).expect("there is a plan");
    let tables: Vec<Moment> = both.margins.iter().map(|margin| margin.table).collect();
    assert_eq!(tables, [NINE + HOUR * 10.0, NINE + HOUR * 26.0]);
    for (place, margin) in [(1, both.margins[0]), (0, both.margins[1])] {
        // A buffer is never fallen short of. It is missed by a few minutes, because rises take another length where
        // they begin at another one.
        let off = (margin.spare() - margin.buffer).get();
        assert!((0.0..=3.0).contains(&off), "{margin:?}");
        // Hours lie between them, so neither is in the other's way.
        let alone = begins(&bakes[place..=place], NINE)[0].expect("it waits");
        let beside = both.begins[place].expect("it waits");
        assert!((alone - beside).get().abs() <= 1.0, "{alone:?}, {beside:?}");
    }
}

/// A table that is wished first is kept first: what is for a later one gives way.
#[test]
fn a_sooner_table_is_not_missed_for_a_later_one() {
    for hours in [8.0, 9.0, 10.0] {
        for later in [0.2, 0.5, 1.0, 1.5] {
            let bakes = [
                for_table("plum-almond-buns", hours + later),
                for_table("orange-braid", hours),
            ];
            let alone = planned(&bakes[1..], NINE).expect("there is a plan");
            let both = planned(&bakes, NINE).expect("there is a plan");
            let (alone, beside) = (alone.margins[0], both.margins[0]);
            assert!(!alone.is_late());
            assert!(!beside.is_late(), "{hours} and {later} more: {beside:?}");
            assert!(!both.margins[1].is_late(), "{hours} and {later} more");
        }
    }
}

/// What is for the sooner table has its hands wherever they happened to be free, and the other had to fit between: for
/// half an hour between two tables one of them began three hours sooner than it would have alone.
#[test]
fn of_two_tables_half_an_hour_apart_neither_begins_hours_sooner() {
    const BREADS: [[&str; 2]; 4] = [
        ["plum-almond-buns", "orange-braid"],
        ["orange-braid", "plum-almond-buns"],
        ["orange-braid", "orange-braid"],
        ["plum-almond-buns", "plum-almond-buns"],
    ];
    for ids in BREADS {
        let mut bakes = [for_table(ids[0], 31.0), for_table(ids[1], 31.5)];
        bakes[1].id = domain::bake::BakeId("the other".to_owned());
        let both = planned(&bakes, NINE).expect("there is a plan");
        for (place, margin) in both.margins.iter().enumerate() {
            let alone = begins(&bakes[place..=place], NINE)[0].expect("it waits");
            let beside = both.begins[place].expect("it waits");
            assert!(
                beside > alone - minutes(45.0),
                "{ids:?}: {alone:?}, {beside:?}"
            );
            assert!(margin.spare() >= margin.buffer, "{ids:?}: {margin:?}");
        }
    }
}

/// Of a bread that goes on and one for tomorrow only the latter can wait, and nothing the baker does at the one calls off
/// when the other begins.
#[test]
fn what_waits_for_tomorrow_is_promised_a_beginning() {
    let mut bakes = [
        begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE),
        for_table("orange-braid", 30.0),
    ];
    let mut found = planned(&bakes, NINE).expect("there is a plan");
    let promised = found.begins[1].expect("it waits");
    let mut now = NINE;
    for _ in 0..12 {
        let open = bakes[0].state().formula.steps.iter();
        let open = open.filter(|step| bakes[0].state().is_open(step.id));
        let ends =
            open.filter_map(|step| Some((found.plan.item(What::Step(0, step.id))?.end, step.id)));
        let (end, step) = ends.min().expect("something is left");
        now = end.max(now) + minutes(4.0);
        say(&mut bakes[0], Intent::Done(step), now);
        let states = states(&bakes);
        found = timetable(&states, now, Some(&found), &mut || true).expect("there is a plan");
        assert_eq!(found.begins[1], Some(promised), "at {now:?}");
    }
}

/// What is promised is so for what was asked: whatever is asked anew is planned as if nothing had been before.
#[test]
fn a_beginning_is_no_longer_promised_once_something_else_is_asked() {
    let mut bakes = vec![for_table("orange-braid", 10.0)];
    let first = bakes[0].state().formula.steps[0].id;
    let table = bakes[0].state().wishes.clone();
    let begins = begins(&bakes, NINE)[0].expect("it waits");
    let wish = |not_before: Option<Moment>| {
        let wishes = Wishes {
            not_before,
            ..table.clone()
        };
        Intent::Wish(Box::new(wishes))
    };
    let away = Wishes {
        away: vec![(begins - HOUR, begins + HOUR * 2.0)],
        ..table.clone()
    };
    let mut before = planned(&bakes, NINE);
    let asked = [
        wish(Some(begins + HOUR)),
        wish(Some(begins - HOUR)),
        wish(None),
        Intent::Pin(first, Some(begins - HOUR)),
        Intent::Pin(first, Some(begins + HOUR * 2.0)),
        Intent::Pin(first, None),
        Intent::Wish(Box::new(away)),
        wish(None),
    ];
    for (nth, intent) in (1_u8..).zip(asked) {
        let now = NINE + minutes(f64::from(nth));
        say(&mut bakes[0], intent.clone(), now);
        let after = timetable(&states(&bakes), now, before.as_ref(), &mut || true);
        let after = after.expect("there is a plan");
        let anew = planned(&bakes, now).expect("there is a plan");
        // Lengths that were planned before stay where they are nearly the same.
        let spare = |found: &Timetable| found.margins[0].spare().get();
        let begin = |found: &Timetable| found.begins[0].expect("it waits");
        for off in [
            spare(&after) - spare(&anew),
            (begin(&after) - begin(&anew)).get(),
        ] {
            assert!(off.abs() <= NOTABLE.get(), "{intent:?}: {off}");
        }
        before = Some(after);
    }
}

/// Weighing in the evening is no beginning: butter and flour wait.
#[test]
fn who_gathers_early_is_still_planned_for_the_table() {
    let mut bake = for_table("plum-almond-buns", 24.0);
    let before = begins(std::slice::from_ref(&bake), NINE)[0].expect("it waits");
    let steps = &bake.state().formula.steps;
    let gather = steps.iter().find(|step| step.kind == StepKind::Gather);
    let gather = gather.expect("it is gathered").id;
    say(&mut bake, Intent::Done(gather), NINE + minutes(10.0));
    let after = begins(&[bake], NINE + minutes(11.0))[0].expect("it waits still");
    // Only the 13 min are gone that gathering takes.
    assert_eq!((after - before).get().round(), 13.0);
}

/// However often it is pressed: what was wished is taken back at all, and then what came before it.
#[test]
fn a_wish_that_is_taken_back_at_one_bread_goes_from_the_log_of_the_other() {
    let mut bakes = [
        for_table("plum-almond-buns", 20.0),
        for_table("orange-braid", 20.0),
    ];
    let first = bakes[0].state().wishes.clone();
    for (nth, hours) in [(1.0, 21.0), (2.0, 22.0)] {
        let table = Some(NINE + HOUR * hours);
        let wishes = Wishes {
            table,
            ..first.clone()
        };
        for bake in &mut bakes {
            say(
                bake,
                Intent::Wish(Box::new(wishes.clone())),
                NINE + minutes(nth),
            );
        }
    }
    for (nth, hours) in [(3.0, 21.0), (4.0, 20.0)] {
        let now = NINE + minutes(nth);
        let wished_at = bakes[0].newest_wish().expect("it was wished");
        say(&mut bakes[0], Intent::Undo, now);
        let back = bakes[0].state().wishes.clone();
        assert_eq!(back.table, Some(NINE + HOUR * hours));
        let away = back.away.clone();
        say(&mut bakes[1], Intent::WishUndone { wished_at, away }, now);
        assert_eq!(bakes[1].state().wishes, back);
        // Nothing was wished anew by that, so "undo" goes on where it would at the first.
        let entries = |bake: &Bake| bake.log().len();
        assert_eq!(entries(&bakes[0]), entries(&bakes[1]));
    }
}

/// What was wished of one bread alone is no matter of the other, but for when nobody is there.
#[test]
fn a_table_that_is_taken_back_leaves_that_of_another_bread() {
    let mut bakes = [
        for_table("plum-almond-buns", 20.0),
        for_table("orange-braid", 26.0),
    ];
    let (first, other) = (
        bakes[0].state().wishes.clone(),
        bakes[1].state().wishes.clone(),
    );
    let wishes = Wishes {
        table: Some(NINE + HOUR * 21.0),
        away: vec![(NINE + HOUR, NINE + HOUR * 2.0)],
        ..first.clone()
    };
    let now = NINE + minutes(5.0);
    say(&mut bakes[0], Intent::Wish(Box::new(wishes)), now);
    let wished_at = bakes[0].newest_wish().expect("it was wished");
    assert_eq!(wished_at, now);
    say(&mut bakes[0], Intent::Undo, NINE + minutes(6.0));
    assert_eq!(bakes[0].state().wishes, first);
    let away = first.away;
    let back = Intent::WishUndone { wished_at, away };
    say(&mut bakes[1], back, NINE + minutes(6.0));
    assert_eq!(bakes[1].state().wishes, other);
}
