//! Writes the drawn plan's markup.

use domain::decimal::fixed;

/// Writes markup.
#[derive(Default)]
pub(super) struct Pen {
    pub drawn: String,
}

impl Pen {
    pub(super) fn put(&mut self, parts: &[&str]) {
        for part in parts {
            self.drawn += part;
        }
    }

    /// Left, top, width and height, in percent.
    pub(super) fn rect(&mut self, class: &str, places: [f64; 4]) {
        self.put(&[r#"<rect class=""#, class, r#"" fill="url(#plan-hatch)""#]);
        for (name, place) in ["x", "y", "width", "height"].iter().zip(places) {
            self.percent(name, place);
        }
        self.put(&["/>"]);
    }

    pub(super) fn level(&mut self, class: &str, (from, to): (f64, f64), y: f64) {
        self.put(&["<line class=\"", class, "\""]);
        for (name, place) in [("x1", from), ("x2", to), ("y1", y), ("y2", y)] {
            self.percent(name, place);
        }
        self.put(&["/>"]);
    }

    fn percent(&mut self, name: &str, place: f64) {
        self.put(&[" ", name, r#"=""#, &fixed(place, 2), r#"%""#]);
    }

    pub(super) fn text(&mut self, class: &str, x: &str, y: f64, text: &str) {
        self.put(&[
            r#"<text class=""#,
            class,
            r#"" x=""#,
            x,
            r#"" y=""#,
            &fixed(y, 2),
            r#"%" dy="0.35em">"#,
            text,
            "</text>",
        ]);
    }

    /// The name of a moment, left of the field.
    pub(super) fn moment(&mut self, class: &str, y: f64, text: &str) {
        self.text(class, "-0.5em", y, text);
    }
}
