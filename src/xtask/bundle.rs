//! The release build: Trunk, with the wasm toolchain and the tools that set-up found.

use crate::report::{self, Failure, Note};
use crate::setup::Workbench;
use crate::{command, paths};
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

/// What the built app is made from.
const SOURCES: [&str; 8] = [
    "src",
    "public",
    "style",
    ".cargo",
    "Cargo.toml",
    "Cargo.lock",
    "Trunk.toml",
    "tests/browser/package-lock.json",
];

/// Builds into `dist`, unless it already holds what these sources give.
pub(crate) fn build(bench: &Workbench, force: bool) -> bool {
    report::part("Release build");
    report::step("build", || built(bench, force)).is_some()
}

fn built(bench: &Workbench, force: bool) -> Result<((), Note), Failure> {
    let root = paths::root();
    let record = root.join("target/oventide-build.txt");
    let now = || {
        let sources = fingerprint(&root, &SOURCES);
        let result = fingerprint(&root, &["dist"]);
        let names = crate::halves::names_are_kept();
        format!(
            "{:?} {:?} {names} {sources} {result}",
            bench.wasm, bench.std
        )
    };
    if !force && std::fs::read_to_string(&record).is_ok_and(|last| last == now()) {
        return Ok(((), "nothing has changed since the last one".into()));
    }
    report::doing("trunk build --release: some minutes the first time, then about one");
    let mut trunk = command::within(&root, "trunk", &["build", "--release"]);
    // Trunk takes NO_COLOR for one of its own switches and stops at the usual value.
    trunk.env_remove("NO_COLOR");
    // Its own backtrace would bury the compiler's words.
    trunk.env("RUST_BACKTRACE", "0");
    // A folder of its own, so that these flags and those of `cargo check` don't undo each other's work.
    trunk.env("CARGO_TARGET_DIR", root.join("target/app"));
    bench.equip(&mut trunk);
    command::show(&mut trunk).map_err(|why| {
        Failure::new(
            why,
            "read the compiler's words above; `cargo check -p app --target wasm32-unknown-unknown` is quicker to repeat",
        )
    })?;
    check_result(&paths::dist())?;
    // Without the record the next build is only slower.
    let _ = std::fs::write(&record, now());
    Ok(((), "dist is ready".into()))
}

/// A build can end well and still leave something that can't work.
fn check_result(dist: &Path) -> Result<(), Failure> {
    let remedy = "look at Trunk.toml's hook and at public/index.html";
    let names =
        paths::files_below(dist).map_err(|cause| Failure::new(format!("dist: {cause}"), remedy))?;
    let has = |ending: &str| names.iter().any(|name| name.ends_with(ending));
    for ending in [
        "index.html",
        "sw.js",
        "_bg.wasm",
        "_late.wasm",
        ".css",
        ".webmanifest",
    ] {
        if !has(ending) {
            return Err(Failure::new(format!("dist holds no {ending}"), remedy));
        }
    }
    let worker = std::fs::read_to_string(dist.join("sw.js")).unwrap_or_default();
    if worker.contains("__VERSION__") {
        return Err(Failure::new("sw.js was not filled in", remedy));
    }
    Ok(())
}

/// A hash over names and contents of everything below `parts`; what isn't there counts as empty.
fn fingerprint(root: &Path, parts: &[&str]) -> String {
    let mut hash = Sha256::new();
    for part in parts {
        let path = root.join(part);
        let files: Vec<PathBuf> = match paths::files_below(&path) {
            Ok(names) => names.iter().map(|name| path.join(name)).collect(),
            Err(_) => vec![path],
        };
        for file in files {
            let content = std::fs::read(&file).unwrap_or_default();
            hash.update(file.to_string_lossy().as_bytes());
            hash.update(content.len().to_le_bytes());
            hash.update(&content);
        }
    }
    crate::digest::hex(&hash.finalize())
}
