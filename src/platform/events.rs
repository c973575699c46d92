//! The browser, its page, and listening to their events for as long as somebody holds on to it.

use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;
use web_sys::{Document, Event, EventTarget, Navigator, Window};

/// The page's window.
pub(crate) fn window() -> Window {
    web_sys::window().expect("the app runs in a page, and every page has a window")
}

/// The page's document.
pub(crate) fn document() -> Document {
    window()
        .document()
        .expect("a window that runs code has a document")
}

/// The browser.
pub(crate) fn navigator() -> Navigator {
    window().navigator()
}

/// What the browser calls itself.
pub(crate) fn agent() -> String {
    navigator().user_agent().unwrap_or_default()
}

/// A listener, taken away when dropped.
pub(crate) struct Listening {
    target: EventTarget,
    event: &'static str,
    heard: Closure<dyn FnMut(Event)>,
}

/// Listens until the guard is dropped.
#[must_use]
pub(crate) fn listen(
    target: &EventTarget,
    event: &'static str,
    heard: impl FnMut(Event) + 'static,
) -> Listening {
    let listening = Listening {
        target: target.clone(),
        event,
        heard: Closure::new(heard),
    };
    // Adding a listener fails only for a target that has gone, and that has no events.
    let _ =
        target.add_event_listener_with_callback(event, listening.heard.as_ref().unchecked_ref());
    listening
}

impl Listening {
    /// Listens as long as the page lives.
    pub(crate) fn for_ever(self) {
        std::mem::forget(self);
    }
}

impl Drop for Listening {
    fn drop(&mut self) {
        let _ = self
            .target
            .remove_event_listener_with_callback(self.event, self.heard.as_ref().unchecked_ref());
    }
}
