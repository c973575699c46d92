//! The rest of a bake, step by step, with the moment it should be on the table.

use std::cell::OnceCell;

use super::offers::{rank, start_by};
use super::tails::tails;
use crate::bake::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{Length, Step, StepId, StepKind};
use crate::sorted::Map;
use crate::units::{Minutes, Moment, minutes};

/// A step that is still to end, with its likely times.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Planned {
    /// The step.
    pub step: StepId,
    /// When it starts, or started.
    pub start: Moment,
    /// When it ends.
    pub end: Moment,
    /// How far its end may be off for its own reasons: earlier and later.
    pub slack: (Minutes, Minutes),
    /// What its start waited for: another step, or nothing but now.
    pub waited_for: Option<StepId>,
    /// How much longer it will wait than its links allow; only for what hasn't begun by now.
    pub too_late_by: Option<Minutes>,
}

/// The rest of a bake.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// Every step that has not ended, by start.
    pub steps: Vec<Planned>,
    /// When the last one ends.
    pub table: Estimate<Moment>,
}

/// The rest of a bake, if nothing unusual happens from now on.
///
/// The window of the end combines, in quadrature, the windows of the steps on
/// the chain that it hangs on: they are taken as independent of each other. Of days drawn with one kitchen
/// each 4 to 8 % end before it and 11 to 17 % after it, and 60 to 70 % after the likely moment: not for the kitchen,
/// which by itself moves an end by 2 percentage points at most, but because most steps can take much longer than likely
/// and only a little less long, which adds up.
#[must_use]
pub fn outline(state: &State, now: Moment) -> Outline {
    forwards(state, now, true)
}

/// The same without the windows of what hasn't begun, in a fraction of the time: for a question
/// about likely moments only. Those are the same, to the millisecond.
#[must_use]
pub fn likely_outline(state: &State, now: Moment) -> Outline {
    forwards(state, now, false)
}

fn forwards(state: &State, now: Moment, windows: bool) -> Outline {
    let mut forward = Forward {
        state,
        now,
        windows,
        tails: OnceCell::new(),
        hands_free: now,
        last_work: None,
        planned: Map::new(),
    };
    forward.run();
    let table = forward.table();
    let mut steps: Vec<Planned> = forward
        .planned
        .into_iter()
        .map(|(_, value)| value)
        .collect();
    steps.sort_by_key(|planned| (planned.start, planned.end));
    Outline { steps, table }
}

/// When the dough of a step is planned to begin to follow the kitchen: as its
/// first rise begins, or as it comes out of the fridge.
pub(super) fn warming_since(
    state: &State,
    step: &Step,
    planned_at: &dyn Fn(StepId) -> Option<Planned>,
) -> Option<Moment> {
    let from_fridge = matches!(
        step.length,
        Length::Ferment {
            from_fridge: true,
            ..
        }
    );
    let steps = state.formula.steps.iter();
    let planned = steps
        .filter(|other| other.component == step.component)
        .filter_map(|other| Some((other, planned_at(other.id)?)));
    if from_fridge {
        let out = planned.filter(|(other, _)| other.kind == StepKind::Retard);
        return out.map(|(_, planned)| planned.end).max();
    }
    if let Some((put, stays)) = state.supposed_out(step) {
        return planned_at(put).map(|planned| planned.start + stays);
    }
    let rises = planned.filter(|(other, _)| matches!(other.length, Length::Ferment { .. }));
    rises.map(|(_, planned)| planned.start).min()
}

/// Work that could be taken up.
struct Ready<'a> {
    step: &'a Step,
    ready: Moment,
    start: Moment,
    /// The moment after which waiting harms it.
    by: Option<Moment>,
    waited_for: Option<StepId>,
}

struct Forward<'a> {
    state: &'a State,
    now: Moment,
    /// Whether the windows of steps that haven't begun are asked for.
    windows: bool,
    // Reckoned when two steps first compete for the hands.
    tails: OnceCell<Map<StepId, Minutes>>,
    hands_free: Moment,
    last_work: Option<StepId>,
    planned: Map<StepId, Planned>,
}

