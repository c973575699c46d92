//! What a schedule says, read from its starts or from the plan made of it.
//!
//! [`moments`] makes the [`Plan`](super::Plan) of a schedule, with [`hangs_on`] for what keeps each task from starting
//! sooner and [`reach`] for its windows. All others answer a question put to a plan: what an end depends on ([`chain`]),
//! when somebody has to be called ([`agenda`]), how many trays are in use at once ([`in_use`]).

pub(super) mod agenda;
mod by_bake;
pub(super) mod chain;
mod find;
mod hangs_on;
pub(super) mod in_use;
mod moments;
mod reach;
mod waited_for;
