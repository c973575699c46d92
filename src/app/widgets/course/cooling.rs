//! A cooling, drawn: how warm the middle is and all of it on average, and by when food that spoils
//! has to be how cold.

use domain::bake::{Cooled, Warmth};
use domain::estimate::{Basis, Estimate};
use domain::units::{Celsius, Moment};
use platform::store::Degrees;

use super::pen::Pen;
use super::scale::{FLOOR, LEFT, RIGHT, Scale, TOP};
use super::{Frame, framed};
use crate::words;

/// Labels that are less than this apart, of the height, would lie over each other.
const LINE: f64 = 8.0;

/// Between a label and what it belongs to.
const GAP: f64 = 1.5;
/// Left of this a label has more room to its right.
const MIDDLE: f64 = 50.0;
/// How far down the coldest degree is: its name keeps off the moments below.
const COLDEST: f64 = FLOOR - 3.0;

/// Draws it.
pub(crate) fn picture(cooled: &Cooled, now: Moment, degrees: Degrees) -> String {
    let points = cooled.points.iter();
    let mut dots: Vec<_> = points.map(|one| (one.at, one.core)).collect();
    // Where it never comes so far it still has to be seen by how much.
    dots.push((dots[0].0, Estimate::exact(cooled.to, Basis::Model)));
    let frame = Frame {
        scale: Scale::of(&dots, degrees, COLDEST),
        start: dots[0].0,
        now,
        window: cooled.window.as_ref(),
    };
    framed(
        &words::cooling(cooled, now, degrees),
        shapes(&frame, cooled),
        labels(&frame, cooled),
        &words::cooling_lines(cooled, degrees),
    )
}

/// The shapes, from the hindmost to the foremost.
fn shapes(frame: &Frame<'_>, cooled: &Cooled) -> Pen {
    let scale = &frame.scale;
    let line = |warmth: fn(&Warmth) -> Celsius| -> Vec<(f64, f64)> {
        let points = cooled.points.iter();
        points
            .map(|one| (scale.x(one.at), scale.warm(warmth(one))))
            .collect()
    };
    let mut pen = Pen::default();
    frame.band(&mut pen);
    pen.between(&line(|one| one.core.low()), &line(|one| one.core.high()));
    pen.ends("spread");
    frame.grid(&mut pen);

    // So cold by then: a level that ends at its moment, or beyond what is drawn.
    for stage in &cooled.stages {
        let (by, y) = (scale.x(stage.by), scale.warm(stage.to));
        pen.lift();
        pen.to(LEFT, y);
        pen.to(by, y);
        if by < RIGHT {
            pen.to(by, TOP);
        }
    }
    pen.level(scale.warm(cooled.to));
    pen.ends("ready");

    pen.along(&line(|one| one.mean));
    pen.ends("otherwise");
    if let Some([_, likely, _]) = frame.window() {
        pen.upright(likely, TOP, FLOOR);
        pen.ends("surface");
    }
    pen.along(&line(|one| one.core.likely()));
    pen.ends("dough");
    frame.present(&mut pen);
    for &(at, read) in &cooled.readings {
        pen.dot(scale.x(at), scale.warm(read));
    }
    pen.ends("dots");
    pen
}

fn labels(frame: &Frame<'_>, cooled: &Cooled) -> Pen {
    let scale = &frame.scale;
    let mut pen = Pen::default();
    frame.labels(&mut pen, &words::middle_in(scale.degrees));
    let target = scale.tick(cooled.to);
    let [_, warmest] = scale.ticks();
    let mut named = vec![target, warmest];
    for stage in &cooled.stages {
        let (y, name) = scale.tick(stage.to);
        let by = scale.x(stage.by);
        let says = words::stage_by(stage);
        // Beside the upright that its level ends with, or on the level where that is beyond what is drawn.
        if by < RIGHT {
            let (anchor, x) = if by < MIDDLE {
                ("from", by + GAP)
            } else {
                ("to", by - GAP)
            };
            pen.label(anchor, x, TOP + LINE, &says);
        } else {
            pen.label("from", LEFT + GAP, y - GAP, &says);
        }
        if named.iter().all(|(other, _)| (other - y).abs() > LINE) {
            named.push((y, name));
        }
    }
    for (y, name) in named {
        pen.label("to", LEFT - GAP, y + 2.5, &name);
    }
    pen
}
