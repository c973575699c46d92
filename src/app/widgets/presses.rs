//! Presses that a trembling or wet hand makes twice.

use domain::units::Moment;
use leptos::prelude::*;
use platform::clock;

/// A second press sooner than this after the first is the same press.
const SAME_PRESS_MS: i64 = 400;

/// The last press on something.
#[derive(Clone, Copy)]
pub(crate) struct Presses(StoredValue<Moment>);

impl Presses {
    /// Nothing was pressed yet.
    pub(crate) fn new() -> Self {
        Self(StoredValue::new(Moment::from_epoch_ms(0)))
    }

    /// Whether a press that comes now is a new one.
    pub(crate) fn is_new(self) -> bool {
        let now = clock::now();
        let before = self.0.get_value();
        let again = (now.epoch_ms() - before.epoch_ms()).abs() < SAME_PRESS_MS;
        if !again {
            self.0.set_value(now);
        }
        !again
    }
}
