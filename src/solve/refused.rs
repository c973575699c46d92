//! Why something can't be scheduled, whatever the order.

use std::fmt;

use super::problem::{MOST, MOST_LINKS, MOST_TASKS};

/// Why something is no problem that could be solved. Numbers are places in the lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ProblemError {
    /// There are more tasks than the order of every two of which could be held in mind.
    TooManyTasks(usize),
    /// There are more links than could be summed over.
    TooManyLinks(usize),
    /// A task takes less than no time, or longer than a year.
    Minutes(usize),
    /// A task's first or last minute lies outside of a year.
    Window(usize),
    /// A task needs a resource that there isn't.
    UnknownNeed(usize, usize),
    /// A task names a resource twice, where it can only hold one unit of it.
    NeedTwice(usize, usize),
    /// A task needs a resource of which there is nothing.
    NothingOf(usize, usize),
    /// A task's block is kept something that it doesn't need, or of which there isn't one, or that it needs in another
    /// state than the rest of its block.
    Block(usize),
    /// A link tells of a task that there isn't.
    UnknownTask(usize),
    /// A link's lag is longer than a year.
    Lag(usize),
    /// A stay takes what there isn't, or tells of a task that there isn't.
    Stay(usize),
}

impl fmt::Display for ProblemError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooManyTasks(count) => {
                write!(f, "{count} tasks are more than {MOST_TASKS}")
            }
            Self::TooManyLinks(count) => {
                write!(f, "{count} links are more than {MOST_LINKS}")
            }
            Self::Minutes(task) => {
                write!(f, "task {task} must take from 0 to {MOST} minutes")
            }
            Self::Window(task) => write!(
                f,
                "task {task} must be allowed to start between minute 0 and {MOST}"
            ),
            Self::UnknownNeed(task, resource) => {
                write!(
                    f,
                    "task {task} needs resource {resource}, which isn't there"
                )
            }
            Self::NeedTwice(task, resource) => {
                write!(
                    f,
                    "task {task} names resource {resource} twice, but holds one unit of it"
                )
            }
            Self::NothingOf(task, resource) => {
                write!(
                    f,
                    "task {task} needs resource {resource}, of which there is nothing"
                )
            }
            Self::Block(task) => write!(
                f,
                "task {task} must need what its block is kept, of which there must be one, as all of its block do"
            ),
            Self::UnknownTask(link) => write!(f, "link {link} tells of a task that isn't there"),
            Self::Lag(link) => write!(
                f,
                "link {link} must ask for a lag between {} and {MOST} minutes",
                -MOST
            ),
            Self::Stay(stay) => write!(
                f,
                "stay {stay} must take what is there, from one task to another"
            ),
        }
    }
}

impl std::error::Error for ProblemError {}

impl ProblemError {
    /// The most minutes that anything may take.
    pub const MOST_MINUTES: i32 = MOST;
}
