//! Noticing that the phone's clock was set.
//!
//! The wall clock can be set; the page's own clock only runs. When the two part
//! by more than a minute, somebody set the wall clock.
//!
//! Some phones stop the page's clock while they sleep, which looks like a wall
//! clock set forward. So a jump forward only counts when the page stayed in
//! sight since the last look. Left out: a clock set forward while the page was
//! hidden, and any that was set while the page was closed.

use std::cell::Cell;
use std::rc::Rc;

use domain::units::{Minutes, minutes};

use crate::events::{Listening, document, listen, window};
use crate::page;

/// Less is the clock being put right by the network, which nobody needs to hear of.
const WORTH_TELLING: Minutes = minutes(1.0);

/// Compares the wall clock with the page's own.
pub struct Drift {
    apart_ms: f64,
    hidden: Rc<Cell<bool>>,
    _listening: Listening,
}

impl Default for Drift {
    fn default() -> Self {
        Self::new()
    }
}

impl Drift {
    /// Starts to compare.
    #[must_use]
    pub fn new() -> Self {
        let hidden = Rc::new(Cell::new(false));
        let hides = Rc::clone(&hidden);
        let listening = listen(&document(), "visibilitychange", move |_| hides.set(true));
        Self {
            apart_ms: apart_ms(),
            hidden,
            _listening: listening,
        }
    }

    /// By how much the clock was set since the last look, forward being positive, if it was.
    pub fn clock_jump(&mut self) -> Option<Minutes> {
        let apart_ms = apart_ms();
        let hidden = self.hidden.replace(!page::is_visible());
        let jump = jump(self.apart_ms, apart_ms, hidden);
        self.apart_ms = apart_ms;
        jump
    }
}

fn jump(before_ms: f64, now_ms: f64, hidden: bool) -> Option<Minutes> {
    let jump = Minutes::clamped((now_ms - before_ms) / 60_000.0);
    let forward = jump.get() > 0.0;
    let told = jump.get().abs() >= WORTH_TELLING.get() && !(forward && hidden);
    told.then_some(jump)
}

/// The wall clock minus the page's clock.
fn apart_ms() -> f64 {
    let own = window().performance().map_or(0.0, |clock| clock.now());
    js_sys::Date::now() - own
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_set_back_is_noticed_even_after_sleep() {
        assert_eq!(jump(0.0, -3_600_000.0, true), Some(minutes(-60.0)));
        assert_eq!(jump(0.0, -3_600_000.0, false), Some(minutes(-60.0)));
    }

    #[test]
    fn sleep_is_not_taken_for_a_clock_set_forward() {
        assert_eq!(jump(0.0, 3_600_000.0, true), None);
        assert_eq!(jump(0.0, 3_600_000.0, false), Some(minutes(60.0)));
    }

    #[test]
    fn seconds_are_not_worth_telling() {
        assert_eq!(jump(0.0, 59_000.0, false), None);
        assert_eq!(jump(0.0, -59_000.0, false), None);
    }
}
