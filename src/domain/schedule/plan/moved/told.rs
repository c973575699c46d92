//! What is told of what moved: facts by their names, for `words` to make a sentence of.

use crate::bake::{Bake, BakeId};
use crate::formula::{Held, StepKind};
use crate::kitchen::Place;
use crate::schedule::plan::{Margin, Timetable};
use crate::units::{Celsius, CelsiusDelta, Minutes, Moment, minutes};

/// Less than this is nothing to tell: plans go by whole minutes, so that rounding alone moves a start or an end
/// by one, and nobody bakes by one minute.
pub const NOTABLE: Minutes = minutes(2.0);

/// A step that starts so much earlier or later while its end stays is told only with a cause.
pub(super) const UNEXPLAINED: Minutes = minutes(5.0);

/// A plan, with the bakes as they were when it was made; the plan tells them by their places.
#[derive(Debug, Clone, Copy)]
pub struct Made<'a> {
    /// The plan.
    pub timetable: &'a Timetable,
    /// What it is of.
    pub bakes: &'a [&'a Bake],
    /// What each of them is called beside the others.
    pub names: &'a [String],
}

/// What moved between two plans.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved {
    /// What it is that moved, where breads are for several tables: those of which the end moved most. Empty where
    /// it is all of them.
    pub of: Vec<String>,
    /// When that was likely ready, and when it is now.
    pub ready: (Moment, Moment),
    /// How the new plan stands to its table, if one was wished.
    pub margin: Option<Margin>,
    /// What takes longer now, or less where that is negative: of what the later of the two ends hangs on the
    /// step of which that is most.
    pub most: Option<(Named, Minutes)>,
    /// Something still to come that starts at another time: the switch of an oven, or else what comes first.
    pub next: Option<Shifted>,
    /// The end of each bread with its table's, where several are planned.
    pub each: Vec<OwnEnd>,
    /// Why.
    pub why: Why,
}

/// When one of several breads is ready, with all else that is for its table.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnEnd {
    /// The bread.
    pub bake: BakeId,
    /// What it is called beside the others.
    pub name: String,
    /// When that was likely ready, and when it is now.
    pub ready: (Moment, Moment),
    /// How that stands to the table, if one was wished.
    pub margin: Option<Margin>,
}

/// An end as it is told.
#[derive(Debug, Clone, Copy)]
pub struct Ends<'a> {
    /// Whose it is, where that has to be said.
    pub of: &'a [String],
    /// When that was likely ready, and when it is now.
    pub ready: (Moment, Moment),
    /// How it stands to its table, if one was wished.
    pub margin: Option<&'a Margin>,
    /// Whether it is the end of other breads than it was, and so neither later nor sooner than before.
    pub is_other: bool,
}

impl OwnEnd {
    fn by(&self) -> Minutes {
        minutes((self.ready.1 - self.ready.0).get().abs())
    }
}

/// A step by its names.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    /// Of which bake.
    pub bake: BakeId,
    /// What that is called, where several are planned.
    pub whose: Option<String>,
    /// Its own name.
    pub title: String,
    /// What is done in it.
    pub kind: StepKind,
}

/// Something that starts at another time.
#[derive(Debug, Clone, PartialEq)]
pub struct Shifted {
    /// What.
    pub step: Named,
    /// Whether it is a fold in that step.
    pub is_fold: bool,
    /// When it was to start.
    pub was: Moment,
    /// When it is to start now.
    pub is: Moment,
}

/// Why a plan moved.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// What goes on by itself ended so much later than likely, or earlier where that is negative. Where it ended on
    /// time, what follows takes another time now that it has.
    Ready(Named, Minutes),
    /// Hands ended so much later than planned, or earlier.
    Hands(Named, Minutes),
    /// It should have ended so long ago, and nobody said that it has.
    Overdue(Named, Minutes),
    /// It should have begun so long ago, and what it follows hasn't ended or nobody was free for it.
    Waits(Named, Minutes),
    /// Its dough should have been put there so long ago, into the fridge or out of it.
    Unmoved(Named, Place, Minutes),
    /// "Not yet": it was given so much more, or the switch of an oven was put off by as much.
    NotYet(Named, Minutes),
    /// A fold in it was put off.
    FoldNotYet(Named, Minutes),
    /// Its dough was folded.
    Folded(Named),
    /// A fold in it was left out.
    FoldLeftOut(Named),
    /// It was left out.
    LeftOut(Named),
    /// The baker went back to it.
    WentBack(Named),
    /// A dough is so much warmer than forecast, or than it should be off the bench; cooler where that is negative.
    Dough(Named, CelsiusDelta),
    /// The middle was measured.
    Core(Named),
    /// Somebody looked how far it had risen: farther than forecast, or not as far.
    Looked(Named, bool),
    /// It stands somewhere else.
    Stands(Named, Place),
    /// It is in something else.
    Poured(Named, Held),
    /// The kitchen's air had one temperature and has another.
    Kitchen(Celsius, Celsius),
    /// So has the fridge.
    Fridge(Celsius, Celsius),
    /// Something else about the kitchen changed.
    Equipment,
    /// What is wished of the time changed.
    Wishes,
    /// A step was fixed to a moment, or let go.
    Fixed(Named, Option<Moment>),
    /// Its dough is to stand in the fridge from the one moment to the other, or isn't after all.
    Retard(Named, Option<(Moment, Moment)>),
    /// Something else is baked.
    Refitted,
    /// Another bake is planned now, by what it is called beside the others.
    Began(String),
    /// A bake is over, by what it was called beside the others.
    Ended(String),
    /// It was so much earlier than it was said.
    Earlier(Named, Minutes),
    /// Something was taken back.
    TakenBack,
    /// What was taken back was put back.
    PutBack,
    /// The phone's clock was set.
    ClockSet,
    /// Nothing of what happened would have moved it so: another order was found.
    Anew,
    /// Nothing happened but that time went by.
    Time,
}

