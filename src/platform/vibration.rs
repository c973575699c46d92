//! Shaking the phone.

use crate::device;
use crate::events::navigator;
use crate::js;

/// Whether this phone really shakes.
///
/// Firefox on Android says it does and doesn't; computers have the call and no motor.
#[must_use]
pub fn is_supported() -> bool {
    let navigator = navigator();
    js::has(navigator.as_ref(), "vibrate")
        && navigator.max_touch_points() > 0
        && !device::agent().contains("Firefox")
}

/// Shakes: milliseconds on, off, on ... The browser allows it only after a first tap.
pub fn buzz(pattern: &[u32]) {
    if is_supported() {
        let pattern: js_sys::Array = pattern
            .iter()
            .map(|&ms| f64::from(ms))
            .map(Into::<wasm_bindgen::JsValue>::into)
            .collect();
        // "No" means that nobody has tapped yet, and then nothing can be done about it.
        let _ = navigator().vibrate_with_pattern(pattern.as_ref());
    }
}

/// Stops shaking.
pub fn stop() {
    if is_supported() {
        let _ = navigator().vibrate_with_duration(0);
    }
}
