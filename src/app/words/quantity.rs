//! Quantities in words. A number and its unit stay on one line, so a no-break space stands between them.

use domain::decimal::{fixed, plain};
use domain::estimate::Estimate;
use domain::kitchen::{Kitchen, OvenKind, Scales};
use domain::thermal::oven::{Dial, DialSetting, Fan, dial_setting};
use domain::units::{BakersPercent, Celsius, CelsiusDelta, Grams, Minutes, Moment, minutes};
use platform::clock::time_of_day;
use platform::store::Degrees;

/// Nearer to its target than a kitchen thermometer reads, in K.
pub(crate) const NEAR_ENOUGH_K: f64 = 0.75;

/// "26.5 °C" or "80 °F".
pub(crate) fn temperature(value: Celsius, degrees: Degrees) -> String {
    format!(
        "{}\u{a0}{}",
        temperature_number(value, degrees),
        temperature_unit(degrees)
    )
}

/// The bare number, to half a degree Celsius or a whole one Fahrenheit.
pub(crate) fn temperature_number(value: Celsius, degrees: Degrees) -> String {
    match degrees {
        Degrees::Celsius => plain((value.get() * 2.0).round() / 2.0, 1),
        Degrees::Fahrenheit => plain(value.to_fahrenheit().round(), 0),
    }
}

/// "°C" or "°F".
pub(crate) fn temperature_unit(degrees: Degrees) -> &'static str {
    match degrees {
        Degrees::Celsius => "°C",
        Degrees::Fahrenheit => "°F",
    }
}

/// A difference without its sign: "2°", in the baker's degrees.
pub(crate) fn about(delta: CelsiusDelta, degrees: Degrees) -> String {
    let size = match degrees {
        Degrees::Celsius => (delta.get().abs() * 2.0).round() / 2.0,
        Degrees::Fahrenheit => delta.to_fahrenheit().abs().round(),
    };
    format!("{}°", plain(size, 1))
}

/// "runs 10° cool", of an oven that is off what its dial says.
pub(crate) fn oven_runs(off: CelsiusDelta, degrees: Degrees) -> Option<String> {
    let which = if off.get() < 0.0 { "cool" } else { "hot" };
    (off.get() != 0.0).then(|| format!("runs {} {which}", about(off, degrees)))
}

/// What to set this kitchen's oven to for a conventional temperature.
pub(crate) fn oven_setting(conventional: Celsius, kitchen: &Kitchen, degrees: Degrees) -> String {
    let (kind, fan) = (kitchen.oven, kitchen.oven.fan());
    let conventional = kitchen.dial_for(conventional);
    let dial = match (kind, degrees) {
        (OvenKind::Gas, _) => Dial::Gas,
        (_, Degrees::Celsius) => Dial::Celsius,
        (_, Degrees::Fahrenheit) => Dial::Fahrenheit,
    };
    let with_fan = if fan == Fan::On { ", fan on" } else { "" };
    match dial_setting(conventional, fan, dial) {
        Some(DialSetting::Celsius(set)) => format!("{set}\u{a0}°C{with_fan}"),
        Some(DialSetting::Fahrenheit(set)) => format!("{set}\u{a0}°F{with_fan}"),
        Some(DialSetting::Gas(mark)) => format!("gas mark\u{a0}{mark}"),
        None => temperature(conventional, degrees),
    }
}

/// "340 g", "3.5 g", "1.25 kg".
pub(crate) fn mass(value: Grams) -> String {
    let grams = value.get();
    if grams >= 1000.0 {
        format!("{}\u{a0}kg", plain(grams / 1000.0, 2))
    } else if grams < 10.0 {
        format!("{}\u{a0}g", plain(grams, 1))
    } else {
        format!("{}\u{a0}g", plain(grams, 0))
    }
}

/// An amount as these scales show it: always in grams, so that it can be weighed as it stands.
pub(crate) fn amount(amount: Grams, scales: &Scales) -> String {
    let digits = match scales.step_for(amount).get() {
        step if step < 0.095 => 2,
        step if step < 0.95 => 1,
        _ => 0,
    };
    format!("{}\u{a0}g", fixed(amount.get(), digits))
}

/// "85": grams without their unit, for a field that names it.
pub(crate) fn bare_mass(value: Grams) -> String {
    plain(value.get(), 1)
}

