//! What surrounds a body over time, and how well that is known.
//!
//! What is wrong about the temperature of a kitchen is wrong all the time that a body stands in
//! it, and of all that stands in it. So an error isn't one of a moment but one of a [`Spot`], and moves every stretch
//! there together.

use crate::units::{Celsius, CelsiusDelta, Moment};

/// Whose temperature it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// The kitchen's.
    Kitchen,
    /// The fridge's.
    Fridge,
    /// That of a place by itself: something warm, or water.
    Own,
}

impl Spot {
    /// All of them, in the order in which errors are listed.
    pub const ALL: [Self; 3] = [Self::Kitchen, Self::Fridge, Self::Own];
}

/// How well a temperature is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Doubt {
    /// Whose it is.
    pub of: Spot,
    /// One time in ten it is warmer, and one in ten colder, than said by this.
    pub off: CelsiusDelta,
}

/// A temperature, how much better heat passes than in the film the body was made for, and the
/// temperature's doubt, where there is one.
type Around = (Celsius, f64, Option<Doubt>);

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
            first: (temperature, 1.0, None),
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
    pub fn moved(self, at: Moment, to: Celsius, film_times: f64) -> Self {
        self.put(at, to, film_times, None)
    }

    /// The same as [`moved`](Self::moved), to a temperature that may be off.
    #[must_use]
    pub fn put(mut self, at: Moment, to: Celsius, film_times: f64, doubt: Option<Doubt>) -> Self {
        let around = (to, film_times, doubt);
        match self.changes.binary_search_by_key(&at, |change| change.0) {
            Ok(same) => self.changes[same].1 = around,
            Err(place) => self.changes.insert(place, (at, around)),
        }
        self
    }

    /// The same, with all temperatures that it has so far in doubt.
    #[must_use]
    pub fn doubted(mut self, doubt: Doubt) -> Self {
        self.each(&|around| around.2 = Some(doubt));
        self
    }

    /// The same as if it were known exactly.
    #[must_use]
    pub fn certain(&self) -> Self {
        let mut certain = self.clone();
        certain.each(&|around| around.2 = None);
        certain
    }

    /// The same as it might be: for every spot that is felt from a moment on, colder and warmer by its doubt.
    #[must_use]
    pub fn aside(&self, from: Moment) -> Vec<Self> {
        let mut aside = Vec::new();
        for spot in Spot::ALL {
            for by in [-1.0, 1.0] {
                if self.doubts(spot, from) {
                    let mut spots = [0.0; 3];
                    spots[spot as usize] = by;
                    aside.push(self.shifted(&spots));
                }
            }
        }
        aside
    }

    /// The same with the temperatures of each spot, in the order of [`Spot::ALL`], warmer by so many times its doubt.
    #[must_use]
    pub fn shifted(&self, by: &[f64; 3]) -> Self {
        let mut shifted = self.clone();
        shifted.each(&|(temperature, _, doubt)| {
            if let Some(doubt) = doubt {
                *temperature = *temperature + doubt.off * by[doubt.of as usize];
            }
        });
        shifted
    }

    /// Whether an error of a spot is felt from a moment on.
    #[must_use]
    pub fn doubts(&self, spot: Spot, from: Moment) -> bool {
        let of_it = |around: &Around| around.2.is_some_and(|doubt| doubt.of == spot);
        let mut after = self.changes.iter();
        of_it(&self.around(from)) || after.any(|(at, around)| *at > from && of_it(around))
    }

    fn each(&mut self, change: &dyn Fn(&mut Around)) {
        change(&mut self.first);
        for (_, around) in &mut self.changes {
            change(around);
        }
    }

    /// The temperature at a moment; at the moment of a change, already the new one.
    #[must_use]
    pub fn at(&self, moment: Moment) -> Celsius {
        self.around(moment).0
    }

    /// The temperature, the film and the doubt at a moment.
    pub(super) fn around(&self, moment: Moment) -> Around {
        let past = self.changes.partition_point(|change| change.0 <= moment);
        match past {
            0 => self.first,
            _ => self.changes[past - 1].1,
        }
    }

    /// The changes after a moment, in order: when, the temperature and the film.
    pub(crate) fn after(&self, moment: Moment) -> impl Iterator<Item = (Moment, Celsius, f64)> {
        let past = self.changes.partition_point(|change| change.0 <= moment);
        let after = self.changes[past..].iter();
        after.map(|&(at, (to, film_times, _))| (at, to, film_times))
    }
}
