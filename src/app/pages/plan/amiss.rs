//! What isn't as it should be in the plan, and what can be pressed for it.

use domain::kitchen::MOST_FRIDGE_HOLDS;
use leptos::prelude::*;

use crate::reactive::Memo;
use crate::state::oventide;
use crate::state::plan::told::Told;
use crate::widgets::live::{self, Rows};
use crate::words::plan as words;

/// What can be pressed for something that is amiss.
enum Mend {
    /// Opens the sheet of the item with this key, to fix it anew.
    Anew(String),
    /// Says that the fridge has room for so many.
    Room(u32),
}

/// All of it, a sentence each.
pub(super) fn cautions(
    told: Memo<Option<Told>>,
    // Takes the key of an item that is to be fixed anew.
    on_press: Callback<String>,
) -> AnyView {
    let app = oventide();
    let now = app.beat;
    let amiss = move |told: &Told| {
        let mut amiss = Vec::new();
        if let Some(full) = told.full {
            let holds = app.settings.read().kitchen.fridge_holds;
            let more = (holds < MOST_FRIDGE_HOLDS).then_some(Mend::Room(holds + 1));
            amiss.push((words::fridge_full(full, now.get()), more));
        }
        let late = told.entries.iter().filter_map(words::too_late);
        let left_out = told.left_out.iter().cloned();
        amiss.extend(late.chain(left_out).map(|said| (said, None)));
        amiss.extend(told.entries.iter().filter_map(|entry| {
            let said = words::passed(entry, now.get())?;
            Some((said, Some(Mend::Anew(entry.key.clone()))))
        }));
        amiss
    };
    let mended = move |(said, mend): (String, Option<Mend>)| {
        let Some(mend) = mend else {
            return view! { <li>{said}</li> }.into_any();
        };
        let says = match &mend {
            Mend::Anew(_) => words::ANEW.to_owned(),
            Mend::Room(holds) => words::fridge_has_room(*holds),
        };
        let press = move |_| match &mend {
            Mend::Anew(key) => on_press.run(key.clone()),
            Mend::Room(holds) => {
                let holds = *holds;
                app.change_kitchen(Box::new(move |to| to.kitchen.fridge_holds = holds));
                platform::page::focus_heading();
            }
        };
        view! {
            <li class="plan-passed">
                <p>{said}</p>
                <button class="button" type="button" on:click=press>
                    {says}
                </button>
            </li>
        }
        .into_any()
    };
    live::part(move || {
        let told = told.read();
        let amiss = told.as_ref().map_or_else(Vec::new, amiss);
        if amiss.is_empty() {
            return ().into_any();
        }
        view! {
            <div class="caution">
                <ul class="lines">{amiss.into_iter().map(mended).rows()}</ul>
            </div>
        }
        .into_any()
    })
    .into_any()
}
