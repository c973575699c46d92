//! How many of a thing several bakes have in use at once.

use crate::bake::State;
use crate::formula::Step;
use crate::formula::gather::Tool;
use crate::schedule::plan::{Plan, What};
use crate::units::Moment;

/// How many of some bakes have something in use at once: by the plan from the first of what is left that takes it to the
/// end of the last. Bakes come with their places in the plan; one that isn't in it may take it at any time.
#[must_use]
pub fn in_use(tool: Tool, bakes: &[(&State, Option<usize>)], plan: Option<&Plan>) -> u16 {
    let spans = bakes.iter().filter_map(|&(state, place)| {
        let takes = |step: &&Step| tool.is_taken_by(step, &state.formula);
        let mut steps = state.formula.steps.iter().filter(takes);
        let Some((bake, plan)) = place.zip(plan) else {
            return steps.next().map(|_| (None, None));
        };
        let items = plan.items.iter().filter(|item| match item.what {
            What::Step(of, step) if of == bake => {
                state.formula.step(step).as_ref().is_some_and(takes)
            }
            _ => false,
        });
        let is_taken = steps.any(|step| state.progress(step.id).open_since.is_some());
        let from = items.clone().map(|item| item.start).min()?;
        let to = items.map(|item| item.end).max();
        Some(((!is_taken).then_some(from), to))
    });
    let spans: Vec<(Option<Moment>, Option<Moment>)> = spans.collect();
    // Nothing is before every moment, and as an end after it.
    let at = |moment: Option<Moment>| {
        let in_use = spans.iter();
        let in_use =
            in_use.filter(|(from, to)| *from <= moment && to.is_none_or(|to| moment < Some(to)));
        in_use.count()
    };
    let most = spans.iter().map(|&(from, _)| at(from)).max();
    u16::try_from(most.unwrap_or(0)).unwrap_or(u16::MAX)
}
