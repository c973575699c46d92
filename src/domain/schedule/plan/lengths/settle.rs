//! Lengths that change from round to round, brought to rest.

use super::Lengths;
use crate::formula::StepId;
use crate::units::minutes;

/// Brings lengths to rest that go on changing from round to round: by what the last change of a length did to
/// the next one, where they meet (Aitken's method).
///
/// A dough that warms up while it waits rises faster the later it begins, and one that has to end at a moment begins the
/// later the faster it rises. In turns they would come to rest slowly, or never where two orders change places.
pub(crate) fn settle(used: [&[Lengths]; 2], reckoned_before: &[Lengths], reckoned: &mut [Lengths]) {
    for (bake, lengths) in reckoned.iter_mut().enumerate() {
        let takes = |of: &[Lengths], step: StepId| {
            let length = of.get(bake)?.get(&step)?;
            Some((length.end - length.start).get())
        };
        for &step in used[1][bake].keys() {
            let known = || {
                let [first, second] = used.map(|used| takes(used, step));
                let is = lengths
                    .get(&step)
                    .map(|length| (length.end - length.start).get());
                Some((first?, second?, takes(reckoned_before, step)?, is?))
            };
            let Some((first, second, was, is)) = known() else {
                continue;
            };
            // What is settled to the minute stays.
            if (is - second).abs() < 0.5 || (second - first).abs() < 0.1 {
                continue;
            }
            // Beyond what was reckoned it would leap over orders.
            let follows = ((is - was) / (second - first)).clamp(-1.0, 0.0);
            let Some(length) = lengths.get_mut(&step) else {
                continue;
            };
            length.end = length.start + minutes(second + (is - second) / (1.0 - follows));
            length.since = None;
        }
    }
}
