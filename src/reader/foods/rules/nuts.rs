//! Nuts and fruit.

use super::Head;
use crate::foods::Certainty::{KindOnly, Likely, Named};

/// The stronger head first.
#[rustfmt::skip]
pub(super) static HEADS: &[Head] = &[
    ("poppy", &[("", "poppy-seeds", Named)]),
    ("sesame", &[("", "sesame-seeds", Named)]),
    ("sunflower", &[("", "sunflower-seeds", Likely)]),
    ("linseed", &[("", "linseed", Named)]),
    ("chia", &[("", "chia-seeds", Named)]),
    ("chestnut", &[("", "chestnuts", Named)]),
    ("coconut", &[("", "coconut", Named)]),
    ("almond", &[
        ("", "almonds", Named),
        ("ground", "almonds-ground", Named),
        ("sliced", "almonds-flaked", Named),
        ("blanched", "almonds-blanched", Named),
        ("ground blanched", "almonds-ground", Named),
        ("sliced blanched", "almonds-flaked", Named),
    ]),
    ("hazelnut", &[("", "hazelnuts", Named)]),
    ("walnut", &[("", "walnuts", Named)]),
    ("pecan", &[("", "pecans", Named)]),
    ("pistachio", &[("", "pistachios", Named)]),
    ("cashew", &[("", "cashews", Named)]),
    ("macadamia", &[("", "macadamias", Named)]),
    ("brazil", &[("", "brazil-nuts", Named)]),
    ("pinenut", &[("", "pine-nuts", Named)]),
    ("peanut", &[("", "peanuts", Named)]),
    ("nut", &[
        ("", "some-nut", KindOnly),
        ("almond", "almonds", Named),
        ("walnut", "walnuts", Named),
        ("macadamia", "macadamias", Named),
        ("pistachio", "pistachios", Named),
        ("brazil", "brazil-nuts", Named),
        ("pecan", "pecans", Named),
        ("cashew", "cashews", Named),
        ("peanut", "peanuts", Named),
        ("hazelnut", "hazelnuts", Named),
    ]),
    ("driedfruit", &[("", "mixed-dried-fruit", Named)]),
    ("apple", &[
        ("", "apples", Named),
        ("dry", "apples-dried", Named),
    ]),
    ("pear", &[
        ("", "pears", Named),
        ("dry", "mixed-dried-fruit", Likely),
    ]),
    ("quince", &[("", "quinces", Named)]),
    ("prune", &[("", "prunes", Named)]),
    ("plum", &[
        ("", "plums", Named),
        ("dry", "prunes", Named),
    ]),
    ("apricot", &[
        ("", "apricots", Likely),
        ("fresh", "apricots", Named),
        ("dry", "apricots-dried", Named),
    ]),
    ("nectarine", &[("", "nectarines", Named)]),
    ("peach", &[
        ("", "peaches", Named),
        ("dry", "mixed-dried-fruit", Likely),
    ]),
    ("cherry", &[
        ("", "cherries", Named),
        ("sour", "cherries-sour", Named),
        ("dry", "cherries-dried", Named),
        ("sour dry", "cherries-dried", Named),
        ("candied", "cherries-candied", Named),
        ("tinned", "cherries-tinned", Named),
    ]),
    ("blackberry", &[("", "blackberries", Named)]),
    ("blueberry", &[
        ("", "blueberries", Named),
        ("dry", "mixed-dried-fruit", Likely),
    ]),
    ("raspberry", &[
        ("", "raspberries", Named),
        ("dry", "mixed-dried-fruit", Likely),
    ]),
    ("strawberry", &[
        ("", "strawberries", Named),
        ("dry", "mixed-dried-fruit", Likely),
    ]),
    ("gooseberry", &[("", "gooseberries", Named)]),
    ("blackcurrant", &[("", "blackcurrants", Named)]),
    ("redcurrant", &[
        ("", "redcurrants", Named),
        ("black", "blackcurrants", Named),
    ]),
    ("currant", &[
        ("", "currants", Named),
        ("red", "redcurrants", Named),
        ("black", "blackcurrants", Named),
    ]),
    ("cranberry", &[
        ("", "cranberries", Named),
        ("dry", "cranberries-dried", Named),
    ]),
    ("rhubarb", &[("", "rhubarb", Named)]),
    ("banana", &[
        ("", "bananas", Named),
        ("dry", "mixed-dried-fruit", Likely),
    ]),
    ("pineapple", &[
        ("", "pineapple", Named),
        ("dry", "mixed-dried-fruit", Likely),
    ]),
    ("mango", &[
        ("", "mangoes", Named),
        ("dry", "mixed-dried-fruit", Likely),
    ]),
    ("raisin", &[
        ("", "raisins", Named),
        ("golden", "sultanas", Named),
    ]),
    ("sultana", &[("", "sultanas", Named)]),
    ("grape", &[("", "grapes", Named)]),
    ("fig", &[
        ("", "figs", Likely),
        ("fresh", "figs", Named),
        ("dry", "figs-dried", Named),
    ]),
    ("date", &[("", "dates", Named)]),
    ("orange", &[("", "oranges", Named)]),
    ("lime", &[("", "limes", Named)]),
    ("lemon", &[("", "lemons", Named)]),
    ("berry", &[("", "some-fruit", KindOnly)]),
    ("exoticfruit", &[("", "some-fruit", KindOnly)]),
    ("fruit", &[
        ("", "some-fruit", KindOnly),
        ("dry", "mixed-dried-fruit", Named),
        ("candied", "candied-fruit", Named),
    ]),
];
