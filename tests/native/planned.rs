//! The plan of one or several bakes, held against the formulas themselves: what the solver was told
//! is not asked here.

mod again;
mod agenda;
mod asked;
mod at_once;
mod before_away;
mod beside;
mod causes;
mod cold_room;
mod conflict;
mod days;
mod early;
mod evenings;
mod far;
mod fetched;
mod fixed;
mod hinders;
mod hob;
mod in_fridge;
mod in_the_oven;
mod in_use;
pub(crate) mod keeps;
mod kept;
mod levers;
mod longer;
mod many_breads;
mod nights;
mod order;
mod oven_order;
mod own_ends;
mod reach;
mod recalled;
mod redone;
mod reheated;
mod retard;
mod retard_asked;
mod several;
mod shared_oven;
mod spoils;
mod stays;
mod tables;
mod taken_back;
mod timetable;
mod together;
mod unproven;
mod waited_for;
mod which_first;

use checks::{begin, starter};
use domain::bake::{Bake, State};
use domain::formula::{Length, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::outline;
use domain::schedule::plan::{Bounds, Goal, Item, Plan, Proven, What, plan};
use domain::units::{Minutes, Moment, minutes};
use keeps::check;

const NINE: Moment = Moment::from_epoch_ms(1_789_894_800_000);

const TABLES: [&[&str]; 6] = [
    &["plum-almond-buns"],
    &["orange-braid"],
    &["overnight-tin-loaf"],
    &["plum-almond-buns", "orange-braid"],
    &["plum-almond-buns", "overnight-tin-loaf"],
    &["plum-almond-buns", "orange-braid", "overnight-tin-loaf"],
];

fn begun(ids: &[&str]) -> Vec<Bake> {
    let bake = |id: &&str| begin(starter(id), Kitchen::UNMEASURED, NINE);
    ids.iter().map(bake).collect()
}

fn planned(bakes: &[Bake], goal: Goal, closed: &[(Moment, Moment)], before: Option<&Plan>) -> Plan {
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let plan = plan(&states, bounds(goal, closed), NINE, before, &mut || true);
    let plan = plan.expect("there is a plan");
    assert_eq!(check(&states, &plan, NINE, closed), Ok(()));
    assert_eq!(plan.proven, Proven::Soonest);
    plan
}

fn bounds(goal: Goal, closed: &[(Moment, Moment)]) -> Bounds<'_> {
    Bounds {
        goal,
        closed,
        pins: true,
        ..Bounds::default()
    }
}

fn length(plan: &Plan) -> Minutes {
    let first = plan.items.iter().find(|item| item.what != What::Away);
    plan.end.likely() - first.expect("something is planned").start
}

#[test]
fn one_bread_is_on_the_table_no_later_than_by_working_through_it() {
    for ids in &TABLES[..3] {
        let bakes = begun(ids);
        let plan = planned(&bakes, Goal::Soonest, &[], None);
        // Each of its steps is rounded to whole minutes.
        let in_order = outline(bakes[0].state(), NINE).table.likely() + minutes(3.0);
        assert!(plan.end.likely() <= in_order, "{ids:?}");
    }
}

#[test]
fn two_breads_together_take_less_than_one_after_the_other() {
    let alone = |id| length(&planned(&begun(&[id]), Goal::Soonest, &[], None));
    let (buns, braid) = (alone("plum-almond-buns"), alone("orange-braid"));
    let both = length(&planned(&begun(TABLES[3]), Goal::Soonest, &[], None));
    assert!(both >= buns.max(braid));
    // They share one oven and one pair of hands: the second waits for no more than the first's oven, 20 min to heat and
    // 32 at most to bake.
    assert!(both <= buns.max(braid) + minutes(52.0), "{both:?}");
}

#[test]
fn backwards_from_a_table_takes_as_long_as_forwards_to_it() {
    for ids in TABLES {
        let bakes = begun(ids);
        let forwards = planned(&bakes, Goal::Soonest, &[], None);
        let table = NINE + minutes(36.0 * 60.0);
        let backwards = planned(&bakes, Goal::By(table), &[], None);
        assert!(backwards.end.likely() <= table);
        let (there, back) = (length(&forwards), length(&backwards));
        assert!(
            (there.get() - back.get()).abs() <= 1.0,
            "{ids:?}: {there:?}, {back:?}"
        );
    }
}

#[test]
fn a_table_that_is_too_soon_has_no_plan() {
    let bakes = begun(TABLES[0]);
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let forwards = planned(&bakes, Goal::Soonest, &[], None);
    let at = |table| {
        plan(
            &states,
            bounds(Goal::By(table), &[]),
            NINE,
            None,
            &mut || true,
        )
    };
    assert!(at(forwards.end.likely()).is_some());
    assert!(at(forwards.end.likely() - minutes(1.0)).is_none());
}

