//! Masses of what is given in per cent of the flour.

use domain::food::unaccented;
use domain::units::Grams;

use super::{flour_of, role_of};
use crate::foods::Role;
use crate::found::{Found, Mass, MassBasis};
use crate::grammar::{amount, input, units::Unit};
use crate::language::Language;
use crate::lines::ingredient::inside;
use crate::question::Question;
use crate::rows::Row;
use crate::weigh;

/// Reckons masses from percentages and the flour, or asks for that.
pub(super) fn reckon(found: &mut Found, rows: &[Row<'_>], language: Language) {
    let mut ingredients = found.parts.iter().flat_map(|part| &part.ingredients);
    if ingredients.all(|one| one.percent.is_none()) {
        return;
    }
    let Some(flour_g) = flour_g(found, rows, language) else {
        found.questions.push(Question::HowMuchFlour);
        return;
    };
    let parts = found.parts.iter_mut();
    for one in parts.flat_map(|part| &mut part.ingredients) {
        if let (None, Some(percent)) = (one.mass, one.percent)
            && let Ok(grams) = Grams::new(flour_g * percent / 100.0)
        {
            let basis = MassBasis::Percentage;
            one.mass = Some(Mass { grams, basis });
        }
    }
}

/// What a hundred per cent are, in g: by a flour that has its mass and its percentage, else by all that is weighed, else
/// by what is said.
fn flour_g(found: &Found, rows: &[Row<'_>], language: Language) -> Option<f64> {
    let mut ingredients = found.parts.iter().flat_map(|part| &part.ingredients);
    let own = ingredients.find_map(|one| match (role_of(one), one.mass, one.percent) {
        (Some(Role::Flour), Some(mass), Some(percent)) if percent > 0.0 => {
            Some(mass.grams.get() / percent * 100.0)
        }
        _ => None,
    });
    let weighed: f64 = found.parts.iter().map(flour_of).sum();
    let is_some = |flour_g: &f64| *flour_g > 0.0;
    let listed = own.or(Some(weighed)).filter(is_some);
    listed.or_else(|| flour_in_talk(rows, language).filter(is_some))
}

/// The flour that percentages are of, where a sentence says it: "in per cent of 1.000 g flour".
fn flour_in_talk(rows: &[Row<'_>], language: Language) -> Option<f64> {
    let unquoted = || rows.iter().take(TALK).filter(|row| !row.is_quoted());
    let asides = unquoted().filter(|row| row.is_aside);
    let mut asides = asides.filter_map(|row| total(row, language));
    asides.next().or_else(|| {
        let mut said = unquoted().filter_map(|row| flour_said(row, language));
        said.next()
    })
}

/// So many rows are looked at for it.
const TALK: usize = 60;
/// Flour of any kind, in lower case and without accents.
const FLOUR: &[&str] = &["flour", "mehl", "farine", "harina", "mel"];

/// "Total flour 600 g = 100 %": there the food stands in front.
fn total(row: &Row<'_>, language: Language) -> Option<f64> {
    let said = unaccented(row.text);
    if !FLOUR.iter().any(|flour| said.contains(flour)) {
        return flour_said(row, language);
    }
    let first = row.tokens.iter().position(|token| token.is_number())?;
    let term = amount::term(&mut input(&row.tokens[first..], language)).ok()?;
    match term.unit {
        Unit::Grams(grams) => Some(grams * term.number.middle()),
        _ => None,
    }
}

/// A flour with its amount in a sentence.
fn flour_said(row: &Row<'_>, language: Language) -> Option<f64> {
    let written = inside(row.text, &row.tokens, language);
    let mut flours = written.iter().filter(|one| {
        let known = one.known.as_ref();
        known.is_some_and(|known| known.role == Role::Flour)
    });
    let mass = flours.find_map(weigh::mass)?;
    Some(mass.grams.get())
}
