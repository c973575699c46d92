//! What a change of the kitchen does to the bakes, in a sentence or two for each.

use domain::bake::Reason;
use domain::kitchen::Place;
use domain::units::{Celsius, Minutes};
use platform::clock::{self, time_of_day};
use platform::store::Degrees;

use super::bench::set_oven;
use super::letters::{capital, lower_first};
use super::quantity::{mass, span, temperature};
use crate::state::{Cause, Effect, Liquid, Shift, TableShift};

/// The sentences of an answer about the kitchen; `air` and `fridge` are before and after.
pub(super) fn kitchen(
    air: (Celsius, Celsius),
    fridge: (Celsius, Celsius),
    effects: &[Effect],
    degrees: Degrees,
) -> String {
    let (place, (before, now)) = if air.0 == air.1 {
        ("fridge", fridge)
    } else {
        ("kitchen", air)
    };
    // "in a cooler kitchen"; nothing where something else about the kitchen changed.
    let where_at = if now == before {
        String::new()
    } else {
        let than_before = if now > before { "warmer" } else { "cooler" };
        let where_at = if place == "kitchen" { "in" } else { "with" };
        format!(" {where_at} a {than_before} {place}")
    };
    let mut said = vec![if now == before {
        "Kitchen changed.".to_owned()
    } else {
        format!("{} {}.", capital(place), temperature(now, degrees))
    }];
    if place == "fridge" {
        said.push(super::alarm::warm_fridge(now).trim_end().to_owned());
        said.retain(|line| !line.is_empty());
    }
    for effect in effects {
        let told = of_one(effect, &where_at, degrees);
        if effects.len() > 1 && !told.is_empty() {
            said.push(format!("{}.", effect.whose));
        }
        said.extend(told);
    }
    said.join(" ")
}

fn of_one(effect: &Effect, where_at: &str, degrees: Degrees) -> Vec<String> {
    let shifts = effect.shifts.iter();
    let mut said: Vec<String> = shifts.map(|shift| moved(shift, degrees)).collect();
    said.extend(effect.liquid.map(|(was, is)| liquid(was, is, degrees)));
    said.extend(effect.table.as_ref().map(|shift| table(shift, where_at)));
    let oven_on = effect.oven_on.map(time_of_day);
    said.extend(oven_on.map(|at| format!("Oven on at {at}.")));
    let dial = effect.turn_dial.as_ref();
    said.extend(dial.map(|(oven, kitchen)| set_oven(*oven, kitchen, degrees)));
    said
}

pub(super) fn moved(shift: &Shift, degrees: Degrees) -> String {
    let title = &shift.title;
    let later = shift.after.window.likely() - shift.before.window.likely();
    let (before, after) = (shift.before.window.likely(), shift.after.window.likely());
    let likely = if clock::day(before) == clock::day(after) {
        time_of_day(after)
    } else {
        super::on_day(after)
    };
    if let Some(out) = shift.after.out_by {
        let said = super::places::in_fridge(&shift.after, out, shift.bears, shift.is_planned);
        return format!("{title}: {}", lower_first(&said));
    }
    if shift.after.stalls {
        let why = match shift.after.reason {
            Reason::Cooling { .. } => {
                "it never gets cold enough there. Put it back where it is colder"
            }
            _ => "too cold to get there within days. Find it a warmer place",
        };
        return format!("{title}: {why}.");
    }
    if later.get().abs() < 0.5 {
        return format!("{title} keeps its time, about {likely}.");
    }
    let when = if later.get() > 0.0 {
        "later"
    } else {
        "earlier"
    };
    let why = match (shift.before.reason, shift.after.reason) {
        // Water passes heat so much better than air that what the air did is no measure.
        (
            Reason::Yeast { .. },
            Reason::Yeast {
                dough,
                air,
                place: Place::Water(_),
            },
        ) => {
            let so_warm = temperature(air, degrees);
            format!(
                ", because the dough, now about {}, soon comes to {so_warm} in water and the yeast works {}. What has risen so far counts",
                temperature(dough, degrees),
                pace(later)
            )
        }
        (Reason::Yeast { air: was, .. }, Reason::Yeast { dough, air, place }) => {
            let towards = match place {
                Place::Kitchen => "the kitchen".to_owned(),
                _ => temperature(air, degrees),
            };
            format!(
                ", because the dough, now about {}, {} and the yeast works {}. What has risen so far counts",
                temperature(dough, degrees),
                drift(dough, was, air, &towards),
                pace(later)
            )
        }
        // In air something cools more slowly than in ice water, though the air be colder.
        (Reason::Cooling { surroundings: was }, Reason::Cooling { surroundings: is })
            if was == is || (is < was) == (later.get() > 0.0) =>
        {
            format!(", because it cools {} there", pace(later))
        }
        (Reason::Cooling { surroundings: was }, Reason::Cooling { surroundings: is }) => format!(
            ", because it cools {} at {} than at {}",
            pace(later),
            temperature(is, degrees),
            temperature(was, degrees)
        ),
        (Reason::Oven, _) => {
            let takes = shift.after.window.likely() - shift.after.start;
            format!(", because the oven takes {}", span(takes))
        }
        _ => String::new(),
    };
    format!("{title}: {} {when}, about {likely}{why}.", span(later))
}

/// How fast something goes that now takes so much longer.
fn pace(longer: Minutes) -> &'static str {
    if longer.get() > 0.0 {
        "slower"
    } else {
        "faster"
    }
}

/// Nearer to the air than temperatures are shown, in K, a dough has nowhere to go.
const AS_WARM_K: f64 = 0.25;

