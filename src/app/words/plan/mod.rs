//! Words of the plan.

mod head;
mod items;
mod wishes;

pub(crate) use head::*;
pub(crate) use items::*;
pub(crate) use wishes::*;
