//! What is said of food that has stood out too long, wherever the baker looks.

use domain::bake::{Alarm, AlarmKind, Keeps, Spoils, State, Stood};
use domain::formula::StepKind;
use domain::schedule::Ask;
use domain::units::Moment;

use super::quantity::span;
use super::when;

/// The title of all that is to be thrown away: read from afar, and the same everywhere.
pub(crate) const LOST: &str = "Don't eat it";

/// What follows from it.
const THROW_AWAY: &str = " Throw it away, baked or not. Your local food-safety rules come first.";

/// All that there is to say of what stood out at a bake, and whether any of it is to be thrown away; if so, only of that.
pub(crate) fn stood(state: &State, now: Moment) -> (bool, String) {
    told(&state.stood(now), now, &|at| when(at, now))
}

fn told(all: &[Stood], now: Moment, time: &dyn Fn(Moment) -> String) -> (bool, String) {
    let is_lost = all.iter().any(|stood| stood.is_lost(now));
    let mut said = String::new();
    for stood in all {
        if stood.is_lost(now) || !is_lost && stood.keeps(now) > Keeps::Fine {
            if !said.is_empty() {
                said.push(' ');
            }
            said += &one_stood(stood, now, time);
        }
    }
    if is_lost {
        said += THROW_AWAY;
    }
    (is_lost, said)
}

fn one_stood(stood: &Stood, now: Moment, time: &dyn Fn(Moment) -> String) -> String {
    let by = time(stood.by());
    let cold = match stood.what {
        Spoils::Hot => "21\u{a0}°C (70\u{a0}°F)",
        _ => "5\u{a0}°C (41\u{a0}°F)",
    };
    let what = match stood.what {
        Spoils::Hot | Spoils::Warm => {
            return format!(
                "Nobody has said that the filling was below {cold} by {by}, in time to be safe."
            );
        }
        Spoils::Filling => "The filling",
        Spoils::Bread => "The bread",
        Spoils::Dough => "The dough, with egg or milk in it,",
    };
    let out = match stood.until {
        None => format!("has stood out since {}", time(stood.since)),
        Some(_) => format!("stood out for {}", span(stood.length(now))),
    };
    let then = match stood.what {
        _ if stood.is_lost(now) => format!(", longer than {}.", span(stood.most_told())),
        Spoils::Dough => format!(
            ", longer than {}, which is long for one: our judgement, no rule. If you aren't sure of it, throw it away.",
            span(stood.limit)
        ),
        Spoils::Bread => format!(": eat it or chill it by {by}."),
        _ => format!(": bake it or chill it by {by}."),
    };
    format!("{what} {out}{then}")
}

/// What an alarm says instead of its own where what it calls for is to be thrown away. What is in an oven is to come out
/// all the same.
pub(crate) fn alarm_of_lost(state: &State, alarm: &Alarm, now: Moment) -> Option<(String, String)> {
    let all = state.stood(now);
    let stood = lost_by(state, &all, alarm, now)?;
    let said = one_stood(stood, now, &|at| when(at, now));
    Some((LOST.to_owned(), said + THROW_AWAY))
}

/// What an alarm calls for that is to be thrown away.
fn lost_by<'a>(state: &State, all: &'a [Stood], alarm: &Alarm, now: Moment) -> Option<&'a Stood> {
    let step = state.formula.step(alarm.step?)?;
    let is_hot = step.needs.oven && step.kind != StepKind::OvenOn;
    if is_hot || matches!(alarm.kind, AlarmKind::Fixed) {
        return None;
    }
    let mut lost = all.iter().filter(|stood| stood.is_lost(now));
    lost.find(|stood| stood.concerns(step))
}

/// Makes anew what is lost: "Make it anew: Cook the cream".
pub(crate) fn make_anew(title: &str) -> String {
    ["Make it anew: ", title].concat()
}

