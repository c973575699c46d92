//! What can be pressed of what was found, a list for each way of asking.

use leptos::prelude::*;

use super::again::Looks;
use super::{Found, Offer, Press};
use crate::reactive::Memo;
use crate::widgets::live;
use crate::words::plan::ways as words;

/// Some of it under a heading; nothing where there is none.
pub(super) fn presses_of(
    looks: Looks,
    take: Callback<String>,
    heading: &'static str,
    of: fn(&Found) -> &Vec<Press>,
) -> AnyView {
    let found = looks.found;
    let keys = Memo::new(move |_| keys(found.read().iter().flat_map(of)));
    let draw = move |key: String| {
        let found = found.read_untracked();
        let press = found.as_ref().and_then(|found| found.press(&key)).cloned();
        press.map_or_else(|| ().into_any(), |press| row(looks, press, key, take))
    };
    // So it is of all ways or of none.
    let none = live::text(move || {
        let found = found.read();
        let mut all = found.iter().flat_map(of);
        let little = all.any(|press| matches!(&press.offer, Offer::Way(way) if way.is_little));
        if little { words::NONE_IS_HALF } else { "" }
    });
    live::when(
        move || !keys.read().is_empty(),
        move || {
            view! {
                <h3>{heading}</h3>
                <p>{none}</p>
                <ul class="lines ways-out">{live::list(move || keys.get(), draw)}</ul>
            }
            .into_any()
        },
    )
}

/// By these the rows are told apart. The same twice is one thing to the baker.
fn keys<'a>(presses: impl Iterator<Item = &'a Press>) -> Vec<String> {
    let mut keys = Vec::new();
    for key in presses.map(Press::key) {
        if !keys.contains(&key) {
            keys.push(key);
        }
    }
    keys
}

fn row(looks: Looks, press: Press, key: String, take: Callback<String>) -> AnyView {
    let Press {
        says, about, asks, ..
    } = press;
    // What has to be done when its time has come can't be pressed.
    let advice = about.clone().filter(|_| asks.is_empty());
    if let Some(about) = advice {
        return view! { <li>{about}</li> }.into_any();
    }
    let id = crate::widgets::fresh_id("way");
    let of = about.is_some().then(|| id.clone());
    let about = about.map(|about| view! { <p id=id>{about}</p> });
    let own = key.clone();
    let is_gone = move || {
        let is_own = looks.gone.read().as_deref() == Some(own.as_str());
        let said = is_own.then(|| view! { <span>{words::NO_LONGER}</span> });
        said.into_any()
    };
    view! {
        <li>
            {about}
            <button
                class="button"
                type="button"
                aria-describedby=of
                on:click=move |_| take.run(key.clone())
            >
                {says}
            </button>
            <p class="field-error" role="alert">
                {live::part(is_gone)}
            </p>
        </li>
    }
    .into_any()
}
