//! Why nothing happened, and what to do.

use domain::bake::Refusal;

/// One sentence for a refusal.
pub(crate) fn refusal(refusal: &Refusal) -> String {
    match refusal {
        Refusal::Over => "This bake is over; start another to go on.".to_owned(),
        Refusal::Unknown => "There is no such thing in this bake.".to_owned(),
        Refusal::NotOpen(_) => {
            "Something else has to end first. Skip that if you have done it already.".to_owned()
        }
        Refusal::Already(_) => "That is so already.".to_owned(),
        Refusal::Implausible(out) => format!(
            "{} {} can't be right for the {}: it lies between {} and {} {}. Look again and type it anew.",
            out.value, out.unit, out.label, out.min, out.max, out.unit
        ),
        Refusal::NothingToUndo => "There is nothing to take back.".to_owned(),
    }
}
