//! What only shows once everything is read: which part is the dough, what percentages come to, what can't be meant.

pub(crate) mod doubts;
mod parts;
mod percentages;
mod rises;

use crate::foods::Role;
use crate::found::{Found, Ingredient, Part};
use crate::language::Language;
use crate::rows::Row;

/// Completes what was found, and asks what has to be asked.
pub(crate) fn resolve(found: &mut Found, rows: &[Row<'_>], language: Language) {
    parts::leave_out_own(found);
    found.drop_empty_parts();
    parts::tell_kinds(found);
    percentages::reckon(found, rows, language);
    rises::tell(found);
    doubts::ask(found);
}

fn role_of(one: &Ingredient) -> Option<Role> {
    one.known.as_ref().map(|known| known.role)
}

fn has(part: &Part, role: Role) -> bool {
    let mut ingredients = part.ingredients.iter();
    ingredients.any(|one| role_of(one) == Some(role))
}

/// The flour that is weighed in a part, in g.
fn flour_of(part: &Part) -> f64 {
    let flours = part.ingredients.iter();
    let flours = flours.filter(|one| role_of(one) == Some(Role::Flour));
    flours
        .filter_map(|one| one.mass)
        .map(|mass| mass.grams.get())
        .sum()
}

#[cfg(test)]
mod tests;
