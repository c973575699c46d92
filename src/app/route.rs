//! Where the baker is, as the part of the address behind `#`.
//!
//! Hash addresses work on any static host, in any folder, and offline from the
//! first visit: the browser never asks a server for them.

use domain::bake::BakeId;
use domain::formula::FormulaId;

/// A place in the app.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Route {
    /// Where the baker is today.
    Today,
    /// All formulas.
    Formulas,
    /// One formula, fitted and started.
    Formula(FormulaId),
    /// Where a formula of the baker's own comes in: pasted, opened, or begun with nothing.
    Desk,
    /// A formula that is still being written.
    Manuscript(FormulaId),
    /// The propped view, of one bake or of whichever needs the baker most.
    Bench(Option<BakeId>),
    /// All that runs, in time.
    Plan,
    /// Finished bakes.
    Notebook,
    /// One finished bake.
    Note(BakeId),
    /// What all running bakes take: to buy, to fetch and to set out.
    Gather,
    /// Temperatures, equipment, units, sounds, archive.
    Kitchen,
}

impl Route {
    /// Reads the part of an address behind `#`. What isn't known leads to [`Route::Today`].
    pub(crate) fn read(hash: &str) -> Self {
        let path = hash.trim_start_matches('#').trim_matches('/');
        match path.split_once('/').unwrap_or((path, "")) {
            ("formulas", "") => Self::Formulas,
            ("formulas", id) => Self::Formula(FormulaId(id.to_owned())),
            ("desk", "") => Self::Desk,
            ("desk", id) => Self::Manuscript(FormulaId(id.to_owned())),
            ("bench", "") => Self::Bench(None),
            ("bench", id) => Self::Bench(Some(BakeId(id.to_owned()))),
            ("plan", _) => Self::Plan,
            ("notebook", "") => Self::Notebook,
            ("notebook", id) => Self::Note(BakeId(id.to_owned())),
            ("gather", _) => Self::Gather,
            ("kitchen", _) => Self::Kitchen,
            _ => Self::Today,
        }
    }

    /// The address, with its `#`.
    pub(crate) fn href(&self) -> String {
        match self {
            Self::Today => "#/".to_owned(),
            Self::Formulas => "#/formulas".to_owned(),
            Self::Formula(FormulaId(id)) => format!("#/formulas/{id}"),
            Self::Desk => "#/desk".to_owned(),
            Self::Manuscript(FormulaId(id)) => format!("#/desk/{id}"),
            Self::Bench(None) => "#/bench".to_owned(),
            Self::Bench(Some(BakeId(id))) => format!("#/bench/{id}"),
            Self::Plan => "#/plan".to_owned(),
            Self::Notebook => "#/notebook".to_owned(),
            Self::Note(BakeId(id)) => format!("#/notebook/{id}"),
            Self::Gather => "#/gather".to_owned(),
            Self::Kitchen => "#/kitchen".to_owned(),
        }
    }

    /// Whether its page belongs to the half of the app that comes later.
    pub(crate) fn is_late(&self) -> bool {
        !matches!(self, Self::Today | Self::Formulas)
    }

    /// Goes there; the history keeps where the baker was.
    pub(crate) fn go(&self) {
        platform::page::set_hash(&self.href());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_has_an_address_that_leads_back_to_it() {
        let places = [
            Route::Today,
            Route::Formulas,
            Route::Formula(FormulaId("orange-braid".to_owned())),
            Route::Desk,
            Route::Manuscript(FormulaId("own-1".to_owned())),
            Route::Bench(None),
            Route::Bench(Some(BakeId("b1".to_owned()))),
            Route::Plan,
            Route::Notebook,
            Route::Note(BakeId("b1".to_owned())),
            Route::Gather,
            Route::Kitchen,
        ];
        for place in places {
            assert_eq!(Route::read(&place.href()), place);
        }
    }

    #[test]
    fn an_unknown_address_leads_to_today() {
        assert_eq!(Route::read("#/nowhere/at/all"), Route::Today);
        assert_eq!(Route::read(""), Route::Today);
    }
}
