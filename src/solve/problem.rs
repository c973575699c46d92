//! What is to be scheduled: tasks, links between them, and what they hold.

use std::cell::OnceCell;
use std::fmt;
use std::rc::Rc;

use super::gaps::Gaps;
use super::refused::ProblemError;
use super::room::{Edge, Stay};

/// The largest number of minutes that a problem may speak of: nearly a year. With [`MOST_TASKS`] it
/// keeps every sum of minutes well within 32 bits.
pub(super) const MOST: i32 = 500_000;
/// A least lag that asks for nothing: no schedule is as long.
pub(super) const ANY: i32 = -MOST * 1_000;
/// The most tasks; the order of every two of them may have to be decided.
pub(super) const MOST_TASKS: usize = 250;
/// The most links; their weights are summed.
pub(super) const MOST_LINKS: usize = 10_000;

/// One uninterrupted piece of work or waiting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// How long it takes, in minutes.
    pub minutes: i32,
    /// The places of the resources of which it holds one unit from its start to its end.
    pub needs: Vec<usize>,
    /// The first minute at which it may start.
    pub earliest: i32,
    /// The last minute at which it may start.
    pub latest: Option<i32>,
    /// Whether the schedule has only ended when it has.
    pub counts: bool,
    /// A resource of which there is one, and the block of tasks for which it is kept: between its first
    /// and its last one no task of another block holds it. An oven that is heated for one bread isn't
    /// another's before that is out.
    pub block: Option<(usize, u16)>,
    /// What it needs the resource of its block to be, such as an oven to be hot as it is hot for one bread: blocks of
    /// which all tasks need the same may hold it together, of which there is but one.
    pub state: Option<u16>,
}

impl Task {
    /// A task that may start at any time.
    #[must_use]
    pub fn new(minutes: i32, needs: &[usize]) -> Self {
        Self {
            minutes,
            needs: needs.to_vec(),
            earliest: 0,
            latest: None,
            counts: true,
            block: None,
            state: None,
        }
    }

    /// A time at which resources aren't there. Away from the hands, that is how it is told that
    /// nobody is in the kitchen; the schedule can have ended before.
    #[must_use]
    pub fn away(start: i32, minutes: i32, needs: &[usize]) -> Self {
        Self {
            earliest: start,
            latest: Some(start),
            counts: false,
            ..Self::new(minutes, needs)
        }
    }
}

/// How much time lies between the end of a task and the start of another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Link {
    /// The place of the task that ends.
    pub from: usize,
    /// The place of the task that starts.
    pub to: usize,
    /// The least lag in minutes; below nothing, the one may start before the other has ended.
    pub least: i32,
    /// The greatest lag in minutes.
    pub most: Option<i32>,
}

/// Tasks, links and capacities that fit together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    pub(super) tasks: Vec<Task>,
    pub(super) links: Vec<Link>,
    pub(super) capacities: Vec<u32>,
    pub(super) stays: Vec<Stay>,
    pub(super) follows: Follows,
}

/// What follows from links and stays alone, reckoned once for all problems that differ in nothing but when they end.
#[derive(Clone, Default)]
pub(super) struct Follows(Rc<OnceCell<Option<Gaps>>>);

/// A problem is told without what only follows from it.
impl fmt::Debug for Follows {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("..")
    }
}

/// Whatever problem it is of, it is the same where that is.
impl PartialEq for Follows {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Eq for Follows {}

impl Problem {
    /// Checks that everything that is spoken of is there, and that numbers are of a kitchen's size.
    /// Whether the links can be kept together is for the solver to find out.
    ///
    /// # Errors
    /// The first thing that is wrong.
    pub fn new(
        tasks: Vec<Task>,
        links: Vec<Link>,
        capacities: Vec<u32>,
    ) -> Result<Self, ProblemError> {
        if tasks.len() > MOST_TASKS {
            return Err(ProblemError::TooManyTasks(tasks.len()));
        }
        if links.len() > MOST_LINKS {
            return Err(ProblemError::TooManyLinks(links.len()));
        }
        for (place, task) in tasks.iter().enumerate() {
            if !(0..=MOST).contains(&task.minutes) {
                return Err(ProblemError::Minutes(place));
            }
            let latest = task.latest.unwrap_or(task.earliest);
            if !(0..=MOST).contains(&task.earliest) || !(0..=MOST).contains(&latest) {
                return Err(ProblemError::Window(place));
            }
            let keeps = |(resource, _): (usize, u16)| {
                let first = tasks.iter().find(|other| other.block == task.block);
                task.needs.contains(&resource)
                    && capacities.get(resource) == Some(&1)
                    && first.is_none_or(|first| first.state == task.state)
            };
            if !task.block.map_or(task.state.is_none(), keeps) {
                return Err(ProblemError::Block(place));
            }
            for (nth, &need) in task.needs.iter().enumerate() {
                match capacities.get(need) {
                    None => return Err(ProblemError::UnknownNeed(place, need)),
                    Some(0) => return Err(ProblemError::NothingOf(place, need)),
                    Some(_) if task.needs[..nth].contains(&need) => {
                        return Err(ProblemError::NeedTwice(place, need));
                    }
                    Some(_) => {}
                }
            }
        }
        for (place, link) in links.iter().enumerate() {
            if link.from.max(link.to) >= tasks.len() {
                return Err(ProblemError::UnknownTask(place));
            }
            let most = link.most.unwrap_or(link.least);
            if !(-MOST..=MOST).contains(&link.least) || !(-MOST..=MOST).contains(&most) {
                return Err(ProblemError::Lag(place));
            }
        }
        Ok(Self {
            tasks,
            links,
            capacities,
            stays: Vec::new(),
            follows: Follows::default(),
        })
    }

