//! Words of the Bench, of the alarm and of the ways between pages.

use domain::bake::State;
use domain::decimal::fixed;
use domain::kitchen::Kitchen;
use domain::thermal::cooling::Remedy;
use domain::units::{Celsius, Millimetres, Minutes, Moment};
use platform::clock::time_of_day;
use platform::store::Degrees;

use crate::route::Route;

/// What the bar between pages is.
pub(crate) const WAYS: &str = "Pages";
/// Leads away from the Bench.
pub(crate) const LEAVE_BENCH: &str = "Today";
/// Opens the timers.
pub(crate) const TIMERS: &str = "Timer";
/// Opens everything else.
pub(crate) const MORE: &str = "More";
/// Takes the last thing back.
pub(crate) const UNDO: &str = "Undo";

/// The same of what was done some time ago: "Undo, 10:26".
pub(crate) fn undo_at(at: Moment, now: Moment) -> String {
    format!("{UNDO}, {}", super::when(at, now))
}

/// Leaves the step out.
pub(crate) const SKIP: &str = "Leave out";
/// Leaves a fold or a wait out.
pub(crate) const LEAVE_OUT: &str = "Leave it out";
/// Puts the look off.
pub(crate) const NOT_YET: &str = "Not yet, 10\u{a0}min";
/// The same in the oven.
pub(crate) const NOT_YET_IN_OVEN: &str = "Not yet, 3\u{a0}min";
/// Puts off what isn't due yet.
pub(crate) const LONGER: &str = "10\u{a0}min longer";
/// The same in the oven.
pub(crate) const LONGER_IN_OVEN: &str = "3\u{a0}min longer";
/// Ends what isn't due yet.
pub(crate) const READY_NOW: &str = "It's ready now";
/// Says that a fold is made.
pub(crate) const FOLDED_NOW: &str = "Folded now";
/// Leaves one fold out, and the rise goes on.
pub(crate) const LEAVE_FOLD_OUT: &str = "Leave this fold out";
/// Opens what can be said of a whole rise, where a fold comes first.
pub(crate) const WHOLE_RISE: &str = "The whole rise";
/// Says that the oven is on, before it is called for.
pub(crate) const OVEN_IS_ON: &str = "The oven is on";
/// What the strip of running things is.
pub(crate) const RUNNING: &str = "Going on meanwhile";
/// Which bake.
pub(crate) const WHOSE: &str = "Bakes";
/// Opens how a step is done.
pub(crate) const HOW: &str = "How";
/// Opens the principle behind a step.
pub(crate) const WHY: &str = "Why";
/// What the baker wrote after earlier bakes.
pub(crate) const LAST_TIMES: &str = "Your notes from earlier bakes";
/// The heading of the list of open work.
pub(crate) const OTHER_WORK: &str = "Other work for now";
/// The heading of the outline.
pub(crate) const COMING_UP: &str = "Coming up";
/// The heading of steps that have ended.
pub(crate) const ENDED: &str = "Go back to";
/// Stops for a while.
pub(crate) const PAUSE: &str = "Pause";
/// Goes on after a pause.
pub(crate) const RESUME: &str = "I'm back";
/// What a pause means.
pub(crate) const PAUSED: &str = "Paused. The dough isn't: it goes on rising. Only the oven, your own timers, and food that must get cold in time will ring.";
/// Ends the bake early.
pub(crate) const FINISH: &str = "Finish and write a note";
/// Gives the bake up.
pub(crate) const ABANDON: &str = "Give up this bake";
/// Asks whether that is meant.
pub(crate) const ABANDON_SURE: &str =
    "Give up this bake? It stays in the notebook as far as it got, and its alarms stop.";
/// Asks whether that is meant.
pub(crate) const FINISH_SURE: &str =
    "Finish now? Steps that are still open stay open in the notebook, and the alarms stop.";
