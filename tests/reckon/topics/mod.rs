//! Which part of the model answers which topic.

mod balance;
mod cooling;
mod dough_temperature;
mod facts;
mod foods;
mod formulas;
mod ice;
mod oven;
mod transient;
mod units;
mod water;
mod yeast;

use serde_json::Value;

use super::Context;
use super::item::{Item, Refused};

/// The input that makes an item a formula.
pub(crate) const INGREDIENTS: &str = "ingredients_g_T";

/// What the model has, and which part of it said so.
pub(crate) struct Answer {
    pub(crate) value: Value,
    pub(crate) by: &'static str,
}

/// An answer by a part of the model.
fn by(part: &'static str, value: impl Into<Value>) -> Result<Answer, Refused> {
    Ok(Answer {
        value: value.into(),
        by: part,
    })
}

/// A room answers what is its own, and nothing else.
type Room = fn(&Item, &Context) -> Option<Result<Answer, Refused>>;

const ROOMS: [Room; 11] = [
    balance::answer,
    dough_temperature::answer,
    ice::answer,
    water::answer,
    foods::answer,
    yeast::answer,
    transient::answer,
    cooling::answer,
    oven::answer,
    units::answer,
    formulas::answer,
];

/// The model's answer to an item, or why there is none.
pub(crate) fn answer(item: &Item, context: &Context) -> Result<Answer, Refused> {
    ROOMS
        .iter()
        .find_map(|room| room(item, context))
        .unwrap_or_else(|| Err(facts::why_not(&item.topic)))
}
