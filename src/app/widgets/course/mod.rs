//! What goes on by itself, drawn: how warm it is, over time, and the window in which it is ready.
//!
//! It is written as markup: an element of its own type for every shape would weigh more than all the
//! rest. Its shapes stretch with the screen and its texts don't, so that a label is as large as any other text.

pub(crate) mod cooling;
mod pen;
pub(crate) mod rise;
mod scale;

use domain::estimate::Estimate;
use domain::units::Moment;
use leptos::prelude::*;
use platform::clock::time_of_day;
use platform::store::Degrees;

use self::pen::Pen;
use self::scale::{FLOOR, LEFT, Scale, TOP, above, under};
use crate::state::oventide;
use crate::widgets::live;
use crate::words;

/// Draws what goes on as it changes; nothing while its picture is empty.
pub(crate) fn figure(picture: impl Fn(Degrees) -> String + Send + Sync + 'static) -> AnyView {
    let app = oventide();
    live::part(move || {
        let picture = picture(app.settings.read().degrees);
        view! { <figure class="course" inner_html=picture></figure> }.into_any()
    })
}

/// What every drawing has.
struct Frame<'a> {
    scale: Scale,
    start: Moment,
    now: Moment,
    window: Option<&'a Estimate<Moment>>,
}

impl Frame<'_> {
    /// How far across the window is: low, likely and high.
    fn window(&self) -> Option<[f64; 3]> {
        Some(self.scale.window(self.window?))
    }

    /// What lies behind everything else.
    fn band(&self, pen: &mut Pen) {
        if let Some([low, _, high]) = self.window() {
            pen.upright(low, FLOOR, TOP);
            pen.to(high, TOP);
            pen.to(high, FLOOR);
            pen.ends("window");
        }
    }

    /// The floor, and the window's edges.
    fn grid(&self, pen: &mut Pen) {
        pen.level(FLOOR);
        if let Some([low, _, high]) = self.window() {
            pen.upright(low, TOP, FLOOR);
            pen.upright(high, TOP, FLOOR);
        }
        pen.ends("grid");
    }

    /// The line of the present.
    fn present(&self, pen: &mut Pen) {
        pen.upright(self.scale.x(self.now), TOP, FLOOR + 8.0);
        pen.ends("now");
    }

    /// The moments, and the unit of what is drawn above.
    fn labels(&self, pen: &mut Pen, unit: &str) {
        let scale = &self.scale;
        pen.label("from", 0.0, 6.5, unit);
        pen.label("at", scale.x(self.now).clamp(5.0, 95.0), 98.5, words::NOW);
        let start = time_of_day(self.start);
        let Some((window, [low, likely, high])) = self.window.zip(self.window()) else {
            return pen.label("at", LEFT, 90.0, &start);
        };
        let likely_at = words::likely(window.likely());
        pen.label("at", above(likely, &likely_at, unit), 6.5, &likely_at);
        let times = [start, time_of_day(window.low()), time_of_day(window.high())];
        let places = under([LEFT, low, high], &times);
        for (x, time) in places.into_iter().zip(&times) {
            pen.label("at", x, 90.0, time);
        }
    }
}

/// A finished drawing, with what it says to whoever can't see it and what is said under it.
fn framed(label: &str, shapes: Pen, labels: Pen, said: &str) -> String {
    let mut picture = String::new();
    for part in [
        r#"<svg role="img" aria-label=""#,
        label,
        r#""><svg aria-hidden="true" viewBox="0 0 100 100" preserveAspectRatio="none">"#,
        &shapes.drawn,
        "</svg>",
        &labels.drawn,
        "</svg><figcaption>",
        said,
        "</figcaption>",
    ] {
        picture += part;
    }
    picture
}
