//! Where a formula of the baker's own comes in: a text that was pasted, a file that was opened, or an empty sheet.

mod manuscript;

use domain::formula::FormulaId;
use domain::formula::manuscript::Manuscript;
use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::store::write_manuscript;
use platform::{files, ids, interchange};

use crate::reactive::RwSignal;
use crate::route::Route;
use crate::state::{Oventide, oventide};
use crate::widgets::fresh_id;
use crate::widgets::live;
use crate::words;
pub(crate) use manuscript::ManuscriptPage;

/// What the file picker offers: texts, pages and what other programs write.
const ACCEPT: &str =
    ".txt,.md,.html,.htm,.json,.jsonld,text/plain,text/html,application/json,application/ld+json";

/// Where a formula of the baker's own comes in.
#[component]
pub(crate) fn DeskPage() -> impl IntoView {
    let app = oventide();
    let field = fresh_id("paste");
    let text = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let take = move |text: &str| match read(text) {
        Ok(manuscript) => open(app, &manuscript),
        Err(why) => refused.set(Some(why)),
    };
    let pick = move |_| {
        refused.set(None);
        spawn_local(async move {
            match files::pick_text(ACCEPT, reader::MOST_BYTES).await {
                Ok(Some((_, text))) => take(&text),
                Ok(None) => {}
                Err(error) => refused.set(Some(words::file_refused(&error))),
            }
        });
    };
    let begin = move |_| {
        open(app, &Manuscript::blank(&ids::new_id()));
    };
    let error = move || {
        let refused = refused.get();
        refused
            .map(|refused| view! { <span>{refused}</span> })
            .into_any()
    };
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{words::way(&Route::Desk)}</h1>
            <p>{words::DESK_NOTE}</p>
        </header>
        <section class="section">
            <div class="field">
                <label for=field.clone()>{words::PASTE}</label>
                <textarea
                    id=field
                    class="paste"
                    spellcheck="false"
                    prop:value=live::text(move || text.get())
                    on:input=move |event| {
                        refused.set(None);
                        text.set(event_target_value(&event));
                    }
                ></textarea>
                <p class="field-error" role="alert">
                    {live::part(error)}
                </p>
            </div>
            <button
                class="button button-main"
                type="button"
                on:click=move |_| take(&text.get_untracked())
            >
                {words::READ_IT}
            </button>
            <div class="row">
                <button class="button" type="button" on:click=pick>
                    {words::OPEN_A_FILE}
                </button>
                <button class="button" type="button" on:click=begin>
                    {words::EMPTY_SHEET}
                </button>
            </div>
        </section>
    }
}

/// What comes of a text, or why it can't be read. Nothing is changed then.
fn read(text: &str) -> Result<Manuscript, String> {
    let id = ids::new_id();
    match interchange::own(text) {
        Ok(Some(formula)) => {
            let mut manuscript = Manuscript::from(&formula);
            manuscript.id = FormulaId(id);
            Ok(manuscript)
        }
        Err(cause) => Err(words::own_refused(&cause)),
        Ok(None) => {
            let found = reader::read(text.as_bytes());
            let found = found.map_err(|cause| words::read_refused(&cause))?;
            Ok(reader::to_manuscript(&found, &id))
        }
    }
}

/// Keeps a manuscript, and goes to its sheet.
pub(crate) fn open(app: Oventide, manuscript: &Manuscript) {
    app.open_manuscript(manuscript.id.clone(), write_manuscript(manuscript));
}

/// Keeps a manuscript as it now is.
fn keep(app: Oventide, manuscript: &Manuscript) {
    let text = write_manuscript(manuscript);
    app.keep_manuscript(manuscript.id.0.clone(), Some(text));
}
