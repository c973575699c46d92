//! What the baker writes about a bake.

use domain::bake::{Bake, BakeId};
use domain::formula::StepId;
use domain::notebook::Note;
use domain::sorted;
use domain::units::{Minutes, minutes};
use leptos::prelude::*;
use platform::clock::{self, Once};
use platform::page;

use crate::reactive::{Memo, RwSignal, effect};
use crate::state::{Oventide, oventide};
use crate::widgets::fresh_id;
use crate::widgets::lesson::lesson_line;
use crate::widgets::live::{self, Rows};
use crate::words;

/// The baker's own words. Each field is kept while it is being written.
#[component]
pub(super) fn Writing(bake: Bake) -> impl IntoView {
    let app = oventide();
    let steps = bake.state().formula.steps.iter();
    let options = steps
        .clone()
        .map(|step| view! { <option value=step.id.0.to_string()>{step.title.clone()}</option> })
        .rows();
    let titles: Vec<(StepId, String)> = steps.map(|step| (step.id, step.title.clone())).collect();
    let first = titles.first().map_or(StepId(0), |(step, _)| *step);
    let id = bake.id.clone();
    let writing = StoredValue::new(Written { app, bake });
    let chosen = RwSignal::new(first);
    let note = move || writing.with_value(Written::note);
    let text = Memo::new(move |_| note().text);
    // What stands in the field needn't stand above it, too.
    let lessons = move || {
        let (note, chosen) = (note(), chosen.get());
        note.differently
            .iter()
            .filter(|(step, _)| *step != chosen)
            .filter_map(|(step, text)| {
                let (_, title) = titles.iter().find(|(known, _)| known == step)?;
                Some(lesson_line(words::at_step(title), text.clone()))
            })
            .rows()
    };
    // A field of its own for each step, so that what was written at one can't end at another.
    let other = id.clone();
    let field = move || {
        let step = chosen.get();
        let kept = Memo::new(move |_| lesson(&note(), step));
        let keep = move |text: String| {
            writing.with_value(|writing| {
                writing.keep(|note| {
                    note.differently.retain(|(at, _)| *at != step);
                    if !text.trim().is_empty() {
                        note.differently.push((step, text));
                        sorted::by_key(&mut note.differently, |(at, _)| *at);
                    }
                });
            });
        };
        view! {
            <KeptText
                bake=other.clone()
                label=words::DO_WHAT
                kept=kept
                on_change=Callback::new(keep)
            />
        }
        .into_any()
    };
    let select = fresh_id("step");
    view! {
        <section class="section" aria-labelledby="your-note">
            <h2 id="your-note">{words::YOUR_NOTE}</h2>
            <KeptText
                bake=id
                label=words::HOW_WAS_IT
                kept=text
                on_change=Callback::new(move |text| {
                    writing.with_value(|writing| writing.keep(|note| note.text = text));
                })
            />
        </section>
        <section class="section" aria-labelledby="differently">
            <h2 id="differently">{words::DIFFERENTLY}</h2>
            <p>{words::DIFFERENTLY_NOTE}</p>
            <ul class="lines">{live::part(lessons)}</ul>
            <div class="field">
                <label for=select.clone()>{words::AT_STEP}</label>
                <select
                    id=select
                    prop:value=live::text(move || chosen.get().0.to_string())
                    on:change=move |event| {
                        if let Ok(step) = event_target_value(&event).parse() {
                            chosen.set(StepId(step));
                        }
                    }
                >
                    {options}
                </select>
            </div>
            {live::part(field)}
        </section>
    }
}

fn lesson(note: &Note, step: StepId) -> String {
    let mut lessons = note.differently.iter();
    let found = lessons.find(|(at, _)| *at == step);
    found.map(|(_, text)| text.clone()).unwrap_or_default()
}

/// A bake with what was written about it.
struct Written {
    app: Oventide,
    bake: Bake,
}

impl Written {
    /// What is stored, or an empty note.
    fn note(&self) -> Note {
        let state = self.bake.state();
        let notes = self.app.notes.read();
        let mut stored = notes.iter().filter(|note| note.bake == self.bake.id);
        stored.next().cloned().unwrap_or_else(|| Note {
            bake: self.bake.id.clone(),
            formula: state.formula.id.clone(),
            form: state.formula.other_form(),
            at: state.newest,
            text: String::new(),
            differently: Vec::new(),
        })
    }

    fn keep(&self, edit: impl FnOnce(&mut Note)) {
        let unsaved = self.app.unsaved_note(&self.bake.id);
        let mut note = unsaved.unwrap_or_else(|| untrack(|| self.note()));
        edit(&mut note);
        self.app.keep_note(note);
    }
}

/// How long after the last key what was typed is kept.
const PAUSE: Minutes = minutes(2.0 / 60.0);

/// Some words, kept while they are being written, with whether they are.
#[component]
fn KeptText(
    /// The bake they are about.
    bake: BakeId,
    /// What they are about.
    label: &'static str,
    /// What is stored.
    kept: Memo<String>,
    /// Stores what was written.
    on_change: Callback<String>,
) -> impl IntoView {
    let app = oventide();
    let field = fresh_id("text");
    let draft = RwSignal::new(kept.get_untracked());
    let sent = RwSignal::new(kept.get_untracked());
    // Another tab may write about the same bake. What is being written here is kept in its turn.
    let mut before = None::<String>;
    effect(move || {
        let (kept, known) = (kept.get(), sent.get_untracked());
        let was_kept = before.replace(kept.clone()).is_none_or(|it| it == known);
        let untouched = draft.get_untracked() == known && was_kept;
        if untouched && kept != known {
            sent.set(kept.clone());
            draft.set(kept);
        }
    });
    let pause = StoredValue::new_local(None::<Once>);
    let keep = move || {
        // A field that goes while it has the focus says so when nothing of this is left.
        if pause.is_disposed() {
            return;
        }
        let typed = draft.get_untracked();
        if typed != sent.get_untracked() || typed != kept.get_untracked() {
            sent.set(typed.clone());
            on_change.run(typed);
        }
    };
    // It listens for as long as this is here.
    StoredValue::new_local(page::on_hide(keep));
    on_cleanup(keep);
    let status = move || {
        let (draft, kept) = (draft.read(), kept.read());
        drop(app.health.read());
        match (*draft == *kept, kept.is_empty()) {
            (true, _) if app.unsaved_note(&bake).is_some() => words::NOT_KEPT,
            (true, true) => "",
            (true, false) => words::KEPT,
            (false, _) => words::NOT_KEPT_YET,
        }
    };
    view! {
        <div class="field">
            <label for=field.clone()>{label}</label>
            <textarea
                id=field
                prop:value=live::text(move || draft.get())
                on:input=move |event| {
                    draft.set(event_target_value(&event));
                    pause.set_value(Some(clock::at(clock::now() + PAUSE, keep)));
                }
                on:blur=move |_| keep()
            ></textarea>
            <p class="soft" role="status">
                {live::text(status)}
            </p>
        </div>
    }
}
