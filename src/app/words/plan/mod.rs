//! Words of the plan.

mod calendar;
mod head;
mod items;
pub(crate) mod ways;
mod wishes;

pub(crate) use calendar::*;
pub(crate) use head::*;
pub(crate) use items::*;
pub(crate) use wishes::*;
