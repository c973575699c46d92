//! A running bake as the screens need it: everything derived, reckoned once a beat.

use domain::bake::{self, Alarm, Bake, BakeId, State, Status};
use domain::estimate::Estimate;
use domain::formula::{Step, StepId, StepKind};
use domain::schedule::plan::{RetardPart, What};
use domain::schedule::{
    Ask, InFridge, LeftOut, Outline, Running, focus, focus_by, in_order, offers, outline, running,
};
use domain::units::{Minutes, Moment, minutes};

use self::elsewhere::elsewhere;
use super::Planned;
use super::plan::running_bakes;
use crate::words;

mod elsewhere;

/// A running bake with what follows from it at a moment.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct BakeView {
    /// The bake.
    pub(crate) bake: Bake,
    /// The moment everything here was reckoned for.
    pub(crate) at: Moment,
    /// What the baker is asked for.
    pub(crate) ask: Ask,
    /// What goes on by itself, the next to look at first.
    pub(crate) running: Vec<Running>,
    /// The work that free hands could do, best first.
    pub(crate) offers: Vec<StepId>,
    /// Alarms that have not been heard, soonest first.
    pub(crate) alarms: Vec<Alarm>,
    /// What is said of food that stood out too long, and whether it is lost; nothing until the late half is here.
    pub(crate) stood: (bool, String),
    /// When the next alarm falls due, of those that haven't.
    pub(crate) next_due: Option<Moment>,
    /// The rest of the bake.
    pub(crate) outline: Outline,
    /// What the plan of all bakes says of this one, if there is a plan.
    pub(crate) by_plan: ByPlan,
}

/// What the plan of all bakes says of one.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct ByPlan {
    /// When it is on the table.
    pub(crate) table: Option<Estimate<Moment>>,
    /// The hands' next work but what is asked, of whichever bake, and when.
    pub(crate) next: Option<(BakeId, StepId, Moment)>,
    /// Until when what is asked, or rests, is let wait on purpose.
    pub(crate) waits_until: Option<Moment>,
    /// How much later that is than is good for it, if it is.
    pub(crate) waits_too_long: Option<Minutes>,
    /// What is left out for too long while it waits.
    pub(crate) left_out: Option<LeftOut>,
    /// What stays in the fridge when all else is gathered.
    pub(crate) in_fridge: Vec<InFridge>,
    /// Where the hands are wanted instead.
    pub(crate) hands_at: Option<(BakeId, StepId)>,
    /// For which other bread the oven is to be on soon.
    pub(crate) oven_for: Option<BakeId>,
    /// What would be asked, if the hands weren't wanted elsewhere first. Then nothing is asked here.
    pub(crate) rests: Option<Ask>,
}

/// Work that is planned for so soon is as good as asked for now. ASSUMPTION: judgement.
const SOON: Minutes = minutes(5.0);
/// An oven that is turned on again so soon stays on. ASSUMPTION: judgement: it would hardly cool, and has to heat again.
const ON_AGAIN: Minutes = minutes(15.0);
/// For how long at least it is worth putting away what was weighed. ASSUMPTION: judgement.
const PUT_AWAY: Minutes = minutes(15.0);
/// A plan counts whole minutes of the clock, so what is to begin at once begins with the next.
const AT_ONCE: Minutes = minutes(1.0);

impl BakeView {
    fn of(bake: &Bake, now: Moment) -> Self {
        let state = bake.state();
        let alarms = bake::alarms(state, now);
        let next_due = alarms.iter().map(|alarm| alarm.due).find(|&due| due > now);
        Self {
            ask: focus(state, now),
            running: running(state, now),
            offers: offers(state, now),
            next_due,
            alarms,
            stood: (false, String::new()),
            outline: outline(state, now),
            by_plan: ByPlan::default(),
            bake: bake.clone(),
            at: now,
        }
    }

    /// When it is on the table: as the plan has it, where there is one.
    pub(crate) fn table(&self) -> &Estimate<Moment> {
        self.by_plan.table.as_ref().unwrap_or(&self.outline.table)
    }

    /// What is asked of this bake for itself, wherever the hands are wanted.
    pub(crate) fn own_ask(&self) -> Ask {
        self.by_plan.rests.unwrap_or(self.ask)
    }

