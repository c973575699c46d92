//! What burns or spoils calls twice, what is to begin calls once for each beginning, and a clock that was put back
//! freezes nothing.

use checks::say;
use domain::bake::{
    Alarm, AlarmId, AlarmKind, Bake, Intent, Refusal, alarms, begin_alarm, clock_was_set, decide,
    due, heard,
};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::{Ask, focus};
use domain::units::{Moment, celsius, minutes};
use records::starters;

const NINE: Moment = Moment::from_epoch_ms(1_700_000_000_000);

fn begin() -> Bake {
    checks::begin(starters::all().swap_remove(0), Kitchen::UNMEASURED, NINE)
}

/// Does whatever is asked, a minute a piece, until this kind of step goes on by itself.
fn until_it_goes_on(bake: &mut Bake, kind: StepKind) -> Moment {
    let mut at = NINE;
    for _ in 0..300 {
        at = at + minutes(1.0);
        let formula = bake.state().formula.clone();
        let step = formula.steps.iter().find(|step| step.kind == kind);
        let step = step.expect("the formula has such a step");
        if bake.state().is_open(step.id) {
            return at;
        }
        let open = formula
            .steps
            .iter()
            .find(|step| bake.state().is_open(step.id));
        let open = open.expect("something is always open").id;
        say(bake, Intent::Done(open), at);
    }
    panic!("it never came to {kind:?}");
}

fn only_check(bake: &Bake, now: Moment) -> Alarm {
    let state = bake.state();
    let mut checks = alarms(state, now).into_iter().filter(|alarm| {
        let step = alarm.step.and_then(|step| state.formula.step(step));
        step.is_some_and(|step| step.kind == StepKind::Bake)
    });
    checks.next().expect("what bakes has an alarm")
}

#[test]
fn what_is_in_the_oven_calls_again_at_the_late_end_of_its_window() {
    let mut bake = begin();
    let now = until_it_goes_on(&mut bake, StepKind::Bake);
    let first = only_check(&bake, now);
    say(&mut bake, Intent::Hear(first.id), first.due);
    assert!(due(bake.state(), first.due).is_empty());
    let again = only_check(&bake, first.due);
    let step = first.step.expect("it is of a step");
    let forecast = bake.state().forecast(step, first.due).expect("it bakes");
    assert_eq!(again.due, forecast.window.high());
    assert!(again.due > first.due);
    // And from then on every three minutes: who stopped both and was called away has it burning.
    let mut last = again.due;
    for _ in 0..25 {
        say(&mut bake, Intent::Hear(first.id), last);
        assert_eq!(only_check(&bake, last).due, last + minutes(3.0));
        last = last + minutes(3.0);
    }
    say(&mut bake, Intent::NotYet(step, minutes(8.0)), last);
    assert_eq!(only_check(&bake, last).due, last + minutes(8.0));
}

/// A dough that was forgotten calls again and again, for as long as something could still become of it.
#[test]
fn what_rises_past_its_window_calls_every_half_hour_for_some_hours() {
    let mut bake = begin();
    until_it_goes_on(&mut bake, StepKind::Bulk);
    let steps = bake.state().formula.steps.clone();
    let rise = steps.iter().find(|step| step.kind == StepKind::Bulk);
    let rise = rise.expect("a dough rises").id;
    let call = |bake: &Bake, now: Moment| {
        let mut checks = alarms(bake.state(), now).into_iter();
        let check = |alarm: &Alarm| alarm.step == Some(rise) && alarm.kind == AlarmKind::Check;
        checks.find(check).expect("a rise has an alarm")
    };
    let first = call(&bake, bake.state().newest);
    let forecast = bake.state().forecast(rise, first.due).expect("it rises");
    say(&mut bake, Intent::Hear(first.id), first.due);
    let last = forecast.window.high();
    assert_eq!(call(&bake, first.due).due, last);
    let mut heard = last;
    for again in 1..=8 {
        say(&mut bake, Intent::Hear(first.id), heard);
        heard = last + minutes(30.0 * f64::from(again));
        assert_eq!(call(&bake, heard).due, heard);
    }
    say(&mut bake, Intent::Hear(first.id), heard);
    let much_later = heard + minutes(600.0);
    assert!(
        due(bake.state(), much_later)
            .iter()
            .all(|alarm| alarm.step != Some(rise))
    );
}

