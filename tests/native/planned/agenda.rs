//! What of a plan somebody is called for, against the plan itself.

use super::asked::{self, hours};
use super::{NINE, TABLES, begun, planned};
use domain::bake::{Bake, State, Wishes};
use domain::formula::{StepId, StepKind};
use domain::schedule::plan::{Call, Goal, Item, Plan, What, agenda};
use domain::units::{Moment, minutes};

fn called(ids: &[&str], from: Moment) -> (Vec<Bake>, Plan, Vec<Call>) {
    let bakes = begun(ids);
    let plan = planned(&bakes, Goal::Soonest, &[], None);
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let calls = agenda(&plan, &states, from);
    (bakes, plan, calls)
}

fn bake_of(what: What) -> Option<usize> {
    what.of().map(|(bake, _)| bake)
}

fn kind_of(bake: &Bake, step: StepId) -> StepKind {
    let step = bake.state().formula.step(step);
    step.expect("it is planned").kind
}

#[test]
fn every_hand_step_every_fold_and_every_end_is_called_for_once() {
    for ids in TABLES {
        let (bakes, plan, calls) = called(ids, NINE);
        let mut wanted: Vec<usize> = (0..plan.items.len())
            .filter(|&place| match plan.items[place].what {
                What::Step(bake, step) => kind_of(&bakes[bake], step) != StepKind::OvenHeats,
                other => other.is_in_passing(),
            })
            .collect();
        let both = calls
            .iter()
            .flat_map(|call| call.looks.iter().chain(&call.work));
        let mut told: Vec<usize> = both.copied().collect();
        told.sort_unstable();
        wanted.sort_unstable();
        assert_eq!(told, wanted, "{ids:?}");
        for call in &calls {
            let all = call.looks.iter().chain(&call.work);
            assert!(
                all.clone()
                    .all(|&it| bake_of(plan.items[it].what) == Some(call.bake))
            );
            // Nothing that was looked at ends at another moment, and no hands pause within a call.
            assert!(call.looks.iter().all(|&it| plan.items[it].end == call.at));
            let mut at = call.at;
            for &place in &call.work {
                assert_eq!(plan.items[place].start, at);
                at = plan.items[place].end;
            }
            assert_eq!(call.until, at);
        }
        assert!(calls.is_sorted_by_key(|call| (call.at, call.bake)));
    }
}

#[test]
fn what_has_a_moment_of_its_own_begins_its_call() {
    let (bakes, plan, calls) = called(TABLES[5], NINE);
    let mut seen = 0;
    for call in &calls {
        for &place in call.work.iter().skip(1) {
            match plan.items[place].what {
                What::Step(bake, step) => {
                    let is_oven = kind_of(&bakes[bake], step) == StepKind::OvenOn;
                    // Unless something has just ended beside it.
                    assert!(!is_oven || call.at == plan.items[place].start);
                }
                _ => assert_eq!(call.at, plan.items[place].start),
            }
        }
        let first = call.work.first().map(|&place| plan.items[place].what);
        seen += usize::from(matches!(first, Some(What::Fold(..))));
    }
    // One of the buns, one of the braid, two of the loaf.
    assert_eq!(seen, 4);
}

/// A bake of buns has 27 steps; a calendar with an entry for each would be left unread.
#[test]
fn hands_that_go_on_are_called_once() {
    let (bakes, plan, calls) = called(TABLES[0], NINE);
    let formula = &bakes[0].state().formula;
    let with_its_moment = |item: &&Item| match item.what {
        What::Step(_, step) => {
            let step = formula.step(step).expect("it is planned");
            step.kind == StepKind::OvenOn || !step.is_hands() && step.kind != StepKind::OvenHeats
        }
        other => other.is_in_passing(),
    };
    let moments = plan.items.iter().filter(with_its_moment).count();
    // Beside those it is called to begin, and for the glaze, which is let wait so that it is warm when the buns are
    // cool.
    assert_eq!(calls.len(), moments + 2);
    let first = &calls[0];
    let title = |place: usize| match plan.items[place].what {
        What::Step(bake, step) => {
            let step = bakes[bake].state().formula.step(step);
            step.map_or("", |step| step.title.as_str()).to_owned()
        }
        _ => "fold".to_owned(),
    };
    assert_eq!(first.at, NINE);
    assert!(first.looks.is_empty());
    let titles: Vec<String> = first.work.iter().map(|&place| title(place)).collect();
    // Up to where the hands have nothing to do but wait for the cream.
    let morning = [
        "Gather",
        "Cook the cream",
        "Spread the cream",
        "Mix the dough",
        "Knead",
        "Dough temperature",
        "Cover the bowl",
        "Toast almonds",
    ];
    assert_eq!(titles, morning);
}

