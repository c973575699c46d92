//! Dangers, said where the hand is.

use domain::bake::Kept;
use domain::food::Allergen;
use domain::formula::{Caution, Formula};

/// One sentence for a caution.
pub(crate) fn caution(caution: Caution) -> &'static str {
    match caution {
        Caution::HotSugar => {
            "Hot sugar and jam stick and burn deep: long sleeves, no children at the hob."
        }
        Caution::HotCustard => "Thick cream is scalding and spits: keep it off your skin.",
        Caution::HotOven => "Hot oven, hot tray: dry cloths, and mind the steam.",
        Caution::RawEgg => "Raw egg can carry germs: don't taste, and wash hands, bowl and brush.",
        Caution::RawFlour => "Raw flour can carry germs: don't taste the dough.",
        Caution::Allergens => "Check the allergens below for everyone at the table.",
        Caution::Perishable => {
            "Perishable: into the fridge within two hours, one in a hot kitchen. Your local food-safety rules come first."
        }
        Caution::CoolQuickly => {
            "Cool it fast: below 21\u{a0}°C (70\u{a0}°F) within two hours, below 5\u{a0}°C (41\u{a0}°F) within six. Your local food-safety rules come first."
        }
    }
}

/// The same in one line, for where a list follows that has to stay in sight; nothing for what burns, which is
/// said in full before it.
pub(crate) fn caution_in_short(caution: Caution, formula: &Formula) -> String {
    let line = match caution {
        Caution::HotSugar | Caution::HotCustard | Caution::HotOven => "",
        Caution::RawEgg => "Raw egg: don't taste, wash hands.",
        Caution::RawFlour => "Raw flour: don't taste.",
        Caution::Allergens => return super::allergens(formula),
        Caution::Perishable => "Perishable: cold within 2\u{a0}h, 1 when hot.",
        Caution::CoolQuickly => {
            "Cool fast: 21\u{a0}°C (70\u{a0}°F) in 2\u{a0}h, 5\u{a0}°C (41\u{a0}°F) in 6."
        }
    };
    line.to_owned()
}

/// How long what is put away keeps.
pub(crate) fn keeps(kept: Kept) -> String {
    let (from, to) = kept.days();
    format!("Put away in time it keeps {from} to {to} days in the fridge (USDA).")
}

/// The name of an allergen.
pub(crate) fn allergen(allergen: Allergen) -> &'static str {
    match allergen {
        Allergen::GlutenCereals => "gluten",
        Allergen::Crustaceans => "crustaceans",
        Allergen::Eggs => "egg",
        Allergen::Fish => "fish",
        Allergen::Peanuts => "peanuts",
        Allergen::Soybeans => "soya",
        Allergen::Milk => "milk",
        Allergen::Nuts => "nuts",
        Allergen::Celery => "celery",
        Allergen::Mustard => "mustard",
        Allergen::Sesame => "sesame",
        Allergen::Sulphites => "sulphites",
        Allergen::Lupin => "lupin",
        Allergen::Molluscs => "molluscs",
    }
}
