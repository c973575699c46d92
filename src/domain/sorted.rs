//! Maps and sets as sorted vectors, for the few dozen entries of a bake.
//!
//! They do what `BTreeMap` and `BTreeSet` do, in order, and are cloned and read faster at this size.
//! The point is the code that the phone loads: about a tenth, for every kind of entry.
//! A lookup is a binary search; an insertion moves what comes after it.

use std::borrow::Borrow;
use std::iter::FusedIterator;

/// Puts a few dozen items in the order of their keys; those whose keys are the same stay as they were.
///
/// The standard library sorts thousands as well, by code that is compiled anew for each kind of item.
pub fn by_key<T, K: Ord>(items: &mut [T], key: impl Fn(&T) -> K) {
    sink_each(items.len(), &mut |at| {
        let sinks = key(&items[at]) < key(&items[at - 1]);
        if sinks {
            items.swap(at, at - 1);
        }
        sinks
    });
}

/// Lets each item sink among those before it as long as it does.
fn sink_each(count: usize, sinks: &mut dyn FnMut(usize) -> bool) {
    for from in 1..count {
        let mut at = from;
        while at > 0 && sinks(at) {
            at -= 1;
        }
    }
}

/// A map whose entries stand in the order of their keys.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Map<K, V> {
    entries: Vec<(K, V)>,
}

/// A set whose members stand in order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Set<K> {
    members: Map<K, ()>,
}

impl<K, V> Map<K, V> {
    /// A map of nothing.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            entries: Vec::new(),
        }
    }

    /// How many entries there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is no entry.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// The entries, in order.
    pub fn iter(
        &self,
    ) -> impl DoubleEndedIterator<Item = (&K, &V)> + ExactSizeIterator + FusedIterator + Clone {
        self.entries.iter().map(|(key, value)| (key, value))
    }

    /// The keys, in order.
    pub fn keys(
        &self,
    ) -> impl DoubleEndedIterator<Item = &K> + ExactSizeIterator + FusedIterator + Clone {
        self.entries.iter().map(|(key, _)| key)
    }

    /// The values, in the order of their keys.
    pub fn values(
        &self,
    ) -> impl DoubleEndedIterator<Item = &V> + ExactSizeIterator + FusedIterator + Clone {
        self.entries.iter().map(|(_, value)| value)
    }
}

impl<K: Ord, V> Map<K, V> {
    fn place<Q: Ord + ?Sized>(&self, key: &Q) -> Result<usize, usize>
    where
        K: Borrow<Q>,
    {
        self.entries
            .binary_search_by(|(known, _)| known.borrow().cmp(key))
    }

    /// The value of a key.
    #[must_use]
    pub fn get<Q: Ord + ?Sized>(&self, key: &Q) -> Option<&V>
    where
        K: Borrow<Q>,
    {
        let place = self.place(key).ok()?;
        self.entries.get(place).map(|(_, value)| value)
    }

    /// The value of a key, to be changed.
    pub fn get_mut(&mut self, key: &K) -> Option<&mut V> {
        let place = self.place(key).ok()?;
        self.entries.get_mut(place).map(|(_, value)| value)
    }

    /// Whether the key has a value.
    #[must_use]
    pub fn contains_key<Q: Ord + ?Sized>(&self, key: &Q) -> bool
    where
        K: Borrow<Q>,
    {
        self.place(key).is_ok()
    }

    /// Gives a key its value; what it had before.
    pub fn insert(&mut self, key: K, value: V) -> Option<V> {
        match self.place(&key) {
            Ok(place) => Some(std::mem::replace(&mut self.entries[place].1, value)),
            Err(place) => {
                self.entries.insert(place, (key, value));
                None
            }
        }
    }

    /// The value of a key, which gets a default one if it has none.
    pub fn or_default(&mut self, key: K) -> &mut V
    where
        V: Default,
    {
        let place = self.place(&key).unwrap_or_else(|place| {
            self.entries.insert(place, (key, V::default()));
            place
        });
        &mut self.entries[place].1
    }

    /// Takes everything away.
    pub fn clear(&mut self) {
        self.entries.clear();
    }

    /// Takes a key and its value away.
    pub fn remove(&mut self, key: &K) -> Option<V> {
        let place = self.place(key).ok()?;
        Some(self.entries.remove(place).1)
    }
}

impl<K: Ord> Set<K> {
    /// A set of nothing.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            members: Map::new(),
        }
    }

    /// How many members there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.members.len()
    }

    /// Whether there is no member.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.members.is_empty()
    }

    /// Whether it is a member.
    #[must_use]
    pub fn contains<Q: Ord + ?Sized>(&self, member: &Q) -> bool
    where
        K: Borrow<Q>,
    {
        self.members.contains_key(member)
    }

    /// Makes it a member; whether it wasn't one before.
    pub fn insert(&mut self, member: K) -> bool {
        self.members.insert(member, ()).is_none()
    }

    /// Takes a member away; whether it was one.
    pub fn remove(&mut self, member: &K) -> bool {
        self.members.remove(member).is_some()
    }

    /// The members, in order.
    pub fn iter(
        &self,
    ) -> impl DoubleEndedIterator<Item = &K> + ExactSizeIterator + FusedIterator + Clone {
        self.members.keys()
    }
}

impl<K, V> Default for Map<K, V> {
    fn default() -> Self {
        Self::new()
    }
}

impl<K: Ord> Default for Set<K> {
    fn default() -> Self {
        Self::new()
    }
}

impl<K: Ord, V> Extend<(K, V)> for Map<K, V> {
    fn extend<I: IntoIterator<Item = (K, V)>>(&mut self, entries: I) {
        for (key, value) in entries {
            self.insert(key, value);
        }
    }
}

impl<K: Ord, V> FromIterator<(K, V)> for Map<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(entries: I) -> Self {
        let mut map = Self::new();
        map.extend(entries);
        map
    }
}

impl<K: Ord> FromIterator<K> for Set<K> {
    fn from_iter<I: IntoIterator<Item = K>>(members: I) -> Self {
        Self {
            members: members.into_iter().map(|member| (member, ())).collect(),
        }
    }
}

impl<K, V> IntoIterator for Map<K, V> {
    type Item = (K, V);
    type IntoIter = std::vec::IntoIter<(K, V)>;

    fn into_iter(self) -> Self::IntoIter {
        self.entries.into_iter()
    }
}

impl<'a, K, V> IntoIterator for &'a Map<K, V> {
    type Item = &'a (K, V);
    type IntoIter = std::slice::Iter<'a, (K, V)>;

    fn into_iter(self) -> Self::IntoIter {
        self.entries.iter()
    }
}

impl<K> IntoIterator for Set<K> {
    type Item = K;
    type IntoIter = std::iter::Map<std::vec::IntoIter<(K, ())>, fn((K, ())) -> K>;

    fn into_iter(self) -> Self::IntoIter {
        self.members.entries.into_iter().map(|(member, ())| member)
    }
}
