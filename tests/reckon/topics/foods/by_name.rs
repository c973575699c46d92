//! Which food is meant by a name.

use domain::food::{self, Composition, Food, FoodKind, choi_okos, pantry};
use domain::units::{Celsius, JoulesPerGramKelvin};

use crate::reckon::text;

/// A food that the model knows by its name.
pub(in crate::reckon::topics) struct Named {
    pub(in crate::reckon::topics) composition: Composition,
    pub(in crate::reckon::topics) kind: Option<FoodKind>,
    pub(in crate::reckon::topics) measured: Option<JoulesPerGramKelvin>,
}

impl Named {
    fn of(food: &Food) -> Self {
        Self {
            composition: food.composition,
            kind: Some(food.kind),
            measured: food.measured_specific_heat,
        }
    }

    pub(in crate::reckon::topics) fn specific_heat(&self, at: Celsius) -> JoulesPerGramKelvin {
        let by_composition = choi_okos::specific_heat(&self.composition, at);
        self.measured.unwrap_or(by_composition)
    }
}

/// Words that tell nothing about which food it is.
const IDLE: [&str; 8] = ["fresh", "water", "fat", "of", "c", "liquid", "raw", "plain"];

/// The food that somebody means: the same words, or else the first with all of them and fewest others.
pub(in crate::reckon::topics) fn named(said: &str) -> Option<Named> {
    let mut wanted = text::words(said);
    if wanted.len() > 1 {
        wanted.retain(|word| !IDLE.contains(&word.as_str()));
    }
    for word in &mut wanted {
        if word.len() > 3 && word.ends_with('s') {
            word.pop();
        }
    }
    wanted.sort();
    let same = |name: &str| {
        let mut words = text::words(name);
        words.sort();
        words == wanted
    };
    let foods = food::all();
    let exact = foods
        .iter()
        .find(|food| same(food.key) || same(food.name))
        .map(Named::of);
    // How many more words a name has, if it has all of these and is of the same thing: "rye bread" is
    // a bread and "bread flour" is none. Our names end with the thing, the database's begin with it.
    let with_all = |name: &str, thing: fn(&[String]) -> Option<&String>| {
        let words = text::words(name);
        let has_all = wanted.iter().all(|word| words.contains(word));
        let same_thing = thing(&words).is_some_and(|thing| wanted.contains(thing));
        (has_all && same_thing).then(|| words.len() - wanted.len())
    };
    let nearest = || {
        let fits = foods.iter().filter_map(|food| {
            let more = with_all(food.name, <[String]>::last)?;
            Some((more, food))
        });
        fits.min_by_key(|(more, _)| *more)
            .map(|(_, food)| Named::of(food))
    };
    let from_pantry = || {
        let fits =
            pantry::all().filter_map(|(ndb, name)| Some((with_all(name, <[String]>::first)?, ndb)));
        let (_, ndb) = fits.min_by_key(|(more, _)| *more)?;
        Some(Named {
            composition: pantry::composition(ndb)?,
            kind: None,
            measured: None,
        })
    };
    exact.or_else(nearest).or_else(from_pantry)
}
