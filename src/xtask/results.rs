//! Reading how many checks passed and failed from what the test programs say.
//!
//! Whatever did not run has not passed: skipped, ignored and flaky checks count as failed.

use serde_json::Value;
use std::iter::Sum;

/// How many checks passed and failed.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Counts {
    pub(crate) passed: u64,
    pub(crate) failed: u64,
}

impl Counts {
    /// For a suite that is one check as a whole.
    pub(crate) fn one(good: bool) -> Self {
        Self {
            passed: u64::from(good),
            failed: u64::from(!good),
        }
    }

    /// A suite that ended badly or ran nothing has failed, whatever it says.
    pub(crate) fn checked(self, ended_well: bool) -> Self {
        let ran_nothing = self.passed + self.failed == 0;
        let hides_failure = !ended_well && self.failed == 0;
        Self {
            failed: self.failed + u64::from(ran_nothing || hides_failure),
            ..self
        }
    }
}

impl Sum for Counts {
    fn sum<I: Iterator<Item = Self>>(counts: I) -> Self {
        counts.fold(Self::default(), |sum, next| Self {
            passed: sum.passed + next.passed,
            failed: sum.failed + next.failed,
        })
    }
}

/// The sum of `cargo test`'s lines `test result: ok. 3 passed; 0 failed; 0 ignored; …`.
pub(crate) fn from_cargo(text: &str) -> Counts {
    text.lines()
        .filter_map(|line| line.trim().strip_prefix("test result:"))
        .map(|line| Counts {
            passed: number_before(line, "passed"),
            failed: number_before(line, "failed") + number_before(line, "ignored"),
        })
        .sum()
}

fn number_before(line: &str, word: &str) -> u64 {
    line.split([';', '.'])
        .filter_map(|part| part.trim().strip_suffix(word))
        .find_map(|number| number.trim().parse().ok())
        .unwrap_or(0)
}

/// The closing line `N passed, N failed`, when it is the last line with anything in it.
pub(crate) fn from_closing_line(text: &str) -> Option<Counts> {
    let last = text.lines().rev().find(|line| !line.trim().is_empty())?;
    let (passed, failed) = last.trim().split_once(", ")?;
    Some(Counts {
        passed: passed.strip_suffix(" passed")?.parse().ok()?,
        failed: failed.strip_suffix(" failed")?.parse().ok()?,
    })
}

/// The statistics of Playwright's JSON report.
pub(crate) fn from_playwright(report: &str) -> Option<Counts> {
    let report: Value = serde_json::from_str(report).ok()?;
    let stats = report.get("stats")?;
    let count = |name: &str| stats.get(name).and_then(Value::as_u64);
    Some(Counts {
        passed: count("expected")?,
        failed: count("unexpected")? + count("flaky")? + count("skipped")?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn counts(passed: u64, failed: u64) -> Counts {
        Counts { passed, failed }
    }

    #[test]
    fn cargo_lines_are_summed() {
        let text = "running 3 tests\n\
            test result: ok. 3 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s\n\
            test result: FAILED. 10 passed; 2 failed; 1 ignored; 0 measured; 0 filtered out\n";
        assert_eq!(from_cargo(text), counts(13, 3));
        assert_eq!(from_cargo("error: could not compile"), counts(0, 0));
    }

    #[test]
    fn only_the_last_line_closes_a_suite() {
        let text = "1 passed, 1 failed\n12 passed, 0 failed\n\n";
        assert_eq!(from_closing_line(text), Some(counts(12, 0)));
        assert_eq!(from_closing_line("12 passed, 0 failed\nTraceback"), None);
        assert_eq!(from_closing_line("twelve passed, 0 failed"), None);
        assert_eq!(from_closing_line(""), None);
    }

    #[test]
    fn playwright_counts_what_did_not_run_as_failed() {
        let report = r#"{"stats":{"expected":5,"unexpected":1,"flaky":1,"skipped":2}}"#;
        assert_eq!(from_playwright(report), Some(counts(5, 4)));
        assert_eq!(from_playwright(r#"{"stats":{}}"#), None);
        assert_eq!(from_playwright("not json"), None);
    }

    #[test]
    fn a_suite_that_ran_nothing_has_failed() {
        assert_eq!(counts(0, 0).checked(true), counts(0, 1));
        assert_eq!(counts(4, 0).checked(false), counts(4, 1));
        assert_eq!(counts(4, 2).checked(false), counts(4, 2));
        assert_eq!(counts(4, 0).checked(true), counts(4, 0));
    }
}
