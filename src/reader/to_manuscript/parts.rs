//! Which part of a text becomes which component.

use domain::formula::{ComponentId, ComponentKind};

use crate::foods::Role;
use crate::found::{self, Found, Part};

/// The parts, and for each part that was found the component that it became.
///
/// "Dry ingredients" and "wet ingredients" are one dough: what counts as dough, and has no flour, goes into the part
/// that has most of it. A second dough of nothing but flour, what wets it and yeast is fermented ahead.
pub(super) fn parts(found: &Found) -> (Vec<Part>, Vec<ComponentId>) {
    let has_flour = |part: &Part| flour_g(part) > 0.0;
    let is_dough = |part: &Part| part.kind == ComponentKind::Dough;
    let doughs = found.parts.iter().enumerate();
    let doughs = doughs.filter(|(_, part)| is_dough(part) && has_flour(part));
    let dough = doughs
        .max_by(|(_, one), (_, other)| flour_g(one).total_cmp(&flour_g(other)))
        .map(|(place, _)| place);
    let joins = |place: usize, part: &Part| {
        let is_other = dough.is_some_and(|dough| dough != place);
        is_other && is_dough(part) && !has_flour(part)
    };
    let mut parts: Vec<Part> = Vec::new();
    let mut places: Vec<Option<usize>> = Vec::new();
    for (place, part) in found.parts.iter().enumerate() {
        if joins(place, part) {
            places.push(None);
        } else {
            places.push(Some(parts.len()));
            parts.push(part.clone());
        }
    }
    let dough = dough.and_then(|dough| places[dough]);
    for (place, part) in found.parts.iter().enumerate() {
        if let (None, Some(dough)) = (places[place], dough) {
            parts[dough].kind_is_read = false;
            let ingredients = &mut parts[dough].ingredients;
            ingredients.extend(part.ingredients.iter().cloned());
        }
    }
    for (place, part) in parts.iter_mut().enumerate() {
        if Some(place) != dough && is_dough(part) && is_preferment(part) {
            part.kind = ComponentKind::Preferment;
            part.kind_is_read = false;
        }
    }
    let number = |place: usize| ComponentId(u16::try_from(place + 1).unwrap_or(u16::MAX));
    let places = places
        .iter()
        .map(|place| place.or(dough).map_or(ComponentId(0), number));
    let places = places.collect();
    parts.truncate(usize::from(u16::MAX));
    (parts, places)
}

fn is_preferment(part: &Part) -> bool {
    let role = |one: &found::Ingredient| one.known.as_ref().map(|known| known.role);
    let plain = [Role::Flour, Role::Liquid, Role::Yeast].map(Some);
    let mut all = part.ingredients.iter().map(role);
    let has = |wanted: Role| part.ingredients.iter().any(|one| role(one) == Some(wanted));
    has(Role::Flour) && has(Role::Yeast) && all.all(|role| plain.contains(&role))
}

fn flour_g(part: &Part) -> f64 {
    let is_flour = |one: &&found::Ingredient| {
        let known = one.known.as_ref();
        known.is_some_and(|known| known.role == Role::Flour)
    };
    let flours = part.ingredients.iter().filter(is_flour);
    // What is given in per cent alone is flour all the same.
    let weight = |one: &found::Ingredient| {
        let mass = one.mass.map(|mass| mass.grams.get());
        mass.or(one.percent).unwrap_or(0.0)
    };
    flours.map(weight).sum()
}
