//! What becomes of a wished table beside steps that were fixed.

use super::asked::{at_table, hours, planned, wish};
use super::{NINE, TABLES, begun};
use checks::say;
use domain::bake::{Bake, Intent};
use domain::formula::StepId;
use domain::schedule::plan::{Timetable, What};
use domain::units::{Moment, minutes};

/// Of the buns: "Mix the dough".
const MIX: StepId = StepId(6);

fn start(timetable: &Timetable, step: StepId) -> Moment {
    let mut items = timetable.plan.items.iter();
    let item = items.find(|item| item.what == What::Step(0, step));
    item.expect("it is planned").start
}

fn for_seven() -> Vec<Bake> {
    let mut bakes = begun(TABLES[0]);
    wish(&mut bakes, &at_table(NINE + hours(10.0)), NINE);
    bakes
}

#[test]
fn a_fixed_step_that_takes_of_the_buffer_moves_the_beginning_by_no_more_than_that() {
    let mut bakes = for_seven();
    let free = planned(&bakes, NINE).expect("there is a plan");
    let (kept, begins) = (
        *free.tightest().expect("a table"),
        free.begins[0].expect("a start"),
    );
    assert!(kept.spare() >= kept.buffer && kept.buffer.get() >= 30.0);
    let fixed = start(&free, MIX) + minutes(25.0);
    say(&mut bakes[0], Intent::Pin(MIX, Some(fixed)), NINE);
    let plan = planned(&bakes, NINE).expect("there is a plan");
    assert_eq!(start(&plan, MIX), fixed);
    let left = plan.tightest().expect("a table").spare() - (kept.spare() - minutes(25.0));
    assert!(left.get().abs() <= 1.0, "{left:?}");
    let sooner = begins - plan.begins[0].expect("a start");
    assert!(sooner <= kept.buffer, "{sooner:?}");
}
