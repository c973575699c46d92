//! The drawn plan as markup, behind its bars and over them. Nothing in it comes from outside: texts are
//! ours, numbers and times of day; names stand in the bars, as ordinary elements.

use domain::units::{Moment, minutes};
use platform::clock::{self, time_of_day};

use super::drawing::{Drawing, GAP};
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
        for away in self.aways() {
            self.rect(&mut pen, "plan-away", (0.0, 100.0), away);
        }
        for hour in self.hours() {
            pen.level("plan-hour", (0.0, 100.0), self.down(hour));
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
            pen.level("plan-table", (0.0, 100.0), self.down(margin.table));
            // What comes together is named by the present.
            if self.is_apart(margin.table, now) {
                named.push((margin.table, "table"));
            }
        }
        pen.level("plan-now", (0.0, 100.0), self.down(now));
        self.said(&mut pen);
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

    /// From when to when nobody is there.
    fn aways(&self) -> impl Iterator<Item = (Moment, Moment)> {
        let aways = self.told.entries.iter().filter(|entry| entry.of.is_none());
        aways.map(|away| (away.start, away.end))
    }

    /// What is said of times with nothing in them, over whatever line goes through it.
    fn said(&self, pen: &mut Pen) {
        let mut said: Vec<_> = self
            .aways()
            .map(|away| (away, words::AWAY.to_owned()))
            .collect();
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
