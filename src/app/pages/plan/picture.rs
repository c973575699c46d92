//! The drawn plan as markup, behind its bars and over them. Nothing in it comes from outside: texts are
//! ours, numbers and times of day; names stand in the bars, as ordinary elements.

use domain::decimal::fixed;
use domain::units::{Moment, minutes};
use platform::clock::{self, time_of_day};

use super::scale::{self, Scale};
use crate::state::plan::told::{Entry, Lane, Told};
use crate::words::plan as words;

/// How much wider the hands' column is than another: most of what is read stands there.
const HANDS: f64 = 1.7;
/// The same beside more columns than [`FEW`].
const HANDS_OF_MANY: f64 = 2.6;
const FEW: usize = 4;
/// How much taller everything is then.
const TALLER: f64 = 1.3;
/// Between columns, in percent of the width.
const GAP: f64 = 1.0;
/// How wide the range of an end is drawn, in percent of the width.
const RANGE: f64 = 2.5;
/// Labels of moments that are closer would lie over each other, in rem.
const LABEL: f64 = 1.5;
/// What is named is drawn from half an hour to half an hour, so that it stays where it is for as long.
const HALF_HOUR_MS: i64 = 30 * 60_000;

/// Where everything of a plan is drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Drawing {
    pub told: Told,
    pub scale: Scale,
    from: Moment,
    to: Moment,
}

/// How wide a column is against the others.
pub(super) fn weight(told: &Told, lane: Lane) -> f64 {
    match lane {
        Lane::Hands if told.lanes.len() > FEW => HANDS_OF_MANY,
        Lane::Hands => HANDS,
        _ => 1.0,
    }
}

impl Drawing {
    pub(super) fn of(told: Told) -> Self {
        let now = told.at.epoch_ms();
        let from = Moment::from_epoch_ms(now - now.rem_euclid(HALF_HOUR_MS));
        let ends = told.entries.iter().filter(|entry| entry.of.is_some());
        let spans: Vec<_> = ends
            .map(|entry| (entry.start, entry.end.max(entry.start + minutes(1.0))))
            .collect();
        let tables = told.margins.iter().map(|(_, margin)| margin.table);
        let last = spans.iter().map(|&(_, end)| end).chain(tables).max();
        let to = told.end.high().max(last.unwrap_or(from));
        Self {
            scale: Scale::of(&spans, from, to),
            told,
            from,
            to,
        }
    }

    /// How far from the left a column begins and how far it ends, in percent.
    fn column(&self, lane: Lane) -> (f64, f64) {
        let weight = |lane| weight(&self.told, lane);
        let lanes = self.told.lanes.iter().map(|&(lane, _)| lane);
        let whole: f64 = lanes.clone().map(weight).sum();
        let before: f64 = lanes.take_while(|&other| other < lane).map(weight).sum();
        let left = 100.0 * before / whole;
        (left, left + 100.0 * weight(lane) / whole - GAP)
    }

    /// Where a bar is, as the distances from the field's four edges.
    pub(super) fn inset(&self, entry: &Entry) -> String {
        let (left, right) = self.column(entry.lane);
        let end = entry.end.max(entry.start + minutes(1.0));
        let (top, bottom) = (self.scale.percent(entry.start), self.scale.percent(end));
        let mut inset = String::new();
        for part in [top, 100.0 - right, 100.0 - bottom, left] {
            inset += &fixed(part, 2);
            inset += "% ";
        }
        inset
    }

    /// How tall all of it is, in rem. Beside many columns names have less room across, and more downwards.
    pub(super) fn tall(&self) -> f64 {
        let many = self.told.lanes.len() > FEW;
        self.scale.whole() * if many { TALLER } else { 1.0 }
    }

    /// What lies behind the bars.
    pub(super) fn behind(&self) -> String {
        let mut pen = Pen::default();
        pen.put(&[
            r#"<svg class="plan-behind" role="img" aria-label=""#,
            words::DRAWN_PLAN,
            r#""><defs><pattern id="plan-hatch" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V9"/></pattern></defs>"#,
        ]);
        let ready = (self.told.end.low(), self.told.end.high());
        self.rect(&mut pen, "plan-ready", (0.0, 100.0), ready);
        let mut said = Vec::new();
        for away in self.told.entries.iter().filter(|entry| entry.of.is_none()) {
            let span = (away.start, away.end);
            self.rect(&mut pen, "plan-away", (0.0, 100.0), span);
            said.push((span, words::AWAY.to_owned()));
        }
        for hour in self.hours() {
            pen.level("plan-hour", self.down(hour));
        }
        let cuts = self.scale.cuts().into_iter();
        said.extend(cuts.map(|(from, to)| ((from, to), words::idle(to - from))));
        let mut last: Option<f64> = None;
        for ((from, to), text) in said {
            let middle = (self.scale.rem(from) + self.scale.rem(to)) / 2.0;
            if last.is_none_or(|last| (middle - last).abs() >= LABEL) {
                let percent = 100.0 * middle / self.scale.whole();
                pen.text("plan-said", "1%", percent, &text);
                last = Some(middle);
            }
        }
        for &(lane, _) in &self.told.lanes {
            self.thread(&mut pen, lane);
        }
        pen.drawn + "</svg>"
    }

