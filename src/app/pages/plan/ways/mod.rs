//! What to do when a wish can't be kept, or what would make a kept one easier.
//!
//! It takes dozens of plans, each of which holds a phone up for some hundredths of a second. So
//! they are made one at a time with turns of the page between them, only while this is shown, and
//! what was found stays for as long as it is about true. When it isn't, it is looked for again
//! beside it and takes its place all at once, but never while a finger may be on a button. Whatever
//! is pressed is checked against the plan of that moment, so that nothing is asked for that was
//! true only when it was found.

mod again;
mod list;
mod search;

use domain::bake::{Bake, BakeId, Intent};
use domain::schedule::plan::{Margin, Nearest, Way};
use domain::units::Moment;
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::reactive::{Memo, RwSignal, effect};
use crate::state::{Oventide, oventide};
use crate::widgets::live;
use crate::widgets::presses::Presses;
use crate::words::plan::ways as words;
use again::{Look, Looks};
use list::presses_of;

/// What something that can be pressed was found as.
#[derive(Clone, PartialEq)]
enum Offer {
    Instead(Nearest),
    Way(Box<Way>),
}

/// Something that can be pressed, with what it asks for.
#[derive(Clone, PartialEq)]
struct Press {
    says: String,
    /// What it is about, where its own words don't say so.
    about: Option<String>,
    offer: Offer,
    asks: Vec<(BakeId, Intent)>,
}

impl Press {
    /// What tells it from others: rows stay as long as their words do, so that the focus does.
    fn key(&self) -> String {
        let bake = self.asks.first().map_or("", |(bake, _)| &bake.0);
        let about = self.about.as_deref().unwrap_or("");
        [bake, about, &self.says].join("/")
    }
}

/// What was found so far.
#[derive(Clone, PartialEq, Default)]
struct Found {
    contradiction: Option<String>,
    instead: Vec<Press>,
    ways: Vec<Press>,
    is_done: bool,
    /// Whether the search for ways ended before all were tried.
    gave_up: bool,
    /// For which moment, and of what.
    at: Option<Moment>,
    of: Vec<Bake>,
}

impl Found {
    fn press(&self, key: &str) -> Option<&Press> {
        let mut all = self.instead.iter().chain(&self.ways);
        all.find(|press| press.key() == key)
    }
}

/// The contradiction in what is wished, and the ways out of it.
#[component]
pub(crate) fn WaysOut() -> impl IntoView {
    let app = oventide();
    let looks = Looks::new(app);
    let found = looks.found;
    let asked = RwSignal::new(false);
    let is_amiss = Memo::new(move |_| is_amiss(app));
    effect(move || looks.look(is_amiss.get() || asked.get()));
    let presses = Presses::new();
    let ask = move |_| {
        if presses.is_new() {
            asked.set(true);
        }
    };
    let take = Callback::new(move |key: String| {
        if presses.is_new() && !looks.has_just_changed() {
            take(app, looks, key);
        }
    });
    let says = live::text(move || found.read().as_ref().map_or_else(String::new, says));
    let still = live::text(move || {
        let (found, again) = (found.read(), looks.looks_again.get());
        found
            .as_ref()
            .map_or_else(String::new, |found| still(found, again))
    });
    view! {
        <section
            // On paper nothing of it can be pressed.
            class="section no-print"
            aria-labelledby="ways-out"
            on:pointerdown=move |_| looks.finger(true)
            on:pointerup=move |_| looks.finger(false)
            on:pointercancel=move |_| looks.finger(false)
            on:pointerleave=move |_| looks.finger(false)
        >
            <h2 class="visually-hidden" id="ways-out">
                {words::WAYS_OUT}
            </h2>
            <p role="status">{says}</p>
            {presses_of(looks, take, words::INSTEAD, |found| &found.instead)}
            {presses_of(looks, take, words::OR, |found| &found.ways)}
            <p class="soft">{still}</p>
            {live::when(
                move || !is_amiss.get() && !asked.get(),
                move || {
                    view! {
                        <button class="button" type="button" on:click=ask>
                            {words::WHAT_WOULD_HELP}
                        </button>
                    }
                        .into_any()
                },
            )}
        </section>
    }
}

/// Whether the plan isn't as it is wished.
fn is_amiss(app: Oventide) -> bool {
    let plan = app.plan.read();
    let Some(planned) = &*plan else {
        return app.is_baking();
    };
    let timetable = &planned.timetable;
    let mut items = timetable.plan.items.iter();
    let is_late = timetable.margins.iter().any(Margin::is_late);
    is_late || items.any(|item| item.too_late_by.is_some())
}

/// The contradiction or, where nothing contradicts, what there is to say in the place of ways.
fn says(found: &Found) -> String {
    match &found.contradiction {
        Some(contradiction) => contradiction.clone(),
        None if !found.is_done => words::WORKING_IT_OUT.to_owned(),
        None if !found.ways.is_empty() => String::new(),
        None if found.gave_up => words::GAVE_UP.to_owned(),
        None => words::NOTHING_HELPS.to_owned(),
    }
}

/// That more is looked for below what was found, or when that was found.
fn still(found: &Found, looks_again: bool) -> String {
    match *found {
        Found { is_done: false, .. } if found.contradiction.is_some() => {
            words::WORKING_IT_OUT.to_owned()
        }
        Found {
            is_done: true,
            at: Some(at),
            ..
        } => words::found_at(at, looks_again),
        _ => String::new(),
    }
}

/// Asks for what was pressed, if that would still do what was said of it.
fn take(app: Oventide, looks: Looks, key: String) {
    let found = looks.found.read_untracked();
    let Some(found) = &*found else { return };
    let Some(press) = found.press(&key).cloned() else {
        return;
    };
    looks.gone.set(None);
    let look = Look::of(app);
    if found.at.is_some_and(|at| look.is_as(at, &found.of)) {
        return ask(app, looks, press);
    }
    let before = found.of.clone();
    spawn_local(async move {
        let helps = look.is_of(&before) && search::still(&press.offer, &look).await;
        // What was being checked is no matter any more once the page is left.
        if looks.is_left() {
            return;
        }
        if helps {
            ask(app, looks, press);
        } else {
            looks.gone.set(Some(key));
        }
    });
}

fn ask(app: Oventide, looks: Looks, press: Press) {
    looks.taken();
    if let Offer::Instead(Nearest::Room { holds }) = press.offer {
        return app.change_kitchen(Box::new(move |to| to.kitchen.fridge_holds = holds));
    }
    // What one press asks of a bake is taken back by one undo.
    let (mut asks, mut together) = (press.asks, Vec::new());
    while let Some((bake, _)) = asks.first().cloned() {
        let (same, others): (Vec<_>, Vec<_>) = asks.into_iter().partition(|(of, _)| *of == bake);
        asks = others;
        let mut same: Vec<Intent> = same.into_iter().map(|(_, intent)| intent).collect();
        let one = match same.pop() {
            Some(one) if same.is_empty() => one,
            last => {
                same.extend(last);
                Intent::AtOnce(same)
            }
        };
        together.push((bake, one));
    }
    app.ask_together(together);
}
