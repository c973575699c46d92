//! Words of headings, in lower case and without accents.

/// What begins the ingredients.
#[rustfmt::skip]
pub(super) const INGREDIENTS: &[&str] = &[
    "ingredients", "ingredient list", "what goes in", "goes in", "you take", "stuff", "materials",
    "for the whole thing", "was rein kommt", "man nehme", "ce qu'il faut", "hva du trenger", "varer",
    "lo que necesitas", "que necesitas", "what you need", "you need", "you will need", "you'll need",
    "shopping list", "formula",
    "zutaten", "zutatenliste", "man braucht", "das brauchst du", "du brauchst", "ingredients pour",
    "les ingredients", "il faut", "il vous faut", "il te faut", "hace falta", "trenger du", "pour la recette",
    "ingredientes", "los ingredientes", "necesitas", "ingredienser", "dette trenger du", "du trenger",
    "det du trenger", "ingrediensene",
];

/// What begins the steps.
#[rustfmt::skip]
pub(super) const METHOD: &[&str] = &[
    "method", "directions", "what you do", "how you do it", "how it's done", "how we make it", "working method",
    "so geht's / method", "schritt fur schritt", "wie es geht", "ce qu'on fait", "lo que haces", "hva du gjor",
    "step by step", "instructions", "steps", "preparation", "procedure", "how to make it", "how to make", "process",
    "what to do", "the method", "making it", "to make",
    "zubereitung", "anleitung", "so geht's", "so geht es", "so wird's gemacht", "herstellung", "arbeitsschritte",
    "vorgehen", "ablauf",
    "preparacion", "elaboracion", "instrucciones", "pasos", "modo de preparacion", "procedimiento", "como se hace",
    "fremgangsmate", "slik gjor du", "slik gjor du det", "framgangsmate", "gjor slik", "tilberedning",
    "realisation", "recette", "etapes", "deroulement", "marche a suivre",
];

/// What begins what is nothing to bake by.
#[rustfmt::skip]
pub(super) const ASIDE: &[&str] = &[
    "notes", "note", "tips", "tip", "nutrition", "nutrition facts", "nutritional information", "comments",
    "equipment", "storage", "variations", "variation", "substitutions", "about this recipe", "faq", "reviews",
    "related", "you may also like", "tools", "special equipment", "to store", "leftovers", "p.s", "ps",
    "baker's notes", "cook's notes", "cook's tip", "freezing", "homework", "serving suggestion", "per serving",
    "per piece", "key facts", "advertisement",
    "notizen", "hinweis", "hinweise", "tipp", "tipps", "nahrwerte", "nahrwerte pro stuck", "kommentare",
    "anmerkung", "anmerkungen", "ausserdem brauchst du", "zubehor", "gerate", "werkzeug", "tipp zum schluss",
    "aufbewahrung",
    "remarques", "remarque", "conseil", "conseils", "astuce", "astuces", "valeurs nutritionnelles", "commentaires",
    "materiel", "conservation", "variante", "variantes", "ustensiles",
    "notas", "nota", "consejos", "consejo", "informacion nutricional", "comentarios", "utensilios", "truco",
    "trucos", "conservacion",
    "notater", "notat", "merk", "tips til slutt", "naeringsinnhold", "kommentarer", "utstyr", "oppbevaring",
];

/// What begins the heading of a part whatever it is called.
#[rustfmt::skip]
pub(super) const FOR: &[&str] = &[
    "for the", "for a", "for", "to", "fur den", "fur die", "fur das", "fur", "zum", "pour la", "pour le",
    "pour les", "pour l'", "pour", "para la", "para el", "para los", "para las", "para", "til", "til selve",
    "til a",
];

/// What may stand behind a heading of the ingredients or steps: "Method for the rolls".
#[rustfmt::skip]
pub(super) const OF_WHAT: &[&str] = &[
    " for ", " fur ", " (", " pour ", " para ", " til ", ":",
];

/// Words beside the name of a part that tell nothing more.
#[rustfmt::skip]
pub(super) const SMALL: &[&str] = &[
    "the", "for", "to", "and", "la", "le", "der", "die", "das", "egg", "del", "de",
];
