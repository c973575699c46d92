//! `cargo xtask test`: every suite in turn, going on after failures, closed by `N passed, N failed`.

use crate::report;
use crate::results::{self, Counts};
use crate::setup::{self, Toolchain, Workbench};
use crate::{bundle, command, paths, size};
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

/// One suite: its name, what it shows, and how to run it.
struct Suite {
    name: &'static str,
    about: &'static str,
    run: fn(&mut Shared) -> Result<Counts, String>,
}

const SUITES: [Suite; 11] = [
    Suite {
        name: "format",
        about: "rustfmt has nothing to change",
        run: format,
    },
    Suite {
        name: "lint",
        about: "clippy, all crates and their tests, natively",
        run: lint_native,
    },
    Suite {
        name: "lint-wasm",
        about: "clippy, browser crates for the browser",
        run: lint_wasm,
    },
    Suite {
        name: "native",
        about: "native tests and doc tests",
        run: native,
    },
    Suite {
        name: "oracle",
        about: "Python, against general-purpose libraries",
        run: oracle,
    },
    Suite {
        name: "build",
        about: "release build",
        run: build,
    },
    Suite {
        name: "size",
        about: "size budgets",
        run: |_| Ok(Counts::one(size::print_and_judge())),
    },
    Suite {
        name: "browser",
        about: "Playwright specs, Chromium",
        run: |shared| browser(shared, &["promises", "whole-browser"]),
    },
    Suite {
        name: "budgets",
        about: "time budgets, with nothing else running",
        run: |shared| browser(shared, &["budgets"]),
    },
    Suite {
        name: "firefox",
        about: "the short promises in Firefox",
        run: firefox,
    },
    Suite {
        name: "webkit",
        about: "the short promises in WebKitGTK",
        run: webkit,
    },
];

/// What several suites need is set up once, by the first that asks.
#[derive(Default)]
struct Shared {
    workbench: Option<Option<Workbench>>,
    linting: Option<Option<Toolchain>>,
    python: Option<bool>,
    node: Option<bool>,
}

impl Shared {
    fn workbench(&mut self) -> Result<&Workbench, String> {
        self.workbench
            .get_or_insert_with(setup::for_building)
            .as_ref()
            .ok_or_else(set_up_failed)
    }

    fn linting(&mut self) -> Result<Toolchain, String> {
        self.linting
            .get_or_insert_with(setup::for_linting)
            .clone()
            .ok_or_else(set_up_failed)
    }

    fn python(&mut self) -> Result<(), String> {
        ready(*self.python.get_or_insert_with(setup::for_python))
    }

    fn node(&mut self) -> Result<(), String> {
        ready(*self.node.get_or_insert_with(setup::for_node))
    }
}

fn ready(good: bool) -> Result<(), String> {
    good.then_some(()).ok_or_else(set_up_failed)
}

fn set_up_failed() -> String {
    "its set-up failed, see above".into()
}

/// Runs the suites of these names, or all; whether none failed.
pub(crate) fn run(names: &[String]) -> Result<bool, String> {
    if let Some(unknown) = names
        .iter()
        .find(|name| SUITES.iter().all(|suite| suite.name != **name))
    {
        let known: Vec<&str> = SUITES.iter().map(|suite| suite.name).collect();
        let known = known.join(", ");
        return Err(format!("there is no suite {unknown}; there are {known}"));
    }
    let chosen = SUITES
        .iter()
        .filter(|suite| names.is_empty() || names.iter().any(|name| name == suite.name));
    let mut shared = Shared::default();
    let rows: Vec<(&Suite, Counts, Duration)> = chosen
        .map(|suite| {
            let started = Instant::now();
            report::part(&format!("{}: {}", suite.name, suite.about));
            let counts = (suite.run)(&mut shared).unwrap_or_else(|why| {
                println!("  FAILED  {}: {why}", suite.name);
                Counts::one(false)
            });
            (suite, counts, started.elapsed())
        })
        .collect();
    Ok(close(&rows))
}

fn close(rows: &[(&Suite, Counts, Duration)]) -> bool {
    println!("\n  {:<10} {:>7} {:>7}  took", "suite", "passed", "failed");
    for (suite, counts, took) in rows {
        let Counts { passed, failed } = counts;
        let took = report::seconds(*took);
        println!("  {:<10} {passed:>7} {failed:>7}  {took}", suite.name);
    }
    let sum: Counts = rows.iter().map(|(_, counts, _)| *counts).sum();
    println!("\n{} passed, {} failed", sum.passed, sum.failed);
    sum.failed == 0
}

fn one(command: &mut Command) -> Result<Counts, String> {
    command::show(command).map(|()| Counts::one(true))
}

fn format(shared: &mut Shared) -> Result<Counts, String> {
    let mut fmt = shared.linting()?.cargo("fmt");
    one(fmt.args(["--all", "--check"]))
}

/// The browser crates compile without one as well, and so do their tests of what needs none.
const ALL: &str = "--workspace";
const BROWSER: [&str; 4] = ["-p", "app", "-p", "platform"];
const STRICT: [&str; 3] = ["--", "-D", "warnings"];

fn lint_native(shared: &mut Shared) -> Result<Counts, String> {
    let mut clippy = shared.linting()?.cargo("clippy");
    one(clippy.args([ALL, "--all-targets"]).args(STRICT))
}

