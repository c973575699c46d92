//! A filling made the day before.

use domain::bake::Wishes;
use domain::formula::StepKind;
use domain::schedule::plan::{Lever, Way, What};
use domain::units::minutes;

use super::super::asked::{amiss, at_table, hours, planned, wish};
use super::super::{NINE, TABLES, begun};
use super::{THREE, done, end, night, ways};

#[test]
fn a_filling_is_made_the_evening_before_where_nothing_else_may_begin() {
    let mut bakes = begun(TABLES[0]);
    let length = end(&bakes, NINE) - NINE;
    let seven = NINE + hours(22.0);
    let wishes = Wishes {
        not_before: Some(seven),
        away: vec![night()],
        ..at_table(seven + length - minutes(25.0))
    };
    wish(&mut bakes, &wishes, THREE);
    let found = ways(&bakes, THREE);
    let way = found
        .iter()
        .find(|way| matches!(way.lever, Lever::DayBefore { .. }));
    let way = way.expect("the cream takes half an hour of hands");
    let Lever::DayBefore {
        component,
        from,
        to,
        days,
        ..
    } = way.lever
    else {
        panic!("just found")
    };
    assert!(from > THREE && to <= night().0 && to - from < hours(2.0));
    // Egg dishes keep three to four days (USDA FSIS, product 24).
    assert_eq!(days, 3);
    let after = done(&bakes, way, THREE);
    let found = planned(&after, THREE).expect("there is a plan");
    assert_eq!(found.plan.end.likely(), way.table.likely());
    assert!(amiss(&found) < 0.5);
    let formula = &after[0].state().formula;
    let gather = formula
        .steps
        .iter()
        .find(|step| step.kind == StepKind::Gather);
    let gather = gather.expect("it begins with that").id;
    let gathered = found
        .plan
        .item(What::Step(0, gather))
        .expect("it is planned");
    let idle = from - gathered.end;
    assert!(
        idle <= minutes(10.0),
        "gathered {idle:?} before it is wanted"
    );
    for planned in found.plan.of(0).expect("it is planned").steps {
        let step = formula.step(planned.step).expect("of the formula");
        let is_before = step.component == component && step.kind != StepKind::Fill;
        let is_free = is_before || step.kind == StepKind::Gather;
        assert!(is_free || planned.start >= seven, "{}", step.title);
    }
}

/// Of two breads each has its own, by its name, and the other's wishes stay.
#[test]
fn of_two_breads_each_filling_is_offered_by_itself() {
    let two: &[&str] = &["plum-almond-buns", "plum-almond-buns"];
    let mut offers = 0;
    for (ids, late) in [
        (TABLES[3], 10.0),
        (TABLES[4], 10.0),
        (two, 10.0),
        (two, 25.0),
    ] {
        offers += each_is_offered_by_itself(ids, late);
    }
    assert!(offers > 0);
}

/// How many are offered of two breads for a table too soon by so many minutes.
fn each_is_offered_by_itself(ids: &[&str], late: f64) -> usize {
    let mut bakes = begun(ids);
    let length = end(&bakes, NINE) - NINE;
    let seven = NINE + hours(22.0);
    let wishes = Wishes {
        not_before: Some(seven),
        away: vec![night()],
        ..at_table(seven + length - minutes(late))
    };
    wish(&mut bakes, &wishes, THREE);
    let found = ways(&bakes, THREE);
    let of = |way: &&Way| match way.lever {
        Lever::DayBefore { bake, .. } => Some(bake),
        _ => None,
    };
    let mut offered: Vec<&Way> = found.iter().filter(|way| of(way).is_some()).collect();
    offered.sort_by_key(of);
    offered.dedup_by_key(|way| of(way));
    for &way in &offered {
        let bake = of(&way).expect("just found");
        assert!(way.intents.iter().all(|(place, _)| *place == bake));
        let after = done(&bakes, way, THREE);
        let other = 1 - bake;
        assert_eq!(after[other].state().wishes, wishes);
        let made = planned(&after, THREE).expect("there is a plan");
        assert!(amiss(&made) <= way.amiss().get() + 1.0);
        // What of the bread isn't for its filling begins no sooner than was wished.
        let Lever::DayBefore { component, .. } = way.lever else {
            panic!("just found")
        };
        let formula = &after[bake].state().formula;
        for planned in made.plan.of(bake).expect("it is planned").steps {
            let step = formula.step(planned.step).expect("of the formula");
            let is_filling = step.component == component && step.kind != StepKind::Fill;
            let is_free = is_filling || step.kind == StepKind::Gather;
            assert!(is_free || planned.start >= seven, "{}", step.title);
        }
    }
    offered.len()
}

/// Two weeks is the farthest that anything can be fixed ahead. A clock that is put back while the app is closed leaves what
/// is wished beyond that, and so the mixing can't be fixed to it.
#[test]
fn what_would_be_refused_when_it_is_pressed_is_not_offered() {
    let mut bakes = begun(TABLES[0]);
    let wishes = Wishes {
        not_before: Some(THREE + hours(14.0 * 24.0) - minutes(5.0)),
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, THREE);
    let is_it = |way: &Way| matches!(way.lever, Lever::DayBefore { .. });
    assert!(ways(&bakes, THREE).iter().any(is_it));
    let put_back = THREE - minutes(10.0);
    for way in ways(&bakes, put_back) {
        assert!(!is_it(&way), "{way:?}");
        done(&bakes, &way, put_back);
    }
}
