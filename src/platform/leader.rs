//! Choosing one tab among many.

use std::cell::RefCell;

use js_sys::Promise;
use wasm_bindgen::JsValue;
use wasm_bindgen::closure::Closure;

use crate::events::navigator;
use crate::js;

const LOCK: &str = "oventide-alarm";

/// Calls back once this tab leads: at once for the first, and for the next when
/// the leader closes. It leads until it closes.
///
/// A browser without Web Locks lets every tab lead: ringing twice is better than not at all.
pub fn be_leader(on_leader: impl FnOnce() + 'static) {
    let Some(locks) = js::get(navigator().as_ref(), "locks") else {
        on_leader();
        return;
    };
    let on_leader = RefCell::new(Some(on_leader));
    let granted = Closure::once_into_js(move |_lock: JsValue| {
        if let Some(on_leader) = on_leader.borrow_mut().take() {
            on_leader();
        }
        // A promise that is never kept holds the lock for as long as the tab lives.
        JsValue::from(Promise::new(&mut |_, _| {}))
    });
    // A refused request (an opaque origin, a page on its way out) leaves this tab without the lead.
    js::ignore(js::call(&locks, "request", &[LOCK.into(), granted]));
}
