//! Where everything of a drawn rise goes, in percent of the drawing's width and height.
//!
//! Above, how warm the dough is; below, how far it has risen, as water that comes up to its mark.

use domain::bake::Drawn;
use domain::decimal::fixed;
use domain::units::{Celsius, Moment, Share};
use platform::store::Degrees;

/// Left of this the degrees have their room.
pub(super) const LEFT: f64 = 11.0;
pub(super) const RIGHT: f64 = 99.0;
/// The tops of the lines that tell moments.
pub(super) const TOP: f64 = 8.0;
const WARMEST: f64 = 14.0;
const COLDEST: f64 = 38.0;
pub(super) const READY: f64 = 52.0;
pub(super) const FLOOR: f64 = 82.0;
/// What a sign of a label takes of the width, on the narrowest phone.
const SIGN: f64 = 3.2;

/// What a moment, a temperature and a share of the rise are in the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Scale {
    start: Moment,
    /// In min.
    whole: f64,
    pub(super) degrees: Degrees,
    /// In the baker's degrees, whole ones, at least two apart.
    coldest: f64,
    warmest: f64,
}

impl Scale {
    /// One that holds a rise, and what it would be otherwise: at least one of them.
    pub(super) fn of(rises: &[Drawn], degrees: Degrees) -> Self {
        let mut scale = Self {
            start: rises[0].points[0].at,
            whole: 1.0,
            degrees,
            coldest: f64::INFINITY,
            warmest: f64::NEG_INFINITY,
        };
        for rise in rises {
            for point in &rise.points {
                scale.whole = scale.whole.max((point.at - scale.start).get());
                scale.coldest = scale.coldest.min(scale.number(point.dough.low()).floor());
                scale.warmest = scale.warmest.max(scale.number(point.dough.high()).ceil());
            }
        }
        scale.warmest = scale.warmest.max(scale.coldest + 2.0);
        scale
    }

    fn number(&self, warmth: Celsius) -> f64 {
        match self.degrees {
            Degrees::Celsius => warmth.get(),
            Degrees::Fahrenheit => warmth.to_fahrenheit(),
        }
    }

    /// How far across a moment is.
    pub(super) fn x(&self, at: Moment) -> f64 {
        let part = (at - self.start).get() / self.whole;
        LEFT + (RIGHT - LEFT) * part.clamp(0.0, 1.0)
    }

    /// How far across a rise's window is: low, likely and high.
    pub(super) fn window(&self, rise: &Drawn) -> [f64; 3] {
        let window = &rise.window;
        [window.low(), window.likely(), window.high()].map(|at| self.x(at))
    }

    /// How far down a temperature is.
    pub(super) fn warm(&self, warmth: Celsius) -> f64 {
        self.down(self.number(warmth))
    }

    fn down(&self, number: f64) -> f64 {
        let part = (number - self.coldest) / (self.warmest - self.coldest);
        COLDEST + (WARMEST - COLDEST) * part.clamp(0.0, 1.0)
    }

    /// The degrees that are named, each with how far down it is.
    pub(super) fn ticks(&self) -> [(f64, String); 2] {
        [self.coldest, self.warmest].map(|number| (self.down(number), fixed(number, 0) + "°"))
    }
}

/// How far down the water stands.
pub(super) fn risen(share: Share) -> f64 {
    FLOOR + (READY - FLOOR) * share.get()
}

/// What half of a text takes of the width.
fn half(text: &str) -> f64 {
    0.5 * SIGN * text.chars().count() as f64
}

/// The middles of the three labels under the drawing, start, low and high: as near to their
/// moments as they can be without touching.
pub(super) fn under(moments: [f64; 3], texts: &[String; 3]) -> [f64; 3] {
    let [for_start, for_low, for_high] = [&texts[0], &texts[1], &texts[2]].map(|text| half(text));
    let least = 2.0 * for_start + for_low;
    let high = moments[2].max(least + for_low + for_high);
    let high = high.min(100.0 - for_high);
    let low = moments[1].max(least).min(high - for_high - for_low);
    let start = moments[0].max(for_start).min(low - for_low - for_start);
    [start, low, high]
}

/// The middle of a label above the drawing, with another to its left.
pub(super) fn above(moment: f64, text: &str, left: &str) -> f64 {
    let (own, left) = (half(text), 2.0 * half(left));
    moment.max(left + own).min(100.0 - own)
}

#[cfg(test)]
mod tests {
    use super::*;
    use domain::estimate::{Basis, Estimate};
    use domain::units::{celsius, minutes, share};
    use domain::yeast::proof::Point;

    const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

