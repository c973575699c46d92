//! Steps that are fixed where they can't be, and what a table is that a fixed step makes late.

use super::asked::{at_table, hours, planned, states, wish};
use super::{NINE, TABLES, begun};
use checks::say;
use domain::bake::{Bake, Intent};
use domain::formula::{StepId, StepKind};
use domain::schedule::plan::{NOTABLE, Timetable, What, later_than_fixed};
use domain::units::{Moment, minutes};

fn of_kind(bake: &Bake, kind: StepKind) -> StepId {
    let mut steps = bake.state().formula.steps.iter();
    steps.find(|step| step.kind == kind).expect("it has one").id
}

fn start(timetable: &Timetable, step: StepId) -> Moment {
    let mut items = timetable.plan.items.iter();
    let item = items.find(|item| item.what == What::Step(0, step));
    item.expect("it is planned").start
}

fn soonest(bakes: &[Bake], step: StepId, at: Moment) -> Option<Moment> {
    let mut fixed = bakes.to_vec();
    say(&mut fixed[0], Intent::Pin(step, Some(at)), NINE);
    later_than_fixed(&states(&fixed), (0, step), NINE, None, &mut || true)
}

/// The finding: Bake fixed an hour after the start, with nothing mixed, was taken without a word.
#[test]
fn a_step_that_cannot_start_when_it_is_fixed_is_told_the_soonest() {
    for ids in TABLES {
        let mut bakes = begun(ids);
        let bake = of_kind(&bakes[0], StepKind::Bake);
        let free = planned(&bakes, NINE).expect("there is a plan");
        for table in [None, Some(free.plan.end.likely() + hours(8.0))] {
            if let Some(table) = table {
                wish(&mut bakes, &at_table(table), NINE);
            }
            let at = soonest(&bakes, bake, NINE + hours(1.0)).expect("nothing is mixed by then");
            // Of several breads another order lets this one bake sooner.
            let is_one = ids.len() == 1;
            assert!(
                !is_one || at >= start(&free, bake) - NOTABLE,
                "{ids:?}: {at:?}"
            );
            assert!(at > NINE + hours(2.0), "{ids:?}: {at:?}");
            // That one it can be, and so it can be later.
            assert_eq!(soonest(&bakes, bake, at), None, "{ids:?}, {table:?}");
            assert_eq!(soonest(&bakes, bake, at + minutes(45.0)), None, "{ids:?}");
        }
    }
}

#[test]
fn a_step_can_be_fixed_where_it_is_planned() {
    for ids in TABLES {
        let mut bakes = begun(ids);
        let free = planned(&bakes, NINE).expect("there is a plan");
        let table = free.plan.end.likely() + hours(8.0);
        wish(&mut bakes, &at_table(table), NINE);
        let plan = planned(&bakes, NINE).expect("there is a plan");
        for item in &plan.plan.items {
            if let What::Step(0, step) = item.what {
                assert_eq!(soonest(&bakes, step, item.start), None, "{ids:?}: {step:?}");
            }
        }
    }
}

/// The finding: a step that was fixed two minutes too late for the table had everything begin at once, and milk and egg
/// weighed two hours before the dough.
#[test]
fn what_a_fixed_step_makes_late_begins_as_late_as_its_end_allows() {
    let mut bakes = begun(TABLES[0]);
    let divide = of_kind(&bakes[0], StepKind::Divide);
    wish(&mut bakes, &at_table(NINE + hours(8.0)), NINE);
    let free = planned(&bakes, NINE).expect("there is a plan");
    let margin = *free.tightest().expect("a table");
    let begins = |of: &Timetable| of.begins[0].expect("it waits");
    // Nothing is fixed, and it begins well after now.
    assert!(begins(&free) > NINE + minutes(45.0));
    let kept = start(&free, divide) + margin.spare() - minutes(3.0);
    let fixed = |at: Moment| {
        let mut bakes = bakes.clone();
        say(&mut bakes[0], Intent::Pin(divide, Some(at)), NINE);
        let plan = planned(&bakes, NINE).expect("there is a plan");
        assert_eq!(start(&plan, divide), at);
        plan
    };
    let (in_time, late) = (fixed(kept), fixed(kept + minutes(6.0)));
    let by = |of: &Timetable| of.tightest().expect("a table").late().get();
    assert!(by(&in_time) == 0.0 && (1.0..=8.0).contains(&by(&late)));
    let later = begins(&late) - begins(&in_time);
    assert!((-1.0..=8.0).contains(&later.get()), "{later:?}");
}
