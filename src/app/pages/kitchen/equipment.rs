//! What the baker works with: hands or machine, oven, scales, and the height they stand at.

use domain::kitchen::{FURTHEST_OVEN, FineScales, Kitchen, OvenKind, Scales};
use domain::thermal::kneading::KneadingMethod;
use domain::units::{CelsiusDelta, Grams, Metres, Minutes, grams};
use leptos::prelude::*;
use platform::store::Degrees;

use super::change;
use crate::reactive::Memo;
use crate::state::{Oventide, oventide};
use crate::widgets::choices::Choices;
use crate::widgets::stepper::Stepper;
use crate::widgets::{answer, live};
use crate::words;

const OVENS: [OvenKind; 3] = [OvenKind::Conventional, OvenKind::Fan, OvenKind::Gas];
/// What kitchen scales show.
const SCALE_STEPS: [Grams; 4] = [grams(0.1), grams(1.0), grams(2.0), grams(5.0)];
/// What small scales show.
const FINE_STEPS: [Grams; 2] = [grams(0.01), grams(0.1)];
/// ASSUMPTION: small scales are used for what is lighter than this, until the baker says otherwise.
const FINE_UP_TO: Grams = grams(50.0);

/// What the baker works with.
#[component]
pub(super) fn Equipment() -> impl IntoView {
    let app = oventide();
    let kitchen = Memo::new(move |_| app.settings.read().kitchen);
    let minutes = move || kitchen.read().oven_heats_in.get();
    let degrees = move || app.settings.read().degrees;
    let height = move || kitchen.read().altitude;
    let boils = move || words::boils_at(height(), degrees());
    // Who bakes in °F measures a height in feet: so many in a metre, and at a press.
    let unit = move || match degrees() {
        Degrees::Celsius => (1.0, 50.0),
        Degrees::Fahrenheit => (1.0 / 0.3048, 100.0),
    };
    let in_unit = move |height: Metres| height.get() * unit().0;
    // Said among the temperatures as well, which are out of sight from here.
    let told = move || {
        let answer = app.answer.read();
        let here = answer.as_ref().filter(|answer| answer.is_of_equipment());
        answer::told(here, app.settings.read().degrees)
    };
    view! {
        <section class="section" aria-labelledby="equipment">
            <h2 id="equipment">{words::EQUIPMENT}</h2>
            <Kinds app=app kitchen=kitchen />
            <Stepper
                label=words::OVEN_HEATS
                value=Signal::derive(minutes)
                text=live::text(move || words::whole_minutes(minutes()))
                step=5.0
                min=0.0
                max=240.0
                on_change=move |entered: f64| {
                    change(app, move |to| to.kitchen.oven_heats_in = Minutes::clamped(entered));
                }
            />
            <OvenOff app=app kitchen=kitchen />
            {live::part(told)}
            <ScalesOf app=app kitchen=kitchen />
            <Stepper
                label=words::ALTITUDE
                value=Signal::derive(move || in_unit(height()))
                text=live::text(move || words::altitude(in_unit(height()), degrees()))
                step=Signal::derive(move || unit().1)
                min=Signal::derive(move || in_unit(Metres::MIN))
                max=Signal::derive(move || in_unit(Metres::MAX))
                on_change=move |entered: f64| {
                    let height = Metres::clamped(entered / unit().0);
                    change(app, move |to| to.kitchen.altitude = height);
                }
            />
            <p class="soft">{live::text(boils)}</p>
        </section>
    }
}

/// How the dough is kneaded and how the oven heats.
#[component]
fn Kinds(app: Oventide, kitchen: Memo<Kitchen>) -> impl IntoView {
    let kneading = move || {
        let kneading = kitchen.read().kneading;
        KneadingMethod::ALL
            .iter()
            .position(|&known| known == kneading)
    };
    let oven = move || {
        let oven = kitchen.read().oven;
        OVENS.iter().position(|&known| known == oven)
    };
    let named = |name: &'static str| name.to_owned();
    view! {
        <Choices
            legend=words::KNEADING
            options=KneadingMethod::ALL.map(words::kneading).map(named).to_vec()
            chosen=Signal::derive(kneading)
            on_choose=move |place: usize| {
                if let Some(&kneading) = KneadingMethod::ALL.get(place) {
                    change(app, move |to| to.kitchen.kneading = kneading);
                }
            }
        />
        <Choices
            legend=words::OVEN
            options=OVENS.map(words::oven_kind).map(named).to_vec()
            chosen=Signal::derive(oven)
            on_choose=move |place: usize| {
                if let Some(&oven) = OVENS.get(place) {
                    change(app, move |to| to.kitchen.oven = oven);
                }
            }
        />
    }
}