    fn drawn(temperatures: &[(f64, f64, f64)], whole: f64) -> Drawn {
        let last = (temperatures.len() - 1) as f64;
        let point = |(nth, &(low, likely, high)): (usize, &(f64, f64, f64))| Point {
            at: START + minutes(whole * nth as f64 / last),
            dough: Estimate::new(celsius(low), celsius(likely), celsius(high), Basis::Model),
            progress: Estimate::exact(share(nth as f64 / last), Basis::Model),
        };
        let end = START + minutes(whole);
        Drawn {
            points: temperatures.iter().enumerate().map(point).collect(),
            window: Estimate::exact(end, Basis::Model),
            folds: Vec::new(),
            readings: Vec::new(),
        }
    }

    fn names(ticks: &[(f64, String)]) -> Vec<&str> {
        ticks.iter().map(|(_, name)| name.as_str()).collect()
    }

    #[test]
    fn time_goes_from_left_to_right_and_stays_inside() {
        let rise = drawn(&[(24.0, 25.0, 26.0), (21.0, 22.0, 23.0)], 100.0);
        let scale = Scale::of(&[rise], Degrees::Celsius);
        assert_eq!(scale.x(START), LEFT);
        assert_eq!(scale.x(START + minutes(50.0)), 0.5 * (LEFT + RIGHT));
        assert_eq!(scale.x(START + minutes(100.0)), RIGHT);
        assert_eq!(scale.x(START + minutes(500.0)), RIGHT);
        assert_eq!(scale.x(START + minutes(-5.0)), LEFT);
    }

    #[test]
    fn a_slower_rise_beside_it_makes_room_for_itself() {
        let rise = drawn(&[(24.0, 25.0, 26.0), (21.0, 22.0, 23.0)], 100.0);
        let slower = drawn(&[(24.0, 25.0, 26.0), (16.5, 17.0, 18.0)], 200.0);
        let scale = Scale::of(&[rise, slower], Degrees::Celsius);
        assert_eq!(scale.x(START + minutes(100.0)), 0.5 * (LEFT + RIGHT));
        assert_eq!(names(&scale.ticks()), ["16°", "26°"]);
    }

    #[test]
    fn two_whole_degrees_are_named_in_the_bakers_own() {
        let ticks = |low: f64, high: f64, degrees| {
            let rise = drawn(&[(low, low, high), (low, high, high)], 60.0);
            Scale::of(&[rise], degrees).ticks()
        };
        let of_celsius = |low, high| ticks(low, high, Degrees::Celsius);
        assert_eq!(names(&of_celsius(20.4, 25.5)), ["20°", "26°"]);
        assert_eq!(names(&of_celsius(20.4, 24.5)), ["20°", "25°"]);
        assert_eq!(names(&of_celsius(22.0, 22.0)), ["22°", "24°"]);
        assert_eq!(names(&of_celsius(-1.5, 0.5)), ["-2°", "1°"]);
        assert_eq!(
            names(&ticks(20.0, 25.0, Degrees::Fahrenheit)),
            ["68°", "77°"]
        );
        let places: Vec<f64> = of_celsius(20.0, 26.0).iter().map(|&(y, _)| y).collect();
        assert_eq!(places, [COLDEST, WARMEST]);
    }

    #[test]
    fn warmer_is_higher_and_so_is_riper() {
        let rise = drawn(&[(20.0, 25.0, 26.0), (20.0, 22.0, 26.0)], 60.0);
        let scale = Scale::of(&[rise], Degrees::Celsius);
        assert_eq!(scale.warm(celsius(26.0)), WARMEST);
        assert_eq!(scale.warm(celsius(20.0)), COLDEST);
        assert!(scale.warm(celsius(24.0)) < scale.warm(celsius(23.0)));
        assert_eq!(risen(Share::MIN), FLOOR);
        assert_eq!(risen(Share::MAX), READY);
    }

    #[test]
    fn labels_under_the_drawing_never_touch() {
        let of = |moments: [f64; 3], text: &str| {
            let [start, low, high] = under(moments, &[(); 3].map(|()| text.to_owned()));
            let half = half(text);
            assert!(start >= half && high + half <= 100.0);
            assert!(start + half <= low - half + 1e-9, "{start} {low}");
            assert!(low + half <= high - half + 1e-9, "{low} {high}");
            [start, low, high]
        };
        assert_eq!(of([LEFT, 60.0, RIGHT], "14:05"), [LEFT, 60.0, 92.0]);
        // A window that is narrow, a rise that is long over, and times of half a day.
        assert_eq!(of([LEFT, 90.0, RIGHT], "14:05"), [LEFT, 76.0, 92.0]);
        assert_eq!(of([LEFT, 15.0, 20.0], "14:05"), [8.0, 24.0, 40.0]);
        for low in [12.0, 40.0, 95.0] {
            of([LEFT, low, low + 3.0], "12:05 pm");
        }
    }

    #[test]
    fn a_label_above_keeps_off_the_edge_and_off_its_neighbour() {
        let of = |moment| above(moment, "ten signs.", "five.");
        assert_eq!(of(50.0), 50.0);
        assert_eq!(of(97.0), 84.0);
        assert_eq!(of(12.0), 32.0);
    }
}
