//! What a text leaves open, and what can't be meant.

use domain::food::unaccented;
use domain::formula::ComponentKind;

use super::{flour_of, has};
use crate::foods::Role;
use crate::found::{Found, Ingredient, Part};
use crate::question::Question;

/// What nobody puts into a dough, in per cent of the flour.
///
/// Common practice, no source, and far beyond it: a brioche has 70 % of butter, a sweet dough 30 % of sugar,
/// doughs with much old dough or fruit as much of that as flour.
fn most_percent(role: Role, is_dry_yeast: bool) -> f64 {
    match role {
        Role::Yeast if is_dry_yeast => 8.0,
        Role::Yeast => 20.0,
        Role::Salt => 6.0,
        Role::Sugar => 150.0,
        Role::Fat => 150.0,
        Role::Egg => 200.0,
        Role::Liquid => 250.0,
        Role::Flour => 1000.0,
        Role::Other => 600.0,
    }
}

/// Less than this, in per cent of the flour, is a slipped digit. Nothing of the kind can be told of other roles.
const LEAST_SALT: f64 = 0.2;

/// Asks about every ingredient, and about what is missing.
pub(super) fn ask(found: &mut Found) {
    let doughs = found.parts.iter().filter(|part| is_dough(part));
    let flour_g: f64 = doughs.map(flour_of).sum();
    let mut questions = Vec::new();
    for part in &found.parts {
        let asked = part.ingredients.iter();
        questions.extend(asked.filter_map(|one| doubt(one, part, flour_g)));
    }
    questions.extend(missing(found));
    for step in &found.steps {
        if let Some(heat) = step.heat.filter(|heat| heat.scale_is_inferred) {
            questions.push(Question::WhichScale {
                step: step.text.clone(),
                celsius: heat.celsius,
            });
        }
    }
    found.questions.append(&mut questions);
}

fn is_dough(part: &Part) -> bool {
    matches!(part.kind, ComponentKind::Dough | ComponentKind::Preferment)
}

/// What nothing was read of that every bake has.
fn missing(found: &Found) -> Vec<Question> {
    let mut missing = Vec::new();
    if !found.parts.iter().any(|part| has(part, Role::Flour)) {
        missing.push(Question::NoFlour);
    }
    let raises = |part: &Part| {
        has(part, Role::Yeast)
            || part.kind == ComponentKind::Preferment
            || part.ingredients.iter().any(is_raising)
    };
    if !found.parts.iter().any(raises) {
        missing.push(Question::NoYeast);
    }
    if found.steps.is_empty() {
        missing.push(Question::NoSteps);
    } else if found.steps.iter().all(|step| step.heat.is_none()) {
        missing.push(Question::NoOven);
    }
    missing
}

/// What raises a dough beside yeast, in lower case and without accents.
#[rustfmt::skip]
const RAISING: &[&str] = &[
    "starter", "levain", "sourdough", "sauerteig", "surdeig", "masa madre", "leaven", "poolish", "biga",
    "baking powder", "backpulver", "bakepulver", "levadura quimica", "levure chimique",
];

fn is_raising(one: &Ingredient) -> bool {
    let name = unaccented(&one.name);
    RAISING.iter().any(|raising| name.contains(raising))
}

/// What there is to ask about an ingredient.
fn doubt(one: &Ingredient, part: &Part, flour_g: f64) -> Option<Question> {
    let name = one.name.clone();
    let amount = one.amount.clone();
    let Some(known) = &one.known else {
        return Some(Question::WhatIsIt { name });
    };
    let Some(mass) = one.mass else {
        if !amount.is_empty() {
            return Some(Question::HowHeavy { name, amount });
        }
        return (!is_as_liked(one)).then_some(Question::HowMuch { name });
    };
    let mass_g = mass.grams.get();
    let has_flour = flour_g > 0.0;
    let percent = if has_flour {
        mass_g / flour_g * 100.0
    } else {
        0.0
    };
    let most = if is_dough(part) {
        let is_dry = known.food.composition.water.get() < DRY;
        most_percent(known.role, is_dry)
    } else {
        OUTSIDE_THE_DOUGH
    };
    let is_too_little = part.kind == ComponentKind::Dough
        && known.role == Role::Salt
        && has_flour
        && percent < LEAST_SALT;
    let is_no_home_s = mass_g > MOST_GRAMS && flour_g < MOST_GRAMS;
    let is_absurd = percent > most || mass_g <= 0.0 || is_no_home_s || is_too_little;
    is_absurd.then_some(Question::Absurd {
        name,
        amount,
        percent,
    })
}

/// Yeast with less water than this is dried.
const DRY: f64 = 0.2;
/// Fillings may weigh more than the dough, but not many times as much.
const OUTSIDE_THE_DOUGH: f64 = 800.0;
/// More of one thing than a home has room for, in g.
const MOST_GRAMS: f64 = 25_000.0;

/// What says that an amount is left to the baker on purpose, in lower case and without accents.
#[rustfmt::skip]
const AS_LIKED: &[&str] = &[
    "for dusting", "for the work", "for the tin", "for greasing", "to taste", "to dust", "to grease",
    "for kneading", "for the bowl", "optional", "to serve", "a little", "for rolling", "for sprinkling",
    "for the bench", "for the table", "for the pan", "zum bestauben", "fur die form", "nach geschmack",
    "zum bearbeiten", "fur die arbeitsflache", "etwas ", "zum ausrollen", "nach belieben", "pour le plan",
    "pour le moule", "selon", "un peu", "facultatif", "para espolvorear", "al gusto", "para la mesa", "un poco",
    "opcional", "til utbaking", "etter smak", "til formen", "litt ",
];

/// Whether an amount is left to the baker on purpose: "flour for dusting", "salt to taste".
pub(crate) fn is_as_liked(one: &Ingredient) -> bool {
    let said = unaccented(&format!(" {} {} ", one.name, one.note));
    AS_LIKED.iter().any(|words| said.contains(words))
}