/// What lies in a hot oven past its time burns.
#[test]
fn what_has_baked_calls_every_few_minutes_until_it_is_out() {
    for away in [false, true] {
        let mut bake = begin();
        let now = until_it_goes_on(&mut bake, StepKind::Bake);
        let baked = bake.state().formula.steps.iter();
        let baked = baked
            .filter(|step| step.kind == StepKind::Bake)
            .map(|step| step.id)
            .next();
        let baked = baked.expect("it is baked");
        assert!(out_calls(&bake, now + minutes(60.0)).is_empty());
        say(&mut bake, Intent::Done(baked), now);
        let out = bake.state().to_take_out().expect("it is to come out");
        assert_eq!(focus(bake.state(), now), Ask::Work(out));
        if away {
            say(&mut bake, Intent::Pause, now + minutes(0.5));
        }
        let mut since = now;
        for _ in 0..5 {
            assert!(out_calls(&bake, since + minutes(2.5)).is_empty());
            let rings = since + minutes(5.0);
            let calls = out_calls(&bake, rings);
            assert_eq!(calls.len(), 1, "{calls:?}");
            assert_eq!(calls[0].step, Some(out));
            say(&mut bake, Intent::Hear(calls[0].id), rings);
            since = rings;
        }
        say(&mut bake, Intent::Resume, since);
        say(&mut bake, Intent::Done(out), since + minutes(1.0));
        assert!(out_calls(&bake, since + minutes(60.0)).is_empty());
    }
}

fn out_calls(bake: &Bake, now: Moment) -> Vec<Alarm> {
    let mut found = due(bake.state(), now);
    found.retain(|alarm| alarm.kind == AlarmKind::TakeOut);
    found
}

#[test]
fn who_is_called_to_begin_can_say_that_it_was_heard_and_is_called_for_another_beginning() {
    let mut bake = begin();
    assert!(begin_alarm(bake.state(), NINE).is_some());
    say(&mut bake, Intent::Hear(AlarmId::Begin), NINE);
    assert!(begin_alarm(bake.state(), NINE).is_none());
    assert!(begin_alarm(bake.state(), NINE + minutes(60.0)).is_some());
}

/// An app that has only its first half asks by name.
#[test]
fn what_is_said_over_any_page_comes_to_the_same_by_name() {
    let mut bake = begin();
    say(
        &mut bake,
        Intent::SetTimer("Tea".to_owned(), minutes(10.0)),
        NINE,
    );
    let rings = NINE + minutes(11.0);
    let tea = due(bake.state(), rings)[0].id;
    for now in [NINE, rings, NINE - minutes(60.0)] {
        for alarm in [tea, AlarmId::Begin, AlarmId::Retard { step: StepId(0) }] {
            let asked = decide(&bake, Intent::Hear(alarm), now);
            assert_eq!(heard(&bake, alarm, now), asked);
        }
        let by = minutes(-60.0);
        let asked = decide(&bake, Intent::ClockWasSet(by), now);
        assert_eq!(clock_was_set(&bake, by, now), asked);
    }
    assert!(heard(&bake, tea, NINE).expect("it goes on").is_empty());
    bake.append(heard(&bake, tea, rings).expect("it goes on"));
    assert!(due(bake.state(), rings).is_empty() && bake.state().timers.is_empty());
    say(&mut bake, Intent::Abandon, rings);
    assert_eq!(heard(&bake, tea, rings), Err(Refusal::Over));
    assert_eq!(
        clock_was_set(&bake, minutes(1.0), rings),
        Err(Refusal::Over)
    );
}

#[test]
fn a_clock_that_was_put_back_leaves_the_next_step_open() {
    let mut bake = begin();
    let Ask::Work(first) = focus(bake.state(), NINE) else {
        panic!("a bake begins with work");
    };
    say(&mut bake, Intent::Done(first), NINE + minutes(10.0));
    let an_hour_ago = NINE - minutes(50.0);
    let ask = focus(bake.state(), an_hour_ago);
    let Ask::Work(next) = ask else {
        panic!("the bench is frozen: {ask:?}");
    };
    say(&mut bake, Intent::Done(next), an_hour_ago + minutes(5.0));
    assert!(matches!(
        focus(bake.state(), an_hour_ago + minutes(5.0)),
        Ask::Work(_)
    ));
}

#[test]
fn an_hour_of_heat_is_not_made_good_by_a_cooler_one() {
    let mut bake = begin();
    let since = NINE + minutes(5.0);
    say(
        &mut bake,
        Intent::KitchenIs(celsius(34.0)),
        NINE + minutes(1.0),
    );
    say(
        &mut bake,
        Intent::KitchenIs(celsius(24.0)),
        NINE + minutes(60.0),
    );
    // USDA FSIS: one hour above 90 °F, two hours otherwise.
    assert_eq!(bake.state().perishable_limit_since(since), minutes(60.0));
    let later = NINE + minutes(61.0);
    assert_eq!(bake.state().perishable_limit_since(later), minutes(120.0));
}

