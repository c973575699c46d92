//! A night in the fridge as it is asked for: what the plan makes of it, what is refused, and when it is over.

use checks::{begin, say, starter};
use domain::bake::{Event, Intent, Refusal, Wishes, decide};
use domain::formula::{Length, StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{RetardPart, What};
use domain::units::minutes;

use super::asked::{hours, planned, wish};
use super::levers::step_of;
use super::retard::rising;
use super::{NINE, TABLES, begun};

fn asleep() -> Wishes {
    Wishes {
        away: vec![(NINE + hours(13.0), NINE + hours(22.0))],
        ..Wishes::default()
    }
}

#[test]
fn the_plan_has_both_moments_and_no_folds_between_them() {
    for ids in [TABLES[0], TABLES[1]] {
        let mut bakes = begun(ids);
        wish(&mut bakes, &asleep(), NINE);
        let step = step_of(&bakes[0], StepKind::Bulk);
        let (from, to) = (NINE + hours(12.0), NINE + hours(22.0));
        say(
            &mut bakes[0],
            Intent::PlanRetard(step, Some((from, to))),
            NINE,
        );
        let found = planned(&bakes, NINE).expect("there is a plan").plan;
        let item = |what| {
            *found
                .item(what)
                .unwrap_or_else(|| panic!("{ids:?}: {what:?}"))
        };
        let cold = |cold| item(What::Retard(0, step, cold));
        let rise = item(What::Step(0, step));
        assert_eq!((rise.start, rise.too_late_by), (from, None), "{ids:?}");
        assert_eq!(cold(RetardPart::In).start, from);
        assert_eq!(
            (cold(RetardPart::Out).start, cold(RetardPart::Stands).end),
            (to, to)
        );
        assert_eq!(cold(RetardPart::Stands).start, from);
        assert!(
            rise.end > to + minutes(10.0),
            "{ids:?}: it rises on in the kitchen"
        );
        for item in &found.items {
            if let What::Fold(..) = item.what {
                assert!(item.end <= from || item.start >= to, "{ids:?}: {item:?}");
            }
        }
        // Taken away, nothing is left of it.
        say(&mut bakes[0], Intent::PlanRetard(step, None), NINE);
        let found = planned(&bakes, NINE).expect("there is a plan").plan;
        assert!(
            !found
                .items
                .iter()
                .any(|item| matches!(item.what, What::Retard(..)))
        );
    }
}

#[test]
fn one_press_is_taken_back_by_one_undo_and_all_of_it_is_refused_or_none() {
    let mut bake = begin(starter(TABLES[0][0]), Kitchen::UNMEASURED, NINE);
    let step = step_of(&bake, StepKind::Bulk);
    let first = bake.state().formula.steps[0].id;
    let asked = |stay| {
        Intent::AtOnce(vec![
            Intent::Pin(first, Some(NINE + hours(2.0))),
            Intent::Pin(step, Some(NINE + hours(3.0))),
            Intent::PlanRetard(step, Some(stay)),
        ])
    };
    let backwards = (NINE + hours(9.0), NINE + hours(4.0));
    assert_eq!(
        decide(&bake, asked(backwards), NINE),
        Err(Refusal::Backwards)
    );
    let before = bake.state().clone();
    say(
        &mut bake,
        asked((NINE + hours(4.0), NINE + hours(9.0))),
        NINE,
    );
    assert!(bake.state().pins.len() == 2 && bake.state().retards.len() == 1);
    say(&mut bake, Intent::Undo, NINE + minutes(1.0));
    assert_eq!(
        (&bake.state().pins, &bake.state().retards),
        (&before.pins, &before.retards)
    );
    assert_eq!(
        decide(&bake, Intent::Undo, NINE + minutes(2.0)),
        Err(Refusal::NothingToUndo)
    );
}

#[test]
fn only_a_rise_that_is_still_to_end_is_planned_to_stand_cold_and_only_near_at_hand() {
    let (bake, step, now) = rising(0, StepKind::FinalProof).expect("it rises");
    let stay = (now + hours(1.0), now + hours(9.0));
    let refused = |step, stay| decide(&bake, Intent::PlanRetard(step, Some(stay)), now);
    let bulk = step_of(&bake, StepKind::Bulk);
    assert_eq!(refused(bulk, stay), Err(Refusal::Already(bulk)));
    let oven = step_of(&bake, StepKind::Bake);
    assert_eq!(refused(oven, stay), Err(Refusal::NeverRetarded(oven)));
    assert_eq!(refused(StepId(999), stay), Err(Refusal::Unknown));
    assert_eq!(refused(step, (stay.1, stay.0)), Err(Refusal::Backwards));
    assert_eq!(
        refused(step, (now - hours(9.0), now)),
        Err(Refusal::Backwards)
    );
    for far in [-15.0, 15.0] {
        let far = now + hours(24.0 * far);
        let asked = if far < now {
            (far, stay.1)
        } else {
            (stay.0, far)
        };
        assert!(matches!(refused(step, asked), Err(Refusal::Implausible(_))));
    }
    assert!(
        matches!(refused(step, stay).as_deref(), Ok([entry]) if matches!(entry.event, Event::RetardPlanned { .. }))
    );
}

#[test]
fn what_is_planned_ends_with_its_step_and_goes_with_its_formula() {
    let (mut bake, step, now) = rising(0, StepKind::Bulk).expect("it rises");
    say(
        &mut bake,
        Intent::PlanRetard(step, Some((now + hours(1.0), now + hours(9.0)))),
        now,
    );
    say(&mut bake, Intent::Done(step), now + minutes(1.0));
    assert!(bake.state().retards.is_empty());

    let mut bake = begin(starter(TABLES[0][0]), Kitchen::UNMEASURED, NINE);
    let step = step_of(&bake, StepKind::Bulk);
    say(
        &mut bake,
        Intent::PlanRetard(step, Some((NINE + hours(1.0), NINE + hours(9.0)))),
        NINE,
    );
    let other = starter(TABLES[1][0]);
    let has_it = other
        .step(step)
        .is_some_and(|step| matches!(step.length, Length::Ferment { .. }));
    say(&mut bake, Intent::Refit(Box::new(other)), NINE);
    assert_eq!(bake.state().retards.contains_key(&step), has_it);
}