/// What is asked for instead of a fold that comes too late, of a filling that is lost, of serving or of praise.
pub(crate) fn instead_of(state: &State, ask: Ask, now: Moment) -> Option<&'static str> {
    if let Some((_, true)) = state.to_make_anew(now, ask.step()) {
        return Some("Make the filling anew, or leave it out.");
    }
    let instruction = match ask {
        Ask::Fold(step) => {
            let forecast = state.forecast(step, now)?;
            return forecast.folds_too_late(now).then_some(LATE_FOLD);
        }
        Ask::AllDone => "All done. Throw it away.",
        Ask::Work(step) if state.formula.step(step)?.kind == StepKind::Serve => "Don't serve it.",
        _ => return None,
    };
    let all = state.stood(now);
    let is_lost = all.iter().any(|stood| stood.is_in && stood.is_lost(now));
    is_lost.then_some(instruction)
}

/// A fold near the end of its rise.
const LATE_FOLD: &str = "Too late to fold: better leave it out.";

/// That by the plan something is out beyond its limit: "Bake comes at 16:47 by this plan, and that is too late. The
/// filling has stood out since 14:40: bake it or chill it by 16:40."
pub(crate) fn late_for_limit(title: &str, at: Moment, stood: &Stood, now: Moment) -> String {
    let at = when(at, now);
    let stood = one_stood(stood, now, &|at| when(at, now));
    format!("{title} comes at {at} by this plan, and that is too late. {stood}")
}

#[cfg(test)]
mod tests {
    use checks::{begin, say, starter};
    use domain::bake::{Bake, Intent, due};
    use domain::formula::StepId;
    use domain::kitchen::Kitchen;
    use domain::units::minutes;

    use super::*;

    const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    fn after(past: f64) -> Moment {
        START + minutes(past)
    }

    fn time(at: Moment) -> String {
        format!("{} min", (at - START).get().round())
    }

    /// The buns, with steps done at moments.
    fn buns(done: &[(&[u16], f64)]) -> Bake {
        let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        for (steps, at) in done {
            for step in *steps {
                say(&mut bake, Intent::Done(StepId(*step)), after(*at));
            }
        }
        bake
    }

    const FILLED: [(&[u16], f64); 3] = [
        (&[1, 2, 3, 4, 5], 50.0),
        (&[6, 7, 8, 26], 70.0),
        (&[9, 10, 11, 12, 13, 14, 15], 200.0),
    ];

    fn said(bake: &Bake, now: f64) -> (bool, String) {
        told(&bake.state().stood(after(now)), after(now), &time)
    }

    fn lost(said: &str) -> (bool, String) {
        (true, format!("{said}{THROW_AWAY}"))
    }

    #[test]
    fn the_nearer_the_limit_the_more_is_said_and_beyond_it_to_throw_it_away() {
        let mut bake = buns(&FILLED);
        assert_eq!(said(&bake, 300.0), (false, String::new()));
        let soon = "The filling has stood out since 200 min: bake it or chill it by 320 min.";
        assert_eq!(said(&bake, 306.0), (false, soon.to_owned()));
        assert_eq!(
            said(&bake, 321.0),
            lost("The filling has stood out since 200 min, longer than 2\u{a0}h.")
        );
        for step in 16..=20 {
            say(&mut bake, Intent::Done(StepId(step)), after(560.0));
        }
        assert_eq!(
            said(&bake, 570.0),
            lost("The filling stood out for 6\u{a0}h, longer than 2\u{a0}h.")
        );
    }

    #[test]
    fn a_cream_and_a_dough_say_what_they_are() {
        let bake = buns(&[(&[1, 2, 3], 10.0), (&[6, 7, 8, 26], 30.0)]);
        assert_eq!(
            said(&bake, 1450.0),
            lost(
                "Nobody has said that the filling was below 5\u{a0}°C (41\u{a0}°F) by 370 min, in time to be safe. The dough, with egg or milk in it, has stood out since 30 min, longer than 8\u{a0}h."
            )
        );
        let bake = buns(&FILLED[..2]);
        let long = "The dough, with egg or milk in it, has stood out since 70 min, longer than 4\u{a0}h, which is long for one: our judgement, no rule. If you aren't sure of it, throw it away.";
        assert_eq!(said(&bake, 340.0), (false, long.to_owned()));
    }