fn knead(bake: &Bake) -> StepId {
    let mut steps = bake.state().formula.steps.iter();
    let knead = steps.find(|step| step.kind == StepKind::Mix);
    knead.expect("a dough is mixed").id
}

fn rings_fixed(bake: &Bake, step: StepId, now: Moment) -> bool {
    let ringing = due(bake.state(), now);
    ringing
        .iter()
        .any(|alarm| alarm.id == AlarmId::Fixed { step })
}

#[test]
fn a_step_that_was_fixed_calls_at_its_moment_until_it_is_heard_or_begun() {
    let mut bake = begin();
    let step = knead(&bake);
    let at = NINE + minutes(60.0);
    say(&mut bake, Intent::Pin(step, Some(at)), NINE);
    assert!(!rings_fixed(&bake, step, at - minutes(1.0)));
    assert!(rings_fixed(&bake, step, at));
    // A phone that slept finds out how late it is.
    assert!(rings_fixed(&bake, step, at + minutes(45.0)));

    let mut heard = bake.clone();
    say(&mut heard, Intent::Hear(AlarmId::Fixed { step }), at);
    assert!(!rings_fixed(&heard, step, at + minutes(1.0)));
    // Fixed anew, it calls anew.
    let later = at + minutes(30.0);
    say(
        &mut heard,
        Intent::Pin(step, Some(later)),
        at + minutes(5.0),
    );
    assert!(rings_fixed(&heard, step, later));

    let mut free = bake.clone();
    say(&mut free, Intent::Pin(step, None), NINE);
    assert!(!rings_fixed(&free, step, at));

    let mut begun = bake.clone();
    while !begun.state().is_open(step) {
        let steps = begun.state().formula.steps.clone();
        let mut steps = steps.iter();
        let open = steps.find(|step| begun.state().is_open(step.id));
        let open = open.expect("something is always open").id;
        say(&mut begun, Intent::Done(open), NINE + minutes(10.0));
    }
    assert!(rings_fixed(&begun, step, at));
    say(&mut begun, Intent::Pick(step), at - minutes(2.0));
    assert!(!rings_fixed(&begun, step, at));
    say(&mut begun, Intent::Done(step), at - minutes(1.0));
    assert!(!rings_fixed(&begun, step, at));
}

#[test]
fn who_fixes_a_step_to_this_very_minute_needs_no_call() {
    let mut bake = begin();
    let step = knead(&bake);
    let now = NINE + minutes(10.0);
    say(&mut bake, Intent::Pin(step, Some(now + minutes(0.5))), now);
    assert!(!rings_fixed(&bake, step, now + minutes(5.0)));
}

#[test]
fn a_bake_whose_first_step_was_fixed_calls_once_to_begin() {
    let mut bake = begin();
    let first = bake.state().formula.steps[0].id;
    let at = NINE + minutes(60.0);
    say(&mut bake, Intent::Pin(first, Some(at)), NINE);
    assert!(rings_fixed(&bake, first, at));
    assert!(begin_alarm(bake.state(), at).is_none());
    assert!(begin_alarm(bake.state(), at + minutes(20.0)).is_some());
}

/// Whoever lets go of a fixed beginning after its moment, by whatever press, is there.
#[test]
fn letting_go_of_a_beginning_that_has_passed_calls_nobody_to_begin() {
    let mut bake = begin();
    let first = bake.state().formula.steps[0].id;
    let at = NINE + minutes(60.0);
    say(&mut bake, Intent::Pin(first, Some(at)), NINE);
    let late = at + minutes(5.0);
    let then = [
        Intent::Pin(first, None),
        Intent::Pin(first, Some(at - minutes(10.0))),
        Intent::Pin(first, Some(at + minutes(90.0))),
        Intent::Undo,
    ];
    for asked in then {
        let case = format!("{asked:?}");
        let mut after = bake.clone();
        say(&mut after, asked, late);
        assert!(begin_alarm(after.state(), at).is_none(), "{case}");
        // For a beginning that lies ahead the baker is called as ever.
        assert!(
            begin_alarm(after.state(), late + minutes(20.0)).is_some(),
            "{case}"
        );
    }
    // Before its moment nobody has missed anything.
    for asked in [Intent::Pin(first, None), Intent::Undo] {
        let mut after = bake.clone();
        say(&mut after, asked, at - minutes(5.0));
        assert!(begin_alarm(after.state(), at).is_some());
    }
}
