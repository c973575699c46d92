//! Rows of a list that are changed where they stand, all of them in one go.
//!
//! An effect of its own for each text and attribute of forty rows took a phone as long as the plan that they show.

use wasm_bindgen::JsCast as _;
use web_sys::{Element, HtmlElement};

use crate::events::document;

/// The attribute that names a row.
pub const KEY: &str = "data-key";

/// What of a row changes.
#[derive(Clone, Copy)]
pub enum Part {
    /// An attribute.
    Attr(&'static str),
    /// A property of its style.
    Style(&'static str),
    /// The text of a part within it.
    Text(&'static str),
    /// All of its own text.
    Says,
}

/// A row by its key, with what each of its parts says.
pub type Row = (String, Vec<String>);

/// Sets what has changed in the rows of a list. Those that aren't there yet are drawn as they are by whoever adds them.
pub fn set(list: &str, parts: &[Part], were: &[Row], are: &[Row]) {
    let list = document().get_element_by_id(list);
    let mut next = list.and_then(|list| list.first_element_child());
    while let Some(row) = next {
        next = row.next_element_sibling();
        let key = row.get_attribute(KEY);
        let of = |rows: &'_ [Row]| {
            rows.iter()
                .position(|(known, _)| Some(known) == key.as_ref())
        };
        let Some(is) = of(are).map(|place| &are[place].1) else {
            continue;
        };
        let was = of(were).map(|place| &were[place].1);
        for (nth, (part, is)) in parts.iter().zip(is).enumerate() {
            if was.is_none_or(|was| was[nth] != *is) {
                put(&row, *part, is);
            }
        }
    }
}

fn put(row: &Element, part: Part, value: &str) {
    // None of these fails for names and values of ours.
    match part {
        Part::Attr(name) => drop(row.set_attribute(name, value)),
        Part::Style(name) => {
            if let Some(row) = row.dyn_ref::<HtmlElement>() {
                drop(row.style().set_property(name, value));
            }
        }
        Part::Says => row.set_text_content(Some(value)),
        Part::Text(of) => {
            if let Ok(Some(part)) = row.query_selector(of) {
                part.set_text_content(Some(value));
            }
        }
    }
}
