//! Where a dough stands, how far it has risen, and what becomes of it in the fridge.

use domain::bake::{Forecast, Retarding};
use domain::decimal::fixed;
use domain::formula::Held;
use domain::kitchen::Place;
use domain::thermal::vessel::FLAT_BAG;
use domain::units::{Celsius, Minutes, Moment, Share, minutes};
use platform::clock::time_of_day;
use platform::store::Degrees;

use super::letters::lower_first;
use super::quantity::{span, temperature, window};
use crate::state::Shift;

/// What a dough can stand in.
pub(crate) const AIR_THERE: &str = "air";
/// The same, in its bowl.
pub(crate) const WATER_THERE: &str = "water";
/// The temperature of the place it is put in.
pub(crate) const TEMPERATURE_THERE: &str = "Temperature there";
/// What a place's temperature is for, and how it is had.
pub(crate) const WARM_NOTE: &str = "Use a proofer, or the oven switched off with its lamp on. Enter what a thermometer beside the dough shows. Never heat the oven with dough in it.";
/// Out in the kitchen.
pub(crate) const IN_KITCHEN: &str = "In the kitchen";
/// In the fridge.
pub(crate) const IN_FRIDGE: &str = "In the fridge";
/// In water with ice.
pub(crate) const IN_ICE_WATER: &str = "In ice water";
/// In its own bowl, or a filling's dish.
pub(crate) const IN_BOWL: &str = "In a bowl or dish";
/// In a jar.
pub(crate) const IN_JAR: &str = "In a jar";
/// In a bag, as flat as the model takes it to lie.
pub(crate) fn in_bag() -> String {
    format!(
        "In a bag, laid flat {}\u{a0}mm thick",
        fixed(FLAT_BAG.get(), 0)
    )
}
/// Opens how far it has risen.
pub(crate) const HOW_FAR: &str = "How far it has risen";
/// What that is a share of.
pub(crate) const HOW_FAR_NOTE: &str = "How much of the rise the formula asks for. What you see corrects this forecast, and the next rise's.";
/// How far, by quarters.
pub(crate) const RISEN: [&str; 4] = ["A quarter", "Half", "Three quarters", "All the way"];
/// How long ago that was.
pub(crate) const SEEN_AGO: &str = "How long ago";

/// "It stands in the kitchen", which opens where else.
pub(crate) fn stands(place: Option<Place>, held: Option<Held>, degrees: Degrees) -> String {
    // A place is said of all but a time in the fridge, which is one itself.
    let place = whereabouts(place.unwrap_or(Place::Fridge), degrees);
    let held = held.filter(|&held| held == Held::Jar || held == Held::Bag);
    let held = held.map_or(String::new(), |held| {
        format!(", {}", lower_first(&vessel(held)))
    });
    format!("It stands {place}{held}")
}

pub(super) fn vessel(held: Held) -> String {
    match held {
        Held::Jar => IN_JAR.to_owned(),
        Held::Bag => in_bag(),
        _ => IN_BOWL.to_owned(),
    }
}

pub(super) fn whereabouts(place: Place, degrees: Degrees) -> String {
    match place {
        Place::Kitchen => "in the kitchen".to_owned(),
        Place::Fridge => "in the fridge".to_owned(),
        Place::ICE_WATER => "in ice water".to_owned(),
        Place::Warm(at) => format!("in air at {}", temperature(at, degrees)),
        Place::Water(at) => format!("in water at {}", temperature(at, degrees)),
    }
}

/// "In air at 28 °C", or before anything was entered "In warm air".
pub(crate) fn put_in(what: &str, at: Option<Celsius>, degrees: Degrees) -> String {
    at.map_or_else(
        || format!("In warm {what}"),
        |at| format!("In {what} at {}", temperature(at, degrees)),
    )
}

/// "Now in air at 28 °C. First rise: 25 min earlier, about 11:42, because …"
pub(crate) fn moved(place: Place, shift: &Shift, degrees: Degrees) -> String {
    let now = format!("Now {}. ", whereabouts(place, degrees));
    now + &super::effect::moved(shift, degrees)
}

