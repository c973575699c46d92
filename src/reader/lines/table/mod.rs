//! Tables: their heads, and numbers whose unit only the head of their column says.
//!
//! Left out: cells that go over several rows or columns, and heads of more than one row.

mod words;

use domain::food::unaccented;

use crate::grammar::tokens::{Kind, Token};
use words::{GRAMS, KILOGRAMS, OF_STEPS, OTHER, PERCENT, STEP, UNIT};

/// So much space parts columns.
pub(crate) const GAP: usize = 3;

/// What heads a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Column {
    /// Masses in grams.
    Grams,
    /// Masses in kilograms.
    Kilograms,
    /// Baker's percentages.
    Percent,
    /// Units of the numbers before them.
    Unit,
    /// Anything else that a table of ingredients has.
    Other,
}

/// What heads a column, by a cell of the head.
fn column(cell: &str) -> Option<Column> {
    let said = unaccented(cell);
    let said = said.trim().trim_matches(['*', '_', ':', '.', ' ']);
    // "Mass (g)", "Menge/kg".
    let (front, inside) = match said.split_once(['(', '/', '[']) {
        Some((front, unit)) => (front.trim(), unit.trim_matches([')', ']', ' '])),
        None => (said, said),
    };
    [
        (GRAMS, Column::Grams, inside),
        (KILOGRAMS, Column::Kilograms, inside),
        (PERCENT, Column::Percent, inside),
        (UNIT, Column::Unit, inside),
        (OTHER, Column::Other, front),
        (OF_STEPS, Column::Other, front),
    ]
    .into_iter()
    .find(|(words, _, cell)| words.contains(cell))
    .map(|(_, column, _)| column)
    .or_else(|| said.starts_with('%').then_some(Column::Percent))
}

/// The cells of a row, at strokes and tabs.
fn cells(text: &str) -> Vec<&str> {
    let text = text.trim().trim_start_matches('|').trim_end_matches('|');
    let by_mark = ['|', '\t', ';']
        .into_iter()
        .find(|&mark| text.contains(mark));
    match by_mark {
        Some(mark) => text.split(mark).map(str::trim).collect(),
        // Columns that only stand below each other have gaps between them.
        None => text
            .split("  ")
            .map(str::trim)
            .filter(|cell| !cell.is_empty())
            .collect(),
    }
}

/// The columns that a head names; nothing where a row is none.
pub(crate) fn head(text: &str) -> Option<Vec<Column>> {
    let cells = cells(text);
    if !(2..=MOST_COLUMNS).contains(&cells.len()) {
        return None;
    }
    let columns: Vec<Option<Column>> = cells.iter().map(|cell| column(cell)).collect();
    let named = columns.iter().flatten().count();
    let has_sentence = cells
        .iter()
        .any(|cell| cell.split_whitespace().count() > MOST_CELL_WORDS);
    (named * 2 >= cells.len() && named >= 2 && !has_sentence).then(|| {
        columns
            .into_iter()
            .map(|column| column.unwrap_or(Column::Other))
            .collect()
    })
}

/// The head of a column has no more words.
const MOST_CELL_WORDS: usize = 5;

/// What a head names beside its columns: the "POOLISH" of "POOLISH   %   kg".
pub(crate) fn named_by(text: &str) -> Option<String> {
    let cells = cells(text);
    let first = cells.first()?;
    let others = cells[1..].iter().all(|cell| column(cell).is_some());
    (column(first).is_none() && !first.is_empty() && others).then(|| (*first).to_owned())
}

/// A table of ingredients has no more columns.
const MOST_COLUMNS: usize = 10;

/// Whether some tokens head a table of steps.
pub(crate) fn heads_steps(tokens: &[Token<'_>]) -> bool {
    let first = tokens.iter().find(|token| token.is_word());
    is_head(tokens) && first.is_some_and(|first| STEP.contains(&first.word.as_str()))
}

/// Whether some tokens are the head of a table, told by its words alone.
pub(crate) fn is_head(tokens: &[Token<'_>]) -> bool {
    let words = tokens.iter().filter(|token| token.is_word());
    let words: Vec<&str> = words.take(MOST_COLUMNS).map(|token| token.text).collect();
    let parted = tokens
        .iter()
        .any(|token| token.is_mark('|') || token.space >= GAP);
    let numbers = tokens
        .iter()
        .any(|token| matches!(token.kind, Kind::Number { .. }));
    let known = words.iter().filter(|word| column(word).is_some()).count();
    parted && !numbers && words.len() >= 2 && known * 2 >= words.len()
}

/// A row with the units of its columns behind its bare numbers.
pub(crate) fn with_units(text: &str, columns: &[Column]) -> Option<String> {
    let cells = cells(text);
    if cells.len() != columns.len() {
        return None;
    }
    let mut row = String::new();
    for (cell, column) in cells.iter().zip(columns) {
        if !row.is_empty() {
            row.push_str(if *column == Column::Unit { " " } else { " | " });
        }
        row.push_str(cell);
        if is_bare_number(cell) {
            row.push_str(match column {
                Column::Grams => " g",
                Column::Kilograms => " kg",
                Column::Percent => " %",
                Column::Unit | Column::Other => "",
            });
        }
    }
    Some(row)
}

fn is_bare_number(cell: &str) -> bool {
    let mut letters = cell.chars();
    !cell.is_empty() && letters.all(|letter| letter.is_ascii_digit() || ".,".contains(letter))
}

#[cfg(test)]
mod tests;
