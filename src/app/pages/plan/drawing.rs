//! Where everything of a plan is drawn: its columns, how far down moments are, and its bars.

use domain::decimal::fixed;
use domain::units::{Moment, minutes};
use platform::rows::{Part, Row};

use super::names;
use super::scale::{Drawn, LEAST, Scale, Span};
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
pub(super) const GAP: f64 = 1.0;
/// What is named is drawn from half an hour to half an hour, so that it stays where it is for as long.
const HALF_HOUR_MS: i64 = 30 * 60_000;

/// How much of a column's width stays free beside what stands in the fridge in the midst of a rise.
const INDENT: f64 = 0.35;

/// When a bar ends: what is over as it begins is drawn as well.
fn end_of(entry: &Entry) -> Moment {
    entry.end.max(entry.start + minutes(1.0))
}

/// The time in the fridge that an item is or has.
fn quiet(entry: &Entry, told: &Told) -> Option<Span> {
    let is_it = |cold: &&Entry| cold.is_cold && cold.of == entry.of && cold.lane == entry.lane;
    let cold = told.entries.iter().find(is_it)?;
    Some((cold.start, cold.end))
}

/// Where everything of a plan is drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Drawing {
    pub told: Told,
    pub scale: Scale,
    pub from: Moment,
    pub to: Moment,
}

/// What changes of a bar.
pub(super) const BAR: [Part; 8] = [
    Part::Style("inset"),
    Part::Attr("data-turn"),
    Part::Attr("aria-label"),
    Part::Attr("data-hangs"),
    Part::Attr("data-fixed"),
    Part::Attr("data-upright"),
    Part::Attr("data-from"),
    Part::Text("span"),
];

/// How much of the width a column has.
fn share(told: &Told, lane: Lane) -> f64 {
    let lanes = told.lanes.iter();
    let whole: f64 = lanes.map(|&(lane, _)| weight(told, lane)).sum();
    weight(told, lane) / whole
}

/// How wide a column is against the others.
pub(super) fn weight(told: &Told, lane: Lane) -> f64 {
    match lane {
        Lane::Hands if told.lanes.len() > FEW => HANDS_OF_MANY,
        Lane::Hands => HANDS,
        _ => 1.0,
    }
}

/// Which of several bakes it is, for its style.
pub(super) fn turn(lane: Option<Lane>) -> &'static str {
    match lane {
        Some(Lane::Part(bake, _)) => ["0", "1", "2"][bake % 3],
        _ => "0",
    }
}

impl Drawing {
    pub(super) fn of(told: Told) -> Self {
        let now = told.at.epoch_ms();
        let from = Moment::from_epoch_ms(now - now.rem_euclid(HALF_HOUR_MS));
        let hands = share(&told, Lane::Hands) - GAP / 100.0;
        let steps = told.entries.iter().filter(|entry| entry.of.is_some());
        let drawn = steps.map(|entry| Drawn {
            span: (entry.start, end_of(entry)),
            least: match entry.lane {
                Lane::Hands => names::least(entry, hands),
                _ => LEAST,
            },
            quiet: quiet(entry, &told),
        });
        let drawn: Vec<Drawn> = drawn.collect();
        let tables = told.margins.iter().map(|(_, margin)| margin.table);
        let last = drawn.iter().map(|drawn| drawn.span.1).chain(tables).max();
        let to = told.end.high().max(last.unwrap_or(from));
        Self {
            scale: Scale::of(drawn, from, to),
            told,
            from,
            to,
        }
    }

    /// How far from the left a column begins and how far it ends, in percent.
    pub(super) fn column(&self, lane: Lane) -> (f64, f64) {
        let lanes = self.told.lanes.iter().map(|&(lane, _)| lane);
        let before = lanes.take_while(|&other| other < lane);
        let left: f64 = before.map(|lane| share(&self.told, lane)).sum();
        (100.0 * left, 100.0 * (left + share(&self.told, lane)) - GAP)
    }

    /// The same for a bar: what is in the oven at one time, or for one table, stands beside each other, each where one
    /// before it has left.
    fn beside(&self, entry: &Entry) -> (f64, f64) {
        let (left, right) = self.column(entry.lane);
        let all = self.told.entries.iter();
        // By when each place is free again.
        let (mut places, mut own): (Vec<Moment>, Option<usize>) = (Vec::new(), None);
        let shares = |lane: Lane| lane == entry.lane && lane <= Lane::Oven;
        for other in all.filter(|other| other.of.is_some() && shares(other.lane)) {
            if places.iter().all(|&free| free <= other.start) {
                if own.is_some() {
                    break;
                }
                places.clear();
            }
            let free = places.iter().position(|&free| free <= other.start);
            let place = free.unwrap_or(places.len());
            match places.get_mut(place) {
                Some(free) => *free = other.end,
                None => places.push(other.end),
            }
            if other.key == entry.key {
                own = Some(place);
            }
        }
        let wide = (right - left) / places.len().max(1) as f64;
        let left = left + wide * own.unwrap_or(0) as f64;
        (left, left + wide)
    }

    /// A bar: its edges as the distances from the field's four, from which width of the field on its name stands
    /// across, and where it has room upright.
    fn bar(&self, entry: &Entry) -> (String, String, &'static str) {
        let (mut left, right) = self.beside(entry);
        // A part of a longer bar leaves something of that to be seen and pressed.
        if entry.is_cold && entry.cold.is_some() {
            left += (right - left) * INDENT;
        }
        let (top, bottom) = (self.down(entry.start), self.down(end_of(entry)));
        let mut inset = String::new();
        for part in [top, 100.0 - right, 100.0 - bottom, left] {
            inset += &fixed(part, 2);
            inset += "% ";
        }
        // A name ends above what stands in the fridge in the midst of its bar.
        let within = quiet(entry, &self.told).filter(|_| !entry.is_cold);
        let end = within.map_or(bottom, |(from, _)| self.down(from));
        let tall = (end - top) / 100.0 * self.tall();
        let share = (right - left) / 100.0;
        let from = names::across_from(entry, tall, share);
        let from = from.map_or_else(String::new, |from| fixed(f64::from(from), 0));
        (inset, from, names::upright(entry, tall, share))
    }

    /// All bars, by their keys, with what changes of each: the parts are those of [`BAR`].
    pub(super) fn bars(&self) -> Vec<Row> {
        let steps = self.told.entries.iter();
        let steps = steps.filter(|entry| entry.of.is_some());
        let flag = |is: bool| if is { "true" } else { "false" };
        let bar = |entry: &Entry| {
            let (inset, from, upright) = self.bar(entry);
            let parts = vec![
                inset,
                turn(entry.part).to_owned(),
                words::bar(entry, self.told.at),
                flag(entry.hangs).to_owned(),
                flag(entry.pinned.is_some()).to_owned(),
                upright.to_owned(),
                from,
                names::name(entry).to_owned(),
            ];
            (entry.key.clone(), parts)
        };
        steps.map(bar).collect()
    }

    /// How tall all of it is, in rem. Beside many columns names have less room across, and more downwards.
    pub(super) fn tall(&self) -> f64 {
        self.scale.whole * self.stretch()
    }

    fn stretch(&self) -> f64 {
        if self.told.lanes.len() > FEW {
            TALLER
        } else {
            1.0
        }
    }

    pub(super) fn down(&self, at: Moment) -> f64 {
        self.scale.percent(at)
    }
}
