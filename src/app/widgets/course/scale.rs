//! Where everything of a drawn course goes, in percent of the drawing's width and height.

use domain::decimal::fixed;
use domain::estimate::Estimate;
use domain::units::{Celsius, Moment};
use platform::store::Degrees;

/// Left of this the degrees have their room.
pub(super) const LEFT: f64 = 11.0;
pub(super) const RIGHT: f64 = 99.0;
/// The tops of the lines that tell moments.
pub(super) const TOP: f64 = 8.0;
const WARMEST: f64 = 14.0;
pub(super) const FLOOR: f64 = 82.0;
/// What a sign of a label takes of the width, where the drawing is narrowest: on a phone on its side.
const SIGN: f64 = 3.9;

/// How warm something is at a moment.
pub(super) type Dot = (Moment, Estimate<Celsius>);

/// In degrees.
const HAIR: f64 = 1e-6;

/// What a moment and a temperature are in the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Scale {
    start: Moment,
    /// In min.
    whole: f64,
    pub(super) degrees: Degrees,
    /// In the baker's degrees, whole ones, at least two apart.
    coldest: f64,
    warmest: f64,
    /// How far down the coldest is.
    lowest: f64,
}

impl Scale {
    /// One that holds temperatures, at least one, of which the first is at the start.
    pub(super) fn of(points: &[Dot], degrees: Degrees, lowest: f64) -> Self {
        let mut scale = Self {
            start: points[0].0,
            whole: 1.0,
            degrees,
            coldest: f64::INFINITY,
            warmest: f64::NEG_INFINITY,
            lowest,
        };
        for (at, warmth) in points {
            scale.whole = scale.whole.max((*at - scale.start).get());
            let (low, high) = (scale.number(warmth.low()), scale.number(warmth.high()));
            // A hair above a whole degree is rounding.
            scale.coldest = scale.coldest.min((low + HAIR).floor());
            scale.warmest = scale.warmest.max((high - HAIR).ceil());
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

    /// How far across a window is: low, likely and high.
    pub(super) fn window(&self, window: &Estimate<Moment>) -> [f64; 3] {
        [window.low(), window.likely(), window.high()].map(|at| self.x(at))
    }

    /// How far down a temperature is.
    pub(super) fn warm(&self, warmth: Celsius) -> f64 {
        self.down(self.number(warmth))
    }

    fn down(&self, number: f64) -> f64 {
        let part = (number - self.coldest) / (self.warmest - self.coldest);
        self.lowest + (WARMEST - self.lowest) * part.clamp(0.0, 1.0)
    }

    /// The degrees that are named, each with how far down it is.
    pub(super) fn ticks(&self) -> [(f64, String); 2] {
        [self.coldest, self.warmest].map(|number| self.named(number))
    }

    /// The same of a temperature.
    pub(super) fn tick(&self, warmth: Celsius) -> (f64, String) {
        self.named(self.number(warmth))
    }

    fn named(&self, number: f64) -> (f64, String) {
        (self.down(number), fixed(number, 0) + "°")
    }
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
    use domain::estimate::Basis;
    use domain::units::{celsius, minutes};

    const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

    const COLDEST: f64 = 38.0;

    fn dots(temperatures: &[(f64, f64, f64)], whole: f64) -> Vec<Dot> {
        let last = (temperatures.len() - 1) as f64;
        let dot = |(nth, &(low, likely, high)): (usize, &(f64, f64, f64))| {
            let at = START + minutes(whole * nth as f64 / last);
            let [low, likely, high] = [low, likely, high].map(celsius);
            (at, Estimate::new(low, likely, high, Basis::Model))
        };
        temperatures.iter().enumerate().map(dot).collect()
    }

    fn names(ticks: &[(f64, String)]) -> Vec<&str> {
        ticks.iter().map(|(_, name)| name.as_str()).collect()
    }

    #[test]
    fn time_goes_from_left_to_right_and_stays_inside() {
        let rise = dots(&[(24.0, 25.0, 26.0), (21.0, 22.0, 23.0)], 100.0);
        let scale = Scale::of(&rise, Degrees::Celsius, COLDEST);
        assert_eq!(scale.x(START), LEFT);
        assert_eq!(scale.x(START + minutes(50.0)), 0.5 * (LEFT + RIGHT));
        assert_eq!(scale.x(START + minutes(100.0)), RIGHT);
        assert_eq!(scale.x(START + minutes(500.0)), RIGHT);
        assert_eq!(scale.x(START + minutes(-5.0)), LEFT);
    }

    #[test]
    fn a_slower_rise_beside_it_makes_room_for_itself() {
        let rise = dots(&[(24.0, 25.0, 26.0), (21.0, 22.0, 23.0)], 100.0);
        let slower = dots(&[(24.0, 25.0, 26.0), (16.5, 17.0, 18.0)], 200.0);
        let scale = Scale::of(&[rise, slower].concat(), Degrees::Celsius, COLDEST);
        assert_eq!(scale.x(START + minutes(100.0)), 0.5 * (LEFT + RIGHT));
        assert_eq!(names(&scale.ticks()), ["16°", "26°"]);
    }

    #[test]
    fn two_whole_degrees_are_named_in_the_bakers_own() {
        let ticks = |low: f64, high: f64, degrees| {
            let rise = dots(&[(low, low, high), (low, high, high)], 60.0);
            Scale::of(&rise, degrees, COLDEST).ticks()
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
    fn warmer_is_higher() {
        let rise = dots(&[(20.0, 25.0, 26.0), (20.0, 22.0, 26.0)], 60.0);
        let scale = Scale::of(&rise, Degrees::Celsius, COLDEST);
        assert_eq!(scale.warm(celsius(26.0)), WARMEST);
        assert_eq!(scale.warm(celsius(20.0)), COLDEST);
        assert!(scale.warm(celsius(24.0)) < scale.warm(celsius(23.0)));
    }

    #[test]
    fn labels_under_the_drawing_never_touch() {
        let of = |moments: [f64; 3], text: &str| {
            let [start, low, high] = under(moments, &[(); 3].map(|()| text.to_owned()));
            let half = half(text);
            assert!(start + 1e-9 >= half && high + half <= 100.0 + 1e-9);
            assert!(start + half <= low - half + 1e-9, "{start} {low}");
            assert!(low + half <= high - half + 1e-9, "{low} {high}");
            [start, low, high].map(|middle| (100.0 * middle).round() / 100.0)
        };
        assert_eq!(of([LEFT, 60.0, RIGHT], "14:05"), [LEFT, 60.0, 90.25]);
        // A window that is narrow, a rise that is long over, and times of half a day.
        assert_eq!(of([LEFT, 90.0, RIGHT], "14:05"), [LEFT, 70.75, 90.25]);
        assert_eq!(of([LEFT, 15.0, 20.0], "14:05"), [9.75, 29.25, 48.75]);
        for low in [12.0, 40.0, 95.0] {
            of([LEFT, low, low + 3.0], "12:05 pm");
        }
    }

    #[test]
    fn a_label_above_keeps_off_the_edge_and_off_its_neighbour() {
        let of = |moment| above(moment, "ten signs.", "five.");
        assert_eq!(of(50.0), 50.0);
        assert_eq!(of(97.0), 80.5);
        assert_eq!(of(12.0), 39.0);
    }
}
