//! Markup that changes in place, each kind through one type.
//!
//! Leptos compiles its updating code anew for every closure that stands in a
//! view. That is quick to run and large to load: a few kilobytes a closure, and
//! these pages have hundreds. Here closures are boxed first, so that the code
//! for a changing text, attribute or part exists once.

use std::sync::Arc;

use leptos::prelude::*;
use platform::rows::{self, Part, Row};

use crate::reactive::{Memo, effect};

/// Text that changes.
pub(crate) fn text<T: Into<String>>(
    read: impl Fn() -> T + Send + Sync + 'static,
) -> Signal<String> {
    text_erased(Box::new(move || read().into()))
}

/// An attribute that changes, and may be absent.
pub(crate) fn attr<T: Into<String>>(
    read: impl Fn() -> Option<T> + Send + Sync + 'static,
) -> Signal<Option<String>> {
    attr_erased(Box::new(move || read().map(Into::into)))
}

/// A flag as the words "true" and "false", for attributes that ask for them.
pub(crate) fn flag(read: impl Fn() -> bool + Send + Sync + 'static) -> Signal<Option<String>> {
    attr(move || Some(read().to_string()))
}

/// A part of the page that is drawn anew whenever what it reads changes.
pub(crate) fn part(draw: impl Fn() -> AnyView + Send + Sync + 'static) -> AnyView {
    erased(Arc::new(draw))
}

/// A part of the page that is there only while something holds.
pub(crate) fn when(
    holds: impl Fn() -> bool + Send + Sync + 'static,
    draw: impl Fn() -> AnyView + Send + Sync + 'static,
) -> AnyView {
    when_erased(Box::new(holds), Arc::new(draw))
}

/// Parts one after another.
pub(crate) trait Rows {
    /// All of them as one part.
    fn rows(self) -> AnyView;
}

impl<V: IntoAny, I: IntoIterator<Item = V>> Rows for I {
    fn rows(self) -> AnyView {
        one_after_another(self.into_iter().map(IntoAny::into_any).collect())
    }
}

/// A list whose rows stay as long as their keys do.
pub(crate) fn list(
    keys: impl Fn() -> Vec<String> + Send + Sync + 'static,
    row: impl Fn(String) -> AnyView + Send + Sync + 'static,
) -> AnyView {
    list_erased(Signal::derive(keys), Arc::new(row))
}

/// A list whose rows stay as long as their keys do, and are changed where they stand: the children of the element of
/// that id, each with its key as [`KEY`](rows::KEY).
pub(crate) fn rows_in_place(
    id: &'static str,
    parts: &'static [Part],
    rows: Memo<Vec<Row>>,
    draw: impl Fn(&Row) -> AnyView + Send + Sync + 'static,
) -> AnyView {
    let mut were = rows.read_untracked();
    effect(move || {
        let are = rows.read();
        rows::set(id, parts, &were, &are);
        were = are;
    });
    let keys = Memo::new(move |_| {
        let rows = rows.read();
        rows.iter().map(|(key, _)| key.clone()).collect::<Vec<_>>()
    });
    let row = move |key: String| {
        let rows = rows.read_untracked();
        let row = rows.iter().find(|(known, _)| *known == key);
        row.map_or_else(|| ().into_any(), &draw)
    };
    list(move || keys.get(), row)
}

fn text_erased(read: Box<dyn Fn() -> String + Send + Sync>) -> Signal<String> {
    Signal::derive(read)
}

fn attr_erased(read: Box<dyn Fn() -> Option<String> + Send + Sync>) -> Signal<Option<String>> {
    Signal::derive(read)
}

type Draw = Arc<dyn Fn() -> AnyView + Send + Sync>;
type DrawRow = Arc<dyn Fn(String) -> AnyView + Send + Sync>;

fn one_after_another(rows: Vec<AnyView>) -> AnyView {
    rows.into_any()
}

fn erased(draw: Draw) -> AnyView {
    (move || draw()).into_any()
}

fn when_erased(holds: Box<dyn Fn() -> bool + Send + Sync>, draw: Draw) -> AnyView {
    let holds = Memo::new(move |_| holds());
    (move || if holds.get() { draw() } else { ().into_any() }).into_any()
}

fn list_erased(keys: Signal<Vec<String>>, row: DrawRow) -> AnyView {
    let each = move || {
        platform::page::keep_focus();
        keys.get()
    };
    view! { <For each=each key=Clone::clone children=move |key| row(key) /> }.into_any()
}
