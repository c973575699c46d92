//! What the person at the terminal sees while they wait.

use std::time::{Duration, Instant};

/// Why a step failed and what to do about it.
#[derive(Debug)]
pub(crate) struct Failure {
    pub(crate) why: String,
    pub(crate) remedy: String,
}

impl Failure {
    pub(crate) fn new(why: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self {
            why: why.into(),
            remedy: remedy.into(),
        }
    }
}

/// What a step found or did, as half a sentence.
pub(crate) type Note = String;

/// Runs one step and says how it ended and how long it took; `None` when it failed.
pub(crate) fn step<T>(name: &str, work: impl FnOnce() -> Result<(T, Note), Failure>) -> Option<T> {
    let started = Instant::now();
    let result = work();
    let took = seconds(started.elapsed());
    match result {
        Ok((made, note)) => {
            println!("  ok      {name}: {note} ({took})");
            Some(made)
        }
        Err(failure) => {
            println!("  FAILED  {name} ({took})");
            println!("          why: {}", failure.why);
            println!("          what to do: {}", failure.remedy);
            None
        }
    }
}

/// Announces the start of something long, so that a silent minute isn't taken for a hang.
pub(crate) fn doing(what: &str) {
    println!("  ...     {what}");
}

/// Something worth knowing that isn't a failure.
pub(crate) fn note(what: &str) {
    println!("  note    {what}");
}

/// A heading between the parts of a run.
pub(crate) fn part(title: &str) {
    println!("\n== {title}");
}

/// A duration as people say it.
pub(crate) fn seconds(time: Duration) -> String {
    let seconds = time.as_secs_f64();
    if seconds < 60.0 {
        format!("{seconds:.1} s")
    } else {
        let whole = time.as_secs();
        format!("{} min {} s", whole / 60, whole % 60)
    }
}
