//! Grain and bread, and what is left: words that say little.

use super::Head;
use crate::foods::Certainty::{KindOnly, Likely, Named};

/// The stronger head first.
#[rustfmt::skip]
pub(super) static HEADS: &[Head] = &[
    ("oat", &[("", "rolled-oats", Named)]),
    ("bread", &[
        ("", "bread", Likely),
        ("white", "bread", Named),
        ("stale", "bread", Named),
        ("rye", "bread-rye", Named),
    ]),
    ("quinoa", &[("", "quinoa", Named)]),
    ("couscous", &[("", "couscous", Named)]),
    ("bulgur", &[("", "bulgur", Named)]),
    ("millet", &[("", "millet", Named)]),
    ("rice", &[("", "rice", Named)]),
    ("tapioca", &[("", "tapioca", Named)]),
    ("arrowroot", &[("", "arrowroot", Named)]),
    ("barley", &[
        ("", "barley", Named),
        ("pearl", "barley", Named),
    ]),
    ("malt", &[("", "malt-flour", Likely)]),
    ("buckwheat", &[("", "buckwheat-flour", Likely)]),
    ("corn", &[("", "sweetcorn", Likely)]),
    ("durum", &[("", "durum-flour", Likely)]),
    ("chickpea", &[("", "some-other", KindOnly)]),
    ("soy", &[("", "some-other", KindOnly)]),
    ("rye", &[
        ("", "rye-flour-medium", Likely),
        ("light", "rye-flour-light", Named),
        ("medium", "rye-flour-medium", Named),
        ("dark", "rye-flour-dark", Named),
        ("wholemeal", "rye-flour-dark", Named),
    ]),
    ("spelt", &[
        ("", "spelt-flour", Likely),
        ("wholemeal", "spelt-flour-whole", Likely),
    ]),
    ("wheat", &[
        ("", "all-purpose-flour", Likely),
        ("plain", "all-purpose-flour", Named),
        ("strong", "bread-flour", Named),
        ("highextraction", "high-extraction-flour", Named),
        ("wholemeal", "whole-wheat-flour", Likely),
    ]),
    ("glucose", &[("", "glucose-syrup", Likely)]),
    ("icing", &[("", "icing-sugar", Likely)]),
    ("muscovado", &[("", "muscovado-sugar", Named)]),
    ("demerara", &[("", "demerara-sugar", Named)]),
    ("vegetable", &[("", "some-other", KindOnly)]),
    ("mix", &[
        ("", "some-other", KindOnly),
        ("flour", "some-flour", KindOnly),
        ("seed", "some-nut", KindOnly),
        ("nut", "some-nut", KindOnly),
        ("berry", "some-fruit", KindOnly),
        ("spice", "some-spice", KindOnly),
        ("herb", "some-spice", KindOnly),
        ("fruit", "some-fruit", KindOnly),
    ]),
    ("fish", &[("", "some-other", KindOnly)]),
    ("meat", &[("", "some-other", KindOnly)]),
    ("exotic", &[("", "some-other", KindOnly)]),
];
