//! Words of what the amount is reckoned from: baked bread, tins, and what there is.

use domain::decimal::plain;
use domain::formula::{Tin, baking_loss};

use crate::words::quantity::mass;

/// A piece's mass when it is baked and cool.
pub(crate) const BAKED_EACH: &str = "Mass of each, baked and cool";
/// How many tins there are.
pub(crate) const TINS: &str = "Number of tins";
/// How many pieces go into each.
pub(crate) const PIECES_EACH: &str = "Pieces in each tin";
/// A tin's measures.
pub(crate) const TIN_SIDES: [&str; 3] = [
    "Length inside, halfway up",
    "Width inside, halfway up",
    "Height inside",
];
/// Whether the tin is closed.
pub(crate) const LID: &str = "The tin";
/// Its choices.
pub(crate) const LIDS: [&str; 2] = ["Open", "With a lid on"];
/// The ingredient that there is so much of.
pub(crate) const SHORT_OF: &str = "What there is only so much of";
/// How much of it.
pub(crate) const SHORT_MASS: &str = "How much there is";

/// What baking takes.
pub(crate) fn baked_note() -> String {
    let loss = baking_loss();
    let percent = |share: domain::units::Share| plain(share.get() * 100.0, 1);
    format!(
        "Reckoned with a loss of {} %, usually {} to {} %: mostly water that bakes out.",
        percent(loss.likely()),
        percent(loss.low()),
        percent(loss.high())
    )
}

/// "Each tin holds 2.2 l; that suits 710 to 1220 g of dough, likely 1000 g."
pub(crate) fn tin_holds(tin: Tin) -> String {
    let dough = tin.dough();
    format!(
        "Each holds {} l to the rim, which suits {} of dough, from {} for a light one to {} for a heavy one.",
        plain(tin.volume().get() / 1000.0, 1),
        mass(dough.likely()),
        mass(dough.low()),
        mass(dough.high())
    )
}

/// "25 cm".
pub(crate) fn centimetres(value: f64) -> String {
    format!("{}\u{a0}cm", plain(value, 1))
}

/// "12".
pub(crate) fn bare_number(value: f64) -> String {
    plain(value, 0)
}

/// "whole milk (almond cream)".
pub(crate) fn in_component(name: &str, component: &str) -> String {
    format!("{name} ({component})")
}
