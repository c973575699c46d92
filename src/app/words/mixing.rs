//! How warm the liquid should be, in words.

use domain::thermal::constants::NO_YEAST_LIQUID_CAP;
use domain::thermal::liquid::{Action, Advice, Chill, ColdPlace, LiquidAnswer, Reach};
use domain::units::{Celsius, CelsiusDelta, minutes};
use platform::store::Degrees;

use super::letters::capital;
use super::quantity::{NEAR_ENOUGH_K, about, five_minutes, mass, span, temperature};

/// "Milk at 38 °C", "Water and milk at 31 °C"; with a part of it frozen, how much of what.
pub(crate) fn liquid_sentence(names: &[String], answer: &LiquidAnswer, degrees: Degrees) -> String {
    let name = capital(&together(names));
    let Some(split) = answer.frozen else {
        return format!("{name} at {}", temperature(answer.mild, degrees));
    };
    let (frozen, rest) = (mass(split.frozen), mass(split.rest));
    if names.len() > 1 {
        let which = &names[split.which.min(names.len() - 1)];
        let how = if split.takes_hours {
            "frozen"
        } else {
            "as ice"
        };
        let both = if names.len() == 2 { "both" } else { "all" };
        return format!("{name}, {both} cold; {frozen} of the {which} {how}");
    }
    let (place, how) = if split.takes_hours {
        ("fridge", "frozen")
    } else {
        ("tap", "of ice")
    };
    format!("{name}: {rest} from the {place} and {frozen} {how}")
}

/// "milk", "water and milk", "water, milk and juice".
fn together(names: &[String]) -> String {
    let mut all = String::new();
    for (place, name) in names.iter().enumerate() {
        all.push_str(match names.len() - place {
            _ if place == 0 => "",
            1 => " and ",
            _ => ", ",
        });
        all.push_str(name);
    }
    all
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
        Reach::OnTarget | Reach::Frozen => String::new(),
        Reach::TooWarmWanted { .. } | Reach::TooColdWanted { .. } if near => {
            format!(" That is near enough to {}.", temperature(target, degrees))
        }
        Reach::TooWarmWanted { cap } => {
            let what = if cap < NO_YEAST_LIQUID_CAP {
                "as warm as the yeast can bear"
            } else {
                "as warm as flour can bear"
            };
            out_of_reach(answer, target, cap, what, degrees)
        }
        // A mixture of ice and liquid has no temperature that anybody could measure.
        Reach::TooColdWanted { .. } if answer.frozen.is_some() => format!(
            " {} is out of reach this way: if more of it were frozen, it would not melt in time.",
            temperature(target, degrees)
        ),
        Reach::TooColdWanted { coldest } => {
            out_of_reach(answer, target, coldest, "as cold as you have it", degrees)
        }
    };
    let beside = match &answer.unfrozen_dough {
        Some(dough) => format!(
            " Freezing takes hours. Without it, the cold liquid brings the dough to {}.",
            temperature(dough.likely(), degrees)
        ),
        // A ratio of two differences is the same on both scales.
        None => format!(
            " Ten degrees more in the liquid move the dough by {}.",
            at_least_some(answer.for_ten_kelvin, Degrees::Celsius)
        ),
    };
    format!("{comes_to}{why}{beside}")
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
        Action::WarmFlour => "Warm the flour to hand warmth",
        Action::WarmBowl => "Rinse the bowl with hot water",
        Action::WarmTheRest => "Let what comes from the fridge warm up first",
        Action::WarmerPlace => "Knead in a warmer spot",
        Action::ChillFlour => "Spread the flour thin, cover it and chill it",
        Action::ChillBowl => "Chill the bowl",
        Action::ChillTheRest => "Take the other ingredients straight from the fridge",
        Action::CoolerPlace => "Knead in a cooler spot",
    };
    let how = advice.chill.as_ref().map_or_else(String::new, chill);
    format!("{what}{how}: {gain} nearer.")
}

/// " for 40 min in the fridge", as a kitchen timer is set.
fn chill(chill: &Chill) -> String {
    let timer = five_minutes(chill.time.likely()).max(minutes(5.0));
    let place = match chill.place {
        ColdPlace::Fridge => "fridge",
        ColdPlace::Freezer => "freezer",
    };
    format!(" for {} in the {place}", span(timer))
}

