//! A table that is too soon.

use checks::say;
use domain::bake::Intent;
use domain::schedule::plan::{Claim, Nearest, What, turned_out};
use domain::units::minutes;

use super::super::asked::{at_table, planned, states, wish};
use super::super::{NINE, TABLES, begun};
use super::{check, found, soonest};

#[test]
fn a_table_that_is_too_soon_contradicts_the_bread_and_may_be_no_later_than_that() {
    for ids in &TABLES[..3] {
        let mut bakes = begun(ids);
        // A night in the fridge that is likely 570 min may be as short as 480, which is to fix when its dough is turned out.
        let mut shortest = bakes.clone();
        if ids[0] == "overnight-tin-loaf" {
            let states = states(&bakes);
            let steps = &states[0].formula.steps;
            let night = steps.iter().find(|step| step.retards_for().is_some());
            let night = night.expect("it has one").id;
            let (hours, out) = turned_out(states[0], night).expect("somebody does");
            let made = planned(&bakes, NINE).expect("there is a plan");
            let item = made.plan.item(What::Step(0, night)).expect("planned");
            let out = Intent::Pin(out, Some(item.start + hours.low()));
            say(&mut shortest[0], out, NINE);
        }
        let soonest = soonest(&shortest);
        let table = soonest - minutes(25.0);
        wish(&mut bakes, &at_table(table), NINE);
        let conflict = found(&bakes, NINE).expect("it is too soon");
        assert_eq!(conflict.claims, [Claim::Bake(0), Claim::Table(table)]);
        let [Nearest::Table { at, safely, .. }] = conflict.nearest[..] else {
            panic!("{:?}", conflict.nearest);
        };
        assert!(at >= soonest && at - soonest < minutes(5.0), "{ids:?}");
        assert_eq!(at.epoch_ms() % 300_000, 0);
        // Half of all bakes take longer than likely, so its buffer lies after it.
        assert!(safely.expect("it can be sure as well") > at);
        check(&bakes, &conflict, NINE).expect("it holds");
    }
}

#[test]
fn two_breads_can_contradict_a_table_that_each_of_them_keeps() {
    let mut bakes = begun(TABLES[3]);
    let alone = bakes.iter().map(|bake| soonest(std::slice::from_ref(bake)));
    let table = alone.max().expect("two") + minutes(5.0);
    assert!(soonest(&bakes) > table);
    wish(&mut bakes, &at_table(table), NINE);
    let conflict = found(&bakes, NINE).expect("one oven");
    assert_eq!(
        conflict.claims,
        [Claim::Bake(0), Claim::Bake(1), Claim::Table(table)]
    );
}
