//! How sluggish a filling may be and still pass the two-stage rule.
//!
//! A body of one temperature follows `T = T∞ + (T₀ − T∞) exp(−t / τ)` (Newton's law of cooling). The largest τ, in min, that passes a
//! stage from 57 °C to T in t is `τ = t / ln((57 − T∞) / (T − T∞))`, with the limits of
//! [`cooling`](super::cooling). The smaller of the two binds. For what is cold outside and hot
//! inside this is too kind: that has [`cooling::two_stage`](super::cooling::two_stage).

use super::cooling::{BOTH_STAGES, COLD, FIRST_STAGE, HOT, WARM};
use crate::units::{Celsius, Minutes};

/// The largest time constants that pass the first stage and both together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LargestTimeConstants {
    /// To 21 °C.
    pub first_stage: Minutes,
    /// To 5 °C.
    pub both_stages: Minutes,
}

/// The largest time constants in surroundings of a temperature; `None` where they aren't below 5 °C.
#[must_use]
pub fn largest_time_constants(ambient: Celsius) -> Option<LargestTimeConstants> {
    if ambient >= COLD {
        return None;
    }
    // τ = t / ln((57 − T∞) / (T − T∞))
    let largest = |within: Minutes, to: Celsius| {
        Minutes::clamped(within.get() / ((HOT - ambient) / (to - ambient)).ln())
    };
    Some(LargestTimeConstants {
        first_stage: largest(FIRST_STAGE, WARM),
        both_stages: largest(BOTH_STAGES, COLD),
    })
}