    /// The same with room that is taken from one moment to another.
    ///
    /// # Errors
    /// The first stay with which something is wrong.
    pub fn with_stays(mut self, stays: Vec<Stay>) -> Result<Self, ProblemError> {
        let is_there = |edge: Edge| match edge {
            Edge::Start(task) | Edge::End(task) => task < self.tasks.len(),
            Edge::Ever => true,
        };
        let holds = |stay: &Stay| self.capacities.get(stay.resource).is_some_and(|&of| of > 0);
        let fits = |stay: &Stay| holds(stay) && is_there(stay.from) && is_there(stay.to);
        if let Some(wrong) = stays.iter().position(|stay| !fits(stay)) {
            return Err(ProblemError::Stay(wrong));
        }
        self.stays = stays;
        self.follows = Follows::default();
        Ok(self)
    }

    /// The same with other links.
    ///
    /// # Errors
    /// The first link with which something is wrong.
    pub fn with_links(&self, links: Vec<Link>) -> Result<Self, ProblemError> {
        let other = Self::new(self.tasks.clone(), links, self.capacities.clone())?;
        other.with_stays(self.stays.clone())
    }

    /// The tasks.
    #[must_use]
    pub fn tasks(&self) -> &[Task] {
        &self.tasks
    }

    /// The links.
    #[must_use]
    pub fn links(&self) -> &[Link] {
        &self.links
    }

    /// How much there is of every resource.
    #[must_use]
    pub fn capacities(&self) -> &[u32] {
        &self.capacities
    }

    /// What is held from one moment to another.
    #[must_use]
    pub fn stays(&self) -> &[Stay] {
        &self.stays
    }

    /// The same, where the schedule has only ended when some of its tasks have.
    #[must_use]
    pub fn ending_with(mut self, counts: &[bool]) -> Self {
        for (task, &counts) in self.tasks.iter_mut().zip(counts) {
            task.counts = counts;
        }
        self
    }

    /// The same, where the tasks that count have to have ended by a minute, none sooner than it can.
    #[must_use]
    pub fn ended_by(mut self, minute: i32) -> Self {
        for task in self.tasks.iter_mut().filter(|task| task.counts) {
            let by = (minute - task.minutes).max(task.earliest);
            task.latest = Some(task.latest.map_or(by, |latest| latest.min(by)));
        }
        self
    }

    /// The least time between the starts of every two tasks, by links and stays; `None` where these contradict each other.
    pub(super) fn gaps(&self) -> Option<Gaps> {
        let reckon = || Gaps::new(self.tasks.len(), &self.arcs());
        self.follows.0.get_or_init(reckon).clone()
    }

    /// What links ask of starts: from, to, and the least number of minutes between them.
    pub(super) fn arcs(&self) -> Vec<(usize, usize, i32)> {
        let mut arcs = Vec::with_capacity(2 * self.links.len());
        for link in &self.links {
            let minutes = self.tasks[link.from].minutes;
            arcs.push((link.from, link.to, minutes + link.least));
            if let Some(most) = link.most {
                arcs.push((link.to, link.from, -minutes - most));
            }
        }
        for stay in &self.stays {
            let (from, to) = stay.places(&self.tasks);
            if let (Some(one), Some(other)) = (from.task(), to.task()) {
                let arc = (one, other, from.minutes - to.minutes);
                // Mostly what fetches something has to come after it anyway.
                let says_so = |known: &(usize, usize, i32)| {
                    (known.0, known.1) == (arc.0, arc.1) && known.2 >= arc.2
                };
                if !arcs.iter().any(says_so) {
                    arcs.push(arc);
                }
            }
        }
        arcs
    }
}
