//! What can happen in a bake. The set is closed, and what happened stays.

mod about;

use super::wishes::Wishes;
use crate::formula::{ComponentId, Formula, Held, StepId};
use crate::kitchen::{Kitchen, Place};
use crate::units::{Celsius, Grams, Minutes, Moment, Share};

/// Which bake, among all on this phone.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BakeId(pub String);

/// Which of the timers that the baker set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct TimerId(pub u32);

/// One mark of a checklist.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mark {
    /// Which line, from 0.
    pub item: u16,
    /// On which piece, from 0; none on a checklist for the whole batch.
    pub piece: Option<u16>,
}

/// Which alarm, so that each is acknowledged once and for all.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum AlarmId {
    /// Look whether a step has ended. It rings again after each "not yet".
    Check {
        /// The step.
        step: StepId,
        /// How often "not yet" was said before.
        round: u16,
    },
    /// Fold the dough.
    Fold {
        /// The bulk fermentation.
        step: StepId,
        /// Which fold, from 0.
        fold: u16,
    },
    /// Turn the oven on.
    OvenOn {
        /// The step of turning it on.
        step: StepId,
    },
    /// The first stage of cooling should be over.
    CoolingStage {
        /// The chill.
        step: StepId,
    },
    /// All of its cooling should be over.
    CoolingEnd {
        /// The chill.
        step: StepId,
    },
    /// Perishable food has stood long enough.
    Perishable {
        /// The step that puts it away.
        step: StepId,
    },
    /// A timer that the baker set.
    Timer(TimerId),
    /// It is time to begin.
    Begin,
    /// The moment has come to which the baker fixed a step.
    Fixed {
        /// The step.
        step: StepId,
    },
    /// A retard that was planned begins: put the rise into the fridge.
    Retard {
        /// The rise.
        step: StepId,
    },
    /// Dough or a filling waits for hands to begin this step.
    Waits {
        /// The step.
        step: StepId,
    },
}

/// How a bake starts: what is baked, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct Start {
    /// The formula as it is baked today, scaled. The log keeps it, so that a
    /// bake never changes when the formula does.
    pub formula: Formula,
    /// The kitchen as it was known at the start.
    pub kitchen: Kitchen,
}

/// One thing that happened.
#[derive(Debug, Clone, PartialEq)]
pub enum Event {
    /// The bake began.
    Started(Box<Start>),
    /// The baker turned to this step.
    Picked {
        /// The step.
        step: StepId,
    },
    /// The baker says that a step has ended.
    Done {
        /// The step.
        step: StepId,
    },
    /// The baker leaves a step out.
    Skipped {
        /// The step.
        step: StepId,
    },
    /// The baker goes back to a step that had ended.
    Reopened {
        /// The step.
        step: StepId,
    },
    /// A line of a checklist was marked, or the mark taken away.
    Marked {
        /// The step.
        step: StepId,
        /// The line and piece.
        mark: Mark,
        /// Whether it is marked now.
        on: bool,
    },
    /// The dough was folded.
    Folded {
        /// The bulk fermentation.
        step: StepId,
    },
    /// The next fold was left out.
    FoldSkipped {
        /// The bulk fermentation.
        step: StepId,
    },
    /// "Not yet": fold later.
    FoldPutOff {
        /// The bulk fermentation.
        step: StepId,
        /// How much later.
        by: Minutes,
    },
    /// "Not yet": look again later.
    Extended {
        /// The step.
        step: StepId,
        /// How much later.
        by: Minutes,
    },
    /// The kitchen's temperature was taken.
    KitchenMeasured {
        /// The air around the dough.
        air: Celsius,
    },
    /// Something else about the kitchen changed: its fridge, flour, oven, kneading
    /// or scales. It holds all of the kitchen from now on but its air, which is measured.
    KitchenChanged(Box<Kitchen>),
    /// A dough's temperature was taken.
    DoughMeasured {
        /// The dough or preferment.
        component: ComponentId,
        /// Its temperature.
        temperature: Celsius,
    },
    /// The temperature in the middle of a piece was taken.
    CoreMeasured {
        /// The step: baking, cooling or chilling.
        step: StepId,
        /// The temperature.
        temperature: Celsius,
    },
    /// The oven is hot from another bread as this step turns it on.
    OvenHot {
        /// The step of turning it on.
        step: StepId,
        /// How hot, as formulas say it.
        oven: Celsius,
    },
    /// A rising dough or a cooling filling stands somewhere else from now on, until its step ends.
    Moved {
        /// The rise or the chill.
        step: StepId,
        /// Where it stands.
        place: Place,
    },
    /// A dough or a filling was poured into something else, where it stays until its step ends.
    Poured {
        /// The rise, the chill or the time in the fridge.
        step: StepId,
        /// What holds it.
        held: Held,
    },
    /// Somebody looked how far a dough had risen.
    RiseSeen {
        /// The rise.
        step: StepId,
        /// How far, as a share of what the formula waits for.
        share: Share,
        /// How long before this entry that was.
        ago: Minutes,
    },
    /// A divided piece was weighed.
    PieceWeighed {
        /// Which piece, from 0.
        piece: u16,
        /// Its mass.
        mass: Grams,
    },
    /// What a piece weighs isn't known after all.
    MassRemoved {
        /// Which piece, from 0.
        piece: u16,
    },
    /// The baker set a timer.
    TimerSet {
        /// Which.
        timer: TimerId,
        /// What for.
        name: String,
        /// How long it runs.
        length: Minutes,
    },
    /// The baker put a timer away.
    TimerStopped {
        /// Which.
        timer: TimerId,
    },
    /// The baker wishes this of the time; it holds instead of what was wished before.
    Wished(Box<Wishes>),
    /// A step shall start at a moment, or whenever it can again.
    Pinned {
        /// The step.
        step: StepId,
        /// When.
        at: Option<Moment>,
    },
    /// A rise shall stand in the fridge from a moment to another, or not after all.
    RetardPlanned {
        /// The rise.
        step: StepId,
        /// From when to when.
        stay: Option<(Moment, Moment)>,
    },
    /// What is baked was changed before anything of it was begun.
    Refitted(Box<Formula>),
    /// An alarm was heard.
    Acknowledged {
        /// Which.
        alarm: AlarmId,
    },
    /// The baker stepped away.
    Paused,
    /// The baker is back.
    Resumed,
    /// The bread is on the table, and the bake is over.
    Finished,
    /// The bake was given up.
    Abandoned,
    /// The phone's clock was set, and no time passed by it: everything before
    /// happened so much later by today's clock, or earlier where it is negative.
    ClockSet {
        /// By how much, forward being positive.
        by: Minutes,
    },
    /// An earlier entry happened before it was said.
    Since {
        /// Its place in the log, from 0.
        entry: u32,
        /// How long before.
        by: Minutes,
    },
    /// Earlier entries were taken back: they count as never having happened.
    Undone {
        /// Their places in the log, from 0.
        entries: Vec<u32>,
    },
}

/// An event with its moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// When it happened.
    pub at: Moment,
    /// What happened.
    pub event: Event,
}
