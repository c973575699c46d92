//! How much sooner a dough has risen where the air is thin.
//!
//! The same gas takes up `p0 / p` times the room, so that a dough which makes gas at an even pace has
//! its volume after `t = t0 p / p0`. p0 is the pressure at [`LOW`], down to which no formula says where it
//! was written: nothing changes below. At 1000, 1500 and 2500 m that is 92, 86 and 76 % of the time.
//!
//! Published: doughs rise 25 to 50 % faster above 3,000 ft, and should be looked at after half the
//! time (magazine); 30 min less for all rises of two loaves (Colorado Wheat Administrative
//! Committee); they double faster, and only until double (University of Wyoming Extension). That is more than the
//! gas law has, which gives 10 to 20 % at 3,000 to 6,000 ft.
//! So the window opens at the square of the ratio, which meets the 25 to 50 % at 5,000 to 9,000 ft, and
//! closes where it would have closed low down.
//!
//! Left out: gas that escapes sooner from thinner walls, drier air and flour, and that flavour needs its own time,
//! for which less yeast or a second rise is advised.

use crate::estimate::Estimate;
use crate::thermal::oven::altitude::{LOW, pressure_ratio};
use crate::units::{Metres, Minutes};

/// How many times as long a rise takes at a height.
///
/// ```
/// use domain::units::metres;
/// use domain::yeast::thin_air::times;
///
/// assert_eq!(times(metres(200.0)), 1.0);
/// assert!((times(metres(1500.0)) - 0.865).abs() < 0.001);
/// ```
#[must_use]
pub fn times(altitude: Metres) -> f64 {
    pressure_ratio(altitude.max(LOW)) / pressure_ratio(LOW)
}

/// A formula's minutes at a height.
///
/// ASSUMPTION: as likely as not by the gas law, and one time in ten by its square, or not at all.
#[must_use]
pub fn sooner(range: &Estimate<Minutes>, altitude: Metres) -> Estimate<Minutes> {
    let times = times(altitude);
    let open_ln = times.ln().abs();
    range.longer(times, open_ln, open_ln)
}
