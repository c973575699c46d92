//! A cooling as it can be drawn: how warm something has been and will be, and by when food that
//! spoils has to be how cold.
//!
//! The band is the window's own: it lies between courses from the newest reading in the middle, or else
//! from the start, each at the pace that brings it to one of the window's ends. What was believed before a
//! reading has no band any more.

use super::course::Going;
use super::hot_body::HotBody;
use super::progress::Reading;
use super::state::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{Length, Step, StepId};
use crate::thermal::cooling::{BOTH_STAGES, HORIZON, HOT, stages as stages_of};
use crate::thermal::vessel::Course;
use crate::units::{Celsius, CelsiusDelta, Minutes, Moment};

/// So many steps are enough for a smooth line on a phone.
const STEPS: f64 = 40.0;
/// A part of it that is short beside the rest has at least so many.
const LEAST_STEPS: f64 = 6.0;

/// A filling or a baked piece at one moment of its cooling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warmth {
    /// The moment.
    pub at: Moment,
    /// Its middle.
    pub core: Estimate<Celsius>,
    /// All of it on average, likely.
    pub mean: Celsius,
}

/// A stage of the rule for food that spoils: see [`crate::thermal::cooling`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// How cold its middle has to be.
    pub to: Celsius,
    /// How long after it was at 57 °C, or after its start where that is cooler.
    pub within: Minutes,
    /// When that is.
    pub by: Moment,
    /// When it likely is, or was, so cold; `None` where it never is.
    pub likely: Option<Moment>,
    /// By when it surely is, as far as nine times in ten is sure: the late end of the window for that.
    pub late: Option<Moment>,
}

/// A cooling from its start to its end.
#[derive(Debug, Clone, PartialEq)]
pub struct Cooled {
    /// From the start to the late end of its window, or to now where that is later; of what is never
    /// cold enough, for as long as the rule goes on.
    ///
    /// Never empty and in order of time; one of them is now. Where its middle was measured there
    /// are two: what was believed until then, and what was found; so there are where it was poured, for then it
    /// is as warm throughout as it was on average.
    pub points: Vec<Warmth>,
    /// How cold its middle must be.
    pub to: Celsius,
    /// When it should be; `None` where it never is.
    pub window: Option<Estimate<Moment>>,
    /// What a filling has to keep to on this way; empty for a baked piece.
    pub stages: Vec<Stage>,
    /// The temperatures that were taken in its middle.
    pub readings: Vec<(Moment, Celsius)>,
}

impl State {
    /// How a step cools that goes on; `None` for any other.
    #[must_use]
    pub fn cooled(&self, step: StepId, now: Moment) -> Option<Cooled> {
        let step = self.formula.step(step)?;
        let start = self.running_since(step)?;
        let Going::Cools(body) = self.going(step, start, None) else {
            return None;
        };
        let window = self.window_of(step.id)?;
        let comes = window.likely() < start + HORIZON;
        // By a clock that was put back, it started in what is still to come.
        let now = now.max(start);
        let rule = start + BOTH_STAGES;
        let end = if comes { window.high() } else { rule }.max(now);

        let believed = body.likely_course(start, &body.around);
        // What was read before it was poured is in what it was as warm as then.
        let begins = body.begins(start);
        let reading = self.reading_since(step.id, begins);
        let since = reading.map_or((begins, believed.core_at(begins)), |read| {
            (read.at, read.temperature)
        });
        let band = Band::of(&believed, since, body.to, &window, comes);
        let mut ways = body.before(start);
        if reading.is_some() {
            ways.push((begins, believed));
        }
        let points = band.points(&ways, start, now, end);
        let Band { since, courses, .. } = band;
        let [_, found, _] = courses;
        ways.push((since, found));
        let taken = self.cores.iter();
        let taken = taken.filter(|read| read.of == step.id && read.at >= start);
        Some(Cooled {
            points,
            to: body.to,
            window: comes.then_some(window),
            stages: self.stages(step, &body, &ways, start, reading),
            readings: taken.map(|read| (read.at, read.temperature)).collect(),
        })
    }

    /// What a filling has to keep to on the ways that it cools.
    fn stages(
        &self,
        step: &Step,
        body: &HotBody,
        ways: &[(Moment, Course)],
        start: Moment,
        reading: Option<Reading<StepId>>,
    ) -> Vec<Stage> {
        let Length::Chill { from: written, .. } = step.length else {
            return Vec::new();
        };
        let Some(hot) = passed(ways, HOT, start) else {
            return Vec::new();
        };
        // What this step doesn't cool to is for another.
        let own = stages_of(written).iter();
        let own = own.filter(|&&(cold, _)| cold >= body.to);
        let stage = |&(cold, within): &(Celsius, Minutes)| {
            let likely = passed(ways, cold, start);
            // Whoever has read it off knows.
            let late = match reading.filter(|read| read.temperature <= cold) {
                Some(_) => likely,
                None => Some(self.window_of_cooling(step, body, cold, start).high()),
            };
            Stage {
                to: cold,
                within,
                by: hot + within,
                likely,
                late: late.filter(|&late| late < start + HORIZON),
            }
        };
        own.map(stage).collect()
    }
}

