//! What surrounds a body over time.

use crate::units::{Celsius, Moment};

/// A temperature, and how much better heat passes than in the film the body was made for.
type Around = (Celsius, f64);

/// What is around a body: constant, with changes at known moments.
///
/// ```
/// use domain::thermal::vessel::Surroundings;
/// use domain::units::{Moment, celsius, minutes};
///
/// let start = Moment::from_epoch_ms(0);
/// let kitchen_then_fridge =
///     Surroundings::constant(celsius(22.0)).changed(start + minutes(60.0), celsius(4.0));
/// assert_eq!(kitchen_then_fridge.at(start), celsius(22.0));
/// assert_eq!(kitchen_then_fridge.at(start + minutes(60.0)), celsius(4.0));
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Surroundings {
    first: Around,
    // In order of time, one entry a moment.
    changes: Vec<(Moment, Around)>,
}

impl Surroundings {
    /// The same temperature always, in the body's own film.
    #[must_use]
    pub fn constant(temperature: Celsius) -> Self {
        Self {
            first: (temperature, 1.0),
            changes: Vec::new(),
        }
    }

    /// The same up to `at`, and from then on another temperature in the body's own film.
    ///
    /// Changes that were to come later still come; one at the same moment is replaced.
    #[must_use]
    pub fn changed(self, at: Moment, to: Celsius) -> Self {
        self.moved(at, to, 1.0)
    }

    /// The same with a heat transfer coefficient that is so many times the body's own from then on,
    /// as in water, until the next change.
    #[must_use]
    pub fn moved(mut self, at: Moment, to: Celsius, film_times: f64) -> Self {
        match self.changes.binary_search_by_key(&at, |change| change.0) {
            Ok(same) => self.changes[same].1 = (to, film_times),
            Err(place) => self.changes.insert(place, (at, (to, film_times))),
        }
        self
    }

    /// The temperature at a moment; at the moment of a change, already the new one.
    #[must_use]
    pub fn at(&self, moment: Moment) -> Celsius {
        self.around(moment).0
    }

    /// The temperature and the film at a moment.
    pub(super) fn around(&self, moment: Moment) -> Around {
        let past = self.changes.partition_point(|change| change.0 <= moment);
        match past {
            0 => self.first,
            _ => self.changes[past - 1].1,
        }
    }

    /// The changes after a moment, in order: when, the temperature and the film.
    pub(super) fn after(&self, moment: Moment) -> impl Iterator<Item = (Moment, Celsius, f64)> {
        let past = self.changes.partition_point(|change| change.0 <= moment);
        let after = self.changes[past..].iter();
        after.map(|&(at, (to, film_times))| (at, to, film_times))
    }
}
