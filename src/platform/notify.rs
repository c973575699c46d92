//! Notifications, for an alarm that rings while the page is hidden.
//!
//! They go through the service worker, because phones show no others. They only
//! reach the baker while the page still runs; the app says so.

use wasm_bindgen::{JsCast as _, JsValue};

use crate::events::{navigator, window};
use crate::js;

/// Whether notifications may be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Permission {
    /// They may.
    Granted,
    /// The baker said no; only the browser's settings can change that.
    Denied,
    /// Nobody asked yet.
    NotAsked,
    /// This browser has none here.
    Unsupported,
}

/// Whether they may be shown.
#[must_use]
pub fn permission() -> Permission {
    let word = notification()
        .and_then(|notification| js::get(&notification, "permission"))
        .and_then(|word| word.as_string());
    match word.as_deref() {
        Some("granted") => Permission::Granted,
        Some("denied") => Permission::Denied,
        Some(_) => Permission::NotAsked,
        None => Permission::Unsupported,
    }
}

/// Asks the baker. To be called from a tap.
pub async fn ask() -> Permission {
    if let Some(notification) = notification() {
        // Whatever is answered, or thrown, the permission itself says what holds.
        let _ = js::call_and_wait(&notification, "requestPermission", &[]).await;
    }
    permission()
}

/// Shows one, in place of any earlier one with that tag.
pub async fn show(tag: &str, title: &str, body: &str) {
    let Some(worker) = worker().await else {
        return;
    };
    let options = js::object(&[
        ("tag", tag.into()),
        ("body", body.into()),
        ("icon", "./icons/icon-192.png".into()),
        ("requireInteraction", true.into()),
    ]);
    // A refusal here is a permission taken back a moment ago; sound and screen carry on.
    let _ = js::call_and_wait(&worker, "showNotification", &[title.into(), options]).await;
}

/// Takes away the one with that tag.
pub async fn clear(tag: &str) {
    let Some(worker) = worker().await else {
        return;
    };
    let which = js::object(&[("tag", tag.into())]);
    let shown = js::call_and_wait(&worker, "getNotifications", &[which]).await;
    let Some(shown) = shown
        .ok()
        .and_then(|shown| shown.dyn_into::<js_sys::Array>().ok())
    else {
        return;
    };
    for one in shown.iter() {
        let _ = js::call(&one, "close", &[]);
    }
}

fn notification() -> Option<JsValue> {
    // Without a service worker a phone can't show any, whatever else it has.
    js::get(navigator().as_ref(), "serviceWorker")?;
    js::get(window().as_ref(), "Notification")
}

async fn worker() -> Option<JsValue> {
    let workers = js::get(navigator().as_ref(), "serviceWorker")?;
    let found = js::call_and_wait(&workers, "getRegistration", &[]).await;
    found.ok().filter(JsValue::is_object)
}
