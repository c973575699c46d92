//! A dough, a bun or a filling in its surroundings, as a sum of decaying modes.
//!
//! Every mode is a thermometer with a lag of its own: `dy/dt = (T∞(t) − y) / τ`.
//! A temperature of the body is a weighted mean of these readings,
//! `T = Σ w y` with `Σ w = 1`: one set of weights gives the mean over the
//! volume, another the centre. Where the surroundings are constant a mode decays
//! exactly exponentially, so a history of constant stretches needs no time steps.
//!
//! - below `Bi = h Lc / k = 0.1` (Lc = volume over cooled area) one mode,
//!   `τ = ρ c Lc / h` (lumped capacity; Incropera & DeWitt, Fundamentals of
//!   Heat and Mass Transfer, ch. 5, section from memory)
//! - above, the modes of [`transient`](super::transient): `τ = L² / (α ζ²)`; for a short cylinder
//!   the rates 1/τ of two series add and their weights multiply
//!
//! At Bi = 0.1 the two don't quite meet: the lag of the series is longer by the
//! way to the middle, 3 % for a layer, 5 % for a stick, 6 % for a ball, 8 % for a roll or a dish.
//! Little that is baked is there: a bun has Bi 0.2 to 0.5, and cream in the
//! fridge more than 0.1 unless it is thinner than 6 mm.
//!
//! Where its film changes, as in water, the inside is projected on the modes of the new one (`carried`),
//! in bodies of one direction and of two.
//!
//! The truncated rest of the weights rides on the fastest mode kept, which
//! lives for less than a hundredth of the slowest time constant. After a tenth
//! of that constant the temperatures agree with the full series to 0.0001 of the
//! difference at the start.
//!
//! Left out: heat of fermentation (0.3 to 1.7 K an hour if none escaped,
//! computed from 91 kJ per mole of glucose), evaporation from hot surfaces
//! (cools faster than said), radiation other than as a part of h, and the change
//! of size and conductivity as a dough rises.

pub(crate) mod body;
mod carried;
mod course;
mod film;
mod held;
mod modes;
mod surroundings;

pub use self::body::{Body, Cooling, Form, Material};
pub use self::course::Course;
pub(crate) use self::course::SAME_K;
use self::film::Film;
pub use self::held::{FLAT_BAG, Held};
pub use self::modes::Mode;
pub use self::surroundings::{Doubt, Spot, Surroundings};
use crate::thermal::oven::BakeForm;
use crate::thermal::transient::Axis;
use crate::units::{Celsius, Grams, Millimetres, Minutes, Moment, WattsPerSquareMetreKelvin};

/// A body in its surroundings.
#[derive(Debug, Clone, PartialEq)]
pub struct Vessel {
    body: Body,
    // Slowest first, never empty; the weights of each kind sum to 1.
    modes: Vec<Mode>,
    // What every lag was multiplied by since the modes were reckoned.
    lags: f64,
}

impl Vessel {
    /// The modes of a body.
    #[must_use]
    pub fn of(body: Body) -> Self {
        Self {
            body,
            modes: modes::modes_of(&body),
            lags: 1.0,
        }
    }

    /// All the dough in a covered bowl.
    ///
    /// ASSUMPTION: a sphere of the same volume. A bowl of dough has about a
    /// sixth more surface than that, and the cover takes about as much away.
    #[must_use]
    pub fn dough_in_bowl(mass: Grams) -> Self {
        Self::bowl_of(Material::DOUGH, mass)
    }

    /// The same of a dough that is known: see [`Vessel::dough_in_bowl`].
    #[must_use]
    pub fn bowl_of(dough: Material, mass: Grams) -> Self {
        Self::of(Body {
            form: body::sphere(mass, dough),
            material: dough,
            film: body::STILL_AIR,
        })
    }

    /// A cooked cream spread to `depth` in a round dish.
    ///
    /// ASSUMPTION: heat leaves through the side and one face: the open top in
    /// air, the bottom in an ice bath. The other face counts as insulated,
    /// which errs on the slow side.
    #[must_use]
    pub fn filling(mass: Grams, depth: Millimetres, cooling: Cooling) -> Self {
        Self::dish_of(Material::CUSTARD, mass, depth, cooling)
    }