/// Closes a sheet.
pub(crate) const CLOSE: &str = "Close";
/// When nothing is baking.
pub(crate) const NO_BAKE: &str = "Nothing is baking.";
/// Leads to the formulas.
pub(crate) const CHOOSE_FORMULA: &str = "Choose a formula";
/// The dough's temperature.
pub(crate) const DOUGH_TEMPERATURE: &str = "Dough temperature";
/// The temperature in the middle.
pub(crate) const CORE_TEMPERATURE: &str = "Temperature in the middle";
/// Asks for the kitchen's temperature.
pub(crate) const KITCHEN_ASKED: &str = "How warm is it here?";
/// The kitchen's temperature.
pub(crate) const KITCHEN_TEMPERATURE: &str = "Kitchen temperature";
/// Names a timer.
pub(crate) const TIMER_NAME: &str = "Timer for";
/// How long a timer runs.
pub(crate) const TIMER_LENGTH: &str = "Minutes";
/// Sets a timer.
pub(crate) const TIMER_SET: &str = "Set the timer";
/// Puts a timer away.
pub(crate) const TIMER_STOP: &str = "Stop";
/// The heading of the timers' sheet.
pub(crate) const TIMERS_TITLE: &str = "Your timers";
/// Stops the alarm.
pub(crate) const ALARM_STOP: &str = "Stop the alarm";
/// The row of allergens.
pub(crate) const ALLERGENS: &str = "Allergens";
/// What the list of marks is.
pub(crate) const MARKS: &str = "Checklist";
/// What one number weighs.
pub(crate) const PIECE_MASS: &str = "Mass in g";
/// What stands in the field of a piece that hasn't been weighed.
pub(crate) const GRAMS: &str = "g";

/// The title of the browser's window.
pub(crate) fn page_title(route: &Route) -> String {
    format!("{} · {}", way(route), super::NAME)
}

/// The name of a page.
pub(crate) fn way(route: &Route) -> &'static str {
    match route {
        Route::Today => "Today",
        Route::Formulas | Route::Formula(_) => "Formulas",
        Route::Desk | Route::Manuscript(_) => "A formula of your own",
        Route::Bench(_) => "Bench",
        Route::Plan => "Plan",
        Route::Notebook | Route::Note(_) => "Notebook",
        Route::Gather => "Gathering list",
        Route::Kitchen => "Kitchen",
    }
}

/// "Kitchen 21.5 °C".
pub(crate) fn kitchen_button(temperature: &str) -> String {
    format!("Kitchen {temperature}")
}

/// "Kitchen is 17.5 °C".
pub(crate) fn kitchen_set(temperature: &str) -> String {
    format!("Kitchen is {temperature}")
}

/// "Next, about 14:05: Divide".
pub(crate) fn next_up(title: &str, at: Moment, now: Moment) -> String {
    format!("Next, about {}: {title}", super::when(at, now))
}

/// A step to come: "Egg wash", and where it has to wait too long, by how much; or by when it comes out of the fridge.
pub(crate) fn coming(title: &str, too_late_by: Option<Minutes>, out: Option<Moment>) -> String {
    if let Some(out) = out {
        return format!("{title}: out of the fridge by {}", super::on_day(out));
    }
    match too_late_by.filter(|late| late.get() >= 1.0) {
        Some(late) => format!("{title}: {} later than is good", super::span(late)),
        None => title.to_owned(),
    }
}

/// Of a bake that waits for its beginning: "Planned to begin at 09:40. You can begin now."
pub(crate) fn planned_to_begin(at: Moment, has_begun: bool, now: Moment) -> String {
    let begin = if has_begun { "go on" } else { "begin" };
    format!(
        "Planned to {begin} at {}. You can {begin} now.",
        super::when(at, now)
    )
}

/// At serving, where the table comes later.
pub(crate) fn served_at(table: Moment, now: Moment) -> String {
    format!(
        "For the table at {}: there is no hurry.",
        super::when(table, now)
    )
}

