//! Running other programs: quietly, visibly, with a time limit, or read while they are shown.

use std::ffi::OsString;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// How long between two looks at a program that has a time limit.
const LOOK_AGAIN: Duration = Duration::from_millis(100);

/// The program's trimmed output, or why there is none.
pub(crate) fn capture(command: &mut Command) -> Result<String, String> {
    let output = command
        .stdin(Stdio::null())
        .output()
        .map_err(|cause| could_not_start(command, &cause))?;
    if output.status.success() {
        Ok(String::from_utf8_lossy(&output.stdout).trim().to_owned())
    } else {
        let said = String::from_utf8_lossy(&output.stderr);
        let last = said.trim().lines().last().unwrap_or("it said nothing");
        Err(format!(
            "{} ended with {}: {last}",
            name(command),
            output.status
        ))
    }
}

/// Runs the program with its output shown as it comes.
pub(crate) fn show(command: &mut Command) -> Result<(), String> {
    let status = command
        .status()
        .map_err(|cause| could_not_start(command, &cause))?;
    if status.success() {
        Ok(())
    } else {
        Err(format!("{} ended with {status}", name(command)))
    }
}

/// Like [`show`], but ends the program when it takes longer than `limit`.
pub(crate) fn show_within(command: &mut Command, limit: Duration) -> Result<(), String> {
    let started = Instant::now();
    let mut child = command
        .stdin(Stdio::null())
        .spawn()
        .map_err(|cause| could_not_start(command, &cause))?;
    loop {
        match child.try_wait() {
            Ok(Some(status)) if status.success() => return Ok(()),
            Ok(Some(status)) => return Err(format!("{} ended with {status}", name(command))),
            Err(cause) => return Err(format!("{}: {cause}", name(command))),
            Ok(None) if started.elapsed() > limit => {
                // The program may end by itself between the look and the kill; both are the same to us.
                let _ = child.kill();
                let _ = child.wait();
                let seconds = limit.as_secs();
                return Err(format!(
                    "{} took longer than {seconds} s and was stopped",
                    name(command)
                ));
            }
            Ok(None) => std::thread::sleep(LOOK_AGAIN),
        }
    }
}

/// What a program said and whether it ended well.
pub(crate) struct Heard {
    pub(crate) success: bool,
    pub(crate) text: String,
}

/// Shows the program's output as it comes and keeps it to be read afterwards.
pub(crate) fn show_and_read(command: &mut Command) -> Result<Heard, String> {
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .map_err(|cause| could_not_start(command, &cause))?;
    let errors = child.stderr.take();
    let errors = std::thread::spawn(move || errors.map(pass_on).unwrap_or_default());
    let mut text = child.stdout.take().map(pass_on).unwrap_or_default();
    let status = child
        .wait()
        .map_err(|cause| format!("{}: {cause}", name(command)))?;
    // Errors are put first so that a result on the last line of the output stays the last line.
    text.insert_str(0, &errors.join().unwrap_or_default());
    Ok(Heard {
        success: status.success(),
        text,
    })
}

fn pass_on(stream: impl Read) -> String {
    let mut kept = String::new();
    let mut stream = BufReader::new(stream);
    let mut line = Vec::new();
    while matches!(stream.read_until(b'\n', &mut line), Ok(read) if read > 0) {
        let text = String::from_utf8_lossy(&line);
        // A closed terminal must not stop the program we are listening to.
        let _ = write!(std::io::stdout(), "{text}");
        kept.push_str(&text);
        line.clear();
    }
    kept
}

/// The first program of that name on PATH.
pub(crate) fn find(program: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    std::env::split_paths(&path)
        .map(|folder| folder.join(program))
        .find(|candidate| candidate.is_file())
}

/// Puts `folders` before everything else on the command's PATH.
pub(crate) fn first_on_path(command: &mut Command, folders: &[PathBuf]) {
    let inherited = std::env::var_os("PATH").unwrap_or_default();
    let all = folders
        .iter()
        .cloned()
        .chain(std::env::split_paths(&inherited));
    // A folder with a colon in its name can't stand in PATH at all; then the old PATH has to do.
    let joined: OsString = std::env::join_paths(all).unwrap_or(inherited);
    command.env("PATH", joined);
}

/// Starts a command in `folder`.
pub(crate) fn within(folder: &Path, program: &str, arguments: &[&str]) -> Command {
    let mut command = Command::new(program);
    command.args(arguments).current_dir(folder);
    command
}

/// The program and what it was asked for: up to the first argument that isn't a switch.
fn name(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let program = program.file_name().unwrap_or(program.as_os_str());
    let mut words = vec![program.to_string_lossy()];
    for argument in command.get_args() {
        let argument = argument.to_string_lossy();
        let is_switch = argument.starts_with('-');
        words.push(argument);
        if !is_switch {
            break;
        }
    }
    format!("`{}`", words.join(" "))
}

fn could_not_start(command: &Command, cause: &std::io::Error) -> String {
    format!("{} could not be started: {cause}", name(command))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_program_past_its_limit_is_stopped() {
        let started = Instant::now();
        let said = show_within(Command::new("sleep").arg("30"), Duration::from_millis(200));
        assert!(said.is_err_and(|why| why.contains("`sleep 30` took longer")));
        assert!(started.elapsed() < Duration::from_secs(10));
    }

    #[test]
    fn the_last_line_of_the_output_stays_last() {
        let script = "echo noise >&2; echo the last line; echo late noise >&2";
        let heard = show_and_read(Command::new("sh").args(["-c", script])).expect("sh is there");
        assert!(heard.success);
        assert_eq!(heard.text.lines().last(), Some("the last line"));
    }

    #[test]
    fn a_missing_program_is_named() {
        let said = capture(&mut Command::new("no-such-program-here"));
        assert!(said.is_err_and(|why| why.contains("no-such-program-here")));
    }
}