impl Forward<'_> {
    fn run(&mut self) {
        self.go_on_with_work();
        loop {
            while self.plan_what_goes_on_by_itself() {}
            let Some((step, ready, waited_for)) = self.next_work() else {
                break;
            };
            self.plan_work(step, ready, waited_for);
        }
    }

    /// What the hands are in the middle of isn't taken from them, and only what is left of it takes time.
    fn go_on_with_work(&mut self) {
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

    fn plan_what_goes_on_by_itself(&mut self) -> bool {
        let steps = self.state.formula.steps.iter();
        let next = steps
            .filter(|step| !step.is_hands() && self.is_left(step.id))
            .find_map(|step| Some((step, self.ready(step)?)));
        let Some((step, (ready, waited_for))) = next else {
            return false;
        };
        let (start, window, look) = match self.state.forecast(step.id, self.now) {
            // "Not yet" moves the look, and with it the end that can be reckoned with.
            Some(forecast) => (forecast.start, forecast.window, forecast.look),
            None => {
                let planned = |step| self.planned.get(&step).copied();
                let warming_since = warming_since(self.state, step, &planned);
                // An oven is on early enough for the early end of what it is wanted after.
                let length = if self.windows || self.is_led_up_to(step.id) {
                    let state = self.state;
                    state.length_if_warming_since(step, ready, warming_since)
                } else {
                    let likely = self.state.likely_length(step, ready, warming_since);
                    Estimate::exact(likely, Basis::Model)
                };
                let window = length.map(|length| ready + length);
                (ready, window, window.likely())
            }
        };
        let end = window.likely().max(look).max(self.now);
        let planned = Planned {
            step: step.id,
            start,
            end,
            slack: (
                (end - window.low()).max(minutes(0.0)),
                (window.high() - end).max(minutes(0.0)),
            ),
            waited_for,
            too_late_by: self.too_late_by(step, start),
        };
        self.planned.insert(step.id, planned);
        true
    }

    /// Whether something is timed by the early end of a step.
    fn is_led_up_to(&self, step: StepId) -> bool {
        let mut steps = self.state.formula.steps.iter();
        steps.any(|other| other.ahead_of == Some(step))
    }

    /// The work that hands take up next: of what is ready when they are free, what
    /// presses most; else whatever is ready first. It gives way to what would wait
    /// too long for it to end, unless that made it wait too long itself.
    fn next_work(&self) -> Option<(StepId, Moment, Option<StepId>)> {
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

    /// When a step ended, or is planned to.
    fn end_of(&self, step: StepId) -> Option<Moment> {
        match self.state.progress(step).ended {
            Some(ended) => Some(ended.at),
            None => Some(self.planned.get(&step)?.end),
        }
    }

    fn too_late_by(&self, step: &Step, start: Moment) -> Option<Minutes> {
        let by = start_by(step, &|step| self.end_of(step))?;
        (start > self.now && start > by).then(|| start - by)
    }

    fn plan_work(&mut self, step: StepId, ready: Moment, waited_for: Option<StepId>) {
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

    fn is_left(&self, step: StepId) -> bool {
        self.state.progress(step).ended.is_none() && !self.planned.contains_key(&step)
    }

    /// When a step may start, and the step it had to wait for; nothing while
    /// the end of something it follows isn't known.
    fn ready(&self, step: &Step) -> Option<(Moment, Option<StepId>)> {
        let mut ready = (self.now, None);
        for link in &step.after {
            let end = self.end_of(link.step)?;
            if end + link.least > ready.0 {
                ready = (end + link.least, Some(link.step));
            }
        }
        // A rise that is planned to stand in the fridge begins as it is put there.
        if let Some(&(from, _)) = self.state.retards.get(&step.id) {
            ready.0 = ready.0.max(from);
        }
        let Some(ahead_of) = step.ahead_of else {
            return Some(ready);
        };
        if self.state.progress(ahead_of).ended.is_some() {
            return Some(ready);
        }
        let planned = self.planned.get(&ahead_of)?;
        let heats_in = self.state.kitchen.oven_heats_in;
        let turn_on = planned.end - planned.slack.0 - heats_in;
        Some((ready.0.max(turn_on), ready.1))
    }

    fn table(&self) -> Estimate<Moment> {
        let Some(last) = self.planned.values().max_by_key(|planned| planned.end) else {
            return Estimate::exact(self.state.newest, Basis::Measured);
        };
        let (mut early_squared, mut late_squared) = (0.0, 0.0);
        let mut chain = Some(last);
        let mut seen = 0;
        while let Some(planned) = chain {
            early_squared += planned.slack.0.get().powi(2);
            late_squared += planned.slack.1.get().powi(2);
            seen += 1;
            // A chain is never longer than the bake; the bound keeps a mistake from hanging it.
            chain = planned
                .waited_for
                .filter(|_| seen <= self.planned.len())
                .and_then(|step| self.planned.get(&step));
        }
        let early = Minutes::clamped(f64::sqrt(early_squared));
        let late = Minutes::clamped(f64::sqrt(late_squared));
        let low = (last.end - early).max(self.now);
        Estimate::new(low, last.end, last.end + late, Basis::Model)
    }
}
