//! Words of whole eggs.

use domain::decimal::plain;
use domain::formula::{EggCount, EggOffer, EggPart, Formula};

use crate::words::quantity::mass;

/// Leads back from whole eggs to what was reckoned.
pub(crate) const EGGS_AS_RECKONED: &str = "Egg by weight again";

/// "The dough has 1.4 eggs of 50 g. Whole ones:".
pub(crate) fn eggs_now(formula: &Formula, count: &EggCount) -> String {
    let component = formula.component(count.component);
    let component = component.map_or("", |component| &component.name);
    let mass_each = component_mass(formula, count).map_or(String::new(), |all| {
        format!(
            " of {}",
            mass(all * (1.0 / count.eggs.max(f64::MIN_POSITIVE)))
        )
    });
    format!(
        "The {component} has {} {}{mass_each}. In whole ones:",
        plain(count.eggs, 1),
        noun(count.part, 2)
    )
}

fn component_mass(formula: &Formula, count: &EggCount) -> Option<domain::units::Grams> {
    let component = formula.component(count.component)?;
    component.ingredients.get(count.place).map(|part| part.mass)
}

/// "2 eggs, 23 g less whole milk".
pub(crate) fn whole_eggs(formula: &Formula, part: EggPart, offer: &EggOffer) -> String {
    let eggs = format!("{} {}", offer.eggs, noun(part, offer.eggs));
    let Some(liquid) = offer.liquid else {
        return eggs;
    };
    let component = formula.component(liquid.component);
    let name = component.and_then(|component| component.ingredients.get(liquid.place));
    let name = name.map_or("liquid", |part| &part.name);
    let (more, by) = if liquid.after > liquid.before {
        ("more", liquid.after - liquid.before)
    } else {
        ("less", liquid.before - liquid.after)
    };
    format!("{eggs}, {} {more} {name}", mass(by))
}

fn noun(part: EggPart, count: u16) -> &'static str {
    match (part, count) {
        (EggPart::Whole, 1) => "egg",
        (EggPart::Whole, _) => "eggs",
        (EggPart::Yolk, 1) => "yolk",
        (EggPart::Yolk, _) => "yolks",
        (EggPart::White, 1) => "white",
        (EggPart::White, _) => "whites",
    }
}
