//! A body's modes in one film, and a time of its course in one.

use super::Mode;

/// How a body follows in one film.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Film {
    /// h as a part of the body's own.
    pub(super) times: f64,
    /// Slowest first.
    pub(super) modes: Vec<Mode>,
    /// τ along each direction as if the body had one temperature along it, in min.
    pub(super) lumped: (f64, Option<f64>),
}

impl Film {
    /// The same with every lag multiplied.
    pub(super) fn slower(&self, factor: f64) -> Self {
        let modes = self.modes.iter();
        Self {
            modes: modes.map(|mode| mode.with_lag_times(factor)).collect(),
            lumped: (
                self.lumped.0 * factor,
                self.lumped.1.map(|lumped| lumped * factor),
            ),
            ..*self
        }
    }
}

/// A time of constant surroundings.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stretch {
    /// When it begins, in min from the course's start.
    pub(super) from: f64,
    /// T∞, in °C.
    pub(super) around: f64,
    /// Which film.
    pub(super) film: usize,
    /// y − T∞ of each mode when it begins, in K.
    pub(super) gaps: Vec<f64>,
}
