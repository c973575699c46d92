//! All native checks, one binary. Each module names the source beside each number.

mod bake_properties;
mod bakes;
mod cooling;
mod durations;
mod food;
mod formulas;
mod judgement;
mod lags;
mod mixing;
mod night;
mod one_body;
mod oven;
mod pantry;
mod perishable;
mod places;
mod probe;
mod proof;
mod reckon;
mod records;
mod scaling;
mod second_calls;
mod sorted;
mod story;
mod trade;
mod transient;
mod windows;
