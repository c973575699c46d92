//! Words beside temperatures, in lower case and without accents.

/// Behind a number of degrees.
#[rustfmt::skip]
pub(crate) const DEGREES: &[&str] = &[
    "degrees", "degree", "deg", "grad", "degres", "degre", "grados", "grader", "gr",
];

/// Before a gas mark.
#[rustfmt::skip]
pub(in crate::grammar) const GAS: &[&str] = &[
    "gas mark", "gasmark", "gas", "gas stufe", "gas regulo", "regulo", "gas no",
];

/// Before the mark of a French oven's thermostat.
#[rustfmt::skip]
pub(in crate::grammar) const THERMOSTAT: &[&str] = &[
    "th", "thermostat", "thermostat n",
];

/// An oven with a fan.
#[rustfmt::skip]
pub(in crate::grammar) const WITH_FAN: &[&str] = &[
    "fan", "fan oven", "fan-forced", "fan forced", "fan assisted", "fan-assisted", "convection", "umluft",
    "heissluft", "chaleur tournante", "con ventilador", "ventilador", "aire", "con aire", "turbo", "varmluft",
];

/// An oven without.
#[rustfmt::skip]
pub(in crate::grammar) const WITHOUT_FAN: &[&str] = &[
    "conventional", "conventional oven", "static", "no fan", "ober-", "ober", "o", "statique",
    "chaleur statique", "over- og undervarme", "over-", "calor arriba y abajo", "arriba y abajo",
    "ober- und unterhitze", "unterhitze", "undervarme",
];

/// The second half of "Ober-/Unterhitze".
#[rustfmt::skip]
pub(in crate::grammar) const HEAT_FROM_BELOW: &[&str] = &[
    "unterhitze", "u", "undervarme", "und unterhitze",
];