#[test]
fn a_plan_redone_with_no_news_stays() {
    let lunch = [(NINE + minutes(120.0), NINE + minutes(180.0))];
    for ids in TABLES {
        let bakes = begun(ids);
        for closed in [&[][..], &lunch] {
            for goal in [Goal::Soonest, Goal::By(NINE + minutes(36.0 * 60.0))] {
                let plan = planned(&bakes, goal, closed, None);
                let again = planned(&bakes, goal, closed, Some(&plan));
                let times = |plan: &Plan| -> Vec<(What, Moment, Moment)> {
                    let items = plan.items.iter();
                    items
                        .map(|item| (item.what, item.start, item.end))
                        .collect()
                };
                assert_eq!(times(&plan), times(&again), "{ids:?} {goal:?} {closed:?}");
            }
        }
    }
}

/// Whoever is away can always begin after that.
#[test]
fn an_hour_in_which_nobody_is_there_costs_no_more_than_beginning_after_it() {
    for ids in &TABLES[..4] {
        let bakes = begun(ids);
        let free = planned(&bakes, Goal::Soonest, &[], None);
        for hour in 0..8 {
            let from = NINE + minutes(60.0 * f64::from(hour));
            let to = from + minutes(60.0);
            let plan = planned(&bakes, Goal::Soonest, &[(from, to)], None);
            assert!(plan.end.likely() >= free.end.likely());
            assert!(
                plan.end.likely() <= free.end.likely() + (to - NINE),
                "{ids:?}, hour {hour}"
            );
        }
    }
}

#[test]
fn whoever_is_away_after_the_last_step_changes_nothing() {
    let bakes = begun(TABLES[0]);
    let free = planned(&bakes, Goal::Soonest, &[], None);
    let end = free.end.likely();
    let away = [(end, end + minutes(300.0))];
    let plan = planned(&bakes, Goal::Soonest, &away, None);
    assert_eq!(plan.end, free.end);
    assert_eq!(plan.critical(), free.critical());
}

#[test]
fn the_end_hangs_on_a_chain_without_a_gap() {
    for ids in TABLES {
        let plan = planned(&begun(ids), Goal::Soonest, &[], None);
        let critical = plan.critical();
        assert_eq!(plan.items[critical[0]].start, NINE, "{ids:?}");
        let last = plan.items[*critical.last().expect("there is one")];
        assert_eq!(last.end, plan.end.likely());
        assert!(plan.end.low() < last.end && last.end < plan.end.high());
    }
}

/// Of two breads in one oven the second finds it hot: heating from the first one's temperature takes
/// as much of the time from the kitchen's as there are kelvins left of it, and at least the five minutes
/// in which an oven gets over its open door (common practice, no source).
#[test]
fn an_oven_is_hot_from_the_bread_before() {
    let mut followed = 0;
    for ids in &TABLES[3..5] {
        let bakes = begun(ids);
        let plan = planned(&bakes, Goal::Soonest, &[], None);
        let oven = |bake: usize| {
            let steps = &bakes[bake].state().formula.steps;
            let find = |kind| {
                steps
                    .iter()
                    .find(|step| step.kind == kind)
                    .expect("it bakes")
            };
            let item = |kind| {
                let what = What::Step(bake, find(kind).id);
                *plan
                    .items
                    .iter()
                    .find(|item| item.what == what)
                    .expect("planned")
            };
            let Length::OvenHeats { oven } = find(StepKind::OvenHeats).length else {
                panic!("an oven heats to a temperature");
            };
            (item(StepKind::OvenHeats), item(StepKind::Bake), oven)
        };
        let (one, other) = (oven(0), oven(1));
        let (first, second) = if one.1.start < other.1.start {
            (one, other)
        } else {
            (other, one)
        };
        let length = |item: Item| (item.end - item.start).get();
        let cold = Kitchen::UNMEASURED.oven_heats_in.get();
        assert!((length(first.0) - cold).abs() <= 1.0, "{ids:?}");
        let gap = second.0.start - first.1.end;
        assert!(gap > minutes(-1.0), "{ids:?}: {gap:?}");
        // Nobody leaves it on for longer.
        if gap > minutes(30.0) {
            assert!((length(second.0) - cold).abs() <= 1.0, "{ids:?}");
            continue;
        }
        followed += 1;
        let (from, to, air) = (first.2, second.2, Kitchen::UNMEASURED.air);
        let expected = if to >= from {
            (cold * (to - from).get() / (to - air).get()).max(5.0)
        } else {
            ((from - to).get() / 5.0).max(5.0)
        };
        assert!(
            (length(second.0) - expected).abs() <= 1.0,
            "{ids:?}: {}",
            length(second.0)
        );
    }
    assert!(followed > 0, "no two of them follow each other");
}
