//! A formula for other programs: schema.org's `Recipe` as JSON-LD, alone or in a page that people can read.
//!
//! What every program understands comes first: names, amounts in grams, steps with their times. Beside it stands the
//! whole formula in Oventide's own shape under a name of our own, so that a formula that comes back has lost nothing.
//! Windows, links, needs and what an ingredient is made of have no place in the vocabulary.
//!
//! Source: schema.org, types Recipe, HowToSection and HowToStep; JSON-LD 1.1 (W3C Recommendation, 2020); durations of
//! ISO 8601. Text goes in as text: nothing of it can end a script or begin a tag.

mod page;
mod recipe;

use domain::formula::Formula;

use crate::Record as _;
use crate::formula::FormulaRecord;
use crate::read::{ReadError, parse};

pub use page::page;
pub use recipe::recipe;

/// Where Oventide's own shape stands in a recipe.
pub(crate) const OWN: &str = "oventide:formula";

/// The formula that Oventide itself put into a recipe or a page; nothing where none is in it.
///
/// A text that merely looks like one isn't taken: then it is for the reader of foreign recipes.
///
/// # Errors
/// [`ReadError`] where it is ours but can't be read: it was damaged, or a newer Oventide wrote it.
pub fn own(text: &str) -> Result<Option<Formula>, ReadError> {
    let Some(json) = in_page(text).or_else(|| in_recipe(text)) else {
        return Ok(None);
    };
    FormulaRecord::read(&json)
        .and_then(Formula::try_from)
        .map(Some)
}

/// The record in a recipe that is JSON by itself.
fn in_recipe(text: &str) -> Option<String> {
    if !text.contains(OWN) {
        return None;
    }
    let json = parse(text.trim_start_matches('\u{feff}')).ok()?;
    json.get(OWN).map(ToString::to_string)
}

/// The record in the script of a page of ours.
fn in_page(text: &str) -> Option<String> {
    let (_, rest) = text.split_once(page::OPENING)?;
    let (script, _) = rest.split_once(page::CLOSING)?;
    in_recipe(script)
}
