//! One ingredient: its name, its amount in grams or of the flour, what food it is, where it waits.

use domain::food::{FoodKind, generic};
use domain::formula::manuscript::{At, Edit, Ingredient};
use domain::formula::{ComponentId, Kept};
use domain::units::{BakersPercent, Grams};
use leptos::prelude::*;

use super::{Desk, Opened};
use crate::reactive::{Memo, RwSignal, effect};
use crate::widgets::choices::Choices;
use crate::widgets::live;
use crate::widgets::sheet::Sheet;
use crate::widgets::stepper::Stepper;
use crate::widgets::text_field::TextField;
use crate::widgets::toggle::Toggle;
use crate::words;

/// Adds what a line says: "2 tbsp butter, soft".
pub(super) fn add(desk: Desk, component: ComponentId, line: &str) {
    for part in reader::typed(line) {
        desk.edit(&Edit::PutIngredient(component, Box::new(part)));
    }
}

/// The sheet of one ingredient.
#[component]
pub(super) fn IngredientSheet(desk: Desk) -> impl IntoView {
    let open = RwSignal::new(false);
    let at = Memo::new(move |_| match desk.opened.get() {
        Some(Opened::Ingredient(at)) => Some(at),
        _ => None,
    });
    effect(move || open.set(at.get().is_some()));
    effect(move || {
        if !open.get() && at.get_untracked().is_some() {
            desk.opened.set(None);
        }
    });
    let body = move || match at.get() {
        Some(at) => view! { <Fields desk=desk at=at /> }.into_any(),
        None => ().into_any(),
    };
    view! {
        <Sheet open=open title=words::INGREDIENT>
            {live::part(body)}
        </Sheet>
    }
}

#[component]
fn Fields(desk: Desk, at: At) -> impl IntoView {
    let part = Memo::new(move |last: Option<&Option<Ingredient>>| {
        let found = desk.written.read().ingredient(at).cloned();
        found.or_else(|| last.cloned().flatten())
    });
    let of = move |pick: fn(&Ingredient) -> String| {
        Memo::new(move |_| part.read().as_ref().map(pick).unwrap_or_default())
    };
    let is = move |pick: fn(&Ingredient) -> bool| {
        Signal::derive(move || part.read().as_ref().is_some_and(pick))
    };
    let mass_g = move || {
        part.read()
            .as_ref()
            .and_then(|part| part.mass)
            .map(Grams::get)
    };
    let percent = move || desk.written.read().percent(at).map(BakersPercent::get);
    let basis = move || {
        part.read()
            .as_ref()
            .map(words::basis_of)
            .unwrap_or_default()
    };
    let shown_mass = live::text(move || mass_g().map(words::grams_typed).unwrap_or_default());
    let shown_percent = live::text(move || percent().map(words::percent_typed).unwrap_or_default());
    let step = move || match mass_g().unwrap_or(100.0) {
        small if small < 20.0 => 1.0,
        _ => 5.0,
    };
    view! {
        <TextField
            label=words::INGREDIENT_NAME
            kept=of(|part| part.name.clone())
            on_change=move |name: String| desk.edit(&Edit::RenameIngredient(at, name))
        />
        <Stepper
            label=words::INGREDIENT_MASS
            value=Signal::derive(move || mass_g().unwrap_or(0.0))
            text=shown_mass
            empty=Signal::derive(move || mass_g().is_none())
            step=Signal::derive(step)
            min=0.0
            max=20_000.0
            on_change=move |entered: f64| desk.edit(&Edit::Mass(at, Some(Grams::clamped(entered))))
        />
        <p class="soft">{live::text(basis)}</p>
        <Stepper
            label=words::INGREDIENT_PERCENT
            value=Signal::derive(move || percent().unwrap_or(0.0))
            text=shown_percent
            empty=Signal::derive(move || percent().is_none())
            step=1.0
            min=0.0
            max=1000.0
            on_change=move |entered: f64| desk.edit(&Edit::Percent(at, BakersPercent::clamped(entered)))
        />
        <Food desk=desk at=at part=part />
        <div class="row">
            <Toggle
                label=words::FROM_FRIDGE
                on=is(|part| part.kept == Kept::Fridge)
                on_change=move |on: bool| {
                    let kept = if on { Kept::Fridge } else { Kept::Kitchen };
                    desk.edit(&Edit::Kept(at, kept));
                }
            />
            <Toggle
                label=words::IS_TEMPERED
                on=is(|part| part.tempered)
                on_change=move |on: bool| {
                    desk.edit(&Edit::Tempered(at.component, on.then_some(at.place)));
                }
            />
            <Toggle
                label=words::AS_LIKED
                on=is(|part| part.as_liked)
                on_change=move |on: bool| desk.edit(&Edit::AsLiked(at, on))
            />
        </div>
        <Away desk=desk at=at />
    }
}

