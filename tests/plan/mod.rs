//! Bakes to schedule, as files tell them, and their answers.
//!
//! A file has `tasks` (`id`, `minutes`, `needs`), `links` (`from`, `to`, `min`, `max`: minutes from
//! the end of the one to the start of the other; no `min`, or null, is 0, and no `max`, or null, is no bound) and `resources` with
//! their capacities. Whatever else stands in it isn't read, and so neither is a name that is misspelt. A task may also have an `earliest` and a
//! `latest` start, `counts` (false where the end doesn't wait for it), and a `block`: the name of a
//! resource that it needs and the number of the block for which that is kept; blocks whose tasks have the same `state`
//! may share it. In `stays` stands what is held longer than a task: a `resource`, and `from` when and `to` when, each a
//! task's `start` or `end`, or `"ever"`.

mod read;
mod words;

use std::collections::BTreeMap;
use std::time::Instant;

use domain::schedule::solve::{
    Edge, Link, Outcome, Problem, Schedule, Stay, Task, solve, why_infeasible,
};
use read::{block, capacities, whole, whole_or_none};
use serde::Deserialize;
use serde_json::{Value, json};
use words::quoted;

/// A file as it is read.
#[derive(Debug, Clone, Deserialize)]
#[serde(expecting = "an object with tasks")]
pub struct File {
    tasks: Vec<FileTask>,
    #[serde(default)]
    links: Vec<FileLink>,
    #[serde(default, deserialize_with = "capacities")]
    resources: BTreeMap<String, u32>,
    #[serde(default)]
    stays: Vec<FileStay>,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(expecting = "a task")]
struct FileTask {
    id: String,
    #[serde(deserialize_with = "whole")]
    minutes: i32,
    #[serde(default)]
    needs: Vec<String>,
    #[serde(default, deserialize_with = "whole")]
    earliest: i32,
    #[serde(default, deserialize_with = "whole_or_none")]
    latest: Option<i32>,
    #[serde(default = "yes")]
    counts: bool,
    #[serde(default, deserialize_with = "block")]
    block: Option<(String, u16)>,
    #[serde(default, deserialize_with = "whole_or_none")]
    state: Option<u16>,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(expecting = "a stay")]
struct FileStay {
    resource: String,
    from: FileEdge,
    to: FileEdge,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(rename_all = "lowercase")]
enum FileEdge {
    Start(String),
    End(String),
    Ever,
}

fn yes() -> bool {
    true
}

/// The answer to a file's text. How long it may take is said by `go_on`; see [`solve`].
///
/// # Errors
/// One sentence that says what is wrong with it.
pub fn answer_to(text: &str, go_on: &mut dyn FnMut() -> bool) -> Result<Value, String> {
    let file = File::read(text)?;
    let nothing_of = file.needs_nothing();
    if nothing_of.is_empty() {
        return Ok(file.able().named()?.answer(go_on));
    }
    // Nothing is wrong with such a file, if all else is right; it only can't be done.
    file.able().named()?;
    Ok(answer("infeasible", None, json!({}), 0.0, nothing_of))
}

fn answer(
    status: &str,
    ends: Option<(Option<i32>, i32)>,
    starts: Value,
    ms: f64,
    why: Vec<String>,
) -> Value {
    json!({
        "status": status,
        "makespan": ends.and_then(|(end, _)| end),
        "bound": ends.map(|(_, bound)| bound),
        "starts": starts,
        "ms": ms,
        "why": why,
    })
}

#[derive(Debug, Clone, Deserialize)]
#[serde(expecting = "a link")]
struct FileLink {
    from: String,
    to: String,
    #[serde(default, deserialize_with = "whole_or_none")]
    min: Option<i32>,
    #[serde(default, deserialize_with = "whole_or_none")]
    max: Option<i32>,
}

/// A problem with the names of its parts.
#[derive(Debug, Clone)]
pub struct Named {
    /// What is to be scheduled.
    pub problem: Problem,
    /// The ids of its tasks.
    pub tasks: Vec<String>,
    /// The names of its resources.
    pub resources: Vec<String>,
}

impl Named {
    /// Reads a file's text.
    ///
    /// # Errors
    /// One sentence that says what is wrong.
    pub fn read(text: &str) -> Result<Self, String> {
        File::read(text)?.named()
    }

    /// How long the answer may take is said by `go_on`; see [`solve`]. What is infeasible has no `why`
    /// where the time ends before it is known.
    pub fn answer(&self, go_on: &mut dyn FnMut() -> bool) -> Value {
        let started = Instant::now();
        let outcome = solve(&self.problem, None, go_on);
        let ms = started.elapsed().as_secs_f64() * 1000.0;
        let (status, best, bound) = match outcome {
            Outcome::Optimal(best) => ("optimal", Some(best.clone()), Some(best.end)),
            Outcome::Infeasible => ("infeasible", None, None),
            Outcome::BestFound { best, bound } => ("best-found", best, Some(bound)),
        };
        let why: Vec<String> = match status {
            "infeasible" => self.why(&why_infeasible(&self.problem, go_on)),
            _ => Vec::new(),
        };
        let ends = bound.map(|bound| (best.as_ref().map(|best| best.end), bound));
        answer(status, ends, self.starts(best.as_ref()), ms, why)
    }

