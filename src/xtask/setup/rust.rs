//! A Rust toolchain that can build for wasm, one way or another.
//!
//! 1. The toolchain that was chosen (`toolchain`) has `wasm32-unknown-unknown`, or rustup can add it.
//! 2. Otherwise Debian's `rustc-web` with a standard library built here once (`debian`).
//!
//! `OVENTIDE_WASM=debian` chooses the second way where the first would do, to try it.
//!
//! Either way the release build compiles the standard library anew, for size and without panic messages;
//! where its sources can't be had, the app weighs about a tenth more.
//! `OVENTIDE_STD=prebuilt` chooses that build, to try it.

use super::debian;
use super::toolchain::{self, TARGET};
use crate::command;
use crate::report::{self, Failure, Note};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

/// A machine without a way to rustup's server may let a connection hang instead of refusing it.
pub(super) const RUSTUP_LIMIT: Duration = Duration::from_secs(60);

/// Which compiler builds the app.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum WasmToolchain {
    /// The one that does everything else, too.
    Active,
    /// Debian's, known to rustup under a name of its own.
    DebianLinked,
    /// Debian's, on a machine without rustup.
    DebianOnPath,
}

impl WasmToolchain {
    /// Makes `command` use this toolchain; the answer has to stand first on its PATH.
    pub(crate) fn prepare(self, command: &mut Command) -> Option<PathBuf> {
        match self {
            Self::Active => toolchain::chosen().lead(command),
            Self::DebianLinked => {
                use_debian(command);
                command.env("RUSTUP_TOOLCHAIN", debian::TOOLCHAIN);
                None
            }
            Self::DebianOnPath => {
                use_debian(command);
                Some(PathBuf::from(debian::BIN))
            }
        }
    }
}

fn use_debian(command: &mut Command) {
    toolchain::leave_active(command);
    if let Some(linker) = debian::borrowed_linker() {
        command.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", linker);
    }
}

/// Where the standard library in the app comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum StandardLibrary {
    /// Built along with the app, for size.
    FromSource,
    /// As the toolchain brings it: built for speed, with every panic's message.
    Prebuilt,
}

impl StandardLibrary {
    /// Makes Trunk's cargo build it, by environment only, so that no other build is touched.
    ///
    /// `build-std` is not stable yet.
    /// `RUSTC_BOOTSTRAP` lets a stable compiler do it, and the compiler's version is the one the sources belong to.
    pub(crate) fn prepare(self, command: &mut Command) {
        // These would take the place of every flag that is set for one target.
        for name in ["RUSTFLAGS", "CARGO_ENCODED_RUSTFLAGS"] {
            command.env_remove(name);
        }
        let mut flags = DIVISIBLE.to_vec();
        if self == Self::FromSource {
            command
                .env("RUSTC_BOOTSTRAP", "1")
                .env("CARGO_UNSTABLE_BUILD_STD", "std,panic_abort")
                .env("CARGO_UNSTABLE_BUILD_STD_FEATURES", "optimize_for_size");
            flags.extend(SMALL);
        }
        command
            // Cargo adds these to the flags in `.cargo/config.toml`.
            .env(
                "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS",
                flags.join(" "),
            );
    }
}

/// The linker leaves in what refers to what, by which the code is divided in two (`split`).
const DIVISIBLE: [&str; 1] = ["-Clink-arg=--emit-relocs"];

/// A panic becomes a trap at once: no message, no place in the source, and no code that makes them.
///
/// `boot.js` hears of the trap and tells the baker.
const SMALL: [&str; 3] = [
    "-Zunstable-options",
    "-Cpanic=immediate-abort",
    "-Zlocation-detail=none",
];

/// Finds the standard library's sources, or lets rustup bring them.
pub(super) fn ensure_sources(toolchain: WasmToolchain) -> Result<(StandardLibrary, Note), Failure> {
    use StandardLibrary::{FromSource, Prebuilt};
    if std::env::var("OVENTIDE_STD").is_ok_and(|wanted| wanted == "prebuilt") {
        return Ok((Prebuilt, "prebuilt, as OVENTIDE_STD asks".into()));
    }
    let there = || match toolchain {
        WasmToolchain::Active => has_sources(&toolchain::chosen().home),
        WasmToolchain::DebianLinked | WasmToolchain::DebianOnPath => {
            has_sources(Path::new(debian::HOME))
        }
    };
    if there() {
        return Ok((FromSource, "sources already there".into()));
    }
    let tried = match toolchain {
        WasmToolchain::Active => add_sources(),
        WasmToolchain::DebianLinked | WasmToolchain::DebianOnPath => debian::install_sources(),
    };
    if there() {
        return Ok((FromSource, "sources installed".into()));
    }
    let why = tried
        .err()
        .unwrap_or_else(|| "they are still missing".into());
    report::note(&format!("no sources of the standard library: {why}"));
    report::note("the app will weigh about a tenth more to load, and the suite `size` will fail");
    Ok((Prebuilt, "prebuilt, since its sources can't be had".into()))
}

/// Whether a toolchain at `home` has the sources, where rustup and Debian both put them.
fn has_sources(home: &Path) -> bool {
    home.join("lib/rustlib/src/rust/library/std/Cargo.toml")
        .is_file()
}

fn add_sources() -> Result<(), String> {
    if !rustup_works() {
        return Err("only rustup could bring them".into());
    }
    report::doing("rustup component add rust-src (stopped after 60 s)");
    let mut command = Command::new("rustup");
    command.args(["component", "add", "rust-src"]);
    command::show_within(&mut command, RUSTUP_LIMIT)
}

/// Finds or makes a toolchain that can build for wasm.
pub(super) fn ensure_wasm() -> Result<(WasmToolchain, Note), Failure> {
    // Debian's compiler may be the chosen one, and it lacks a linker for wasm.
    let is_debian = toolchain::chosen().home == Path::new(debian::HOME);
    if !toolchain::debian_is_asked_for() && !is_debian {
        if toolchain::chosen().has_wasm() {
            return Ok((WasmToolchain::Active, "already there".into()));
        }
        // Asking rustup again on every run would cost the whole time limit where it can't answer.
        if !debian::is_ready() && add_target() {
            return Ok((WasmToolchain::Active, "added by rustup".into()));
        }
    }
    let note = debian::ensure()?;
    let toolchain = if rustup_works() {
        debian::link()?;
        WasmToolchain::DebianLinked
    } else {
        WasmToolchain::DebianOnPath
    };
    Ok((toolchain, note))
}

fn add_target() -> bool {
    if !rustup_works() {
        return false;
    }
    report::doing("rustup target add wasm32-unknown-unknown (stopped after 60 s)");
    let mut command = Command::new("rustup");
    command.args(["target", "add", TARGET]);
    match command::show_within(&mut command, RUSTUP_LIMIT) {
        Ok(()) => toolchain::chosen().has_wasm(),
        Err(why) => {
            report::note(&format!("rustup can't add the target here: {why}"));
            false
        }
    }
}

pub(super) fn rustup_works() -> bool {
    command::capture(Command::new("rustup").arg("--version")).is_ok()
}
