//! One item of the plan as it is shown: its column, its names and why it starts when it does.

use domain::bake::{BakeId, State, Stay};
use domain::estimate::Estimate;
use domain::formula::{ComponentId, StepId};
use domain::schedule::plan::{Item, What};
use domain::units::{Minutes, Moment};

use crate::words;

/// What something planned takes up, in the order of the columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Lane {
    /// The baker.
    Hands,
    /// The oven.
    Oven,
    /// A part of a bake that goes on by itself.
    Part(usize, ComponentId),
}

/// Why something starts when it does.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Why {
    /// It goes on already.
    GoesOn,
    /// The baker fixed it.
    Fixed,
    /// A time in the fridge begins or ends then, as it was planned.
    Planned,
    /// This has to end before it.
    After(String),
    /// Nobody is there before.
    Nobody,
    /// This follows, and would wait too long.
    Before(String),
    /// The oven is to be hot as this ends.
    InTimeFor(String),
    /// It could start sooner, but what it makes would only wait.
    NotSooner,
    /// Nothing keeps it.
    Free,
}

/// What the keys of times begin with at which nobody is there.
pub(crate) const AWAY: &str = "away/";

/// Something planned.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Entry {
    pub(crate) key: String,
    /// Whose it is, and which step; nothing of a time at which nobody is there.
    pub(crate) of: Option<(BakeId, StepId)>,
    pub(crate) lane: Lane,
    /// The part of the bake that it works on or that goes on.
    pub(crate) part: Option<Lane>,
    pub(crate) title: String,
    /// The same in fewer letters, where it has a name for a place that is short of room.
    pub(crate) short: Option<String>,
    /// Whose it is, where several bakes run.
    pub(crate) whose: Option<String>,
    pub(crate) start: Moment,
    pub(crate) end: Moment,
    /// When it may end, of what goes on by itself.
    pub(crate) window: Option<Estimate<Moment>>,
    /// Whether an end hangs on it: a table's, or that of all.
    pub(crate) hangs: bool,
    /// Whether that end is for a table that is wished.
    pub(crate) for_table: bool,
    /// Of several tables those that hang on it.
    pub(crate) tables: Vec<Moment>,
    /// The moment to which the baker has fixed it.
    pub(crate) pinned: Option<Moment>,
    /// The same, where that has passed and it wasn't begun: it is fixed no longer.
    pub(crate) passed: Option<Moment>,
    /// The time in the fridge that is planned of the rise that it is, or belongs to.
    pub(crate) cold: Option<Stay>,
    /// Whether it is itself a time in the fridge.
    pub(crate) is_cold: bool,
    /// Whether it can be fixed to a moment.
    pub(crate) can_fix: bool,
    pub(crate) why: Why,
    /// How much longer it waits than is good for it.
    pub(crate) too_late_by: Option<Minutes>,
}

pub(super) fn title(what: What, states: &[&State]) -> String {
    let step = |bake: usize, step| states[bake].formula.title(step);
    match what {
        What::Step(bake, id) => step(bake, id).to_owned(),
        What::Fold(bake, id, _) => words::fold_in(step(bake, id)),
        What::Retard(bake, id, cold) => words::plan::moves(step(bake, id), cold),
        // Drawn with all that stands in the fridge.
        What::Kept(..) => String::new(),
        What::Away => words::plan::NOBODY.to_owned(),
    }
}

/// What it is called where there is little room.
pub(super) fn short(what: What) -> Option<String> {
    match what {
        What::Retard(_, _, part) => Some(words::plan::moves_in_short(part).to_owned()),
        _ => None,
    }
}

/// When it may end for all that it hangs on, unless that is known to the minute.
pub(crate) fn window(item: &Item) -> Option<Estimate<Moment>> {
    let (early, late) = item.reach;
    (early.get().max(late.get()) >= 1.0).then(|| item.window())
}