/// How far the oven is from what its dial says.
#[component]
fn OvenOff(app: Oventide, kitchen: Memo<Kitchen>) -> impl IntoView {
    let degrees = move || app.settings.read().degrees;
    let off = move || kitchen.read().oven_off;
    // Degrees of the baker's own in a kelvin.
    let per_kelvin = move || match degrees() {
        Degrees::Celsius => 1.0,
        Degrees::Fahrenheit => 1.8,
    };
    let shown = move |off: CelsiusDelta| off.get() * per_kelvin();
    let furthest = move || shown(FURTHEST_OVEN);
    view! {
        <Stepper
            label=words::OVEN_OFF
            value=Signal::derive(move || off().map_or(0.0, shown))
            text=live::text(move || {
                off().map_or_else(String::new, |off| words::oven_off(off, degrees()))
            })
            empty=Signal::derive(move || off().is_none())
            step=5.0
            min=Signal::derive(move || -furthest())
            max=Signal::derive(furthest)
            on_change=move |entered: f64| {
                let off = CelsiusDelta::clamped(entered / per_kelvin());
                change(app, move |to| to.kitchen.oven_off = Some(off));
            }
        />
        <p class="soft">{live::text(move || words::oven_off_note(off(), degrees()))}</p>
    }
}

/// What the baker weighs with.
#[component]
fn ScalesOf(app: Oventide, kitchen: Memo<Kitchen>) -> impl IntoView {
    let scales = Memo::new(move |_| kitchen.read().scales);
    let change_scales =
        move |edit: Box<dyn Fn(&mut Scales)>| change(app, move |to| edit(&mut to.kitchen.scales));
    let step = move || {
        let step = scales.read().step;
        SCALE_STEPS.iter().position(|&known| known == step)
    };
    // In the order of the options: none, then each step.
    let fine = move || match scales.read().fine {
        None => Some(0),
        Some(fine) => {
            let known = FINE_STEPS.iter().position(|&known| known == fine.step);
            known.map(|place| place + 1)
        }
    };
    let fine_options = std::iter::once(words::NO_FINE_SCALES.to_owned())
        .chain(FINE_STEPS.map(words::scale_step))
        .collect();
    let up_to = move || {
        scales
            .read()
            .fine
            .map_or(FINE_UP_TO, |fine| fine.up_to)
            .get()
    };
    let up_to_stepper = move || {
        view! {
            <Stepper
                label=words::FINE_UP_TO
                value=Signal::derive(up_to)
                text=live::text(move || words::whole_grams(up_to()))
                step=10.0
                min=1.0
                max=500.0
                on_change=move |entered: f64| {
                    change_scales(
                        Box::new(move |scales| {
                            if let Some(fine) = &mut scales.fine {
                                fine.up_to = Grams::clamped(entered);
                            }
                        }),
                    );
                }
            />
        }
        .into_any()
    };
    view! {
        <Choices
            legend=words::SCALES
            options=SCALE_STEPS.map(words::scale_step).to_vec()
            chosen=Signal::derive(step)
            on_choose=move |place: usize| {
                if let Some(&step) = SCALE_STEPS.get(place) {
                    change_scales(Box::new(move |scales| scales.step = step));
                }
            }
        />
        <Choices
            legend=words::FINE_SCALES
            options=fine_options
            chosen=Signal::derive(fine)
            on_choose=move |place: usize| {
                let step = place.checked_sub(1).and_then(|place| FINE_STEPS.get(place));
                change_scales(
                    Box::new(move |scales| {
                        let up_to = scales.fine.map_or(FINE_UP_TO, |fine| fine.up_to);
                        scales.fine = step.map(|&step| FineScales { step, up_to });
                    }),
                );
            }
        />
        {live::when(move || scales.read().fine.is_some(), up_to_stepper)}
    }
}
