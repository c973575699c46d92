//! The stores of the database, and what lies in them as bare text.

use domain::sorted::Map;

/// One store of the database.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Shelf {
    /// The baker's own formulas, by their name.
    Formulas,
    /// Entries of bakes' logs, by bake and place.
    Bakes,
    /// The kitchen, by one fixed key.
    Kitchen,
    /// What the baker wrote, by bake.
    Notebook,
    /// Formulas that are still being written, by the name they will have.
    Manuscripts,
    /// What plans promised, by one fixed key.
    Plan,
    /// Unreadable texts that had to make room, by the place they lay in.
    SetAside,
}

/// The one key of the kitchen.
pub(super) const KITCHEN_KEY: &str = "kitchen";
/// The one key of what plans promised.
pub(super) const PROMISES_KEY: &str = "promises";

impl Shelf {
    /// Every one of them.
    pub(super) const ALL: [Self; 7] = [
        Self::Formulas,
        Self::Manuscripts,
        Self::Bakes,
        Self::Kitchen,
        Self::Notebook,
        Self::Plan,
        Self::SetAside,
    ];

    /// Its name in the database, which is never changed after release.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Formulas => "formulas",
            Self::Manuscripts => "manuscripts",
            Self::Bakes => "bakes",
            Self::Kitchen => "kitchen",
            Self::Notebook => "notebook",
            Self::Plan => "plan",
            Self::SetAside => "set_aside",
        }
    }

    /// A place on it, in words.
    pub(super) fn place(self, key: &str) -> String {
        format!("{}: {key}", self.name())
    }

    /// The shelf and key of a place in words, unless it is none.
    pub(super) fn of_place(place: &str) -> Option<(Self, &str)> {
        let (name, key) = place.split_once(": ")?;
        let shelf = Self::ALL.into_iter().find(|shelf| shelf.name() == name)?;
        Some((shelf, key))
    }
}

/// Everything that is kept, as text by shelf and key.
pub(super) type Kept = Map<(Shelf, String), String>;

/// The key of an entry. It sorts by bake, then by place in its log.
pub(super) fn entry_key(bake: &str, place: u32) -> String {
    format!("{bake}/{place:06}")
}

/// The bake and the place in its log that a key means.
pub(super) fn of_entry_key(key: &str) -> Option<(&str, u32)> {
    let (bake, place) = key.rsplit_once('/')?;
    let place = place.parse().ok()?;
    (entry_key(bake, place) == key).then_some((bake, place))
}

/// A key that is not taken yet: the wanted one, or that with a number behind it.
pub(super) fn free_key(wanted: &str, is_taken: impl Fn(&str) -> bool) -> String {
    let mut key = wanted.to_owned();
    let mut number = 2_u32;
    while is_taken(&key) {
        key = format!("{wanted} ({number})");
        number = number.saturating_add(1);
    }
    key
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_entry_key_leads_back_to_its_bake_and_place() {
        assert_eq!(of_entry_key(&entry_key("a/b", 12)), Some(("a/b", 12)));
        assert_eq!(
            of_entry_key(&entry_key("a", 1_234_567)),
            Some(("a", 1_234_567))
        );
        assert_eq!(of_entry_key("a/12"), None);
        assert_eq!(of_entry_key("a/+00012"), None);
        assert_eq!(of_entry_key("a"), None);
    }

    #[test]
    fn a_place_leads_back_to_its_shelf_and_key() {
        for shelf in Shelf::ALL {
            let place = shelf.place("some: key");
            assert_eq!(Shelf::of_place(&place), Some((shelf, "some: key")));
        }
        assert_eq!(Shelf::of_place("cellar: x"), None);
    }

    #[test]
    fn a_free_key_is_free() {
        let taken = ["x", "x (2)"];
        assert_eq!(free_key("x", |key| taken.contains(&key)), "x (3)");
        assert_eq!(free_key("y", |key| taken.contains(&key)), "y");
    }
}
