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

    /// The next whole five minutes of a clock: nobody makes for a moment more finely. Every time zone of today is
    /// off by whole quarters of an hour.
    ///
    /// ```
    /// use domain::units::{Moment, minutes};
    ///
    /// let noon = Moment::from_epoch_ms(1_789_905_600_000);
    /// assert_eq!(noon.up_to_five(), noon);
    /// assert_eq!((noon + minutes(0.1)).up_to_five(), noon + minutes(5.0));
    /// assert_eq!((noon - minutes(0.1)).down_to_five(), noon - minutes(5.0));
    /// assert_eq!(minutes(10.1).up_to_five(), minutes(15.0));
    /// ```
    #[must_use]
    pub const fn up_to_five(self) -> Self {
        let down = self.down_to_five();
        if down.0 == self.0 {
            return self;
        }
        Self(down.0.saturating_add(FIVE_MS))
    }

    /// The minute that a clock shows: between two of them lies what anybody reckons who reads both.
    #[must_use]
    pub const fn clock_minute(self) -> Self {
        Self(self.0.saturating_sub(self.0.rem_euclid(60_000)))
    }

    /// The last whole five minutes of a clock.
    #[must_use]
    pub const fn down_to_five(self) -> Self {
        Self(self.0.saturating_sub(self.0.rem_euclid(FIVE_MS)))
    }
}

/// Milliseconds in five minutes.
const FIVE_MS: i64 = 5 * 60_000;

/// Milliseconds in a minute.
const MINUTE_MS: f64 = 60_000.0;

impl Minutes {
    fn from_ms(ms: i64) -> Self {
        Self::clamped(ms as f64 / MINUTE_MS)
    }

    /// The next whole five minutes.
    #[must_use]
    pub fn up_to_five(self) -> Self {
        Self::clamped((self.0 / 5.0).ceil() * 5.0)
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
