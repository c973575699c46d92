//! Makes a machine with only cargo, Node.js and a package manager able to build and to test.
//!
//! Each step first looks whether its work is already done, so a second run only looks.

mod debian;
mod lints;
mod node;
mod python;
mod rust;
mod system;
mod toolchain;
mod tools;

use crate::{command, paths, report};
use std::path::{Path, PathBuf};
use std::process::Command;

pub(crate) use python::interpreter as python;
pub(crate) use rust::{StandardLibrary, WasmToolchain};
pub(crate) use system::{CHROMIUM, CHROMIUM_SHELL, FIREFOX, WEBKIT, Wanted};
pub(crate) use toolchain::{Toolchain, chosen as toolchain};

/// What building needs: a toolchain that knows wasm, and the tools to be found before any others.
pub(crate) struct Workbench {
    pub(crate) wasm: WasmToolchain,
    pub(crate) std: StandardLibrary,
    tools: Vec<PathBuf>,
}

impl Workbench {
    /// Lets Trunk find the right compiler and tools, and this program, which is its hook.
    pub(crate) fn equip(&self, command: &mut Command) {
        let mut first = self.tools.clone();
        first.extend(self.wasm.prepare(command));
        self.std.prepare(command);
        let own = std::env::current_exe().unwrap_or_default();
        first.extend(own.parent().map(Path::to_path_buf));
        command::first_on_path(command, &first);
    }
}

/// Sets up what building needs; `None` when a step failed, which has then been reported.
pub(crate) fn for_building() -> Option<Workbench> {
    report::part("Set-up for building");
    let wasm = report::step("wasm target", rust::ensure_wasm)?;
    let std = report::step("standard library", || rust::ensure_sources(wasm))?;
    let node_ready = report::step("npm packages", node::ensure);
    let trunk = report::step("trunk", tools::ensure_trunk);
    let bindgen = report::step("wasm-bindgen", tools::ensure_wasm_bindgen);
    node_ready?;
    // Debian's own wasm-opt can give a green build and a blank page, so the one from npm goes first.
    let mut folders = vec![paths::browser_checks().join("node_modules/.bin")];
    folders.extend([trunk?, bindgen?]);
    folders.dedup();
    Some(Workbench {
        wasm,
        std,
        tools: folders,
    })
}

/// Sets up formatting and lints; `None` when that failed, which has then been reported.
pub(crate) fn for_linting() -> Option<Toolchain> {
    report::part("Set-up for linting");
    report::step("rustfmt and clippy", lints::ensure)
}

/// Sets up the Python oracle checks and the WebKit driver's Python side.
pub(crate) fn for_python() -> bool {
    report::part("Set-up for Python");
    report::step("python packages", python::ensure).is_some()
}

/// Sets up the npm packages of the browser checks.
pub(crate) fn for_node() -> bool {
    report::part("Set-up for Node.js");
    report::step("npm packages", node::ensure).is_some()
}

/// Sets up one browser with what it needs to run without a screen.
pub(crate) fn browser(wanted: &Wanted) -> bool {
    report::step(wanted.name, || system::ensure(wanted)).is_some()
}

/// Chromium for the Playwright specs.
pub(crate) fn chromium() -> bool {
    report::part("Set-up for the browser checks");
    if !system::is_there(&CHROMIUM_SHELL) && system::can_install() {
        let installed = system::ensure(&CHROMIUM_SHELL);
        if installed.is_err() {
            report::note("no Chromium without windows here; the specs take longer in a whole one");
        }
    }
    browser(&CHROMIUM) & browser(&system::FONTS)
}

/// Serving needs no browser here, so a missing one is only worth a sentence.
pub(crate) fn chromium_if_possible() {
    if system::can_install() || system::is_there(&CHROMIUM) {
        chromium();
    } else {
        report::note("no Chromium and no apt here; only `cargo xtask test` will need it");
    }
}

/// Everything that building and testing need.
pub(crate) fn everything() -> bool {
    // `&` and not `&&`: one step that can't be had must not keep the others from being set up.
    for_building().is_some()
        & for_linting().is_some()
        & for_python()
        & chromium()
        & browser(&FIREFOX)
        & browser(&WEBKIT)
}
