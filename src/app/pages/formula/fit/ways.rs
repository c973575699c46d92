//! From what it can be reckoned how much is made: pieces, dough, flour, baked bread, tins, or what there is of one food.

use domain::formula::{ComponentId, Formula, Lid, ScaleError, Size, Tin, Tins, baking_loss};
use domain::units::{Grams, millimetres};
use leptos::prelude::*;

use super::Fitting;
use crate::reactive::RwSignal;
use crate::widgets::choices::Choices;
use crate::widgets::fresh_id;
use crate::widgets::live::{self, Rows};
use crate::widgets::stepper::Stepper;
use crate::words;

/// From what it is reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Pieces,
    Dough,
    Flour,
    Baked,
    Tins,
    Short,
}

/// The ways, in the order of [`words::FIT_WAYS`].
pub(super) const WAYS: [Way; 6] = [
    Way::Pieces,
    Way::Dough,
    Way::Flour,
    Way::Baked,
    Way::Tins,
    Way::Short,
];

/// What is wished in every way, so that none forgets what was said.
#[derive(Clone, Copy)]
pub(super) struct Wishes {
    pub(super) way: RwSignal<Way>,
    pub(super) count: RwSignal<f64>,
    pub(super) mass_g: RwSignal<f64>,
    pub(super) dough_g: RwSignal<f64>,
    pub(super) flour_g: RwSignal<f64>,
    pub(super) baked_g: RwSignal<f64>,
    tins: RwSignal<f64>,
    each: RwSignal<f64>,
    /// Length, width and height of a tin inside, in cm.
    sides_cm: [RwSignal<f64>; 3],
    lid: RwSignal<bool>,
    /// Which ingredient there is so much of: the component, and the place in it.
    short: RwSignal<(ComponentId, usize)>,
    short_g: RwSignal<f64>,
}

impl Wishes {
    pub(super) fn of(formula: &Formula) -> Self {
        let first = formula.dough().map_or(ComponentId(0), |dough| dough.id);
        let wishes = Self {
            way: RwSignal::new(Way::Pieces),
            count: RwSignal::new(f64::from(formula.pieces.count)),
            mass_g: RwSignal::new(0.0),
            dough_g: RwSignal::new(0.0),
            flour_g: RwSignal::new(0.0),
            baked_g: RwSignal::new(0.0),
            tins: RwSignal::new(1.0),
            each: RwSignal::new(f64::from(formula.pieces.count)),
            // A loaf tin as shops sell it for a kilogram of dough.
            sides_cm: [25.0, 11.0, 8.0].map(RwSignal::new),
            lid: RwSignal::new(false),
            short: RwSignal::new((first, 0)),
            short_g: RwSignal::new(0.0),
        };
        wishes.take(formula);
        wishes
    }

    /// Takes the masses that a formula has come to.
    pub(super) fn take(self, formula: &Formula) {
        self.mass_g.set(formula.pieces.mass.get().round());
        self.dough_g.set(formula.dough_mass().get().round());
        self.flour_g.set(formula.flour_mass().get().round());
        let baked = formula.baked_piece(&baking_loss()).likely();
        self.baked_g.set(baked.get().round());
        self.take_short(formula);
    }

    fn take_short(self, formula: &Formula) {
        let (component, place) = self.short.get_untracked();
        if let Some(needed) = formula.needs(component, place) {
            self.short_g.set(needed.get().round());
        }
    }

    /// A formula made as it is wished; whoever reads is told of changes.
    pub(super) fn fitted(self, formula: &Formula) -> Result<Formula, ScaleError> {
        let count = self.count.get() as u16;
        let pieces = |all_g: f64| Size::Pieces {
            count,
            mass: Grams::clamped(all_g / f64::from(count)),
        };
        // The baker's number of pieces holds, whatever the mass is reckoned from.
        let size = match self.way.get() {
            Way::Pieces => pieces(f64::from(count) * self.mass_g.get()),
            Way::Dough => pieces(self.dough_g.get()),
            Way::Flour => {
                let dough = formula.dough_mass() / formula.flour_mass();
                pieces(self.flour_g.get() * dough)
            }
            Way::Baked => Size::Baked {
                count,
                mass: Grams::clamped(self.baked_g.get()),
                loss: baking_loss(),
            },
            Way::Tins => Size::Tins {
                tins: self.tins(),
                pieces_each: self.each.get() as u16,
                own: None,
            },
            Way::Short => {
                let own = formula.pieces.mass;
                let as_many = formula.scaled(Size::Pieces { count, mass: own })?;
                let (component, place) = self.short.get();
                let mass = Grams::clamped(self.short_g.get());
                return as_many.scaled(Size::Short {
                    component,
                    place,
                    mass,
                });
            }
        };
        formula.scaled(size)
    }

