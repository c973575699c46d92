use super::pieces::{Piece, Pieces};
use super::*;

#[test]
fn blocks_become_lines_and_frames_are_left_out() {
    let page = "<html><body><nav><a>Home 100 g</a></nav><h1>Rolls</h1><ul><li>500&nbsp;g <b>flour</b><li>7 g yeast</ul></body></html>";
    let text = text(page);
    let lines: Vec<_> = text
        .lines()
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .collect();
    assert_eq!(lines, ["Rolls", "500\u{a0}g flour", "7 g yeast"]);
}

#[test]
fn a_text_with_a_tag_in_it_is_no_page() {
    assert!(!is_page("<b>Tea cakes</b>\n\n250 g flour"));
    assert!(is_page("<ul><li>250 g flour</li></ul>"));
}

#[test]
fn a_script_ends_at_its_own_closing_tag() {
    let page = "<script type='application/ld+json'>{\"a\": \"</b>\"}</SCRIPT><p>x</p>";
    let scripts: Vec<_> = Pieces::of(page)
        .filter_map(|piece| match piece {
            Piece::Script { content, .. } => Some(content),
            _ => None,
        })
        .collect();
    assert_eq!(scripts, ["{\"a\": \"</b>\"}"]);
}
