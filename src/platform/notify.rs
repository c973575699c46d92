//! Notifications, for an alarm that rings while the page is hidden.
//!
//! They go through the service worker, because phones show no others. They only
//! reach the baker while the page still runs; the app says so.

use domain::units::Minutes;
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

/// How late an alarm is each time it is told of again, in min; then every half hour.
/// Common practice, no source: often while it may still be saved, rarely when it can't.
const AGAIN_AFTER_MIN: [f64; 6] = [1.0, 3.0, 6.0, 10.0, 20.0, 30.0];

/// How often an alarm that is so late should have been told of before, the first time not counted.
#[must_use]
pub fn times_again(late: Minutes) -> usize {
    let late = late.get();
    let last = AGAIN_AFTER_MIN[AGAIN_AFTER_MIN.len() - 1];
    let half_hours = ((late - last) / 30.0).max(0.0) as usize;
    let early = AGAIN_AFTER_MIN.iter().filter(|&&after| after <= late);
    early.count() + half_hours
}

/// Shows one, in place of any earlier one with that tag, and calls the baker anew.
pub async fn show(tag: &str, title: &str, body: &str) {
    let Some(worker) = worker().await else {
        return;
    };
    let options = js::object(&[
        ("tag", tag.into()),
        ("body", body.into()),
        ("icon", "./icons/icon-192.png".into()),
        ("requireInteraction", true.into()),
        // Otherwise one that takes another's place comes without a sound.
        ("renotify", true.into()),
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

#[cfg(test)]
mod tests {
    use domain::units::minutes;

    use super::*;

    #[test]
    fn an_alarm_is_told_of_again_at_its_steps_and_not_between() {
        let again = |late| times_again(minutes(late));
        assert_eq!(again(0.0), 0);
        assert_eq!(again(0.9), 0);
        assert_eq!(again(1.0), 1);
        assert_eq!(again(2.9), 1);
        assert_eq!(again(10.0), 4);
        assert_eq!(again(30.0), 6);
        assert_eq!(again(59.9), 6);
        assert_eq!(again(60.0), 7);
    }

    #[test]
    fn an_alarm_that_is_not_due_yet_was_never_told_of_again() {
        assert_eq!(times_again(minutes(-90.0)), 0);
    }
}
