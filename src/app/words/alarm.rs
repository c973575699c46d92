//! What an alarm says: a title to read from afar, and what to do.

use domain::bake::{Alarm, AlarmKind, State, WARM_FRIDGE};
use domain::formula::{Step, StepKind};
use domain::units::{Celsius, Moment};
use platform::clock::time_of_day;

/// The title of a test.
pub(crate) const ALARM_TEST: &str = "Only a test";
/// What a test says.
pub(crate) const ALARM_TEST_NOTE: &str =
    "Alarms ring like this, louder for half a minute, until you stop them.";

/// The title and the body of an alarm.
pub(crate) fn alarm(state: &State, alarm: &Alarm) -> (String, String) {
    let step = alarm.step.and_then(|step| state.formula.step(step));
    let title = step.map_or("", |step| step.title.as_str());
    match &alarm.kind {
        AlarmKind::Check if step.is_some_and(|step| super::ask::comes_out(state, step)) => (
            format!("{title}: out of the fridge"),
            "Take the dough out, and say so on its card.".to_owned(),
        ),
        AlarmKind::Check => (format!("{title}: look now"), look_for(step)),
        AlarmKind::Fold => (
            "Fold the dough".to_owned(),
            "Wet one hand, stretch each side up and over, and turn the bowl.".to_owned(),
        ),
        AlarmKind::OvenOn => (
            "Oven on".to_owned(),
            format!(
                "It takes about {} to heat, and the dough won't wait for it.",
                super::span(state.kitchen.oven_heats_in)
            ),
        ),
        AlarmKind::CoolingStage => (
            format!("{title}: under 21\u{a0}°C (70\u{a0}°F)?"),
            "Two hours have passed. If it is warmer, stir it over fresh ice water now; \
             if you can't say how warm it was for how long, throw it away."
                .to_owned(),
        ),
        AlarmKind::CoolingEnd(within) => (
            format!("{title}: under 5\u{a0}°C (41\u{a0}°F)?"),
            format!(
                "{} have passed. If it is warmer, or you can't say that it was cold in time, throw it away.",
                super::span(*within)
            ),
        ),
        AlarmKind::Perishable if step.is_some_and(|step| step.kind != StepKind::Serve) => (
            "The filling has been out long".to_owned(),
            format!(
                "Bake it or chill it now: it should not stand out longer than {} in all. {}\
                 Follow your local food-safety advice.",
                super::span(state.perishable_limit()),
                warm_fridge(state.kitchen.fridge)
            ),
        ),
        AlarmKind::Perishable => (
            "Into the fridge".to_owned(),
            format!(
                "Filled bread should not stand out longer than {}. {}Follow your local food-safety advice.",
                super::span(state.perishable_limit()),
                warm_fridge(state.kitchen.fridge)
            ),
        ),
        AlarmKind::Retard => (
            format!("{title}: into the fridge"),
            "Cover the dough and put it in, then say so on the Bench.".to_owned(),
        ),
        AlarmKind::Begin if state.has_begun() => (
            "Time to go on".to_owned(),
            format!("Go on with {} now, as planned.", state.formula.name),
        ),
        AlarmKind::Begin => (
            "Time to begin".to_owned(),
            format!("Begin with {} now, as planned.", state.formula.name),
        ),
        AlarmKind::Fixed if step.is_some_and(|step| state.is_open(step.id)) => (
            format!("{title}: begin now"),
            "You fixed it to this time.".to_owned(),
        ),
        AlarmKind::Fixed => (
            format!("{title}: should begin now"),
            "You fixed it to this time, but what comes before it hasn't ended yet.".to_owned(),
        ),
        AlarmKind::Waits(by) => (
            format!("{title}: begin now"),
            format!(
                "It waits for your hands. Best begun by {}: waiting longer isn't good for it.",
                time_of_day(*by)
            ),
        ),
        AlarmKind::Timer(name) if name.trim().is_empty() => (
            "Your timer".to_owned(),
            "The time you set is up.".to_owned(),
        ),
        AlarmKind::Timer(name) => (name.clone(), "The time you set is up.".to_owned()),
    }
}

/// That a fridge is too warm for food that spoils; nothing of one that is cold.
pub(super) fn warm_fridge(fridge: Celsius) -> &'static str {
    if fridge > WARM_FRIDGE {
        "A fridge above 8\u{a0}°C (46\u{a0}°F) counts as out. "
    } else {
        ""
    }
}

/// What a notification says under the title; one that comes again says how late it is.
pub(crate) fn alarm_note(body: &str, due: Moment, now: Moment) -> String {
    if (now - due).get() < 1.0 {
        body.to_owned()
    } else {
        format!("{body} {}", super::overdue(due, now))
    }
}

fn look_for(step: Option<&Step>) -> String {
    match step {
        Some(step) if !step.cue.is_empty() => super::ready_when(&step.cue),
        Some(step) if step.kind == StepKind::OvenHeats => "The oven should be hot.".to_owned(),
        _ => "Have a look at it.".to_owned(),
    }
}
