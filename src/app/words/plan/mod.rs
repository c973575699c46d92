//! Words of the plan.

mod bench;
mod calendar;
mod head;
mod items;
mod moved;
pub(crate) mod ways;
mod wishes;

pub(crate) use bench::*;
pub(crate) use calendar::*;
pub(crate) use head::*;
pub(crate) use items::*;
pub(crate) use moved::*;
pub(crate) use wishes::*;
