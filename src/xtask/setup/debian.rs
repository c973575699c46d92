//! The way to wasm where rustup can't add a target: Debian's `rustc-web`, and a wasm standard library built once from `rust-web-src`.
//!
//! Debian packages no wasm library for this compiler.
//! Cargo builds one in under a minute as a by-product of building an empty crate;
//! its parts are copied to where the compiler looks for them.
//! `embed-bitcode` is needed because the release build's link-time optimisation fails without it.

use super::system;
use super::toolchain::{self, TARGET};
use crate::report::{self, Failure};
use crate::{command, paths};
use std::fs::File;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The name under which rustup knows Debian's toolchain.
pub(super) const TOOLCHAIN: &str = "oventide-debian";
/// Where Debian keeps its toolchain.
pub(super) const HOME: &str = "/usr";
/// Where Debian keeps its compiler.
pub(super) const BIN: &str = "/usr/bin";
const PACKAGES: [&str; 3] = ["rustc-web", "cargo-web", SOURCES_PACKAGE];
const SOURCES_PACKAGE: &str = "rust-web-src";
/// Brings `rust-lld`, as a link to the linker of the LLVM that this compiler uses.
const LINKER_PACKAGE: &str = "rust-web-llvm";
const LINKER: &str = "rust-lld";
const RUSTC: &str = "/usr/bin/rustc";
const CARGO: &str = "/usr/bin/cargo";
const SOURCES: &str = "/usr/lib/rustlib/src/rust/library/std";
const LIBRARY: &str = "/usr/lib/rustlib/wasm32-unknown-unknown/lib";
/// Beside the library, so that whoever removes one removes the other.
const STAMP: &str = "oventide-built-by.txt";

/// Whether the library is there and was built by the compiler that is there.
pub(super) fn is_ready() -> bool {
    let stamp = std::fs::read_to_string(Path::new(LIBRARY).join(STAMP));
    let ours = stamp.is_ok_and(|stamp| compiler().is_some_and(|compiler| stamp.trim() == compiler));
    ours && toolchain::holds_standard_library(Path::new(LIBRARY))
}

/// Installs the packages and builds the library, as far as either is missing.
pub(super) fn ensure() -> Result<String, Failure> {
    if is_ready() {
        ensure_linker()?;
        return Ok("Debian's toolchain, already there".into());
    }
    let there = [RUSTC, CARGO, SOURCES]
        .iter()
        .all(|path| Path::new(path).exists());
    if !there {
        if !system::can_install() {
            return Err(Failure::new(
                "rustup can't add wasm32-unknown-unknown, and this isn't a Debian where packages could serve",
                "run `rustup target add wasm32-unknown-unknown` on a network that reaches rustup's server",
            ));
        }
        system::install(&PACKAGES)?;
    }
    ensure_linker()?;
    let _alone = lock()?;
    if is_ready() {
        return Ok("Debian's toolchain, built by another run".into());
    }
    report::doing("building the wasm standard library from Debian's sources: about a minute, once");
    let parts = build_library()?;
    copy_library(&parts)?;
    Ok("Debian's toolchain with a standard library built here".into())
}

/// Installs the standard library's sources, when only they are missing.
pub(super) fn install_sources() -> Result<(), String> {
    system::install(&[SOURCES_PACKAGE]).map_err(|failure| failure.why)
}

/// Installs the formatter and the lints that belong to the compiler that is there.
pub(super) fn install_lints(missing: &[&str]) -> Result<(), Failure> {
    // Debian has two compilers, and names the packages of the newer one after browsers.
    let owner = command::capture(Command::new("dpkg").args(["-S", RUSTC])).unwrap_or_default();
    let is_web = owner.starts_with("rustc-web");
    let packages: Vec<&str> = missing
        .iter()
        .map(|component| match (*component, is_web) {
            ("clippy", true) => "rust-web-clippy",
            ("clippy", false) => "rust-clippy",
            (_, true) => "rustfmt-web",
            (_, false) => "rustfmt",
        })
        .collect();
    system::install(&packages)
}

/// Makes Debian's toolchain known to rustup, for use by name.
pub(super) fn link() -> Result<(), Failure> {
    let known = command::capture(Command::new("rustup").args(["toolchain", "list"]));
    if known.is_ok_and(|list| list.lines().any(|line| line.starts_with(TOOLCHAIN))) {
        return Ok(());
    }
    command::capture(Command::new("rustup").args(["toolchain", "link", TOOLCHAIN, HOME]))
        .map(drop)
        .map_err(|why| {
            let remedy =
                format!("run `rustup toolchain link {TOOLCHAIN} {HOME}` and read its words");
            Failure::new(why, remedy)
        })
}

