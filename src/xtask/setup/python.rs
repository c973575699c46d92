//! A Python of our own for the oracle checks and for driving WebKit, so that nothing is put into the system's.

use super::system::{self, leave_stamp, stamp_of};
use crate::report::{self, Failure, Note};
use crate::{command, paths};
use std::path::PathBuf;
use std::process::Command;

/// The two lists of what Python needs, each beside the checks that need it.
const REQUIREMENTS: [&str; 2] = [
    "tests/oracle/requirements.txt",
    "tests/browser/engines/requirements.txt",
];

fn folder() -> PathBuf {
    paths::cache().join("python")
}

/// The interpreter that has the packages.
pub(crate) fn interpreter() -> PathBuf {
    folder().join("bin/python")
}

/// Makes the virtual environment, again only when the lists or Python itself have changed.
pub(super) fn ensure() -> Result<((), Note), Failure> {
    let root = paths::root();
    let (lists, absent): (Vec<PathBuf>, Vec<PathBuf>) = REQUIREMENTS
        .iter()
        .map(|list| root.join(list))
        .partition(|list| list.is_file());
    for list in absent {
        report::note(&format!(
            "{} isn't there, so its packages aren't installed",
            list.display()
        ));
    }
    system::ensure(&system::PYTHON)?;
    let version = command::capture(Command::new("python3").arg("--version"))
        .map_err(|why| Failure::new(why, "install Python 3.10 or newer"))?;
    let wanted = stamp_of(&lists, &version)?;
    let stamp = folder().join("oventide");
    if std::fs::read_to_string(&stamp).is_ok_and(|found| found == wanted) {
        return Ok(((), format!("{version}, already there")));
    }
    make_environment()?;
    report::doing("pip install of the pinned packages: a minute or two");
    let mut pip = Command::new(interpreter());
    pip.args([
        "-m",
        "pip",
        "install",
        "--quiet",
        "--disable-pip-version-check",
    ]);
    for list in &lists {
        pip.arg("-r").arg(list);
    }
    if !lists.is_empty() {
        command::show(&mut pip)
            .map_err(|why| Failure::new(why, "read pip's words above; it needs a network once"))?;
    }
    leave_stamp(&stamp, wanted)?;
    Ok(((), format!("{version}, installed")))
}

fn make_environment() -> Result<(), Failure> {
    let make = || {
        let mut command = Command::new("python3");
        command.args(["-m", "venv", "--clear"]).arg(folder());
        command::capture(&mut command)
    };
    let Err(why) = make() else { return Ok(()) };
    // Debian splits the module that makes environments off into a package of its own.
    if system::can_install() {
        system::install(&["python3-venv"])?;
        if make().is_ok() {
            return Ok(());
        }
    }
    Err(Failure::new(
        why,
        "install Python's venv module (Debian: python3-venv)",
    ))
}
