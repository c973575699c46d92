//! A rise, drawn: how warm the dough is, and water that comes up to its mark within a window.
//!
//! It is written as markup: an element of its own type for every shape would weigh more than all the
//! rest. Its shapes stretch with the screen and its texts don't, so that a label is as large as any other text.

mod pen;
mod scale;

use domain::bake::Drawn;
use domain::units::Moment;
use leptos::prelude::*;
use platform::clock::time_of_day;
use platform::store::Degrees;

use self::pen::{Down, Pen};
use self::scale::{FLOOR, LEFT, READY, Scale, TOP, above, risen, under};
use crate::state::oventide;
use crate::widgets::live;
use crate::words;

/// A rise to be drawn.
pub(crate) struct Rising {
    /// The present.
    pub(crate) now: Moment,
    /// What is drawn solid, and then perhaps the same rise in other circumstances, drawn dashed.
    pub(crate) drawn: Vec<Drawn>,
    /// What is said under it.
    pub(crate) said: String,
}

/// Draws a rise as it changes; nothing while there is none.
pub(crate) fn rise(read: impl Fn(Degrees) -> Option<Rising> + Send + Sync + 'static) -> AnyView {
    let app = oventide();
    live::part(move || {
        let degrees = app.settings.read().degrees;
        let rising = read(degrees);
        let picture = rising.map_or_else(String::new, |rising| picture(&rising, degrees));
        view! { <figure class="rise" inner_html=picture></figure> }.into_any()
    })
}

fn picture(rising: &Rising, degrees: Degrees) -> String {
    let Rising { now, drawn, said } = rising;
    let Some(solid) = drawn.first() else {
        return String::new();
    };
    let scale = Scale::of(drawn, degrees);
    let mut pen = Pen::default();
    shapes(&mut pen, &scale, *now, solid, drawn.get(1));
    pen.drawn += "</svg>";
    labels(&mut pen, &scale, *now, solid);
    let mut picture = String::new();
    for part in [
        r#"<svg role="img" aria-label=""#,
        &words::rise(solid, *now, degrees),
        r#""><svg aria-hidden="true" viewBox="0 0 100 100" preserveAspectRatio="none">"#,
        &pen.drawn,
        "</svg><figcaption>",
        said,
        "</figcaption>",
    ] {
        picture += part;
    }
    picture
}

const DOUGH: Down = |scale, point| scale.warm(point.dough.likely());
const WATER: Down = |_, point| risen(point.progress.likely());

/// The shapes, from the hindmost to the foremost.
fn shapes(pen: &mut Pen, scale: &Scale, now: Moment, drawn: &Drawn, otherwise: Option<&Drawn>) {
    let points = &drawn.points[..];
    // The present is part of both.
    let so_far = &points[..points.partition_point(|point| point.at <= now)];
    let ahead = &points[points.partition_point(|point| point.at < now)..];
    let [low, likely, high] = scale.window(drawn);
    let now = scale.x(now);

    pen.upright(low, FLOOR, TOP);
    pen.to(high, TOP);
    pen.to(high, FLOOR);
    pen.ends("window");

    pen.along(scale, so_far, WATER);
    pen.to(now, FLOOR);
    pen.to(LEFT, FLOOR);
    pen.ends("water");

    pen.along(scale, ahead, |_, point| risen(point.progress.low()));
    pen.back(scale, ahead, |_, point| risen(point.progress.high()));
    pen.ends("ahead");

    pen.along(scale, points, |scale, point| scale.warm(point.dough.low()));
    pen.back(scale, points, |scale, point| scale.warm(point.dough.high()));
    pen.ends("spread");

    for (y, _) in scale.ticks() {
        pen.level(y);
    }
    pen.level(FLOOR);
    pen.upright(low, TOP, FLOOR);
    pen.upright(high, TOP, FLOOR);
    pen.ends("grid");

    pen.level(READY);
    pen.ends("ready");

    if let Some(otherwise) = otherwise {
        pen.along(scale, &otherwise.points, DOUGH);
        pen.lift();
        pen.along(scale, &otherwise.points, WATER);
        let [_, likely, _] = scale.window(otherwise);
        pen.upright(likely, READY, FLOOR);
        pen.ends("otherwise");
    }

    pen.along(scale, points, WATER);
    pen.upright(likely, TOP, FLOOR);
    pen.ends("surface");

    pen.along(scale, points, DOUGH);
    pen.ends("dough");

    pen.upright(now, TOP, FLOOR + 8.0);
    pen.ends("now");

    for &fold in &drawn.folds {
        pen.dot(scale.x(fold), fold_at(scale, drawn, fold));
    }
    for &(at, read) in &drawn.readings {
        pen.dot(scale.x(at), scale.warm(read));
    }
    pen.ends("dots");
}

/// A fold is a mark on the water.
fn fold_at(scale: &Scale, drawn: &Drawn, fold: Moment) -> f64 {
    let mut points = drawn.points.iter();
    let next = points.find(|point| point.at >= fold);
    next.map_or(READY, |next| WATER(scale, next))
}

fn labels(pen: &mut Pen, scale: &Scale, now: Moment, drawn: &Drawn) {
    let window = &drawn.window;
    let [low, likely, high] = scale.window(drawn);
    let times = [drawn.points[0].at, window.low(), window.high()].map(time_of_day);
    let [start, low, high] = under([LEFT, low, high], &times);
    let unit = words::dough_in(scale.degrees);
    let likely_at = words::likely(window.likely());

    pen.label("from", 0.0, 6.5, &unit);
    pen.label("from", LEFT + 1.5, READY - 1.5, words::READY);
    pen.label("at", above(likely, &likely_at, &unit), 6.5, &likely_at);
    pen.label("at", scale.x(now).clamp(5.0, 95.0), 98.5, words::NOW);
    if let Some(&fold) = drawn.folds.first() {
        let above = fold_at(scale, drawn, fold) - 4.0;
        pen.label("at", scale.x(fold), above, words::FOLD);
    }
    for (x, time) in [start, low, high].into_iter().zip(&times) {
        pen.label("at", x, 90.0, time);
    }
    for (y, name) in scale.ticks() {
        pen.label("to", LEFT - 1.5, y + 2.5, &name);
    }
}
