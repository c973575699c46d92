//! The kitchen: temperatures, equipment, the alarm, the data, and what to beware of.

mod data;
mod equipment;
mod temperatures;

use leptos::prelude::*;
use platform::device::Device;
use platform::store::Settings;

use crate::reactive::Memo;
use crate::route::Route;
use crate::state::{Oventide, oventide};
use crate::widgets::live::{self, Rows};
use crate::widgets::phone::{PhoneLines, TestAlarm};
use crate::widgets::stepper::Stepper;
use crate::widgets::toggle::Toggle;
use crate::words;
use data::Data;
use equipment::Equipment;
use temperatures::Temperatures;

/// The kitchen and everything that is set once.
#[component]
pub(crate) fn KitchenPage() -> impl IntoView {
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{words::way(&Route::Kitchen)}</h1>
        </header>
        <Temperatures />
        <Equipment />
        <Alarm />
        <Data />
        <Install />
        <Safety />
        <About />
    }
}

/// Changes the settings and keeps them; running bakes learn what it does to them.
fn change(app: Oventide, edit: impl Fn(&mut Settings) + 'static) {
    app.change_kitchen(Box::new(edit));
}

#[component]
fn Alarm() -> impl IntoView {
    let app = oventide();
    let alarm = Memo::new(move |_| app.settings.read().alarm);
    let percent = move || (alarm.read().volume * 100.0).round();
    view! {
        <section class="section" aria-labelledby="alarm-settings">
            <h2 id="alarm-settings">{words::ALARM}</h2>
            // Never silent: an alarm that can't be heard is worse than none.
            <Stepper
                label=words::VOLUME
                value=Signal::derive(percent)
                text=live::text(move || words::volume(alarm.read().volume))
                step=10.0
                min=10.0
                max=100.0
                on_change=move |percent: f64| change(app, move |to| to.alarm.volume = percent / 100.0)
            />
            <Toggle
                label=words::VIBRATES
                on=Signal::derive(move || alarm.read().vibrates)
                on_change=move |on| change(app, move |to| to.alarm.vibrates = on)
            />
            <Toggle
                label=words::FLASHES
                on=Signal::derive(move || alarm.read().flashes)
                on_change=move |on| change(app, move |to| to.alarm.flashes = on)
            />
            <TestAlarm />
            <PhoneLines />
        </section>
    }
}

#[component]
fn Install() -> impl IntoView {
    let device = Device::detect();
    (!device.standalone).then(|| {
        view! {
            <section class="section" aria-labelledby="install">
                <h2 id="install">{words::INSTALL}</h2>
                <p>{words::install(device.ios)}</p>
            </section>
        }
    })
}

#[component]
fn Safety() -> impl IntoView {
    let lines = words::SAFETY_LINES.map(|line| view! { <li class="caution">{line}</li> });
    view! {
        <section class="section" aria-labelledby="safety">
            <h2 id="safety">{words::SAFETY}</h2>
            <ul class="cautions">{lines.rows()}</ul>
        </section>
    }
}

#[component]
fn About() -> impl IntoView {
    let lines = words::ABOUT_LINES.map(|line| view! { <p>{line}</p> });
    view! {
        <section class="section" aria-labelledby="about">
            <h2 id="about">{words::ABOUT}</h2>
            {lines.rows()}
            <p>{words::version()}</p>
        </section>
    }
}
