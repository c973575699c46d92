//! Bakes of the starters at every point where the Bench asks for something new, as archives.
//!
//! Beside them stands the beginning of a bake that is larger than any starter's.
//!
//! The browser specs restore one of them where they would otherwise have to walk there.
//! They are made anew for every run, so they always follow the model.
//!
//! In: the moment at which the bakes start, in ms since 1970. Out: a JSON array
//! of `{"formula": …, "title": …, "asks": …, "at_ms": …, "archive": …}`, for
//! the first time at which a step asks for something of a kind.

use std::process::ExitCode;

use checks::baker::{self, Point};
use checks::replan::forty_steps;
use domain::formula::Formula;
use domain::kitchen::Kitchen;
use domain::schedule::{Ask, focus};
use domain::units::Moment;
use records::Record as _;
use records::archive::Archive;
use records::bake::EntryRecord;
use records::starters;
use serde_json::{Value, json};

fn main() -> ExitCode {
    let started = std::env::args().nth(1).and_then(|ms| ms.parse().ok());
    let Some(started) = started.map(Moment::from_epoch_ms) else {
        eprintln!("points START_MS");
        return ExitCode::from(2);
    };
    let starters = starters::all().into_iter();
    let points = starters.flat_map(|formula| baker::points(formula, Kitchen::UNMEASURED, started));
    let points = points.chain([begun(forty_steps(), started)]);
    println!("{}", points.map(|point| told(&point)).collect::<Value>());
    ExitCode::SUCCESS
}

/// A bake of which nothing is done yet.
fn begun(formula: Formula, now: Moment) -> Point {
    let bake = checks::begin(formula, Kitchen::UNMEASURED, now);
    let ask = focus(bake.state(), now);
    Point { bake, ask, now }
}

fn told(point: &Point) -> Value {
    let asks = match point.ask {
        Ask::Work(_) => "work",
        Ask::Fold(_) => "fold",
        Ask::Look(_) => "look",
        Ask::IntoFridge(_) => "into the fridge",
        Ask::OutOfFridge(_) => "out of the fridge",
        Ask::Wait(_) => "wait",
        Ask::Idle => "nothing",
        Ask::AllDone => "all done",
    };
    let formula = &point.bake.state().formula;
    let step = point.ask.step().and_then(|step| formula.step(step));
    let log = point.bake.log().iter();
    let archive = Archive {
        bakes: vec![(
            point.bake.id.0.clone(),
            log.map(|entry| EntryRecord::from(entry).write()).collect(),
        )],
        ..Archive::default()
    };
    let at_ms = point.now.epoch_ms();
    json!({
        "formula": formula.name,
        "title": step.map_or("", |step| &step.title),
        "asks": asks,
        "at_ms": at_ms,
        "archive": archive.write(at_ms),
    })
}
