//! Whom a plan calls, and when: to begin a bread or go on with it, and to turn its oven on.
//!
//! A plan that is redone for a baker who is late has everything "now", or as soon as the hands are free of what they are
//! at. So a call keeps the moment at which it fell due; and what hands come to straight from other work calls nobody who
//! is at that.

use domain::bake::{Alarm, Bake, BakeId, CALLED, State, begin_alarm};
use domain::formula::{Step, StepId, StepKind};
use domain::schedule::plan::{NOTABLE, Plan, Timetable, What};
use domain::units::{Minutes, Moment, minutes};

use super::{Look, Planned, wished_at};

/// For so long whoever is at something else isn't called to begin a bread after it, and an oven that is put off by it
/// still calls when it was to be turned on. ASSUMPTION: judgement.
const AT_SOMETHING: Minutes = minutes(15.0);
/// A bread that goes on being put off is called for no more often than this. ASSUMPTION: judgement.
const AGAIN: Minutes = minutes(30.0);

impl Planned {
    /// What calls the hands to a bake: to begin it or, while the Bench doesn't show it, to what waits for them there.
    pub(crate) fn alarms(
        &self,
        bake: &Bake,
        states: Option<&[&State]>,
        look: Look,
        now: Moment,
    ) -> Vec<Alarm> {
        let Some(place) = self.place(&bake.id) else {
            return Vec::new();
        };
        let plan = &self.timetable.plan;
        let is_busy = |at: Moment| {
            let other = |states| is_at_other_work(plan, states, place, now);
            now - at < AT_SOMETHING && states.is_some_and(other)
        };
        let begins = self.calls.get(place).copied().flatten();
        let begins = begins.filter(|&at| at > now || !is_busy(at));
        let begins = begins.filter(|&at| look != Look::Goes || !is_at_it(bake.state(), states, at));
        let begins = begins.and_then(|at| begin_alarm(bake.state(), at));
        let last = match look {
            Look::Goes => None,
            Look::Went(last) => Some(last),
        };
        let waits = states.zip(last);
        let waits = waits.and_then(|(states, last)| plan.waiting_alarm(states, place, last, now));
        begins.into_iter().chain(waits).collect()
    }

    /// When the dough of a bake comes out of its night in the fridge, as far as the plan knows.
    pub(in crate::state) fn out_at(&self, bake: &BakeId) -> Option<(StepId, Moment)> {
        *self.outs.get(self.place(bake)?)?
    }

    /// When the oven of a bake is to be turned on, as far as the plan knows.
    pub(in crate::state) fn oven_at(&self, bake: &Bake) -> Option<Moment> {
        *self.ovens.get(self.place(&bake.id)?)?
    }
}

/// Whether the hands are at something by a plan that comes before what a bake begins with.
fn is_at_other_work(plan: &Plan, states: &[&State], place: usize, now: Moment) -> bool {
    let Some(item) = plan.hands_at(states, now) else {
        return false;
    };
    let begins = plan.begin_of(place, states[place]);
    item.what.of().is_some_and(|(bake, step)| {
        let is_it = bake == place && begins.is_some_and(|(first, _)| first == step);
        item.start - now < CALLED && states[bake].is_open(step) && !is_it
    })
}

/// Whether somebody pressed something so shortly before a moment that they are at what the Bench has asked of a bread
/// since. What hasn't begun is still waited for.
fn is_at_it(state: &State, states: Option<&[&State]>, at: Moment) -> bool {
    let others = states.unwrap_or_default().iter();
    let pressed = others.fold(state.newest, |last, other| last.max(other.newest));
    state.has_begun() && !state.is_back_at(at) && at - pressed < AT_SOMETHING
}

/// A moment that lies ahead. Plans begin with a whole minute, so less than one ahead is now.
pub(super) fn ahead(moment: Moment, at: Moment) -> Option<Moment> {
    (moment - at >= CALLED).then_some(moment)
}

/// Whose hands' work a plan has right before a moment.
pub(super) fn behind(plan: &Plan, states: &[&State], moment: Moment) -> Vec<usize> {
    let work = plan.items.iter().filter(|item| {
        let left = moment - item.end;
        left.get() >= 0.0 && left < NOTABLE && item.start < moment
    });
    let of = work.filter_map(|item| {
        let (bake, step) = item.what.of()?;
        let is_step = matches!(item.what, What::Step(..));
        let is_hands = !is_step || states[bake].formula.step(step).is_some_and(Step::is_hands);
        is_hands.then_some(bake)
    });
    of.collect()
}

/// When somebody is called to what is next of a bake, right behind the work of which bakes, and was called at `was` before,
/// if they were. One call is enough for a bread that has begun, unless something else was wished since.
pub(super) fn to_begin(
    place: usize,
    bake: &Bake,
    next: Moment,
    behind: &[usize],
    was: Option<Moment>,
    at: Moment,
) -> Option<Moment> {
    // Who is at the one goes on to the other.
    if behind.contains(&place) {
        return None;
    }
    let passed = was.filter(|&was| was <= at && next - was < AGAIN);
    let put_off = passed.filter(|&was| {
        let has_begun = bake.state().has_begun();
        !behind.is_empty() || has_begun && wished_at(bake).is_none_or(|wished| wished <= was)
    });
    Some(put_off.unwrap_or(next))
}

/// By bake: when a plan has its oven turned on; where that is put off minute by minute, when it was to be.
pub(super) fn ovens(
    bakes: &[Bake],
    timetable: &Timetable,
    before: Option<&Planned>,
) -> Vec<Option<Moment>> {
    let on = |(place, bake): (usize, &Bake)| {
        let mut steps = bake.state().formula.steps.iter();
        let step = steps.find(|step| step.kind == StepKind::OvenOn)?;
        let planned = timetable.plan.item(What::Step(place, step.id))?.start;
        let was = before.and_then(|before| before.oven_at(bake));
        let is_kept = |was: &Moment| planned >= *was && planned - *was < AT_SOMETHING;
        Some(was.filter(is_kept).unwrap_or(planned))
    };
    bakes.iter().enumerate().map(on).collect()
}

/// By bake: when a plan has its dough turned out that lies in the fridge; once that is due, since when it is.
pub(super) fn outs(
    bakes: &[Bake],
    timetable: &Timetable,
    at: Moment,
    before: Option<&Planned>,
) -> Vec<Option<(StepId, Moment)>> {
    let out = |(place, bake): (usize, &Bake)| {
        let state = bake.state();
        let mut steps = state.formula.steps.iter();
        let lies = |step: &&Step| step.retards_for().is_some() && state.is_open(step.id);
        let night = steps.find(lies)?.id;
        let planned = timetable.plan.item(What::Step(place, night))?.end;
        let was = before.and_then(|before| before.out_at(&bake.id));
        let was = was.filter(|&(of, was)| of == night && was <= at);
        ahead(planned, at).map(|planned| (night, planned)).or(was)
    };
    bakes.iter().enumerate().map(out).collect()
}
