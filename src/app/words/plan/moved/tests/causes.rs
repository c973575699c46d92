//! Every cause in a whole sentence.

use domain::bake::BakeId;
use domain::formula::{Held, StepKind};
use domain::kitchen::Place;
use domain::schedule::plan::{Named, Why};
use domain::units::{CelsiusDelta, celsius, minutes};

use super::{at, moved, plain};

/// A step of the buns, by its title and kind; beside other bakes it is told with whose it is.
pub(super) type Of<'a> = &'a dyn Fn(&str, StepKind) -> Named;

pub(super) fn of(several: bool) -> impl Fn(&str, StepKind) -> Named {
    move |title, kind| Named {
        bake: BakeId("buns".to_owned()),
        whose: several.then(|| "Plum buns".to_owned()),
        title: title.to_owned(),
        kind,
    }
}

/// Why it moved, and the sentence about it of one bake and of one of several.
type Row = (fn(Of) -> Why, &'static str, &'static str);

pub(super) fn rise(of: Of) -> Named {
    of("First rise", StepKind::Bulk)
}

pub(super) fn divide(of: Of) -> Named {
    of("Divide", StepKind::Divide)
}

fn cream(of: Of) -> Named {
    of("Cream cools", StepKind::Chill)
}

const DONE: [Row; 10] = [
    (
        |of| Why::Ready(rise(of), minutes(-12.0)),
        "First rise was ready 12 min early",
        "First rise (Plum buns) was ready 12 min early",
    ),
    (
        |of| Why::Ready(rise(of), minutes(26.0)),
        "First rise ended 26 min later than likely",
        "First rise (Plum buns) ended 26 min later than likely",
    ),
    (
        |of| Why::Ready(rise(of), minutes(0.0)),
        "First rise has ended",
        "First rise (Plum buns) has ended",
    ),
    (
        |of| Why::Hands(divide(of), minutes(20.0)),
        "Divide was done 20 min later than planned",
        "Divide (Plum buns) was done 20 min later than planned",
    ),
    (
        |of| Why::Hands(divide(of), minutes(-5.0)),
        "Divide was done 5 min sooner than planned",
        "Divide (Plum buns) was done 5 min sooner than planned",
    ),
    (
        |of| Why::Hands(divide(of), minutes(0.0)),
        "Divide has ended",
        "Divide (Plum buns) has ended",
    ),
    (
        |of| Why::Overdue(divide(of), minutes(70.0)),
        "Divide should have ended 1 h 10 min ago",
        "Divide (Plum buns) should have ended 1 h 10 min ago",
    ),
    (
        |of| Why::Waits(divide(of), minutes(20.0)),
        "Divide should have begun 20 min ago",
        "Divide (Plum buns) should have begun 20 min ago",
    ),
    (
        |of| Why::LeftOut(divide(of)),
        "Divide was left out",
        "Divide (Plum buns) was left out",
    ),
    (
        |of| Why::WentBack(divide(of)),
        "Divide is open again",
        "Divide (Plum buns) is open again",
    ),
];

const PUT_OFF: [Row; 5] = [
    (
        |of| Why::NotYet(rise(of), minutes(10.0)),
        "First rise gets 10 min more",
        "First rise (Plum buns) gets 10 min more",
    ),
    (
        |of| Why::NotYet(of("Oven on", StepKind::OvenOn), minutes(10.0)),
        "the oven was put off by 10 min",
        "the oven for Plum buns was put off by 10 min",
    ),
    (
        |of| Why::FoldNotYet(rise(of), minutes(10.0)),
        "the fold in First rise was put off by 10 min",
        "the fold in First rise (Plum buns) was put off by 10 min",
    ),
    (
        |of| Why::Folded(rise(of)),
        "the dough was folded in First rise",
        "the dough was folded in First rise (Plum buns)",
    ),
    (
        |of| Why::FoldLeftOut(rise(of)),
        "a fold in First rise was left out",
        "a fold in First rise (Plum buns) was left out",
    ),
];

