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

/// The title and the body of an alarm of a bake, by what that is called beside the others.
pub(crate) fn alarm(state: &State, whose: &str, alarm: &Alarm) -> (String, String) {
    let step = alarm.step.and_then(|step| state.formula.step(step));
    let title = step.map_or("", |step| step.title.as_str());
    match &alarm.kind {
        AlarmKind::Check if step.is_some_and(|step| super::ask::comes_out(state, step)) => (
            moves(title, false),
            "Take the dough out, and say so on the Bench.".to_owned(),
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
            moves(title, true),
            "Cover the dough and put it in, then say so on the Bench.".to_owned(),
        ),
        AlarmKind::Begin if state.has_begun() => (
            "Time to go on".to_owned(),
            format!("Go on with {whose} now, as planned."),
        ),
        AlarmKind::Begin => (
            "Time to begin".to_owned(),
            format!("Begin with {whose} now, as planned."),
        ),
        AlarmKind::Fixed if step.is_some_and(|step| state.is_open(step.id)) => {
            (format!("{title}: begin now"), fixed_to(state, alarm))
        }
        AlarmKind::Fixed => (
            format!("{title}: should begin now"),
            fixed_to(state, alarm) + " What comes before it hasn't ended yet.",
        ),
        AlarmKind::TakeOut => (
            format!("{title}: now"),
            "It is baked. What lies in a hot oven burns, and can catch fire: take it out."
                .to_owned(),
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

/// "Final proof: into the fridge", or out of it.
pub(crate) fn moves(title: &str, goes_in: bool) -> String {
    let way = if goes_in { "into" } else { "out of" };
    format!("{title}: {way} the fridge")
}

/// That a step was fixed by the baker, and to when: an alarm that was held comes later than that.
fn fixed_to(state: &State, alarm: &Alarm) -> String {
    let pin = alarm.step.and_then(|step| state.pins.get(&step));
    let at = time_of_day(*pin.unwrap_or(&alarm.due));
    format!("You fixed it to {at}.")
}

/// What is due besides, behind what an alarm says: " Also due: Cool: look now (Orange braid)."
pub(crate) fn also_due(title: &str, whose: &str) -> String {
    [" Also due: ", title, " (", whose, ")."].concat()
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

#[cfg(test)]
mod tests {
    use checks::{begin, say, starter};
    use domain::bake::{AlarmId, Intent};
    use domain::kitchen::Kitchen;

    use super::*;

    const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    /// What an alarm says of a step of the buns.
    fn said(state: &State, kind: AlarmKind, of: StepKind) -> (String, String) {
        let mut steps = state.formula.steps.iter();
        let step = steps.find(|step| step.kind == of).map(|step| step.id);
        let alarm = Alarm {
            id: AlarmId::Begin,
            due: START,
            kind,
            step,
        };
        let (title, body) = alarm_of(state, &alarm);
        (title, body.replace('\u{a0}', " "))
    }

    fn alarm_of(state: &State, one: &Alarm) -> (String, String) {
        super::alarm(state, "Buns 2", one)
    }

    #[test]
    fn an_alarm_says_what_it_is_about_and_what_to_do() {
        let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        let state = bake.state();
        assert_eq!(
            said(state, AlarmKind::OvenOn, StepKind::OvenOn),
            (
                "Oven on".to_owned(),
                "It takes about 20 min to heat, and the dough won't wait for it.".to_owned()
            )
        );
        assert_eq!(
            said(state, AlarmKind::Check, StepKind::OvenHeats),
            (
                "Oven heats: look now".to_owned(),
                "The oven should be hot.".to_owned()
            )
        );
        let begins = said(state, AlarmKind::Begin, StepKind::Gather).1;
        assert_eq!(begins, "Begin with Buns 2 now, as planned.");
        let gather = state.formula.steps[0].id;
        say(&mut bake, Intent::Done(gather), START);
        let goes_on = said(bake.state(), AlarmKind::Begin, StepKind::Gather).1;
        assert_eq!(goes_on, "Go on with Buns 2 now, as planned.");
    }
}
