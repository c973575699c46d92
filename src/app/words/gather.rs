//! Words of the gathering list.

use domain::bake::State;
use domain::food::Allergen;
use domain::formula::Formula;
use domain::formula::gather::{Bought, Kit, Shelf, Tool, Use};
use domain::kitchen::Scales;
use domain::units::Moment;
use platform::clock::time_of_day;

use super::quantity::{amount, count};

/// Which bakes it is for.
pub(crate) const GATHER_FOR: &str = "For";
/// Its choices.
pub(crate) const GATHER_WHICH: [&str; 2] = ["What isn't gathered yet", "Everything that bakes"];
/// Nothing to gather for.
pub(crate) const GATHER_NOTHING: &str = "Nothing is baking and nothing is planned. Start or plan a bake, and what it takes stands here.";
/// That all of it was gathered.
pub(crate) const GATHER_ALL_DONE: &str =
    "All of it is gathered; this is what your bakes take in all.";
/// The heading of what can be an allergy.
pub(crate) const GATHER_ALLERGENS: &str = "Allergens";
/// The heading of equipment.
pub(crate) const GATHER_KIT: &str = "Equipment";
/// What isn't known about it.
pub(crate) const GATHER_KIT_NOTE: &str = "This follows from the formulas' steps. What only their words ask for, such as film or baking paper, isn't in it.";
/// What ticks do.
pub(crate) const GATHER_TICKS: &str =
    "Ticks stay on this phone until the bake is over. They mark nothing as weighed.";
/// Prints the page.
pub(crate) const PRINT: &str = "Print";
/// No window for that.
pub(crate) const NO_PRINT: &str = "This browser can't print. A screenshot keeps the page as well.";

/// The heading of a shelf.
pub(crate) fn shelf(shelf: Shelf) -> &'static str {
    match shelf {
        Shelf::Dry => "Flour, sugar and what keeps",
        Shelf::Chilled => "Milk, butter and eggs",
        Shelf::Fruit => "Fruit, nuts and spices",
        Shelf::Tap => "From the tap",
    }
}

/// "For 8 buns of 85 g; 1 braid of 750 g."
pub(crate) fn gather_for(bakes: &[&State]) -> String {
    let made = bakes.iter().map(|state| super::pieces(&state.formula));
    format!("For {}.", made.collect::<Vec<_>>().join("; "))
}

/// When a page was put on paper.
pub(crate) fn made_at(at: Moment) -> String {
    format!(
        "Printed from {} at {} on {}.",
        super::NAME,
        time_of_day(at),
        super::day(at)
    )
}

/// What a food is for: "155 g for sweet bun dough, 184 g for almond cream"; of eggs with how many of them: "of 3 eggs:
/// for almond cream"; and whose, where there are several bakes: "Buns: 184 g for almond cream; Braid: 8 g for egg wash".
pub(crate) fn gather_uses(line: &Bought, names: Option<&[String]>, scales: &Scales) -> String {
    let said = |part: &Use| {
        let of = &part.component.name;
        let said = if line.uses.len() == 1 {
            format!("for {of}")
        } else {
            format!("{} for {of}", amount(part.mass, scales))
        };
        (part.formula, said)
    };
    let uses = by_bake(line.uses.iter().map(said), names);
    match line.eggs() {
        Some(eggs) => {
            let of = if line.food.key == "egg" { "" } else { "of " };
            let stop = if names.is_some() { "." } else { ":" };
            format!("{of}{}{stop} {uses}", count_eggs(eggs))
        }
        None => uses,
    }
}

/// What belongs to one bake stands together behind its name, where there are several.
fn by_bake(parts: impl Iterator<Item = (usize, String)>, names: Option<&[String]>) -> String {
    let mut text = String::new();
    let mut last = None;
    for (bake, part) in parts {
        let is_new = last != Some(bake);
        if last.is_some() {
            text += if is_new { "; " } else { ", " };
        }
        if let Some(name) = names.and_then(|names| names.get(bake)).filter(|_| is_new) {
            text += name;
            text += ": ";
        }
        last = Some(bake);
        text += &part;
    }
    text
}

fn count_eggs(eggs: u32) -> String {
    count(u16::try_from(eggs).unwrap_or(u16::MAX), "egg", "eggs")
}

/// How many eggs in all, and how they are counted.
pub(crate) fn eggs_in_all(eggs: u32) -> String {
    format!(
        "{} in all, counted as large ones: 50\u{a0}g without the shell, 33\u{a0}g white, 17\u{a0}g yolk (USDA). Weigh what you use.",
        count_eggs(eggs)
    )
}

/// A line to whoever can't see where it stands: "whole milk, 349 g: for sweet bun dough".
pub(crate) fn gather_label(name: &str, amount: &str, uses: &str) -> String {
    let amount = match amount {
        "" => String::new(),
        amount => format!(", {amount}"),
    };
    match uses {
        "" => format!("{name}{amount}"),
        uses => format!("{name}{amount}: {uses}"),
    }
}

/// "2 bowls with covers".
pub(crate) fn tool(kit: &Kit) -> String {
    let (one, several) = match kit.tool {
        Tool::Scales => ("kitchen scales", ""),
        Tool::Thermometer => ("thermometer with a probe", ""),
        Tool::Bowl => ("bowl with a cover", "bowls with covers"),
        Tool::Jar => ("jar with room to double", "jars with room to double"),
        Tool::Bag => ("large bag", "large bags"),
        Tool::Pan => ("pan", ""),
        Tool::Dish => ("wide, flat dish", "wide, flat dishes"),
        Tool::IceWater => ("ice, and a tub of water for the dish to stand in", ""),
        Tool::Brush => ("brush", ""),
        Tool::Tray => ("baking tray", "baking trays"),
        Tool::Tin => ("loaf tin", "loaf tins"),
        Tool::Rack => ("cooling rack", "cooling racks"),
    };
    match kit.count {
        0 => super::capital(one),
        number => count(number, one, several),
    }
}

/// "for almond cream, toasted almonds", of what is worth saying it.
pub(crate) fn tool_uses(kit: &Kit, formulas: &[&Formula], names: Option<&[String]>) -> String {
    if !kit.tool.has_uses() {
        return String::new();
    }
    let uses = kit.uses.iter().filter_map(|&(place, component)| {
        let component = formulas.get(place)?.component(component)?;
        Some((place, component.name.clone()))
    });
    let uses = by_bake(uses, names);
    match names {
        Some(_) => uses,
        None => format!("for {uses}"),
    }
}

/// "Milk: whole milk, unsalted butter."
pub(crate) fn allergen_line(allergen: Allergen, foods: &[&str]) -> String {
    format!("{}: {}.", in_law(allergen), foods.join(", "))
}

/// As the law's list names it: Regulation (EU) No 1169/2011, Annex II.
fn in_law(allergen: Allergen) -> String {
    match allergen {
        Allergen::GlutenCereals => "Cereals containing gluten".to_owned(),
        Allergen::Eggs => "Eggs".to_owned(),
        Allergen::Soybeans => "Soybeans".to_owned(),
        Allergen::Sesame => "Sesame seeds".to_owned(),
        Allergen::Sulphites => "Sulphur dioxide and sulphites".to_owned(),
        other => super::capital(super::allergen(other)),
    }
}
