//! Telling the app's other tabs that the store changed.

use wasm_bindgen::JsValue;
use web_sys::BroadcastChannel;

use crate::events::{Listening, listen, window};
use crate::js;

const CHANNEL: &str = "oventide";

/// The app's tabs on this phone. Without `BroadcastChannel` each is alone.
pub struct Tabs {
    channel: Option<BroadcastChannel>,
    _listening: Option<Listening>,
}

impl Tabs {
    /// Calls back whenever another tab says that the store changed.
    #[must_use]
    pub fn new(on_message: impl Fn() + 'static) -> Self {
        let exists = js::has(window().as_ref(), "BroadcastChannel");
        let channel = exists
            .then(|| BroadcastChannel::new(CHANNEL).ok())
            .flatten();
        let listening = channel
            .as_ref()
            .map(|channel| listen(channel, "message", move |_| on_message()));
        Self {
            channel,
            _listening: listening,
        }
    }

    /// Says that the store changed.
    pub fn tell_others(&self) {
        if let Some(channel) = &self.channel {
            // The message is that there is one; it fails only on a closed channel.
            let _ = channel.post_message(&JsValue::from_str("changed"));
        }
    }
}

impl Drop for Tabs {
    fn drop(&mut self) {
        if let Some(channel) = &self.channel {
            channel.close();
        }
    }
}
