//! A part of Trunk's `post_build` hook: two files of code in the place of one, each made small.

use crate::command;
use crate::digest::hex;
use crate::order;
use crate::split;
use sha2::{Digest, Sha256};
use std::path::Path;
use std::process::Command;

/// What the page holds where the late half's name belongs.
const MARK: &str = "\"__LATE__\"";
const ENDING: &str = "_bg.wasm";
/// The program as it was linked, in the folder that cargo builds in.
const LINKED: &str = "wasm32-unknown-unknown/web/app.wasm";

/// The functions of the app behind which everything is late. Whoever calls one has to know that the late half is here.
const DOORS: [&str; 7] = [
    "app::pages::late::page",
    "app::pages::today::tell_plan",
    "app::state::plan::calls",
    "app::state::plan::plan_anew",
    "app::state::view::follow",
    "app::words::stood::alarm_of_lost",
    "app::words::stood::stood",
];

/// How `wasm-opt` makes a half small, in two steps; `DEVELOPERS.md` says what each is for.
const SMALL: [&str; 4] = ["--low-memory-unused", "--flatten", "--rereloop", "-Os"];
const SMALLER: [&str; 3] = ["--low-memory-unused", "-Os", "--reorder-functions-by-name"];

/// Divides the code that `index` loads; the page that loads both halves.
pub(crate) fn divide(folder: &Path, index: &str) -> Result<String, String> {
    let (before, rest) = index.split_once(ENDING).ok_or("index.html loads no code")?;
    let start = before
        .rfind("./")
        .ok_or("index.html loads code from elsewhere")?;
    let name = format!("{}{ENDING}", &before[start + 2..]);
    if rest.matches(MARK).count() != 1 {
        return Err(format!("index.html must hold {MARK} exactly once"));
    }
    let whole = folder.join(&name);
    let wasm = std::fs::read(&whole).map_err(|cause| format!("{name}: {cause}"))?;
    let linked = std::env::var_os("CARGO_TARGET_DIR").unwrap_or_default();
    let linked = Path::new(&linked).join(LINKED);
    let linked =
        std::fs::read(&linked).map_err(|cause| format!("{}: {cause}", linked.display()))?;
    let halves = split::split(&wasm, &linked, &DOORS)?;
    std::fs::remove_file(&whole).map_err(|cause| format!("{name}: {cause}"))?;
    let first = small(folder, &halves.first)?;
    let late = small(folder, &halves.late)?;
    // One name for both, of what both consist of: a half never meets one of another build.
    let hash = Sha256::new().chain_update(&first).chain_update(&late);
    let hash = &hex(&hash.finalize())[..16];
    let [first_name, late_name] =
        [ENDING, "_late.wasm"].map(|ending| format!("app-{hash}{ending}"));
    for (name, half) in [(&first_name, first), (&late_name, late)] {
        std::fs::write(folder.join(name), half).map_err(|cause| format!("{name}: {cause}"))?;
    }
    Ok(index
        .replace(&name, &first_name)
        .replace(MARK, &format!("\"./{late_name}\"")))
}

/// Whether functions keep their names, for a profile; the phone loads none.
pub(crate) fn names_are_kept() -> bool {
    std::env::var_os("OVENTIDE_NAMES").is_some()
}

fn small(folder: &Path, half: &[u8]) -> Result<Vec<u8>, String> {
    let small = optimized(folder, half, &SMALL)?;
    let named = if names_are_kept() {
        small
    } else {
        order::named_by_bytes(&small)?
    };
    optimized(folder, &named, &SMALLER)
}

fn optimized(folder: &Path, half: &[u8], how: &[&str]) -> Result<Vec<u8>, String> {
    let path = folder.join("half.wasm");
    let said = |cause: std::io::Error| format!("half.wasm: {cause}");
    std::fs::write(&path, half).map_err(said)?;
    let mut opt = Command::new("wasm-opt");
    opt.args(how);
    if names_are_kept() {
        opt.arg("-g");
    }
    command::show(opt.arg(&path).arg("-o").arg(&path))?;
    let optimized = std::fs::read(&path).map_err(said)?;
    std::fs::remove_file(&path).map_err(said)?;
    Ok(optimized)
}
