//! What an asked thing led to, in a sentence or two.

use domain::units::{Celsius, Grams, Minutes};
use platform::clock::time_of_day;
use platform::store::Degrees;

use super::quantity::{NEAR_ENOUGH_K, about, mass, span, temperature};
use crate::state::{Answer, Shift};

/// The sentences of an answer.
pub(crate) fn answer(answer: &Answer, degrees: Degrees) -> String {
    match answer {
        Answer::Refused(refusal) => super::refusal(refusal, degrees),
        Answer::Dough {
            measured,
            expected,
            is_target,
            shift,
        } => dough(*measured, *expected, *is_target, shift.as_deref(), degrees),
        Answer::Kitchen {
            air,
            fridge,
            effects,
        } => super::effect::kitchen(*air, *fridge, effects, degrees),
        Answer::Core {
            measured,
            wanted,
            at_least,
            too_slow,
            left,
        } => {
            let said = core(*measured, *wanted, *at_least, *left, degrees);
            said + &too_slow.map_or(String::new(), |(cold, within)| slow(cold, within, degrees))
        }
        Answer::Moved { place, shift } => super::places::moved(*place, shift, degrees),
        Answer::Poured { held, shift } => super::places::poured(*held, shift),
        Answer::Risen {
            share,
            expected,
            shift,
        } => super::places::risen(*share, *expected, shift),
        Answer::Piece {
            piece: number,
            mass: found,
            target,
        } => piece(*number, *found, *target),
        Answer::LookAgain { title, at } => {
            format!("{title}: I'll call you at {}.", time_of_day(*at))
        }
        Answer::Since(at) => format!("That was at {}.", time_of_day(*at)),
        Answer::TimerSet { name, due } if name.trim().is_empty() => {
            format!("Timer set: it rings at {}.", time_of_day(*due))
        }
        Answer::TimerSet { name, due } => format!("{name}: it rings at {}.", time_of_day(*due)),
        Answer::TakenBack(what) => format!("Taken back: {}.", super::taken_back(what, degrees)),
        Answer::PutBack(what) => format!("Put back: {}.", super::taken_back(what, degrees)),
    }
}

fn dough(
    measured: Celsius,
    expected: Option<Celsius>,
    is_target: bool,
    shift: Option<&Shift>,
    degrees: Degrees,
) -> String {
    let Some(expected) = expected else {
        return format!("Dough at {}.", temperature(measured, degrees));
    };
    let off = measured - expected;
    let near = off.get().abs() < NEAR_ENOUGH_K;
    let how = match (off.get() < 0.0, is_target) {
        (_, true) if near => "On target",
        _ if near => "As warm as expected",
        (true, true) => "cool",
        (false, true) => "warm",
        (true, false) => "cooler than expected",
        (false, false) => "warmer than expected",
    };
    let first = if near {
        how.to_owned()
    } else {
        format!("{} {how}", about(off, degrees))
    };
    let Some(shift) = shift else {
        return format!("{first}.");
    };
    let later = shift.after.window.likely() - shift.before.window.likely();
    let title = super::letters::lower_first(&shift.title);
    let mut said = if later.get().abs() < 1.5 {
        format!("{first}: {title} keeps its time")
    } else {
        let word = if later.get() > 0.0 { "longer" } else { "less" };
        format!("{first}: {title} will take about {} {word}", span(later))
    };
    if let Some(&fold) = shift.after.folds.first() {
        said += &format!(", fold at {}", time_of_day(fold));
    }
    let likely = time_of_day(shift.after.window.likely());
    format!("{said}, ready about {likely}.")
}

/// After two hours that nobody saw end below 21 °C.
fn slow(cold: Celsius, within: Minutes, degrees: Degrees) -> String {
    format!(
        " It should have been below {} within {}, and nothing shows that it was: \
         your local food-safety rules say whether it may still be used.",
        temperature(cold, degrees),
        span(within)
    )
}

fn core(
    measured: Celsius,
    wanted: Celsius,
    at_least: bool,
    left: Option<Minutes>,
    degrees: Degrees,
) -> String {
    let (found, wanted_text) = (temperature(measured, degrees), temperature(wanted, degrees));
    if at_least && measured >= wanted {
        return format!("{found} in the middle: done.");
    }
    if !at_least && measured <= wanted {
        return format!("{found} in the middle: cool enough.");
    }
    let left = match left {
        Some(left) => format!("about {} more", span(left)),
        None => format!("{} to go", about(wanted - measured, degrees)),
    };
    format!("{found} in the middle, {wanted_text} wanted: {left}.")
}

/// Pieces nearer than this to their mass bake alike. Common practice, no source.
const CLOSE_ENOUGH: f64 = 0.02;

/// "trim 4 g", "add 3 g", "good".
pub(crate) fn piece_advice(found: Grams, target: Grams) -> String {
    let off_g = found.get() - target.get();
    let by = mass(Grams::clamped(off_g.abs()));
    if off_g.abs() <= target.get() * CLOSE_ENOUGH {
        "good".to_owned()
    } else if off_g > 0.0 {
        format!("trim {by}")
    } else {
        format!("add {by}")
    }
}

fn piece(piece: u16, found: Grams, target: Grams) -> String {
    let number = piece + 1;
    let advice = piece_advice(found, target);
    format!("Piece {number}, {}: {advice}.", mass(found))
}
