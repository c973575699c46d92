//! Everything else: how to stop, other work, what comes, and what to go back to.

use domain::bake::Intent;
use domain::formula::StepId;
use domain::sorted;
use domain::units::Moment;
use leptos::prelude::*;
use platform::clock::time_of_day;

use super::{Shown, earlier};
use crate::reactive::{Memo, RwSignal};
use crate::widgets::confirm::Confirm;
use crate::widgets::live::{self, Rows};
use crate::widgets::sheet::Sheet;
use crate::words;

/// The sheet behind "More".
#[component]
pub(super) fn Menu(shown: Shown, open: RwSignal<bool>) -> impl IntoView {
    let finish_sure = RwSignal::new(false);
    let abandon_sure = RwSignal::new(false);
    let pause = move |_| {
        let intent = if untrack(|| shown.is_paused()) {
            Intent::Resume
        } else {
            Intent::Pause
        };
        shown.ask(intent);
        open.set(false);
    };
    view! {
        <Sheet open=open title=words::MORE>
            <div class="sheet-actions">
                <button class="button" on:click=pause>
                    {live::text(move || if shown.is_paused() { words::RESUME } else { words::PAUSE })}
                </button>
                <button class="button" on:click=move |_| finish_sure.set(true)>
                    {words::FINISH}
                </button>
                <button class="button button-danger" on:click=move |_| abandon_sure.set(true)>
                    {words::ABANDON}
                </button>
            </div>
            {earlier::of_newest(shown, open)}
            <OtherWork shown=shown open=open />
            <ComingUp shown=shown />
            <Ended shown=shown open=open />
        </Sheet>
        <Confirm
            open=finish_sure
            title=words::FINISH
            text=words::FINISH_SURE
            action=words::FINISH
            on_yes=Callback::new(move |()| {
                open.set(false);
                end(shown, Intent::Finish);
            })
        />
        <AbandonSure shown=shown open=abandon_sure closes=open />
    }
}

/// Asks before all of the bake is given up.
#[component]
pub(super) fn AbandonSure(
    shown: Shown,
    open: RwSignal<bool>,
    /// The sheet that it was asked for on.
    #[prop(optional)]
    closes: Option<RwSignal<bool>>,
) -> impl IntoView {
    view! {
        <Confirm
            open=open
            title=words::ABANDON
            text=words::ABANDON_SURE
            action=words::ABANDON
            danger=true
            on_yes=Callback::new(move |()| {
                if let Some(sheet) = closes {
                    sheet.set(false);
                }
                end(shown, Intent::Abandon);
            })
        />
    }
}

/// Ends the bake that is shown.
fn end(shown: Shown, how: Intent) {
    let bake = shown.view.read_untracked().bake.id.clone();
    shown.app.end_bake(&bake, how);
}

/// Work that hands could take up instead of what is asked.
#[component]
fn OtherWork(shown: Shown, open: RwSignal<bool>) -> impl IntoView {
    let others = Memo::new(move |_| {
        let view = shown.view.read();
        let asked = view.ask.step();
        let formula = &view.bake.state().formula;
        let offers = view.offers.iter().copied();
        let oven = super::wait::oven_to_come(&view);
        let others = offers.chain(oven).filter(|&step| Some(step) != asked);
        others
            .filter_map(|step| Some((step, formula.step(step)?.title.clone())))
            .collect::<Vec<_>>()
    });
    view! {
        {live::when(
            move || !others.read().is_empty(),
            move || {
                view! {
                    <h3>{words::OTHER_WORK}</h3>
                    <StepButtons shown=shown open=open steps=others intent=Intent::Pick />
                }
                    .into_any()
            },
        )}
    }
}

/// Steps that have ended, the newest first.
#[component]
fn Ended(shown: Shown, open: RwSignal<bool>) -> impl IntoView {
    let ended = Memo::new(move |_| {
        shown.with(|state| {
            let steps = state.formula.steps.iter();
            let mut ended: Vec<_> = steps
                .filter_map(|step| {
                    let at = state.progress(step.id).ended?.at;
                    Some((at, step.id, step.title.clone()))
                })
                .collect();
            sorted::by_key(&mut ended, |&(at, ..)| std::cmp::Reverse(at));
            let newest = ended.into_iter().map(|(_, id, title)| (id, title));
            newest.collect::<Vec<_>>()
        })
    });
    view! {
        {live::when(
            move || !ended.read().is_empty(),
            move || {
                view! {
                    <details>
                        <summary>{words::ENDED}</summary>
                        <StepButtons shown=shown open=open steps=ended intent=Intent::GoBack />
                    </details>
                }
                    .into_any()
            },
        )}
    }
}

#[component]
fn StepButtons(
    shown: Shown,
    open: RwSignal<bool>,
    /// The steps with their names.
    steps: Memo<Vec<(StepId, String)>>,
    /// What pressing one asks for.
    intent: fn(StepId) -> Intent,
) -> impl IntoView {
    view! {
        <ul class="marks">
            {live::part(move || {
                steps
                    .get()
                    .into_iter()
                    .map(|(step, title)| {
                        let press = move |_| {
                            shown.ask(intent(step));
                            open.set(false);
                        };
                        view! {
                            <li>
                                <button class="button" on:click=press>
                                    {title}
                                </button>
                            </li>
                        }
                    })
                    .rows()
                    .into_any()
            })}
        </ul>
    }
}

/// The rest of the bake with its likely times.
#[component]
fn ComingUp(shown: Shown) -> impl IntoView {
    let rest = Memo::new(move |_| {
        let view = shown.view.read();
        let formula = &view.bake.state().formula;
        let plan = shown.app.plan.read();
        let planned = plan.as_ref().and_then(|plan| {
            let place = plan.place(&view.bake.id)?;
            plan.timetable.plan.of(place)
        });
        let outline = planned.as_ref().unwrap_or(&view.outline);
        let steps = outline.steps.iter();
        steps
            .filter_map(|planned| {
                let title = &formula.step(planned.step)?.title;
                let mut running = view.running.iter();
                let running = running.find(|running| running.step == planned.step);
                let out = running.and_then(|running| running.out_by);
                let line = words::coming(title, planned.too_late_by, out);
                Some((planned.start, line))
            })
            .collect::<Vec<(Moment, String)>>()
    });
    let table = move || {
        let view = shown.view.read();
        words::table_window(view.table(), view.at)
    };
    view! {
        <h3>{words::COMING_UP}</h3>
        <p class="digits">{live::text(table)}</p>
        <ol class="outline">
            {live::part(move || {
                rest.get()
                    .into_iter()
                    .map(|(start, line)| {
                        view! {
                            <li>
                                <span class="digits">{time_of_day(start)}</span>
                                <span>{line}</span>
                            </li>
                        }
                    })
                    .rows()
                    .into_any()
            })}
        </ol>
    }
}
