//! Yeast: how fast it works at a temperature, and when a dough has had enough of it.

pub mod activity;
pub mod dose;
pub mod gas;
pub mod kinds;
pub mod proof;
pub mod q10;
pub mod slowing;
pub mod thin_air;
