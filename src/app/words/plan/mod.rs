//! Words of the plan.

mod calendar;
mod head;
mod items;
mod wishes;

pub(crate) use calendar::*;
pub(crate) use head::*;
pub(crate) use items::*;
pub(crate) use wishes::*;
