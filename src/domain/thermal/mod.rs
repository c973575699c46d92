//! Heat: what the bowl, the kitchen, the fridge and the oven do to dough and filling.

pub mod constants;
pub mod cooling;
pub(crate) mod crossing;
pub mod film;
pub mod kneading;
pub mod liquid;
pub mod mixing;
pub mod newton;
pub mod oven;
pub mod probe;
pub mod reach;
pub mod transient;
pub mod vessel;
pub mod water;
