//! What this phone can and can't do, so that the app promises only what holds.
//!
//! Whether the browser is in private mode, where everything is forgotten at the
//! end, can't be found out, so it isn't here; the app warns of it in general.

use crate::events::{agent, navigator, window};
use crate::{js, page, vibration, wake_lock};

/// What this phone can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Device {
    /// An iPhone or iPad: no vibration, and no downloads from the home screen.
    pub ios: bool,
    /// An Android phone: it freezes hidden pages after a minute.
    pub android: bool,
    /// Opened from the home screen.
    pub standalone: bool,
    /// The page was loaded in a way that lets it work without a network.
    pub can_work_offline: bool,
    /// It can shake.
    pub can_vibrate: bool,
    /// The screen can be kept awake.
    pub can_wake_lock: bool,
    /// It was set to show less motion, so nothing flashes.
    pub wants_less_motion: bool,
}

impl Device {
    /// Looks at this phone.
    #[must_use]
    pub fn detect() -> Self {
        Self {
            ios: is_ios(),
            android: agent().contains("Android"),
            standalone: page::is_standalone(),
            can_work_offline: window().is_secure_context()
                && js::has(navigator().as_ref(), "serviceWorker"),
            can_vibrate: vibration::is_supported(),
            can_wake_lock: wake_lock::is_supported(),
            wants_less_motion: page::wants_less_motion(),
        }
    }
}

/// Whether this is an iPhone or iPad. An iPad calls itself a Mac, but no Mac has a touch screen.
pub(crate) fn is_ios() -> bool {
    let agent = agent();
    let says_so = ["iPhone", "iPad", "iPod"]
        .iter()
        .any(|name| agent.contains(name));
    says_so || (agent.contains("Macintosh") && navigator().max_touch_points() > 1)
}
