//! The middle of a ball, a stick or a layer by finite differences.

use domain::thermal::oven::BakeForm;
use domain::thermal::oven::altitude::boiling_point;
use domain::units::metres;

/// A hundred shells, explicit in time, which is Fo. Heat comes through a film until the surface boils,
/// and then the surface is held there.
pub(super) struct Shells {
    fourier: Vec<f64>,
    centre_c: Vec<f64>,
}

/// In how many dimensions heat flows into a form, and its L as a part of the cube root of its volume, by
/// the proportions that the model's documentation states.
fn proportions(form: BakeForm) -> (f64, f64) {
    use std::f64::consts::PI;
    match form {
        BakeForm::Round => (3.0, (0.75 / PI).cbrt()),
        BakeForm::Long => (2.0, (1.0 / (8.0 * PI)).cbrt()),
        BakeForm::Ring => (2.0, (1.0 / (6.0 * PI * PI)).cbrt()),
        BakeForm::Touching => (1.0, 0.5 * (1.0_f64 / 2.25).cbrt()),
        BakeForm::Tin => panic!("a box isn't one of these"),
    }
}

impl Shells {
    /// In a still oven at sea level: the model's own h of 21 W/(m² K), k of 0.8 W/(m K) and 484 kg/m³.
    pub(super) fn of(form: BakeForm, piece_g: f64, oven_c: f64, dough_c: f64) -> Self {
        const SHELLS: usize = 100;
        let (dimensions, part) = proportions(form);
        let biot = 21.0 * part * (piece_g / 1000.0 / 484.0).cbrt() / 0.8;
        let boiling_c = boiling_point(metres(0.0)).get();
        let dr = 1.0 / SHELLS as f64;
        let dt = 0.4 * dr * dr;
        let mut t_c = [dough_c; SHELLS + 1];
        let (mut fourier, mut centre_c) = (vec![0.0], vec![dough_c]);
        let mut boils = false;
        for step in 1..=80_000 {
            let old = t_c;
            for i in 1..SHELLS {
                // ∂T/∂Fo = ∂²T/∂r² + (d − 1)/r ∂T/∂r
                let curve = old[i + 1] - 2.0 * old[i] + old[i - 1];
                let slope = (old[i + 1] - old[i - 1]) / (2.0 * i as f64);
                t_c[i] = old[i] + 0.4 * (curve + (dimensions - 1.0) * slope);
            }
            // A parabola through the inner shells is level at the centre.
            t_c[0] = (4.0 * t_c[1] - t_c[2]) / 3.0;
            // A parabola through the outer shells meets dT/dr = Bi (T_oven − T).
            let inner = 4.0 * t_c[SHELLS - 1] - t_c[SHELLS - 2];
            let by_film = (inner + 2.0 * dr * biot * oven_c) / (3.0 + 2.0 * dr * biot);
            boils |= by_film >= boiling_c;
            t_c[SHELLS] = if boils { boiling_c } else { by_film };
            if step % 20 == 0 {
                fourier.push(f64::from(step) * dt);
                centre_c.push(t_c[0]);
            }
        }
        Self { fourier, centre_c }
    }

    /// Fo at which the middle has a temperature.
    pub(super) fn reaches(&self, wanted_c: f64) -> f64 {
        let after = self.centre_c.partition_point(|&centre| centre < wanted_c);
        let (low, high) = (self.centre_c[after - 1], self.centre_c[after]);
        let part = (wanted_c - low) / (high - low);
        self.fourier[after - 1] + part * (self.fourier[after] - self.fourier[after - 1])
    }

    /// The middle at Fo.
    pub(super) fn at(&self, fourier: f64) -> f64 {
        let after = self.fourier.partition_point(|&at| at < fourier).max(1);
        let (low, high) = (self.fourier[after - 1], self.fourier[after]);
        let part = (fourier - low) / (high - low);
        self.centre_c[after - 1] + part * (self.centre_c[after] - self.centre_c[after - 1])
    }
}
