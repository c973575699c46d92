//! Moments, and the lengths of time between them.

use std::ops::{Add, Sub};

use super::Minutes;

/// A moment in time: milliseconds since 1970-01-01T00:00Z.
///
/// It knows nothing of time zones; wall-clock text is made at the edge, where summer time is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment(i64);

impl Moment {
    /// The moment that many milliseconds after the start of 1970, UTC.
    #[must_use]
    pub const fn from_epoch_ms(ms: i64) -> Self {
        Self(ms)
    }

    /// Milliseconds since the start of 1970, UTC.
    #[must_use]
    pub const fn epoch_ms(self) -> i64 {
        self.0
    }
}

/// Milliseconds in a minute.
const MINUTE_MS: f64 = 60_000.0;

impl Minutes {
    fn from_ms(ms: i64) -> Self {
        Self::clamped(ms as f64 / MINUTE_MS)
    }

    /// A million minutes is 6e10 ms, so this always fits.
    fn to_ms(self) -> i64 {
        (self.0 * MINUTE_MS).round() as i64
    }
}

impl Sub for Moment {
    type Output = Minutes;
    fn sub(self, earlier: Self) -> Minutes {
        Minutes::from_ms(self.0.saturating_sub(earlier.0))
    }
}

impl Add<Minutes> for Moment {
    type Output = Self;
    fn add(self, later_by: Minutes) -> Self {
        Self(self.0.saturating_add(later_by.to_ms()))
    }
}

impl Sub<Minutes> for Moment {
    type Output = Self;
    fn sub(self, earlier_by: Minutes) -> Self {
        self + -earlier_by
    }
}
