use super::{ENDINGS, FILLERS, STOPS, TABLES, exact};
use crate::foods::rules::heads;
use std::collections::BTreeSet;

#[test]
fn the_tables_are_in_order_and_their_meanings_are_used() {
    assert!(FILLERS.is_sorted());
    assert!(STOPS.is_sorted());
    assert!(!ENDINGS.is_empty());
    let mut used: BTreeSet<&str> = heads().map(|(head, _)| *head).collect();
    let rules = heads().flat_map(|(_, rules)| rules.iter());
    used.extend(rules.flat_map(|(with, ..)| with.split(' ')));
    for table in TABLES {
        assert!(table.is_ascii());
        let words = table.lines().map(|line| line.split('=').next());
        assert!(words.is_sorted());
        for line in table.lines() {
            let (word, meaning) = line.split_once('=').expect("a word and its meaning");
            assert_eq!(exact(word), Some(meaning), "{word}");
            for plain in meaning.split(' ') {
                assert!(
                    used.contains(plain),
                    "{word} means {plain}, which says nothing"
                );
            }
        }
    }
}
