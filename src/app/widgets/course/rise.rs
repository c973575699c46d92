//! A rise, drawn: how warm the dough is, and below it water that comes up to its mark within a window.

use domain::bake::Drawn;
use domain::units::{Moment, Share};
use domain::yeast::proof::Point;
use platform::store::Degrees;

use super::pen::Pen;
use super::scale::{FLOOR, LEFT, Scale, TOP};
use super::{Frame, framed};
use crate::words;

/// How far down the coldest degree is.
const COLDEST: f64 = 38.0;
/// How far down the mark is that the water comes up to.
const READY: f64 = 52.0;

/// A rise to be drawn.
pub(crate) struct Rising {
    /// The present.
    pub(crate) now: Moment,
    /// What is drawn solid, and then perhaps the same rise in other circumstances, drawn dashed.
    pub(crate) drawn: Vec<Drawn>,
    /// What is said under it.
    pub(crate) said: String,
}

/// How far down a point's temperature or water is.
type Down = fn(&Scale, &Point) -> f64;

const DOUGH: Down = |scale, point| scale.warm(point.dough.likely());
const WATER: Down = |_, point| risen(point.progress.likely());

/// Draws it.
pub(crate) fn picture(rising: &Rising, degrees: Degrees) -> String {
    let Rising { now, drawn, said } = rising;
    let Some(solid) = drawn.first() else {
        return String::new();
    };
    let all = drawn.iter().flat_map(|drawn| &drawn.points);
    let dots: Vec<_> = all.map(|point| (point.at, point.dough)).collect();
    let frame = Frame {
        scale: Scale::of(&dots, degrees, COLDEST),
        start: solid.points[0].at,
        now: *now,
        window: Some(&solid.window),
    };
    framed(
        &words::rise(solid, *now, degrees),
        shapes(&frame, solid, drawn.get(1)),
        labels(&frame, solid),
        said,
    )
}

/// The shapes, from the hindmost to the foremost.
fn shapes(frame: &Frame<'_>, drawn: &Drawn, otherwise: Option<&Drawn>) -> Pen {
    let (scale, now) = (&frame.scale, frame.now);
    let line = |points: &[Point], down: Down| -> Vec<(f64, f64)> {
        let places = points.iter();
        places
            .map(|point| (scale.x(point.at), down(scale, point)))
            .collect()
    };
    let points = &drawn.points[..];
    // The present is part of both.
    let so_far = &points[..points.partition_point(|point| point.at <= now)];
    let ahead = &points[points.partition_point(|point| point.at < now)..];
    let mut pen = Pen::default();
    frame.band(&mut pen);

    pen.along(&line(so_far, WATER));
    pen.to(scale.x(now), FLOOR);
    pen.to(LEFT, FLOOR);
    pen.ends("water");

    pen.between(
        &line(ahead, |_, point| risen(point.progress.low())),
        &line(ahead, |_, point| risen(point.progress.high())),
    );
    pen.ends("ahead");

    pen.between(
        &line(points, |scale, point| scale.warm(point.dough.low())),
        &line(points, |scale, point| scale.warm(point.dough.high())),
    );
    pen.ends("spread");

    for (y, _) in scale.ticks() {
        pen.level(y);
    }
    frame.grid(&mut pen);

    pen.level(READY);
    pen.ends("ready");

    if let Some(otherwise) = otherwise {
        pen.along(&line(&otherwise.points, DOUGH));
        pen.lift();
        pen.along(&line(&otherwise.points, WATER));
        let [_, likely, _] = scale.window(&otherwise.window);
        pen.upright(likely, READY, FLOOR);
        pen.ends("otherwise");
    }

    pen.along(&line(points, WATER));
    let [_, likely, _] = scale.window(&drawn.window);
    pen.upright(likely, TOP, FLOOR);
    pen.ends("surface");

    pen.along(&line(points, DOUGH));
    pen.ends("dough");

    frame.present(&mut pen);

    for &fold in &drawn.folds {
        pen.dot(scale.x(fold), fold_at(scale, drawn, fold));
    }
    for &(at, read) in &drawn.readings {
        pen.dot(scale.x(at), scale.warm(read));
    }
    pen.ends("dots");
    pen
}

/// How far down the water stands.
fn risen(share: Share) -> f64 {
    FLOOR + (READY - FLOOR) * share.get()
}

/// A fold is a mark on the water.
fn fold_at(scale: &Scale, drawn: &Drawn, fold: Moment) -> f64 {
    let mut points = drawn.points.iter();
    let next = points.find(|point| point.at >= fold);
    next.map_or(READY, |next| WATER(scale, next))
}

fn labels(frame: &Frame<'_>, drawn: &Drawn) -> Pen {
    let scale = &frame.scale;
    let mut pen = Pen::default();
    frame.labels(&mut pen, &words::dough_in(scale.degrees));
    pen.label("from", LEFT + 1.5, READY - 1.5, words::READY);
    if let Some(&fold) = drawn.folds.first() {
        let above = fold_at(scale, drawn, fold) - 4.0;
        pen.label("at", scale.x(fold), above, words::FOLD);
    }
    for (y, name) in scale.ticks() {
        pen.label("to", LEFT - 1.5, y + 2.5, &name);
    }
    pen
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn riper_is_higher_up_to_the_mark() {
        assert_eq!(risen(Share::MIN), FLOOR);
        assert_eq!(risen(Share::MAX), READY);
    }
}