    /// What is left in the fridge when all else is gathered, in a sentence.
    pub(crate) fn leave_in_fridge(&self) -> Option<String> {
        words::plan::leave_in_fridge(self.bake.state(), &self.by_plan.in_fridge, self.at)
    }

    /// The same where a step is that gathering.
    pub(crate) fn leave_at(&self, step: StepId) -> Option<String> {
        let step = self.bake.state().formula.step(step)?;
        (step.kind == StepKind::Gather).then(|| self.leave_in_fridge())?
    }

    /// Whether anything of it is to be thrown away.
    pub(crate) fn has_lost(&self) -> bool {
        self.stood.0
    }

    /// Whether the fold that is asked for is better left out.
    pub(crate) fn folds_too_late(&self) -> bool {
        let mut running = self.running.iter();
        running.any(|one| self.ask == Ask::Fold(one.step) && one.folds_too_late(self.at))
    }

    /// How much this bake needs the baker: less is more.
    pub(crate) fn rank(&self) -> (u8, Moment) {
        let soonest = self.running.first().map_or(self.at, |next| next.look);
        match self.ask {
            ask if ask.is_due() => (0, soonest),
            Ask::Work(step) if self.bake.state().to_take_out() == Some(step) => (0, self.at),
            Ask::Work(_) => (1, self.bake.state().started),
            Ask::AllDone => (2, self.at),
            _ => (3, soonest),
        }
    }
}

/// The same with what free hands do in the order of a plan; without one nothing changes.
pub(super) fn by_plan(views: &[BakeView], planned: Option<&Planned>) -> Vec<BakeView> {
    match planned {
        Some(planned) => door()(views, planned),
        None => views.to_vec(),
    }
}

/// What follows a plan, late as the plan itself.
fn door() -> fn(&[BakeView], &Planned) -> Vec<BakeView> {
    std::hint::black_box(follow)
}

