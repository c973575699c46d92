//! Greatest lags: the outline keeps them where one pair of hands can, and says by how much where it can't.

use checks::starter;
use domain::bake::{Bake, BakeId, Entry, Event, Intent, Start, decide};
use domain::estimate::{Basis, Estimate};
use domain::formula::{Formula, Length, StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::{Outline, Planned, outline};
use domain::units::{Minutes, Moment, minutes};

const NINE: Moment = Moment::from_epoch_ms(1_700_000_000_000);

/// The braid, whose almonds take so long to toast, on the way to the end of its first rise.
fn braid_in_its_first_rise(almonds: Minutes, kitchen: Kitchen) -> Bake {
    let mut draft = starter("orange-braid").into_draft();
    for step in &mut draft.steps {
        if step.title == "Toast almonds" {
            step.length = Length::Hands(Estimate::exact(almonds, Basis::Formula));
        }
    }
    let formula = Formula::new(draft).expect("only a length was changed");
    let event = Event::Started(Box::new(Start { formula, kitchen }));
    let log = vec![Entry { at: NINE, event }];
    let mut bake = Bake::from_log(BakeId("braid".to_owned()), log).expect("it has its start");
    for (place, step) in (1_u8..).zip([1, 2, 3, 4, 22]) {
        let now = NINE + minutes(8.0 * f64::from(place));
        let entries = decide(&bake, Intent::Done(StepId(step)), now).expect("it is open");
        bake.append(entries);
    }
    bake
}

fn planned<'a>(bake: &Bake, outline: &'a Outline, kind: StepKind) -> &'a Planned {
    let steps = &bake.state().formula.steps;
    let of_kind = |planned: &&Planned| {
        let mut steps = steps.iter();
        steps.any(|step| step.id == planned.step && step.kind == kind)
    };
    let found = outline.steps.iter().find(of_kind);
    found.expect("a step of that kind is left")
}

/// "Divide" may follow the rise by at most a quarter of an hour. The almonds are
/// ready to toast all the while, but begun too late they would take the hands past it.
#[test]
fn work_that_can_wait_gives_way_to_what_may_not() {
    for almonds in [5.0, 60.0, 200.0] {
        let bake = braid_in_its_first_rise(minutes(almonds), Kitchen::UNMEASURED);
        let rise = outline(bake.state(), NINE + minutes(41.0));
        let ends = planned(&bake, &rise, StepKind::Bulk).end;
        for before in [80.0, 40.0, 20.0, 3.0] {
            let now = ends - minutes(before);
            let outline = outline(bake.state(), now);
            let divide = planned(&bake, &outline, StepKind::Divide);
            let late = divide.start - planned(&bake, &outline, StepKind::Bulk).end;
            assert!(late <= minutes(15.0), "{almonds} min of almonds: {late:?}");
            assert_eq!(divide.too_late_by, None);
        }
    }
}

/// Long before the rise ends there is time for the almonds, and nobody stands idle.
#[test]
fn nothing_gives_way_without_need() {
    let bake = braid_in_its_first_rise(minutes(20.0), Kitchen::UNMEASURED);
    let now = NINE + minutes(41.0);
    let outline = outline(bake.state(), now);
    assert_eq!(planned(&bake, &outline, StepKind::Cook).start, now);
}

/// An oven that takes three hours is not hot when the braid has proofed, and its wash may follow the proof by ten minutes.
#[test]
fn what_has_to_come_too_late_says_by_how_much() {
    let slow_oven = Kitchen {
        oven_heats_in: minutes(180.0),
        ..Kitchen::UNMEASURED
    };
    let bake = braid_in_its_first_rise(minutes(5.0), slow_oven);
    let outline = outline(bake.state(), NINE + minutes(41.0));
    let wash = planned(&bake, &outline, StepKind::Wash);
    let proofed = planned(&bake, &outline, StepKind::FinalProof).end;
    let waits = wash.start - proofed;
    assert!(waits > minutes(30.0), "the oven was hot in time");
    let late = wash.too_late_by.expect("it comes too late");
    assert!((late - (waits - minutes(10.0))).get().abs() < 1e-6);
}
