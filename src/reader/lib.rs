//! What people write about a bake, read as a formula.
//!
//! ```text
//! bytes -> source (text, page or JSON) -> rows, each looked at by itself -> sheet (what belongs to what) -> Found
//! Found -> Manuscript (to_manuscript), to be completed by the baker
//! ```
//!
//! - Nothing is made up. What a text doesn't say is missing in [`Found`], what was converted or inferred says so, and
//!   what can't be told is a [`Question`].
//! - A text is read completely or not at all: [`Refusal`] says why not.
//! - All text is inert: nothing of it is carried out, and names stay what they are, letter for letter.
//! - Reading takes as long as the text is, whatever is in it.
//!
//! The grammar of amounts, times and temperatures is built of `winnow`'s tokens ([`grammar`]); which words mean what
//! stands in tables beside the rule that uses them.

pub mod foods;
pub mod found;
mod grammar;
mod index;
mod language;
mod lines;
mod question;
mod refusal;
mod resolve;
mod rows;
mod sheet;
mod source;
mod steps;
mod to_manuscript;
mod weigh;

pub use found::Found;
pub use language::Language;
pub use question::Question;
pub use refusal::Refusal;
pub use to_manuscript::{to_manuscript, typed};

/// The largest text that is read, in bytes. A long page with a recipe has a tenth of it.
pub const MOST_BYTES: usize = 2_000_000;

/// The most lines that are read.
pub(crate) const MOST_LINES: usize = 5_000;

/// Reads a text, a page or a file.
///
/// ```
/// let found = reader::read(b"Rolls\n\n500 g flour\n300 g water\n10 g salt\n5 g yeast\n\nKnead 10 minutes. Bake at 220 C.")?;
/// assert_eq!(found.parts[0].ingredients.len(), 4);
/// # Ok::<(), reader::Refusal>(())
/// ```
///
/// # Errors
/// [`Refusal`] where it is no formula, or can't be read to its end.
pub fn read(bytes: &[u8]) -> Result<Found, Refusal> {
    let source = source::Source::of(bytes)?;
    let (rows, language) = rows::rows(source.lines())?;
    let mut found = sheet::assemble(&rows, language, source.name.clone());
    if found.makes.is_none() {
        found.makes = source.makes(language);
    }
    refusal::judge(&rows, &found)?;
    resolve::resolve(&mut found, &rows, language);
    for second in source.others {
        let first = found.name.clone();
        found
            .questions
            .push(Question::TwoFormulas { first, second });
    }
    Ok(found)
}
