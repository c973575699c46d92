//! One compiler for every call: tests, lints, the formatter, and the app where it can.
//!
//! A machine may have two, Debian's and rustup's.
//! Cargo looks for `cargo-clippy` in rustup's folder before it looks beside itself, and rustup's clippy can't read what Debian's compiler made.
//! So one of them is chosen, once, and each call gets the programs of that one.
//!
//! 1. As a rule it is the one that is first on PATH, as for anybody who calls cargo.
//! 2. Where another is first and rustup's can do everything, it is rustup's.
//! 3. Where another is first and only the lints or the formatter are missing, rustup's stands in for these.
//!
//! Whatever is not first on PATH works in a target folder of its own.

use crate::{command, paths, report};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

/// The target the app is built for.
pub(crate) const TARGET: &str = "wasm32-unknown-unknown";

/// A compiler with what belongs to it.
#[derive(Debug, Clone)]
pub(crate) struct Toolchain {
    /// Where its compiler is at home; its programs lie in `bin` there.
    pub(super) home: PathBuf,
    way: Way,
}

/// How a call comes to a toolchain's programs.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Way {
    /// Any program that is called by its name is of this toolchain.
    ByName,
    /// It is first on PATH, but a program that it lacks would be found in the other one.
    ByPath,
    /// It isn't first on PATH.
    Apart,
}

/// The one that was chosen.
pub(crate) fn chosen() -> &'static Toolchain {
    static CHOSEN: OnceLock<Toolchain> = OnceLock::new();
    CHOSEN.get_or_init(|| {
        let first = sysroot(&mut Command::new("rustc")).unwrap_or_default();
        let Some(rustup) = beside(&first) else {
            let way = Way::ByName;
            return Toolchain { home: first, way };
        };
        if rustup.has_wasm() && rustup.lacks().is_empty() && !debian_is_asked_for() {
            report::note(&format!(
                "rustup's toolchain does everything, not the compiler in {}, which is first on PATH",
                first.display()
            ));
            return rustup;
        }
        let way = Way::ByPath;
        Toolchain { home: first, way }
    })
}

/// Whether Debian's compiler is to build the app, whatever else is there.
pub(super) fn debian_is_asked_for() -> bool {
    std::env::var("OVENTIDE_WASM").is_ok_and(|wanted| wanted == "debian")
}

/// Rustup's toolchain, where it is another one than that at `first` and can compile this workspace.
fn beside(first: &Path) -> Option<Toolchain> {
    let home = rustup_home().filter(|home| !is_same(home, first))?;
    let way = Way::Apart;
    let rustup = Toolchain { home, way };
    rustup.is_new_enough().then_some(rustup)
}

/// Where the toolchain is at home that rustup would use here.
pub(super) fn rustup_home() -> Option<PathBuf> {
    let rustc = command::capture(Command::new("rustup").args(["which", "rustc"])).ok()?;
    Path::new(&rustc).ancestors().nth(2).map(Path::to_path_buf)
}

fn sysroot(rustc: &mut Command) -> Option<PathBuf> {
    let home = command::capture(rustc.args(["--print", "sysroot"]));
    home.ok().map(PathBuf::from)
}

/// A toolchain that is linked to rustup has two names for one folder.
fn is_same(one: &Path, other: &Path) -> bool {
    let real = |path: &Path| path.canonicalize().unwrap_or_else(|_| path.to_path_buf());
    real(one) == real(other)
}

/// Forgets what `cargo run` told us about the toolchain that runs us.
pub(super) fn leave_active(command: &mut Command) {
    for name in ["LD_LIBRARY_PATH", "CARGO", "RUSTC", "RUSTDOC"] {
        command.env_remove(name);
    }
}

/// Whether a folder of libraries has the standard one.
pub(super) fn holds_standard_library(folder: &Path) -> bool {
    let Ok(entries) = std::fs::read_dir(folder) else {
        return false;
    };
    entries.flatten().any(|entry| {
        let name = entry.file_name();
        let name = name.to_string_lossy();
        name.starts_with("libstd-") && name.ends_with(".rlib")
    })
}

impl Toolchain {
    /// Makes a command, and what it calls in turn, use this toolchain.
    pub(crate) fn enter(&self, command: &mut Command) {
        let Some(bin) = self.lead(command) else {
            return;
        };
        command::first_on_path(command, &[bin]);
        if self.way == Way::Apart {
            let given = std::env::var_os("CARGO_TARGET_DIR").map(PathBuf::from);
            let targets = given.unwrap_or_else(|| paths::root().join("target"));
            command.env("CARGO_TARGET_DIR", targets.join("rustup"));
        }
    }

