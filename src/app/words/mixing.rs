//! How warm the liquid should be, in words.

use domain::thermal::liquid::{Advice, LiquidAnswer, Move, Reach};
use domain::units::{Celsius, CelsiusDelta};
use platform::store::Degrees;

use super::quantity::{NEAR_ENOUGH_K, about, mass, temperature};

/// "Milk at 38 °C."
pub(crate) fn liquid_sentence(name: &str, answer: &LiquidAnswer, degrees: Degrees) -> String {
    match answer.reach {
        Reach::Ice(split) => format!(
            "{name}: {} from the tap with {} of ice",
            mass(split.water),
            mass(split.ice)
        ),
        _ => format!("{name} at {}", temperature(answer.mild, degrees)),
    }
}

/// What the dough will come to, and why no nearer to its target.
pub(crate) fn reach_sentence(answer: &LiquidAnswer, target: Celsius, degrees: Degrees) -> String {
    let dough = &answer.mild_dough;
    let comes_to = format!(
        "The dough should come to {} ({} to {}).",
        temperature(dough.likely(), degrees),
        temperature(dough.low(), degrees),
        temperature(dough.high(), degrees)
    );
    let near = (dough.likely() - target).get().abs() < NEAR_ENOUGH_K;
    let why = match answer.reach {
        Reach::OnTarget | Reach::Ice(_) => String::new(),
        Reach::TooWarmWanted { .. } | Reach::TooColdWanted { .. } if near => {
            format!(" That is near enough to {}.", temperature(target, degrees))
        }
        Reach::TooWarmWanted { cap } => out_of_reach(
            answer,
            target,
            cap,
            "as warm as the yeast can bear",
            degrees,
        ),
        Reach::TooColdWanted { coldest, .. } => {
            out_of_reach(answer, target, coldest, "as cold as you have it", degrees)
        }
    };
    // A ratio of two differences is the same on both scales.
    let sensitivity = format!(
        " Ten degrees more in the liquid move the dough by {}.",
        at_least_some(answer.for_ten_kelvin, Degrees::Celsius)
    );
    format!("{comes_to}{why}{sensitivity}")
}

/// Why no nearer, where the liquid may be a milder one than the limit, because that does as well.
fn out_of_reach(
    answer: &LiquidAnswer,
    target: Celsius,
    limit: Celsius,
    what: &str,
    degrees: Degrees,
) -> String {
    let shown = |value| temperature(value, degrees);
    let limit = shown(limit);
    let why = if limit == shown(answer.mild) {
        format!("{limit} is {what}")
    } else {
        format!("even at {limit}, {what}, the liquid would bring the dough hardly nearer")
    };
    format!(" {} is out of reach this way: {why}.", shown(target))
}

/// A difference that is small, but not nothing.
fn at_least_some(delta: CelsiusDelta, degrees: Degrees) -> String {
    if delta.get().abs() < 0.25 {
        "less than half a degree".to_owned()
    } else {
        about(delta, degrees)
    }
}

/// One more thing that would help.
pub(crate) fn advice(advice: &Advice, degrees: Degrees) -> String {
    let gain = at_least_some(advice.gain, degrees);
    let what = match advice.action {
        Move::WarmFlour => "Warm the flour to hand warmth",
        Move::WarmBowl => "Rinse the bowl with hot water",
        Move::WarmTheRest => "Let what comes from the fridge warm up first",
        Move::WarmerPlace => "Knead in a warmer spot",
        Move::ChillFlour => "Chill the flour in the fridge",
        Move::ChillBowl => "Chill the bowl",
        Move::ChillTheRest => "Take the other ingredients straight from the fridge",
        Move::CoolerPlace => "Knead in a cooler spot",
    };
    format!("{what}: {gain} nearer.")
}

#[cfg(test)]
mod tests {
    use super::*;
    use domain::estimate::{Basis, Estimate};
    use domain::units::{celsius, celsius_delta};

    fn reached(cap_c: f64, mild_c: f64) -> String {
        let dough = Estimate::new(celsius(22.0), celsius(22.5), celsius(23.0), Basis::Model);
        let answer = LiquidAnswer {
            temperature: celsius(cap_c),
            wanted: celsius(80.0),
            reach: Reach::TooWarmWanted {
                cap: celsius(cap_c),
            },
            dough,
            mild: celsius(mild_c),
            mild_dough: dough,
            for_ten_kelvin: celsius_delta(0.3),
            rule_of_factors: None,
            advice: Vec::new(),
        };
        let said = reach_sentence(&answer, celsius(25.0), Degrees::Celsius);
        said.replace('\u{a0}', " ")
    }

    #[test]
    fn a_limit_beside_a_milder_liquid_says_why_the_milder_does() {
        let said = reached(45.0, 35.0);
        let why = "25 °C is out of reach this way: even at 45 °C, as warm as the yeast can bear, \
                   the liquid would bring the dough hardly nearer.";
        assert!(said.contains(why), "{said}");
    }

    #[test]
    fn a_liquid_at_its_limit_says_that_it_is_there() {
        let said = reached(45.0, 45.0);
        let why = "25 °C is out of reach this way: 45 °C is as warm as the yeast can bear.";
        assert!(said.contains(why), "{said}");
    }
}
