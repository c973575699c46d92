//! The windows of what is planned: from what stands by the clock they open anew, and none lies before what it waits for.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, State};
use domain::formula::{Step, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Item, Plan, RetardPart, What};
use domain::units::{Minutes, Moment, minutes};
use proptest::prelude::*;

use super::NINE;
use super::asked::{hours, planned};
use super::days::{Day, any_day};
use super::redone::days;

/// Plans go by whole minutes.
const MINUTE: Minutes = minutes(1.0);

fn of_kind(state: &State, kind: StepKind) -> Step {
    let mut steps = state.formula.steps.iter();
    steps
        .find(|step| step.kind == kind)
        .expect("it is there")
        .clone()
}

/// A bread whose dough goes into the fridge at eleven in the evening and comes out at five to seven, and its plan from
/// five in the afternoon on.
fn overnight(id: &str, kind: StepKind) -> (Bake, Plan, [Moment; 2]) {
    let now = NINE + hours(8.0);
    let [from, to] = [NINE + hours(14.0), NINE + hours(22.0) - minutes(5.0)];
    let mut bake = begin(starter(id), Kitchen::UNMEASURED, now);
    let rise = of_kind(bake.state(), kind).id;
    say(&mut bake, Intent::PlanRetard(rise, Some((from, to))), now);
    let plan = planned(std::slice::from_ref(&bake), now)
        .expect("there is a plan")
        .plan;
    (bake, plan, [from, to])
}

/// A dough that comes out of the fridge in the morning was shaped "between 03:42 and 12:23", an oven was turned on at half
/// past one in the night for it, and the table was hours too soon.
#[test]
fn nothing_is_told_before_a_dough_comes_out_of_the_fridge() {
    for id in ["plum-almond-buns", "orange-braid"] {
        for kind in [StepKind::Bulk, StepKind::FinalProof] {
            let (bake, plan, [from, to]) = overnight(id, kind);
            let state = bake.state();
            let rise = of_kind(state, kind);
            let item = |what| *plan.item(what).expect("it is planned");
            let step = |kind| item(What::Step(0, of_kind(state, kind).id));
            let told = item(What::Step(0, rise.id));
            assert!(
                told.end - told.slack.0 + MINUTE >= to,
                "{id} {kind:?}: {told:?}"
            );
            let out = item(What::Retard(0, rise.id, RetardPart::Out));
            assert_eq!(out.window().likely(), out.window().low());
            let follows = state.formula.steps.iter().filter(|step| {
                step.is_hands() && step.after.iter().any(|link| link.step == rise.id)
            });
            for next in follows {
                let next = item(What::Step(0, next.id));
                assert!(next.window().low() >= out.end, "{id} {kind:?}: {next:?}");
            }
            // Dough that has to be ready at eleven and is likely so just then may keep the hands for some minutes more.
            let knead = step(StepKind::Knead).window();
            assert!(knead.low() > from - hours(4.0) && knead.high() < from + minutes(15.0));
            let oven = step(StepKind::OvenOn);
            assert!(
                oven.start > to - state.kitchen.oven_heats_in - MINUTE * 2.0,
                "{id} {kind:?}: {oven:?}"
            );
            assert!(
                plan.end.low() > out.end + hours(1.0),
                "{id} {kind:?}: {:?}",
                plan.end
            );
        }
    }
}

/// What begins when it was fixed to begin has no window from before, and what may be late for it is late only by what it
/// outlasts the time between.
#[test]
fn a_fixed_step_begins_a_window_anew() {
    let free = begin(starter("orange-braid"), Kitchen::UNMEASURED, NINE);
    let mix = of_kind(free.state(), StepKind::Mix).id;
    let plan_of = |bake: &Bake| {
        planned(std::slice::from_ref(bake), NINE)
            .expect("there is a plan")
            .plan
    };
    let mixing = |plan: &Plan| *plan.item(What::Step(0, mix)).expect("it is planned");
    let was = mixing(&plan_of(&free));
    for later in [2.0, 300.0] {
        let at = was.start + minutes(later);
        let mut bake = free.clone();
        say(&mut bake, Intent::Pin(mix, Some(at)), NINE);
        let is = mixing(&plan_of(&bake));
        assert_eq!(is.start, at);
        // What is gathered may be there sooner, and the step stands all the same.
        assert!((is.reach.0 - is.slack.0).get().abs() < 0.1, "{is:?}");
        // Two minutes don't take all of a delay away, five hours do.
        let late = (is.reach.1 - is.slack.1).get();
        assert_eq!(late > 0.1, later < 60.0, "{is:?}");
        assert!(is.reach.1 < was.reach.1, "{is:?} {was:?}");
    }
}

