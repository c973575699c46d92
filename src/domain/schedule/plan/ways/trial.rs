//! Plans for other wishes or other states than there are, one after the other.
//!
//! A question about ways out asks for dozens of plans. Between two of them others have a turn, so
//! that a page that asks stays responsive, and can leave off. What patience didn't last to prove
//! ends the question as well: what is said here is proven, or isn't said.

use std::borrow::Cow;
use std::pin::Pin;

use crate::bake::{State, Wishes};
use crate::formula::StepId;
use crate::schedule::plan::timetable::{
    after_retards, away, margins, not_before, table_of, timetable_with,
};
use crate::schedule::plan::{Bounds, Goal, Item, Margin, Plan, What, plan};
use crate::units::{Minutes, Moment, minutes};

/// Gives others a turn, and says whether to go on.
pub type Rest<'a> = &'a dyn Fn() -> Pin<Box<dyn Future<Output = bool>>>;

/// How often one search may ask whether to go on, which it does for equal parts of what it costs.
pub(crate) const PATIENCE: u32 = 8_000;
/// Plans go by whole minutes, so less than that is nothing.
const NOTHING: f64 = 0.5;

/// The question was left off, or something in it couldn't be proven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct LeftOff;

/// Some bakes, as they are or as they could be, with what is wished of each.
#[derive(Clone)]
pub(crate) struct Case<'a> {
    pub bakes: Vec<Cow<'a, State>>,
}

impl<'a> Case<'a> {
    /// Bakes as they are by now. A dough that wasn't moved is taken to be so once for all plans, since what is reckoned
    /// of it is kept.
    pub(crate) fn of(bakes: &[&'a State], now: Moment) -> Self {
        let bakes = bakes.iter().map(|state| {
            let unmoved = state.unmoved_by(now).map(Cow::Owned);
            unmoved.unwrap_or(Cow::Borrowed(*state))
        });
        Self {
            bakes: bakes.collect(),
        }
    }

    /// The same with other wishes.
    pub(crate) fn wishing(mut self, edit: &dyn Fn(&mut Wishes)) -> Self {
        for bake in &mut self.bakes {
            let mut wishes = bake.wishes.clone();
            edit(&mut wishes);
            if wishes != bake.wishes {
                bake.to_mut().wishes = wishes;
            }
        }
        self
    }

    pub(crate) fn states(&self) -> Vec<&State> {
        self.bakes.iter().map(AsRef::as_ref).collect()
    }
}

/// How a case is planned.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum As {
    /// As the app plans it.
    Wished,
    /// Everything as soon as can be: whether wishes can be kept shows already.
    Soonest,
    /// The same without buffers: everything that waits begins as late as its table allows.
    Latest,
}

/// What a case comes to.
#[derive(Debug, Clone)]
pub(crate) struct Trial {
    /// None where nothing can be done so.
    pub plan: Option<Plan>,
    /// How long after their tables breads are ready, all tables together.
    pub late: Minutes,
    /// How it stands to each table.
    pub margins: Vec<Margin>,
    /// How much longer than it should something waits for the sake of the wishes, all such waits together.
    pub waits: Minutes,
    /// How much longer than its buffer a bread waits before its table, at most.
    pub early: Minutes,
    /// Whether more is to stand in the fridge than fits, for the sake of the wishes.
    pub is_full: bool,
}

impl Trial {
    /// How far it is from what is wished.
    pub(crate) fn amiss(&self) -> Minutes {
        self.late + self.waits
    }

    pub(crate) fn is_kept(&self) -> bool {
        self.is_kept_but(minutes(0.0))
    }

    /// Whether nothing is amiss but tables that are missed by so much.
    pub(crate) fn is_kept_but(&self, late: Minutes) -> bool {
        (self.amiss() - late).get() < NOTHING && !self.is_full
    }

    /// When a step is planned.
    pub(crate) fn step(&self, bake: usize, step: StepId) -> Option<&Item> {
        self.plan.as_ref()?.item(What::Step(bake, step))
    }
}

/// One question after the other, at a moment.
pub(crate) struct Trials<'a> {
    pub now: Moment,
    rest: Rest<'a>,
    /// How long things wait too long whatever is wished.
    anyway: Minutes,
    /// Whether more is to stand in the fridge than fits whatever is wished.
    full_anyway: bool,
    /// What is planned where nothing is wished.
    pub free: Option<Plan>,
}

