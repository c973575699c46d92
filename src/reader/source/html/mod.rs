//! Pages: the recipe that a page carries for machines, or else its text in lines.
//!
//! This is no browser: tags are only told from text, and nothing of them is carried out. A page is read from one end
//! to the other once. Left out: what a style hides, and text that a script would write.

mod pieces;

use super::{Source, entities, schema};
use crate::refusal::Refusal;
use pieces::{Piece, Pieces};

/// Whether a text is a page rather than something with a tag in it.
pub(crate) fn is_page(text: &str) -> bool {
    let mut head = text.len().min(HEAD);
    while !text.is_char_boundary(head) {
        head -= 1;
    }
    let head = text[..head].to_ascii_lowercase();
    let opens = ["<!doctype html", "<html", "<head", "<body", "<!doctype"];
    let has_list = text.starts_with('<')
        && ["</li>", "</p>", "</h1>", "</ul>"]
            .iter()
            .any(|tag| head.contains(tag));
    has_list || opens.iter().any(|tag| head.contains(tag)) || text.contains("application/ld+json")
}

/// So much of a text shows whether it is a page, in bytes.
const HEAD: usize = 4000;

/// The recipe of the first script that holds one.
pub(crate) fn recipe(page: &str) -> Result<Option<Source>, Refusal> {
    let mut broken = None;
    let mut found: Option<Source> = None;
    for piece in Pieces::of(page) {
        let Piece::Script {
            attributes,
            content,
        } = piece
        else {
            continue;
        };
        if !attributes.to_ascii_lowercase().contains("ld+json") {
            continue;
        }
        match (schema::from_json(unwrapped(content)), &mut found) {
            (Ok(Some(recipe)), None) => found = Some(recipe),
            (Ok(Some(other)), Some(first)) => {
                first.others.push(other.name);
                first.others.extend(other.others);
            }
            (Ok(None), _) => {}
            (Err(cause), _) => broken = Some(cause),
        }
    }
    match (found, broken) {
        (Some(found), _) => Ok(Some(found)),
        // A page whose own recipe is damaged isn't guessed at from its talk.
        (None, Some(cause)) => Err(cause),
        (None, None) => Ok(None),
    }
}

/// Without what older pages wrap their scripts in.
fn unwrapped(script: &str) -> &str {
    let script = script.trim();
    let script = script.strip_prefix("<!--").unwrap_or(script);
    let script = script.trim_start().trim_start_matches("//");
    let script = script.strip_prefix("<![CDATA[").unwrap_or(script);
    script
        .trim()
        .trim_end_matches("-->")
        .trim_end_matches("]]>")
        .trim_end_matches("//")
        .trim()
}

/// The text of a page, a block a line. What leads elsewhere and what frames the page is left out.
pub(crate) fn text(page: &str) -> String {
    let mut text = String::new();
    let mut frames: Vec<&str> = Vec::new();
    for piece in Pieces::of(page) {
        match piece {
            Piece::Text(written) if frames.is_empty() => add(written, &mut text),
            Piece::Tag { name, closes } => {
                let is = |known: &&&str| name.eq_ignore_ascii_case(known);
                if let Some(frame) = FRAMES.iter().find(is) {
                    step_through(frame, closes, &mut frames);
                } else if BLOCKS.iter().any(|block| is(&block)) {
                    text.push('\n');
                } else if CELLS.iter().any(|cell| is(&cell)) {
                    text.push('\t');
                }
            }
            _ => {}
        }
    }
    entities::decoded(&text)
}

/// Adds written text; line breaks inside of a block are spaces.
fn add(written: &str, text: &mut String) {
    for word in written.split_inclusive(char::is_whitespace) {
        text.push_str(word.trim_end());
        if word.ends_with(char::is_whitespace) && !text.ends_with([' ', '\n']) {
            text.push(' ');
        }
    }
}

/// Enters a frame or leaves it, and with it all that was left open inside.
fn step_through(frame: &'static str, closes: bool, frames: &mut Vec<&str>) {
    if !closes {
        if frames.len() < DEEPEST {
            frames.push(frame);
        }
    } else if let Some(place) = frames.iter().rposition(|open| *open == frame) {
        frames.truncate(place);
    }
}

/// What stands in a line of its own.
#[rustfmt::skip]
const BLOCKS: &[&str] = &[
    "p", "br", "li", "ul", "ol", "div", "h1", "h2", "h3", "h4", "h5", "h6", "tr", "table", "section", "article",
    "dt", "dd", "dl", "blockquote", "hr", "main", "title", "body", "pre", "center", "font",
];
/// Cells of a table.
const CELLS: &[&str] = &["td", "th"];
/// What frames the page. A form frames nothing: old pages stand in one as a whole.
const FRAMES: &[&str] = &[
    "nav", "header", "footer", "aside", "button", "select", "noscript", "svg", "template",
];
/// More frames within frames than this are taken as one.
const DEEPEST: usize = 50;

#[cfg(test)]
mod tests;
