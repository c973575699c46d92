//! A day of the next few and a time on it.

use domain::units::{Moment, minutes};
use leptos::prelude::*;
use leptos::web_sys::HtmlInputElement;
use platform::clock;

use crate::reactive::RwSignal;
use crate::widgets::choices::Choices;
use crate::widgets::live;
use crate::words::plan as words;

/// So many days can be chosen from.
const DAYS: usize = 4;

/// A day, from 0 for today, and a minute of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct DayTime {
    pub day: usize,
    pub minute: u32,
}

impl DayTime {
    /// Those of a moment; of one that is farther away than can be chosen, the last day.
    pub(super) fn of(moment: Moment, now: Moment) -> Self {
        let same = |&day: &usize| clock::day(clock::days_later(now, day)) == clock::day(moment);
        Self {
            day: (0..DAYS)
                .find(same)
                .unwrap_or(if moment < now { 0 } else { DAYS - 1 }),
            minute: clock::minute_of_day(moment),
        }
    }

    /// The moment they are.
    pub(super) fn moment(self, now: Moment) -> Moment {
        let noon = clock::days_later(now, self.day);
        // Half a day before noon is midnight, or an hour beside it where the clocks are changed.
        clock::next_time_of_day(
            self.minute,
            clock::next_time_of_day(0, noon - minutes(14.0 * 60.0)),
        )
    }
}

/// Fields for the two.
#[component]
pub(super) fn DayTimeFields(
    /// What is chosen.
    value: RwSignal<DayTime>,
    /// The present, from which the days are counted.
    now: Moment,
    /// What the time is.
    #[prop(default = words::TIME)]
    label: &'static str,
) -> impl IntoView {
    let days = (0..DAYS).map(|day| words::day_ahead(day, now));
    view! {
        <Choices
            legend=words::DAY
            options=days.collect()
            chosen=Signal::derive(move || Some(value.get().day))
            on_choose=move |day: usize| value.update(|value| value.day = day)
        />
        <TimeField
            label=label
            minute=Signal::derive(move || value.get().minute)
            on_change=move |minute: u32| value.update(|value| value.minute = minute)
        />
    }
}

/// Says of a time that was chosen that it has passed.
pub(super) fn passed_alert(passed: Signal<bool>) -> AnyView {
    let error = move || {
        let error = passed.get().then(|| view! { <span>{words::PASSED}</span> });
        error.into_any()
    };
    view! {
        <p class="field-error" role="alert">
            {live::part(error)}
        </p>
    }
    .into_any()
}

/// A time of day.
#[component]
pub(super) fn TimeField(
    label: &'static str,
    #[prop(into)] minute: Signal<u32>,
    #[prop(into)] on_change: Callback<u32>,
) -> impl IntoView {
    let take = move |event| {
        let input: HtmlInputElement = event_target(&event);
        // In ms since midnight, and not a number while it is incomplete.
        let minute = input.value_as_number() / 60_000.0;
        if minute.is_finite() {
            on_change.run(minute as u32);
        }
    };
    let field = live::text(move || crate::words::clock_field(minute.get()));
    view! {
        <label class="field">
            <span class="label">{label}</span>
            <input class="digits" type="time" prop:value=field on:change=take />
        </label>
    }
}
