//! Names that nobody else gives.

use std::fmt::Write as _;

use crate::events::window;

/// A new name: 128 random bits in hexadecimal.
///
/// Where the browser has no source of random bits, the clock and `Math.random`
/// stand in; on one phone that is still enough to tell bakes apart.
#[must_use]
pub fn new_id() -> String {
    let mut bits = [0_u8; 16];
    let random = window().crypto();
    let filled =
        random.is_ok_and(|random| random.get_random_values_with_u8_array(&mut bits).is_ok());
    if !filled {
        let now = js_sys::Date::now() as u64;
        bits[..8].copy_from_slice(&now.to_be_bytes());
        for bit in &mut bits[8..] {
            *bit = (js_sys::Math::random() * 256.0) as u8;
        }
    }
    bits.iter().fold(String::new(), |mut name, byte| {
        // Writing into a `String` never fails.
        let _ = write!(name, "{byte:02x}");
        name
    })
}