/// "You saw three quarters; 72 % was expected by then. First rise: ready 11:28 to 11:54, likely 11:40."
pub(crate) fn risen(share: Share, expected: Share, shift: &Shift) -> String {
    let seen = lower_first(quarters(share));
    let expected = fixed(expected.get() * 100.0, 0);
    let ready = window(&shift.after.window);
    let title = &shift.title;
    format!("You saw {seen}; {expected}\u{a0}% was expected by then. {title}: ready {ready}.")
}

/// "Now in a jar. Poolish ripens: 11:28 to 11:54, likely 11:40."
pub(crate) fn poured(held: Held, shift: &Shift) -> String {
    let into = lower_first(&vessel(held));
    let (title, ends) = (&shift.title, window(&shift.after.window));
    format!("Now {into}. {title}: {ends}.")
}

/// "First rise: in air at 28 °C from 10:30."
pub(crate) fn was_put(title: &str, at: Moment, place: Place, degrees: Degrees) -> String {
    let (place, at) = (whereabouts(place, degrees), time_of_day(at));
    format!("{title}: {place} from {at}.")
}

/// "First rise: three quarters risen at 11:15."
pub(crate) fn was_risen(title: &str, at: Moment, share: Share) -> String {
    let (seen, at) = (lower_first(quarters(share)), time_of_day(at));
    format!("{title}: {seen} risen at {at}.")
}

fn quarters(share: Share) -> &'static str {
    let quarter = (share.get() * 4.0).round().clamp(1.0, 4.0) as usize;
    RISEN[quarter - 1]
}

/// What becomes of a dough that was put into the fridge in the midst of its rise, and should come out at a moment.
/// `bears` is whether what is in it may stand out for the rest of the rise, `is_planned` whether somebody chose that moment.
///
/// That a day is the longest is common practice; so where nobody chose, the words say no more than "at the latest".
pub(crate) fn in_fridge(forecast: &Forecast, out: Moment, bears: bool, is_planned: bool) -> String {
    let ready = forecast.window.likely();
    let rest = span(ready - out);
    if is_planned {
        let out = on_day(out);
        return if forecast.ripe <= ready - NEARLY {
            format!(
                "In the fridge until {out}. It will have risen enough by then, so bake it straight away."
            )
        } else if bears {
            format!("In the fridge until {out}, then ready in about {rest}.")
        } else {
            format!(
                "In the fridge until {out}. Its filling can't bear another {rest} out of it: bake it straight away."
            )
        };
    }
    if !bears {
        return format!(
            "Once it is cold it hardly rises. The about {rest} that it would need out of the fridge then are too long for its \
             filling: take it out soon, or bake it straight from the fridge, by {}.",
            on_day(out)
        );
    }
    format!(
        "Once it is cold it hardly rises. Take it out about {rest} before you want it ready, by {} at the latest. \
         Left until then it is ready about {}.",
        on_day(out),
        on_day(ready)
    )
}

/// What is ripe so much before it comes out of the fridge isn't just ready by chance.
const NEARLY: Minutes = minutes(1.0);

/// "10:30 on Friday", of what lies a day ahead.
pub(super) fn on_day(at: Moment) -> String {
    format!("{} on {}", time_of_day(at), super::weekday(at))
}

/// What a dough does in the fridge.
pub(crate) fn retarding(dough: &Retarding, now: Moment, degrees: Degrees) -> String {
    let shown = |at| temperature(at, degrees);
    let so_far = format!(
        "The dough is about {}. In the fridge it has risen as much as in {} at {}.",
        shown(dough.dough_at(now)),
        span(dough.worth(now)),
        shown(dough.reference())
    );
    let cold = dough.cold_at().filter(|&cold| cold > now);
    match cold {
        Some(cold) => format!(
            "{so_far} It goes on rising until about {}, when it is cold through.",
            time_of_day(cold)
        ),
        None if dough.stands_still(now) => format!("{so_far} It hardly rises any more."),
        None => format!("{so_far} So warm a fridge lets it rise on, slowly."),
    }
}
