//! Dangers, said where the hand is.

use domain::food::Allergen;
use domain::formula::Caution;

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