const SEEN: [Row; 12] = [
    (
        |of| Why::Dough(rise(of), CelsiusDelta::clamped(-3.0)),
        "the dough is 3° cooler than forecast",
        "the dough of Plum buns is 3° cooler than forecast",
    ),
    (
        |of| Why::Dough(rise(of), CelsiusDelta::clamped(1.5)),
        "the dough is 1.5° warmer than forecast",
        "the dough of Plum buns is 1.5° warmer than forecast",
    ),
    (
        |of| Why::Dough(rise(of), CelsiusDelta::clamped(0.2)),
        "the dough is a little warmer than forecast",
        "the dough of Plum buns is a little warmer than forecast",
    ),
    (
        |of| Why::Core(of("Bake", StepKind::Bake)),
        "the middle was measured (Bake)",
        "the middle was measured (Bake, Plum buns)",
    ),
    (
        |of| Why::Looked(rise(of), true),
        "the dough had risen more than forecast in First rise",
        "the dough had risen more than forecast in First rise (Plum buns)",
    ),
    (
        |of| Why::Looked(rise(of), false),
        "the dough had risen less than forecast in First rise",
        "the dough had risen less than forecast in First rise (Plum buns)",
    ),
    (
        |of| Why::Stands(rise(of), Place::Fridge),
        "the dough of First rise stands in the fridge now",
        "the dough of First rise (Plum buns) stands in the fridge now",
    ),
    (
        |of| Why::Stands(cream(of), Place::ICE_WATER),
        "the filling of Cream cools stands in ice water now",
        "the filling of Cream cools (Plum buns) stands in ice water now",
    ),
    (
        |of| Why::Poured(rise(of), Held::Jar),
        "the dough of First rise is now in a jar",
        "the dough of First rise (Plum buns) is now in a jar",
    ),
    (
        |of| Why::Poured(cream(of), Held::Bowl),
        "the filling of Cream cools is now in a bowl or dish",
        "the filling of Cream cools (Plum buns) is now in a bowl or dish",
    ),
    (
        |_| Why::Kitchen(celsius(22.0), celsius(18.0)),
        "the kitchen is 18 °C instead of 22 °C",
        "the kitchen is 18 °C instead of 22 °C",
    ),
    (
        |_| Why::Fridge(celsius(4.0), celsius(7.5)),
        "the fridge is 7.5 °C instead of 4 °C",
        "the fridge is 7.5 °C instead of 4 °C",
    ),
];

