//! The two-stage rule in the drawing: its stages, and the calls at their ends.

use checks::{assert_close, say, starter};
use domain::bake::{AlarmId, AlarmKind, Bake, Intent, alarms};
use domain::formula::{Formula, Length, StepId, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::thermal::cooling::{BOTH_STAGES, COLD, FIRST_STAGE, FROM_AMBIENT, WARM};
use domain::thermal::vessel::Cooling;
use domain::units::{Moment, celsius, millimetres, minutes};

use super::{STRAIGHT, at, cools, cools_in, drawn};

#[test]
fn the_stages_count_from_57_degrees() {
    let (mut bake, cream, start) = cools(StepKind::Chill);
    let stages = drawn(&bake, cream, start).stages;
    assert_eq!(
        stages.iter().map(|one| one.to).collect::<Vec<_>>(),
        [WARM, COLD]
    );
    let hot = stages[0].by - FIRST_STAGE;
    assert!(hot > start && hot < start + minutes(60.0));
    assert_eq!(stages[1].by, hot + BOTH_STAGES);
    let cooled = drawn(&bake, cream, hot);
    assert_close(
        "at the rule's start",
        at(&cooled, hot, |one| one.core.likely()),
        57.0,
        STRAIGHT,
    );
    for stage in &cooled.stages {
        let likely = stage.likely.expect("ice water is cold enough");
        assert!(likely < stage.by);
        let core = at(&cooled, likely, |one| one.core.likely());
        assert_close("at a stage", core, stage.to.get(), STRAIGHT);
    }

    // Measured below 57 °C it was hot no later than then, and measured above it still is.
    let read = start + minutes(2.0);
    say(&mut bake, Intent::CoreIs(cream, celsius(30.0)), read);
    assert_eq!(drawn(&bake, cream, read).stages[0].by, read + FIRST_STAGE);
    let later = start + minutes(45.0);
    say(&mut bake, Intent::CoreIs(cream, celsius(60.0)), later);
    assert!(drawn(&bake, cream, later).stages[0].by > later + FIRST_STAGE);
}

/// The buns with their cream in the fridge, so deep that it likely passes and doesn't surely.
fn in_the_fridge(from: f64) -> (Bake, StepId, Moment) {
    let mut draft = starter("plum-almond-buns").into_draft();
    for step in &mut draft.steps {
        if let Length::Chill { .. } = step.length {
            step.length = Length::Chill {
                from: celsius(from),
                to: COLD,
                depth: millimetres(15.0),
                cooling: Cooling::Fridge,
            };
        }
    }
    let kitchen = Kitchen {
        fridge: celsius(3.0),
        ..Kitchen::UNMEASURED
    };
    let formula = Formula::new(draft).expect("only a chill was changed");
    cools_in(formula, kitchen, StepKind::Chill)
}

#[test]
fn what_is_likely_in_time_need_not_surely_be() {
    let (mut bake, cream, start) = in_the_fridge(80.0);
    let cooled = drawn(&bake, cream, start);
    let [_, last] = &cooled.stages[..] else {
        panic!("two stages: {:?}", cooled.stages);
    };
    assert!(
        last.likely.is_some_and(|likely| likely <= last.by),
        "{last:?}"
    );
    assert!(last.late.is_none_or(|late| late > last.by), "{last:?}");
    assert_eq!(last.late, cooled.window.map(|window| window.high()));
    // Whoever measures it knows.
    let read = start + minutes(100.0);
    say(&mut bake, Intent::CoreIs(cream, celsius(20.0)), read);
    let first = drawn(&bake, cream, read).stages[0];
    assert!(first.late <= Some(read) && first.late == first.likely);
    // On ice water it surely is in time.
    let (bake, cream, start) = cools(StepKind::Chill);
    for stage in drawn(&bake, cream, start).stages {
        assert!(stage.late.is_some_and(|late| late <= stage.by), "{stage:?}");
        assert!(stage.late > stage.likely);
    }
}

#[test]
fn each_stage_calls_at_its_end_until_a_thermometer_has_shown_it() {
    let (mut bake, cream, start) = in_the_fridge(80.0);
    let calls = |bake: &Bake, now| {
        let calls = alarms(bake.state(), now).into_iter();
        let of_it = calls.filter(|call| call.step == Some(cream) && call.kind != AlarmKind::Check);
        of_it
            .map(|call| ((call.due - start).get().round(), call.id))
            .collect::<Vec<_>>()
    };
    let step = cream;
    let (first, last) = (AlarmId::CoolingStage { step }, AlarmId::CoolingEnd { step });
    assert_eq!(calls(&bake, start), [(120.0, first), (360.0, last)]);
    let now = start + minutes(100.0);
    say(&mut bake, Intent::CoreIs(cream, celsius(20.0)), now);
    assert_eq!(calls(&bake, now), [(360.0, last)]);
    let heard = start + minutes(361.0);
    say(&mut bake, Intent::Hear(last), heard);
    assert_eq!(calls(&bake, heard), []);
    // What is no warmer than the kitchen has one stage.
    let (bake, _, from) = in_the_fridge(20.0);
    assert_eq!(calls(&bake, from), [(240.0, last)]);
    let stages = drawn(&bake, cream, from).stages;
    assert_eq!(stages.len(), 1);
    assert_eq!((stages[0].to, stages[0].by), (COLD, from + FROM_AMBIENT));
}

#[test]
fn what_is_never_cold_enough_is_drawn_as_long_as_the_rule_goes_on() {
    let (mut bake, cream, start) = cools(StepKind::Chill);
    let moved = start + minutes(1.0);
    say(&mut bake, Intent::Move(cream, Place::Kitchen), moved);
    let cooled = drawn(&bake, cream, moved);
    assert_eq!(cooled.window, None);
    assert_eq!(cooled.stages[1].likely, None);
    assert_eq!(
        cooled.points.last().map(|point| point.at),
        Some(start + BOTH_STAGES)
    );
    let coldest = cooled.points.last().map(|point| point.core.low());
    assert!(coldest > Some(celsius(15.0)), "{coldest:?}");
}
