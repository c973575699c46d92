//! Foods that are weighed as others are, for the database has no household weights of their own.

/// Food, and the number whose weights are the likest. Flours of one grain fill a cup alike, and the
/// whole grains that some rows are of would fill it with half as much again.
const WEIGHED_AS: &[(&str, u32)] = &[
    ("almonds-flaked", 12061),
    ("blackcurrants", 9084),
    ("candied-fruit", 9298),
    ("candied-peel", 9298),
    ("cashews", 12085),
    ("chia-seeds", 12220),
    ("coconut", 12179),
    ("cream-double", 1053),
    ("creme-fraiche", 1056),
    ("demerara-sugar", 19335),
    ("durum-flour", 20066),
    ("gluten", 20081),
    ("goat-cheese", 1019),
    ("gouda", 1009),
    ("hazelnut-spread", 16098),
    ("high-extraction-flour", 20080),
    ("kefir", 1088),
    ("quark", 1036),
    ("skyr", 1116),
    // It is as thick as batter, and stirred down before it is measured.
    ("sourdough-starter", 14429),
    ("spelt-flour", 20081),
    ("spelt-flour-whole", 20080),
    ("teff-flour", 20647),
    ("yoghurt-greek", 1116),
];

/// The number that a food is weighed by instead of its own.
pub(super) fn of(key: &str) -> Option<u32> {
    let place = WEIGHED_AS
        .binary_search_by_key(&key, |(food, _)| food)
        .ok()?;
    Some(WEIGHED_AS[place].1)
}

#[cfg(test)]
mod tests {
    use super::super::super::{food, pantry};
    use super::WEIGHED_AS;

    #[test]
    fn they_are_in_order_and_known() {
        assert!(WEIGHED_AS.is_sorted_by_key(|(key, _)| key));
        for (key, ndb) in WEIGHED_AS {
            assert!(food(key).is_some(), "{key}");
            assert!(!pantry::measures(*ndb).is_empty(), "{key}");
        }
    }
}
