//! What part of a formula a heading names: dough, preferment, filling, wash, glaze or coating.

use domain::food::unaccented;
use domain::formula::ComponentKind;

use super::words::SMALL;

/// Words that tell what part is named, in lower case and without accents, the surest first. A star stands for any ending
/// or beginning.
#[rustfmt::skip]
static PARTS: &[(ComponentKind, &[&str])] = &[
    (ComponentKind::Preferment, &[
        "preferment", "pre-ferment", "poolish", "biga", "sponge", "levain", "starter", "leaven", "vorteig",
        "*vorteig", "sauerteig", "ansatz", "fermento", "prefermento", "masa madre", "esponja", "fordeig", "surdeig",
        "surdeigen", "levain-chef", "pate fermentee", "dampfl", "dampferl", "hefestuck", "starteren", "old dough",
    ]),
    (ComponentKind::Wash, &[
        "wash", "egg wash", "eggwash", "dorure", "to brush", "for brushing", "brushing", "zum bestreichen",
        "bestreichen", "pour dorer", "dorer", "pintar", "pincelar", "para pintar", "pensling", "til pensling",
        "to glaze before baking",
    ]),
    (ComponentKind::Filling, &[
        "filling*", "fullung", "*fullung", "belag", "garniture", "farce", "relleno*", "fyll", "fyllet", "fylling",
        "*fyll", "cream", "creme", "*creme", "custard", "jam", "confiture", "mermelada", "syltetoy", "puddingcreme",
        "paste", "crema", "vaniljekrem", "krem", "compote", "kompott", "mus", "butterfullung", "inside",
        "frangipane", "praline", "krokant",
    ]),
    (ComponentKind::Glaze, &[
        "glaze", "icing", "syrup", "frosting", "guss", "zuckerguss", "glasur", "glacage", "sirop", "sirup",
        "glaseado", "almibar", "glasur*", "melisglasur", "lake", "nappage",
    ]),
    (ComponentKind::Coating, &[
        "coating", "topping*", "streusel", "crumble", "crust", "decoration", "to finish", "to decorate", "to dust",
        "to sprinkle", "finishing", "zum bestreuen", "bestreuen", "streusel*", "dekoration", "verzierung",
        "zum walzen", "finition", "pour la finition", "deco", "cobertura", "para decorar", "decorar", "pynt",
        "til pynt", "topp", "dryss", "to coat", "to roll", "sugar crust", "for dusting", "seeds", "koststuck",
    ]),
    (ComponentKind::Dough, &[
        "dough", "main dough", "final dough", "teig", "hauptteig", "*teig", "brotteig", "hefeteig", "pate",
        "la pate", "pate finale", "masa", "masa final", "la masa", "deig", "deigen", "hoveddeig", "gjaerdeig",
    ]),
    // A soaker or a cooked paste is made ahead like a filling, whatever becomes of it.
    (ComponentKind::Filling, &[
        "soaker", "tangzhong", "scald", "roux", "quellstuck", "bruhstuck", "kochstuck", "mehlkochstuck", "porridge",
        "bloting", "skalding", "remojo", "trempage", "saatenstuck",
    ]),
];

/// What a dough becomes names it where nothing else does: "For the buns", but "Glaze for the buns".
#[rustfmt::skip]
const BREADS: &[&str] = &[
    "brioche", "rolls", "buns", "loaf", "brot", "brotchen", "pain", "pan", "brod", "boller", "base", "bread",
    "braid", "zopf", "brioches", "panecillos", "bollos", "knuter", "snurrer", "loaves", "bun", "roll",
];

/// Behind these words stands what something is made with, and not what it is: "pain au levain".
const WITH: &[&str] = &["au", "aux", "with", "mit", "med", "con"];

/// What part a heading names.
pub(crate) fn part_kind(said: &str) -> Option<ComponentKind> {
    let said = unaccented(said);
    let words: Vec<&str> = said
        .split(|letter: char| !letter.is_alphanumeric() && letter != '\'' && letter != '-')
        .filter(|word| !word.is_empty())
        .collect();
    let with = words.iter().position(|word| WITH.contains(word));
    with.and_then(|with| kind_of(&words[..with]))
        .or_else(|| kind_of(&words))
}

fn kind_of(words: &[&str]) -> Option<ComponentKind> {
    let joined = words.join(" ");
    // What stands last is named: "almond cream filling". Of "Vorteig" and "Teig", which end alike, the surer one is meant.
    let mut best: Option<(usize, ComponentKind)> = None;
    let mut start = 0;
    for word in words {
        let end = start + word.len();
        for &(kind, names) in PARTS {
            for name in names {
                if let Some(end) = end_of(name, &joined, start, end)
                    && best.is_none_or(|(best, _)| end > best)
                {
                    best = Some((end, kind));
                }
            }
        }
        start = end + 1;
    }
    // A bread flour is no bread.
    let is_bread = || words.last().is_some_and(|last| BREADS.contains(last));
    best.map(|(_, kind)| kind)
        .or_else(|| is_bread().then_some(ComponentKind::Dough))
}

/// Where a name ends that begins or ends with the word from a place to another, all in bytes.
fn end_of(name: &str, joined: &str, start: usize, end: usize) -> Option<usize> {
    if let Some(tail) = name.strip_prefix('*') {
        return joined[start..end].ends_with(tail).then_some(end);
    }
    let (part, is_stem) = match name.strip_suffix('*') {
        Some(stem) => (stem, true),
        None => (name, false),
    };
    let behind = joined[start..].strip_prefix(part)?;
    let is_whole = is_stem || behind.is_empty() || behind.starts_with(' ');
    is_whole.then_some(start + part.len())
}

/// Whether a heading says no more than what part it is: "Glaze", but not "Quick jam".
pub(crate) fn is_plain(name: &str) -> bool {
    let said = unaccented(name);
    let mut words = said
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty());
    words.all(|word| SMALL.contains(&word) || part_kind(word).is_some())
}