/// What a step waits for by the formula, as it is planned.
fn before<'a>(
    plan: &'a Plan,
    bake: usize,
    step: &'a Step,
) -> impl Iterator<Item = (&'a Item, Minutes)> {
    let links = step.after.iter();
    links.filter_map(move |link| Some((plan.item(What::Step(bake, link.step))?, link.least)))
}

/// The soonest that an item may begin, if it then takes no longer than it has to.
fn soonest(item: &Item) -> Moment {
    item.window().low() - ((item.end - item.start) - item.slack.0)
}

fn check(
    plan: &Plan,
    states: &[&State],
    now: Moment,
    away: &[(Moment, Moment)],
) -> Result<(), TestCaseError> {
    for item in &plan.items {
        let window = item.window();
        prop_assert!(
            window.low() <= item.end && item.end <= window.high(),
            "{item:?}"
        );
        prop_assert!(
            window.low() + MINUTE >= now.min(item.end),
            "before now: {item:?}"
        );
        let What::Step(bake, step) = item.what else {
            continue;
        };
        let state = states[bake];
        let known = state.formula.step(step).expect("it is planned");
        let goes_on = !known.is_hands() && state.progress(step).open_since.is_some();
        if goes_on || item.start < now {
            continue;
        }
        for (other, least) in before(plan, bake, known) {
            let sooner = other.window().low() + least;
            prop_assert!(
                soonest(item) + MINUTE >= sooner,
                "{item:?} before {other:?}"
            );
            // And late by no less than what it waits for and there is no room for.
            let later = other.window().high() + least;
            prop_assert!(
                item.window().high() + MINUTE >= later,
                "{item:?} is late for {other:?}"
            );
        }
        let fixed = state.pins.get(&step).copied().filter(|&at| at >= now);
        for at in fixed
            .into_iter()
            .chain(state.wishes.not_before.filter(|_| state.can_wait()))
        {
            prop_assert!(soonest(item) + MINUTE >= at, "{item:?} before {at:?}");
        }
        if known.is_hands() {
            for &(from, to) in away {
                let is_away = from < window.low()
                    && window.low() + MINUTE < to + ((item.end - item.start) - item.slack.0);
                prop_assert!(
                    !is_away,
                    "{item:?} while nobody is there: {from:?} to {to:?}"
                );
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(days(48))]

    /// Of one to three breads, some of which are fixed to a moment or stand in the fridge overnight.
    #[test]
    fn no_window_lies_before_what_it_waits_for(
        drawn in any_day(),
        fixed in prop::option::of((0_usize..30, 0.0..200.0_f64)),
        night in prop::option::of(prop_oneof![Just(StepKind::Bulk), Just(StepKind::FinalProof)]),
    ) {
        let Some(mut day) = Day::planned(&drawn) else { return Ok(()) };
        let steps: Vec<_> = day.bakes[0].state().formula.steps.iter().map(|step| step.id).collect();
        if let Some((nth, later)) = fixed {
            let step = steps[nth % steps.len()];
            let item = *day.timetable.plan.item(What::Step(0, step)).expect("it is planned");
            let at = (item.start + minutes(later)).max(day.now + minutes(5.0));
            say(&mut day.bakes[0], Intent::Pin(step, Some(at)), day.now);
        }
        if let Some(kind) = night {
            let last = day.bakes.len() - 1;
            let rise = day.bakes[last].state().formula.steps.iter().find(|step| step.kind == kind);
            let rise = rise.expect("it rises").id;
            let at = day.timetable.plan.item(What::Step(last, rise)).expect("it is planned").start;
            let stay = (at + minutes(30.0), at + hours(9.0));
            say(&mut day.bakes[last], Intent::PlanRetard(rise, Some(stay)), day.now);
        }
        let Some(made) = planned(&day.bakes, day.now) else { return Ok(()) };
        day.timetable = made;
        for &slip in &drawn.slips {
            check(&day.timetable.plan, &day.states(), day.now, &day.away())?;
            if day.go_on(slip).is_none() { break }
            let Some(made) = planned(&day.bakes, day.now) else { return Ok(()) };
            day.timetable = made;
        }
    }
}
