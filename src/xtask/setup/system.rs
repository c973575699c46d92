//! Programs that come from the system's packages: browsers, a screen for those that need one, fonts.

use crate::command;
use crate::report::{self, Failure, Note};
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};
use std::process::Command;

/// Something a check needs, how to see that it is there, and the packages that bring it.
pub(crate) struct Wanted {
    pub(crate) name: &'static str,
    /// One of each group must be on PATH or, with a leading `/`, exist.
    groups: &'static [&'static [&'static str]],
    packages: &'static [&'static str],
}

pub(crate) const CHROMIUM: Wanted = Wanted {
    name: "Chromium",
    groups: &[&["chromium", "chromium-browser", "google-chrome"]],
    packages: &["chromium"],
};

/// The same Chromium without the browser round its pages; Debian alone has it as a package.
pub(crate) const CHROMIUM_SHELL: Wanted = Wanted {
    name: "Chromium without its windows",
    groups: &[&["chromium-headless-shell"]],
    packages: &["chromium-headless-shell"],
};

/// Gecko, driven through WebDriver BiDi.
pub(crate) const FIREFOX: Wanted = Wanted {
    name: "Firefox",
    groups: &[&["firefox-esr", "firefox"]],
    packages: &["firefox-esr"],
};

/// WebKitGTK, the nearest thing to an iPhone's engine that runs on Linux; it needs a screen.
pub(crate) const WEBKIT: Wanted = Wanted {
    name: "WebKitGTK and a virtual screen",
    groups: &[&["WebKitWebDriver"], &["xvfb-run"], &["Xvfb"], &["xauth"]],
    packages: &["webkit2gtk-driver", "xvfb", "xauth"],
};

/// Without any font a page has no text, and every legibility check would measure nothing.
pub(super) const FONTS: Wanted = Wanted {
    name: "fonts",
    groups: &[&[
        "/usr/share/fonts/truetype/dejavu",
        "/usr/share/fonts/truetype/liberation",
        "/usr/share/fonts/truetype/noto",
        "/usr/share/fonts/TTF",
    ]],
    packages: &["fonts-dejavu-core"],
};

pub(super) const PYTHON: Wanted = Wanted {
    name: "Python",
    groups: &[&["python3"]],
    packages: &["python3", "python3-venv"],
};

impl Wanted {
    /// The program that was found, for whoever runs it to run that one and no other.
    pub(crate) fn program(&self) -> Option<PathBuf> {
        let names = self.groups.first()?.iter();
        names.filter_map(|name| command::find(name)).next()
    }
}

pub(super) fn is_there(wanted: &Wanted) -> bool {
    let found = |name: &&str| {
        if name.starts_with('/') {
            Path::new(name).exists()
        } else {
            command::find(name).is_some()
        }
    };
    wanted.groups.iter().all(|group| group.iter().any(found))
}

pub(super) fn ensure(wanted: &Wanted) -> Result<((), Note), Failure> {
    if is_there(wanted) {
        return Ok(((), "already there".into()));
    }
    install(wanted.packages)?;
    if is_there(wanted) {
        Ok(((), "installed".into()))
    } else {
        Err(Failure::new(
            format!("{} still can't be found", wanted.name),
            format!("install {} by hand", wanted.packages.join(", ")),
        ))
    }
}

pub(super) fn can_install() -> bool {
    command::find("apt-get").is_some()
}

/// Installs Debian packages, as root or by sudo.
pub(super) fn install(packages: &[&str]) -> Result<(), Failure> {
    let list = packages.join(" ");
    if !can_install() {
        return Err(Failure::new(
            "there is no apt-get here",
            format!("install what Debian calls {list} with your system's package manager"),
        ));
    }
    let remedy = format!("run `apt-get update && apt-get install {list}` as root");
    report::doing(&format!("apt-get install {list}: a minute or two"));
    // Lists that are too old name files that are gone; but a stale list may still do.
    if let Err(why) = privileged("apt-get", &["update", "-q"]) {
        report::note(&format!("the package lists could not be renewed: {why}"));
    }
    let mut arguments = vec!["install", "-y", "-q", "--no-install-recommends"];
    arguments.extend(packages);
    privileged("apt-get", &arguments).map_err(|why| Failure::new(why, remedy))
}

/// Runs a program as root.
pub(super) fn privileged(program: &str, arguments: &[&str]) -> Result<(), String> {
    let is_root = command::capture(Command::new("id").arg("-u")).is_ok_and(|id| id == "0");
    let mut command = if is_root {
        Command::new(program)
    } else if command::find("sudo").is_some() {
        let mut command = Command::new("sudo");
        command.args(["--preserve-env=DEBIAN_FRONTEND", program]);
        command
    } else {
        return Err(format!("{program} needs root, and there is no sudo"));
    };
    command
        .args(arguments)
        .env("DEBIAN_FRONTEND", "noninteractive");
    command::show(&mut command)
}

/// A hash over files and a word, to see later whether what was made from them is still right.
pub(super) fn stamp_of(files: &[PathBuf], word: &str) -> Result<String, Failure> {
    let mut hash = Sha256::new();
    hash.update(word);
    for file in files {
        let content = std::fs::read(file).map_err(|cause| {
            Failure::new(
                format!("{} can't be read: {cause}", file.display()),
                "restore the file from the repository",
            )
        })?;
        hash.update(content.len().to_le_bytes());
        hash.update(&content);
    }
    Ok(crate::digest::hex(&hash.finalize()))
}

/// Notes of what a thing was made.
pub(super) fn leave_stamp(at: &Path, stamp: String) -> Result<(), Failure> {
    std::fs::write(at, stamp).map_err(|cause| {
        Failure::new(
            format!("{}: {cause}", at.display()),
            "make the folder writable",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_program_that_is_run_is_the_first_that_is_there() {
        let wanted = Wanted {
            name: "a shell",
            groups: &[&["no-such-program-here", "sh", "env"]],
            packages: &[],
        };
        assert_eq!(wanted.program(), command::find("sh"));
        assert!(wanted.program().is_some());
    }
}
