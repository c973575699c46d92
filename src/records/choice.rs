//! Choices as words: one table a choice, read both ways.

/// Writes a field-less enum of the domain as a word and reads it back.
///
/// The words are stored, so a word is never changed after release.
macro_rules! choice {
    ($module:ident, $type:ty, $label:literal, { $($variant:ident = $word:literal),* $(,)? }) => {
        pub(crate) mod $module {
            use serde::de::Error as _;
            use serde::{Deserialize, Deserializer, Serializer};

            type Choice = $type;

            pub(crate) fn word(choice: Choice) -> &'static str {
                match choice { $(Choice::$variant => $word,)* }
            }

            pub(crate) fn from_word(word: &str) -> Option<Choice> {
                match word { $($word => Some(Choice::$variant),)* _ => None }
            }

            #[allow(dead_code, reason = "some choices only stand inside lists")]
            pub(crate) fn serialize<S: Serializer>(choice: &Choice, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_str(word(*choice))
            }

            #[allow(dead_code, reason = "some choices only stand inside lists")]
            pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Choice, D::Error> {
                let word = std::borrow::Cow::<str>::deserialize(from)?;
                from_word(&word)
                    .ok_or_else(|| D::Error::custom(format_args!("\"{word}\" is no {}", $label)))
            }
        }
    };
}

choice!(component_kind, domain::formula::ComponentKind, "kind of component", {
    Preferment = "preferment", Dough = "dough", Filling = "filling",
    Wash = "wash", Glaze = "glaze", Coating = "coating",
});

choice!(kept, domain::formula::Kept, "place for an ingredient", {
    Kitchen = "kitchen", Fridge = "fridge",
});

choice!(step_kind, domain::formula::StepKind, "kind of step", {
    Gather = "gather", Cook = "cook", Chill = "chill", Mix = "mix", Knead = "knead",
    TakeTemperature = "take-temperature", Bulk = "bulk", Retard = "retard", Divide = "divide",
    PreShape = "pre-shape", BenchRest = "bench-rest", Shape = "shape", Fill = "fill",
    FinalProof = "final-proof", OvenOn = "oven-on", OvenHeats = "oven-heats", Wash = "wash",
    Bake = "bake", Cool = "cool", Prepare = "prepare", Finish = "finish", Serve = "serve",
});

choice!(held, domain::formula::Held, "place for a dough", {
    Bowl = "bowl", Tray = "tray", Tin = "tin",
});

choice!(scope, domain::formula::Scope, "scope of a checklist", {
    Batch = "batch", EachPiece = "each-piece",
});

choice!(cooling, domain::thermal::vessel::Cooling, "way of cooling", {
    Kitchen = "kitchen", Fridge = "fridge", IceBath = "ice-bath",
});

choice!(caution, domain::formula::Caution, "caution", {
    HotSugar = "hot-sugar", HotCustard = "hot-custard", HotOven = "hot-oven", RawEgg = "raw-egg",
    RawFlour = "raw-flour", Allergens = "allergens", Perishable = "perishable",
    CoolQuickly = "cool-quickly",
});

choice!(kneading, domain::thermal::kneading::KneadingMethod, "kneading method", {
    Hand = "hand", StandMixer = "stand-mixer", FoodProcessor = "food-processor",
    FoldOnly = "fold-only",
});

choice!(oven, domain::kitchen::OvenKind, "kind of oven", {
    Conventional = "conventional", Fan = "fan", Gas = "gas",
});
