//! What the dough of a formula holds, and what of it is out of the usual.

use domain::decimal::plain;
use domain::formula::usual::{Measure, Reading};
use domain::formula::{Brings, Formula};
use domain::units::BakersPercent;
use domain::yeast::slowing::{self, LEAN};

use crate::words::quantity::percent;

/// The dough's water: "Hydration 62 % of the flour, counting the water in every ingredient."
pub(crate) fn hydration(formula: &Formula) -> String {
    format!(
        "Hydration {} of the flour, counting the water in every ingredient.",
        percent(formula.hydration())
    )
}

/// What the dough can hold, in the order of [`Brings::ALL`].
const HELD: [&str; 7] = [
    "Water",
    "Sugar",
    "Fat",
    "Egg",
    "Salt",
    "Yeast, counted as fresh",
    "Flour in the preferment",
];

/// What the dough holds, a line each, and where it comes from: "Water 56 %: 40 from whole milk, 13 from beaten egg".
pub(crate) fn holds(formula: &Formula) -> Vec<String> {
    let mut lines = Vec::new();
    for (what, held) in Brings::ALL.into_iter().zip(HELD) {
        let from = formula.brought(what);
        let whole: BakersPercent = from.iter().map(|(_, brought)| *brought).sum();
        let mut line = format!("{held} {}", percent(whole));
        // What is less than half a percent of the flour is there, but nothing hangs on it.
        let mut before = ": ";
        for (name, brought) in from.iter().filter(|_| from.len() > 1) {
            if brought.get() >= 0.5 {
                for part in [before, &plain(brought.get(), 0), " from ", name] {
                    line.push_str(part);
                }
                before = ", ";
            }
        }
        if !from.is_empty() {
            lines.push(line);
        }
    }
    lines.extend(slowed(formula));
    lines
}

/// What its sugar and salt do to its pace; nothing where nobody would notice:
/// "Sugar 14 % and salt 2 %: its yeast works at about 30 % of a lean dough's pace, 15 to 65 %. Its times hold that already."
fn slowed(formula: &Formula) -> Option<String> {
    let now = formula.slowing();
    let pace = slowing::pace(LEAN, now);
    // To a twentieth, as far as any of it is known.
    let [low, likely, high] =
        [pace.low(), pace.likely(), pace.high()].map(|pace| (pace * 20.0).round() * 5.0);
    (likely < 100.0).then(|| {
        [
            "Sugar ",
            &percent(now.sugar),
            " and salt ",
            &percent(now.salt),
            ": its yeast works at about ",
            &percent(BakersPercent::clamped(likely)),
            " of a lean dough's pace, ",
            &plain(low, 0),
            " to ",
            &percent(BakersPercent::clamped(high)),
            ". Its times hold that already.",
        ]
        .concat()
    })
}

/// That something is out of the usual.
pub(crate) fn unusual(reading: &Reading) -> String {
    let what = match reading.measure {
        Measure::Hydration => "Hydration",
        Measure::Sugar => "Sugar",
        Measure::Fat => "Fat",
        Measure::Salt => "Salt",
        Measure::FreshYeast => "Yeast, counted as fresh,",
    };
    format!(
        "{what} is {} of the flour; usual is {} to {}. Check the amounts.",
        percent(reading.found),
        percent(reading.least),
        percent(reading.most)
    )
}
