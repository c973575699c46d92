//! What was taken back can be put back until something else happens: a second press on "undo" is a slip.

use checks::{begin, say, starter, up_to};
use domain::bake::{AlarmId, Bake, Intent, Keeps, Refusal, State, Wishes, decide, due, rejoin};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::units::{Moment, celsius, minutes};

const NINE: Moment = Moment::from_epoch_ms(1_789_894_800_000);

/// But for the moment of the newest entry.
fn same(one: &State, other: &State) -> bool {
    let mut one = one.clone();
    one.newest = other.newest;
    one == *other
}

fn buns() -> Bake {
    begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE)
}

fn step(bake: &Bake, kind: StepKind) -> StepId {
    let mut steps = bake.state().formula.steps.iter();
    steps.find(|step| step.kind == kind).expect("it has one").id
}

/// The finding: two presses on "undo", the second a slip, took back that the cream went into the fridge hours ago, and a
/// good filling was told to be thrown away for the rest of the bake.
#[test]
fn a_slip_that_condemns_a_good_filling_is_put_back() {
    let mut bake = buns();
    let (_, rises) = up_to(&mut bake, StepKind::Bulk, NINE, |_| minutes(10.0));
    let cold = |bake: &mut Bake, now: Moment| {
        // Whatever of the cream is still open is done by then.
        while let Some(step) = {
            let state = bake.state();
            let mut steps = state.formula.steps.iter();
            let filling = steps.find(|step| {
                let of = state.formula.component(step.component);
                let is_filling =
                    of.is_some_and(|of| of.kind == domain::formula::ComponentKind::Filling);
                is_filling && state.is_open(step.id) && step.kind != StepKind::Fill
            });
            filling.map(|step| step.id)
        } {
            say(bake, Intent::Done(step), now);
        }
    };
    cold(&mut bake, rises + minutes(5.0));
    let late = rises + minutes(200.0);
    let is_lost = |bake: &Bake| {
        let stood = bake.state().stood(late);
        stood.iter().any(|stood| stood.keeps(late) > Keeps::Soon)
    };
    let before = bake.state().clone();
    assert!(!is_lost(&bake), "it stands in the fridge");
    let mut taken = 0;
    while !is_lost(&bake) {
        say(&mut bake, Intent::Undo, late);
        taken += 1;
    }
    // An alarm rings at once, and that it was heard is no news.
    while let Some(alarm) = due(bake.state(), late).first().cloned() {
        say(&mut bake, Intent::Hear(alarm.id), late);
    }
    for _ in 0..taken {
        say(&mut bake, Intent::PutBack, late + minutes(1.0));
    }
    assert!(!is_lost(&bake));
    let heard = |state: &State| {
        let mut state = state.clone();
        state.acknowledged.clear();
        state
    };
    assert!(same(&heard(bake.state()), &heard(&before)));
    assert_eq!(
        decide(&bake, Intent::PutBack, late),
        Err(Refusal::NothingToUndo)
    );
}

#[test]
fn what_was_put_back_can_be_taken_back_again_and_what_happened_since_stays() {
    let mut bake = buns();
    let gather = step(&bake, StepKind::Gather);
    let before = bake.state().clone();
    say(&mut bake, Intent::Done(gather), NINE + minutes(10.0));
    let after = bake.state().clone();
    for nth in 0..3 {
        let now = NINE + minutes(12.0 + f64::from(nth));
        say(&mut bake, Intent::Undo, now);
        assert!(same(bake.state(), &before));
        say(&mut bake, Intent::PutBack, now);
        assert!(same(bake.state(), &after));
    }
    say(&mut bake, Intent::Undo, NINE + minutes(20.0));
    assert!(bake.to_put_back().is_some());
    say(
        &mut bake,
        Intent::KitchenIs(celsius(24.0)),
        NINE + minutes(21.0),
    );
    assert_eq!(bake.to_put_back(), None);
    // What is taken back of that is all that can be put back.
    say(&mut bake, Intent::Undo, NINE + minutes(22.0));
    say(&mut bake, Intent::PutBack, NINE + minutes(23.0));
    assert_eq!(bake.state().kitchen.air, celsius(24.0));
    assert_eq!(bake.to_put_back(), None);
}

#[test]
fn a_wish_comes_back_as_it_was() {
    let mut bake = buns();
    say(
        &mut bake,
        Intent::KitchenIs(celsius(21.0)),
        NINE + minutes(1.0),
    );
    let wish = |hours: f64| {
        let wishes = Wishes {
            table: Some(NINE + minutes(60.0 * hours)),
            ..Wishes::default()
        };
        Intent::Wish(Box::new(wishes))
    };
    say(&mut bake, wish(8.0), NINE + minutes(2.0));
    say(&mut bake, wish(7.0), NINE + minutes(3.0));
    say(&mut bake, Intent::Undo, NINE + minutes(4.0));
    assert_eq!(bake.state().wishes.table, Some(NINE + minutes(480.0)));
    say(&mut bake, Intent::PutBack, NINE + minutes(5.0));
    assert_eq!(bake.state().wishes.table, Some(NINE + minutes(420.0)));
}

/// Two tabs that couldn't hear of each other: what one of them put back stays put back behind the other's entries.
#[test]
fn what_one_side_put_back_stays_put_back() {
    let begun = buns();
    let (mut stored, mut ours) = (begun.clone(), begun);
    let timer = Intent::SetTimer("tea".to_owned(), minutes(10.0));
    say(&mut stored, timer, NINE + minutes(1.0));
    say(
        &mut ours,
        Intent::KitchenIs(celsius(27.0)),
        NINE + minutes(2.0),
    );
    say(&mut ours, Intent::Undo, NINE + minutes(3.0));
    say(&mut ours, Intent::PutBack, NINE + minutes(4.0));
    let rest = rejoin(stored.log(), ours.log());
    stored.append(rest);
    assert_eq!(stored.state().kitchen.air, celsius(27.0));
    assert_eq!(stored.state().timers.len(), 1);
}

/// What was heard stays heard through both.
#[test]
fn a_heard_timer_is_not_rung_again_by_putting_back() {
    let mut bake = buns();
    let gather = step(&bake, StepKind::Gather);
    let timer = Intent::SetTimer("tea".to_owned(), minutes(5.0));
    say(&mut bake, timer, NINE + minutes(1.0));
    say(&mut bake, Intent::Done(gather), NINE + minutes(2.0));
    let rings = NINE + minutes(7.0);
    let heard = due(bake.state(), rings).first().cloned().expect("it rings");
    assert!(matches!(heard.id, AlarmId::Timer(_)));
    say(&mut bake, Intent::Hear(heard.id), rings);
    say(&mut bake, Intent::Undo, rings + minutes(1.0));
    say(&mut bake, Intent::PutBack, rings + minutes(2.0));
    assert!(due(bake.state(), rings + minutes(3.0)).is_empty());
    assert!(bake.state().progress(gather).ended.is_some());
}
