//! The drawn plan as markup, behind its bars and over them. Nothing in it comes from outside: texts are
//! ours, numbers and times of day; names stand in the bars, as ordinary elements.

use domain::units::{Moment, minutes};
use platform::clock::{self, time_of_day};

use super::drawing::{Drawing, GAP, end_of};
use super::names;
use super::pen::Pen;
use super::scale;
use crate::state::plan::told::{Entry, Lane};
use crate::words::plan as words;

/// How wide the range of an end is drawn, in percent of the width.
const RANGE: f64 = 2.5;
/// Labels of moments that are closer would lie over each other, in rem.
const LABEL: f64 = 1.5;
/// How high a line of letters is, in rem.
const LINE: f64 = 1.0;
/// How far a line that is broken reaches into a bar from its sides, in percent of the width.
const STUB: f64 = 1.0;
/// How far down a bar's edge reaches, and the first lines of its name, in rem.
const EDGE: f64 = 0.15;
const LINES: f64 = 2.2;

impl Drawing {
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
            pen.level("plan-hour", (0.0, 100.0), self.down(hour));
        }
        let cuts = self.scale.cuts().into_iter();
        said.extend(cuts.map(|(from, to)| ((from, to), words::idle(to - from))));
        let mut put: Vec<f64> = Vec::new();
        for ((from, to), text) in said {
            let (top, bottom) = (self.scale.rem(from), self.scale.rem(to));
            let middle = (top + bottom) / 2.0;
            let is_free = |at: f64| put.iter().all(|put| (at - put).abs() >= LABEL);
            let has_room = |at: &f64| top + LINE / 2.0 <= *at && *at + LINE / 2.0 <= bottom;
            // How long a time is in which nobody is there and nothing goes on, is told below that or above.
            let near = put.iter().find(|put| (middle - **put).abs() < LABEL);
            let at = near.map_or(Some(middle), |near| {
                let aside = [near + LABEL, near - LABEL].into_iter();
                aside.filter(has_room).find(|at| is_free(*at))
            });
            if let Some(at) = at {
                let percent = 100.0 * at / self.scale.whole;
                pen.text("plan-said", "1%", percent, &text);
                put.push(at);
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
            self.level(&mut pen, "plan-table", margin.table);
            // What comes together is named by the present.
            if self.is_apart(margin.table, now) {
                named.push((margin.table, "table"));
            }
        }
        self.level(&mut pen, "plan-now", now);
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

    /// A line across, broken where it would strike through a name.
    fn level(&self, pen: &mut Pen, class: &str, at: Moment) {
        let (y, mut from) = (self.down(at), 0.0);
        pen.put(&[r#"<g class=""#, class, r#"">"#]);
        for &(lane, _) in &self.told.lanes {
            let bars = self.told.entries.iter();
            let mut bars = bars.filter(|entry| entry.lane == lane && entry.of.is_some());
            if bars.any(|bar| self.is_on_name(bar, at)) {
                let (left, right) = self.column(lane);
                pen.level("", (from, left + STUB), y);
                from = right - STUB;
            }
        }
        pen.level("", (from, 100.0), y);
        pen.put(&["</g>"]);
    }

    /// Whether a line at a moment would go through the name of a bar, which stands at its top.
    fn is_on_name(&self, bar: &Entry, at: Moment) -> bool {
        let down = |at| self.scale.rem(at) * self.stretch();
        let below = down(at) - down(bar.start);
        let is_upright = self.is_of_many() && bar.lane != Lane::Hands;
        let upright = names::length(bar);
        let name = if is_upright {
            LINES.max(upright)
        } else {
            LINES
        };
        at < end_of(bar) && below > EDGE && below < name
    }

    fn is_apart(&self, one: Moment, other: Moment) -> bool {
        (self.scale.rem(one) - self.scale.rem(other)).abs() >= LABEL
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
