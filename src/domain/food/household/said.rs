//! How a measure is filled, by the words that people use for it in five languages.

use super::super::folded;

/// Beginnings of words, and the database's words for the same.
const MANNERS: &[(&str, &[&str])] = &[
    ("chopped", &["chopped", "pieces"]),
    ("crumbl", &["crumbled"]),
    ("cube", &["cubes", "diced"]),
    ("dados", &["cubes", "diced"]),
    ("diced", &["cubes", "diced"]),
    ("ecras", &["mashed", "pureed"]),
    ("effile", &["sliced"]),
    ("entero", &["whole"]),
    ("entier", &["whole"]),
    ("flaked", &["sliced"]),
    ("ganz", &["whole"]),
    ("gehackt", &["chopped", "pieces"]),
    ("gehobelt", &["sliced"]),
    ("gemahlen", &["ground"]),
    ("gerieb", &["shredded", "grated"]),
    ("gesieb", &["sifted"]),
    ("gewurfelt", &["cubes", "diced"]),
    ("grand", &["large"]),
    ("grated", &["shredded", "grated"]),
    ("grind", &["ground"]),
    ("gross", &["large"]),
    ("ground", &["ground"]),
    ("hache", &["chopped", "pieces"]),
    ("hakke", &["chopped", "pieces"]),
    ("halb", &["halves"]),
    ("halv", &["halves"]),
    ("klein", &["small"]),
    ("lamin", &["sliced"]),
    ("liten", &["small"]),
    ("loose", &["unpacked"]),
    ("malte", &["ground"]),
    ("mashed", &["mashed", "pureed"]),
    ("median", &["medium"]),
    ("medium", &["medium"]),
    ("melted", &["melted"]),
    ("middels", &["medium"]),
    ("mittel", &["medium"]),
    ("molid", &["ground"]),
    ("mos", &["mashed", "pureed"]),
    ("moulu", &["ground"]),
    ("moyen", &["medium"]),
    ("pequen", &["small"]),
    ("petit", &["small"]),
    ("picad", &["chopped", "pieces"]),
    ("puree", &["mashed", "pureed"]),
    ("puriert", &["mashed", "pureed"]),
    ("rallad", &["shredded", "grated"]),
    ("rape", &["shredded", "grated"]),
    ("revet", &["shredded", "grated"]),
    ("roughly", &["chopped", "pieces"]),
    ("scheiben", &["sliced", "slices"]),
    ("shredded", &["shredded", "grated"]),
    ("skive", &["sliced", "slices"]),
    ("slice", &["sliced", "slices"]),
    ("sma", &["small"]),
    ("stor", &["large"]),
    ("tamis", &["sifted"]),
    ("tamiz", &["sifted"]),
    ("tranche", &["sliced", "slices"]),
];

/// What goes without saying of a food; of whatever comes in sizes, the medium one does.
const USUAL: &[(&str, &str)] = &[
    ("almonds-flaked", "sliced"),
    ("almonds-ground", "ground"),
    ("apples", "chopped"),
    ("bread", "crumbs"),
    ("brown-sugar", "packed"),
    ("cake-flour", "unsifted"),
    ("cottage-cheese", "small curd"),
    ("cream", "fluid"),
    ("cream-double", "fluid"),
    ("creme-fraiche", "fluid"),
    ("egg", "large"),
    ("icing-sugar", "unsifted"),
    ("muscovado-sugar", "packed"),
    ("tomatoes", "medium whole"),
    ("walnuts", "chopped"),
];

const SIZES: [&str; 5] = ["small", "medium", "large", "extra", "jumbo"];

/// The words that were said of a measure, as the database has them.
pub(super) struct Manner {
    said: Vec<String>,
    usual: Vec<&'static str>,
}

impl Manner {
    pub(super) fn of(key: &str, said: &str) -> Self {
        let said = folded(said);
        // The letter on a box of eggs; beside it "Größe" is a size, and not "große".
        let letter = said.split(' ').find_map(|word| match word {
            "s" => Some("small"),
            "m" => Some("medium"),
            "l" => Some("large"),
            "xl" => Some("extra"),
            _ => None,
        });
        let letter = letter.filter(|_| key == "egg");
        let mut words: Vec<String> = letter.map(str::to_owned).into_iter().collect();
        for word in said.split(' ') {
            let known = MANNERS
                .iter()
                .filter(|(begins, _)| word.starts_with(begins));
            let meant = known.flat_map(|(_, meant)| meant.iter().copied());
            let meant = meant.filter(|meant| letter.is_none() || !SIZES.contains(meant));
            words.extend(meant.map(str::to_owned));
            words.push(word.to_owned());
        }
        let mut usual: Vec<&'static str> = USUAL
            .iter()
            .filter(|(food, _)| *food == key)
            .flat_map(|(_, usual)| usual.split(' '))
            .collect();
        if !usual.iter().any(|word| SIZES.contains(word)) {
            usual.push("medium");
        }
        let sized = words.iter().any(|word| SIZES.contains(&word.as_str()));
        usual.retain(|word| !(sized && SIZES.contains(word)));
        Self { said: words, usual }
    }

    /// How well a description of the database fits: what was said counts for it, what goes without
    /// saying less, and what was not said against it.
    pub(super) fn fit(&self, description: &str) -> isize {
        // Neither a remark in brackets nor a size in figures describes another way of filling it.
        let is_remark = |letter: char| letter == '(' || letter.is_ascii_digit();
        let plain = description.split(is_remark).next().unwrap_or(description);
        let words = plain.split(|letter: char| !letter.is_alphabetic());
        // The first word is the measure itself, or names the piece.
        let fits = |word: &str| {
            if self.said.iter().any(|said| said == word) {
                7
            } else if self.usual.contains(&word) {
                3
            } else {
                -2
            }
        };
        words.filter(|word| !word.is_empty()).map(fits).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::food;
    use super::{MANNERS, USUAL};

    #[test]
    fn the_tables_are_in_order_and_known() {
        assert!(MANNERS.is_sorted());
        assert!(USUAL.is_sorted());
        for (key, _) in USUAL {
            assert!(food(key).is_some(), "{key}");
        }
    }
}
