//! Trunk, and the wasm-bindgen program of exactly the version that `Cargo.lock` names.
//!
//! Both are compiled once into the user's cache, where every checkout finds them.

use super::toolchain;
use crate::report::{self, Failure, Note};
use crate::{command, paths};
use std::path::{Path, PathBuf};
use std::process::Command;

/// 0.22 needs a newer compiler than the one this workspace asks for.
const TRUNK: &str = "0.21.14";

/// Where `cargo install` puts programs.
fn folder() -> PathBuf {
    paths::cache().join("tools")
}

/// The folder that holds Trunk.
pub(super) fn ensure_trunk() -> Result<(PathBuf, Note), Failure> {
    ensure("trunk", "trunk", TRUNK, true)
}

/// The folder that holds the matching wasm-bindgen.
pub(super) fn ensure_wasm_bindgen() -> Result<(PathBuf, Note), Failure> {
    let lock = std::fs::read_to_string(paths::root().join("Cargo.lock")).map_err(|cause| {
        Failure::new(
            format!("Cargo.lock can't be read: {cause}"),
            "run `cargo generate-lockfile`, or restore the file from the repository",
        )
    })?;
    let version = locked_version(&lock, "wasm-bindgen").ok_or_else(|| {
        Failure::new(
            "Cargo.lock names no wasm-bindgen",
            "run `cargo check -p app --target wasm32-unknown-unknown` once",
        )
    })?;
    // Locked, it asks for packages that have since been withdrawn.
    ensure("wasm-bindgen", "wasm-bindgen-cli", version, false)
}

fn ensure(
    program: &str,
    package: &str,
    version: &str,
    locked: bool,
) -> Result<(PathBuf, Note), Failure> {
    let is_right = |path: &Path| {
        command::capture(Command::new(path).arg("--version"))
            .is_ok_and(|said| said.split_whitespace().nth(1) == Some(version))
    };
    let own = folder().join("bin");
    let here = [Some(own.join(program)), command::find(program)]
        .into_iter()
        .flatten()
        .find(|path| is_right(path));
    if let Some(bin) = here.as_deref().and_then(Path::parent) {
        return Ok((bin.to_path_buf(), format!("{version}, already there")));
    }
    report::doing(&format!(
        "compiling {package} {version}: 1 to 15 minutes, once"
    ));
    install(package, version, locked).map_err(|why| {
        let root = folder();
        Failure::new(
            why,
            format!(
                "read the compiler's words above; with a network, `cargo install {package}@{version} --root {}` does the same",
                root.display()
            ),
        )
    })?;
    if is_right(&own.join(program)) {
        Ok((own, format!("{version}, compiled")))
    } else {
        Err(Failure::new(
            format!("{package} was compiled but doesn't answer as {version}"),
            format!("remove {} and try again", own.display()),
        ))
    }
}

fn install(package: &str, version: &str, locked: bool) -> Result<(), String> {
    let root = folder();
    std::fs::create_dir_all(&root).map_err(|cause| format!("{}: {cause}", root.display()))?;
    // A folder of its own lets an interrupted compilation go on where it stopped.
    let half_done = root.join("compiling");
    let mut command = toolchain::chosen().cargo("install");
    command.current_dir(&root).arg(package);
    command.args(["--version", version, "--no-default-features", "--root"]);
    command.arg(&root).arg("--target-dir").arg(&half_done);
    if locked {
        command.arg("--locked");
    }
    // These run for seconds per build: compiling them fast matters more than running them fast.
    command
        .env("CARGO_PROFILE_RELEASE_OPT_LEVEL", "1")
        .env("CARGO_PROFILE_RELEASE_LTO", "off")
        .env("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16")
        .env("CARGO_PROFILE_RELEASE_DEBUG", "0");
    command::show(&mut command)?;
    // What is left over only takes room; failing to remove it does no harm.
    let _ = std::fs::remove_dir_all(half_done);
    Ok(())
}

/// The version of `package` that a `Cargo.lock` names, when it names one.
fn locked_version<'a>(lock: &'a str, package: &str) -> Option<&'a str> {
    let name = format!("name = \"{package}\"");
    let mut lines = lock.lines().skip_while(|line| *line != name);
    lines.next()?;
    lines
        .next()?
        .strip_prefix("version = \"")?
        .strip_suffix('"')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lock_file_decides_the_version() {
        let lock = "[[package]]\nname = \"wasm-bindgen-macro\"\nversion = \"0.2.1\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.130\"\n";
        assert_eq!(locked_version(lock, "wasm-bindgen"), Some("0.2.130"));
        assert_eq!(locked_version(lock, "wasm"), None);
    }
}
