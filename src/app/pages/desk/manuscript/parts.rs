//! The parts with their ingredients.

use domain::formula::manuscript::{At, Component, Edit, Ingredient};
use domain::formula::{ComponentId, ComponentKind};
use leptos::prelude::*;

use super::{Desk, Opened};
use crate::reactive::{Memo, RwSignal};
use crate::widgets::choices::Choices;
use crate::widgets::fresh_id;
use crate::widgets::live::{self, Rows};
use crate::widgets::sheet::Sheet;
use crate::widgets::text_field::TextField;
use crate::words;

/// What a part can be, in the order of [`words::PART_KINDS`].
const KINDS: [ComponentKind; 6] = [
    ComponentKind::Preferment,
    ComponentKind::Dough,
    ComponentKind::Filling,
    ComponentKind::Wash,
    ComponentKind::Glaze,
    ComponentKind::Coating,
];

/// All parts.
#[component]
pub(super) fn Parts(desk: Desk) -> impl IntoView {
    let chosen = RwSignal::new(None::<ComponentId>);
    let parts = move || {
        let written = desk.written.read();
        let parts = written
            .components
            .iter()
            .map(|component| part(desk, component, chosen));
        parts.rows()
    };
    let add = move |_| desk.edit(&Edit::AddComponent(ComponentKind::Filling, String::new()));
    view! {
        <section class="section" aria-labelledby="parts">
            <h2 id="parts">{words::PARTS}</h2>
            <p class="soft">{words::PARTS_NOTE}</p>
            {live::part(parts)}
            <button class="button" type="button" on:click=add>
                {words::ADD_PART}
            </button>
        </section>
        <PartSheet desk=desk chosen=chosen />
    }
}

fn part(
    desk: Desk,
    component: &Component,
    chosen: RwSignal<Option<ComponentId>>,
) -> impl IntoView + use<> {
    let id = component.id;
    let rows = component.ingredients.iter().enumerate();
    let rows = rows.map(|(place, part)| {
        let at = At {
            component: id,
            place,
        };
        row(desk, at, part)
    });
    let field = fresh_id("add");
    let typed = RwSignal::new(String::new());
    let add = move || {
        let line = typed.get_untracked();
        if !line.trim().is_empty() {
            super::ingredient::add(desk, id, &line);
            typed.set(String::new());
        }
    };
    view! {
        <div class="card">
            <div class="row">
                <h3>{words::part_heading(component)}</h3>
                <button class="button" type="button" on:click=move |_| chosen.set(Some(id))>
                    {words::CHANGE_PART}
                </button>
            </div>
            <ul class="lines">{rows.rows()}</ul>
            <div class="field">
                <label for=field.clone()>{words::ADD_INGREDIENT}</label>
                <div class="row">
                    <input
                        id=field
                        class="text-line"
                        autocomplete="off"
                        enterkeyhint="done"
                        placeholder=words::ADD_INGREDIENT_EXAMPLE
                        prop:value=live::text(move || typed.get())
                        on:input=move |event| typed.set(event_target_value(&event))
                        on:change=move |_| add()
                    />
                    <button class="button" type="button" on:click=move |_| add()>
                        {words::ADD}
                    </button>
                </div>
            </div>
        </div>
    }
}

fn row(desk: Desk, at: At, part: &Ingredient) -> impl IntoView + use<> {
    let percent = desk.written.read().percent(at);
    view! {
        <li>
            <button
                class="line-button"
                type="button"
                on:click=move |_| desk.open(Opened::Ingredient(at))
            >
                <span>{words::ingredient_line(part)}</span>
                <span class="digits soft">{percent.map(words::of_flour)}</span>
            </button>
        </li>
    }
}

/// One part: its name, what it is, its place, away with it.
#[component]
fn PartSheet(desk: Desk, chosen: RwSignal<Option<ComponentId>>) -> impl IntoView {
    let open = RwSignal::new(false);
    crate::reactive::effect(move || open.set(chosen.get().is_some()));
    crate::reactive::effect(move || {
        if !open.get() && chosen.get_untracked().is_some() {
            chosen.set(None);
        }
    });
    let body = move || {
        let Some(id) = chosen.get() else {
            return ().into_any();
        };
        let name = Memo::new(move |_| {
            let written = desk.written.read();
            written
                .component(id)
                .map_or(String::new(), |one| one.name.clone())
        });
        let kind = move || {
            let written = desk.written.read();
            let kind = written.component(id).map(|one| one.kind);
            kind.and_then(|kind| KINDS.iter().position(|&known| known == kind))
        };
        let moved = move |by: isize| {
            let place = desk.now().components.iter().position(|one| one.id == id);
            if let Some(to) = place.and_then(|place| place.checked_add_signed(by)) {
                desk.edit(&Edit::MoveComponent(id, to));
            }
        };
        view! {
            <TextField
                label=words::PART_NAME
                kept=name
                on_change=move |name: String| desk.edit(&Edit::RenameComponent(id, name))
            />
            <Choices
                legend=words::PART_KIND
                options=words::PART_KINDS.map(str::to_owned).to_vec()
                chosen=Signal::derive(kind)
                on_choose=move |place: usize| desk.edit(&Edit::ComponentKind(id, KINDS[place]))
            />
            <div class="row">
                <button class="button" type="button" on:click=move |_| moved(-1)>
                    {words::MOVE_UP}
                </button>
                <button class="button" type="button" on:click=move |_| moved(1)>
                    {words::MOVE_DOWN}
                </button>
                <button
                    class="button button-danger"
                    type="button"
                    on:click=move |_| {
                        desk.edit(&Edit::RemoveComponent(id));
                        open.set(false);
                    }
                >
                    {words::REMOVE}
                </button>
            </div>
        }
        .into_any()
    };
    view! {
        <Sheet open=open title=words::PART>
            {live::part(body)}
        </Sheet>
    }
}
