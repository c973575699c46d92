//! Why a bake can't be scheduled, in sentences that name its tasks.

use domain::schedule::solve::{Edge, Link, Part, ProblemError};

use super::Named;

/// A name as it stands in the file; what would break the line is told by its code.
pub(super) fn quoted(name: &str) -> String {
    let mut said = String::from("“");
    for character in name.chars() {
        if character.is_control() {
            said.extend(character.escape_default());
        } else {
            said.push(character);
        }
    }
    said + "”"
}

/// Why a file's problem is refused.
pub(super) fn refused(wrong: ProblemError, tasks: &[String], resources: &[String]) -> String {
    match wrong {
        ProblemError::Minutes(task) => format!(
            "{} must take between 0 and {} minutes.",
            quoted(&tasks[task]),
            ProblemError::MOST_MINUTES
        ),
        ProblemError::Window(task) => format!(
            "{} must be allowed to start between minute 0 and {}.",
            quoted(&tasks[task]),
            ProblemError::MOST_MINUTES
        ),
        ProblemError::UnknownNeed(task, _) => {
            format!("{} needs what is no resource.", quoted(&tasks[task]))
        }
        ProblemError::NeedTwice(task, resource) => format!(
            "{} names {} twice, but holds one unit of each of its needs.",
            quoted(&tasks[task]),
            quoted(&resources[resource])
        ),
        ProblemError::NothingOf(task, resource) => nothing_of(&tasks[task], &resources[resource]),
        ProblemError::TooManyTasks(_)
        | ProblemError::TooManyLinks(_)
        | ProblemError::UnknownTask(_)
        | ProblemError::Lag(_)
        | ProblemError::Stay(_)
        | ProblemError::Block(_) => {
            let mut sentence = wrong.to_string();
            sentence[..1].make_ascii_uppercase();
            sentence + "."
        }
    }
}

/// That a task can never be done.
pub(super) fn nothing_of(task: &str, resource: &str) -> String {
    let (task, resource) = (quoted(task), quoted(resource));
    format!("{task} needs {resource}, of which there is nothing.")
}

impl Named {
    /// What parts of the problem ask for; of a link that counts in both directions in one sentence.
    pub(super) fn why(&self, parts: &[Part]) -> Vec<String> {
        let mut told = Vec::new();
        for (nth, &part) in parts.iter().enumerate() {
            if let Part::Most(place) = part
                && nth > 0
                && parts[nth - 1] == Part::Least(place)
                && let Some(both) = self.between(place)
            {
                told.pop();
                told.push(both);
            } else {
                told.push(self.told(part));
            }
        }
        told
    }

    fn between(&self, place: usize) -> Option<String> {
        let Link {
            from,
            to,
            least,
            most,
        } = self.problem.links()[place];
        let most = most.filter(|most| *most >= least)?;
        let (to, from) = (quoted(&self.tasks[to]), quoted(&self.tasks[from]));
        Some(if most == least {
            format!("{to} starts {least} min after {from} ends, no sooner and no later.")
        } else {
            format!("{to} starts {least} to {most} min after {from} ends.")
        })
    }

    fn told(&self, part: Part) -> String {
        let task = |place: usize| quoted(&self.tasks[place]);
        let link = |place: usize| {
            let Link { from, to, .. } = self.problem.links()[place];
            (task(to), task(from), self.problem.links()[place])
        };
        match part {
            Part::Need(place, resource) => {
                let minutes = self.problem.tasks()[place].minutes;
                let name = quoted(&self.resources[resource]);
                let units = self.problem.capacities()[resource];
                let of = if units == 1 { "one" } else { "a unit" };
                format!(
                    "{} takes {minutes} min of {name}, {of} of {units}.",
                    task(place)
                )
            }
            Part::Least(place) => {
                let (to, from, link) = link(place);
                format!("{to} starts at least {} min after {from} ends.", link.least)
            }
            Part::Most(place) => {
                let (to, from, link) = link(place);
                let most = link.most.unwrap_or(link.least);
                format!("{to} starts at most {most} min after {from} ends.")
            }
            Part::Stay(nth) => {
                let stay = self.problem.stays()[nth];
                let moment = |edge: Edge, ever: &str| match edge {
                    Edge::Start(place) => format!("the start of {}", task(place)),
                    Edge::End(place) => format!("the end of {}", task(place)),
                    Edge::Ever => ever.to_owned(),
                };
                let name = quoted(&self.resources[stay.resource]);
                let units = self.problem.capacities()[stay.resource];
                format!(
                    "A unit of {name}, of {units}, is held from {} to {}.",
                    moment(stay.from, "the first minute"),
                    moment(stay.to, "the last")
                )
            }
            Part::Earliest(place) => {
                let earliest = self.problem.tasks()[place].earliest;
                format!("{} can't start before minute {earliest}.", task(place))
            }
            Part::Latest(place) => {
                let latest = self.problem.tasks()[place].latest.unwrap_or(0);
                format!("{} must start by minute {latest}.", task(place))
            }
        }
    }
}