/// What food it is: by its name, or by its kind where no table has it.
#[component]
fn Food(desk: Desk, at: At, part: Memo<Option<Ingredient>>) -> impl IntoView {
    const KINDS: [FoodKind; 13] = [
        FoodKind::Flour,
        FoodKind::Water,
        FoodKind::Milk,
        FoodKind::Egg,
        FoodKind::Fat,
        FoodKind::Sugar,
        FoodKind::Salt,
        FoodKind::Yeast,
        FoodKind::Nut,
        FoodKind::Fruit,
        FoodKind::Spice,
        FoodKind::Starch,
        FoodKind::Other,
    ];
    let wanted = Memo::new(move |_| {
        let part = part.read();
        let food = part.as_ref().and_then(|part| part.food);
        food.map_or(String::new(), |food| food.name.to_owned())
    });
    let unknown = RwSignal::new(false);
    let name = move |typed: String| match reader::foods::known(&typed) {
        Some(known) => {
            unknown.set(false);
            desk.edit(&Edit::Food(at, Some(known.food)));
        }
        None => unknown.set(true),
    };
    let chosen = move || {
        let part = part.read();
        let food = part.as_ref()?.food?;
        KINDS.iter().position(|&kind| kind == food.kind)
    };
    let asks =
        move || unknown.get() || part.read().as_ref().is_some_and(|part| part.food.is_none());
    let kinds = move || {
        view! {
            <Choices
                legend=words::WHICH_KIND
                options=words::FOOD_KINDS.map(str::to_owned).to_vec()
                chosen=Signal::derive(chosen)
                on_choose=move |place: usize| {
                    unknown.set(false);
                    desk.edit(&Edit::Food(at, Some(generic(KINDS[place]))));
                }
            />
        }
        .into_any()
    };
    view! {
        <TextField label=words::WHICH_FOOD kept=wanted on_change=name />
        {live::when(asks, kinds)}
    }
}

/// To another place, or away with it.
#[component]
fn Away(desk: Desk, at: At) -> impl IntoView {
    let moved = move |by: isize| {
        if let Some(place) = at.place.checked_add_signed(by) {
            let to = At {
                component: at.component,
                place,
            };
            let last = desk
                .now()
                .component(at.component)
                .map_or(0, |one| one.ingredients.len());
            if place < last {
                desk.edit(&Edit::MoveIngredient(at, to));
                desk.open(Opened::Ingredient(to));
            }
        }
    };
    let remove = move |_| {
        desk.opened.set(None);
        desk.edit(&Edit::RemoveIngredient(at));
    };
    view! {
        <div class="row">
            <button class="button" type="button" on:click=move |_| moved(-1)>
                {words::MOVE_UP}
            </button>
            <button class="button" type="button" on:click=move |_| moved(1)>
                {words::MOVE_DOWN}
            </button>
            <button class="button button-danger" type="button" on:click=remove>
                {words::REMOVE}
            </button>
        </div>
    }
}
