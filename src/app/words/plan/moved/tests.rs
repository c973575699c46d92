//! The sentences, each as a whole: what one bake is told, and what one of several.

mod causes;

use super::*;
use causes::{divide, of, rise};
use checks::script::{self, Told};
use domain::bake::BakeId;
use domain::estimate::{Basis, Estimate};
use domain::kitchen::Place;
use domain::schedule::plan::{Margin, OwnEnd};
use domain::units::minutes;

fn clock(moment: Moment) -> String {
    let of_day = moment.epoch_ms().div_euclid(60_000).rem_euclid(24 * 60);
    format!("{:02}:{:02}", of_day / 60, of_day % 60)
}

fn plain(moved: &Moved) -> String {
    sentence(moved, moved.end(), &clock, Degrees::Celsius).replace('\u{a0}', " ")
}

/// The scripts of whole bakes say what is told after a slip, word for word.
#[test]
fn scripts_of_bakes_are_told_in_these_sentences() {
    let mut told = 0;
    for Told {
        script,
        line,
        moved,
        sentence,
    } in script::told()
    {
        let said = moved.as_ref().map_or_else(String::new, plain);
        assert!(
            script::says(&sentence, &said),
            "{script}, line {line}: {said}"
        );
        told += 1;
    }
    assert!(told >= 6, "{told} sentences");
}

const fn at(hour: i64, minute: i64) -> Moment {
    Moment::from_epoch_ms((hour * 60 + minute) * 60_000)
}

fn moved(why: Why, later: f64) -> Moved {
    let was = at(16, 0);
    Moved {
        of: Vec::new(),
        ready: (was, was + minutes(later)),
        margin: None,
        most: None,
        next: None,
        each: Vec::new(),
        why,
    }
}

fn margin(moved: &Moved, table: Moment) -> Option<Margin> {
    Some(Margin {
        table,
        ready: Estimate::exact(moved.ready.1, Basis::Model),
        buffer: minutes(30.0),
    })
}

/// A bread that is added makes nothing later but what has to wait for it.
#[test]
fn a_bread_that_is_added_beside_another_is_no_lateness() {
    let own = |later: f64| OwnEnd {
        bake: BakeId("buns".to_owned()),
        name: "Buns".to_owned(),
        ready: (at(15, 15), at(15, 15) + minutes(later)),
        margin: None,
    };
    let mut moved = moved(Why::Began("Loaf".to_owned()), 240.0);
    moved.each = vec![own(0.0)];
    let said = "All of it is ready at 20:00: another bake was added to the plan (Loaf).";
    assert_eq!(plain(&moved), said);
    moved.margin = margin(&moved, at(21, 0));
    assert_eq!(
        plain(&moved),
        "All of it is ready at 20:00, in time for the table at 21:00: another bake was added to the plan (Loaf)."
    );
    moved.each = vec![own(12.0)];
    assert_eq!(
        plain(&moved),
        "Ready at 15:27 instead of 15:15 (Buns): another bake was added to the plan (Loaf)."
    );
}

/// At a bread that is sooner by it nobody is told what made the other one later.
#[test]
fn a_cause_that_moves_it_the_other_way_is_not_told() {
    let of = of(false);
    let of_late = |later: f64| plain(&moved(Why::Hands(divide(&of), minutes(15.0)), later));
    assert_eq!(
        of_late(15.0),
        "Ready at 16:15 instead of 16:00: Divide was done 15 min later than planned."
    );
    assert_eq!(
        of_late(-15.0),
        "Ready at 15:45 instead of 16:00: the plan was made anew."
    );
    let gone_by = |later: f64| plain(&moved(Why::Time, later));
    assert_eq!(
        gone_by(15.0),
        "Ready at 16:15 instead of 16:00: time has gone by."
    );
    assert_eq!(
        gone_by(-15.0),
        "Ready at 15:45 instead of 16:00: the plan was made anew."
    );
}

/// Of breads for several tables it is said whose it is.
#[test]
fn what_moved_of_one_of_several_tables_is_told_with_its_name() {
    let mut moved = moved(Why::Equipment, 15.0);
    moved.of = vec!["Orange braid".to_owned()];
    assert_eq!(
        plain(&moved),
        "Ready at 16:15 instead of 16:00 (Orange braid): the kitchen changed."
    );
    moved.margin = margin(&moved, at(17, 0));
    assert_eq!(
        plain(&moved),
        "The table stays at 17:00, with 45 min to spare instead of 1 h (Orange braid): the kitchen changed."
    );
    moved.of.insert(0, "Buns, since 09:00".to_owned());
    moved.margin = margin(&moved, at(16, 10));
    assert_eq!(
        plain(&moved),
        "Ready at 16:15 instead of 16:00, 5 min after the table at 16:10 (Buns, since 09:00 and Orange braid): the \
         kitchen changed."
    );
    moved.ready.1 = moved.ready.0;
    moved.next = Some(Shifted {
        step: rise(&of(true)),
        is_fold: true,
        was: at(11, 30),
        is: at(11, 40),
    });
    assert_eq!(
        plain(&moved),
        "The kitchen changed: the fold in First rise (Plum buns) is at 11:40 instead of 11:30, and the end stays at \
         16:00 (Buns, since 09:00 and Orange braid)."
    );
}

