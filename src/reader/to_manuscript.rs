//! From what was found to a manuscript, for its baker to complete.
//!
//! Nothing is made up: what a text doesn't say stays missing, what was converted or inferred says so, and what only the
//! app needs of a step is marked as assumed. Where ingredients wait and which liquid is tempered no text tells; these
//! are the model's own questions, and are answered as in any kitchen.

mod kept;
mod parts;
mod said;

use domain::food::{Food, FoodKind, food, household};
use domain::formula::ComponentId;
use domain::formula::compose::compose;
use domain::formula::manuscript::{self, Component, Manuscript, MassBasis, RestsOn};
use domain::thermal::oven::BakeForm;
use domain::units::{BakersPercent, Grams};
use domain::yeast::kinds::YeastKind;

use crate::foods::{Certainty, Known, Role};
use crate::found::{self, Found, Part};
use crate::grammar::tokens::tokens;
use crate::language::Language;
use crate::lines::ingredient::ingredients;
use crate::resolve::doubts::is_as_liked;
use crate::sheet;

/// A manuscript of what was found, under a lasting name for it.
///
/// ```
/// let text = b"Rolls\n\n500 g flour\n300 g water\n10 g salt\n5 g yeast\n\nKnead 10 minutes. Bake at 220 C.";
/// let manuscript = reader::to_manuscript(&reader::read(text)?, "rolls");
/// let [dough] = &manuscript.components[..] else { panic!("it has one part") };
/// assert!(dough.ingredients[1].tempered);
/// # Ok::<(), reader::Refusal>(())
/// ```
#[must_use]
pub fn to_manuscript(found: &Found, id: &str) -> Manuscript {
    let (parts, places) = parts::parts(found);
    let components: Vec<Component> = (1..)
        .map(ComponentId)
        .zip(&parts)
        .map(|(id, part)| component(id, part))
        .collect();
    let blank = Manuscript::blank(id);
    let last_component = components.last().map_or(ComponentId(0), |last| last.id);
    let mut manuscript = Manuscript {
        name: found.name.clone(),
        pieces: pieces(found),
        components,
        last_component,
        ..blank
    };
    let flour_g = manuscript.known().flour_mass().get();
    settle_percentages(&mut manuscript, flour_g);
    tell_yeast(&mut manuscript, &parts, flour_g);
    kept::keep(&mut manuscript);
    if !found.steps.is_empty() {
        let composed = compose(&manuscript, &said::said(found, &places));
        manuscript.reference = composed.reference;
        if let Some(last) = composed.steps.last() {
            manuscript.last_step = last.step.id;
        }
        manuscript.steps = composed.steps;
    }
    manuscript
}

/// The ingredients that a line names, as a manuscript has them: "2 tbsp butter, soft".
#[must_use]
pub fn typed(line: &str) -> Vec<manuscript::Ingredient> {
    let tokens = tokens(line);
    let written = ingredients(line, &tokens, Language::of(&tokens));
    let mut parts: Vec<_> = written
        .iter()
        .map(|one| ingredient(&sheet::ingredient(one)))
        .collect();
    for part in &mut parts {
        part.kept = kept::place(part);
        part.tempered = is_main_liquid(part);
    }
    parts
}

fn component(id: ComponentId, part: &Part) -> Component {
    Component {
        kind_is_assumed: !part.kind_is_read,
        ingredients: part.ingredients.iter().map(ingredient).collect(),
        ..Component::blank(id, part.kind, part.name.clone())
    }
}

fn ingredient(one: &found::Ingredient) -> manuscript::Ingredient {
    let percent = one
        .percent
        .and_then(|percent| BakersPercent::new(percent).ok());
    let basis = match (one.mass.map(|mass| mass.basis), percent) {
        (Some(found::MassBasis::Percentage) | None, Some(percent)) => {
            MassBasis::Percentage(percent)
        }
        (Some(found::MassBasis::Middle), _) => MassBasis::Middle,
        (Some(found::MassBasis::Converted(basis)), _) => converted(basis),
        _ => MassBasis::Weighed,
    };
    let food_is_assumed = one
        .known
        .as_ref()
        .is_some_and(|known| known.certainty != Certainty::Named);
    manuscript::Ingredient {
        written: one.amount.clone(),
        note: one.note.clone(),
        food: one.known.as_ref().map(|known| known.food),
        food_is_assumed,
        mass: one.mass.map(|mass| mass.grams),
        basis,
        as_liked: one.mass.is_none() && percent.is_none() && is_as_liked(one),
        ..manuscript::Ingredient::named(one.name.clone())
    }
}

