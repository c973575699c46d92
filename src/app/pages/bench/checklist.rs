//! The marks of a step: once for the batch, or all of one piece and then the next.

use domain::bake::{Intent, Mark, State, next_mark};
use domain::formula::{Checklist as List, Component, Scope, Step};
use domain::sorted::Set;
use leptos::prelude::*;

use super::Shown;
use crate::reactive::{Memo, effect};
use crate::widgets::live::{self, Rows};
use crate::words;

/// A line of a batch checklist.
#[derive(Debug, Clone, PartialEq)]
struct Line {
    item: u16,
    text: String,
    amount: String,
    /// What it says to whoever can't see where it stands.
    label: String,
    /// The component that begins with it, where several stand together.
    heading: Option<String>,
}

/// What a checklist looks like.
#[derive(Debug, Clone, PartialEq)]
enum Shape {
    None,
    Batch(Vec<Line>),
    Pieces { pieces: u16, items: Vec<String> },
}

/// The checklist of the step that is asked about.
#[component]
pub(super) fn Checklist(shown: Shown) -> impl IntoView {
    let shape = Memo::new(move |_| shown.with_step(shape).unwrap_or(Shape::None));
    let marked = Memo::new(move |_| {
        let marks = shown.with_step(|state, step| state.progress(step.id).marks.clone());
        marks.unwrap_or_default()
    });
    view! {
        {live::part(move || match shape.get() {
            Shape::None => ().into_any(),
            Shape::Batch(lines) => view! { <Batch shown=shown lines=lines marked=marked /> }.into_any(),
            Shape::Pieces { pieces, items } => {
                view! { <Pieces shown=shown pieces=pieces items=items marked=marked /> }.into_any()
            }
        })}
    }
}

fn shape(state: &State, step: &Step) -> Shape {
    match &step.checklist {
        None | Some(List::PieceMasses) => Shape::None,
        Some(List::Ingredients) => {
            let component = state.formula.component_of(step);
            Shape::Batch(ingredients(state, component, false))
        }
        Some(List::AllIngredients) => {
            Shape::Batch(ingredients(state, &state.formula.components, true))
        }
        Some(List::Marks {
            scope: Scope::Batch,
            items,
        }) => {
            let lines = (0..).zip(items).map(|(item, text)| Line {
                item,
                text: text.clone(),
                amount: String::new(),
                label: text.clone(),
                heading: None,
            });
            Shape::Batch(lines.collect())
        }
        Some(List::Marks {
            scope: Scope::EachPiece,
            items,
        }) => Shape::Pieces {
            pieces: state.formula.pieces.count,
            items: items.clone(),
        },
    }
}

/// A line for each ingredient; several components each begin with their name.
fn ingredients<'a>(
    state: &State,
    components: impl IntoIterator<Item = &'a Component>,
    several: bool,
) -> Vec<Line> {
    let scales = state.kitchen.scales;
    let mut lines = Vec::new();
    for component in components {
        let mut heading = several.then(|| words::capital(&component.name));
        for (part, amount) in component.ingredients.iter().zip(component.amounts(scales)) {
            let amount = words::mass(amount);
            let of = several.then_some(component.name.as_str());
            lines.push(Line {
                item: lines.len() as u16,
                text: part.name.clone(),
                label: words::ingredient(&part.name, &amount, of),
                amount,
                heading: heading.take(),
            });
        }
    }
    lines
}

/// The step's own mark button, in any list.
#[component]
fn MarkButton(
    shown: Shown,
    mark: Mark,
    marked: Memo<Set<Mark>>,
    /// What it says.
    text: String,
    /// What it says to whoever can't see where it stands.
    label: String,
    /// An amount at its end.
    #[prop(optional)]
    amount: String,
) -> impl IntoView {
    let is_marked = live::flag(move || marked.read().contains(&mark));
    let toggle = move |_| {
        let on = !marked.read_untracked().contains(&mark);
        if let Some(step) = shown.view.read_untracked().ask.step() {
            shown.ask(Intent::Mark(step, mark, on));
        }
    };
    view! {
        <button
            class="mark"
            aria-pressed=is_marked
            aria-label=label
            on:click=toggle
        >
            <span>{text}</span>
            <span class="digits">{amount}</span>
        </button>
    }
}

#[component]
fn Batch(shown: Shown, lines: Vec<Line>, marked: Memo<Set<Mark>>) -> impl IntoView {
    let rows = lines.into_iter().map(|line| {
        let item = line.item;
        let mark = Mark { item, piece: None };
        let heading = line
            .heading
            .map(|heading| view! { <li class="marks-of">{heading}</li> });
        view! {
            {heading}
            <li>
                <MarkButton
                    shown=shown
                    mark=mark
                    marked=marked
                    label=line.label
                    text=line.text
                    amount=line.amount
                />
            </li>
        }
    });
    view! {
        <ul class="marks" aria-label=words::MARKS>
            {rows.rows()}
        </ul>
    }
}

#[component]
fn Pieces(shown: Shown, pieces: u16, items: Vec<String>, marked: Memo<Set<Mark>>) -> impl IntoView {
    let asked = Memo::new(move |_| {
        let next = shown.with_step(|state, step| next_mark(state, step.id)?.piece);
        next.flatten()
    });
    let mut before = None;
    effect(move || {
        let asked = asked.get();
        // At its first piece a step shows its instruction, unless the baker has been further.
        if asked > Some(0) || before.is_some() {
            platform::page::show(".piece-row[aria-current]");
        }
        before = asked;
    });
    let rows = (0..pieces).map(|piece| {
        let name = words::piece(shown.view.read_untracked().bake.state(), piece);
        let marks = (0..).zip(&items).map(|(item, text)| {
            let mark = Mark {
                item,
                piece: Some(piece),
            };
            let label = format!("{name}: {text}");
            let text = text.clone();
            view! { <MarkButton shown=shown mark=mark marked=marked label=label text=text /> }
        });
        let marks = marks.rows();
        view! {
            <li
                class="piece-row"
                aria-current=live::attr(move || (asked.get() == Some(piece)).then_some("step"))
            >
                <span class="piece-name">{name}</span>
                <div class="marks">{marks}</div>
            </li>
        }
    });
    view! {
        <ul class="marks" aria-label=words::MARKS>
            {rows.rows()}
        </ul>
    }
}