#[test]
fn a_table_that_was_wished_is_told_with_what_is_to_spare() {
    let of = |spare: f64| {
        let mut moved = moved(Why::Equipment, 15.0);
        let table = moved.ready.1 + minutes(spare);
        moved.margin = margin(&moved, table);
        plain(&moved)
    };
    assert_eq!(
        of(10.0),
        "The table stays at 16:25, with 10 min to spare instead of 25 min: the kitchen changed."
    );
    assert_eq!(
        of(0.0),
        "The table stays at 16:15, with no time to spare instead of 15 min: the kitchen changed."
    );
    assert_eq!(
        of(-20.0),
        "Ready at 16:15 instead of 16:00, 20 min after the table at 15:55: the kitchen changed."
    );
    // Another table was wished, or the one before was missed and isn't any more.
    let with = |why: Why, later: f64, table: Moment| {
        let mut moved = moved(why, later);
        moved.margin = margin(&moved, table);
        plain(&moved)
    };
    assert_eq!(
        with(Why::Wishes, 60.0, at(17, 30)),
        "Ready at 17:00 instead of 16:00, in time for the table at 17:30: what you wish of the time changed."
    );
    assert_eq!(
        with(Why::Equipment, -15.0, at(15, 50)),
        "Ready at 15:45 instead of 16:00, in time for the table at 15:50: the kitchen changed."
    );
}

#[test]
fn what_takes_longer_or_less_by_it_is_told_after_the_cause() {
    let told = |several: bool, by: f64| {
        let of = of(several);
        let mut moved = moved(Why::Stands(rise(&of), Place::Fridge), by);
        moved.most = Some((rise(&of), minutes(by)));
        plain(&moved)
    };
    assert_eq!(
        told(false, 75.0),
        "Ready at 17:15 instead of 16:00: the dough of First rise stands in the fridge now, so First rise takes \
         1 h 15 min longer."
    );
    assert_eq!(
        told(true, -15.0),
        "Ready at 15:45 instead of 16:00: the dough of First rise (Plum buns) stands in the fridge now, so First rise \
         (Plum buns) takes 15 min less."
    );
    // Work that took longer is the cause itself.
    let of = of(false);
    let mut late = moved(Why::Hands(divide(&of), minutes(15.0)), 15.0);
    late.most = Some((divide(&of), minutes(15.0)));
    assert_eq!(
        plain(&late),
        "Ready at 16:15 instead of 16:00: Divide was done 15 min later than planned."
    );
}

#[test]
fn where_the_end_stays_what_starts_at_another_time_is_told() {
    let told = |several: bool, title: &str, kind: StepKind, is_fold: bool| {
        let of = of(several);
        let mut moved = moved(Why::Folded(rise(&of)), 0.0);
        moved.next = Some(Shifted {
            step: of(title, kind),
            is_fold,
            was: at(11, 30),
            is: at(11, 40),
        });
        plain(&moved)
    };
    assert_eq!(
        told(false, "First rise", StepKind::Bulk, true),
        "The dough was folded in First rise: the fold in First rise is at 11:40 instead of 11:30, and everything is \
         still ready at 16:00."
    );
    assert_eq!(
        told(true, "First rise", StepKind::Bulk, true),
        "The dough was folded in First rise (Plum buns): the fold in First rise (Plum buns) is at 11:40 instead of \
         11:30, and everything is still ready at 16:00."
    );
    assert_eq!(
        told(false, "Divide", StepKind::Divide, false),
        "The dough was folded in First rise: Divide is at 11:40 instead of 11:30, and everything is still ready at \
         16:00."
    );
    assert_eq!(
        told(true, "Divide", StepKind::Divide, false),
        "The dough was folded in First rise (Plum buns): Divide (Plum buns) is at 11:40 instead of 11:30, and \
         everything is still ready at 16:00."
    );
    assert_eq!(
        told(false, "Oven on", StepKind::OvenOn, false),
        "The dough was folded in First rise: the oven goes on at 11:40 instead of 11:30, and everything is still ready \
         at 16:00."
    );
    assert_eq!(
        told(true, "Oven on", StepKind::OvenOn, false),
        "The dough was folded in First rise (Plum buns): the oven for Plum buns goes on at 11:40 instead of 11:30, and \
         everything is still ready at 16:00."
    );
}

/// An end that slides by a minute each time is never told as the same.
#[test]
fn an_end_is_still_the_same_only_while_a_clock_shows_it() {
    let divide = divide(&of(false));
    let said = |later: f64, of: &[&str]| {
        let mut moved = moved(Why::Folded(divide.clone()), later);
        moved.of = of.iter().map(|&of| of.to_owned()).collect();
        moved.next = Some(Shifted {
            step: divide.clone(),
            is_fold: false,
            was: at(11, 30),
            is: at(11, 40),
        });
        let said = plain(&moved);
        let (_, end) = said.split_once("11:30, and ").expect("the end comes last");
        end.to_owned()
    };
    assert_eq!(said(0.9, &[]), "everything is still ready at 16:00.");
    assert_eq!(said(1.0, &[]), "everything is ready at 16:01.");
    assert_eq!(said(0.0, &["Buns"]), "the end stays at 16:00 (Buns).");
    assert_eq!(said(1.5, &["Buns"]), "the end is at 16:01 (Buns).");
}
