//! What the plan says of a time in the fridge on the sheet of its rise.

use domain::bake::Stay;
use domain::units::Moment;

use crate::words::when;

/// "It stands in the fridge from 22:10 to 06:30 tomorrow.", and before it is in "It is to stand in the fridge…";
/// once it is due to be moved, since when: "It was to go into the fridge at 22:10: put it in now…"
pub(crate) fn stands_cold(stay: &Stay, due: Option<Moment>, now: Moment) -> String {
    let to = when(stay.to, now);
    let Some(due) = due.map(|due| when(due, now)) else {
        let stands = if stay.is_in { "stands" } else { "is to stand" };
        return format!(
            "It {stands} in the fridge from {} to {to}.",
            when(stay.from, now)
        );
    };
    if stay.is_in {
        format!("It was to come out of the fridge at {due}: take it out now.")
    } else {
        format!("It was to go into the fridge at {due}: put it in now. It is to come out at {to}.")
    }
}

/// Says of the rise whose sheet it stands on that its dough is there, or out again.
pub(crate) fn moved_now(goes_in: bool) -> &'static str {
    if goes_in {
        "The dough is in the fridge now"
    } else {
        "The dough is out of the fridge now"
    }
}

/// What a button says by which the fridge has room for so many, one or some more than it was said to have.
pub(crate) fn has_room(holds: u32) -> String {
    format!("Room for {holds} bowls or trays in the fridge")
}