/// "68 %", "1.8 %".
pub(crate) fn percent(value: BakersPercent) -> String {
    let percent = value.get();
    let digits = u32::from(percent < 10.0);
    format!("{}\u{a0}%", plain(percent, digits))
}

/// A length of time: "50 s", "25 min", "1 h 40 min".
pub(crate) fn span(length: Minutes) -> String {
    let minutes = length.get().abs();
    if minutes < 1.0 {
        return format!("{}\u{a0}s", plain((minutes * 60.0).round(), 0));
    }
    let whole = minutes.round() as i64;
    match (whole / 60, whole % 60) {
        (0, minutes) => format!("{minutes}\u{a0}min"),
        (hours, 0) => format!("{hours}\u{a0}h"),
        (hours, minutes) => format!("{hours}\u{a0}h {minutes}\u{a0}min"),
    }
}

/// Five minutes: nobody sets a timer, or counts on a forecast, more finely.
const FIVE_MS: i64 = 5 * 60_000;

/// A length to five minutes.
pub(super) fn five_minutes(length: Minutes) -> Minutes {
    minutes((length.get() / 5.0).round() * 5.0)
}

/// A moment to five minutes.
pub(super) fn about_time(moment: Moment) -> String {
    let fives = (moment.epoch_ms() + FIVE_MS / 2) / FIVE_MS;
    time_of_day(Moment::from_epoch_ms(fives * FIVE_MS))
}

/// The units that formulas write.
const UNITS: [&str; 10] = ["°C", "°F", "g", "kg", "mm", "cm", "in", "min", "h", "%"];

/// A formula's text, with every number held to its unit.
pub(crate) fn tight(text: &str) -> String {
    let mut last = ' ';
    let mut tight = String::with_capacity(text.len());
    for (place, letter) in text.char_indices() {
        let after_number = letter == ' ' && last.is_ascii_digit();
        let next = text[place..].trim_start();
        let next = next.split([' ', '(', ')', ',', '.', ';', ':']).next();
        let holds = after_number && next.is_some_and(|next| UNITS.contains(&next));
        tight.push(if holds { '\u{a0}' } else { letter });
        last = letter;
    }
    tight
}

/// A clock for the other side of the kitchen: a number and its unit, as few signs as will do.
///
/// "1h12", "48 min", below ten minutes "9:45", and when it is over "now", then "+4 min", and "+10 h" without minutes,
/// for which a card has no room beside its name. Before a
/// unit stand three signs, the first of them perhaps a space as wide as a digit, so that neither
/// the digits nor the unit move while they count.
pub(crate) fn clock_face(left: Minutes) -> (String, &'static str) {
    // Whole seconds, rounded up, so that nothing is over before it is.
    let seconds = (left.get() * 60.0 - 1e-6).ceil() as i64;
    match seconds {
        ..=-60 => face("+", -seconds / 60),
        -59..=0 => ("now".to_owned(), ""),
        1..600 => (format!("{}:{:02}", seconds / 60, seconds % 60), ""),
        _ => face("", (seconds + 59) / 60),
    }
}

fn face(sign: &str, minutes: i64) -> (String, &'static str) {
    if minutes < 60 {
        let signs = sign.len() + if minutes < 10 { 1 } else { 2 };
        let room = if signs < 3 { "\u{2007}" } else { "" };
        (format!("{room}{sign}{minutes}"), "min")
    } else if minutes >= 600 && !sign.is_empty() {
        (format!("{sign}{}", minutes / 60), "h")
    } else {
        (format!("{sign}{}h{:02}", minutes / 60, minutes % 60), "")
    }
}

/// "14:05 to 14:40, likely 14:20".
pub(crate) fn window(window: &Estimate<Moment>) -> String {
    let (low, likely, high) = (
        time_of_day(window.low()),
        time_of_day(window.likely()),
        time_of_day(window.high()),
    );
    if low == high {
        return likely;
    }
    format!("{low} to {high}, likely {likely}")
}

/// "between 14:05 and 14:40"; nothing of what is known to the minute.
pub(crate) fn between(window: &Estimate<Moment>) -> Option<String> {
    between_times(window, &time_of_day)
}

