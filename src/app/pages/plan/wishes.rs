//! What is wished of the time: the table, the earliest beginning, and shifting all of it.

use domain::bake::{Intent, Wishes};
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;
use platform::clock;

use super::away::AwaySheet;
use super::day_time::{DayTime, DayTimeFields};
use crate::reactive::{Memo, RwSignal};
use crate::state::plan::told::Told;
use crate::state::{Oventide, oventide};
use crate::widgets::live;
use crate::widgets::presses::Presses;
use crate::widgets::sheet::Sheet;
use crate::words::plan as words;

/// How much one press shifts everything.
const SHIFT: Minutes = minutes(15.0);

/// What is wished, and what changes it.
#[component]
pub(super) fn WishBar(told: Memo<Option<Told>>) -> impl IntoView {
    let app = oventide();
    let wishes = Memo::new(move |_| app.wishes());
    let said = live::text(move || words::wished(&wishes.read(), app.beat.get()));
    let (table_open, away_open) = (RwSignal::new(false), RwSignal::new(false));
    let shift = move |by: Minutes| {
        app.wish(Box::new(move |wishes: &mut Wishes| {
            wishes.table = wishes.table.map(|table| table + by);
        }));
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
                {live::when(move || wishes.read().table.is_some(), shifting)} <Undo />
            </div>
        </section>
        <Sheet open=table_open title=words::ON_THE_TABLE_AT>
            {table(app, wishes, told, table_open)}
        </Sheet>
        <AwaySheet open=away_open wishes=wishes told=told />
    }
}

/// Takes back what was asked of the plan last.
#[component]
fn Undo() -> impl IntoView {
    let app = oventide();
    let undoable = Memo::new(move |_| app.undoable_of_plan());
    let presses = Presses::new();
    let undo = move |_| {
        if let Some(bake) = undoable.get_untracked()
            && presses.is_new()
        {
            app.ask(&bake, Intent::Undo);
        }
    };
    // It stays where it is, so that the focus does.
    let idle = live::flag(move || undoable.read().is_none());
    view! {
        <button class="button" type="button" aria-disabled=idle on:click=undo>
            {crate::words::UNDO}
        </button>
    }
}

fn table(
    app: Oventide,
    wishes: Memo<Wishes>,
    told: Memo<Option<Told>>,
    open: RwSignal<bool>,
) -> AnyView {
    let now = clock::now();
    let (wished, likely) = (
        wishes.get_untracked(),
        told.get_untracked().map(|told| told.end.high()),
    );
    let table = wished.table.or(likely).unwrap_or(now);
    let table = RwSignal::new(DayTime::of(table.up_to_five(), now));
    let from = RwSignal::new(DayTime::of(
        wished.not_before.unwrap_or(now).up_to_five(),
        now,
    ));
    let passed = RwSignal::new(false);
    let wish = move |edit: Box<dyn FnOnce(&mut Wishes)>| {
        app.wish(edit);
        open.set(false);
    };
    let wish_table = move |_| {
        let at = table.get_untracked().moment(now);
        if at <= clock::now() {
            return passed.set(true);
        }
        wish(Box::new(move |wishes| wishes.table = Some(at)));
    };
    let wish_from = move |at: Option<Moment>| {
        wish(Box::new(move |wishes| wishes.not_before = at));
    };
    let error = move || {
        let error = passed.get().then(|| view! { <span>{words::PASSED}</span> });
        error.into_any()
    };
    view! {
        <DayTimeFields value=table now=now />
        <p class="field-error" role="alert">
            {live::part(error)}
        </p>
        <div class="sheet-actions">
            <button class="button button-main" type="button" on:click=wish_table>
                {words::WISH_TABLE}
            </button>
            <button
                class="button"
                type="button"
                on:click=move |_| wish(Box::new(|wishes| wishes.table = None))
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
