//! What is asked now, and what comes next and when, reckoned forwards from now.
//!
//! One pair of hands works through the open steps; what goes on by itself
//! starts when what it follows has ended. At each moment the hands take the
//! step with the longest chain still hanging on it. That is list scheduling by
//! the critical path (Graham 1966 bounds how far it can be from the best); it is
//! a forecast of an orderly bake, not a plan proven best, and nothing here calls
//! it that. Two things are put before the longest chain: an oven that is due, and
//! a step that would otherwise wait longer than its links allow. Where it still
//! comes too late, the outline says by how much.
//!
//! The best plan is what [`solve`] proves, of tasks whose lengths are given. [`plan`] makes those tasks of the
//! open steps of one or several bakes, with their wishes, and tells what comes of them in moments of the clock.

mod filled;
mod focus;
mod left_out;
mod night;
mod offers;
mod outline;
pub mod plan;
mod tails;
mod wish;

pub use filled::{
    EGG_AND_MILK_OUT, Filled, Rises, Unsafe, bears_way_back, filled, is_long_for_egg_or_milk,
    rises_if_started,
};
pub use focus::{Ask, Running, focus, focus_by, running};
pub use left_out::{InFridge, LeftOut, dough_left_out, spoiling, weighed_out};
pub use night::{NightWork, Spared, night_work};
pub use offers::{in_order, offers};
pub use outline::{Outline, Planned, likely_outline, outline};
pub use solve;
pub use tails::tails;
pub use wish::{if_started, rise_if_started, yeast_for};
