//! Heads of columns, in lower case and without accents.

/// Masses in grams.
#[rustfmt::skip]
pub(super) const GRAMS: &[&str] = &[
    "g", "gr", "gram", "grams", "gramm", "in g", "grammes", "gramos",
];

/// Masses in kilograms.
#[rustfmt::skip]
pub(super) const KILOGRAMS: &[&str] = &[
    "kg", "kilo", "in kg", "kilograms",
];

/// Baker's percentages.
#[rustfmt::skip]
pub(super) const PERCENT: &[&str] = &[
    "%", "bakers %", "baker's %", "backer-%", "bakers percent", "baker's percentage", "percent", "% of flour",
    "pct", "% mehl", "baker %", "bp", "prosent", "% mel", "%f",
];

/// Units of the numbers before them.
#[rustfmt::skip]
pub(super) const UNIT: &[&str] = &[
    "unit", "units", "enhet", "einheit", "unite", "unidad",
];

/// Anything else that a table of ingredients has.
#[rustfmt::skip]
pub(super) const OTHER: &[&str] = &[
    "ingredient", "ingredients", "zutat", "zutaten", "menge", "amount", "quantity", "qty", "weight", "item", "mass",
    "gewicht", "ingrediens", "ingredienser", "mengde", "vekt", "ingrediente", "ingredientes", "cantidad",
    "quantite", "rohstoff", "what", "how much", "notes", "temp", "temperature", "material", "ravare", "peso",
    "poids",
];

/// What a table of steps has.
#[rustfmt::skip]
pub(super) const OF_STEPS: &[&str] = &[
    "step", "steg", "schritt", "etape", "paso", "time", "tid", "zeit", "temps", "tiempo", "hva", "was", "que", "no",
    "nr", "merknad", "bemerkung", "remarque", "nota",
];

/// What heads a table of steps, in its first column.
#[rustfmt::skip]
pub(super) const STEP: &[&str] = &[
    "step", "steps", "steg", "schritt", "etape", "paso", "stage", "process",
];