impl Moved {
    /// The end that it tells of: that of all, or of those for one table.
    #[must_use]
    pub fn end(&self) -> Ends<'_> {
        let most = self
            .each
            .iter()
            .max_by_key(|own| own.by().get().round() as i64);
        // With a bread that is added or is over the end of all is another's; what it did is at those that stay.
        if let Some(own) = most.filter(|own| self.why.is_of_others() && own.by() >= NOTABLE) {
            return Ends {
                of: std::slice::from_ref(&own.name),
                ready: own.ready,
                margin: own.margin.as_ref(),
                is_other: false,
            };
        }
        Ends {
            is_other: self.why.is_of_others(),
            of: &self.of,
            ready: self.ready,
            margin: self.margin.as_ref(),
        }
    }

    /// The same as it is told at one of several breads: its own end or, where that stays, the end that moved most.
    #[must_use]
    pub fn end_at(&self, bake: &BakeId) -> Ends<'_> {
        let here = self.each.iter().find(|own| own.bake == *bake);
        let moved = self.each.iter().filter(|own| own.by() >= NOTABLE);
        let most = moved.max_by_key(|own| (own.bake == *bake, own.by().get().round() as i64));
        // The end of all moved with a bread that is added or is over.
        let is_others = (self.ready.1 - self.ready.0).get().abs() >= NOTABLE.get();
        let stays = here.filter(|_| is_others && self.next.is_some());
        let Some(told) = most.or(stays) else {
            return self.end();
        };
        let is_own = most.is_some() && told.bake == *bake;
        Ends {
            of: if is_own {
                &[]
            } else {
                std::slice::from_ref(&told.name)
            },
            ready: told.ready,
            margin: told.margin.as_ref(),
            is_other: false,
        }
    }

    /// Goes on from what was told before of the same press: from the ends as they were before both.
    pub fn goes_on_from(&mut self, before: &Self) {
        self.ready.0 = before.ready.0;
        for own in &mut self.each {
            let was = before.each.iter().find(|was| was.bake == own.bake);
            own.ready.0 = was.map_or(own.ready.0, |was| was.ready.0);
        }
    }

    /// The steps that it tells of.
    pub fn named(&self) -> impl Iterator<Item = &Named> {
        let most = self.most.as_ref().map(|(named, _)| named);
        let next = self.next.as_ref().map(|next| &next.step);
        self.why.named().into_iter().chain(most).chain(next)
    }
}

impl Why {
    /// Whether other breads are planned by it.
    fn is_of_others(&self) -> bool {
        matches!(self, Self::Began(_) | Self::Ended(_))
    }

    /// The step in which it lies, if it lies in one.
    fn named(&self) -> Option<&Named> {
        match self {
            Self::Ready(named, _)
            | Self::Hands(named, _)
            | Self::Overdue(named, _)
            | Self::Waits(named, _)
            | Self::NotYet(named, _)
            | Self::FoldNotYet(named, _)
            | Self::Folded(named)
            | Self::FoldLeftOut(named)
            | Self::LeftOut(named)
            | Self::WentBack(named)
            | Self::Dough(named, _)
            | Self::Core(named)
            | Self::Looked(named, _)
            | Self::Unmoved(named, ..)
            | Self::Stands(named, _)
            | Self::Poured(named, _)
            | Self::Earlier(named, _)
            | Self::Fixed(named, _)
            | Self::Retard(named, _) => Some(named),
            Self::Kitchen(..)
            | Self::Fridge(..)
            | Self::Equipment
            | Self::Wishes
            | Self::Refitted
            | Self::Began(_)
            | Self::Ended(_)
            | Self::TakenBack
            | Self::PutBack
            | Self::ClockSet
            | Self::Anew
            | Self::Time => None,
        }
    }

    /// Whether it says of what happened how it led to anything.
    pub(super) fn explains(&self) -> bool {
        match self {
            Self::Ready(_, by) | Self::Hands(_, by) => by.get() != 0.0,
            Self::Anew | Self::Time => false,
            _ => true,
        }
    }

    /// Whether nobody did or said anything: it grows from minute to minute, until somebody does.
    #[must_use]
    pub fn is_passing(&self) -> bool {
        matches!(
            self,
            Self::Overdue(..) | Self::Waits(..) | Self::Unmoved(..) | Self::Time
        )
    }
}
