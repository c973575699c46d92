//! Words of lines that say nothing to bake by, in lower case and without accents.

/// How a line begins that is about the bake as a whole.
#[rustfmt::skip]
pub(super) const BEGINS: &[&str] = &[
    "prep time", "prep", "preparation time", "cook time", "cooking time", "total time", "baking time", "bake time",
    "active time", "rest time", "rising time", "ready in", "time", "difficulty", "level", "rating", "ratings",
    "author", "by", "from", "source", "category", "cuisine", "course", "keywords", "tags", "updated", "published",
    "posted", "print", "share", "save", "pin", "jump to", "photo", "photos", "total", "subtotal", "sum",
    "total weight", "total dough", "total flour", "unit weight", "units", "product", "pre-fermented flour",
    "prefermented flour", "mehlmenge gesamt", "teigeinlage", "sum mel", "piece weight", "batch size",
    "number of pieces", "baker's percentage", "tin size", "dough weight", "yield per", "hydration", "energy",
    "calories", "kcal", "cost", "allergens", "contains", "equipment", "advertisement", "ad", "subscribe", "follow",
    "copyright", "step photos", "video", "oven temperature", "skill",
    "zubereitungszeit", "arbeitszeit", "backzeit", "kochzeit", "gesamtzeit", "ruhezeit", "gehzeit", "schwierigkeit",
    "schwierigkeitsgrad", "von", "quelle", "kategorie", "bewertung", "teigausbeute", "gesamt", "gesamtgewicht",
    "gesamtteig", "summe", "nahrwerte", "kalorien", "ta",
    "temps de preparation", "temps de cuisson", "temps de repos", "temps total", "cuisson", "repos", "difficulte",
    "cout", "niveau", "total de",
    "tiempo de preparacion", "tiempo de coccion", "tiempo de reposo", "tiempo total", "tiempo", "dificultad",
    "coste",
    "tid", "total tid", "steketid", "hevetid", "arbeidstid", "vanskelighetsgrad", "kilde", "sum deig", "totalt",
    "til sammen",
];

/// Words that make any line one to leave out.
#[rustfmt::skip]
pub(super) const ANYWHERE: &[&str] = &[
    "kcal", "kj", "calories", "kalorien", "calorias", "ratings", "stars", "likes", "subscribe", "newsletter",
    "cookies", "http", "https", "www", "©", "copyright",
];

/// How a row of a table begins that adds up the others.
#[rustfmt::skip]
pub(super) const TOTALS: &[&str] = &[
    "total", "totals", "totale", "sum", "summe", "gesamt", "gesamtgewicht", "totalt", "teiggewicht", "deigvekt",
];

/// What a price is in.
#[rustfmt::skip]
pub(super) const CURRENCIES: &[&str] = &[
    "eur", "euro", "euros", "usd", "gbp", "nok", "kr", "chf",
];
