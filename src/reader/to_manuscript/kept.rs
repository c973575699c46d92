//! Where ingredients wait, and whose temperature the baker chooses.

use domain::food::FoodKind;
use domain::formula::Kept;
use domain::formula::manuscript::{Ingredient, Manuscript};
use domain::yeast::kinds::YeastKind;

use super::{grams_of, is_main_liquid};

/// Puts what spoils into the fridge, and has the main liquid of each dough tempered.
pub(super) fn keep(manuscript: &mut Manuscript) {
    for component in &mut manuscript.components {
        for part in &mut component.ingredients {
            part.kept = place(part);
        }
        if !component.is_dough() {
            continue;
        }
        let liquids = component.ingredients.iter_mut();
        let mut main: Option<&mut Ingredient> = None;
        for part in liquids.filter(|part| is_main_liquid(part)) {
            // Of two that are as much the first is meant.
            if main
                .as_ref()
                .is_none_or(|main| grams_of(part) > grams_of(main))
            {
                main = Some(part);
            }
        }
        if let Some(main) = main {
            main.tempered = true;
        }
    }
}

/// Where an ingredient waits.
pub(super) fn place(part: &Ingredient) -> Kept {
    let Some(food) = part.food else {
        return Kept::Kitchen;
    };
    // Butter, but not what was boiled down to its oil, which keeps.
    let is_butter =
        food.kind == FoodKind::Fat && food.milk_fat && food.composition.water.get() > 0.1;
    let spoils = matches!(food.kind, FoodKind::Milk | FoodKind::Egg);
    let is_fresh_yeast = food.key == YeastKind::Fresh.key();
    let is_cold = spoils || is_fresh_yeast || is_butter;
    if is_cold && !is_warm(part) {
        Kept::Fridge
    } else {
        Kept::Kitchen
    }
}

/// Whether a text says that it is as warm as the kitchen by then.
fn is_warm(part: &Ingredient) -> bool {
    let said = domain::food::unaccented(&format!("{} {} {}", part.written, part.name, part.note));
    WARM.iter().any(|warm| said.contains(warm))
}

/// Stems in the five languages, folded.
const WARM: &[&str] = &[
    "soft",
    "room temp",
    "melted",
    "weich",
    "zimmerwarm",
    "raumtemp",
    "zimmertemp",
    "geschmolzen",
    "zerlassen",
    "pommade",
    "ramolli",
    "ambiant",
    "fondu",
    "blanda",
    "ambiente",
    "derretid",
    "fundid",
    "romtemp",
    "smelt",
    "mykt",
    "myk ",
];
