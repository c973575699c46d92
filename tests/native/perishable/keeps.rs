//! How long what was put away keeps, and which ways back a filling bears.

use domain::bake::{Intent, Kept};
use domain::formula::{ComponentId, StepId, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::schedule::bears_way_back;
use domain::units::celsius;

use super::{Day, FILL, INTO_FRIDGE, SERVE, after};

/// Out of the fridge after a day it takes longer than its filling may stand in a kitchen of 21 °C.
#[test]
fn a_filling_does_not_bear_every_way_back() {
    let bears = |day: &Day, rise: StepId, now: f64| {
        let forecast = day.bake.state().forecast(rise, after(now));
        let forecast = forecast.expect("it rises");
        assert!(forecast.out_by.is_some(), "{forecast:?}");
        bears_way_back(day.bake.state(), &forecast)
    };
    for (air, allows) in [(21.0, false), (30.0, true)] {
        let kitchen = Kitchen {
            air: celsius(air),
            fridge: celsius(2.0),
            ..Kitchen::UNMEASURED
        };
        let mut day = Day::in_kitchen(kitchen, |_| {});
        day.done((1..=8).chain([26]).chain(9..=14), 180.0);
        day.done([15], 190.0);
        day.say(Intent::Move(StepId(16), Place::Fridge), 192.0);
        let forecast = day.bake.state().forecast(StepId(16), after(193.0));
        assert_eq!(
            bears(&day, StepId(16), 193.0),
            allows,
            "{air} °C: {forecast:?}"
        );
    }
    // Before it is filled nothing limits it.
    let kitchen = Kitchen {
        fridge: celsius(2.0),
        ..Kitchen::UNMEASURED
    };
    let mut day = Day::in_kitchen(kitchen, |_| {});
    day.done((1..=8).chain([26]), 60.0);
    day.say(Intent::Move(StepId(9), Place::Fridge), 61.0);
    assert!(bears(&day, StepId(9), 62.0));
}

/// The days are those of USDA FSIS, cold storage data FMA-Data-v12167, products 22, 24, 201 and 205.
#[test]
fn what_is_put_away_keeps_as_many_days_as_are_published() {
    let kept = |day: &Day, id: StepId| {
        let state = day.bake.state();
        state.kept_after(state.formula.step(id).expect("a step of the buns"))
    };
    let day = Day::of(|_| {});
    assert_eq!(kept(&day, INTO_FRIDGE), Some(Kept::CookedEgg));
    assert_eq!(kept(&day, SERVE), Some(Kept::Filled));
    assert_eq!(kept(&day, FILL), None);
    let raw = Day::of(|draft| {
        let cooked = draft
            .steps
            .iter_mut()
            .filter(|step| step.component == ComponentId(2));
        for step in cooked {
            if step.kind == StepKind::Cook {
                step.kind = StepKind::Prepare;
            }
        }
    });
    assert_eq!(kept(&raw, INTO_FRIDGE), Some(Kept::RawEgg));
    for (kept, days) in [
        (Kept::RawEgg, (2, 4)),
        (Kept::CookedEgg, (3, 4)),
        (Kept::CookedMilk, (3, 4)),
        (Kept::Filled, (2, 3)),
    ] {
        assert_eq!(kept.days(), days);
    }
}