    /// The same, for a command with a target folder and a PATH of its own: the answer has to stand first there.
    pub(super) fn lead(&self, command: &mut Command) -> Option<PathBuf> {
        if self.way == Way::ByName {
            return None;
        }
        leave_active(command);
        Some(self.home.join("bin"))
    }

    /// Cargo in the repository, asked for this.
    pub(crate) fn cargo(&self, verb: &str) -> Command {
        let bin = self.home.join("bin");
        // Cargo would look in rustup's folder first, so what comes as a program of its own is called by its path.
        let program = match (self.way, verb) {
            (Way::ByName, _) => PathBuf::from("cargo"),
            (_, "fmt" | "clippy") => bin.join(format!("cargo-{verb}")),
            _ => bin.join("cargo"),
        };
        let mut command = Command::new(program);
        command.arg(verb).current_dir(paths::root());
        self.enter(&mut command);
        if self.way != Way::ByName {
            command.env("CARGO", bin.join("cargo"));
        }
        command
    }

    fn rustc(&self) -> Command {
        match self.way {
            Way::ByName => Command::new("rustc"),
            Way::ByPath | Way::Apart => {
                let mut rustc = Command::new(self.home.join("bin/rustc"));
                leave_active(&mut rustc);
                rustc
            }
        }
    }

    /// Whether it brings a standard library for wasm.
    pub(crate) fn has_wasm(&self) -> bool {
        let mut rustc = self.rustc();
        rustc.args(["--print", "target-libdir", "--target", TARGET]);
        command::capture(&mut rustc).is_ok_and(|folder| holds_standard_library(Path::new(&folder)))
    }

    /// What formats and lints, as far as it is missing, by the names that rustup has for it.
    pub(super) fn lacks(&self) -> Vec<&'static str> {
        [("fmt", "rustfmt"), ("clippy", "clippy")]
            .into_iter()
            .filter(|(verb, _)| command::capture(self.cargo(verb).arg("--version")).is_err())
            .map(|(_, component)| component)
            .collect()
    }

    /// Rustup's toolchain, to format and lint in place of this one, if it can.
    pub(super) fn stand_in(&self) -> Option<Toolchain> {
        beside(&self.home).filter(|rustup| rustup.lacks().is_empty())
    }

    fn is_new_enough(&self) -> bool {
        let wanted = version(env!("CARGO_PKG_RUST_VERSION"));
        command::capture(self.rustc().arg("--version")).is_ok_and(|said| {
            let own = said.split_whitespace().nth(1);
            own.is_some_and(|own| version(own) >= wanted)
        })
    }
}

/// The first two numbers of a version.
fn version(text: &str) -> Option<(u32, u32)> {
    let mut numbers = text.split('.').map(|number| number.parse().ok());
    Some((numbers.next()??, numbers.next()??))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_compared_by_their_numbers() {
        assert!(version("1.100.0-nightly") > version("1.95"));
        assert!(version("1.63.0") < version("1.95"));
        assert_eq!(version("unknown"), None);
    }

    #[test]
    fn another_compiler_s_programs_are_called_by_their_path_and_work_apart() {
        let home = PathBuf::from("/somewhere");
        let way = Way::Apart;
        let clippy = Toolchain { home, way }.cargo("clippy");
        assert_eq!(clippy.get_program(), "/somewhere/bin/cargo-clippy");
        let set = |name: &str| {
            let mut all = clippy.get_envs();
            let (_, value) = all.find(|(known, _)| *known == name)?;
            Some(value?.to_string_lossy().into_owned())
        };
        assert_eq!(set("CARGO").as_deref(), Some("/somewhere/bin/cargo"));
        assert!(set("PATH").is_some_and(|path| path.starts_with("/somewhere/bin:")));
        assert!(set("CARGO_TARGET_DIR").is_some_and(|folder| folder.ends_with("/rustup")));
    }

    #[test]
    fn what_is_found_by_its_name_is_left_as_it_is() {
        let (home, way) = (PathBuf::from("/somewhere"), Way::ByName);
        let test = Toolchain { home, way }.cargo("test");
        assert_eq!(test.get_program(), "cargo");
        assert!(test.get_envs().all(|(name, _)| name != "CARGO_TARGET_DIR"));
    }
}
