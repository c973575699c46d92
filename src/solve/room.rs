//! Room that is taken from a moment of one task to a moment of another, however long that is.
//!
//! A filling that is cold stands in the fridge until it is used, and a dough until somebody comes. So
//! a *stay* holds a resource like a task, but its two ends hang on two tasks.

use super::model::start_of;
use super::problem::{Problem, Task};
use super::side::{Holder, Place};

/// An end of a stay.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// When the task at this place starts.
    Start(usize),
    /// When the task at this place ends.
    End(usize),
    /// None: it has begun before the first minute, or goes on for ever.
    Ever,
}

/// Later than anything ends; far enough within 32 bits for what is reckoned with it.
const FOR_EVER: i32 = 1_000_000_000;

/// One unit of a resource, held from one moment to another, which doesn't come before it.
///
/// One of no time at all holds nothing, but has no place in the midst of a resource that is full.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stay {
    /// The place of the resource.
    pub resource: usize,
    /// When it begins.
    pub from: Edge,
    /// When it ends.
    pub to: Edge,
}

impl Edge {
    /// The task that it hangs on.
    pub(super) fn task(self) -> Option<usize> {
        match self {
            Self::Start(task) | Self::End(task) => Some(task),
            Self::Ever => None,
        }
    }

    /// The same of a task at another place.
    pub(super) fn with(self, task: usize) -> Self {
        match self {
            Self::Start(_) => Self::Start(task),
            Self::End(_) => Self::End(task),
            Self::Ever => Self::Ever,
        }
    }

    /// The same where time counts the other way.
    #[must_use]
    pub fn mirrored(self) -> Self {
        match self {
            Self::Start(task) => Self::End(task),
            Self::End(task) => Self::Start(task),
            Self::Ever => Self::Ever,
        }
    }

    /// The moment of a task; of none, that which is told.
    fn place(self, tasks: &[Task], ever: i32) -> Place {
        match self {
            Self::Start(task) => Place::of(start_of(task), 0),
            Self::End(task) => Place::of(start_of(task), tasks[task].minutes),
            // The first variable is the constant one.
            Self::Ever => Place::of(0, ever - 1),
        }
    }
}

impl Stay {
    /// When it begins and when it ends.
    pub(super) fn places(&self, tasks: &[Task]) -> (Place, Place) {
        let (from, to) = (self.from, self.to);
        (from.place(tasks, 0), to.place(tasks, FOR_EVER))
    }
}

impl Holder {
    /// The task at a place, that takes so long.
    pub(super) fn of(place: usize, minutes: i32) -> Self {
        Self {
            id: place,
            from: Place::of(start_of(place), 0),
            to: Place::of(start_of(place), minutes),
            minutes,
        }
    }
}

/// Those who hold a resource: tasks, for any time at all, and stays. How long a stay is at least isn't known here.
pub(super) fn holders(problem: &Problem, resource: usize) -> Vec<Holder> {
    let tasks = problem.tasks();
    let work = tasks.iter().enumerate();
    let work = work.filter(|(_, task)| task.minutes > 0 && task.needs.contains(&resource));
    let work = work.map(|(place, task)| Holder::of(place, task.minutes));
    let stays = problem.stays().iter().enumerate();
    let stays = stays.filter(|(_, stay)| stay.resource == resource);
    let stays = stays.map(|(nth, stay)| {
        let (from, to) = stay.places(tasks);
        Holder {
            id: tasks.len() + nth,
            from,
            to,
            minutes: 0,
        }
    });
    work.chain(stays).collect()
}

/// Whether two who hold a resource may do so at one time though there is but one: what they need it to be is the same.
pub(super) fn may_meet(problem: &Problem, resource: usize, one: Holder, other: Holder) -> bool {
    let state = |holder: Holder| {
        let task = problem.tasks().get(holder.id)?;
        let of = task.block.filter(|block| block.0 == resource)?;
        task.state.map(|state| (of.0, state))
    };
    state(one).is_some_and(|of| state(other) == Some(of))
}

/// Whether any two of those who hold a resource may do so at one time though there is but one.
pub(super) fn is_shared(problem: &Problem, resource: usize, holders: &[Holder]) -> bool {
    holders.iter().enumerate().any(|(nth, one)| {
        let mut others = holders[..nth].iter();
        others.any(|other| may_meet(problem, resource, *one, *other))
    })
}