/// What would cool a filling in time; nothing when it needs no help.
pub(crate) fn remedies(remedies: &[Remedy]) -> String {
    if remedies.is_empty() {
        return String::new();
    }
    let thin = |depth: &Millimetres| format!("no deeper than {}\u{a0}mm", fixed(depth.get(), 0));
    let ways: Vec<String> = remedies
        .iter()
        .map(|remedy| match remedy {
            Remedy::BackIntoDish => "pour it back into its dish".to_owned(),
            Remedy::Spread(depth) => format!("spread it {}", thin(depth)),
            Remedy::FlatBag(thickness) => format!(
                "lay it flat in a bag, no thicker than {}\u{a0}mm",
                fixed(thickness.get(), 0)
            ),
            Remedy::IceBath => "stand it in ice water".to_owned(),
            Remedy::StirInIceBath => "stand it in ice water and stir all the time".to_owned(),
            Remedy::SpreadInIceBath(depth) => {
                format!("spread it {} and stand it in ice water", thin(depth))
            }
        })
        .collect();
    format!(
        "Like this it may stay warm too long (21\u{a0}°C, 70\u{a0}°F, within 2\u{a0}h and 5\u{a0}°C, 41\u{a0}°F, within 6). \
         What will do: {}.",
        ways.join("; or ")
    )
}

/// Whose piece it is: "Bun 3".
pub(crate) fn piece(state: &State, piece: u16) -> String {
    let noun = super::capital(&state.formula.pieces.noun);
    format!("{noun} {}", piece + 1)
}

/// "Ready when it springs back slowly."
pub(crate) fn ready_when(cue: &str) -> String {
    let cue = super::letters::lower_first(&super::tight(cue.trim_end_matches('.')));
    format!("Ready when {cue}.")
}

/// "8 buns of 85 g each", "1 loaf of 900 g".
pub(crate) fn piece_target(state: &State) -> String {
    let each = if state.formula.pieces.count == 1 {
        ""
    } else {
        " each"
    };
    format!("{}{each}", super::pieces_alone(&state.formula))
}

/// "It is 24.5 °C", once a thermometer was read.
pub(crate) fn reading(found: Option<Celsius>, degrees: Degrees) -> String {
    found.map_or_else(
        || "Enter the temperature".to_owned(),
        |found| format!("It is {}", super::temperature(found, degrees)),
    )
}

/// What becomes of an oven once a bread is out of it: another that needs it is named.
pub(crate) fn oven_after(whose: Option<&str>, is_out: bool, is_over: bool) -> String {
    match whose {
        Some(whose) => format!("Leave the oven on for {whose}."),
        None if is_over => "Is the oven off?".to_owned(),
        None if is_out => "First turn the oven off.".to_owned(),
        None => "Then turn the oven off.".to_owned(),
    }
}

/// "Overdue by 12 min: due at 14:05."
pub(crate) fn overdue(due: Moment, now: Moment) -> String {
    let late = now - due;
    if late.get() < 1.0 {
        format!("Due at {}.", time_of_day(due))
    } else {
        format!(
            "Overdue by {}: due at {}.",
            super::span(late),
            time_of_day(due)
        )
    }
}

/// "Set the oven to 180 °C, fan on.", "Set the oven to 200 °C: it runs 10° cool."
pub(crate) fn set_oven(conventional: Celsius, kitchen: &Kitchen, degrees: Degrees) -> String {
    let setting = super::oven_setting(conventional, kitchen, degrees);
    let runs = kitchen
        .oven_off
        .and_then(|off| super::oven_runs(off, degrees));
    let because = runs.map_or_else(String::new, |runs| format!(": it {runs}"));
    format!("Set the oven to {setting}{because}.")
}

/// What a rise comes to sooner than its time, high up.
pub(crate) const DOUBLE_IS_ENOUGH: &str =
    "At this height dough rises faster, and its times allow for that. Stop at double its size.";

/// "Wanted in the middle: 92 °C".
pub(crate) fn core_wanted(temperature: &str) -> String {
    format!("Wanted in the middle: {temperature}")
}

/// An ingredient as it is read aloud: with its amount and, where several lists stand together, its component.
pub(crate) fn ingredient(name: &str, amount: &str, component: Option<&str>) -> String {
    let read = match component {
        Some(component) => format!("{name} {amount}, {component}"),
        None => format!("{name} {amount}"),
    };
    // Nothing breaks a line that is only heard.
    read.replace('\u{a0}', " ")
}

/// What is said of a mass that can't be read.
pub(crate) const MASS_PROBLEM: &str = "That is no mass. Type grams, such as 85.";
