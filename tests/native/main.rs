//! All native checks, one binary. Each module names the source beside each number.

mod bake_properties;
mod bakes;
mod cooling;
mod food;
mod formulas;
mod mixing;
mod oven;
mod proof;
mod records;
mod scaling;
mod sorted;
mod transient;
