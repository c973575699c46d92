//! Node.js packages: Playwright, axe, the Firefox driver, and binaryen's `wasm-opt` for the build.

use super::system::{leave_stamp, stamp_of};
use crate::report::{self, Failure, Note};
use crate::{command, paths};
use std::process::Command;

/// The oldest Node.js that the pinned packages run on.
const OLDEST: u32 = 20;

/// Installs the packages that `package-lock.json` names, when they aren't installed yet.
pub(super) fn ensure() -> Result<((), Note), Failure> {
    let version = command::capture(Command::new("node").arg("--version"))
        .map_err(|why| Failure::new(why, format!("install Node.js {OLDEST} or newer, with npm")))?;
    if major(&version).is_none_or(|major| major < OLDEST) {
        return Err(Failure::new(
            format!("Node.js is {version}"),
            format!("install Node.js {OLDEST} or newer"),
        ));
    }
    let folder = paths::browser_checks();
    let stamp = folder.join("node_modules/.oventide");
    let wanted = stamp_of(
        &[
            folder.join("package.json"),
            folder.join("package-lock.json"),
        ],
        "",
    )?;
    if std::fs::read_to_string(&stamp).is_ok_and(|found| found == wanted) {
        return Ok(((), "already there".into()));
    }
    report::doing("npm ci in tests/browser: under a minute");
    let mut command = command::within(&folder, "npm", &["ci", "--no-fund", "--no-audit"]);
    // The browsers come from the system; npm packages must not fetch others.
    command
        .env("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")
        .env("PUPPETEER_SKIP_DOWNLOAD", "1");
    command::show(&mut command)
        .map_err(|why| Failure::new(why, "read npm's words above; it needs a network once"))?;
    leave_stamp(&stamp, wanted)?;
    Ok(((), "installed".into()))
}

fn major(version: &str) -> Option<u32> {
    version.strip_prefix('v')?.split('.').next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn node_says_its_version_with_a_v() {
        assert_eq!(major("v20.20.2"), Some(20));
        assert_eq!(major("node 20"), None);
    }
}