    fn tins(self) -> Tins {
        let [long, wide, high] = self.sides_cm.map(|side| millimetres(side.get() * 10.0));
        let lid = if self.lid.get() { Lid::On } else { Lid::Off };
        let tin = Tin::square([long, wide], [long, wide], high, lid);
        Tins {
            count: self.tins.get() as u16,
            tin: tin.expect("the steppers keep within the sizes of tins"),
        }
    }
}

/// What is asked in the way that was chosen.
pub(super) fn asked(fitting: Fitting) -> AnyView {
    let wishes = fitting.wishes;
    let mass = |label, grams, step, min, max| mass(label, grams, step, min, max);
    match wishes.way.get() {
        Way::Pieces => mass(words::MASS_EACH, wishes.mass_g, 5.0, 10.0, 3000.0),
        Way::Dough => mass(words::DOUGH_MASS, wishes.dough_g, 50.0, 50.0, 15_000.0),
        Way::Flour => mass(words::FLOUR_MASS, wishes.flour_g, 25.0, 25.0, 10_000.0),
        Way::Baked => {
            let field = mass(words::BAKED_EACH, wishes.baked_g, 5.0, 10.0, 3000.0);
            view! {
                {field}
                <p class="soft">{words::baked_note()}</p>
            }
            .into_any()
        }
        Way::Tins => tins(wishes),
        Way::Short => view! { <Short fitting=fitting /> }.into_any(),
    }
}

fn tins(wishes: Wishes) -> AnyView {
    let number = |label: &'static str, value: RwSignal<f64>, max: f64| {
        view! {
            <Stepper
                label=label
                value=value
                text=live::text(move || words::bare_number(value.get()))
                step=1.0
                min=1.0
                max=max
                on_change=move |entered: f64| value.set(entered.round())
            />
        }
    };
    let sides = wishes
        .sides_cm
        .into_iter()
        .zip(words::TIN_SIDES)
        .zip([60.0, 60.0, 30.0]);
    let sides = sides.map(|((side, label), most)| {
        view! {
            <Stepper
                label=label
                value=side
                text=live::text(move || words::centimetres(side.get()))
                step=0.5
                min=2.0
                max=most
                on_change=move |entered: f64| side.set(entered)
            />
        }
    });
    let held = move || words::tin_holds(wishes.tins().tin);
    view! {
        {number(words::TINS, wishes.tins, 20.0)}
        {number(words::PIECES_EACH, wishes.each, 60.0)}
        {sides.rows()}
        <Choices
            legend=words::LID
            options=words::LIDS.map(str::to_owned).to_vec()
            chosen=Signal::derive(move || Some(usize::from(wishes.lid.get())))
            on_choose=move |place: usize| wishes.lid.set(place == 1)
        />
        <p class="soft">{live::text(held)}</p>
    }
    .into_any()
}

/// What there is of one ingredient.
#[component]
fn Short(fitting: Fitting) -> impl IntoView {
    let wishes = fitting.wishes;
    let field = fresh_id("short");
    let own = fitting.own.get_untracked();
    let all: Vec<(ComponentId, usize)> = own
        .components
        .iter()
        .flat_map(|component| (0..component.ingredients.len()).map(|place| (component.id, place)))
        .collect();
    let options = own
        .components
        .iter()
        .flat_map(|component| {
            let named = move |name: &String| words::in_component(name, &component.name);
            component
                .ingredients
                .iter()
                .map(move |part| named(&part.name))
        })
        .enumerate()
        .map(|(place, said)| view! { <option value=place.to_string()>{said}</option> })
        .rows();
    let chosen = {
        let all = all.clone();
        move || {
            let short = wishes.short.get();
            let place = all.iter().position(|known| *known == short);
            place.unwrap_or(0).to_string()
        }
    };
    let choose = move |event| {
        let place = event_target_value(&event).parse::<usize>();
        if let Some(short) = place.ok().and_then(|place| all.get(place)) {
            wishes.short.set(*short);
            wishes.take_short(&fitting.own.read_untracked());
        }
    };
    view! {
        <div class="field">
            <label for=field.clone()>{words::SHORT_OF}</label>
            <select id=field prop:value=live::text(chosen) on:change=choose>
                {options}
            </select>
        </div>
        {mass(words::SHORT_MASS, wishes.short_g, 5.0, 1.0, 10_000.0)}
    }
}

fn mass(label: &'static str, grams: RwSignal<f64>, step: f64, min: f64, max: f64) -> AnyView {
    view! {
        <Stepper
            label=label
            value=grams
            text=live::text(move || words::whole_grams(grams.get()))
            step=step
            min=min
            max=max
            on_change=move |entered: f64| grams.set(entered)
        />
    }
    .into_any()
}
