//! How far down a moment is drawn, in rem.
//!
//! Time goes downwards, and where much is done it goes more slowly: every item is as tall as a finger
//! needs, an hour in which something goes on is never shorter than [`HOUR`], and an idle time longer
//! than [`IDLE`] is cut to that, as a night is in which things only stand in the fridge. So the order is always right,
//! and a length is read from its times.

use domain::sorted;
use domain::units::{Moment, minutes};

/// How tall an hour is, at least; a rem is 16 px unless the baker has larger text.
pub(super) const HOUR: f64 = 4.5;
/// How tall an item is, at least: 48 px.
pub(super) const LEAST: f64 = 3.0;
/// How tall a time is in which nothing goes on, at most.
pub(super) const IDLE: f64 = 4.0;

/// From when to when something is drawn.
pub(super) type Span = (Moment, Moment);

/// What is drawn.
pub(super) struct Drawn {
    /// From when to when.
    pub span: Span,
    /// How tall it is at least.
    pub least: f64,
    /// The part of it in which nothing is to be seen but that it goes on.
    pub quiet: Option<Span>,
}

fn covers(span: Span, (from, to): Span) -> bool {
    span.0 <= from && span.1 >= to
}

/// A stretch in which nothing starts or ends.
#[derive(Debug, Clone, PartialEq)]
struct Stretch {
    from: Moment,
    to: Moment,
    rem: f64,
    /// Whether it was cut short.
    cut: bool,
}

/// How far down everything is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Scale {
    stretches: Vec<Stretch>,
    /// How tall all of it is.
    pub whole: f64,
}

fn rem_of(from: Moment, to: Moment) -> f64 {
    (to - from).get() / 60.0 * HOUR
}

impl Scale {
    /// One for items from a moment to another.
    pub(super) fn of(mut drawn: Vec<Drawn>, from: Moment, to: Moment) -> Self {
        let spans = drawn.iter().map(|drawn| drawn.span);
        let mut edges: Vec<Moment> = spans.flat_map(|(start, end)| [start, end]).collect();
        edges.extend([from, to]);
        edges.retain(|&edge| edge >= from && edge <= to);
        sorted::by_key(&mut edges, |&edge| edge);
        edges.dedup();
        let mut stretches: Vec<Stretch> = edges
            .windows(2)
            .map(|pair| {
                let (from, to) = (pair[0], pair[1]);
                let idle = !drawn.iter().any(|drawn| {
                    let is_quiet = drawn.quiet.is_some_and(|quiet| covers(quiet, (from, to)));
                    covers(drawn.span, (from, to)) && !is_quiet
                });
                let rem = rem_of(from, to);
                let cut = idle && rem > IDLE;
                let rem = if cut { IDLE } else { rem };
                Stretch { from, to, rem, cut }
            })
            .collect();
        // The short ones first, so that a long one is found to be tall enough already.
        sorted::by_key(&mut drawn, |drawn| {
            drawn.span.1.epoch_ms() - drawn.span.0.epoch_ms()
        });
        for Drawn { span, least, .. } in drawn {
            let first = stretches.partition_point(|stretch| stretch.from < span.0);
            let end = stretches.partition_point(|stretch| stretch.to <= span.1);
            let inside = &mut stretches[first..end.max(first)];
            let tall: f64 = inside.iter().map(|stretch| stretch.rem).sum();
            if tall > 0.0 && tall < least {
                for stretch in inside {
                    stretch.rem *= least / tall;
                }
            }
        }
        let whole: f64 = stretches.iter().map(|stretch| stretch.rem).sum();
        let whole = whole.max(LEAST);
        Self { stretches, whole }
    }

    /// How far down a moment is.
    pub(super) fn rem(&self, at: Moment) -> f64 {
        let mut down = 0.0;
        for stretch in &self.stretches {
            if at < stretch.to {
                let part = (at - stretch.from).get() / (stretch.to - stretch.from).get();
                return down + stretch.rem * part.max(0.0);
            }
            down += stretch.rem;
        }
        down
    }

    /// The same in percent of all of it.
    pub(super) fn percent(&self, at: Moment) -> f64 {
        100.0 * self.rem(at) / self.whole
    }

    /// The times that were cut short.
    pub(super) fn cuts(&self) -> Vec<Span> {
        let cut = self.stretches.iter().filter(|stretch| stretch.cut);
        cut.map(|stretch| (stretch.from, stretch.to)).collect()
    }
}

/// More hours than anybody plans: a fortnight's.
const MOST_HOURS: usize = 14 * 24;

/// Every hour from a first one to a moment that isn't cut away.
pub(super) fn hours(first: Moment, to: Moment, cuts: &[Span]) -> Vec<Moment> {
    let mut hours = Vec::new();
    let mut hour = first;
    // A cut may be as long as a clock can be wrong, so it is passed over at once.
    for _ in 0..MOST_HOURS {
        if hour > to {
            break;
        }
        let cut = cuts.iter().find(|&&(from, to)| hour > from && hour < to);
        let whole = cut.map_or(1.0, |&(_, to)| ((to - hour).get() / 60.0).ceil());
        if cut.is_none() {
            hours.push(hour);
        }
        hour = hour + minutes(60.0) * whole;
    }
    hours
}

