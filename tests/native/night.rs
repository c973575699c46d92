//! Hands in the night, and the start that spares it: the app tells before a bake is started.
//!
//! That the night is from 23:00 to 6:00 is common practice, no source.

use checks::starter;
use domain::bake::{Bake, BakeId, Entry, Event, Start};
use domain::formula::{Formula, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::{NightWork, Outline, Spared, night_work, outline};
use domain::units::{Moment, minutes};
use records::starters;

const HOUR_MS: i64 = 3_600_000;
/// A midnight by the clock on this wall, which shows universal time.
const MIDNIGHT: Moment = Moment::from_epoch_ms(19_700 * 24 * HOUR_MS);

fn hour_of(moment: Moment) -> u32 {
    let hour = moment.epoch_ms().rem_euclid(24 * HOUR_MS) / HOUR_MS;
    u32::try_from(hour).expect("a day has 24")
}

fn at_hour(hour: f64) -> Moment {
    MIDNIGHT + minutes(60.0 * hour)
}

fn plan(formula: &Formula, start: Moment) -> Outline {
    let event = Event::Started(Box::new(Start {
        formula: formula.clone(),
        kitchen: Kitchen::UNMEASURED,
    }));
    let log = vec![Entry { at: start, event }];
    let bake = Bake::from_log(BakeId("night".to_owned()), log).expect("it has its start");
    outline(bake.state(), start)
}

fn asked(formula: &Formula, start: Moment) -> Option<NightWork> {
    night_work(formula, &plan(formula, start), start, &hour_of)
}

/// Whether any minute of a bake's work lies in the night.
fn works_at_night(formula: &Formula, start: Moment) -> bool {
    let plan = plan(formula, start);
    plan.steps.iter().any(|planned| {
        let step = formula.step(planned.step).expect("it is of this formula");
        let whole_minutes = 0..=((planned.end - planned.start).get() as u32);
        let mut moments = whole_minutes.map(|past| planned.start + minutes(f64::from(past)));
        step.is_hands() && moments.any(|moment| !(6..23).contains(&hour_of(moment)))
    })
}

#[test]
fn the_loaf_that_is_started_in_the_morning_asks_for_the_night() {
    let loaf = starter("overnight-tin-loaf");
    let work = asked(&loaf, at_hour(9.0)).expect("it comes out of the fridge at night");
    assert!(
        work.from >= at_hour(23.0) && work.from < at_hour(24.0),
        "{work:?}"
    );
    assert!(
        work.to > at_hour(26.0) && work.to < at_hour(30.0),
        "{work:?}"
    );
    let better = work.better.expect("the evening is better");
    // Poolish, dough and rise are some five hours of work and waiting before the fridge, which
    // has to be shut by 23:00; the night in it is nine and a half hours.
    assert!(
        better.start > at_hour(15.0) && better.start < at_hour(19.0),
        "{better:?}"
    );
    assert!(!works_at_night(&loaf, better.start));
    let then = plan(&loaf, better.start);
    let mut bakes = then.steps.iter().filter(|planned| {
        let step = loaf.step(planned.step).expect("it is of this formula");
        step.kind == StepKind::Bake
    });
    let baked = bakes.next().expect("it is baked").end;
    assert!((baked - better.baked).get().abs() < 1.0, "{better:?}");
}

#[test]
fn a_bake_of_the_day_says_nothing_and_one_of_the_evening_points_to_the_morning() {
    for id in ["plum-almond-buns", "orange-braid"] {
        let formula = starter(id);
        assert_eq!(asked(&formula, at_hour(9.0)), None);
        let work = asked(&formula, at_hour(20.0)).expect("it goes on past midnight");
        let better = work.better.expect("there is another day");
        assert_eq!(better.start, at_hour(31.0));
        assert!(better.baked - better.start < minutes(7.0 * 60.0));
    }
}

#[test]
fn every_start_is_told_of_its_night_and_every_better_start_spares_it() {
    for formula in starters::all() {
        for half_hours in 0..48 {
            let start = at_hour(f64::from(half_hours) / 2.0);
            let work = asked(&formula, start);
            assert_eq!(work.is_some(), works_at_night(&formula, start), "{start:?}");
            let Some(NightWork { from, to, better }) = work else {
                continue;
            };
            assert!(from < to && to - from < minutes(8.0 * 60.0));
            let Spared { start: then, baked } = better.expect("a day has such a start");
            assert!(then > start && then - start <= minutes(24.0 * 60.0));
            assert!(baked > then);
            assert!(
                !works_at_night(&formula, then),
                "{}: {then:?}",
                formula.name
            );
        }
    }
}

#[test]
fn where_it_is_always_night_no_start_is_better() {
    let buns = starter("plum-almond-buns");
    let start = at_hour(9.0);
    let work = night_work(&buns, &plan(&buns, start), start, &|_| 2).expect("it is night");
    assert_eq!((work.from, work.better), (start, None));
}