fn lint_wasm(shared: &mut Shared) -> Result<Counts, String> {
    let toolchain = shared.linting()?;
    shared.workbench()?;
    let mut clippy = toolchain.cargo("clippy");
    clippy.args(BROWSER);
    if toolchain.has_wasm() {
        clippy.args(["--target", "wasm32-unknown-unknown"]);
    } else {
        // Rustup's clippy can't use the wasm library that was built for Debian's compiler.
        report::note("no clippy for wasm here, so the browser crates are linted as native ones");
    }
    one(clippy.args(STRICT))
}

fn native(_: &mut Shared) -> Result<Counts, String> {
    let mut tests = setup::toolchain().cargo("test");
    let heard = command::show_and_read(tests.args([ALL, "--no-fail-fast"]))?;
    Ok(results::from_cargo(&heard.text).checked(heard.success))
}

/// Runs a script of ours that closes with `N passed, N failed`.
fn script(name: &str, command: &mut Command) -> Result<Counts, String> {
    let path = paths::root().join(name);
    if !path.is_file() {
        return Err(format!("{name} isn't there"));
    }
    command.arg(path).current_dir(paths::root());
    let heard = command::show_and_read(command)?;
    let counts = results::from_closing_line(&heard.text)
        .ok_or(format!("{name} did not close with `N passed, N failed`"))?;
    Ok(counts.checked(heard.success))
}

fn oracle(shared: &mut Shared) -> Result<Counts, String> {
    shared.python()?;
    let mut python = Command::new(setup::python());
    // It asks cargo for our side.
    setup::toolchain().enter(&mut python);
    script("tests/oracle/run.py", &mut python)
}

fn build(shared: &mut Shared) -> Result<Counts, String> {
    let bench = shared.workbench()?;
    Ok(Counts::one(bundle::build(bench, true)))
}

/// Lets the specs run the browser that the set-up found, unless another was chosen by hand.
fn with_browser(command: &mut Command, variable: &str, wanted: &setup::Wanted) {
    if let (None, Some(program)) = (std::env::var_os(variable), wanted.program()) {
        command.env(variable, program);
    }
}

/// The browser suites test what the build left; they must not test nothing.
fn built() -> Result<(), String> {
    let index = paths::dist().join("index.html");
    let why = "dist holds no built app; run the suite `build` first";
    index.is_file().then_some(()).ok_or_else(|| why.into())
}

fn browser(shared: &mut Shared, projects: &[&str]) -> Result<Counts, String> {
    shared.node()?;
    // A spec has a library read the calendar's file.
    shared.python()?;
    ready(setup::chromium())?;
    built()?;
    let folder = paths::browser_checks();
    let statistics = folder.join("results/report.json");
    // An old report must not speak for a run that wrote none.
    let _ = std::fs::remove_file(&statistics);
    let playwright = folder.join("node_modules/.bin/playwright");
    let mut command = Command::new(playwright);
    command
        .args(["test", "--reporter=list,json"])
        .args(projects.iter().map(|name| format!("--project={name}")))
        .current_dir(&folder)
        .env("PLAYWRIGHT_JSON_OUTPUT_FILE", &statistics)
        .env("OVENTIDE_PYTHON", setup::python());
    with_browser(&mut command, "OVENTIDE_CHROMIUM", &setup::CHROMIUM);
    with_browser(
        &mut command,
        "OVENTIDE_CHROMIUM_SHELL",
        &setup::CHROMIUM_SHELL,
    );
    // The specs ask cargo for the bakes that they begin in the middle of.
    setup::toolchain().enter(&mut command);
    let ended_well = command::show(&mut command).is_ok();
    let report = std::fs::read_to_string(&statistics)
        .map_err(|cause| format!("Playwright left no report: {cause}"))?;
    let counts = results::from_playwright(&report).ok_or("Playwright's report can't be read")?;
    Ok(counts.checked(ended_well))
}

fn firefox(shared: &mut Shared) -> Result<Counts, String> {
    shared.node()?;
    ready(setup::browser(&setup::FIREFOX))?;
    built()?;
    let mut node = Command::new("node");
    with_browser(&mut node, "OVENTIDE_FIREFOX", &setup::FIREFOX);
    script("tests/browser/engines/firefox.mjs", &mut node)
}

fn webkit(shared: &mut Shared) -> Result<Counts, String> {
    shared.python()?;
    ready(setup::browser(&setup::WEBKIT))?;
    built()?;
    let mut screen = Command::new("xvfb-run");
    screen.arg("-a").arg(setup::python());
    with_browser(&mut screen, "OVENTIDE_WEBKIT_DRIVER", &setup::WEBKIT);
    if runs_as_root() {
        // WebKitGTK's sandbox can't be set up by root, and CI machines often have no other user.
        screen.env("WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS", "1");
    }
    script("tests/browser/engines/webkit.py", &mut screen)
}

fn runs_as_root() -> bool {
    use std::os::unix::fs::MetadataExt;
    Path::new("/proc/self")
        .metadata()
        .is_ok_and(|about| about.uid() == 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_misspelt_suite_is_refused_with_the_list() {
        let said = run(&["natvie".to_owned()]);
        assert!(said.is_err_and(|why| why.contains("natvie") && why.contains("native")));
    }

    #[test]
    fn a_missing_script_is_a_failure() {
        let said = script("tests/oracle/none.py", &mut Command::new("true"));
        assert!(said.is_err_and(|why| why.contains("isn't there")));
    }
}