    /// A phone that was off while food spoiled: whatever rings then, none of it asks for that food to be baked, chilled,
    /// looked at or served.
    #[test]
    fn no_alarm_asks_for_what_is_to_be_thrown_away() {
        let baked: [(&[u16], f64); 2] = [(&[16, 17, 18, 19, 20], 270.0), (&[21, 27, 23], 295.0)];
        let mut cooling = FILLED.to_vec();
        cooling.extend(baked);
        let mut serving = cooling.clone();
        serving.push((&[22, 24], 340.0));
        for (done, off) in [
            (vec![(&[1, 2, 3][..], 10.0)], 1440.0),
            (FILLED[..2].to_vec(), 1440.0),
            (FILLED.to_vec(), 360.0),
            (cooling, 1200.0),
            (serving, 1440.0),
        ] {
            let bake = buns(&done);
            let state = bake.state();
            let now = state.newest + minutes(off);
            let all = state.stood(now);
            let rings = due(state, now);
            assert!(!rings.is_empty());
            for alarm in rings {
                let lost = lost_by(state, &all, &alarm, now);
                assert!(lost.is_some(), "{alarm:?}");
            }
            // In time its own words stand.
            let now = state.newest + minutes(1.0);
            let all = state.stood(now);
            for alarm in domain::bake::alarms(state, now) {
                assert_eq!(lost_by(state, &all, &alarm, now), None);
            }
        }
    }

    /// What is in the oven comes out, whatever it is.
    #[test]
    fn what_burns_calls_by_its_own_name() {
        let mut done = FILLED.to_vec();
        done.push((&[16, 17, 18, 19, 20], 600.0));
        let bake = buns(&done);
        let (state, now) = (bake.state(), after(660.0));
        let all = state.stood(now);
        assert!(all.iter().any(|stood| stood.is_lost(now)));
        let rings = due(state, now);
        let bakes = rings.iter().find(|alarm| alarm.step == Some(StepId(21)));
        let bakes = bakes.expect("it is done long since");
        assert_eq!(lost_by(state, &all, bakes, now), None);
    }

    #[test]
    fn nothing_that_is_lost_is_served_or_praised() {
        let mut done = FILLED.to_vec();
        done.push((&[16, 17, 18, 19, 20], 270.0));
        done.push((&[21, 27, 23, 22, 24], 295.0));
        let mut bake = buns(&done);
        let ask = Ask::Work(StepId(25));
        let instead = |bake: &Bake, ask, now| instead_of(bake.state(), ask, after(now));
        assert_eq!(instead(&bake, ask, 400.0), None);
        assert_eq!(instead(&bake, ask, 420.0), Some("Don't serve it."));
        assert_eq!(instead(&bake, Ask::Work(StepId(24)), 420.0), None);
        say(&mut bake, Intent::Done(StepId(25)), after(420.0));
        let done = instead(&bake, Ask::AllDone, 420.0);
        assert_eq!(done, Some("All done. Throw it away."));
        // A filling that isn't in yet.
        let shaped = (&[9, 10, 11, 12, 13, 14][..], 200.0);
        let lost = buns(&[(&[1, 2, 3, 4], 50.0), FILLED[1], shaped, (&[5], 300.0)]);
        let fill = Ask::Work(StepId(15));
        let anew = "Make the filling anew, or leave it out.";
        assert_eq!(instead(&lost, fill, 301.0), Some(anew));
        assert_eq!(instead(&buns(&FILLED[..2]), fill, 301.0), None);
    }
}
