//! What hands do, one thing after the other: what they are at, and what they take up next.

use super::Planned;
use super::forward::Forward;
use crate::formula::{Step, StepId};
use crate::schedule::offers::{rank, start_by};
use crate::schedule::tails::tails;
use crate::units::{Minutes, Moment};

/// Work that could be taken up.
struct Ready<'a> {
    step: &'a Step,
    ready: Moment,
    start: Moment,
    /// The moment after which waiting harms it.
    by: Option<Moment>,
    waited_for: Option<StepId>,
}

impl Forward<'_> {
    /// What the hands are in the middle of isn't taken from them, and only what is left of it takes time.
    pub(super) fn go_on_with_work(&mut self) {
        let Some(work) = self.state.at_work(self.now) else {
            return;
        };
        let Some(step) = self.state.formula.step(work.step) else {
            return;
        };
        let length = self.state.length_if_started(step, work.since);
        let end = self.now + work.left;
        let planned = Planned {
            step: work.step,
            start: work.since.min(self.now),
            end,
            slack: (
                (length.likely() - length.low()).min(work.left),
                length.high() - length.likely(),
            ),
            waited_for: None,
            too_late_by: None,
        };
        self.planned.insert(work.step, planned);
        self.hands_free = end;
        self.last_work = Some(work.step);
    }

    /// The work that hands take up next: of what is ready when they are free, what
    /// presses most; else whatever is ready first. It gives way to what would wait
    /// too long for it to end, unless that made it wait too long itself.
    pub(super) fn next_work(&self) -> Option<(StepId, Moment, Option<StepId>)> {
        let steps = self.state.formula.steps.iter();
        let ready: Vec<Ready> = steps
            .filter(|step| step.is_hands() && self.is_left(step.id))
            .filter_map(|step| {
                let (ready, waited_for) = self.ready(step)?;
                Some(Ready {
                    step,
                    ready,
                    start: ready.max(self.hands_free),
                    by: start_by(step, &|step| self.end_of(step)),
                    waited_for,
                })
            })
            .collect();
        let first = ready.iter().map(|ready| ready.start).min()?;
        let compete: Vec<&Ready> = ready.iter().filter(|ready| ready.start == first).collect();
        let best = match compete[..] {
            [one] => one,
            _ => {
                let tails = self.tails.get_or_init(|| tails(self.state, self.now));
                let rank = |one: &&Ready| rank(one.step, one.by, first, tails);
                compete.into_iter().min_by_key(rank)?
            }
        };
        let end_of = |one: &Ready| one.start + self.likely_length(one);
        let ends = end_of(best);
        let harmed = ready.iter().filter(|other| {
            let in_time = other.by.is_some_and(|by| other.start <= by && by < ends);
            in_time && best.by.is_none_or(|by| end_of(other) <= by)
        });
        let next = harmed.min_by_key(|other| other.by).unwrap_or(best);
        Some((next.step.id, next.ready, next.waited_for))
    }

    fn likely_length(&self, work: &Ready) -> Minutes {
        self.state.length_if_started(work.step, work.start).likely()
    }

    pub(super) fn plan_work(&mut self, step: StepId, ready: Moment, waited_for: Option<StepId>) {
        let Some(formula_step) = self.state.formula.step(step) else {
            return;
        };
        let length = self.state.length_if_started(formula_step, ready);
        let waited_for = if self.hands_free > ready {
            self.last_work
        } else {
            waited_for
        };
        let start = ready.max(self.hands_free);
        let end = start + length.likely();
        let planned = Planned {
            step,
            start,
            end,
            slack: (
                length.likely() - length.low(),
                length.high() - length.likely(),
            ),
            waited_for,
            too_late_by: self.too_late_by(formula_step, start),
        };
        self.planned.insert(step, planned);
        self.hands_free = end;
        self.last_work = Some(step);
    }
}
