//! A plan outlives the page: made from what was kept of the one before, it is what it would have been.

use domain::bake::{Bake, BakeId, State};
use domain::schedule::plan::{
    Made, Moved, NOTABLE, Promise, Promises, Timetable, What, moved, timetable,
};
use domain::units::{Minutes, Moment, minutes};
use proptest::prelude::*;
use records::Record as _;
use records::promises::PromisesRecord;

use super::days::{Day, PLAIN, any_day, times};
use super::redone::days;

/// What is kept of a day's plan, through its text.
fn kept(day: &Day) -> Promises {
    let calls: Vec<_> = day.timetable.begins.clone();
    let promise = Promise::of(&day.timetable, &day.bakes, &calls, day.now);
    let promises = Promises {
        told: vec![promise.clone()],
        shown: promise,
    };
    let text = PromisesRecord::from(&promises).write();
    let read = PromisesRecord::read(&text).expect("it is what was written");
    Promises::from(read)
}

/// The plan of some bakes as it is made after one from before.
fn after(before: &Timetable, bakes: &[Bake], now: Moment) -> Option<Timetable> {
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    timetable(&states, now, Some(before), &mut || true)
}

/// What a baker is told of a plan: when everything starts and ends, when bakes begin, and by table the buffer and the
/// likely end.
type Told = (
    Vec<(What, Moment, Moment)>,
    Vec<Option<Moment>>,
    Vec<(Moment, Minutes, Moment)>,
);

fn promised(made: &Timetable) -> Told {
    let margins = made.margins.iter();
    let margins = margins.map(|margin| (margin.table, margin.buffer, margin.ready.likely()));
    (times(&made.plan), made.begins.clone(), margins.collect())
}

/// The same minute after minute, as on a page that stays open.
fn minute_by_minute(day: &Day, until: Moment) -> Timetable {
    let (mut made, mut now) = (day.timetable.clone(), day.now);
    while now < until {
        now = (now + minutes(1.0)).min(until);
        if made.plan.is_overtaken(&day.states(), now) {
            made = after(&made, &day.bakes, now).expect("there was a plan");
        }
    }
    made
}

proptest! {
    #![proptest_config(days(24))]

    /// However long the page was closed, and whatever was said since that was told.
    #[test]
    fn a_plan_made_from_what_was_kept_is_that_made_from_the_plan_itself(
        drawn in any_day(),
        closed in 0.0..60.0_f64,
    ) {
        let Some(mut day) = Day::planned(&drawn) else { return Ok(()) };
        for &slip in &drawn.slips {
            let (before, kept) = (day.clone(), kept(&day));
            let (bakes, recalled) = kept.shown.recalled(&day.bakes).expect("its bakes are here");
            prop_assert_eq!(&bakes, &before.bakes);
            prop_assert_eq!(promised(&recalled), promised(&before.timetable));
            let later = day.now + minutes(closed);
            let from = |made: &Timetable, bakes: &[Bake], now| after(made, bakes, now).map(|made| promised(&made));
            prop_assert_eq!(from(&recalled, &day.bakes, later), from(&before.timetable, &day.bakes, later));
            if day.go_on(slip).is_none() { break }
            // The logs have grown since: the bakes are those of then all the same.
            let (bakes, recalled) = kept.shown.recalled(&day.bakes).expect("its bakes are here");
            prop_assert_eq!(&bakes, &before.bakes);
            prop_assert_eq!(from(&recalled, &day.bakes, day.now), from(&before.timetable, &day.bakes, day.now));
            day.timetable = day.again(day.now);
        }
    }
}

