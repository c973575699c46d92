//! Yeast: how fast it works at a temperature, and when a dough has had enough of it.

pub mod activity;
pub mod proof;