/// Debian's compiler comes without the linker it asks for; rustup's own serves as well.
pub(super) fn borrowed_linker() -> Option<PathBuf> {
    if command::find(LINKER).is_some() {
        return None;
    }
    let host = compiler()?;
    let host = host.lines().find_map(|line| line.strip_prefix("host: "))?;
    let linker = toolchain::rustup_home()?
        .join("lib/rustlib")
        .join(host)
        .join("bin")
        .join(LINKER);
    linker.is_file().then_some(linker)
}

fn ensure_linker() -> Result<(), Failure> {
    if command::find(LINKER).is_some() || borrowed_linker().is_some() {
        return Ok(());
    }
    system::install(&[LINKER_PACKAGE])?;
    if command::find(LINKER).is_some() {
        return Ok(());
    }
    // The link is there but what it points to is a package of its own, named like its program.
    let program = std::fs::read_link(Path::new(BIN).join(LINKER)).unwrap_or_default();
    match program.file_name().and_then(|name| name.to_str()) {
        Some(package) => system::install(&[package]),
        None => Err(Failure::new(
            format!("{LINKER_PACKAGE} brought no {LINKER}"),
            "install the lld package of the LLVM that rustc-web uses",
        )),
    }
}

fn compiler() -> Option<String> {
    command::capture(Command::new(RUSTC).arg("-vV")).ok()
}

fn workshop() -> PathBuf {
    paths::cache().join("wasm-std")
}

/// Two runs at once must not build into the same folder; the lock ends with the file.
fn lock() -> Result<File, Failure> {
    let trouble = |cause: std::io::Error| {
        Failure::new(
            format!("{}: {cause}", workshop().display()),
            "make the folder writable",
        )
    };
    std::fs::create_dir_all(workshop()).map_err(trouble)?;
    let file = File::create(workshop().join("lock")).map_err(trouble)?;
    file.lock().map_err(trouble)?;
    Ok(file)
}

fn build_library() -> Result<Vec<PathBuf>, Failure> {
    let remedy = "read the compiler's words above; rustc-web, cargo-web and rust-web-src must be of one version";
    let trouble = |why: String| Failure::new(why, remedy);
    let folder = workshop();
    let write = |name: &str, text: &str| {
        std::fs::write(folder.join(name), text).map_err(|cause| trouble(format!("{name}: {cause}")))
    };
    let manifest = "[package]\nname = \"empty\"\nversion = \"0.0.0\"\nedition = \"2024\"\n\
                    [lib]\npath = \"lib.rs\"\n[workspace]\n";
    write("Cargo.toml", manifest)?;
    write("lib.rs", "")?;
    let target = folder.join("target");
    let mut cargo = command::within(&folder, CARGO, &["build", "--release", "--target", TARGET]);
    cargo
        .arg("-Zbuild-std=std,panic_abort,proc_macro")
        .arg("--target-dir")
        .arg(&target);
    toolchain::leave_active(&mut cargo);
    command::first_on_path(&mut cargo, &[PathBuf::from(BIN)]);
    cargo
        .env("RUSTC", RUSTC)
        .env("RUSTC_BOOTSTRAP", "1")
        .env("RUSTFLAGS", "-Cembed-bitcode=yes")
        .env_remove("RUSTUP_TOOLCHAIN");
    command::show(&mut cargo).map_err(trouble)?;
    let parts = target.join(TARGET).join("release/deps");
    let found: Vec<PathBuf> = paths::files_below(&parts)
        .map_err(|cause| trouble(format!("{}: {cause}", parts.display())))?
        .iter()
        .filter(|name| name.ends_with(".rlib") && !name.starts_with("libempty-"))
        .map(|name| parts.join(name))
        .collect();
    if found
        .iter()
        .any(|part| part.to_string_lossy().contains("/libstd-"))
    {
        Ok(found)
    } else {
        Err(trouble("cargo built no standard library".into()))
    }
}

fn copy_library(parts: &[PathBuf]) -> Result<(), Failure> {
    let remedy = format!(
        "copy the .rlib files of {} to {LIBRARY} as root",
        workshop().display()
    );
    let trouble = |why: String| Failure::new(why, remedy.clone());
    let stamp = workshop().join(STAMP);
    std::fs::write(&stamp, compiler().unwrap_or_default())
        .map_err(|cause| trouble(format!("{}: {cause}", stamp.display())))?;
    // What an older compiler's build left there would be found first, or twice.
    system::privileged("rm", &["-rf", LIBRARY]).map_err(trouble)?;
    system::privileged("mkdir", &["-p", LIBRARY]).map_err(trouble)?;
    for part in parts.iter().chain([&stamp]) {
        let part = part.to_string_lossy();
        system::privileged("cp", &[part.as_ref(), LIBRARY]).map_err(trouble)?;
    }
    Ok(())
}
