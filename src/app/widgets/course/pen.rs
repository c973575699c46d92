//! Writes a drawing as markup. Nothing in it comes from outside: texts are ours, numbers and times of day.

use domain::decimal::fixed;

use super::scale::{LEFT, RIGHT};

/// What is drawn so far.
#[derive(Debug, Default)]
pub(super) struct Pen {
    /// The finished shapes, then the finished labels.
    pub(super) drawn: String,
    path: String,
    is_down: bool,
}

impl Pen {
    /// Goes to a place, in percent across and down, with a line from where it is, unless it was lifted.
    pub(super) fn to(&mut self, x: f64, y: f64) {
        self.path += if self.is_down { "L" } else { "M" };
        self.is_down = true;
        for part in [x, y] {
            self.path += &fixed(part, 1);
            self.path += " ";
        }
    }

    /// Begins another line of the same shape.
    pub(super) fn lift(&mut self) {
        self.is_down = false;
    }

    /// A line of its own, straight down.
    pub(super) fn upright(&mut self, x: f64, from: f64, to: f64) {
        self.lift();
        self.to(x, from);
        self.to(x, to);
    }

    /// A line of its own, all across.
    pub(super) fn level(&mut self, y: f64) {
        self.lift();
        self.to(LEFT, y);
        self.to(RIGHT, y);
    }

    /// A line of no length: it has round ends, however the drawing is stretched.
    pub(super) fn dot(&mut self, x: f64, y: f64) {
        self.upright(x, y, y);
    }

    /// A line along places, from where the pen is.
    pub(super) fn along(&mut self, line: &[(f64, f64)]) {
        for &(x, y) in line {
            self.to(x, y);
        }
    }

    /// The shape between two lines.
    pub(super) fn between(&mut self, line: &[(f64, f64)], other: &[(f64, f64)]) {
        self.along(line);
        for &(x, y) in other.iter().rev() {
            self.to(x, y);
        }
    }

    /// Ends the shape that was drawn since the last: it is of this kind.
    pub(super) fn ends(&mut self, kind: &str) {
        for part in [
            r#"<path class="course-"#,
            kind,
            r#"" d=""#,
            &self.path,
            r#""/>"#,
        ] {
            self.drawn += part;
        }
        self.path.clear();
        self.lift();
    }

    /// A text that begins, ends or has its middle at a place.
    pub(super) fn label(&mut self, anchor: &str, x: f64, y: f64, text: &str) {
        let (x, y) = (fixed(x, 1), fixed(y, 1));
        let parts = [
            r#"<text class="course-"#,
            anchor,
            r#"" x=""#,
            &x,
            r#"%" y=""#,
            &y,
            r#"%">"#,
            text,
            "</text>",
        ];
        for part in parts {
            self.drawn += part;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shapes_are_written_in_tenths_a_line_after_the_other() {
        let mut pen = Pen::default();
        pen.to(11.0, 82.0);
        pen.to(54.96, 60.123);
        pen.upright(1.0, 2.0, 4.0);
        pen.ends("grid");
        pen.to(0.0, -0.04);
        pen.ends("dots");
        assert_eq!(
            pen.drawn,
            "<path class=\"course-grid\" d=\"M11.0 82.0 L55.0 60.1 M1.0 2.0 L1.0 4.0 \"/>\
             <path class=\"course-dots\" d=\"M0.0 0.0 \"/>"
        );
    }

    #[test]
    fn labels_have_their_place_in_percent() {
        let mut pen = Pen::default();
        pen.label("to", 9.5, 40.0, "20°");
        assert_eq!(
            pen.drawn,
            r#"<text class="course-to" x="9.5%" y="40.0%">20°</text>"#
        );
    }
}
