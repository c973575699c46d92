//! What a step of each kind is where nobody says more: its words, dangers, needs, length and marks.
//!
//! Words are our own. Lengths and temperatures without a source beside them are common practice, no source; they are
//! those of the starter formulas, which have been planned and baked by scripts in every season.

mod lengths;
mod words;

pub use lengths::{bake_minutes, core, oven, spread};

use super::{Caution, Checklist, ComponentId, ComponentKind, Needs, Scope, Step, StepId, StepKind};
use crate::food::{Food, FoodKind};
use crate::thermal::oven::BakeForm;
use crate::units::Grams;

/// What a component holds that a step has to warn of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Holds {
    /// Flour.
    pub flour: bool,
    /// Egg.
    pub egg: bool,
    /// Milk, cream or fresh cheese.
    pub milk: bool,
    /// Anything of the law's list of allergens.
    pub allergens: bool,
}

impl Holds {
    /// What these foods bring.
    #[must_use]
    pub fn of<'a>(foods: impl Iterator<Item = &'a Food>) -> Self {
        foods.fold(Self::default(), |held, food| Self {
            flour: held.flour || food.kind == FoodKind::Flour,
            egg: held.egg || food.kind == FoodKind::Egg,
            milk: held.milk || food.kind == FoodKind::Milk,
            allergens: held.allergens || !food.allergens.is_empty(),
        })
    }

    /// Whether it spoils outside a fridge.
    #[must_use]
    pub fn spoils(self) -> bool {
        self.egg || self.milk
    }
}

/// What a default hangs on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting<'a> {
    /// The component that the step works on.
    pub component: ComponentId,
    /// What part that plays.
    pub kind: ComponentKind,
    /// What the baker calls it; may be empty.
    pub name: &'a str,
    /// What it holds.
    pub holds: Holds,
    /// What the whole bake holds: for gathering and serving.
    pub all: Holds,
    /// Whether a filling holds what spoils.
    pub filling_spoils: bool,
    /// What a piece weighs as it goes into the oven, where that is known.
    pub piece: Option<Grams>,
    /// In what form it bakes.
    pub form: BakeForm,
    /// Whether sugar or fat is a tenth of the flour or more ([`usual`](super::usual)).
    pub is_rich: bool,
}

/// What a [`Prepare`](StepKind::Prepare) step is for, where it is one that every dough needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Preparing {
    /// The dough goes into its bowl for the first rise.
    Cover,
    /// It goes into the fridge.
    IntoFridge,
    /// The pieces go into the oven.
    IntoOven,
    /// The bread comes out.
    OutOfOven,
    /// A filling that spoils waits in the fridge.
    FillingAway,
}

/// A step of that kind for that component. It has number 0 and waits for nothing: both are its list's to say.
///
/// A [`Bake`](super::Length::Bake) has a piece of no mass, which stands for the formula's own.
///
/// ```
/// use domain::formula::manuscript::Manuscript;
/// use domain::formula::{StepKind, palette};
///
/// let blank = Manuscript::blank("rolls");
/// let dough = &blank.components[0];
/// let knead = palette::step(StepKind::Knead, &blank.setting(dough));
/// assert!(knead.is_hands());
/// ```
#[must_use]
pub fn step(kind: StepKind, at: &Setting) -> Step {
    let words = words::of(kind, at);
    Step {
        id: StepId(0),
        component: at.component,
        kind,
        title: words::title(kind, at),
        instruction: words.instruction.to_owned(),
        detail: words.detail.to_owned(),
        cue: cue(kind, words.cue, at),
        why: words.why.to_owned(),
        cautions: cautions(kind, at),
        needs: needs(kind),
        after: Vec::new(),
        length: lengths::of(kind, at),
        checklist: checklist(kind, at),
        ahead_of: None,
    }
}

