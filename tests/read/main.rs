//! `read FILE`: what a reader makes of a text, a page or a JSON file.
//!
//! Prints one line of JSON (see `tests/read/mod.rs`). Leaves with 2 when the file can't be opened; a file that is no
//! formula is an answer like any other.

use std::process::ExitCode;

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let (Some(file), None) = (arguments.next(), arguments.next()) else {
        return refused("Which file? read FILE");
    };
    match std::fs::read(&file) {
        Ok(bytes) => println!("{}", checks::read::answer_to(&bytes)),
        Err(cause) => return refused(&format!("{file} can't be read: {cause}.")),
    }
    ExitCode::SUCCESS
}

fn refused(why: &str) -> ExitCode {
    eprintln!("{why}");
    ExitCode::from(2)
}
