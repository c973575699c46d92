//! Words in and under a drawn cooling.

use domain::bake::{Cooled, Stage};
use domain::thermal::cooling::{FROM_AMBIENT, HOT};
use domain::units::Moment;
use platform::clock::time_of_day;
use platform::store::Degrees;

use super::quantity::{span, temperature, temperature_unit, window};

/// What the solid line is, and its unit.
pub(crate) fn middle_in(degrees: Degrees) -> String {
    format!("middle {}", temperature_unit(degrees))
}

/// One of three words: for what surely is in time for a stage of the rule, for what likely is, and for what isn't.
fn verdict<'a>(stage: &Stage, [surely, likely, not]: [&'a str; 3]) -> &'a str {
    let by = |at: Option<Moment>| at.is_some_and(|at| at <= stage.by);
    match (by(stage.late), by(stage.likely)) {
        (true, _) => surely,
        (_, true) => likely,
        _ => not,
    }
}

/// "by 14:20", at a stage's mark, or "late: after 14:20".
pub(crate) fn stage_by(stage: &Stage) -> String {
    let says = verdict(stage, ["by", "likely by", "late: after"]);
    format!("{says} {}", time_of_day(stage.by))
}

/// What the lines are, and what food that spoils has to keep to: a line each.
pub(crate) fn cooling_lines(cooled: &Cooled, degrees: Degrees) -> String {
    let mut said = "Solid line: the middle. Dashed line: all of it, on average.".to_owned();
    for stage in &cooled.stages {
        let likely = match stage.likely {
            None => "not in this place".to_owned(),
            Some(likely) => {
                let says = ["in time", "likely in time, not surely", "too late"];
                let says = verdict(stage, says);
                format!("likely {}, {says}", time_of_day(likely))
            }
        };
        let since = if stage.within == FROM_AMBIENT {
            "its start".to_owned()
        } else {
            temperature(HOT, degrees)
        };
        said += &format!(
            "\n{} by {}, {} after {since}: {likely}.",
            temperature(stage.to, degrees),
            time_of_day(stage.by),
            span(stage.within),
        );
    }
    said
}

/// What a drawing shows, for whoever can't see it.
pub(crate) fn cooling(cooled: &Cooled, now: Moment, degrees: Degrees) -> String {
    let points = &cooled.points;
    let here = points.partition_point(|point| point.at <= now);
    let (first, here) = (&points[0], &points[here.saturating_sub(1)]);
    let warm = |warmth| temperature(warmth, degrees);
    let mut said = format!(
        "The cooling, drawn. Start {}: {}. Now {}: {} in the middle, {} on average. ",
        time_of_day(first.at),
        warm(first.core.likely()),
        time_of_day(now),
        warm(here.core.likely()),
        warm(here.mean),
    );
    let cold = cooled.window.as_ref().map_or("never".to_owned(), window);
    said += &format!("{} in the middle: {cold}.", warm(cooled.to));
    for &(at, read) in &cooled.readings {
        said += &format!(" Measured {}: {}.", time_of_day(at), warm(read));
    }
    said
}
