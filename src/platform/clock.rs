//! The phone's clock, its wall-clock words, and waking up in time.
//!
//! Summer time and time zones are known only here: the browser's `Date` knows them. The hour is written the way the
//! browser's language writes it, in 12 or 24 hours, with the English words that the rest of the app uses.

use std::cell::RefCell;
use std::rc::Rc;

use domain::units::Moment;
use gloo_timers::callback::{Interval, Timeout};
use js_sys::{Array, Date, Intl, Object};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast as _, JsValue};

pub use crate::drift::Drift;
use crate::events::window;
use crate::js;
use crate::later::later;

/// The present.
#[must_use]
pub fn now() -> Moment {
    Moment::from_epoch_ms(Date::now() as i64)
}

fn date(moment: Moment) -> Date {
    Date::new(&JsValue::from_f64(moment.epoch_ms() as f64))
}

/// Whether the browser's language counts to twelve twice a day.
fn twice_twelve() -> bool {
    let hours = Object::from(js::object(&[("hour", "numeric".into())]));
    let usual = Intl::DateTimeFormat::new(&Array::new(), &hours).resolved_options();
    js::get(usual.as_ref(), "hour12").and_then(|answer| answer.as_bool()) == Some(true)
}

thread_local! {
    static TWELVE: bool = twice_twelve();
}

/// The time of day where the phone is: "14:05", or "2:05 pm" where that is the habit.
///
/// `Intl` would write it too, but takes ten times as long, and a page has dozens of times.
#[must_use]
pub fn time_of_day(moment: Moment) -> String {
    written(minute_of_day(moment), TWELVE.with(|twelve| *twelve))
}

fn written(minute: u32, in_twelve: bool) -> String {
    let (mut hour, mut half) = (minute / 60, "");
    if in_twelve {
        half = if hour < 12 { " am" } else { " pm" };
        hour = (hour + 11) % 12 + 1;
    }
    let digit = |number: u32| char::from(b'0' + (number % 10) as u8);
    let mut said = String::new();
    // An hour of one digit reads best before "pm", and lines up worst in a list of 24.
    if !in_twelve || hour > 9 {
        said.push(digit(hour / 10));
    }
    said.push(digit(hour));
    said.push(':');
    said.push(digit(minute % 60 / 10));
    said.push(digit(minute));
    said + half
}

/// A day of the calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Day {
    /// The year of our era.
    pub year: u32,
    /// The month, from 1 for January.
    pub month: u32,
    /// The day of the month, from 1.
    pub day: u32,
    /// The day of the week, from 0 for Sunday.
    pub weekday: u32,
}

/// The day that a moment falls on where the phone is.
///
/// `Intl` would write it out too, but takes a seventh of a start to find its words.
#[must_use]
pub fn day(moment: Moment) -> Day {
    let date = date(moment);
    Day {
        year: date.get_full_year(),
        month: date.get_month() + 1,
        day: date.get_date(),
        weekday: date.get_day(),
    }
}

/// The hour of the day where the phone is, from 0 to 23.
#[must_use]
pub fn hour(moment: Moment) -> u32 {
    date(moment).get_hours()
}

/// The minute of the day where the phone is, from 0 to 1439.
#[must_use]
pub fn minute_of_day(moment: Moment) -> u32 {
    let date = date(moment);
    date.get_hours() * 60 + date.get_minutes()
}

/// When the phone's clock next shows a minute of the day, from `after` on.
///
/// Where summer time begins by leaving that minute out, it is an hour off.
#[must_use]
pub fn next_time_of_day(minute: u32, after: Moment) -> Moment {
    const DAY: u32 = 24 * 60;
    const MINUTE_MS: i64 = 60_000;
    let ahead = |from: Moment| i64::from((minute + DAY - minute_of_day(from)) % DAY);
    let later = |from: Moment, minutes: i64| {
        Moment::from_epoch_ms(from.epoch_ms().saturating_add(minutes * MINUTE_MS))
    };
    // Every time zone counts whole minutes.
    let to_whole = (MINUTE_MS - after.epoch_ms().rem_euclid(MINUTE_MS)) % MINUTE_MS;
    let from = Moment::from_epoch_ms(after.epoch_ms().saturating_add(to_whole));
    let next = later(from, ahead(from));
    // A day on which the clock is put forward or back is an hour shorter or longer.
    match ahead(next) {
        off if off > i64::from(DAY / 2) => later(next, off - i64::from(DAY)),
        off => later(next, off),
    }
}

