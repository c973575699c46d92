//! Shaking the phone.

use crate::clock::{self, Ticker};
use crate::events::{agent, navigator};
use crate::js;

/// Whether this phone really shakes.
///
/// Firefox on Android says it does and doesn't; computers have the call and no motor.
#[must_use]
pub fn is_supported() -> bool {
    let navigator = navigator();
    js::has(navigator.as_ref(), "vibrate")
        && navigator.max_touch_points() > 0
        && !agent().contains("Firefox")
}

/// Shakes: milliseconds on, off, on ... The browser allows it only after a first tap.
fn buzz(pattern: &[u32]) {
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

/// Shaking that comes again, longer and longer, until this is dropped.
///
/// A pattern is played once and no browser repeats one, so each round is asked
/// for anew. A hidden page can't shake; its next round comes once it is seen.
#[must_use = "it stops when dropped"]
pub struct Shaking {
    _rounds: Ticker,
}

/// How often it comes.
const ROUND_MS: u32 = 5_000;
const FIRST_PULSE_MS: u32 = 200;
const LONGEST_PULSE_MS: u32 = 800;
/// It grows as long as the alarm's sound grows louder: half a minute.
const GROWS_BY_MS: u32 = 100;
const PAUSE_MS: u32 = 200;

impl Shaking {
    /// Shakes from now on.
    pub fn start() -> Self {
        buzz(&round(0));
        let mut done = 0;
        let rounds = clock::every(ROUND_MS, move || {
            done += 1;
            buzz(&round(done));
        });
        Self { _rounds: rounds }
    }
}

impl Drop for Shaking {
    fn drop(&mut self) {
        if is_supported() {
            let _ = navigator().vibrate_with_duration(0);
        }
    }
}

/// Three pulses with their pauses.
fn round(number: u32) -> [u32; 5] {
    let pulse = FIRST_PULSE_MS.saturating_add(number.saturating_mul(GROWS_BY_MS));
    let pulse = pulse.min(LONGEST_PULSE_MS);
    [pulse, PAUSE_MS, pulse, PAUSE_MS, pulse]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_round_is_longer_until_half_a_minute_is_over() {
        let longest = 30_000 / ROUND_MS;
        for number in 0..longest {
            assert!(round(number)[0] < round(number + 1)[0]);
        }
        assert_eq!(round(longest), round(u32::MAX));
    }

    #[test]
    fn a_round_ends_before_the_next() {
        let length: u32 = round(u32::MAX).iter().sum();
        assert!(length < ROUND_MS);
    }
}
