//! A page with a formula on it that any browser shows and prints, and any program reads.

use domain::formula::Formula;

use super::recipe::{heading, ingredient, likely, makes, recipe, told};
use domain::decimal::plain;

/// What stands before and behind the recipe of a page.
pub(super) const OPENING: &str = "<script type=\"application/ld+json\">";
pub(super) const CLOSING: &str = "</script>";

/// A whole page: the formula to read, with its JSON-LD in it. It has no style, script or picture from anywhere.
#[must_use]
pub fn page(formula: &Formula) -> String {
    // Inside a script only "<" could end it; as an escape it is the same letter of JSON.
    let json = recipe(formula).replace('<', "\\u003c");
    let mut page =
        String::from("<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>");
    page += &escaped(&formula.name);
    page += "</title>\n";
    page.extend([OPENING, &json, CLOSING]);
    page += "\n</head><body>\n";
    line(&mut page, "h1", &formula.name);
    line(&mut page, "p", &formula.about);
    line(&mut page, "p", &makes(formula));
    for component in formula
        .components
        .iter()
        .filter(|one| !one.ingredients.is_empty())
    {
        line(&mut page, "h2", &heading(component));
        page += "<ul>\n";
        for part in &component.ingredients {
            line(&mut page, "li", &ingredient(part));
        }
        page += "</ul>\n";
    }
    page += "<ol>\n";
    for step in &formula.steps {
        let time = likely(step).map(|minutes| format!(" ({} min)", plain(minutes.get(), 0)));
        let said = format!("{}: {}{}", step.title, told(step), time.unwrap_or_default());
        line(&mut page, "li", &said);
    }
    page += "</ol>\n</body></html>\n";
    page
}

fn line(page: &mut String, tag: &str, text: &str) {
    *page += &format!("<{tag}>{}</{tag}>\n", escaped(text));
}

/// Text that begins no tag and ends no attribute.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '<' => escaped += "&lt;",
            '>' => escaped += "&gt;",
            '&' => escaped += "&amp;",
            '"' => escaped += "&quot;",
            other => escaped.push(other),
        }
    }
    escaped
}
