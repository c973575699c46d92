//! Words of the plan.

mod before_away;
mod bench;
mod calendar;
mod cold;
mod head;
mod items;
mod marks;
mod moved;
pub(crate) mod ways;
mod wishes;

pub(crate) use before_away::*;
pub(crate) use bench::*;
pub(crate) use calendar::*;
pub(crate) use cold::*;
pub(crate) use head::*;
pub(crate) use items::*;
pub(crate) use marks::*;
pub(crate) use moved::*;
pub(crate) use wishes::*;

/// Less than this is no difference, in min.
const SAME: f64 = 1.0;