const CHANGED: [Row; 17] = [
    (
        |_| Why::Equipment,
        "the kitchen changed",
        "the kitchen changed",
    ),
    (
        |_| Why::Wishes,
        "what you wish of the time changed",
        "what you wish of the time changed",
    ),
    (
        |of| Why::Fixed(divide(of), Some(at(11, 45))),
        "Divide is fixed to 11:45",
        "Divide (Plum buns) is fixed to 11:45",
    ),
    (
        |of| Why::Fixed(divide(of), None),
        "Divide is no longer fixed",
        "Divide (Plum buns) is no longer fixed",
    ),
    (
        |of| Why::Retard(divide(of), Some((at(22, 10), at(23, 45)))),
        "the dough of Divide is to stand in the fridge from 22:10 to 23:45",
        "the dough of Divide (Plum buns) is to stand in the fridge from 22:10 to 23:45",
    ),
    (
        |of| Why::Retard(divide(of), None),
        "the dough of Divide doesn't go into the fridge after all",
        "the dough of Divide (Plum buns) doesn't go into the fridge after all",
    ),
    (
        |of| Why::Unmoved(divide(of), Place::Fridge, minutes(20.0)),
        "the dough of Divide should have gone into the fridge 20 min ago",
        "the dough of Divide (Plum buns) should have gone into the fridge 20 min ago",
    ),
    (
        |of| Why::Unmoved(divide(of), Place::Kitchen, minutes(20.0)),
        "the dough of Divide should have come out of the fridge 20 min ago",
        "the dough of Divide (Plum buns) should have come out of the fridge 20 min ago",
    ),
    (
        |_| Why::Refitted,
        "the formula changed",
        "the formula changed",
    ),
    (
        |_| Why::Began("Braid".to_owned()),
        "another bake was added to the plan (Braid)",
        "another bake was added to the plan (Braid)",
    ),
    (
        |_| Why::Ended("Braid".to_owned()),
        "one bake is over (Braid)",
        "one bake is over (Braid)",
    ),
    (
        |_| Why::TakenBack,
        "something was taken back",
        "something was taken back",
    ),
    (
        |_| Why::PutBack,
        "something was put back",
        "something was put back",
    ),
    (
        |_| Why::ClockSet,
        "the phone's clock was set",
        "the phone's clock was set",
    ),
    (|_| Why::Time, "time has gone by", "time has gone by"),
    (
        |_| Why::Anew,
        "the plan was made anew",
        "the plan was made anew",
    ),
    (
        |of| Why::Earlier(divide(of), minutes(25.0)),
        "Divide was 25 min before that was said",
        "Divide (Plum buns) was 25 min before that was said",
    ),
];

#[test]
fn every_cause_is_told_in_a_whole_sentence() {
    let mut kinds = Vec::new();
    for (why, one, two) in DONE.iter().chain(&PUT_OFF).chain(&SEEN).chain(&CHANGED) {
        for (several, wanted) in [(false, one), (true, two)] {
            // A cause is told of what it moves that way.
            let is_sooner = why(&of(several)).leads() < 0.0;
            let said = plain(&moved(
                why(&of(several)),
                if is_sooner { -15.0 } else { 15.0 },
            ));
            // With other breads it is another end, which is neither late nor early.
            let ready = match why(&of(several)) {
                Why::Began(_) | Why::Ended(_) => "All of it is ready at 16:15",
                _ if is_sooner => "Ready at 15:45 instead of 16:00",
                _ => "Ready at 16:15 instead of 16:00",
            };
            let wanted = format!("{ready}: {wanted}.");
            assert_eq!(said, wanted);
        }
        kinds.push(kind(&why(&of(false))));
    }
    kinds.sort_unstable();
    kinds.dedup();
    assert!(kinds.iter().copied().eq(0..KINDS), "{kinds:?} are told");
}

const KINDS: usize = 31;

/// A new cause has no number, and so this doesn't compile until it has one, and a row above.
fn kind(why: &Why) -> usize {
    match why {
        Why::Ready(..) => 0,
        Why::Hands(..) => 1,
        Why::Overdue(..) => 2,
        Why::Waits(..) => 3,
        Why::NotYet(..) => 4,
        Why::FoldNotYet(..) => 5,
        Why::Folded(_) => 6,
        Why::FoldLeftOut(_) => 7,
        Why::LeftOut(_) => 8,
        Why::WentBack(_) => 9,
        Why::Dough(..) => 10,
        Why::Core(_) => 11,
        Why::Looked(..) => 12,
        Why::Stands(..) => 13,
        Why::Poured(..) => 14,
        Why::Kitchen(..) => 15,
        Why::Fridge(..) => 16,
        Why::Equipment => 17,
        Why::Wishes => 18,
        Why::Fixed(..) => 19,
        Why::Refitted => 20,
        Why::Began(_) => 21,
        Why::Ended(_) => 22,
        Why::TakenBack => 23,
        Why::ClockSet => 24,
        Why::Time => 25,
        Why::Retard(..) => 26,
        Why::Unmoved(..) => 27,
        Why::Anew => 28,
        Why::Earlier(..) => 29,
        Why::PutBack => 30,
    }
}
