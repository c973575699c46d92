//! A night in the fridge that is a step of its formula: how long it lasts is chosen, and what it makes of the dough is known
//! before it begins.

use domain::formula::StepKind;
use domain::schedule::outline;
use domain::schedule::plan::What;
use domain::units::{Moment, minutes};

use super::days::{Day, Drawn, PLAIN};

/// A tin loaf in a kitchen so warm.
fn loaf(air: f64) -> Day {
    let drawn = Drawn {
        bakes: vec![2],
        air,
        ..PLAIN
    };
    Day::planned(&drawn).expect("there is a plan")
}

fn is_retard(day: &Day, what: What) -> bool {
    let What::Step(bake, step) = what else {
        return false;
    };
    let step = day.bakes[bake].state().formula.step(step);
    step.is_some_and(|step| step.kind == StepKind::Retard)
}

/// The formula's night may be 8 to 14 h long, and its loaf was told for "between 12:17 and 18:16", though whoever takes the
/// dough out chooses when.
#[test]
fn how_long_a_night_in_the_fridge_lasts_is_no_doubt() {
    let day = loaf(22.0);
    let plan = &day.timetable.plan;
    let night = plan.items.iter().find(|item| is_retard(&day, item.what));
    let night = night.expect("it is planned");
    assert_eq!(night.slack, (minutes(0.0), minutes(0.0)));
    // What is left is that of the poolish, the rises and the hands: their windows are less than an hour each.
    let rest = outline(day.bakes[0].state(), day.now).table;
    for end in [plan.end, rest] {
        assert!(end.low() > end.likely() - minutes(90.0), "{end:?}");
        assert!(end.high() < end.likely() + minutes(120.0), "{end:?}");
    }
    // And the last rise still has its own.
    let state = day.bakes[0].state();
    let proof = plan.items.iter().find(|item| match item.what {
        What::Step(_, step) => {
            let step = state.formula.step(step);
            step.is_some_and(|step| step.kind == StepKind::FinalProof)
        }
        _ => false,
    });
    let proof = proof.expect("it rises once more");
    assert!(proof.slack.0 > minutes(15.0) && proof.slack.1 > minutes(15.0));
}

/// A dough that goes in warmer than its formula's has risen more by the morning. That was told only once it lay in the
/// fridge: in a kitchen of 18 °C the end came later by it, in one of 26 sooner.
#[test]
fn what_a_night_makes_of_the_last_rise_is_told_before_it_begins() {
    for air in [18.0, 22.0, 26.0] {
        let mut day = loaf(air);
        let end = |day: &Day| outline(day.bakes[0].state(), day.now).table.likely();
        let mut told: Vec<(&str, Moment)> = vec![("planned", end(&day))];
        let mut is_in = false;
        while let Some((what, _)) = day.next() {
            if is_retard(&day, what) && !is_in {
                is_in = true;
                told.push(("in the fridge", end(&day)));
            } else if is_in {
                told.push(("out of it", end(&day)));
                break;
            }
            day.go_on((0.0, 9)).expect("something is next");
            day.timetable = day.again(day.now);
            if !is_in {
                told.push(("before", end(&day)));
            }
        }
        assert!(is_in);
        let first = told[0].1;
        let off = told.iter().map(|&(when, end)| (when, (end - first).get()));
        let off: Vec<(&str, f64)> = off.collect();
        // Steps end at whole minutes, and a rise that begins at another one takes a minute or two more or less.
        assert!(off.iter().all(|(_, off)| off.abs() < 4.0), "{air}: {off:?}");
    }
}
