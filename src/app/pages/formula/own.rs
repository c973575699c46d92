//! What can be done with a formula beside baking it: change it, copy it, hand it on.

use domain::formula::manuscript::Manuscript;
use domain::formula::{Formula, FormulaId};
use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::files::{self, SaveOutcome};
use platform::{ids, interchange};

use crate::pages::desk::open;
use crate::reactive::{Memo, RwSignal};
use crate::state::oventide;
use crate::widgets::live;
use crate::words;

/// What can be done with it.
#[component]
pub(super) fn Own(
    /// The formula as it is kept.
    kept: Formula,
    /// As it is fitted now, which is what is handed on.
    fitted: Memo<Formula>,
) -> impl IntoView {
    let app = oventide();
    let is_own = app.is_own(&kept);
    let outcome = RwSignal::new(None::<SaveOutcome>);
    let change = {
        let kept = kept.clone();
        move |_| {
            let mut manuscript = Manuscript::from(&kept);
            if !is_own {
                manuscript.id = FormulaId(ids::new_id());
            }
            open(app, &manuscript);
        }
    };
    let hand_on = move |_| {
        let formula = fitted.get_untracked();
        let name = words::formula_file(&formula);
        spawn_local(async move {
            let saved = files::save(&name, "text/html", &interchange::page(&formula)).await;
            outcome.set(Some(saved));
        });
    };
    let told = move || outcome.read().as_ref().map_or("", words::handed_on);
    let changes = if is_own {
        words::CHANGE_FORMULA
    } else {
        words::COPY_FORMULA
    };
    view! {
        <section class="section" aria-labelledby="beside">
            <h2 id="beside">{words::BESIDE_BAKING}</h2>
            <div class="row">
                <button class="button" type="button" on:click=change>
                    {changes}
                </button>
                <button class="button" type="button" on:click=hand_on>
                    {words::HAND_ON}
                </button>
            </div>
            <p role="status">{live::text(told)}</p>
        </section>
    }
}
