//! How much of a formula is made, in what form, with which yeast, and with whole eggs.

mod eggs;
mod ways;

use domain::decimal::plain;
use domain::formula::{Formula, ScaleError};
use domain::thermal::oven::BakeForm;
use domain::yeast::kinds::YeastKind;
use leptos::prelude::*;

use crate::reactive::{Memo, RwSignal};
use crate::state::oventide;
use crate::widgets::choices::Choices;
use crate::widgets::live::{self, Rows};
use crate::widgets::stepper::Stepper;
use crate::words;
use eggs::{Taken, WholeEggs, with_whole};
use ways::{WAYS, Way, Wishes, asked};

/// The forms of one piece, in the order of [`words::FORMS_ALONE`].
const ALONE: [BakeForm; 4] = [
    BakeForm::Round,
    BakeForm::Long,
    BakeForm::Ring,
    BakeForm::Tin,
];

/// As much yeast as the formula has.
pub(super) const OWN_YEAST: f64 = 1.0;

/// A formula with what the baker wants of it.
#[derive(Clone, Copy)]
pub(super) struct Fitting {
    wishes: Wishes,
    /// The whole eggs that were taken in the place of what was reckoned.
    eggs: RwSignal<Vec<Taken>>,
    form: RwSignal<BakeForm>,
    /// The kind of the yeast; nothing where there is none.
    kind: RwSignal<Option<YeastKind>>,
    refused: Memo<Option<ScaleError>>,
    /// What comes of it with the formula's own dose of yeast; while the wish can't be met, what
    /// came of the last that could.
    pub(super) own: Memo<Formula>,
    /// How many times the formula's own yeast goes in today.
    pub(super) yeast: RwSignal<f64>,
    /// What comes of it all.
    pub(super) fitted: Memo<Formula>,
}

impl Fitting {
    pub(super) fn of(formula: Formula) -> Self {
        let wishes = Wishes::of(&formula);
        let eggs = RwSignal::new(Vec::new());
        let form = RwSignal::new(formula.pieces.form);
        let kind = RwSignal::new(formula.yeast_kind());
        let formula = StoredValue::new(formula);
        let scaled = Memo::new(move |_| {
            formula.with_value(|formula| {
                let formula = match kind.get() {
                    Some(kind) => &formula.with_yeast_kind(kind),
                    None => formula,
                };
                let fitted = wishes.fitted(&formula.in_form(form.get()))?;
                Ok(with_whole(fitted, &eggs.read()))
            })
        });
        let own = Memo::new(move |last: Option<&Formula>| match scaled.get() {
            Ok(fitted) => fitted,
            Err(_) => last.cloned().unwrap_or_else(|| formula.get_value()),
        });
        let app = oventide();
        let yeast = RwSignal::new(OWN_YEAST);
        let fitted = Memo::new(move |_| match yeast.get() {
            OWN_YEAST => own.get(),
            times => {
                let scales = app.settings.read().kitchen.scales;
                own.read().with_yeast(times, Some(&scales))
            }
        });
        Self {
            wishes,
            eggs,
            form,
            kind,
            refused: Memo::new(move |_| scaled.get().err()),
            own,
            yeast,
            fitted,
        }
    }

    /// Whether what is shown is what the baker wants.
    pub(super) fn can_start(self) -> bool {
        self.refused.read().is_none()
    }

    /// Changes what it is reckoned from, and keeps what it has come to.
    fn turn_to(self, way: Way) {
        // Pieces that yeast made a little lighter aren't wished lighter.
        self.wishes.take(&self.own.read_untracked());
        self.wishes.way.set(way);
    }
}

/// How much is made.
#[component]
pub(super) fn Fit(fitting: Fitting) -> impl IntoView {
    let Fitting {
        wishes: Wishes { way, count, .. },
        form,
        kind,
        ..
    } = fitting;
    let options = words::FIT_WAYS.map(str::to_owned).to_vec();
    let chosen = move || WAYS.iter().position(|&known| known == way.get());
    let plural = move || words::number_of(&fitting.fitted.read().pieces.plural);
    // Tins say themselves how many pieces there are.
    let number = move || {
        view! {
            <Stepper
                label=live::text(plural)
                value=count
                text=live::text(move || plain(count.get(), 0))
                step=1.0
                min=1.0
                max=200.0
                on_change=move |pieces: f64| count.set(pieces.round())
            />
        }
        .into_any()
    };
    // What is chosen is always among them.
    let alone = Memo::new(move |_| count.get() == 1.0 && form.get() != BakeForm::Touching);
    let forms = move || {
        let (said, forms): (&[&str], &'static [BakeForm]) = if alone.get() {
            (&words::FORMS_ALONE, &ALONE)
        } else {
            (&words::FORMS, &BakeForm::ALL)
        };
        view! {
            <Choices
                legend=words::FORM
                options=said.iter().map(|form| (*form).to_owned()).collect()
                chosen=Signal::derive(move || forms.iter().position(|&known| known == form.get()))
                on_choose=move |place: usize| form.set(forms[place])
            />
        }
        .into_any()
    };
    let error = move || {
        let error = fitting.refused.get();
        let error = error.map(|error| view! { <span>{words::scale_error(&error)}</span> });
        error.into_any()
    };
    let note = move || {
        kind.get()
            .map(|kind| words::YEAST_NOTES[kind as usize].to_owned())
    };
    let kinds = kind.get_untracked().map(|_| {
        view! {
            <Choices
                legend=words::YEAST
                options=words::YEASTS.map(str::to_owned).to_vec()
                chosen=Signal::derive(move || kind.get().map(|kind| kind as usize))
                on_choose=move |place: usize| kind.set(Some(YeastKind::ALL[place]))
            />
            <p class="soft">{live::text(move || note().unwrap_or_default())}</p>
        }
    });
    let unusual = move || {
        let readings = domain::formula::usual::readings(&fitting.fitted.read());
        readings
            .iter()
            .filter(|reading| !reading.is_usual())
            .map(|reading| view! { <p class="field-error">{words::unusual(reading)}</p> })
            .rows()
    };
    let holds = move || {
        let lines = words::holds(&fitting.fitted.read()).into_iter();
        lines.map(|line| view! { <li>{line}</li> }).rows()
    };
    view! {
        <section class="section" aria-labelledby="fit">
            <h2 id="fit">{words::FIT}</h2>
            <Choices
                legend=words::FIT_BY
                options=options
                chosen=Signal::derive(chosen)
                on_choose=move |place: usize| {
                    if let Some(&way) = WAYS.get(place) {
                        fitting.turn_to(way);
                    }
                }
            />
            {live::when(move || way.get() != Way::Tins, number)}
            {live::part(move || asked(fitting))}
            {live::part(forms)}
            {kinds}
            <p class="field-error" role="alert">
                {live::part(error)}
            </p>
            <WholeEggs fitting=fitting />
            <p role="status">{live::text(move || words::fitted(&fitting.fitted.read()))}</p>
            <details>
                <summary>
                    {live::text(move || words::hydration(&fitting.fitted.read()))}
                </summary>
                <ul class="lines">{live::part(holds)}</ul>
            </details>
            {live::part(unusual)}
        </section>
    }
}