    /// What a part of a bake goes through, from its first item to its last, and where hands are at it.
    fn thread(&self, pen: &mut Pen, lane: Lane) {
        let (left, right) = self.column(lane);
        let middle = (left + right) / 2.0;
        let of = |entry: &&Entry| entry.part == Some(lane) || entry.lane == lane;
        let mut items = self.told.entries.iter().filter(of).peekable();
        let Some(first) = items.peek().filter(|_| lane > Lane::Oven) else {
            return;
        };
        let first = first.start;
        let last = items.clone().map(|entry| entry.end).max().unwrap_or(first);
        let thin = (middle - GAP / 4.0, middle + GAP / 4.0);
        self.rect(pen, "plan-thread", thin, (first, last));
        for item in items.filter(|entry| entry.lane != lane) {
            let width = (right - left) / 6.0;
            let wide = (middle - width, middle + width);
            self.rect(pen, "plan-worked", wide, (item.start, item.end));
        }
    }

    /// What lies over the bars: the ranges of their ends, the present, the table, and all moments.
    pub(super) fn over(&self, now: Moment) -> String {
        let mut pen = Pen::default();
        pen.put(&[r#"<svg class="plan-over" aria-hidden="true">"#]);
        for entry in &self.told.entries {
            if let Some(window) = &entry.window {
                let (_, right) = self.column(entry.lane);
                let span = (window.low(), window.high());
                self.rect(&mut pen, "plan-range", (right - RANGE, right), span);
            }
        }
        let mut named: Vec<(Moment, &str)> = vec![(now, "now")];
        for (_, margin) in &self.told.margins {
            pen.level("plan-table", self.down(margin.table));
            // What comes together is named by the present.
            if self.is_apart(margin.table, now) {
                named.push((margin.table, "table"));
            }
        }
        pen.level("plan-now", self.down(now));
        let mut last: Option<Moment> = None;
        for hour in self.hours() {
            let apart = |&(other, _): &(Moment, &str)| self.is_apart(other, hour);
            if named.iter().all(apart) && last.is_none_or(|last| self.is_apart(last, hour)) {
                pen.moment("plan-at", self.down(hour), &words::hour(hour));
                last = Some(hour);
            }
        }
        for (at, class) in named {
            pen.moment(class, self.down(at), &time_of_day(at));
        }
        pen.drawn + "</svg>"
    }

    fn is_apart(&self, one: Moment, other: Moment) -> bool {
        (self.scale.rem(one) - self.scale.rem(other)).abs() >= LABEL
    }

    fn down(&self, at: Moment) -> f64 {
        self.scale.percent(at)
    }

    fn rect(&self, pen: &mut Pen, class: &str, (left, right): (f64, f64), span: (Moment, Moment)) {
        let (top, bottom) = (self.down(span.0), self.down(span.1));
        if bottom > top {
            pen.rect(class, [left, top, right - left, bottom - top]);
        }
    }

    /// Every full hour that isn't cut away.
    fn hours(&self) -> Vec<Moment> {
        let past = f64::from(clock::minute_of_day(self.from) % 60);
        let mut hour = self.from + minutes(60.0 - past);
        if past == 0.0 {
            hour = self.from;
        }
        scale::hours(hour, self.to, &self.scale.cuts())
    }
}

/// Writes markup.
#[derive(Default)]
struct Pen {
    drawn: String,
}

impl Pen {
    fn put(&mut self, parts: &[&str]) {
        for part in parts {
            self.drawn += part;
        }
    }

    /// Left, top, width and height, in percent.
    fn rect(&mut self, class: &str, places: [f64; 4]) {
        self.put(&[r#"<rect class=""#, class, r#"" fill="url(#plan-hatch)""#]);
        for (name, place) in ["x", "y", "width", "height"].iter().zip(places) {
            self.put(&[" ", name, r#"=""#, &fixed(place, 2), r#"%""#]);
        }
        self.put(&["/>"]);
    }

    fn level(&mut self, class: &str, y: f64) {
        let y = fixed(y, 2);
        self.put(&[
            r#"<line class=""#,
            class,
            r#"" x2="100%" y1=""#,
            &y,
            r#"%" y2=""#,
            &y,
            r#"%"/>"#,
        ]);
    }

    fn text(&mut self, class: &str, x: &str, y: f64, text: &str) {
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
    fn moment(&mut self, class: &str, y: f64, text: &str) {
        self.text(class, "-0.5em", y, text);
    }
}
