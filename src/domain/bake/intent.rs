//! What a tap or a key asks for. Every way of asking becomes the same [`Intent`],
//! so each can do everything.

use std::fmt;

use super::event::{AlarmId, Mark, TimerId};
use super::wishes::Wishes;
use crate::formula::{ComponentId, Formula, Held, StepId};
use crate::kitchen::{Kitchen, Place};
use crate::units::{Celsius, Grams, Minutes, Moment, OutOfRange, Share};

/// What the baker asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Intent {
    /// "I turn to this."
    Pick(StepId),
    /// "This is done", or "it's ready".
    Done(StepId),
    /// "Not yet: so much longer", counted from when it is due, or from now where it is due already.
    NotYet(StepId, Minutes),
    /// "I leave this out."
    Skip(StepId),
    /// "Back to this": it and all that followed it are open again.
    GoBack(StepId),
    /// "This is made anew": it and all that followed it of its own part are open again, and what others made stays.
    MakeAnew(StepId),
    /// Mark a line, or take the mark away.
    Mark(StepId, Mark, bool),
    /// Mark the next line that isn't marked, and end the step with the last one.
    MarkNext(StepId),
    /// "I folded it."
    Folded(StepId),
    /// "I fold it so much later", counted likewise.
    FoldNotYet(StepId, Minutes),
    /// "I leave this fold out."
    SkipFold(StepId),
    /// "The kitchen has this temperature."
    KitchenIs(Celsius),
    /// "My kitchen is like this now": its fridge, flour, oven, kneading, scales, and its air.
    KitchenChanged(Box<Kitchen>),
    /// "That my kitchen changed was taken back", at another bake in the same kitchen.
    KitchenUndone {
        /// What it had become.
        changed: Box<Kitchen>,
        /// What it is again.
        back: Box<Kitchen>,
    },
    /// "The dough has this temperature."
    DoughIs(ComponentId, Celsius),
    /// "The middle has this temperature."
    CoreIs(StepId, Celsius),
    /// "The oven is so hot already", from another bread, as it is turned on with this step.
    OvenHot(StepId, Celsius),
    /// "It stands here now": a rising dough or a cooling filling.
    Move(StepId, Place),
    /// "It is in this now": a dough or a filling.
    Pour(StepId, Held),
    /// "It had risen so far, so long ago", as a share of what the formula waits for.
    RiseIs(StepId, Share, Minutes),
    /// "This piece has this mass."
    PieceWeighs(u16, Grams),
    /// "That isn't what this piece weighs."
    RemoveMass(u16),
    /// "Tell me in so long."
    SetTimer(String, Minutes),
    /// "Put this timer away."
    StopTimer(TimerId),
    /// "I wish it so": the table, the earliest beginning, and when nobody is there.
    Wish(Box<Wishes>),
    /// "What I wished then was taken back" at another bake, where nobody is there at these times from now on.
    WishUndone {
        /// When it was wished there.
        wished_at: Moment,
        /// When nobody is there.
        away: Vec<(Moment, Moment)>,
    },
    /// "This starts then", or "whenever it can".
    Pin(StepId, Option<Moment>),
    /// "This rise stands in the fridge from then to then", or "it doesn't after all".
    PlanRetard(StepId, Option<(Moment, Moment)>),
    /// Several things that are one to the baker: all of them are done or none, and are taken back together.
    AtOnce(Vec<Intent>),
    /// "I bake this instead", before anything was begun.
    Refit(Box<Formula>),
    /// "I heard it."
    Hear(AlarmId),
    /// "I'm away for a while."
    Pause,
    /// "I'm back."
    Resume,
    /// "It's on the table."
    Finish,
    /// "I give it up."
    Abandon,
    /// "The phone's clock was set by so much, and that time didn't pass."
    ClockWasSet(Minutes),
    /// "That was at this moment already": the entry of that place in the log.
    Since(u32, Moment),
    /// "Take the last thing back."
    Undo,
    /// "Put back what I took back last."
    PutBack,
}

/// Why nothing happens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Refusal {
    /// The bake is over.
    Over,
    /// There is no such step, line, piece or timer.
    Unknown,
    /// The step waits for something else to end first.
    NotOpen(StepId),
    /// The step has ended already, or not ended yet, as the case may be.
    Already(StepId),
    /// A number that can't be right.
    Implausible(OutOfRange),
    /// There is nothing to take back.
    NothingToUndo,
    /// The step is none that can stand in the fridge.
    NeverRetarded(StepId),
    /// A time that ends before it begins, or has passed.
    Backwards,
    /// More times away than anybody enters by hand.
    TooManyAway,
    /// What it follows happened at this moment, so it was no sooner.
    TooEarly(Moment),
    /// It was said at this moment, so it was no later.
    TooLate(Moment),
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Over => write!(f, "the bake is over"),
            Self::Unknown => write!(f, "there is no such thing in this bake"),
            Self::NotOpen(StepId(step)) => write!(f, "step {step} waits for another to end"),
            Self::Already(StepId(step)) => write!(f, "step {step} is already so"),
            Self::Implausible(out) => write!(f, "{out}"),
            Self::NothingToUndo => write!(f, "there is nothing to take back"),
            Self::NeverRetarded(StepId(step)) => write!(
                f,
                "step {step} doesn't rise, so it can't stand in the fridge"
            ),
            Self::Backwards => write!(f, "that time has passed before it begins"),
            Self::TooManyAway => write!(f, "there are too many times away"),
            Self::TooEarly(_) => write!(f, "what it follows was later than that"),
            Self::TooLate(_) => write!(f, "it was said before that"),
        }
    }
}

impl std::error::Error for Refusal {}
