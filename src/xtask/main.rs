//! The project's own commands: `cargo xtask serve | build | test | setup`.
//!
//! `precache` is a fifth one that only Trunk calls, as its `post_build` hook.
//! Everything a machine lacks is set up by the command that needs it; what is already there is left alone.
//!
//! Left out: publishing. `dist` is a folder of plain files that any static host can serve.

mod bundle;
mod checks;
mod command;
mod digest;
mod halves;
mod http;
mod order;
mod paths;
mod precache;
mod report;
mod results;
mod serve;
mod setup;
mod size;
mod split;
mod style;

use std::net::IpAddr;
use std::process::ExitCode;

const USAGE: &str = "\
cargo xtask serve [--port N] [--address A] [--no-build]
    Sets up what is missing, builds the release app and serves it on 127.0.0.1:8420.
    --address 0.0.0.0 lets a phone on the same network reach it.
    --no-build serves what the last build left in dist.
cargo xtask build [--force]
    Builds the release app into dist and prints what it weighs.
cargo xtask test [--only NAME]...
    Sets up, runs every suite and closes with `N passed, N failed`.
cargo xtask setup
    Only sets up, for building and for testing.";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let (verb, rest) = match arguments.split_first() {
        Some((verb, rest)) => (verb.as_str(), rest),
        None => ("help", &[] as &[String]),
    };
    let done = match verb {
        "serve" => serve_options(rest).map(|options| serve(&options)),
        "build" => flags(rest, &["--force"]).map(|given| build(given.contains(&"--force"))),
        "test" => only(rest).and_then(|names| checks::run(&names)),
        "setup" => flags(rest, &[]).map(|_| setup::everything()),
        "precache" => flags(rest, &[]).map(|_| precache::hook()),
        "help" | "--help" | "-h" => {
            println!("{USAGE}");
            return ExitCode::SUCCESS;
        }
        other => Err(format!("there is no command {other}")),
    };
    match done {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(misuse) => {
            eprintln!("{misuse}\n\n{USAGE}");
            ExitCode::from(2)
        }
    }
}

fn build(force: bool) -> bool {
    let Some(bench) = setup::for_building() else {
        return false;
    };
    bundle::build(&bench, force) && size::print_and_judge()
}

fn serve(options: &ServeOptions) -> bool {
    if options.build {
        let Some(bench) = setup::for_building() else {
            return false;
        };
        setup::chromium_if_possible();
        if !bundle::build(&bench, false) {
            return false;
        }
    }
    serve::forever(options.address, options.port)
}

#[derive(Debug, PartialEq)]
struct ServeOptions {
    address: IpAddr,
    port: u16,
    build: bool,
}

fn serve_options(rest: &[String]) -> Result<ServeOptions, String> {
    let mut options = ServeOptions {
        address: IpAddr::from([127, 0, 0, 1]),
        port: 8420,
        build: true,
    };
    let mut words = rest.iter();
    while let Some(word) = words.next() {
        match word.as_str() {
            "--port" => options.port = value(word, words.next())?,
            "--address" => options.address = value(word, words.next())?,
            "--no-build" => options.build = false,
            other => return Err(format!("serve doesn't know {other}")),
        }
    }
    Ok(options)
}

fn value<T: std::str::FromStr>(name: &str, given: Option<&String>) -> Result<T, String> {
    let given = given.ok_or(format!("{name} needs a value"))?;
    given
        .parse()
        .map_err(|_| format!("{name} can't be {given}"))
}

fn only(rest: &[String]) -> Result<Vec<String>, String> {
    let mut names = Vec::new();
    let mut words = rest.iter();
    while let Some(word) = words.next() {
        match word.as_str() {
            "--only" => {
                let list: String = value(word, words.next())?;
                names.extend(list.split(',').map(str::to_owned));
            }
            other => return Err(format!("test doesn't know {other}")),
        }
    }
    Ok(names)
}

fn flags<'a>(rest: &[String], known: &[&'a str]) -> Result<Vec<&'a str>, String> {
    rest.iter()
        .map(|word| {
            known
                .iter()
                .copied()
                .find(|flag| flag == word)
                .ok_or(format!("this command doesn't know {word}"))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(line: &str) -> Vec<String> {
        line.split_whitespace().map(str::to_owned).collect()
    }

    #[test]
    fn serve_stays_on_loopback_unless_told() {
        let options = serve_options(&[]).expect("no options are fine");
        assert!(options.address.is_loopback());
        assert_eq!(options.port, 8420);
        let options =
            serve_options(&words("--address 0.0.0.0 --port 9000")).expect("both are known");
        assert!(options.address.is_unspecified());
        assert_eq!(options.port, 9000);
    }

    #[test]
    fn misuse_is_said_not_ignored() {
        for line in ["--port", "--port many", "--address kitchen", "--prot 1"] {
            assert!(serve_options(&words(line)).is_err(), "{line}");
        }
        assert!(flags(&words("--frce"), &["--force"]).is_err());
        assert!(only(&words("native")).is_err());
    }

    #[test]
    fn only_takes_lists_and_repeats() {
        let names = only(&words("--only native,size --only browser")).expect("known");
        assert_eq!(names, ["native", "size", "browser"]);
    }
}