impl<'a> Trials<'a> {
    /// # Errors
    /// Where it was left off.
    pub(crate) async fn of(bakes: &[&State], now: Moment, rest: Rest<'a>) -> Result<Self, LeftOff> {
        let mut trials = Self {
            now,
            rest,
            anyway: minutes(0.0),
            full_anyway: false,
            free: None,
        };
        let free = |is: &&State| {
            let mut state = (*is).clone();
            state.pins.clear();
            for &step in is.retards.keys() {
                state.stay_instead(step, None);
            }
            state.wishes = Wishes::default();
            Cow::Owned(state)
        };
        let unwished = Case {
            bakes: bakes.iter().map(free).collect(),
        };
        let free = trials.tried(&unwished, As::Soonest).await?;
        trials.anyway = free.waits;
        trials.full_anyway = free.is_full;
        trials.free = free.plan;
        Ok(trials)
    }

    /// # Errors
    /// Where it was left off.
    pub(crate) async fn tried(&self, case: &Case<'_>, how: As) -> Result<Trial, LeftOff> {
        if !(self.rest)().await {
            return Err(LeftOff);
        }
        let mut left = PATIENCE;
        let mut go_on = || is_patient(&mut left);
        let (states, now) = (case.states(), self.now);
        let found = match how {
            As::Soonest => soonest(&states, now, &mut go_on),
            As::Wished | As::Latest => {
                let buffers = how == As::Wished;
                let found = timetable_with(&states, buffers, now, None, u32::MAX, &mut go_on);
                found.map(|timetable| (timetable.plan, timetable.margins))
            }
        };
        if left == 0 {
            return Err(LeftOff);
        }
        let none = minutes(0.0);
        let Some((plan, margins)) = found else {
            return Ok(Trial {
                plan: None,
                late: Minutes::MAX,
                margins: Vec::new(),
                waits: none,
                early: none,
                is_full: false,
            });
        };
        let is_full = plan.fridge_full(&states).is_some() && !self.full_anyway;
        let over = plan.items.iter().filter_map(|item| item.too_late_by);
        let over = over.fold(none, |all, over| all + over);
        let late = margins.iter().map(Margin::late);
        let early = margins.iter().map(|margin| margin.spare() - margin.buffer);
        Ok(Trial {
            late: late.fold(none, |all, late| all + late),
            waits: (over - self.anyway).max(none),
            early: early.fold(none, Minutes::max),
            is_full,
            plan: Some(plan),
            margins,
        })
    }

    /// With which step a bake begins whose retard is planned, and when: as late as lets its dough be ready by then, but
    /// for what the work before may be late, beside the others as they are planned. None where it can't be.
    ///
    /// # Errors
    /// Where it was left off.
    pub(crate) async fn begins(
        &self,
        case: &Case<'_>,
        bake: usize,
        planned: &Plan,
    ) -> Result<Option<(StepId, Moment)>, LeftOff> {
        if !(self.rest)().await {
            return Err(LeftOff);
        }
        let mut left = PATIENCE;
        let states = case.states();
        let Some(by) = after_retards(states[bake]) else {
            return Ok(None);
        };
        let mut others = planned.clone();
        others
            .items
            .retain(|item| item.what.of().is_none_or(|(of, _)| of != bake));
        let bounds = Bounds {
            goal: Goal::By(by),
            closed: &away(&states),
            beside: Some((&others, &states)),
            not_before: &[not_before(states[bake])],
            pins: true,
            ..Bounds::default()
        };
        let go_on = &mut || is_patient(&mut left);
        let found = plan(&states[bake..=bake], bounds, self.now, None, go_on);
        if left == 0 {
            return Err(LeftOff);
        }
        let found = found.map(|found| found.reordered(&|_| Some(bake)));
        Ok(found.and_then(|found| {
            let (first, at) = found.first_of(bake)?;
            let lead = found.lead_of(bake, states[bake])?;
            // Both are whole minutes of the clock, and none of it has passed.
            let most = (at - self.now).get().floor().max(0.0);
            Some((first, at - lead.min(minutes(most))))
        }))
    }

    /// # Errors
    /// Where it was left off.
    pub(crate) async fn keeps(&self, case: &Case<'_>, how: As) -> Result<bool, LeftOff> {
        Ok(self.tried(case, how).await?.is_kept())
    }
}

/// Goes on for as long as one search may.
pub fn patience() -> impl FnMut() -> bool {
    let mut left = PATIENCE;
    move || is_patient(&mut left)
}

pub(crate) fn is_patient(left: &mut u32) -> bool {
    *left = left.saturating_sub(1);
    *left > 0
}

/// Everything as soon as it can be, and how that stands to the tables.
fn soonest(
    states: &[&State],
    now: Moment,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<(Plan, Vec<Margin>)> {
    let ready_by: Vec<_> = states.iter().map(|state| table_of(state)).collect();
    let not_before: Vec<_> = states.iter().map(|state| not_before(state)).collect();
    let bounds = Bounds {
        ready_by: &ready_by,
        closed: &away(states),
        not_before: &not_before,
        pins: true,
        ..Bounds::default()
    };
    let plan = plan(states, bounds, now, None, go_on)?;
    let margins = margins(states, &plan, &|_| None);
    Some((plan, margins))
}
