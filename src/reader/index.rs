//! Words looked up by their hash: a line asks for hundreds of them, and halving the tables for each took five times as
//! long.

/// Something to every word. Built once, and never larger than there are `u16`.
pub(crate) struct Index<T> {
    /// At the hash of a word or behind it, one more than its place in `entries`; nought where nothing is.
    slots: Vec<u16>,
    entries: Vec<(&'static str, T)>,
}

impl<T: Copy> Index<T> {
    /// Of two entries with the same word the first counts.
    pub(crate) fn of(entries: impl Iterator<Item = (&'static str, T)>) -> Self {
        let entries: Vec<_> = entries.take(usize::from(u16::MAX)).collect();
        let mut index = Self {
            // Half of them stay free, so that a word that isn't there is missed soon.
            slots: vec![0; (2 * entries.len()).next_power_of_two()],
            entries: Vec::new(),
        };
        for (word, meaning) in entries {
            let slot = index.slot(word);
            if index.slots[slot] == 0 {
                index.entries.push((word, meaning));
                index.slots[slot] = index.entries.len() as u16;
            }
        }
        index
    }

    pub(crate) fn get(&self, word: &str) -> Option<T> {
        let place = usize::from(self.slots[self.slot(word)]).checked_sub(1)?;
        Some(self.entries[place].1)
    }

    /// Where a word is, or else would be.
    fn slot(&self, word: &str) -> usize {
        let last = self.slots.len() - 1;
        let mut slot = hash(word) as usize & last;
        loop {
            let place = usize::from(self.slots[slot]);
            if place == 0 || self.entries[place - 1].0 == word {
                return slot;
            }
            slot = (slot + 1) & last;
        }
    }
}

/// FNV-1a, 32 bits.
///
/// Source: Fowler, Noll, Vo and Eastlake, *The FNV Non-Cryptographic Hash Algorithm* (RFC 9923), from memory.
fn hash(word: &str) -> u32 {
    let step = |hash: u32, byte: u8| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193);
    word.bytes().fold(0x811c_9dc5, step)
}

#[cfg(test)]
mod tests {
    use super::{Index, hash};

    #[test]
    fn words_are_found_and_no_others() {
        let words = ["rye", "oat", "spelt", "rye", "durum", "maize", "barley"];
        let index = Index::of(words.into_iter().zip(0..));
        for (place, word) in words.into_iter().enumerate() {
            let first = if place == 3 { 0 } else { place };
            assert_eq!(index.get(word), Some(first), "{word}");
        }
        for word in ["", "ry", "ryee", "gravel", "Rye"] {
            assert_eq!(index.get(word), None, "{word}");
        }
        assert_eq!(Index::of(std::iter::empty::<(&str, ())>()).get("rye"), None);
    }

    /// Source: the test vectors of the algorithm's own page, from memory.
    #[test]
    fn the_hash_is_the_published_one() {
        assert_eq!(hash(""), 0x811c_9dc5);
        assert_eq!(hash("a"), 0xe40c_292c);
        assert_eq!(hash("foobar"), 0xbf9c_f968);
    }
}
