//! Bakes of the starters at every point where the Bench asks for something new, as archives.
//!
//! The browser specs restore one of them where they would otherwise have to walk there.
//! They are made anew for every run, so they always follow the model.
//!
//! In: the moment at which the bakes start, in ms since 1970. Out: a JSON array
//! of `{"formula": …, "title": …, "asks": …, "at_ms": …, "archive": …}`, for
//! the first time at which a step asks for something of a kind.

mod baker;

use std::process::ExitCode;

use domain::units::Moment;
use records::starters;
use serde_json::Value;

fn main() -> ExitCode {
    let started = std::env::args().nth(1).and_then(|ms| ms.parse().ok());
    let Some(started) = started.map(Moment::from_epoch_ms) else {
        eprintln!("points START_MS");
        return ExitCode::from(2);
    };
    let starters = starters::all().into_iter();
    let points = starters.flat_map(|formula| baker::points(formula, started));
    println!("{}", Value::Array(points.collect()));
    ExitCode::SUCCESS
}
