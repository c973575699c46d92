//! Plans for other wishes or other states than there are, one after the other.
//!
//! A question about ways out asks for dozens of plans. Between two of them others have a turn, so
//! that a page that asks stays responsive, and can leave off. What patience didn't last to prove
//! ends the question as well: what is said here is proven, or isn't said.

use std::borrow::Cow;
use std::pin::Pin;

use super::timetable::{buffer_of, kept_back, timetable_so};
use super::{Bounds, Goal, Item, Plan, What, plan};
use crate::bake::{State, Wishes};
use crate::formula::StepId;
use crate::units::{Minutes, Moment, minutes};

/// Gives others a turn, and says whether to go on.
pub type Rest<'a> = &'a dyn Fn() -> Pin<Box<dyn Future<Output = bool>>>;

/// How often one search may ask whether to go on: some tenths of a second on a phone, of which a kitchen's plan
/// takes a hundredth.
pub const PATIENCE: u32 = 20_000;
/// Plans go by whole minutes, so less than that is nothing.
const NOTHING: f64 = 0.5;

/// The question was left off, or something in it couldn't be proven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct LeftOff;

/// Some bakes, with what is wished of them together.
#[derive(Clone)]
pub(super) struct Case<'a> {
    pub bakes: Vec<Cow<'a, State>>,
    pub wishes: Wishes,
}

impl Case<'_> {
    fn states(&self) -> Vec<&State> {
        self.bakes.iter().map(AsRef::as_ref).collect()
    }
}

/// How a case is planned.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum As {
    /// As the app plans it.
    Wished,
    /// Everything as soon as can be: whether wishes can be kept shows already.
    Soonest,
    /// Everything as late as a table allows.
    Latest(Moment),
}

/// What a case comes to.
#[derive(Debug, Clone)]
pub(super) struct Trial {
    /// None where nothing can be done so.
    pub plan: Option<Plan>,
    /// How long after the wished table everything is ready.
    pub late: Minutes,
    /// How much longer than it should something waits for the sake of the wishes, all such waits together.
    pub waits: Minutes,
    /// How much longer than its buffer bread waits before the wished table.
    pub early: Minutes,
}

impl Trial {
    /// How far it is from what is wished.
    pub(super) fn amiss(&self) -> Minutes {
        self.late + self.waits
    }

    pub(super) fn is_kept(&self) -> bool {
        self.amiss().get() < NOTHING
    }

    /// When a step is planned.
    pub(super) fn step(&self, bake: usize, step: StepId) -> Option<&Item> {
        self.plan.as_ref()?.item(What::Step(bake, step))
    }
}

/// One question after the other, at a moment.
pub(super) struct Trials<'a> {
    pub now: Moment,
    rest: Rest<'a>,
    /// How long things wait too long whatever is wished.
    anyway: Minutes,
    /// What is planned where nothing is wished.
    pub free: Option<Plan>,
}

impl<'a> Trials<'a> {
    /// # Errors
    /// Where it was left off.
    pub(super) async fn of(bakes: &[&State], now: Moment, rest: Rest<'a>) -> Result<Self, LeftOff> {
        let mut trials = Self {
            now,
            rest,
            anyway: minutes(0.0),
            free: None,
        };
        let free = |state: &&State| {
            let mut state = (*state).clone();
            state.pins.clear();
            Cow::Owned(state)
        };
        let unwished = Case {
            bakes: bakes.iter().map(free).collect(),
            wishes: Wishes::default(),
        };
        let free = trials.tried(&unwished, As::Soonest).await?;
        trials.anyway = free.waits;
        trials.free = free.plan;
        Ok(trials)
    }

    /// # Errors
    /// Where it was left off.
    pub(super) async fn tried(&self, case: &Case<'_>, how: As) -> Result<Trial, LeftOff> {
        if !(self.rest)().await {
            return Err(LeftOff);
        }
        let mut left = PATIENCE;
        let mut go_on = || {
            left = left.saturating_sub(1);
            left > 0
        };
        let (states, wishes) = (case.states(), &case.wishes);
        let by = |goal, go_on: &mut dyn FnMut() -> bool| {
            let not_before = kept_back(&states, wishes);
            let bounds = Bounds {
                goal,
                closed: &wishes.away,
                not_before: &not_before,
                pins: true,
            };
            plan(&states, bounds, self.now, None, go_on)
        };
        let found = match how {
            As::Wished => {
                timetable_so(&states, wishes, self.now, None, &mut go_on).map(|wished| wished.plan)
            }
            As::Soonest => by(Goal::Soonest, &mut go_on),
            As::Latest(table) => by(Goal::By(table), &mut go_on),
        };
        if left == 0 {
            return Err(LeftOff);
        }
        let Some(plan) = found else {
            return Ok(Trial {
                plan: None,
                late: Minutes::MAX,
                waits: minutes(0.0),
                early: minutes(0.0),
            });
        };
        let over = plan.items.iter().filter_map(|item| item.too_late_by);
        let over = over.fold(minutes(0.0), |all, over| all + over);
        let waits = (over - self.anyway).max(minutes(0.0));
        let spare = wishes.table.map(|table| table - plan.end.likely());
        let none = minutes(0.0);
        Ok(Trial {
            late: spare.map_or(none, |spare| (-spare).max(none)),
            waits,
            early: spare.map_or(none, |spare| (spare - buffer_of(&plan)).max(none)),
            plan: Some(plan),
        })
    }

    /// # Errors
    /// Where it was left off.
    pub(super) async fn keeps(&self, case: &Case<'_>, how: As) -> Result<bool, LeftOff> {
        Ok(self.tried(case, how).await?.is_kept())
    }
}