fn follow(views: &[BakeView], planned: &Planned) -> Vec<BakeView> {
    let mut found = views.to_vec();
    let plan = &planned.timetable.plan;
    let state = |id: &BakeId| views.iter().find(|view| view.bake.id == *id);
    let states: Option<Vec<&State>> = planned
        .bakes
        .iter()
        .map(|id| Some(state(id)?.bake.state()))
        .collect();
    let Some(states) = states else {
        return found;
    };
    for view in &mut found {
        let Some(place) = planned.place(&view.bake.id) else {
            continue;
        };
        // What is reckoned without a plan has a dough come out of the fridge when that is likely.
        if let Some((night, out)) = planned.out_at(&view.bake.id)
            && view
                .running
                .iter()
                .any(|of| of.step == night && of.look != out)
        {
            let stood = std::mem::take(&mut view.stood);
            *view = BakeView {
                stood,
                ..BakeView::of(&view.bake.turned_out_at(night, out), view.at)
            };
        }
        let (state, at) = (view.bake.state(), view.at);
        // With nothing to choose from there is no order.
        if view.offers.len() > 1 {
            let order = plan.order_of(place);
            in_order(state, &mut view.offers, &order);
            view.ask = focus_by(state, at, &order);
        }
        // For some minutes nothing is put away; what somebody was called to may stand out since then.
        let called = planned.called(place, at);
        let left_out = plan.left_out(place, state, called);
        let for_minutes = |left: &LeftOut| {
            let ahead = left.at - at;
            called.is_none() && !left.is_dough && ahead.get() > 0.0 && ahead < PUT_AWAY
        };
        view.by_plan.left_out = left_out.filter(|left| !for_minutes(left));
        view.by_plan.in_fridge = plan.stay_in_fridge(place, state);
        view.by_plan.table = planned.timetable.ready.get(place).copied().flatten();
        view.by_plan.oven_for = plan.items.iter().find_map(|item| match item.what {
            What::Step(of, step) if of != place && item.start - at < ON_AGAIN => {
                let step = states[of].formula.step(step)?;
                (step.kind == StepKind::OvenOn).then(|| planned.bakes[of].clone())
            }
            _ => None,
        });
        let is_at_it = match view.ask {
            Ask::Work(step) => state
                .formula
                .step(step)
                .is_some_and(|step| state.is_begun(step)),
            _ => false,
        };
        let is_free = matches!(view.ask, Ask::Work(_) | Ask::Wait(_) | Ask::Idle) && !is_at_it;
        if is_free {
            view.by_plan.hands_at = elsewhere(planned, &states, views, (place, at));
        }
        // Who waits for a rise isn't at putting it into the fridge yet.
        let is_done_now = !matches!(view.ask, Ask::Wait(_) | Ask::Look(_) | Ask::Fold(_));
        let asked = view.ask.step().filter(|_| is_done_now);
        let asked = asked.map(|step| (place, step));
        let is_elsewhere = view.by_plan.hands_at.is_some();
        // What should have begun by now is next all the same, as long as nobody says that it is done.
        let next = work(planned, &states).find(|&(bake, step, _)| {
            // One way to another bread at a time.
            Some((bake, step)) != asked && (bake == place || !is_elsewhere)
        });
        view.by_plan.next =
            next.map(|(bake, step, start)| (planned.bakes[bake].clone(), step, start.max(at)));
        if let (Ask::Work(step), false) = (view.ask, is_at_it) {
            let mut work = work(planned, &states);
            let start = work.find(|&(bake, other, _)| (bake, other) == (place, step));
            view.by_plan.waits_until = start
                .map(|(.., start)| start)
                .filter(|&start| start - at > SOON && !view.has_lost());
            let items = plan.items.iter();
            let mut item = items.filter(|item| item.what == What::Step(place, step));
            let too_late_by = item.find_map(|item| item.too_late_by);
            view.by_plan.waits_too_long = too_late_by.filter(|late| late.get() >= 1.0);
        }
        let is_baked = view.by_plan.hands_at.as_ref().is_some_and(|(bake, step)| {
            let of = planned.place(bake).map(|place| states[place]);
            !is_at_it && of.and_then(State::to_take_out) == Some(*step)
        });
        let is_paused = matches!(state.status, Status::Paused { .. });
        let can_rest = match view.ask {
            // What burns elsewhere takes the place of whatever wasn't begun.
            Ask::Work(_) => view.by_plan.waits_until.is_some() || is_baked,
            // Who turned to a wait stays with it.
            Ask::Wait(step) => state.picked != Some(step),
            Ask::Idle => true,
            _ => false,
        };
        if is_elsewhere && !is_paused && can_rest {
            view.by_plan.rests = Some(view.ask);
            view.ask = Ask::Idle;
        }
    }
    found
}

/// The work of hands that is left in a plan, in its order: of which bake, the step, and when.
fn work<'a>(
    planned: &'a Planned,
    states: &'a [&State],
) -> impl Iterator<Item = (usize, StepId, Moment)> + 'a {
    let items = planned.timetable.plan.items.iter();
    items.filter_map(|item| match item.what {
        What::Step(bake, step) => {
            let state = states[bake];
            let is_hands = state.formula.step(step).is_some_and(Step::is_hands);
            let is_left = state.progress(step).ended.is_none();
            (is_hands && is_left).then_some((bake, step, item.start))
        }
        What::Retard(bake, step, part) if part != RetardPart::Stands => {
            let is_left = states[bake].retards.contains_key(&step);
            is_left.then_some((bake, step, item.start))
        }
        _ => None,
    })
}

/// Where the bakes of some views stand.
pub(crate) fn states(views: &[BakeView]) -> Vec<&State> {
    views.iter().map(|view| view.bake.state()).collect()
}

/// Every bake that is not over.
pub(super) fn views(bakes: &[Bake], now: Moment) -> Vec<BakeView> {
    let views = running_bakes(bakes).map(|bake| BakeView::of(bake, now));
    views.collect()
}

/// Says of each what has stood out too long.
pub(super) fn with_stood(views: &mut [BakeView]) {
    for view in views {
        view.stood = door_to_stood()(view.bake.state(), view.at);
    }
}

fn door_to_stood() -> fn(&State, Moment) -> (bool, String) {
    std::hint::black_box(words::stood)
}

#[cfg(test)]
mod due;
#[cfg(test)]
mod tests;