/// The courses between which it lies from a moment on: at the paces that bring it to the early end of its window, its
/// likely one and its late one.
struct Band {
    since: Moment,
    courses: [Course; 3],
    ends: [Moment; 3],
    /// By how much in K each of them misses its end.
    misses: [f64; 3],
    basis: Basis,
}

impl Band {
    fn of(
        believed: &Course,
        (since, core): (Moment, Celsius),
        to: Celsius,
        window: &Estimate<Moment>,
        comes: bool,
    ) -> Self {
        let ends = [window.low(), window.likely(), window.high()];
        let courses = ends.map(|end| ending(believed, since, core, to, end));
        let misses = [0, 1, 2].map(|one| {
            let misses = (to - courses[one].core_at(ends[one])).get();
            if comes { misses } else { 0.0 }
        });
        Self {
            since,
            courses,
            ends,
            misses,
            basis: window.basis(),
        }
    }

    /// A line from the start to an end, along the ways before the band and then along that, with a point at `now`.
    fn points(
        &self,
        ways: &[(Moment, Course)],
        start: Moment,
        now: Moment,
        end: Moment,
    ) -> Vec<Warmth> {
        let apart = ((end - start).get() / STEPS).max(1e-3);
        let mut points = Vec::new();
        let mut trace = |courses: [&Course; 3], from: Moment, until: Moment| {
            let steps = ((until - from).get() / apart).ceil();
            let steps = steps.clamp(LEAST_STEPS, STEPS) as u16;
            for step in 0..=steps {
                let at = from + (until - from) * (f64::from(step) / f64::from(steps));
                points.push(self.warmth(courses, at));
            }
        };
        for (way, (from, course)) in ways.iter().enumerate() {
            trace([course; 3], *from, next(ways, way).unwrap_or(self.since));
        }
        let found = self.courses.each_ref();
        let here = now.max(self.since);
        trace(found, self.since, here);
        // A window can be long, so that its early end would lie between two points.
        let early = self.ends[0].clamp(here, end.max(here));
        trace(found, here, early);
        trace(found, early, end.max(self.since));
        points
    }

    fn warmth(&self, [low, likely, high]: [&Course; 3], at: Moment) -> Warmth {
        Warmth {
            at,
            core: Estimate::new(
                low.core_at(at) + self.made_good(0, at),
                likely.core_at(at),
                high.core_at(at) + self.made_good(2, at),
                self.basis,
            ),
            mean: likely.mean_at(at),
        }
    }

    /// What makes an end early or late can be its surroundings, which no pace is as good as where they change on the way:
    /// what the course misses its end by is shared out over its way.
    fn made_good(&self, one: usize, at: Moment) -> CelsiusDelta {
        let way = (self.ends[one] - self.since).get().max(1e-3);
        let part = (at - self.since).get() / way;
        CelsiusDelta::clamped(self.misses[one] * part.clamp(0.0, 1.0))
    }
}

/// When a way ends because the next one begins.
fn next(ways: &[(Moment, Course)], way: usize) -> Option<Moment> {
    ways.get(way + 1).map(|next| next.0)
}

/// When it came to a temperature on its ways, or will.
fn passed(ways: &[(Moment, Course)], warmth: Celsius, start: Moment) -> Option<Moment> {
    let mut passed = None;
    for (way, (from, course)) in ways.iter().enumerate() {
        // What was measured above a temperature came to it later than that, and what was measured below it before; it is
        // as warm where it is poured.
        if course.core_at(*from) > warmth {
            let until = next(ways, way);
            let there = course.when_core_reaches(warmth, HORIZON);
            passed = there.filter(|there| until.is_none_or(|until| *there <= until));
        } else if way == 0 {
            return Some(start);
        } else {
            passed = passed.or(Some(*from));
        }
    }
    passed
}

/// A body's course from a reading in its middle on, at the pace that ends it at a moment.
fn ending(believed: &Course, at: Moment, core: Celsius, to: Celsius, end: Moment) -> Course {
    let mut slower = 1.0;
    let mut course = believed.through(at, core, slower);
    // Where its surroundings don't change the first guess is right; a change on the way takes a few more.
    for _ in 0..6 {
        let there = course.when_core_reaches(to, HORIZON);
        let Some(there) = there.filter(|&there| core > to && there > at) else {
            break;
        };
        slower *= (end - at).get().max(1e-3) / (there - at).get();
        course = believed.through(at, core, slower);
    }
    course
}
