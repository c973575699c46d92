//! Sorted maps and sets against the standard library's, on any sequence of changes.

use std::collections::{BTreeMap, BTreeSet};

use domain::sorted::{Map, Set, by_key};
use proptest::prelude::*;

#[derive(Debug, Clone)]
enum Change {
    Insert(u8, u16),
    Remove(u8),
    Add(u8, u16),
}

fn change() -> impl Strategy<Value = Change> {
    // Few keys, so that most of them are met again.
    let key = 0..12_u8;
    prop_oneof![
        (key.clone(), 0..99_u16).prop_map(|(key, value)| Change::Insert(key, value)),
        key.clone().prop_map(Change::Remove),
        (key, 0..99_u16).prop_map(|(key, value)| Change::Add(key, value)),
    ]
}

proptest! {
    #[test]
    fn a_map_does_what_the_standard_one_does(changes in prop::collection::vec(change(), 0..60)) {
        let (mut ours, mut theirs) = (Map::new(), BTreeMap::new());
        for change in changes {
            match change {
                Change::Insert(key, value) => {
                    prop_assert_eq!(ours.insert(key, value), theirs.insert(key, value));
                }
                Change::Remove(key) => prop_assert_eq!(ours.remove(&key), theirs.remove(&key)),
                Change::Add(key, value) => {
                    *ours.or_default(key) += value;
                    *theirs.entry(key).or_default() += value;
                }
            }
            prop_assert!(ours.iter().eq(theirs.iter()));
            prop_assert!(ours.keys().rev().eq(theirs.keys().rev()));
            prop_assert_eq!(ours.len(), theirs.len());
            for key in 0..12 {
                prop_assert_eq!(ours.get(&key), theirs.get(&key));
            }
        }
    }

    #[test]
    fn a_set_does_what_the_standard_one_does(changes in prop::collection::vec(change(), 0..60)) {
        let (mut ours, mut theirs) = (Set::new(), BTreeSet::new());
        for change in changes {
            match change {
                Change::Insert(key, _) | Change::Add(key, _) => {
                    prop_assert_eq!(ours.insert(key), theirs.insert(key));
                }
                Change::Remove(key) => prop_assert_eq!(ours.remove(&key), theirs.remove(&key)),
            }
            prop_assert!(ours.iter().eq(theirs.iter()));
        }
    }
}

proptest! {
    #[test]
    fn by_key_sorts_as_the_standard_library_does(
        mut items in prop::collection::vec((0_u8..8, any::<u16>()), 0..60),
    ) {
        let mut expected = items.clone();
        expected.sort_by_key(|&(key, _)| key);
        by_key(&mut items, |&(key, _)| key);
        prop_assert_eq!(items, expected);
    }
}
