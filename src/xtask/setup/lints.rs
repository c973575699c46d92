//! The formatter and the lints, of the compiler that does everything else wherever that is possible.

use super::debian;
use super::rust::{self, RUSTUP_LIMIT};
use super::toolchain::{self, Toolchain};
use crate::command;
use crate::report::{self, Failure, Note};
use std::path::Path;
use std::process::Command;

/// The toolchain whose `cargo fmt` and `cargo clippy` can run.
pub(super) fn ensure() -> Result<(Toolchain, Note), Failure> {
    let toolchain = toolchain::chosen();
    let missing = toolchain.lacks();
    if missing.is_empty() {
        return Ok((toolchain.clone(), "already there".into()));
    }
    let list = missing.join(" and ");
    if let Some(rustup) = toolchain.stand_in() {
        let note = format!(
            "rustup's, in a target folder of their own, because {} has no {list}",
            toolchain.home.display()
        );
        return Ok((rustup, note));
    }
    if toolchain.home == Path::new(debian::HOME) {
        debian::install_lints(&missing)?;
    } else {
        add(&missing)?;
    }
    if toolchain.lacks().is_empty() {
        Ok((toolchain.clone(), format!("added {list}")))
    } else {
        Err(Failure::new(
            format!("{list} came, but can't be run"),
            format!("look in {}/bin", toolchain.home.display()),
        ))
    }
}

fn add(missing: &[&str]) -> Result<(), Failure> {
    let list = missing.join(" and ");
    if !rust::rustup_works() {
        return Err(Failure::new(
            format!("{list} can't be had without rustup"),
            "install rustup (https://rustup.rs) and its stable toolchain",
        ));
    }
    report::doing(&format!("rustup component add {list} (stopped after 60 s)"));
    let mut command = Command::new("rustup");
    command.args(["component", "add"]).args(missing);
    command::show_within(&mut command, RUSTUP_LIMIT).map_err(|why| {
        Failure::new(
            why,
            "run `rustup component add rustfmt clippy` with a network",
        )
    })
}
