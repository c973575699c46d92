//! When each task starts: the schedule that the solver proves best, of tasks and lengths that hang on each other.
//!
//! [`rounds`] is the way in. It has the [`orders`] in which breads can share an oven tried, and for each reckons schedule
//! and lengths in turn. Of one set of tasks [`let_go`] asks for a schedule that keeps what can be kept, [`aims`] says
//! what ends it should bring about, [`best`] finds of those that do so the calmest or the latest, the latter on the
//! problem turned round by [`backwards`]. [`spared`] gives hands time before an absence, [`put_off`] tells what
//! hands could begin at once, and [`keep`] leaves at its minute what was planned before.

pub(super) mod aims;
mod backwards;
pub(super) mod best;
mod keep;
pub(super) mod let_go;
mod orders;
mod put_off;
pub(super) mod rounds;
mod spared;
