//! What a written amount weighs.

use domain::food::food;
use domain::food::household::{self, Household};
use domain::units::Grams;
use domain::yeast::kinds::YeastKind;

use crate::foods::Role;
use crate::found::{Mass, MassBasis};
use crate::grammar::amount::{Amount, Term};
use crate::grammar::units::Unit;
use crate::lines::ingredient::Written;

/// The mass of an ingredient, by the least vague of the ways in which its amount is said.
pub(crate) fn mass(written: &Written) -> Option<Mass> {
    written
        .amounts
        .iter()
        .find_map(|amount| weighed(amount, written))
}

fn weighed(amount: &Amount, written: &Written) -> Option<Mass> {
    let mut grams = 0.0;
    let mut known_by: Option<household::Basis> = None;
    for term in &amount.terms {
        let (one, basis) = of_one(term, written)?;
        grams += one * term.number.middle();
        known_by = known_by.max(basis);
    }
    let is_range = amount.terms.iter().any(|term| term.number.is_range());
    let is_mass = amount.terms.iter().all(|term| term.unit.is_mass());
    let basis = match (is_mass, is_range) {
        (true, false) => MassBasis::Written,
        (true, true) => MassBasis::Middle,
        (false, _) => MassBasis::Converted(known_by?),
    };
    let grams = Grams::new(grams).ok()?;
    Some(Mass { grams, basis })
}

/// What one of a unit weighs, in g, and how that is known where it is no unit of mass.
fn of_one(term: &Term, written: &Written) -> Option<(f64, Option<household::Basis>)> {
    let measure = match term.unit {
        Unit::Grams(grams) => return Some((grams, None)),
        Unit::Millilitres(_) => Household::Millilitre,
        Unit::Cup => Household::Cup,
        Unit::Tablespoon => Household::Tablespoon,
        Unit::Teaspoon => Household::Teaspoon,
        Unit::Stick => Household::Stick,
        Unit::Packet => Household::Packet,
        Unit::Cube => Household::Cube,
        Unit::Clove => Household::Clove,
        Unit::Slice => Household::Slice,
        Unit::Leaf => Household::Leaf,
        Unit::Piece => Household::Piece,
        Unit::Pinch => Household::Pinch,
        Unit::Knob => Household::Knob,
        Unit::Bunch => Household::Bunch,
        Unit::Sprig => Household::Sprig,
        Unit::Handful => Household::Handful,
        // How much is in a tin stands on it.
        Unit::Container => return None,
    };
    let known = written.known.as_ref()?;
    // Dried yeast comes in no cubes, whatever an unspecific name is mostly taken for.
    let food = match (term.unit, known.role) {
        (Unit::Cube, Role::Yeast) => food(YeastKind::Fresh.key())?,
        _ => known.food,
    };
    let said = format!("{} {} {}", written.amount, written.name, written.note);
    let weighed = household::weighs(food, measure, &said)?;
    let one = match term.unit {
        Unit::Millilitres(millilitres) => millilitres * weighed.mass.get(),
        _ => weighed.mass.get(),
    };
    Some((one, Some(weighed.basis)))
}
