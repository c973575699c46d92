//! What is told of a dough that lies in the fridge, and of the oven for it.

use checks::say;
use domain::bake::{AlarmKind, Intent, due, heard};
use domain::formula::{Step, StepId, StepKind};
use domain::schedule::plan::{Made, What, Why, moved, timetable};
use domain::schedule::{Ask, focus, outline};
use domain::units::{Moment, minutes};

use super::{asked, at, hour, in_fridge, item, kind, only};

/// A dough that was to be looked at while everybody slept, at the hour that is likely, and stood as overdue until the morning.
#[test]
fn a_dough_in_the_fridge_is_looked_at_once_somebody_is_there() {
    let (bake, now) = in_fridge(20.0, Some(36.5));
    let night = kind(&bake, StepKind::Retard).id;
    let forecast = bake.state().forecast(night, now).expect("it lies there");
    let since = bake.state().progress(night).open_since.expect("it does");
    assert_eq!(hour(forecast.look), 30.5);
    assert_eq!(forecast.window.likely() - since, minutes(570.0));
    assert!(due(bake.state(), at(30.4)).is_empty());
    let calls = due(bake.state(), at(30.5));
    assert!(matches!(&calls[..], [call] if call.kind == AlarmKind::Check && call.due == at(30.5)));
    assert_eq!(focus(bake.state(), at(30.4)), Ask::Wait(night));
    // Nobody sleeps: when it is likely.
    let (mut bake, now) = in_fridge(20.0, None);
    say(&mut bake, Intent::Wish(Box::default()), now);
    let look = bake.state().forecast(night, now).expect("it does").look;
    assert_eq!(look - since, minutes(570.0));
    // Or when the plan says, be it sooner, and that can be heard.
    let out = since + minutes(500.0);
    let planned = bake.turned_out_at(night, out);
    let look = planned.state().forecast(night, now).expect("it does").look;
    assert_eq!(look, out);
    let calls = due(planned.state(), out);
    let heard = heard(&bake, calls[0].id, out).expect("it goes on");
    assert_eq!(heard.len(), 1);
}

/// What the forecast tells in the evening it tells in the morning: a dough that lies in the fridge until then is cold. It
/// was taken to stand warm from the likely end on, and the table was lost overnight by that.
#[test]
fn a_dough_in_the_fridge_stays_cold_until_it_is_turned_out() {
    let (bake, now) = in_fridge(19.7, Some(36.5));
    let ready = |now: Moment| {
        let planned = only(&bake, now);
        let rest = outline(bake.state(), now).table;
        let proof = item(&planned, kind(&bake, StepKind::FinalProof));
        (
            planned.plan.end.likely(),
            rest.likely(),
            proof.end - proof.start,
        )
    };
    let evening = ready(now);
    for at in [at(29.0), at(30.5)] {
        let then = ready(at);
        for (is, was) in [(then.0, evening.0), (then.1, evening.0)] {
            assert!((is - was).get().abs() <= 4.0, "{then:?} {evening:?}");
        }
        assert!((then.2 - evening.2).get().abs() <= 3.0);
    }
    // And once it is out.
    let mut bake = bake.clone();
    let night = kind(&bake, StepKind::Retard).id;
    say(&mut bake, Intent::Done(night), at(30.5));
    let out = only(&bake, at(30.5)).plan.end.likely();
    assert!((out - evening.0).get().abs() <= 6.0, "{out:?} {evening:?}");
}

/// An oven stood hot and empty for an hour, because the window of a dough that proofs after the cold opens so early.
#[test]
fn an_oven_is_on_for_the_likely_end_of_a_proof_after_the_cold() {
    let (bake, now) = in_fridge(20.0, Some(36.5));
    let planned = only(&bake, now);
    let [proof, on, into] = [StepKind::FinalProof, StepKind::OvenHeats, StepKind::Bake]
        .map(|kind_of| item(&planned, kind(&bake, kind_of)));
    assert!(proof.slack.0 > minutes(20.0), "{:?}", proof.slack);
    let empty = into.start - on.end;
    assert!(empty > minutes(10.0) && empty < minutes(25.0), "{empty:?}");
    let steps = outline(bake.state(), now).steps;
    let of = |step: &Step| *steps.iter().find(|of| of.step == step.id).expect("planned");
    let [on, into] = [StepKind::OvenHeats, StepKind::Bake].map(|kind_of| of(kind(&bake, kind_of)));
    let empty = into.start - on.end;
    assert!(empty > minutes(10.0) && empty < minutes(25.0), "{empty:?}");
}

/// Followed to the minute, nothing that is planned changes by its night, and nobody is told of anything that is late.
#[test]
fn a_bake_that_is_followed_through_its_night_is_never_late() {
    let mut now = at(15.0);
    let mut bake = asked("overnight-tin-loaf", 15.0, Some(38.5));
    let mut planned = only(&bake, now);
    let first = planned.margins[0];
    assert!(!first.is_late());
    let (mut out, mut turned_out) = (None, false);
    let night = kind(&bake, StepKind::Retard).id;
    while !bake.state().all_ended() {
        let state = bake.state();
        let items = planned.plan.items.iter();
        let next = items.filter_map(|item| match item.what {
            What::Step(_, step) if state.is_open(step) => Some((item.end, Said::Done(step))),
            What::Fold(_, step, 0) => Some((item.end, Said::Folded(step))),
            _ => None,
        });
        let (end, said) = next.min_by_key(|&(end, _)| end).expect("something is next");
        now = now.max(end);
        let before = bake.clone();
        match said {
            Said::Done(step) => say(&mut bake, Intent::Done(step), now),
            Said::Folded(step) => say(&mut bake, Intent::Folded(step), now),
        }
        now = now.max(bake.state().newest);
        turned_out |= bake.state().progress(night).ended.is_some();
        let again = timetable(&[bake.state()], now, Some(&planned), &mut || true);
        let again = again.expect("there is a plan");
        if let Some(margin) = again.margins.first() {
            assert!(!margin.is_late(), "{margin:?} at {}", hour(now));
            let off = (margin.spare() - first.spare()).get();
            assert!(off > -12.0, "{off} min at {}", hour(now));
        }
        if let (Some(item), false) = (again.plan.item(What::Step(0, night)), turned_out) {
            let was = *out.get_or_insert(item.end);
            assert!(
                (item.end - was).get().abs() <= 5.0,
                "out at {}",
                hour(item.end)
            );
        }
        let names = ["Loaf".to_owned()];
        let made = |timetable, bakes| Made {
            timetable,
            bakes,
            names: &names,
        };
        let told = moved(made(&planned, &[&before]), made(&again, &[&bake]), now);
        if let Some(told) = told {
            let blames = match told.why {
                Why::Ready(_, by) | Why::Hands(_, by) | Why::Overdue(_, by) => by.get() > 1.0,
                _ => false,
            };
            assert!(!blames, "{told:?} at {}", hour(now));
        }
        planned = again;
    }
    assert!(turned_out);
}

/// What is said at the next moment of a plan.
#[derive(Clone, Copy)]
enum Said {
    Done(StepId),
    Folded(StepId),
}
