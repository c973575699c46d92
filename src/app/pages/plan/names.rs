//! The names of bars: what stands in them, and how much room that needs.
//!
//! How wide a column is on a screen is known to the style alone, so it is told from which width of the whole drawing on
//! a name has room in its bar. Below that it stands upright where the bar is tall enough, and else there is its number.

use super::scale::LEAST;
use crate::state::plan::told::{Entry, Lane};

/// The widths of the drawing that the style knows, in em of a name.
const WIDTHS: [u32; 14] = [10, 13, 16, 18, 20, 22, 23, 25, 28, 32, 37, 43, 50, 60];
/// How wide the drawing is at most where the style makes it that much taller, which has room for what hands do.
const SMALL: u32 = 20;
const TALLER_IF_SMALL: f64 = 1.35;
/// Below which width the moments stand within the column of the hands, and what they take of that, in em.
const CRAMPED: u32 = 18;
const MOMENTS: f64 = 2.75;
/// A column with less of such a width has no room for a line of a name, and for the figures of a number just so.
const UPRIGHT_SHARE: f64 = 0.12;
/// What a bar's edges and the space within take of its width, and how much more the edge of what a table depends on,
/// in em.
const SIDES: f64 = 0.52;
const THICK: f64 = 0.37;
/// The mark of what a table depends on, with the space behind it, and that of what is fixed, in em.
const DEPENDS: f64 = 1.2;
const FIXED: f64 = 0.9;
/// Between words, in em.
const SPACE: f64 = 0.4;
/// An em of a name, a line of it, and what a bar's edges and the space within take of its height, in rem.
const EM: f64 = 0.8125;
const LINE: f64 = 1.15 * EM;
const EDGES: f64 = 0.45;
/// A bar is no taller for its name than that takes.
const MOST_LINES: usize = 5;

/// What stands in a bar.
pub(super) fn name(entry: &Entry) -> &str {
    entry.short.as_ref().unwrap_or(&entry.title)
}

/// How long that is, in em.
fn length(entry: &Entry) -> f64 {
    marks(entry) + long(name(entry))
}

fn marks(entry: &Entry) -> f64 {
    let fixed = if entry.pinned.is_some() { FIXED } else { 0.0 };
    fixed + if entry.hangs { DEPENDS } else { 0.0 }
}

/// A text in the widest of usual fonts.
fn long(text: &str) -> f64 {
    let letters = text.chars().map(|letter| match letter {
        'f' | 'i' | 'j' | 'l' | 'r' | 't' | ' ' | ':' | ',' | '.' | '-' | '\'' => 0.45,
        'm' | 'w' | 'M' | 'W' => 0.98,
        _ => 0.7,
    });
    letters.sum()
}

/// How many lines a name takes in a bar that is so wide; none where a word has no room.
fn lines(entry: &Entry, width: f64) -> Option<usize> {
    let thick = if entry.hangs { THICK } else { 0.0 };
    let width = width - SIDES - thick;
    let mut left = width - marks(entry);
    let mut lines = 1;
    for word in name(entry).split(' ') {
        let long = long(word);
        if long > left {
            lines += 1;
            left = width;
        }
        if long > left {
            return None;
        }
        left -= long + SPACE;
    }
    Some(lines)
}

/// From which width of the drawing on a name has room across, in a bar that is so tall and has that share of it.
pub(super) fn across_from(entry: &Entry, tall: f64, share: f64) -> Option<u32> {
    let mut widths = WIDTHS.iter().copied();
    widths.find(|&width| {
        let taller = if width > SMALL { 1.0 } else { TALLER_IF_SMALL };
        let most = (tall * taller - EDGES) / LINE;
        let is_beside = width < CRAMPED && entry.lane == Lane::Hands;
        let moments = if is_beside { MOMENTS } else { 0.0 };
        let lines = lines(entry, f64::from(width) * share - moments);
        lines.is_some_and(|lines| lines as f64 <= most)
    })
}

/// Where a bar that is so tall and has that share of the width has room for its name upright, as the style calls it.
pub(super) fn upright(entry: &Entry, tall: f64, share: f64) -> &'static str {
    let need = length(entry) * EM + EDGES;
    let is_wide = share >= UPRIGHT_SHARE;
    match tall {
        tall if need <= tall && is_wide => "anywhere",
        tall if need <= tall => "unless-cramped",
        tall if need <= tall * TALLER_IF_SMALL && is_wide => "if-small",
        _ => "nowhere",
    }
}

/// How tall a bar of the hands should be for its name, which is that of a finger for most.
pub(super) fn least(entry: &Entry, share: f64) -> f64 {
    let lines = lines(entry, f64::from(SMALL) * share).filter(|&lines| lines <= MOST_LINES);
    lines.map_or(LEAST, |lines| (LINE * lines as f64 + EDGES).max(LEAST))
}

#[cfg(test)]
mod tests {
    use domain::units::Moment;

    use super::*;
    use crate::state::plan::told::Why;

    fn named(title: &str) -> Entry {
        Entry {
            key: String::new(),
            of: None,
            lane: Lane::Hands,
            part: None,
            title: title.to_owned(),
            short: None,
            whose: None,
            start: Moment::from_epoch_ms(0),
            end: Moment::from_epoch_ms(0),
            window: None,
            hangs: false,
            for_table: false,
            tables: Vec::new(),
            pinned: None,
            passed: None,
            cold: None,
            is_cold: false,
            can_fix: false,
            why: Why::Free,
            too_late_by: None,
        }
    }

    #[test]
    fn a_name_wraps_between_words_and_never_within_one() {
        let name = named("Into the oven");
        assert_eq!(lines(&name, 20.0), Some(1));
        assert_eq!(lines(&name, 8.0), Some(2));
        assert_eq!(lines(&name, 3.8), Some(3));
        assert_eq!(lines(&name, 2.5), None);
    }

    #[test]
    fn a_mark_takes_room_and_more_height_makes_up_for_width() {
        let mut name = named("Fold it in the bowl");
        name.lane = Lane::Oven;
        let from =
            |name: &Entry, tall: f64| across_from(name, tall, 0.35).expect("some width is enough");
        let bare = from(&name, LEAST);
        assert!(from(&name, 2.0 * LEAST) < bare);
        name.hangs = true;
        assert!(from(&name, LEAST) >= bare);
        assert_eq!(across_from(&name, 0.5, 0.35), None);
    }

    #[test]
    fn the_moments_take_room_from_the_hands_where_they_stand_beside_them() {
        let mut name = named("Knead");
        let from = |name: &Entry| across_from(name, LEAST, 0.45);
        assert_eq!(from(&name), Some(16));
        name.lane = Lane::Oven;
        assert_eq!(from(&name), Some(10));
    }

    #[test]
    fn a_long_name_makes_its_bar_taller_up_to_a_few_lines() {
        assert_eq!(least(&named("Knead"), 0.36), LEAST);
        let tall = least(&named("Stretch and fold it in the bowl"), 0.36);
        assert!(tall > LEAST && tall < 2.0 * LEAST);
        assert_eq!(least(&named(&"on and ".repeat(40)), 0.36), LEAST);
        let upright = |share| {
            [1.0, 1.5, 2.0].map(|times| upright(&named("Final proof"), times * LEAST, share))
        };
        assert_eq!(upright(0.2), ["nowhere", "if-small", "anywhere"]);
        assert_eq!(upright(0.1), ["nowhere", "nowhere", "unless-cramped"]);
    }
}