fn converted(basis: household::Basis) -> MassBasis {
    use household::Basis;
    let (rests_on, described) = match basis {
        Basis::Published(described) => (RestsOn::Published, described),
        Basis::Scaled(described) => (RestsOn::Scaled, described),
        Basis::Trade => (RestsOn::Trade, ""),
        Basis::Density => (RestsOn::Density, ""),
        Basis::Likened(described) => (RestsOn::Likened, described),
        Basis::Assumed => (RestsOn::Assumed, ""),
    };
    MassBasis::Converted {
        rests_on,
        described: described.to_owned(),
    }
}

/// Masses follow from percentages as the text has them: of flours that are all given so, the masses that the text's
/// total came to stand, and where a text's percentages are of other flour than the model's, the masses do.
fn settle_percentages(manuscript: &mut Manuscript, flour_g: f64) {
    if flour_g <= 0.0 {
        return;
    }
    let is_weighed =
        |part: &manuscript::Ingredient| !matches!(part.basis, MassBasis::Percentage(_));
    let doughs = manuscript.components.iter().filter(|one| one.is_dough());
    let mut flours = doughs
        .flat_map(|one| &one.ingredients)
        .filter(|part| part.is_flour());
    let some_is_weighed = flours.any(is_weighed);
    for component in &mut manuscript.components {
        let is_dough = component.is_dough();
        for part in &mut component.ingredients {
            let (MassBasis::Percentage(percent), Some(mass)) = (&part.basis, part.mass) else {
                continue;
            };
            if is_dough && part.is_flour() && !some_is_weighed {
                part.basis = MassBasis::Weighed;
                continue;
            }
            let own = mass.get() / flour_g * 100.0;
            if (own - percent.get()).abs() > ROUNDED {
                part.basis = MassBasis::Percentage(BakersPercent::clamped(own));
            }
        }
    }
}

/// Percentages are written to a tenth or a hundredth.
const ROUNDED: f64 = 0.051;

/// "Yeast" alone is taken as dried; more than three parts in a hundred of the flour nobody puts in of that (common
/// practice, no source), nor does it come in cubes.
fn tell_yeast(manuscript: &mut Manuscript, parts: &[Part], flour_g: f64) {
    for (component, part) in manuscript.components.iter_mut().zip(parts) {
        for (one, found) in component.ingredients.iter_mut().zip(&part.ingredients) {
            let is_plain = found.known.as_ref().is_some_and(is_any_yeast);
            let much = one
                .mass
                .is_some_and(|mass| mass.get() > MOST_DRIED * flour_g);
            if is_plain && flour_g > 0.0 && (much || is_in_cubes(&one.written)) {
                one.food = food(YeastKind::Fresh.key());
                one.food_is_assumed = true;
            }
        }
    }
}

const MOST_DRIED: f64 = 0.03;

fn is_any_yeast(known: &Known) -> bool {
    let is_dry = |food: &Food| food.composition.water.get() < 0.2;
    known.role == Role::Yeast && known.certainty != Certainty::Named && is_dry(known.food)
}

fn is_in_cubes(written: &str) -> bool {
    let written = domain::food::unaccented(written);
    ["cube", "wurfel", "cubo", "terning"]
        .iter()
        .any(|cube| written.contains(cube))
}

fn pieces(found: &Found) -> manuscript::Pieces {
    let blank = Manuscript::blank("").pieces;
    let makes = found.makes.as_ref();
    let written = makes.map_or("", |makes| makes.noun.trim());
    let is_one = makes.is_some_and(|makes| makes.count == 1);
    let form = said::form(found);
    manuscript::Pieces {
        count: makes.map(|makes| makes.count).filter(|&count| count > 0),
        noun: if is_one {
            written.to_owned()
        } else {
            singular(written)
        },
        plural: if is_one {
            String::new()
        } else {
            written.to_owned()
        },
        form: form.unwrap_or(BakeForm::Round),
        form_is_assumed: form.is_none(),
        ..blank
    }
}

/// One of several; a word that has no ending that is known may be the same for one.
fn singular(several: &str) -> String {
    if let Some(stem) = several.strip_suffix("loaves") {
        return format!("{stem}loaf");
    }
    let is_double = several.ends_with("ss");
    match several.strip_suffix('s').filter(|_| !is_double) {
        Some(one) => one.to_owned(),
        None => several.to_owned(),
    }
}

/// Whether a food is poured into a dough to wet it.
fn is_main_liquid(part: &manuscript::Ingredient) -> bool {
    let is = |food: &Food| matches!(food.kind, FoodKind::Water | FoodKind::Milk);
    part.food
        .is_some_and(|food| is(food) && Role::of(food) == Role::Liquid)
}

fn grams_of(part: &manuscript::Ingredient) -> f64 {
    part.mass.map_or(0.0, Grams::get)
}

#[cfg(test)]
mod tests;
