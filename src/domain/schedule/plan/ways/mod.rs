//! Ways out where wishes and work don't fit together, each tried as a plan of its own before it is offered.

pub(super) mod conflict;
pub(super) mod levers;
pub(super) mod trial;
