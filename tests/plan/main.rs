//! `plan FILE.json`: the schedule of a bake that ends soonest, proven.
//!
//! Prints one line of JSON: `status` (`optimal`, `infeasible` or `best-found`), `makespan`, `bound`
//! (no schedule ends sooner; `optimal` says that the makespan is that bound, and nothing of what waits, which isn't asked), `starts` by id, `ms` that the search took, and `why` in sentences where
//! there is no schedule and the time lasts to find out. `--seconds N` ends the search after so long, with the best that was found;
//! without it, after a minute. Leaves with 2 when the file can't be read.

use std::process::ExitCode;
use std::time::{Duration, Instant};

use checks::plan::answer_to;

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let (mut file, mut seconds) = (None, 60);
    while let Some(argument) = arguments.next() {
        if argument == "--seconds" {
            let Some(told) = arguments.next().and_then(|text| text.parse().ok()) else {
                return refused("--seconds wants a whole number of them.");
            };
            seconds = told;
        } else if file.replace(argument).is_some() {
            return refused("Only one file is scheduled at a time.");
        }
    }
    let Some(file) = file else {
        return refused("Which file? plan FILE.json [--seconds N]");
    };
    let text = match std::fs::read_to_string(&file) {
        Ok(text) => text,
        Err(cause) => return refused(&format!("{file} can't be read: {cause}.")),
    };
    // What is too far away to be told is never reached.
    let until = Instant::now().checked_add(Duration::from_secs(seconds));
    let mut go_on = || until.is_none_or(|until| Instant::now() < until);
    match answer_to(&text, &mut go_on) {
        Ok(answer) => println!("{answer}"),
        Err(why) => return refused(&why),
    }
    ExitCode::SUCCESS
}

fn refused(why: &str) -> ExitCode {
    eprintln!("{why}");
    ExitCode::from(2)
}
