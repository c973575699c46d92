//! What is wished of the time: the table, the earliest beginning, and shifting all of it.

use domain::bake::{Bake, Wishes};
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;
use platform::clock;

use super::away::AwaySheet;
use super::day_time::{DayTime, DayTimeFields, passed_alert};
use crate::reactive::{Memo, RwSignal};
use crate::state::plan::told::Told;
use crate::state::plan::{WishEdit, WishedOf};
use crate::state::{Back, Oventide, oventide};
use crate::widgets::choices::Choices;
use crate::widgets::live;
use crate::widgets::presses::Presses;
use crate::widgets::sheet::Sheet;
use crate::widgets::undo::{PutBack, Undo};
use crate::words::plan as words;

/// How much one press shifts everything.
const SHIFT: Minutes = minutes(15.0);

/// What is wished, and what changes it.
#[component]
pub(super) fn WishBar(told: Memo<Option<Told>>) -> impl IntoView {
    let app = oventide();
    let wishes = Memo::new(move |_| app.wishes());
    let away = Memo::new(move |_| app.away());
    let said = live::text(move || words::wished(&wishes.read(), &away.read(), app.beat.get()));
    let (table_open, away_open) = (RwSignal::new(false), RwSignal::new(false));
    let shift = move |by: Minutes| {
        let edit = move |bake: &Bake, wishes: &mut Wishes| match &mut wishes.table {
            Some(table) => *table = *table + by,
            None if bake.state().can_wait() => wishes.not_before = app.begin_later(bake, by),
            None => {}
        };
        app.wish(None, Box::new(edit));
    };
    let shifting = move || {
        view! {
            <button class="button" type="button" on:click=move |_| shift(-SHIFT)>
                {words::EARLIER}
            </button>
            <button class="button" type="button" on:click=move |_| shift(SHIFT)>
                {words::LATER}
            </button>
        }
        .into_any()
    };
    let undo = Memo::new(move |_| app.newest_of_plan(Back::undo));
    let put = Memo::new(move |_| app.newest_of_plan(Back::put));
    let can_shift = move || {
        let wishes = wishes.read();
        let mut wishes = wishes.iter();
        wishes.any(|wished| wished.wishes.table.is_some() || wished.waits)
    };
    view! {
        <section class="section" aria-labelledby="plan-wishes">
            <h2 class="visually-hidden" id="plan-wishes">
                {words::WISHES}
            </h2>
            <p role="status">{said}</p>
            <div class="plan-wishes">
                <button class="button" type="button" on:click=move |_| table_open.set(true)>
                    {words::ON_THE_TABLE_AT}
                </button>
                <button class="button" type="button" on:click=move |_| away_open.set(true)>
                    {words::AWAY_AND_ASLEEP}
                </button>
            </div>
            <div class="plan-wishes">
                {live::when(can_shift, shifting)} <Undo back=undo presses=Presses::new() />
                <PutBack back=put />
            </div>
        </section>
        <Sheet open=table_open title=words::ON_THE_TABLE_AT>
            {table(app, wishes, told, table_open)}
        </Sheet>
        <AwaySheet open=away_open away=away told=told />
    }
}

fn table(
    app: Oventide,
    wishes: Memo<Vec<WishedOf>>,
    told: Memo<Option<Told>>,
    open: RwSignal<bool>,
) -> AnyView {
    let now = clock::now();
    let likely = told.get_untracked().map(|told| told.end.high());
    let bakes = wishes.get_untracked();
    let mut tables = bakes.iter().map(|wished| wished.wishes.table);
    let one = tables.next();
    let is_one = tables.all(|table| Some(table) == one);
    // All of it, or else the bake at that place.
    let whose = RwSignal::new((!is_one).then_some(0));
    let of_whose = {
        let bakes = bakes.clone();
        move || bakes.get(whose.get().unwrap_or(0)).cloned()
    };
    let table_of = move |wished: Option<&WishedOf>| {
        let table = wished.and_then(|wished| wished.wishes.table);
        let offered = || likely.unwrap_or(now).up_to_five();
        DayTime::of(table.unwrap_or_else(offered), now)
    };
    let from_of = move |wished: Option<&WishedOf>| {
        let from = wished.and_then(|wished| wished.wishes.not_before);
        DayTime::of(from.unwrap_or_else(|| now.up_to_five()), now)
    };
    let first = untrack(&of_whose);
    let table = RwSignal::new(table_of(first.as_ref()));
    let from = RwSignal::new(from_of(first.as_ref()));
    let choose = {
        let of_whose = of_whose.clone();
        move |place: usize| {
            whose.set(place.checked_sub(1));
            let wished = untrack(&of_whose);
            table.set(table_of(wished.as_ref()));
            from.set(from_of(wished.as_ref()));
        }
    };
    let choices = (bakes.len() > 1).then(|| {
        let names = bakes.iter().map(|wished| wished.name.clone());
        let all = std::iter::once(words::ALL_OF_IT.to_owned());
        view! {
            <Choices
                legend=words::FOR
                options=all.chain(names).collect()
                chosen=Signal::derive(move || Some(whose.get().map_or(0, |place| place + 1)))
                on_choose=choose
            />
        }
    });
    let passed = RwSignal::new(false);
    let wish = move |edit: WishEdit| {
        let of = whose.get_untracked().and_then(|_| untrack(&of_whose));
        app.wish(of.map(|wished| wished.bake), edit);
        open.set(false);
    };
    let wish = Callback::new(wish);
    let wish_table = move |_| {
        let at = table.get_untracked().moment(now);
        if at <= clock::now() {
            return passed.set(true);
        }
        wish.run(Box::new(move |_, wishes| wishes.table = Some(at)));
    };
    let wish_from = move |at: Option<Moment>| {
        wish.run(Box::new(move |_, wishes| wishes.not_before = at));
    };
    view! {
        {choices}
        <p class="soft">{words::DAYS_AHEAD}</p>
        <DayTimeFields value=table now=now />
        {passed_alert(Signal::derive(move || passed.get()))}
        <div class="sheet-actions">
            <button class="button button-main" type="button" on:click=wish_table>
                {words::WISH_TABLE}
            </button>
            <button
                class="button"
                type="button"
                on:click=move |_| wish.run(Box::new(|_, wishes| wishes.table = None))
            >
                {words::AS_SOON_AS}
            </button>
        </div>
        <details>
            <summary>{words::NOT_BEFORE}</summary>
            <div class="section">
                <DayTimeFields value=from now=now />
                <div class="sheet-actions">
                    <button
                        class="button"
                        type="button"
                        on:click=move |_| wish_from(Some(from.get_untracked().moment(now)))
                    >
                        {words::WISH_NOT_BEFORE}
                    </button>
                    <button class="button" type="button" on:click=move |_| wish_from(None)>
                        {words::ANY_TIME}
                    </button>
                </div>
            </div>
        </details>
    }
    .into_any()
}
