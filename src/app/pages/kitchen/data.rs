//! The stored data: how safe they are, out into a file and back, and away.

use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::store::SetAside;
use platform::{clock, persist};

use crate::reactive::RwSignal;
use crate::state::{ArchiveOutcome, oventide};
use crate::widgets::confirm::Confirm;
use crate::widgets::live::{self, Rows};
use crate::words;

/// The stored data and what can be done with them.
#[component]
pub(super) fn Data() -> impl IntoView {
    let app = oventide();
    let outcome = RwSignal::new(None::<ArchiveOutcome>);
    let restore_sure = RwSignal::new(false);
    let erase_sure = RwSignal::new(false);
    let erase_really = RwSignal::new(false);
    let used = RwSignal::new(None::<(u64, u64)>);
    spawn_local(async move { used.set(persist::estimate().await) });
    let room = move || {
        let used = used.get();
        used.map_or_else(String::new, |(used, allowed)| words::room(used, allowed))
    };
    let told = move || {
        let outcome = outcome.read();
        let told = outcome.as_ref().map(|outcome| {
            view! { <p class="answer">{words::archive_outcome(outcome)}</p> }
        });
        told.into_any()
    };
    // What became of the last file says nothing about the next question.
    let ask = move |question: RwSignal<bool>| {
        outcome.set(None);
        question.set(true);
    };
    let write = move |_| {
        let name = words::archive_name(clock::now());
        app.write_archive(name, outcome);
    };
    view! {
        <section class="section" aria-labelledby="data">
            <h2 id="data">{words::DATA}</h2>
            <p>{words::DATA_NOTE}</p>
            <p>{live::text(room)}</p>
            <div class="row">
                <button class="button" type="button" on:click=write>
                    {words::WRITE_ARCHIVE}
                </button>
                <button class="button" type="button" on:click=move |_| ask(restore_sure)>
                    {words::RESTORE}
                </button>
                <button
                    class="button button-danger"
                    type="button"
                    on:click=move |_| ask(erase_sure)
                >
                    {words::ERASE}
                </button>
            </div>
            <div role="status">
                {live::part(told)}
            </div>
            <Confirm
                open=restore_sure
                title=words::RESTORE
                text=words::RESTORE_SURE
                action=words::CHOOSE_FILE
                on_yes=move |()| app.read_archive(outcome)
            />
            <Confirm
                open=erase_sure
                title=words::ERASE
                text=words::ERASE_SURE
                action=words::ERASE_GO_ON
                danger=true
                on_yes=move |()| erase_really.set(true)
            />
            <Confirm
                open=erase_really
                title=words::ERASE_AGAIN
                text=words::ERASE_AGAIN_SURE
                action=words::ERASE_NOW
                danger=true
                on_yes=move |()| app.erase_everything(outcome)
            />
            <Records />
        </section>
    }
}

/// What can't be read, shown as it is.
#[component]
fn Records() -> impl IntoView {
    let app = oventide();
    let any = move || !app.set_aside.read().is_empty();
    let records = move || {
        let records = app.set_aside.read();
        records.iter().map(record).rows()
    };
    let list = move || {
        view! {
            <h3>{words::SET_ASIDE}</h3>
            <p>{words::SET_ASIDE_NOTE}</p>
            <ul class="section">{live::part(records)}</ul>
        }
        .into_any()
    };
    live::when(any, list)
}

fn record(record: &SetAside) -> impl IntoView + use<> {
    view! {
        <li class="card">
            <p class="row-title">{record.place.clone()}</p>
            <p>{record.cause.clone()}</p>
            <details>
                <summary>{words::SET_ASIDE_TEXT}</summary>
                // Nothing in it is interpreted: it is set as text, whatever it holds.
                <pre class="raw" tabindex="0">
                    {record.text.clone()}
                </pre>
            </details>
        </li>
    }
}