/// Noon, so many days after the day of a moment where the phone is.
#[must_use]
pub fn days_later(moment: Moment, days: usize) -> Moment {
    const NOON: u32 = 12 * 60;
    const DAY_MS: i64 = 24 * 3_600_000;
    // Some twelve hours either way lie on the same day, however the clocks are changed.
    let into = i64::from(minute_of_day(moment)) - i64::from(NOON);
    let noon = moment.epoch_ms() - into * 60_000;
    Moment::from_epoch_ms(noon + days as i64 * DAY_MS)
}

/// Something that is done again and again until this is dropped.
#[must_use = "it stops when dropped"]
pub struct Ticker {
    _interval: Interval,
}

/// Does something every so many milliseconds. Hidden pages are served less often.
pub fn every(ms: u32, tick: impl FnMut() + 'static) -> Ticker {
    Ticker {
        _interval: Interval::new(ms, tick),
    }
}

/// Gives the page a turn: what it has to draw and to answer comes before what follows.
pub async fn turn() {
    let (giver, answer) = later();
    let _timeout = Timeout::new(0, move || {
        let _ = giver.give(());
    });
    answer.await;
}

/// Waits until what was drawn can be seen, but no longer than a page takes that is out of sight and draws nothing.
pub async fn painted() {
    const LONGEST_FRAME_MS: u32 = 100;
    // What is asked for before a frame is done before it is painted, so only the next one comes after it.
    for _ in 0..2 {
        let (giver, answer) = later();
        let late = giver.clone();
        let _timeout = Timeout::new(LONGEST_FRAME_MS, move || {
            let _ = late.give(());
        });
        let frame = Closure::once_into_js(move || {
            let _ = giver.give(());
        });
        // Where it isn't to be had, the timeout is.
        let _ = window().request_animation_frame(frame.unchecked_ref());
        answer.await;
    }
    turn().await;
}

/// Something that is done once, unless this is dropped before.
#[must_use = "nothing happens when it is dropped before its moment"]
pub struct Once {
    pending: Rc<RefCell<Option<Timeout>>>,
}

/// Browsers keep a delay in 31 bits; a longer one would fire at once.
const LONGEST_MS: i64 = i32::MAX as i64;

/// Does something once that moment has come; at once when it has passed.
///
/// When the clock was set back meanwhile, it goes on waiting for the moment.
pub fn at(moment: Moment, act: impl FnOnce() + 'static) -> Once {
    let pending = Rc::new(RefCell::new(None));
    arm(&pending, moment, Box::new(act));
    Once { pending }
}

fn arm(pending: &Rc<RefCell<Option<Timeout>>>, moment: Moment, act: Box<dyn FnOnce()>) {
    let left_ms = moment.epoch_ms().saturating_sub(now().epoch_ms());
    let delay_ms = u32::try_from(left_ms.clamp(0, LONGEST_MS)).unwrap_or(0);
    let again = Rc::downgrade(pending);
    let timeout = Timeout::new(delay_ms, move || {
        if now() >= moment {
            act();
        } else if let Some(pending) = again.upgrade() {
            arm(&pending, moment, act);
        }
    });
    *pending.borrow_mut() = Some(timeout);
}

impl Drop for Once {
    fn drop(&mut self) {
        self.pending.borrow_mut().take();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_written_as_it_is_usual() {
        let minutes = [0, 5, 60, 719, 720, 725, 780, 1439];
        let twelve = [
            "12:00 am", "12:05 am", "1:00 am", "11:59 am", "12:00 pm", "12:05 pm", "1:00 pm",
            "11:59 pm",
        ];
        let whole = [
            "00:00", "00:05", "01:00", "11:59", "12:00", "12:05", "13:00", "23:59",
        ];
        assert_eq!(minutes.map(|minute| written(minute, true)), twelve);
        assert_eq!(minutes.map(|minute| written(minute, false)), whole);
    }
}
