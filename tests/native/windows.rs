//! Windows against brute force: how often a sample of the uncertain inputs, drawn independently and each with the
//! tenth and ninetieth percentile that the model gives it, comes out below the ends, the likely value and the
//! quartiles of the window.
//!
//! Of three thousand draws, 10 % are met within 1.6 percentage points by chance (three standard errors), and 50 %
//! within 2.7. What is allowed beyond that is how good the model's own rule is: it moves one input at a time and
//! adds in quadrature. `cargo test -p checks --test native windows -- --nocapture` prints every case.

mod cooling;
mod days;
mod doughs;
mod looks;
mod measured;
mod nesting;
mod poured;
mod proofs;
mod readings;
mod sample;

use domain::estimate::{Basis, Estimate};
use domain::units::{Celsius, Moment, celsius, celsius_delta, minutes};
use proptest::prelude::*;

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);
const DRAWS: usize = 3_000;

fn at(after: f64) -> Moment {
    START + minutes(after)
}

/// A temperature known to so many K either way.
fn round(likely: Celsius, off_k: f64) -> Estimate<Celsius> {
    let off = celsius_delta(off_k);
    Estimate::new(likely - off, likely, likely + off, Basis::Model)
}

proptest! {
    /// One half of the truth lies inside four fifths of it, and both hold the likely value.
    #[test]
    fn the_middle_half_lies_inside_the_window(
        earlier in 0.0..500.0_f64,
        later in 0.0..2_000.0_f64,
        likely in 10.0..30.0_f64,
    ) {
        let moments = Estimate::new(at(-earlier), at(likely), at(later + likely), Basis::Model);
        let (quarter, three_quarters) = moments.middle_half();
        prop_assert!(moments.low() <= quarter && quarter <= moments.likely());
        prop_assert!(moments.likely() <= three_quarters && three_quarters <= moments.high());
        // A bell is narrow at its middle: its quartile lies beyond half of the way to its tenth.
        let half_way = 0.5 * (moments.likely() - moments.low()).get();
        prop_assert!((moments.likely() - quarter).get() >= half_way - 1e-3);

        let temperatures = round(celsius(likely), 0.01 * later);
        let (quarter, three_quarters) = temperatures.middle_half();
        prop_assert!(temperatures.low() <= quarter && quarter <= temperatures.likely());
        prop_assert!(temperatures.likely() <= three_quarters && three_quarters <= temperatures.high());
    }
}
