//! Windows after somebody looked at a rising dough, over days that are drawn from what was believed before.
//!
//! A day is a dough with its own pace, warmth and vessel, and an eye that is off. What it sees is given to the model,
//! and the model's window is held against when that dough is really ready.

use domain::estimate::{Basis, Estimate};
use domain::units::{Moment, Share};

use super::proofs::{Day, kitchens};
use super::sample::{Allowed, Coverage, Draws, hold};
use super::{START, at};

/// As the module of proofs says: one time in ten an eye is off by so much of the whole rise, to either side.
const EYE: f64 = 0.15;
/// So many that chance moves an end by half a point.
const DAYS: usize = 6_000;

#[test]
fn windows_after_a_look_hold_what_days_say() {
    let mut cases = Vec::new();
    for ((name, proof), seed) in kitchens().into_iter().zip(1..) {
        // What is sure of its time leaves an eye nothing to say, and what was measured on the way had its look before.
        if proof.range.low() == proof.range.high() || proof.had.get() > 0.0 {
            continue;
        }
        let likely = (proof.window().likely() - START).get();
        for share in [0.4, 0.7] {
            let mut draws = Draws::seeded(seed);
            let looked = at(share * likely);
            let mut sample = Vec::new();
            for _ in 0..DAYS {
                let day = Day::drawn(&proof, &mut draws);
                let come = day.share_after(share * likely);
                let seen = come + EYE * draws.tenths();
                // Nobody says that a rising dough hasn't begun, and one that has come all the way isn't waited for.
                if come >= 1.0 || !(0.05..1.0).contains(&seen) {
                    continue;
                }
                let window = proof.seen(looked, Share::clamped(seen)).0.window();
                sample.push(place(&window, at(day.ready_after())));
            }
            let tenths = Estimate::new(-1.0, 0.0, 1.0, Basis::Measured);
            let case = format!("{name}, seen at {share}");
            cases.push((case, Coverage::of(&tenths, &sample)));
        }
    }
    // Days on which it was ready by then are left out, and those are the early ones.
    let allowed = Allowed {
        ends: 5.5,
        inside: 8.0,
    };
    hold("looks", cases, &allowed);
}

/// Where a moment lies in a window: -1 at its low end, 0 at the likely moment, 1 at its high end.
pub(super) fn place(window: &Estimate<Moment>, end: Moment) -> f64 {
    let away = (end - window.likely()).get();
    let side = if away < 0.0 {
        window.likely() - window.low()
    } else {
        window.high() - window.likely()
    };
    away / side.get().max(1e-9)
}
