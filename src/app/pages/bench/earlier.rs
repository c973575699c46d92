//! That something was done before it was pressed: hands are floury.

use domain::bake::{Bake, BakeId, Intent, decide};
use domain::formula::{Step, StepId};
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;

use super::Shown;
use crate::reactive::{Memo, RwSignal};
use crate::state::{BakeView, Oventide};
use crate::widgets::live::{self, Rows};
use crate::widgets::stepper::Stepper;
use crate::words;

/// By how much a press mostly comes late, in min.
const BY: [f64; 4] = [5.0, 10.0, 15.0, 25.0];
/// The most that can be typed, in min.
const MOST: f64 = 24.0 * 60.0;
/// For how long it is offered unasked.
const OFFERED: Minutes = minutes(2.0);

/// One press for what was called for well before it was said, until something else is.
pub(super) fn offer(shown: Shown) -> AnyView {
    let newest = Memo::new(move |_| {
        let view = shown.view.read();
        let place = view.bake.newest_press()?;
        let said = view.bake.log().get(place as usize)?.at;
        // There is room for one line, and what is to be done goes before.
        let by_plan = &view.by_plan;
        let leads = by_plan.hands_at.is_some() && by_plan.rests.is_none();
        let is_free = !leads && view.bake.state().to_be_moved(view.at).is_none();
        (is_free && view.at - said < OFFERED).then(|| (view.bake.id.clone(), place))
    });
    live::part(move || {
        let offered = newest.get().and_then(|(_, place)| {
            let view = shown.view.read_untracked();
            let pressed = view.bake.pressed(place)?;
            let called = pressed.called?;
            let step = pressed.event.step();
            let step = step.and_then(|step| view.bake.state().formula.step(step));
            let is_hands = step.is_none_or(Step::is_hands);
            let title = title(&view.bake, place);
            let text = words::earlier_as_called(title, &pressed.event, is_hands, called);
            Some((Intent::Since(place, called), text))
        });
        let button = offered.map(|(intent, text)| {
            view! {
                <button
                    class="button plan-elsewhere"
                    type="button"
                    on:click=move |_| shown.ask(intent.clone())
                >
                    {text}
                </button>
            }
        });
        button.into_any()
    })
}

fn title(bake: &Bake, place: u32) -> &str {
    let entry = bake.log().get(place as usize);
    let step = entry.and_then(|entry| entry.event.step());
    step.map_or("", |step| bake.state().formula.title(step))
}

/// What can be said of when some things of a bake happened: a drawer each.
pub(super) fn drawers(bake: &Bake, places: &[u32], ask: Callback<Intent>) -> AnyView {
    let drawers = places.iter().filter_map(|&place| {
        let pressed = bake.pressed(place)?;
        let summary = words::earlier(&pressed.event, title(bake, place), pressed.at);
        let can_be = |by: &Minutes| {
            let since = Intent::Since(place, pressed.at - *by);
            decide(bake, since, bake.state().newest).is_ok()
        };
        let by = BY.into_iter().map(minutes).filter(can_be).collect();
        Some(drawer(
            place,
            summary,
            (pressed.at, pressed.called),
            by,
            ask,
        ))
    });
    drawers.rows()
}

fn drawer(
    place: u32,
    summary: String,
    (at, called): (Moment, Option<Moment>),
    by: Vec<Minutes>,
    ask: Callback<Intent>,
) -> AnyView {
    let button = move |text: Signal<String>, to: Callback<(), Moment>| {
        view! {
            <button
                class="button"
                type="button"
                on:click=move |_| ask.run(Intent::Since(place, to.run(())))
            >
                {text}
            </button>
        }
        .into_any()
    };
    let fixed = move |text: String, to: Moment| {
        button(
            live::text(move || text.clone()),
            Callback::new(move |()| to),
        )
    };
    let as_called = called.map(|called| fixed(words::at_call(called), called));
    let earlier = by
        .into_iter()
        .map(|by| fixed(words::earlier_by(by, at - by), at - by));
    let entered = RwSignal::new(30.0);
    let to = move || at - minutes(entered.get());
    view! {
        <details>
            <summary>{summary}</summary>
            <div class="sheet-actions">{as_called.into_iter().chain(earlier).rows()}</div>
            <Stepper
                label=live::text(|| words::MINUTES_BEFORE)
                value=entered
                text=live::text(move || words::whole_minutes(entered.get()))
                step=Signal::derive(|| 5.0)
                min=Signal::derive(|| 1.0)
                max=Signal::derive(|| MOST)
                on_change=Callback::new(move |value| entered.set(value))
            />
            <div class="sheet-actions">
                {button(
                    live::text(move || words::capital(&words::at(to()))),
                    Callback::new(move |()| untrack(to)),
                )}
            </div>
        </details>
    }
    .into_any()
}

/// The same of what began a step that goes on, and of what was said of it since.
pub(super) fn of_step(
    app: Oventide,
    of: RwSignal<Option<(BakeId, StepId)>>,
    ask: Callback<Intent>,
) -> AnyView {
    let places = Memo::new(move |_| {
        let of = of.get();
        let places = of.and_then(|(bake, step)| Some(app.view(&bake)?.bake.presses_of(step)));
        places.unwrap_or_default()
    });
    live::part(move || {
        let places = places.get();
        let view = of
            .get_untracked()
            .and_then(|(bake, _)| untrack(|| app.view(&bake)));
        view.map_or_else(|| ().into_any(), |view| drawers(&view.bake, &places, ask))
    })
}

/// The same of what was said last, whatever that was.
pub(super) fn of_newest(shown: Shown, open: RwSignal<bool>) -> AnyView {
    let ask = Callback::new(move |intent| {
        open.set(false);
        shown.ask(intent);
    });
    of_one(shown, |view| view.bake.newest_press(), ask)
}

/// The same of what was pressed so late that food counts as lost by it.
pub(super) fn of_lost(shown: Shown) -> AnyView {
    let place = |view: &BakeView| {
        let lost = view.has_lost();
        lost.then(|| view.bake.press_that_lost(view.at)).flatten()
    };
    of_one(shown, place, Callback::new(move |intent| shown.ask(intent)))
}

fn of_one(shown: Shown, place: fn(&BakeView) -> Option<u32>, ask: Callback<Intent>) -> AnyView {
    // With its moment, for that is another once something was told of it.
    let pressed = Memo::new(move |_| {
        let view = shown.view.read();
        let place = place(&view)?;
        Some((place, view.bake.pressed(place)?.at))
    });
    live::part(move || {
        let places: Vec<u32> = pressed.get().into_iter().map(|(place, _)| place).collect();
        drawers(&shown.view.read_untracked().bake, &places, ask)
    })
}
