//! A cooling is drawn as it is forecast, whatever was measured and wherever it was put.

mod stages;

use checks::{assert_close, begin, say, starter};
use domain::bake::{Bake, Cooled, Intent, Warmth};
use domain::formula::{Formula, Held, StepId, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::thermal::cooling::FIRST_STAGE;
use domain::units::{Celsius, Moment, celsius, minutes};

use super::START;

/// How far a line of straight pieces may be from a curve, in K.
const STRAIGHT: f64 = 0.4;

/// The buns, up to a step that cools, which has just begun.
fn cools(kind: StepKind) -> (Bake, StepId, Moment) {
    cools_in(starter("plum-almond-buns"), Kitchen::UNMEASURED, kind)
}

fn cools_in(formula: Formula, kitchen: Kitchen, kind: StepKind) -> (Bake, StepId, Moment) {
    let mut bake = begin(formula, kitchen, START);
    let steps = bake.state().formula.steps.clone();
    let wanted = steps.iter().find(|step| step.kind == kind);
    let wanted = wanted.expect("something of that kind").id;
    let mut now = START;
    while !bake.state().is_open(wanted) {
        let mut open = steps.iter().filter(|step| bake.state().is_open(step.id));
        let next = open.next().expect("there is more to do").id;
        now = now + minutes(3.0);
        say(&mut bake, Intent::Done(next), now);
    }
    (bake, wanted, now)
}

fn drawn(bake: &Bake, step: StepId, now: Moment) -> Cooled {
    bake.state().cooled(step, now).expect("it cools")
}

/// How warm something is at a moment, on the straight line between its neighbours; of what was
/// believed and what was found, the latter.
fn at(cooled: &Cooled, moment: Moment, of: fn(&Warmth) -> Celsius) -> f64 {
    let next = cooled.points.partition_point(|point| point.at <= moment);
    let before = &cooled.points[next - 1];
    let after = cooled.points.get(next).unwrap_or(before);
    let whole = (after.at - before.at).get();
    let share = if whole > 0.0 {
        (moment - before.at).get() / whole
    } else {
        0.0
    };
    of(before).get() + share * (of(after).get() - of(before).get())
}

/// The band meets the wanted temperature where the window begins, is likely and ends.
fn band_meets_window(case: &str, cooled: &Cooled) {
    let window = cooled.window.expect("it comes to its end");
    let to = cooled.to.get();
    for (end, moment, of) in [
        (
            "early",
            window.low(),
            (|one: &Warmth| one.core.low()) as fn(&Warmth) -> Celsius,
        ),
        ("likely", window.likely(), |one| one.core.likely()),
        ("late", window.high(), |one| one.core.high()),
    ] {
        assert_close(
            &format!("{case}, {end}"),
            at(cooled, moment, of),
            to,
            STRAIGHT,
        );
    }
    assert!(cooled.points.is_sorted_by_key(|point| point.at), "{case}");
    assert_eq!(
        cooled.points.last().map(|point| point.at),
        Some(window.high()),
        "{case}"
    );
}

#[test]
fn the_band_ends_where_the_window_does() {
    let (bake, cream, start) = cools(StepKind::Chill);
    let now = start + minutes(10.0);
    let cooled = drawn(&bake, cream, now);
    band_meets_window("unmeasured", &cooled);
    assert_eq!(
        cooled.window,
        bake.state().forecast(cream, now).map(|it| it.window)
    );
    assert_eq!(cooled.points[0].at, start);
    let first = cooled.points[0].core.likely();
    assert_close("at the start", first.get(), 80.0, 1e-6);
    assert!(cooled.points.iter().any(|point| point.at == now));
    // Its edge is colder than its middle, until it is as cold as what is around it.
    let inside = &cooled.points[3..];
    assert!(inside.iter().all(|point| point.mean < point.core.likely()));
}

#[test]
fn a_reading_is_gone_through_and_the_window_still_met() {
    for (core, then) in [(50.0, None), (25.0, None), (40.0, Some(Place::Fridge))] {
        let (mut bake, cream, start) = cools(StepKind::Chill);
        let read = start + minutes(12.0);
        say(&mut bake, Intent::CoreIs(cream, celsius(core)), read);
        let mut now = read + minutes(5.0);
        if let Some(place) = then {
            say(&mut bake, Intent::Move(cream, place), now);
            now = now + minutes(1.0);
        }
        let cooled = drawn(&bake, cream, now);
        let case = format!("{core} °C, then {then:?}");
        band_meets_window(&case, &cooled);
        assert_eq!(cooled.readings, [(read, celsius(core))]);
        let there: Vec<f64> = cooled
            .points
            .iter()
            .filter(|point| point.at == read)
            .map(|point| point.core.likely().get())
            .collect();
        let [believed, .., found] = &there[..] else {
            panic!("{case}: what was believed, and what was found: {there:?}");
        };
        assert!((believed - core).abs() > 1.0, "{case}: {there:?}");
        assert_close(&case, *found, core, 1e-6);
    }
}

/// The buns' cream has lain in ice water for a while, is poured into a jar, and later into a bag.
#[test]
fn what_was_poured_is_drawn_in_what_it_was_in_before() {
    let (mut bake, cream, start) = cools(StepKind::Chill);
    let in_dish = drawn(&bake, cream, start);
    let read = start + minutes(4.0);
    say(&mut bake, Intent::CoreIs(cream, celsius(70.0)), read);
    let found = drawn(&bake, cream, read);
    let poured = start + minutes(18.0);
    say(&mut bake, Intent::Pour(cream, Held::Jar), poured);
    let now = poured + minutes(5.0);
    let cooled = drawn(&bake, cream, now);
    band_meets_window("in a jar", &cooled);
    let core = |cooled: &Cooled, after: f64| {
        let moment = start + minutes(after);
        at(cooled, moment, |one| one.core.likely())
    };
    assert_close(
        "at its start",
        cooled.points[0].core.likely().get(),
        80.0,
        1e-6,
    );
    assert_close(
        "before it was read",
        core(&cooled, 3.0),
        core(&in_dish, 3.0),
        2.0,
    );
    for after in [6.0, 10.0, 17.0] {
        // Of the pace that the reading tells of nothing is kept once it is in something else.
        assert_close(
            "in its dish",
            core(&cooled, after),
            core(&found, after),
            5.0,
        );
    }
    assert_eq!(cooled.readings, [(read, celsius(70.0))]);
    // Poured it is as warm throughout as it was on average.
    let there: Vec<&Warmth> = cooled
        .points
        .iter()
        .filter(|one| one.at == poured)
        .collect();
    let [before, .., after] = there[..] else {
        panic!("before and after it was poured: {there:?}");
    };
    assert!(before.core.likely() > after.core.likely());
    assert_close(
        "its mean stays",
        before.mean.get(),
        after.core.likely().get(),
        1e-6,
    );
    // It was at 57 °C in the dish, and the rule counts from then.
    let hot = cooled.stages[0].by - FIRST_STAGE;
    assert!(hot > read && hot <= poured, "{hot:?}");
    if hot < poured {
        assert_close(
            "at 57 °C",
            at(&cooled, hot, |one| one.core.likely()),
            57.0,
            1.0,
        );
    }

    // Poured anew, both vessels are drawn.
    let again = now + minutes(5.0);
    say(&mut bake, Intent::Pour(cream, Held::Bag), again);
    let twice = drawn(&bake, cream, again);
    band_meets_window("in a bag", &twice);
    assert_eq!(twice.stages[0].by, cooled.stages[0].by);
    assert_close(
        "in the jar",
        core(&twice, 20.0),
        core(&cooled, 20.0),
        STRAIGHT,
    );
    assert!(twice.points.iter().all(|one| one.at >= start));
}

#[test]
fn a_bun_cools_without_a_rule_and_what_rises_does_not_cool() {
    let (bake, bun, start) = cools(StepKind::Cool);
    let cooled = drawn(&bake, bun, start + minutes(5.0));
    band_meets_window("a bun", &cooled);
    assert!(cooled.stages.is_empty());
    let steps = bake.state().formula.steps.iter();
    for step in steps.filter(|step| step.id != bun) {
        assert_eq!(bake.state().cooled(step.id, start), None, "{}", step.title);
    }
}