#[cfg(test)]
mod tests {
    use super::*;
    use domain::estimate::{Basis, Estimate};
    use domain::thermal::liquid::FrozenSplit;
    use domain::units::{celsius, celsius_delta, grams};

    fn answer(reach: Reach, mild_c: f64) -> LiquidAnswer {
        let dough = Estimate::new(celsius(22.0), celsius(22.5), celsius(23.0), Basis::Model);
        LiquidAnswer {
            temperature: celsius(mild_c),
            wanted: celsius(80.0),
            reach,
            dough,
            mild: celsius(mild_c),
            mild_dough: dough,
            frozen: None,
            unfrozen_dough: None,
            for_ten_kelvin: celsius_delta(0.3),
            rule_of_factors: None,
            advice: Vec::new(),
        }
    }

    fn frozen(which: usize, takes_hours: bool) -> LiquidAnswer {
        let mut answer = answer(Reach::Frozen, -6.0);
        answer.frozen = Some(FrozenSplit {
            which,
            frozen: grams(35.0),
            rest: grams(120.0),
            takes_hours,
        });
        answer
    }

    fn plain(said: &str) -> String {
        said.replace('\u{a0}', " ")
    }

    fn reached(cap_c: f64, mild_c: f64) -> String {
        let cap = celsius(cap_c);
        let answer = answer(Reach::TooWarmWanted { cap }, mild_c);
        plain(&reach_sentence(&answer, celsius(25.0), Degrees::Celsius))
    }

    fn liquid(names: &[&str], answer: &LiquidAnswer) -> String {
        let names: Vec<String> = names.iter().map(|&name| name.to_owned()).collect();
        plain(&liquid_sentence(&names, answer, Degrees::Celsius))
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
        let said = reached(50.0, 50.0);
        assert!(said.contains("as warm as flour can bear"), "{said}");
    }

    #[test]
    fn liquids_are_named_together() {
        let warm = answer(Reach::OnTarget, 31.0);
        assert_eq!(liquid(&["milk"], &warm), "Milk at 31 °C");
        assert_eq!(liquid(&["water", "milk"], &warm), "Water and milk at 31 °C");
        assert_eq!(
            liquid(&["water", "milk", "juice"], &warm),
            "Water, milk and juice at 31 °C"
        );
    }

    #[test]
    fn what_is_frozen_is_weighed_apart() {
        assert_eq!(
            liquid(&["water"], &frozen(0, false)),
            "Water: 120 g from the tap and 35 g of ice"
        );
        assert_eq!(
            liquid(&["milk"], &frozen(0, true)),
            "Milk: 120 g from the fridge and 35 g frozen"
        );
        assert_eq!(
            liquid(&["water", "milk"], &frozen(0, false)),
            "Water and milk, both cold; 35 g of the water as ice"
        );
        assert_eq!(
            liquid(&["water", "milk"], &frozen(1, true)),
            "Water and milk, both cold; 35 g of the milk frozen"
        );
    }

    #[test]
    fn what_takes_hours_says_so_and_what_comes_of_going_without() {
        let mut answer = frozen(0, true);
        let warmer = Estimate::exact(celsius(26.5), Basis::Model);
        answer.unfrozen_dough = Some(warmer);
        let said = plain(&reach_sentence(&answer, celsius(22.5), Degrees::Celsius));
        assert_eq!(
            said,
            "The dough should come to 22.5 °C (22 °C to 23 °C). Freezing takes hours. Without it, \
             the cold liquid brings the dough to 26.5 °C."
        );
    }

    #[test]
    fn chilling_has_a_length_and_a_place() {
        let chilled = |place, likely| {
            let time = Estimate::exact(minutes(likely), Basis::Model);
            let to = celsius(9.0);
            let told = Advice {
                action: Action::ChillFlour,
                gain: celsius_delta(1.5),
                chill: Some(Chill { place, time, to }),
            };
            plain(&advice(&told, Degrees::Celsius))
        };
        assert_eq!(
            chilled(ColdPlace::Fridge, 38.2),
            "Spread the flour thin, cover it and chill it for 40 min in the fridge: 1.5° nearer."
        );
        assert_eq!(
            chilled(ColdPlace::Freezer, 1.0),
            "Spread the flour thin, cover it and chill it for 5 min in the freezer: 1.5° nearer."
        );
    }
}
