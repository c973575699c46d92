//! Choices as words: one table a choice, read both ways.

/// Writes a field-less enum as a word and reads it back.
///
/// The words are stored, so a word is never changed after release.
macro_rules! choice {
    ($type:ty as $label:literal { $($variant:ident = $word:literal),* $(,)? }) => {
        impl $crate::shape::Shape for $type {
            fn from_json(json: &serde_json::Value, flaws: &$crate::shape::Flaws) -> Self {
                let word = flaws.expect(json.as_str(), concat!("the word for a ", $label));
                [$(Self::$variant),*][flaws.choose(word, &[$($word),*], $label)]
            }

            fn write_json(&self, to: &mut String) {
                let word = match self { $(Self::$variant => $word,)* };
                $crate::shape::write_text(word, to);
            }
        }
    };
}

pub(crate) use choice;

choice! { domain::formula::ComponentKind as "kind of component" {
    Preferment = "preferment", Dough = "dough", Filling = "filling",
    Wash = "wash", Glaze = "glaze", Coating = "coating",
} }

choice! { domain::formula::Kept as "place for an ingredient" {
    Kitchen = "kitchen", Fridge = "fridge",
} }

choice! { domain::formula::StepKind as "kind of step" {
    Gather = "gather", Cook = "cook", Chill = "chill", Mix = "mix", Knead = "knead",
    TakeTemperature = "take-temperature", Bulk = "bulk", Retard = "retard", Divide = "divide",
    PreShape = "pre-shape", BenchRest = "bench-rest", Shape = "shape", Fill = "fill",
    FinalProof = "final-proof", OvenOn = "oven-on", OvenHeats = "oven-heats", Wash = "wash",
    Bake = "bake", Cool = "cool", Prepare = "prepare", Finish = "finish", Serve = "serve",
} }

choice! { domain::formula::Held as "place for a dough" {
    Bowl = "bowl", Tray = "tray", Tin = "tin", Jar = "jar", Bag = "bag",
} }

choice! { domain::thermal::oven::BakeForm as "form of what bakes" {
    Round = "round", Long = "long", Ring = "ring", Tin = "tin", Touching = "touching",
} }

choice! { domain::formula::Scope as "scope of a checklist" {
    Batch = "batch", EachPiece = "each-piece",
} }

choice! { domain::thermal::vessel::Cooling as "way of cooling" {
    Kitchen = "kitchen", Fridge = "fridge", IceBath = "ice-bath",
} }

choice! { domain::formula::Caution as "caution" {
    HotSugar = "hot-sugar", HotCustard = "hot-custard", HotOven = "hot-oven", RawEgg = "raw-egg",
    RawFlour = "raw-flour", Allergens = "allergens", Perishable = "perishable",
    CoolQuickly = "cool-quickly",
} }

choice! { domain::thermal::kneading::KneadingMethod as "kneading method" {
    Hand = "hand", StandMixer = "stand-mixer", FoodProcessor = "food-processor",
    FoldOnly = "fold-only",
} }

choice! { domain::kitchen::OvenKind as "kind of oven" {
    Conventional = "conventional", Fan = "fan", Gas = "gas",
} }
