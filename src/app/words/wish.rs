//! Words of a rise that is wished ready at another time.

use domain::bake::HOT_KITCHEN;
use domain::estimate::Estimate;
use domain::units::{Celsius, Minutes, Moment};
use domain::yeast::proof::{COLDEST_RISE, Unmet, WARMEST_RISE};
use platform::store::Degrees;

use super::formula::time_on_day;
use super::quantity::{about_time, five_minutes, span, temperature};

/// The heading.
pub(crate) const WISH: &str = "Ready when it suits you";
/// What the choice of a rise is.
pub(crate) const WHICH_RISE: &str = "Which rise";
/// What the time of day is.
pub(crate) const READY_AT: &str = "Ready at";
/// How sure all of it is.
pub(crate) const DOSE_NOTE: &str = "This holds if you start now. How much the amount of yeast matters differs from yeast to yeast, so look at the dough.";
/// That nothing need be done for a time of day.
pub(crate) const NEAR_ENOUGH: &str = "It is ready near enough then already.";
/// That no amount of yeast that the scales show does it.
pub(crate) const NO_NEARER: &str = "Yeast won't do it: your scales can't weigh it finely enough.";
/// That another amount of yeast would leave what is filled after this rise out for too long.
pub(crate) const LATER_TOO_LONG: &str =
    "Yeast won't do it: with its filling in, the dough would then stand out too long.";
/// That a dough shouldn't rise as long as one of the ways has it. Common practice, no source.
pub(crate) const LONG_FOR_EGG_OR_MILK: &str = "A dough with egg or milk shouldn't stand out of the fridge this long; local food-safety rules come first.";

/// How a rise would go: "First rise: ready at about 12:40, between 12:15 and 13:10, with 5 g of yeast at 21 °C."
pub(crate) fn rise_now(
    title: &str,
    window: &Estimate<Moment>,
    start: Moment,
    yeast: &str,
    air: Celsius,
    degrees: Degrees,
) -> String {
    format!(
        "{title}: {}, with {yeast} of yeast in a kitchen at {}.",
        ready(window, start),
        temperature(air, degrees)
    )
}

fn ready(window: &Estimate<Moment>, start: Moment) -> String {
    format!(
        "ready at about {}, between {} and {}",
        time_on_day(window.likely(), start),
        about_time(window.low()),
        about_time(window.high())
    )
}

/// What the ways are for: "For 07:00 on Sunday:".
pub(crate) fn wish_for(moment: Moment, start: Moment) -> String {
    format!("For {}:", time_on_day(moment, start))
}

/// What another amount of yeast does.
pub(crate) fn by_yeast(yeast: &str, window: &Estimate<Moment>, start: Moment) -> String {
    format!("Use {yeast} of yeast: {}.", ready(window, start))
}

/// Why no amount of yeast does.
pub(crate) fn not_by_yeast(why: Unmet) -> &'static str {
    match why {
        Unmet::TooEarly => "Yeast won't do it: even two and a half times as much is too slow.",
        Unmet::TooLate => "Yeast won't do it: even with a quarter of it, it is ready sooner.",
    }
}

/// What another temperature does, or why none does.
pub(crate) fn by_warmth(around: Result<Celsius, Unmet>, degrees: Degrees) -> String {
    let (before, at, after) = match around {
        Ok(around) => ("Or keep the rising dough at", around, "."),
        Err(Unmet::TooEarly) => (
            "Warmth won't do it: even at",
            WARMEST_RISE,
            " it isn't ready by then.",
        ),
        Err(Unmet::TooLate) => (
            "Cold won't do it: even at",
            COLDEST_RISE,
            " it is ready sooner.",
        ),
    };
    format!("{before} {}{after}", temperature(at, degrees))
}

/// Why a filled dough isn't kept so warm.
pub(crate) fn too_warm(degrees: Degrees) -> String {
    format!(
        "Warmth won't do it: with its filling in, it shouldn't stand warmer than {}.",
        temperature(HOT_KITCHEN, degrees)
    )
}

/// Why a filled dough isn't left to rise so long, and what helps, where it does.
pub(crate) fn too_long(fridge_helps: bool) -> String {
    let helps = if fridge_helps {
        ": put it in the fridge"
    } else {
        ""
    };
    format!("With its filling in, it shouldn't stand out that long{helps}.")
}

/// What a time in the fridge before the rise does.
pub(crate) fn by_fridge(length: Minutes, out: Moment, start: Moment) -> String {
    format!(
        "Or keep it in the fridge for the first {}, until about {}.",
        span(five_minutes(length)),
        time_on_day(out, start)
    )
}

/// Takes that amount.
pub(crate) const USE_YEAST: &str = "Use";
/// Takes the formula's own amount again.
pub(crate) const BACK_TO_YEAST: &str = "Back to";

/// A change of the yeast: "Use 3 g of yeast".
pub(crate) fn take_yeast(how: &str, yeast: &str) -> String {
    format!("{how} {yeast} of yeast")
}

/// "07:00", as fields for a time of day want it, whatever the phone's habit.
pub(crate) fn clock_field(minute_of_day: u32) -> String {
    format!("{:02}:{:02}", minute_of_day / 60, minute_of_day % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_takes_a_time_of_day_in_four_digits() {
        assert_eq!(clock_field(0), "00:00");
        assert_eq!(clock_field(425), "07:05");
        assert_eq!(clock_field(1439), "23:59");
    }

    #[test]
    fn what_cannot_be_done_says_how_far_it_goes() {
        let said = by_warmth(Err(Unmet::TooEarly), Degrees::Celsius);
        assert_eq!(
            said.replace('\u{a0}', " "),
            "Warmth won't do it: even at 35 °C it isn't ready by then."
        );
        let said = by_warmth(Err(Unmet::TooLate), Degrees::Fahrenheit);
        assert!(said.contains("39\u{a0}°F"), "{said}");
    }

    #[test]
    fn a_filling_leads_to_the_fridge_only_where_that_helps() {
        assert_eq!(
            too_long(true),
            "With its filling in, it shouldn't stand out that long: put it in the fridge."
        );
        assert_eq!(
            too_long(false),
            "With its filling in, it shouldn't stand out that long."
        );
        let said = too_warm(Degrees::Fahrenheit);
        assert!(said.ends_with("warmer than 90\u{a0}°F."), "{said}");
    }
}