    /// The same, stirred all the while.
    #[must_use]
    pub fn filling_stirred(mass: Grams, depth: Millimetres, cooling: Cooling) -> Self {
        Self::dish_of(Material::CUSTARD.stirred(), mass, depth, cooling)
    }

    /// The same of a filling that is known: see [`Vessel::filling`].
    #[must_use]
    pub fn dish_of(filling: Material, mass: Grams, depth: Millimetres, cooling: Cooling) -> Self {
        Self::of(Body {
            form: body::dish(mass, depth, filling),
            material: filling,
            film: cooling.film(),
        })
    }

    /// A dough in what holds it, in still air: all of it, or a piece that stands free on its tray. How a
    /// piece rises in its form or its tin says [`BakeForm::rising`](crate::thermal::oven::BakeForm::rising).
    #[must_use]
    pub fn dough_held(held: Held, dough: Material, mass: Grams) -> Self {
        match held {
            Held::Bowl | Held::Tray => Self::bowl_of(dough, mass),
            Held::Tin => BakeForm::Tin.rising(mass, dough),
            Held::Jar => Self::of(held::jar_of(dough, mass, body::STILL_AIR)),
            Held::Bag => Self::of(held::bag_of(dough, mass, body::STILL_AIR)),
        }
    }

    /// A filling in what holds it: `depth` is that of its dish.
    #[must_use]
    pub fn filling_held(
        held: Held,
        filling: Material,
        mass: Grams,
        depth: Millimetres,
        cooling: Cooling,
    ) -> Self {
        let film = cooling.film();
        match held {
            Held::Jar => Self::of(held::jar_of(filling, mass, film)),
            Held::Bag => Self::of(held::bag_of(filling, mass, film)),
            _ => Self::dish_of(filling, mass, depth, cooling),
        }
    }

    /// What it was made from.
    #[must_use]
    pub fn body(&self) -> &Body {
        &self.body
    }

    /// Its modes, slowest first; there is at least one.
    #[must_use]
    pub fn modes(&self) -> &[Mode] {
        &self.modes
    }

    /// The lag of the slowest mode, which rules all but the first minutes.
    #[must_use]
    pub fn time_constant(&self) -> Minutes {
        self.modes[0].time_constant
    }

    /// The same body with its heat transfer coefficient multiplied.
    #[must_use]
    pub fn with_film_times(&self, factor: f64) -> Self {
        Self::of(Body {
            film: WattsPerSquareMetreKelvin::clamped(self.body.film.get() * factor),
            ..self.body
        })
    }

    /// The same body with every lag multiplied, as if it conducted better or worse throughout.
    #[must_use]
    pub fn with_lags_times(&self, factor: f64) -> Self {
        let modes = self.modes.iter();
        Self {
            body: self.body,
            modes: modes.map(|mode| mode.with_lag_times(factor)).collect(),
            lags: self.lags * factor,
        }
    }

    /// The few modes that matter for the mean, with every lag multiplied; their core weights mean nothing.
    pub(crate) fn for_mean(&self, lag_factor: f64) -> Self {
        let mut modes: Vec<Mode> = Vec::new();
        for mode in &self.modes {
            match modes.last_mut() {
                // Together less than a thousandth of the mean, and gone after a hundredth of the slowest lag.
                Some(last) if mode.mean < 5e-5 => last.mean += mode.mean,
                _ => modes.push(mode.with_lag_times(lag_factor)),
            }
        }
        Self {
            body: self.body,
            modes,
            lags: self.lags * lag_factor,
        }
    }

    /// How it follows in a film that is so many times its own.
    fn in_film(&self, times: f64) -> Film {
        let modes = if times == 1.0 {
            self.modes.clone()
        } else {
            let other = self.with_film_times(times);
            other.with_lags_times(self.lags).modes
        };
        let film = self.body.film.get().max(1e-9) * times;
        let (first, second) = self.body.form.axes();
        let lumped = |axis: Axis| self.lags * modes::lumped_along(&self.body, axis, film);
        Film {
            times,
            modes,
            lumped: (lumped(first), second.map(lumped)),
        }
    }

    /// How it goes from one temperature throughout, from `start` on.
    #[must_use]
    pub fn course(&self, start: Moment, initial: Celsius, surroundings: &Surroundings) -> Course {
        Course::new(self, start, initial, surroundings)
    }
}
