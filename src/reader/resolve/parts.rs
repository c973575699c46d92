//! Which part is the dough, and which ingredient is a part of its own.

use domain::food::folded;
use domain::formula::ComponentKind;

use super::{flour_of, has, role_of};
use crate::foods::{Role, known};
use crate::found::{Found, Ingredient, Part};
use crate::lines::heading::part_kind;

/// "Poolish (all) 3.25 kg" in the final dough is the part above, not another ingredient.
pub(super) fn leave_out_own(found: &mut Found) {
    for place in 1..found.parts.len() {
        let (before, own) = found.parts.split_at_mut(place);
        let Some(own) = own.first_mut() else { break };
        let own_word = first_word(&own.name);
        own.ingredients.retain(|one| {
            let word = first_word(&one.name);
            let is_of = |part: &Part| word.is_some() && first_word(&part.name) == word;
            word == own_word
                || !before
                    .iter()
                    .any(|part| is_of(part) && is_all_of(one, part))
        });
    }
}

/// Whether an ingredient that is called like a part is that part, and not a food that it is called after: "Butter block"
/// doesn't take the butter away from the dough, nor "Cream" the cream from the topping.
fn is_all_of(one: &Ingredient, part: &Part) -> bool {
    let is_food = known(&one.name).is_some();
    let names_a_part = part_kind(&one.name).is_some();
    if !is_food || !names_a_part || part.kind == ComponentKind::Preferment {
        return !is_food || names_a_part;
    }
    let of_part = part.ingredients.iter().filter_map(|one| one.mass);
    let of_part_g: f64 = of_part.map(|mass| mass.grams.get()).sum();
    let near = |mass_g: f64| (mass_g / of_part_g - 1.0).abs() < NEAR;
    one.mass.is_none_or(|mass| near(mass.grams.get()))
}

/// A part weighs as much as what is in it, but for what isn't weighed and what is lost.
const NEAR: f64 = 0.1;

fn first_word(name: &str) -> Option<String> {
    let said = folded(name);
    let mut words = said.split(' ');
    words.find(|word| word.len() > 2).map(str::to_owned)
}

/// Names the kinds that no heading told: the dough is where most of the flour is.
pub(super) fn tell_kinds(found: &mut Found) {
    let dough = dough_without_a_name(found);
    for (place, part) in found.parts.iter_mut().enumerate() {
        let brushed = [Role::Egg, Role::Liquid, Role::Salt];
        let is_wash = has(part, Role::Egg)
            && part
                .ingredients
                .iter()
                .all(|one| role_of(one).is_some_and(|role| brushed.contains(&role)));
        // "To glaze: 1 egg" goes on before the oven.
        let may_be_wash = !part.kind_is_read || part.kind == ComponentKind::Glaze;
        if Some(place) == dough {
            part.kind = ComponentKind::Dough;
        } else if may_be_wash && is_wash {
            part.kind = ComponentKind::Wash;
        }
    }
}

/// Where the dough is, if no heading says so.
fn dough_without_a_name(found: &Found) -> Option<usize> {
    let is_named_dough = |part: &Part| part.kind == ComponentKind::Dough && part.kind_is_read;
    let has_flour = |part: &Part| has(part, Role::Flour);
    let parts = || found.parts.iter();
    if parts().any(|part| is_named_dough(part) && has_flour(part)) {
        return None;
    }
    let floury = parts().enumerate().filter(|(_, part)| {
        has_flour(part) && (!part.kind_is_read || part.kind == ComponentKind::Dough)
    });
    let most = floury.max_by(|(_, one), (_, other)| flour_of(one).total_cmp(&flour_of(other)));
    most.map(|(place, _)| place)
}
