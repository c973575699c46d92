//! The formatter and the lints, of the compiler that does everything else wherever that is possible.

use super::debian;
use super::rust::{self, RUSTUP_LIMIT};
use super::world::{self, World};
use crate::command;
use crate::report::{self, Failure, Note};
use std::path::Path;
use std::process::Command;

/// The world whose `cargo fmt` and `cargo clippy` can run.
pub(super) fn ensure() -> Result<(World, Note), Failure> {
    let world = world::chosen();
    let missing = world.lacks();
    if missing.is_empty() {
        return Ok((world.clone(), "already there".into()));
    }
    let list = missing.join(" and ");
    if let Some(rustup) = world.stand_in() {
        let note = format!(
            "rustup's, in a target folder of their own, because {} has no {list}",
            world.home.display()
        );
        return Ok((rustup, note));
    }
    if world.home == Path::new(debian::HOME) {
        debian::install_lints(&missing)?;
    } else {
        add(&missing)?;
    }
    if world.lacks().is_empty() {
        Ok((world.clone(), format!("added {list}")))
    } else {
        Err(Failure::new(
            format!("{list} came, but can't be run"),
            format!("look in {}/bin", world.home.display()),
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