/// Which way a dough goes in the air as it is, beside what it did in the air as it was.
fn drift(dough: Celsius, was: Celsius, is: Celsius, towards: &str) -> String {
    let (before_k, now_k) = ((was - dough).get(), (is - dough).get());
    let went_the_same_way = before_k * now_k > 0.0 && before_k.abs() >= AS_WARM_K;
    let faster = now_k.abs() > before_k.abs();
    let said = match (now_k > 0.0, went_the_same_way) {
        _ if now_k.abs() < AS_WARM_K => "stays as warm as it is",
        (true, false) => return format!("now warms towards {towards}"),
        (false, false) => return format!("now cools towards {towards}"),
        (true, true) if faster => "warms faster",
        (true, true) => "warms more slowly",
        (false, true) if faster => "cools faster",
        (false, true) => "cools more slowly",
    };
    said.to_owned()
}

/// The liquid, and what the dough comes to with it.
fn liquid(was: Liquid, is: Liquid, degrees: Degrees) -> String {
    let shown = |value| temperature(value, degrees);
    let stays = (was.at - is.at).get().abs() < 0.5;
    let frozen = was.frozen.is_some() || is.frozen.is_some();
    let liquid = if stays {
        format!("The liquid stays {}", measure(is, "at ", degrees))
    } else if frozen {
        // With a comma of its own in the middle it would be one too many for a sentence.
        format!(
            "The liquid should now be {}, instead of {}",
            measure(is, "at ", degrees),
            measure(was, "at ", degrees)
        )
    } else {
        format!(
            "The liquid should now be {}, not {}",
            measure(is, "", degrees),
            measure(was, "", degrees)
        )
    };
    let (dough, before) = (shown(is.dough), shown(was.dough));
    if frozen && !stays {
        let comes = if dough == before {
            format!("still comes to {dough}")
        } else {
            format!("should come to {dough}, not {before}")
        };
        format!("{liquid}. The dough {comes}.")
    } else if dough != before {
        format!("{liquid}, and the dough should come to {dough}, not {before}.")
    } else if stays {
        format!("{liquid}, and the dough still comes to {dough}.")
    } else {
        format!("{liquid}, so that the dough still comes to {dough}.")
    }
}

/// How a liquid is told: by its temperature, or cold with so much of it frozen.
fn measure(liquid: Liquid, at: &str, degrees: Degrees) -> String {
    match liquid.frozen {
        None => format!("{at}{}", temperature(liquid.at, degrees)),
        Some(split) => format!("cold, with {} of it frozen", mass(split.frozen)),
    }
}

fn table(shift: &TableShift, where_at: &str) -> String {
    let later = shift.after - shift.before;
    let after = time_of_day(shift.after);
    if later.get().abs() < 1.0 {
        return format!("On the table about {after}, as before.");
    }
    let most = shift.most.as_ref();
    let why = most.map_or_else(String::new, |(title, by, cause)| {
        let how = if later.get() > 0.0 { "longer" } else { "less" };
        let works = match cause {
            Cause::Yeast => "the yeast works",
            Cause::Cooling => "it cools",
            Cause::Oven => "",
        };
        let why = if works.is_empty() {
            String::new()
        } else {
            format!(": {works} {}{where_at}", pace(later))
        };
        let title = lower_first(title);
        format!(", above all because {title} takes {} {how}{why}", span(*by))
    });
    let before = time_of_day(shift.before);
    format!("On the table about {after}, not {before}{why}.")
}

#[cfg(test)]
mod tests {
    use super::*;
    use domain::thermal::liquid::FrozenSplit;
    use domain::units::{celsius, grams};

    #[test]
    fn a_dough_goes_towards_the_air_and_never_away_from_it() {
        let drift = |was, is| drift(celsius(24.0), celsius(was), celsius(is), "the kitchen");
        assert_eq!(drift(22.0, 17.0), "cools faster");
        assert_eq!(drift(17.0, 20.0), "cools more slowly");
        assert_eq!(drift(17.0, 24.0), "stays as warm as it is");
        assert_eq!(drift(17.0, 28.0), "now warms towards the kitchen");
        assert_eq!(drift(26.0, 30.0), "warms faster");
        assert_eq!(drift(30.0, 28.0), "warms more slowly");
        assert_eq!(drift(28.0, 18.0), "now cools towards the kitchen");
        assert_eq!(drift(24.1, 30.0), "now warms towards the kitchen");
    }

    #[test]
    fn the_liquid_is_told_along_with_what_the_dough_comes_to() {
        let one = |at, dough| Liquid {
            at: celsius(at),
            frozen: None,
            dough: celsius(dough),
        };
        let said = |was, is| liquid(was, is, Degrees::Celsius).replace('\u{a0}', " ");
        assert_eq!(
            said(one(35.0, 23.5), one(35.0, 21.0)),
            "The liquid stays at 35 °C, and the dough should come to 21 °C, not 23.5 °C."
        );
        assert_eq!(
            said(one(15.0, 25.0), one(30.0, 25.0)),
            "The liquid should now be 30 °C, not 15 °C, so that the dough still comes to 25 °C."
        );
        assert_eq!(
            said(one(15.0, 25.0), one(15.0, 25.1)),
            "The liquid stays at 15 °C, and the dough still comes to 25 °C."
        );
        let iced = Liquid {
            frozen: Some(FrozenSplit {
                which: 0,
                frozen: grams(40.0),
                rest: grams(260.0),
                takes_hours: false,
            }),
            ..one(1.0, 25.0)
        };
        assert_eq!(
            said(one(15.0, 25.0), iced),
            "The liquid should now be cold, with 40 g of it frozen, instead of at 15 °C. The dough still comes to 25 °C."
        );
        assert_eq!(
            said(iced, one(15.0, 26.0)),
            "The liquid should now be at 15 °C, instead of cold, with 40 g of it frozen. The dough should come to 26 °C, not 25 °C."
        );
    }
}