/// One of the steps that every dough needs and few texts tell.
#[must_use]
pub fn preparing(what: Preparing, at: &Setting) -> Step {
    let words = words::of_preparing(what, at);
    let plain = step(StepKind::Prepare, at);
    let is_oven = matches!(what, Preparing::IntoOven | Preparing::OutOfOven);
    Step {
        title: words.title.to_owned(),
        instruction: words.instruction.to_owned(),
        detail: words.detail.to_owned(),
        cue: words.cue.to_owned(),
        why: words.why.to_owned(),
        cautions: match what {
            Preparing::IntoOven | Preparing::OutOfOven => vec![Caution::HotOven],
            Preparing::FillingAway => vec![Caution::Perishable],
            Preparing::Cover | Preparing::IntoFridge => Vec::new(),
        },
        needs: Needs {
            oven: is_oven,
            fridge: matches!(what, Preparing::IntoFridge | Preparing::FillingAway),
            ..plain.needs
        },
        length: lengths::of_preparing(what),
        checklist: None,
        ..plain
    }
}

fn cue(kind: StepKind, words: &str, at: &Setting) -> String {
    if kind != StepKind::Bake {
        return words.to_owned();
    }
    let core = core(at.is_rich);
    let (in_c, in_f) = (core.get().round(), core.to_fahrenheit().round());
    format!("it is well browned and reads {in_c} °C ({in_f} °F) inside")
}

fn cautions(kind: StepKind, at: &Setting) -> Vec<Caution> {
    let mut found = Vec::new();
    let mut add = |is: bool, caution| {
        if is {
            found.push(caution);
        }
    };
    let filling = at.kind == ComponentKind::Filling;
    let sweet = matches!(at.kind, ComponentKind::Glaze);
    let works_raw = matches!(
        kind,
        StepKind::Mix | StepKind::Prepare | StepKind::Cook | StepKind::Wash
    );
    let hot = matches!(kind, StepKind::OvenHeats | StepKind::Bake);
    add(kind == StepKind::Cook && filling, Caution::HotCustard);
    add(kind == StepKind::Cook && sweet, Caution::HotSugar);
    add(hot, Caution::HotOven);
    let is_raw = works_raw && (at.kind != ComponentKind::Dough || kind == StepKind::Mix);
    add(is_raw && at.holds.egg, Caution::RawEgg);
    add(kind == StepKind::Mix && at.holds.flour, Caution::RawFlour);
    let named = matches!(kind, StepKind::Gather | StepKind::Serve);
    let of_all = named && at.all.allergens;
    let touched = matches!(kind, StepKind::Mix | StepKind::Finish) && at.holds.allergens;
    add(of_all || touched, Caution::Allergens);
    let spoils = at.holds.spoils() && filling;
    add(kind == StepKind::Fill && spoils, Caution::Perishable);
    add(
        kind == StepKind::Serve && at.filling_spoils,
        Caution::Perishable,
    );
    add(
        kind == StepKind::Chill && at.holds.spoils(),
        Caution::CoolQuickly,
    );
    found
}

fn needs(kind: StepKind) -> Needs {
    let goes_on = matches!(
        kind,
        StepKind::Chill
            | StepKind::Bulk
            | StepKind::Retard
            | StepKind::BenchRest
            | StepKind::FinalProof
            | StepKind::OvenHeats
            | StepKind::Bake
            | StepKind::Cool
    );
    Needs {
        hands: !goes_on,
        hob: kind == StepKind::Cook,
        oven: matches!(
            kind,
            StepKind::OvenOn | StepKind::OvenHeats | StepKind::Bake
        ),
        fridge: kind == StepKind::Retard,
    }
}

fn checklist(kind: StepKind, at: &Setting) -> Option<Checklist> {
    let each = |item: &str| {
        Some(Checklist::Marks {
            scope: Scope::EachPiece,
            items: vec![item.to_owned()],
        })
    };
    let is_made = at.kind != ComponentKind::Dough;
    match kind {
        StepKind::Gather => Some(Checklist::AllIngredients),
        StepKind::Mix => Some(Checklist::Ingredients),
        StepKind::Cook | StepKind::Prepare if is_made => Some(Checklist::Ingredients),
        StepKind::Divide => Some(Checklist::PieceMasses),
        StepKind::PreShape => each("Rounded"),
        StepKind::Shape => each("Shaped"),
        StepKind::Fill => each("Filled"),
        StepKind::Wash => each("Brushed"),
        StepKind::Finish => each("Finished"),
        _ => None,
    }
}

#[cfg(test)]
mod tests;
