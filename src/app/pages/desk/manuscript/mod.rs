//! A formula that is being written: what is open, its parts, its pieces, its steps.
//!
//! Every change is an [`Edit`] that is stored before it is shown, so leaving loses nothing.

mod ingredient;
mod parts;
mod pieces;
mod questions;
mod step;
mod steps;

use domain::formula::manuscript::{At, Edit, Manuscript, Refused};
use domain::formula::{FormulaId, StepId};
use leptos::prelude::*;
use platform::store::read_manuscript;

use super::keep;
use crate::reactive::{Memo, RwSignal};
use crate::route::Route;
use crate::state::{Oventide, oventide};
use crate::widgets::confirm::Confirm;
use crate::widgets::live;
use crate::widgets::text_field::TextField;
use crate::words;
use ingredient::IngredientSheet;
use parts::Parts;
use pieces::PiecesSheet;
use questions::Questions;
use step::StepSheet;
use steps::Steps;

/// A formula that is still being written.
#[component]
pub(crate) fn ManuscriptPage(
    /// Which.
    id: FormulaId,
) -> impl IntoView {
    let app = oventide();
    let key = id.0.clone();
    let text = Memo::new(move |_| {
        let all = app.manuscripts.read();
        let found = all.iter().find(|(known, _)| *known == key);
        found.map(|(_, text)| text.clone())
    });
    // Drawn once it is here: it may still be on its way into the storage.
    let is_here = move || text.read().is_some();
    let is_readable = Memo::new(move |_| {
        text.read()
            .as_deref()
            .is_some_and(|text| read_manuscript(text).is_ok())
    });
    let page = move || match is_readable.get() {
        true => view! { <Sheet id=id.clone() text=text /> }.into_any(),
        false => view! { <p>{words::UNREADABLE_MANUSCRIPT}</p> }.into_any(),
    };
    let gone = move || {
        view! {
            <header class="page-head">
                <h1 tabindex="-1">{words::way(&Route::Desk)}</h1>
                <p>{words::NO_FORMULA}</p>
            </header>
            <a class="button" href=Route::Formulas.href()>
                {words::ALL_FORMULAS}
            </a>
        }
        .into_any()
    };
    view! {
        {live::when(is_here, page)}
        {live::when(move || !is_here(), gone)}
    }
}

/// What is open on the sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Opened {
    Ingredient(At),
    Step(StepId),
    Pieces,
}

/// The sheet that is written on.
#[derive(Clone, Copy)]
struct Desk {
    app: Oventide,
    id: StoredValue<FormulaId>,
    written: Memo<Manuscript>,
    /// What it was before each change since the page was opened.
    past: RwSignal<Vec<Manuscript>>,
    refused: RwSignal<Option<Refused>>,
    opened: RwSignal<Option<Opened>>,
}

impl Desk {
    /// As it is now, stored or not.
    fn now(self) -> Manuscript {
        let key = self.id.with_value(|id| id.0.clone());
        let unsaved = self.app.unsaved_manuscript(&key).flatten();
        let unsaved = unsaved.and_then(|text| read_manuscript(&text).ok());
        unsaved.unwrap_or_else(|| self.written.get_untracked())
    }

    /// Makes a change and keeps it; what can't be made is told.
    fn edit(self, edit: &Edit) {
        let before = self.now();
        let mut after = before.clone();
        match after.apply(edit) {
            Ok(()) if after != before => {
                self.refused.set(None);
                self.past.update(|past| past.push(before));
                keep(self.app, &after);
            }
            Ok(()) => self.refused.set(None),
            Err(refused) => self.refused.set(Some(refused)),
        }
    }

    /// Takes the last change back.
    fn undo(self) {
        let mut last = None;
        self.past.update(|past| last = past.pop());
        if let Some(last) = last {
            self.refused.set(None);
            self.opened.set(None);
            keep(self.app, &last);
        }
    }

    fn open(self, what: Opened) {
        self.refused.set(None);
        self.opened.set(Some(what));
    }
}

#[component]
fn Sheet(id: FormulaId, text: Memo<Option<String>>) -> impl IntoView {
    let app = oventide();
    let blank = Manuscript::blank(&id.0);
    let written = Memo::new(move |last: Option<&Manuscript>| {
        let read = text
            .read()
            .as_deref()
            .and_then(|text| read_manuscript(text).ok());
        read.or_else(|| last.cloned())
            .unwrap_or_else(|| blank.clone())
    });
    let desk = Desk {
        app,
        id: StoredValue::new(id),
        written,
        past: RwSignal::new(Vec::new()),
        refused: RwSignal::new(None),
        opened: RwSignal::new(None),
    };
    let name = Memo::new(move |_| written.read().name.clone());
    let title = move || {
        let name = name.read();
        if name.trim().is_empty() {
            words::WITHOUT_NAME.to_owned()
        } else {
            name.clone()
        }
    };
    let refused = move || desk.refused.get().map(words::refused).unwrap_or_default();
    let sure = RwSignal::new(false);
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{live::text(title)}</h1>
            <p class="soft">{words::ALL_KEPT}</p>
        </header>
        <Questions desk=desk />
        <section class="section">
            <TextField
                label=words::ITS_NAME
                kept=name
                on_change=move |name: String| desk.edit(&Edit::Name(name))
            />
        </section>
        <Parts desk=desk />
        <Pieces desk=desk />
        <Steps desk=desk />
        <div class="row">
            <button
                class="button button-danger"
                type="button"
                on:click=move |_| sure.set(true)
            >
                {words::THROW_AWAY}
            </button>
        </div>
        <Confirm
            open=sure
            title=words::THROW_AWAY
            text=words::THROW_AWAY_SURE
            action=words::THROW_AWAY
            danger=true
            on_yes=move |()| {
                app.keep_manuscript(desk.id.with_value(|id| id.0.clone()), None);
                Route::Formulas.go();
            }
        />
        <p class="field-error" role="alert">
            {live::text(refused)}
        </p>
        <Bar desk=desk />
        <IngredientSheet desk=desk />
        <StepSheet desk=desk />
        <PiecesSheet desk=desk />
    }
}

/// The pieces in a line, which leads to them.
#[component]
fn Pieces(desk: Desk) -> impl IntoView {
    view! {
        <section class="section" aria-labelledby="pieces">
            <h2 id="pieces">{words::PIECES}</h2>
            <button class="card card-button" type="button" on:click=move |_| desk.open(Opened::Pieces)>
                {live::text(move || words::manuscript_pieces(&desk.written.read()))}
            </button>
        </section>
    }
}

/// What is always in reach: take it as a formula, and take the last change back.
#[component]
fn Bar(desk: Desk) -> impl IntoView {
    let app = desk.app;
    let cannot = Memo::new(move |_| desk.written.read().formula().is_err());
    let take = move |_| {
        if let Ok(formula) = desk.now().formula() {
            app.take_manuscript(formula);
        }
    };
    view! {
        <div class="start-bar">
            <button
                class="button button-main"
                type="button"
                disabled=Signal::derive(move || cannot.get())
                on:click=take
            >
                {words::TAKE_FORMULA}
            </button>
            <button
                class="button"
                type="button"
                disabled=Signal::derive(move || desk.past.read().is_empty())
                on:click=move |_| desk.undo()
            >
                {words::TAKE_LAST_BACK}
            </button>
        </div>
    }
}