fn between_times(window: &Estimate<Moment>, time: &dyn Fn(Moment) -> String) -> Option<String> {
    let (low, high) = (time(window.low()), time(window.high()));
    (low != high).then(|| format!("between {low} and {high}"))
}

/// "14:05 to 14:40", where room is short.
pub(crate) fn short_window(window: &Estimate<Moment>) -> String {
    let (low, high) = (time_of_day(window.low()), time_of_day(window.high()));
    if low == high {
        return at(window.likely());
    }
    format!("{low} to {high}")
}

/// "at 14:05".
pub(crate) fn at(moment: Moment) -> String {
    format!("at {}", time_of_day(moment))
}

/// "1 bun", "8 buns".
pub(crate) fn count(count: u16, one: &str, several: &str) -> String {
    if count == 1 {
        format!("1 {one}")
    } else {
        format!("{count} {several}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use domain::kitchen::FineScales;
    use domain::units::{celsius, grams, minutes};

    #[test]
    fn a_clock_face_is_short_and_never_shows_nought() {
        let face = |left| {
            let (digits, unit) = clock_face(minutes(left));
            format!("{digits}{unit}")
        };
        assert_eq!(face(72.0), "1h12");
        assert_eq!(face(48.0), "\u{2007}48min");
        assert_eq!(face(10.0), "\u{2007}10min");
        assert_eq!(face(9.75), "9:45");
        assert_eq!(face(0.001), "0:01");
        assert_eq!(face(59.5), "1h00");
        assert_eq!(face(0.0), "now");
        assert_eq!(face(-0.99), "now");
        assert_eq!(face(-1.0), "\u{2007}+1min");
        assert_eq!(face(-4.2), "\u{2007}+4min");
        assert_eq!(face(-12.5), "+12min");
        assert_eq!(face(-75.0), "+1h15");
        assert_eq!(face(-623.0), "+10h");
    }

    #[test]
    fn what_is_known_to_the_minute_is_told_by_one_time() {
        let at = |seconds: f64| Moment::from_epoch_ms(0) + minutes(seconds / 60.0);
        let window = |low, high| {
            let basis = domain::estimate::Basis::Model;
            Estimate::new(at(low), at(low), at(high), basis)
        };
        let minute = |at: Moment| format!("0:{:02}", at.epoch_ms() / 60_000);
        let said = |low, high| between_times(&window(low, high), &minute);
        assert_eq!(said(65.0, 130.0).as_deref(), Some("between 0:01 and 0:02"));
        assert_eq!(said(65.0, 110.0), None);
        assert_eq!(said(65.0, 65.0), None);
    }

    #[test]
    fn a_number_holds_its_unit() {
        assert_eq!(
            tight("at 95 °C (203 °F); 10 mm thin"),
            "at 95\u{a0}°C (203\u{a0}°F); 10\u{a0}mm thin"
        );
        assert_eq!(tight("for 5 min, 8 gone"), "for 5\u{a0}min, 8 gone");
        assert_eq!(tight("ä 2 "), "ä 2 ");
    }

    #[test]
    fn numbers_lose_their_idle_noughts() {
        assert_eq!(temperature(celsius(26.0), Degrees::Celsius), "26\u{a0}°C");
        assert_eq!(temperature(celsius(26.4), Degrees::Celsius), "26.5\u{a0}°C");
        assert_eq!(
            temperature(celsius(26.5), Degrees::Fahrenheit),
            "80\u{a0}°F"
        );
        assert_eq!(mass(grams(1250.0)), "1.25\u{a0}kg");
        assert_eq!(mass(grams(100.0)), "100\u{a0}g");
        assert_eq!(mass(grams(3.5)), "3.5\u{a0}g");
        assert_eq!(span(minutes(100.0)), "1\u{a0}h 40\u{a0}min");
    }

    #[test]
    fn an_amount_has_the_digits_of_the_scales_it_is_weighed_on() {
        let fine = FineScales {
            step: grams(0.01),
            up_to: grams(50.0),
        };
        let scales = Scales {
            step: grams(1.0),
            fine: Some(fine),
        };
        assert_eq!(amount(grams(3.5), &scales), "3.50\u{a0}g");
        assert_eq!(amount(grams(1250.0), &scales), "1250\u{a0}g");
        assert_eq!(amount(grams(7.0), &Scales::KITCHEN), "7\u{a0}g");
    }
}
