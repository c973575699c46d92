//! Taking back what was done last, which is said before it is pressed, and putting that back.

use domain::bake::Intent;
use leptos::prelude::*;
use platform::clock;

use super::confirm::Confirm;
use super::live;
use super::presses::Presses;
use crate::reactive::{Memo, RwSignal};
use crate::state::{Back, Oventide, oventide};
use crate::words;

fn what(app: Oventide, back: &Back) -> String {
    words::taken_back(&back.what, app.settings.read().degrees)
}

/// Takes something back, at once or after a question.
#[component]
pub(crate) fn Undo(
    /// What.
    back: Memo<Option<Back>>,
    presses: Presses,
) -> impl IntoView {
    let app = oventide();
    let undo = live::text(move || match &*back.read() {
        Some(back) if back.is_old(app.beat.get()) => words::undo_at(back.at, app.beat.get()),
        _ => words::UNDO.to_owned(),
    });
    let undoes = live::text(move || {
        let back = back.read();
        back.as_ref()
            .map_or_else(String::new, |back| what(app, back))
    });
    let (open, asked) = (RwSignal::new(false), RwSignal::new(None::<Back>));
    let question = live::text(move || {
        let asked = asked.read();
        let question = |back: &Back| words::take_back(&what(app, back), back.at, clock::now());
        asked.as_ref().map_or_else(String::new, question)
    });
    let press = move |_| {
        let Some(back) = back.get_untracked().filter(|_| presses.is_new()) else {
            return;
        };
        if app.is_asked_first(&back) {
            asked.set(Some(back));
            open.set(true);
        } else {
            app.ask(&back.bake, Intent::Undo);
        }
    };
    // What was asked about and nothing that has happened meanwhile.
    let take = Callback::new(move |()| {
        if let Some(back) = back.get_untracked()
            && asked.read_untracked().as_ref() == Some(&back)
        {
            app.ask(&back.bake, Intent::Undo);
        }
    });
    // It stays where it is, so that the focus does.
    let idle = live::flag(move || back.read().is_none());
    // Two elements, one at a time: a word that grew where it stands would be seen to move.
    let is_old = Memo::new(move |_| {
        let back = back.read();
        back.as_ref()
            .is_some_and(|back| back.is_old(app.beat.get()))
    });
    let word = move || view! { <span>{undo}</span> }.into_any();
    // Large text leaves no room for what is taken back, but those who listen are told it all the same.
    let name = live::attr(move || Some(format!("{} {}", undo.read(), undoes.read())));
    view! {
        <button
            class="button undo"
            type="button"
            aria-label=name
            aria-disabled=idle
            on:click=press
        >
            {live::when(move || is_old.get(), word)}
            {live::when(move || !is_old.get(), word)}
            " "
            <span class="undo-what">{undoes}</span>
        </button>
        <Confirm
            open=open
            title=live::text(|| words::UNDO)
            text=question
            action=live::text(|| words::TAKE_BACK)
            on_yes=take
        />
    }
}

/// Puts back what was taken back last, as long as that can be.
#[component]
pub(crate) fn PutBack(
    /// What.
    back: Memo<Option<Back>>,
) -> impl IntoView {
    let app = oventide();
    let presses = Presses::new();
    live::part(move || {
        let button = back.get().map(|back| {
            let says = words::put_back(&what(app, &back));
            let press = move |_| {
                if presses.is_new() {
                    app.ask(&back.bake, Intent::PutBack);
                }
            };
            view! {
                <button class="button plan-elsewhere" type="button" on:click=press>
                    {says}
                </button>
            }
        });
        button.into_any()
    })
}
