//! What a plan keeps, whatever is wished: bakes on their way and others to begin, times away, steps that were fixed.

use std::cell::Cell;

use domain::schedule::plan::{What, away};
use domain::units::{Minutes, minutes};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

use super::asked::{any_wishes, planned, states};
use super::days::as_counted;
use super::keeps::check;
use super::redone::days;

/// Plans count whole minutes of the clock, and the nearest is half a minute off at most.
const ROUNDED: Minutes = minutes(0.5);

/// What is asked, and how much of that must have a plan: now and then nobody is there for as long as something may wait.
const CASES: u32 = 120;
const LEAST_PLANNED: u32 = 110;

#[test]
fn every_link_capacity_absence_and_fixed_step_is_kept() {
    let judged = Cell::new(0);
    let mut runner = TestRunner::new(days(CASES));
    let held = runner.run(&any_wishes(), |asked| {
        let (bakes, now) = asked.bakes();
        let states = states(&bakes);
        let Some(found) = planned(&bakes, now) else {
            return Ok(());
        };
        judged.set(judged.get() + 1);
        let away = away(&states);
        prop_assert_eq!(check(&states, &found.plan, now, &as_counted(&away)), Ok(()));
        for item in &found.plan.items {
            let What::Step(bake, step) = item.what else {
                continue;
            };
            let state = states[bake];
            // What is on its way waits for nothing.
            let not_before = state.wishes.not_before;
            let not_before = not_before.filter(|_| state.held_back().contains(&step));
            if let Some(at) = not_before {
                prop_assert!(item.start >= at - ROUNDED, "{item:?} not before {at:?}");
            }
            // Nothing is fixed to a moment that is past, and what was begun isn't moved any more.
            let pin = state.pins.get(&step);
            let pin = pin.filter(|&&at| at >= now && !state.is_open(step));
            if let Some(&at) = pin {
                let at = not_before.map_or(at, |first| at.max(first));
                let late = (item.start - at) - item.too_late_by.unwrap_or(minutes(0.0));
                prop_assert!(
                    item.start >= at - ROUNDED && late <= ROUNDED,
                    "{item:?} is fixed to {at:?}"
                );
            }
        }
        Ok(())
    });
    assert!(held.is_ok(), "{held:?}");
    assert!(judged.get() >= LEAST_PLANNED, "only {judged:?} planned");
}