proptest! {
    #![proptest_config(days(12))]

    /// A page that was closed tells what one tells that stayed open, from the same moment on.
    #[test]
    fn what_moved_meanwhile_is_told_as_if_the_page_had_stayed_open(drawn in any_day(), closed in 5.0..60.0_f64) {
        let Some(mut day) = Day::planned(&drawn) else { return Ok(()) };
        let step = drawn.slips.len() / 2;
        for (nth, &slip) in drawn.slips.iter().enumerate() {
            if nth == step {
                let kept = kept(&day);
                let (bakes, told) = kept.told[0].recalled(&day.bakes).expect("its bakes are here");
                let (_, shown) = kept.shown.recalled(&day.bakes).expect("its bakes are here");
                let later = day.now + minutes(closed);
                let open = minute_by_minute(&day, later);
                let again = after(&shown, &day.bakes, later).expect("there was a plan");
                let names: Vec<String> = day.bakes.iter().map(|bake| bake.id.0.clone()).collect();
                let (was, is): (Vec<&Bake>, Vec<&Bake>) = (bakes.iter().collect(), day.bakes.iter().collect());
                let made = |timetable, bakes| Made { timetable, bakes, names: &names };
                let closed = moved(made(&told, &was), made(&again, &is), later);
                let open = moved(made(&day.timetable, &is), made(&open, &is), later);
                // What is planned in one go can come to rest some minutes beside what is planned in forty.
                let by = |told: &Option<Moved>| told.as_ref().map_or(0.0, |told| (told.ready.1 - told.ready.0).get());
                prop_assert!((by(&closed) - by(&open)).abs() <= NOTABLE.get(), "{closed:?}\n{open:?}");
                if let (Some(closed), Some(open)) = (closed, open) {
                    prop_assert_eq!((closed.of, closed.why, closed.ready.0), (open.of, open.why, open.ready.0));
                }
            }
            if day.go_on(slip).is_none() { break }
            day.timetable = day.again(day.now);
        }
    }
}

#[test]
fn what_is_kept_of_other_logs_is_no_plan_of_these() {
    let mut day = Day::planned(&PLAIN).expect("there is a plan");
    day.go_on((0.0, 9)).expect("something is to be done");
    day.timetable = day.again(day.now);
    let promise = kept(&day).shown;
    assert!(promise.recalled(&day.bakes).is_some());
    let changed = |change: &dyn Fn(&mut Promise)| {
        let mut other = promise.clone();
        change(&mut other);
        other.recalled(&day.bakes).is_none()
    };
    assert!(changed(
        &|promise| promise.bakes[0].bake = BakeId("gone".to_owned())
    ));
    assert!(changed(&|promise| promise.bakes[0].entries += 1));
    assert!(changed(&|promise| promise.bakes[0].entries = 0));
    assert!(changed(
        &|promise| promise.bakes[0].newest = day.now + minutes(1.0)
    ));
    assert!(changed(&|promise| promise.bakes.clear()));
}

/// Nothing that is kept makes a plan hang: what waits for itself, or for nothing that is there, was damaged.
#[test]
fn a_damaged_chain_is_no_plan() {
    let day = Day::planned(&PLAIN).expect("there is a plan");
    let promise = kept(&day).shown;
    let waiting = |chain: &[(usize, usize)]| {
        let mut other = promise.clone();
        for &(place, on) in chain {
            other.items[place].waits_for = Some(on);
        }
        other.recalled(&day.bakes)
    };
    assert!(waiting(&[]).is_some());
    assert!(waiting(&[(3, promise.items.len())]).is_none());
    assert!(waiting(&[(3, 3)]).is_none());
    assert!(waiting(&[(3, 5), (5, 4), (4, 3)]).is_none());
}

/// As the first version wrote it: it loads for ever.
const FIRST: &str = include_str!("../records/promises-v1.json");

#[test]
fn what_the_first_version_kept_is_read_and_written_again() {
    let read = PromisesRecord::read(FIRST).expect("it loads for ever");
    let promises = Promises::from(read.clone());
    assert_eq!(promises.shown.items.len(), 6);
    assert_eq!(promises.shown.items[5].slack.1.get(), 1.5);
    assert_eq!(PromisesRecord::from(&promises), read);
    let again = PromisesRecord::read(&read.write()).expect("it is what was written");
    assert_eq!(again, read);
    for torn in [
        "",
        "{torn",
        r#"{"version":1}"#,
        r#"{"version":9,"shown":null}"#,
    ] {
        assert!(PromisesRecord::read(torn).is_err(), "{torn}");
    }
}