#[cfg(test)]
mod tests {
    use super::*;

    const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

    fn at(minute: f64) -> Moment {
        START + minutes(minute)
    }

    fn scale(spans: &[(f64, f64)], to: f64) -> Scale {
        Scale::of(
            spans.iter().map(|&span| drawn(span)).collect(),
            START,
            at(to),
        )
    }

    fn drawn((from, to): (f64, f64)) -> Drawn {
        Drawn {
            span: (at(from), at(to)),
            least: LEAST,
            quiet: None,
        }
    }

    fn height(scale: &Scale, from: f64, to: f64) -> f64 {
        scale.rem(at(to)) - scale.rem(at(from))
    }

    #[test]
    fn an_hour_is_as_tall_as_it_should_be_and_a_minute_as_tall_as_a_finger() {
        let scale = scale(&[(0.0, 1.0), (1.0, 121.0), (121.0, 131.0)], 131.0);
        assert!((height(&scale, 0.0, 1.0) - LEAST).abs() < 1e-9);
        assert!((height(&scale, 1.0, 121.0) - 2.0 * HOUR).abs() < 1e-9);
        assert!((height(&scale, 121.0, 131.0) - LEAST).abs() < 1e-9);
    }

    #[test]
    fn work_within_a_rise_stretches_it_and_keeps_the_order() {
        let scale = scale(&[(0.0, 90.0), (45.0, 48.0), (50.0, 52.0)], 90.0);
        assert!(height(&scale, 45.0, 48.0) >= LEAST - 1e-9);
        assert!(height(&scale, 50.0, 52.0) >= LEAST - 1e-9);
        assert!(height(&scale, 0.0, 90.0) > 1.5 * HOUR);
        let mut last = -1.0;
        for minute in 0..90 {
            let down = scale.rem(at(f64::from(minute)));
            assert!(down > last, "{minute}");
            last = down;
        }
    }

    #[test]
    fn a_long_time_with_nothing_in_it_is_cut() {
        let scale = scale(&[(600.0, 660.0)], 660.0);
        assert!((height(&scale, 0.0, 600.0) - IDLE).abs() < 1e-9);
        assert_eq!(scale.cuts(), [(at(0.0), at(600.0))]);
        assert!((height(&scale, 600.0, 660.0) - HOUR).abs() < 1e-9);
    }

    #[test]
    fn a_night_in_the_fridge_is_cut_where_nothing_else_goes_on() {
        let cold = (at(60.0), at(540.0));
        let quiet = |span| Drawn {
            quiet: Some(cold),
            ..drawn(span)
        };
        let night = || vec![quiet((30.0, 600.0)), quiet((60.0, 540.0))];
        let alone = Scale::of(night(), START, at(600.0));
        assert_eq!(alone.cuts(), [cold]);
        assert!((height(&alone, 60.0, 540.0) - IDLE).abs() < 1e-9);
        assert!((height(&alone, 540.0, 600.0) - HOUR).abs() < 1e-9);
        let mut beside = night();
        beside.push(drawn((0.0, 600.0)));
        assert_eq!(Scale::of(beside, START, at(600.0)).cuts(), []);
    }

    #[test]
    fn a_long_name_makes_its_item_taller() {
        let mut named = drawn((0.0, 1.0));
        named.least = 2.0 * LEAST;
        let scale = Scale::of(vec![named], START, at(1.0));
        assert!((height(&scale, 0.0, 1.0) - 2.0 * LEAST).abs() < 1e-9);
    }

    #[test]
    fn what_lies_outside_is_drawn_at_the_edge() {
        let scale = scale(&[(-30.0, 60.0)], 60.0);
        assert_eq!(scale.rem(at(-30.0)), 0.0);
        assert_eq!(scale.percent(at(500.0)), 100.0);
    }

    #[test]
    fn hours_go_on_behind_what_is_cut_however_long_that_is() {
        let ends = |to: Moment| {
            let cut = (at(30.0), to - minutes(30.0));
            hours(START, to, &[cut])
        };
        let day = ends(at(24.0 * 60.0));
        assert_eq!(day, [at(0.0), at(24.0 * 60.0)]);
        let year = 365.0 * 24.0 * 60.0;
        assert_eq!(ends(at(year)), [at(0.0), at(year)]);
        for ms in [1_i64 << 45, i64::MAX] {
            assert!(ends(Moment::from_epoch_ms(ms)).len() <= MOST_HOURS);
            let uncut = hours(START, Moment::from_epoch_ms(ms), &[]);
            assert_eq!(uncut.len(), MOST_HOURS);
        }
    }
}
