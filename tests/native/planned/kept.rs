//! What a plan keeps, whatever is wished: bakes on their way and others to begin, times away, steps that were fixed.

use domain::schedule::plan::{What, away};
use domain::units::{Minutes, minutes};
use proptest::prelude::*;

use super::asked::{any_wishes, planned, states};
use super::days::as_counted;
use super::keeps::check;
use super::redone::days;

/// Plans count whole minutes of the clock, and the nearest is half a minute off at most.
const ROUNDED: Minutes = minutes(0.5);

proptest! {
    #![proptest_config(days(120))]

    #[test]
    fn every_link_capacity_absence_and_fixed_step_is_kept(asked in any_wishes()) {
        let (bakes, now) = asked.bakes();
        let states = states(&bakes);
        let Some(found) = planned(&bakes, now) else { return Ok(()) };
        let away = away(&states);
        prop_assert_eq!(check(&states, &found.plan, now, &as_counted(&away)), Ok(()));
        for item in &found.plan.items {
            let What::Step(bake, step) = item.what else { continue };
            let state = states[bake];
            // What is on its way waits for nothing.
            let not_before = state.wishes.not_before.filter(|_| state.held_back().contains(&step));
            if let Some(at) = not_before {
                prop_assert!(item.start >= at - ROUNDED, "{item:?} not before {at:?}");
            }
            // Nothing is fixed to a moment that is past, and what was begun isn't moved any more.
            let pin = state.pins.get(&step).filter(|&&at| at >= now && !state.is_open(step));
            if let Some(&at) = pin {
                let at = not_before.map_or(at, |first| at.max(first));
                let late = (item.start - at) - item.too_late_by.unwrap_or(minutes(0.0));
                prop_assert!(item.start >= at - ROUNDED && late <= ROUNDED, "{item:?} is fixed to {at:?}");
            }
        }
    }
}
