//! Why something planned starts when it does.
//!
//! A plan knows of each item what keeps it from starting sooner with everything as early as its order allows. What was
//! then moved later, because all before the end would only wait, starts for another reason, and a reason that a glance at
//! the clock contradicts isn't told.

use domain::formula::Step;
use domain::schedule::plan::{Item, Plan, What};
use domain::units::{Minutes, Moment, minutes};

use super::entry::Why;

/// What ends and what follows are reckoned in whole minutes, each by itself.
const AT_ONCE: Minutes = minutes(1.5);

/// Why an item of a plan, which is this step or a part of it, starts when it does. `named` is what another one is called.
pub(super) fn why(
    plan: &Plan,
    item: &Item,
    step: &Step,
    now: Moment,
    named: &dyn Fn(&Item) -> String,
) -> Why {
    let kept_by = item.waits_for.and_then(|place| plan.items.get(place));
    let after = |other: &Item| {
        let links = step.after.iter();
        let least = links
            .filter(|link| other.what.of().is_some_and(|(_, of)| of == link.step))
            .fold(minutes(0.0), |least, link| least.max(link.least));
        let waited = item.start - other.end - least;
        waited.get().abs() <= AT_ONCE.get()
    };
    if let Some(other) = kept_by.filter(|other| after(other)) {
        return match other.what {
            What::Away => Why::Nobody,
            _ => Why::After(named(other)),
        };
    }
    let of_bake = item.what.of().map(|(bake, _)| bake);
    let mut linked = step.after.iter().filter_map(|link| {
        let of = of_bake.filter(|_| matches!(item.what, What::Step(..)))?;
        plan.item(What::Step(of, link.step))
    });
    if let Some(other) = linked.rfind(|other| after(other)) {
        return Why::After(named(other));
    }
    if plan
        .items
        .iter()
        .any(|other| other.what == What::Away && step.is_hands() && after(other))
    {
        return Why::Nobody;
    }
    let ahead = step.ahead_of.zip(of_bake);
    if let Some(other) = ahead.and_then(|(ahead, bake)| plan.item(What::Step(bake, ahead))) {
        return Why::InTimeFor(named(other));
    }
    match kept_by {
        Some(other) if other.start > item.start => Why::Before(named(other)),
        _ if (item.start - now).get() <= AT_ONCE.get() => Why::Free,
        _ => Why::NotSooner,
    }
}
