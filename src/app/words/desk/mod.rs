//! Words of the desk: where a formula of the baker's own comes in and is written.

mod open;
mod sheet;

use domain::formula::Formula;
use platform::files::{FileError, SaveOutcome};
use platform::store::ReadError;
use reader::Refusal;

pub(crate) use open::*;
pub(crate) use sheet::*;

/// What the page is for.
pub(crate) const DESK_NOTE: &str = "Paste any recipe, in English, German, French, Spanish or Norwegian. What the text leaves open, you are asked. Nothing of it leaves this phone.";
/// The field for the text.
pub(crate) const PASTE: &str = "The text";
/// Reads the text.
pub(crate) const READ_IT: &str = "Read it";
/// Opens a file.
pub(crate) const OPEN_A_FILE: &str = "Open a file";
/// Begins with nothing.
pub(crate) const EMPTY_SHEET: &str = "Begin with nothing";
/// Leads to the desk.
pub(crate) const OWN_FORMULA: &str = "Add a formula of your own";

/// The heading of what can be done with a formula beside baking it.
pub(crate) const BESIDE_BAKING: &str = "This formula";
/// Opens the sheet that it is written on.
pub(crate) const CHANGE_FORMULA: &str = "Change it";
/// Makes one of the baker's own of it.
pub(crate) const COPY_FORMULA: &str = "Make my own of it";
/// Hands it to somebody or to another program.
pub(crate) const HAND_ON: &str = "Hand it on as a page";
/// The heading of sheets that aren't finished.
pub(crate) const UNFINISHED: &str = "Still being written";

/// What the file of a formula is called: "Orange braid.html".
pub(crate) fn formula_file(formula: &Formula) -> String {
    let plain = |letter: char| {
        if letter.is_alphanumeric() || " -_".contains(letter) {
            letter
        } else {
            ' '
        }
    };
    let name: String = formula.name.chars().take(LONGEST_NAME).map(plain).collect();
    let name = name.split_whitespace().collect::<Vec<_>>().join(" ");
    if name.is_empty() {
        "formula.html".to_owned()
    } else {
        format!("{name}.html")
    }
}

/// A file's name has no more letters.
const LONGEST_NAME: usize = 60;

/// What became of handing it on.
pub(crate) fn handed_on(saved: &SaveOutcome) -> &'static str {
    match saved {
        SaveOutcome::Shared => "It was handed over.",
        SaveOutcome::Downloaded => {
            "The page is in your downloads. It opens in any browser, and Oventide reads it back."
        }
        SaveOutcome::Cancelled => "Nothing was handed on.",
        SaveOutcome::Failed(_) => "It couldn't be handed on here. Try it in another browser.",
    }
}

/// Why a text isn't taken, as a sentence.
pub(crate) fn read_refused(cause: &Refusal) -> String {
    format!(
        "{}. Nothing was changed.",
        super::capital(&cause.to_string())
    )
}

/// Why a formula that Oventide itself wrote isn't taken.
pub(crate) fn own_refused(cause: &ReadError) -> String {
    format!(
        "{}. Nothing was changed.",
        super::capital(&cause.to_string())
    )
}

/// Why no text came out of a file.
pub(crate) fn file_refused(error: &FileError) -> String {
    match error {
        FileError::TooLarge => format!(
            "The file has more than {} MB, and no formula is that large. Copy only the part with the ingredients and the steps. Nothing was changed.",
            reader::MOST_BYTES / 1_000_000
        ),
        FileError::NotText => {
            "The file is no text. Open a text, a page or a JSON file. Nothing was changed."
                .to_owned()
        }
        FileError::Failed(cause) => {
            format!("The file can't be read: {cause}. Nothing was changed.")
        }
    }
}