    fn starts(&self, best: Option<&Schedule>) -> Value {
        let starts = best.map_or(&[][..], |best| &best.starts);
        let by_id = self.tasks.iter().zip(starts);
        by_id
            .map(|(id, &start)| (id.clone(), Value::from(start)))
            .collect()
    }
}

impl File {
    /// Reads its text.
    ///
    /// # Errors
    /// One sentence that says what is wrong.
    fn read(text: &str) -> Result<Self, String> {
        // Some editors write a mark before the first character that says how the rest is encoded.
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        serde_json::from_str(text).map_err(|cause| format!("That is no bake to schedule: {cause}."))
    }

    /// The same with one of everything of which there is nothing, but for what stays take. Tasks of no time at all hold
    /// nothing of it.
    fn able(&self) -> Self {
        let mut able = self.clone();
        for (name, capacity) in &mut able.resources {
            if !self.stays.iter().any(|stay| stay.resource == *name) {
                *capacity = (*capacity).max(1);
            }
        }
        able
    }

    /// What can't be done because there is nothing of what it needs, in sentences.
    fn needs_nothing(&self) -> Vec<String> {
        let is_nothing = |need: &&String| self.resources.get(*need) == Some(&0);
        let of = |task: &FileTask| {
            let need = task
                .needs
                .iter()
                .find(is_nothing)
                .filter(|_| task.minutes > 0)?;
            Some(words::nothing_of(&task.id, need))
        };
        self.tasks.iter().filter_map(of).collect()
    }

    /// The same by places instead of names.
    ///
    /// # Errors
    /// One sentence that says what is wrong.
    pub fn named(&self) -> Result<Named, String> {
        let resources: Vec<String> = self.resources.keys().cloned().collect();
        let mut tasks: Vec<Task> = Vec::new();
        for (nth, task) in self.tasks.iter().enumerate() {
            if self.tasks[..nth].iter().any(|other| other.id == task.id) {
                return Err(format!(
                    "There are two tasks with the id {}.",
                    quoted(&task.id)
                ));
            }
            let place = |need: &String| {
                let found = resources.iter().position(|name| name == need);
                let (id, need) = (quoted(&task.id), quoted(need));
                found.ok_or_else(|| format!("{id} needs {need}, which is no resource."))
            };
            let needs: Vec<usize> = task.needs.iter().map(place).collect::<Result<_, _>>()?;
            let block = match &task.block {
                Some((resource, of)) => Some((place(resource)?, *of)),
                None => None,
            };
            tasks.push(Task {
                counts: task.counts,
                block,
                state: task.state,
                earliest: task.earliest,
                latest: task.latest,
                ..Task::new(task.minutes, &needs)
            });
        }
        let mut links: Vec<Link> = Vec::new();
        for link in &self.links {
            let place = |id: &String| {
                let found = self.tasks.iter().position(|task| task.id == *id);
                found.ok_or_else(|| {
                    let (from, to, id) = (quoted(&link.from), quoted(&link.to), quoted(id));
                    format!("A link leads from {from} to {to}, but {id} is no task.")
                })
            };
            links.push(Link {
                from: place(&link.from)?,
                to: place(&link.to)?,
                least: link.min.unwrap_or(0),
                most: link.max,
            });
        }
        let edge = |edge: &FileEdge| {
            let (id, of): (_, fn(usize) -> Edge) = match edge {
                FileEdge::Start(id) => (id, Edge::Start),
                FileEdge::End(id) => (id, Edge::End),
                FileEdge::Ever => return Ok(Edge::Ever),
            };
            let found = self.tasks.iter().position(|task| task.id == *id);
            let found =
                found.ok_or_else(|| format!("A stay tells of {}, which is no task.", quoted(id)));
            found.map(of)
        };
        let stay = |stay: &FileStay| {
            let found = resources.iter().position(|name| *name == stay.resource);
            let name = quoted(&stay.resource);
            let unknown = || format!("A stay takes {name}, which is no resource.");
            Ok(Stay {
                resource: found.ok_or_else(unknown)?,
                from: edge(&stay.from)?,
                to: edge(&stay.to)?,
            })
        };
        let stays = self.stays.iter().map(stay);
        let stays: Vec<Stay> = stays.collect::<Result<_, String>>()?;
        let ids: Vec<String> = self.tasks.iter().map(|task| task.id.clone()).collect();
        let capacities = self.resources.values().copied().collect();
        let problem = Problem::new(tasks, links, capacities)
            .and_then(|problem| problem.with_stays(stays))
            .map_err(|wrong| words::refused(wrong, &ids, &resources))?;
        Ok(Named {
            problem,
            tasks: ids,
            resources,
        })
    }
}
