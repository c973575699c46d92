//! Words in and under a drawn rise.

use domain::bake::Drawn;
use domain::decimal::fixed;
use domain::units::{Celsius, Moment};
use platform::clock::time_of_day;
use platform::store::Degrees;

use super::quantity::{at, temperature, temperature_unit, window};

/// The mark that the water comes up to.
pub(crate) const READY: &str = "ready";
/// The line of the present.
pub(crate) const NOW: &str = "now";
/// A mark on the water.
pub(crate) const FOLD: &str = "fold";

/// What the upper line is, and its unit.
pub(crate) fn dough_in(degrees: Degrees) -> String {
    format!("dough {}", temperature_unit(degrees))
}

/// "likely 14:20".
pub(crate) fn likely(moment: Moment) -> String {
    format!("likely {}", time_of_day(moment))
}

/// What a drawing shows, for whoever can't see it.
pub(crate) fn rise(drawn: &Drawn, now: Moment, degrees: Degrees) -> String {
    let points = &drawn.points;
    let here = points.partition_point(|point| point.at <= now);
    let (first, here) = (&points[0], &points[here.saturating_sub(1)]);
    let mut said = format!(
        "The rise, drawn. Start {}: {}. Now {}: {}, {}\u{a0}% risen. Ready {}.",
        time_of_day(first.at),
        temperature(first.dough.likely(), degrees),
        time_of_day(now),
        temperature(here.dough.likely(), degrees),
        fixed(here.progress.likely().get() * 100.0, 0),
        window(&drawn.window),
    );
    for &fold in &drawn.folds {
        said += &format!(" Fold {}.", at(fold));
    }
    said
}

/// What the lines are, a line each: the rise in the kitchen of a temperature, and as it is where that is another.
pub(crate) fn kitchens(
    as_it_is: Moment,
    air: Celsius,
    would_be: Option<Moment>,
    degrees: Degrees,
) -> String {
    let solid = format!(
        "Solid line: at {}, {}.",
        temperature(air, degrees),
        likely(would_be.unwrap_or(as_it_is))
    );
    match would_be {
        None => solid,
        Some(_) => format!("{solid}\nDashed line: as it is, {}.", likely(as_it_is)),
    }
}
