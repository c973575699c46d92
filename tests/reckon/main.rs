//! `reckon FILE.json`: reckons a file of published figures with the model.
//!
//! Prints `id PASS|FAIL|SKIP got expected reason` for every item, and last `N passed, N failed,
//! N skipped`. `--tables FOLDER` says where the USDA files with foods that the model doesn't
//! carry lie; without it they are looked for beside the file. Leaves with 1 when an item fails,
//! and with 2 when the file can't be read.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use checks::reckon::{Verdict, reckon_file};

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let (mut file, mut tables) = (None, None);
    while let Some(argument) = arguments.next() {
        if argument == "--tables" {
            let Some(folder) = arguments.next() else {
                return refused("--tables wants a folder.");
            };
            tables = Some(PathBuf::from(folder));
        } else if file.replace(argument).is_some() {
            return refused("Only one file is reckoned at a time.");
        }
    }
    let Some(file) = file else {
        return refused("Which file? reckon FILE.json [--tables FOLDER]");
    };
    match reckon_file(Path::new(&file), tables) {
        Ok(report) => {
            println!("{report}");
            ExitCode::from(u8::from(report.count(Verdict::Fail) > 0))
        }
        Err(why) => refused(&why),
    }
}

fn refused(why: &str) -> ExitCode {
    eprintln!("{why}");
    ExitCode::from(2)
}