#[test]
fn what_lies_behind_calls_nobody() {
    let from = NINE + minutes(120.0);
    let (_, _, all) = called(TABLES[0], NINE);
    let (_, _, left) = called(TABLES[0], from);
    let later: Vec<Call> = all.into_iter().filter(|call| call.at >= from).collect();
    assert!(!later.is_empty());
    assert_eq!(left, later);
}

#[test]
fn a_step_that_was_fixed_begins_its_call() {
    let mut bakes = begun(TABLES[0]);
    let free = planned(&bakes, Goal::Soonest, &[], None);
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let calls = agenda(&free, &states, NINE);
    // Work in the middle of a call, which nobody was called for by itself.
    let inner = calls.iter().find_map(|call| call.work.get(1));
    let What::Step(_, step) = free.items[*inner.expect("hands go on")].what else {
        panic!("a fold begins its call");
    };
    let at = free.items[*inner.expect("hands go on")].start;
    assert!(calls.iter().all(|call| call.at != at));
    checks::say(
        &mut bakes[0],
        domain::bake::Intent::Pin(step, Some(at)),
        NINE,
    );
    let plan = planned(&bakes, Goal::Soonest, &[], None);
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let calls = agenda(&plan, &states, NINE);
    let call = calls.iter().find(|call| call.at == at);
    let first = call.expect("it is called for").work[0];
    assert_eq!(plan.items[first].what, What::Step(0, step));
}

/// Whoever sleeps is called for what burns or spoils and for nothing else, as by the alarms; the rest calls as they are back.
#[test]
fn nothing_but_what_burns_or_spoils_calls_while_nobody_is_there() {
    let mut held = 0;
    for ids in TABLES {
        for hour in 0..48 {
            let mut bakes = begun(ids);
            let from = NINE + minutes(30.0 * f64::from(hour)) + minutes(60.0);
            let away = [(from, from + hours(6.0))];
            let wishes = Wishes {
                away: away.to_vec(),
                ..Wishes::default()
            };
            asked::wish(&mut bakes, &wishes, NINE);
            let Some(made) = asked::planned(&bakes, NINE) else {
                continue;
            };
            let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
            let calls = agenda(&made.plan, &states, NINE);
            let is_away = |at: Moment| away[0].0 < at && at < away[0].1;
            for call in &calls {
                assert!(
                    call.work.is_empty() || !is_away(call.at),
                    "{ids:?} {call:?}"
                );
                for &place in &call.looks {
                    let item = &made.plan.items[place];
                    let What::Step(bake, step) = item.what else {
                        panic!("only steps end by themselves");
                    };
                    let state = states[bake];
                    let step = state.formula.step(step).expect("it is planned");
                    // A dough in the fridge is turned out once somebody is there.
                    assert!(
                        step.kind != StepKind::Retard || !is_away(item.end),
                        "{ids:?} {item:?}"
                    );
                    if !is_away(item.end) {
                        assert_eq!(call.at, item.end);
                        continue;
                    }
                    // The oven of the starters is on from "Oven on" to what takes the bread out.
                    let of_oven = made.plan.items.iter().filter(|other| match other.what {
                        What::Step(of, id) if of == bake => {
                            state.formula.step(id).is_some_and(|step| step.needs.oven)
                        }
                        _ => false,
                    });
                    let ends = of_oven.clone().map(|it| it.end).max();
                    let is_on = of_oven.clone().any(|it| it.start <= item.end)
                        && ends.is_some_and(|end| item.end < end);
                    // A filling has to be below 21 °C within 2 h and below 5 °C within 6 h (FDA Food Code 3-501.14).
                    let limits = [2.0, 6.0].map(|limit| item.start + hours(limit));
                    let must = limits
                        .iter()
                        .any(|&limit| item.end <= limit && limit < away[0].1);
                    if is_on || step.needs.oven || (step.kind == StepKind::Chill && must) {
                        assert_eq!(call.at, item.end, "{}", step.title);
                    } else {
                        held += 1;
                        assert_eq!(call.at, away[0].1, "{}", step.title);
                    }
                }
            }
        }
    }
    // What bakes is taken out by hands, so no plan has it end while nobody is there, and no cooling of these ends then.
    assert!(held > 15, "{held} held");
}
