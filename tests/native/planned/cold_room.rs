//! Room in the fridge: taken from when something is put in until it is used, also between two steps.

use checks::{begin, say, starter, up_to};
use domain::bake::{Bake, Intent, State};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Claim, Goal, Plan, What, plan};
use domain::units::{Moment, minutes};

use super::asked::{at_table, wish};
use super::conflict::found;
use super::keeps::check;
use super::{NINE, bounds};

/// So many batches of buns, whose cream waits in the fridge until they are filled, and room for so many bowls.
fn batches(count: usize, room: u32) -> Vec<Bake> {
    let kitchen = Kitchen {
        fridge_holds: room,
        ..Kitchen::UNMEASURED
    };
    let buns = || begin(starter("plum-almond-buns"), kitchen, NINE);
    (0..count).map(|_| buns()).collect()
}

fn planned(bakes: &[Bake], now: Moment) -> Plan {
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let plan = plan(&states, bounds(Goal::Soonest, &[]), now, None, &mut || true);
    let plan = plan.expect("there is a plan");
    assert_eq!(check(&states, &plan, now, &[]), Ok(()));
    plan
}

/// The first step of a bake that has room in the fridge, and the one that fills the buns.
fn cold_and_fill(bake: &Bake) -> (StepId, StepId) {
    let steps = &bake.state().formula.steps;
    let cold = steps.iter().find(|step| step.needs.fridge);
    let fill = steps.iter().find(|step| step.kind == StepKind::Fill);
    (cold.expect("cream").id, fill.expect("buns").id)
}

#[test]
fn one_bowl_of_cream_waits_for_the_room_of_another() {
    let roomy = batches(2, 2);
    let narrow = batches(2, 1);
    let (cold, fill) = cold_and_fill(&roomy[0]);
    let both_there = |plan: &Plan| {
        let from = [0, 1].map(|bake| plan.item(What::Step(bake, cold)).expect("cream").start);
        let to = [0, 1].map(|bake| plan.item(What::Step(bake, fill)).expect("buns").start);
        from[0] < to[1] && from[1] < to[0]
    };
    let (with_room, without) = (planned(&roomy, NINE), planned(&narrow, NINE));
    assert!(both_there(&with_room));
    assert!(!both_there(&without));
    assert!(with_room.end.likely() < without.end.likely());
    let states: Vec<&State> = narrow.iter().map(Bake::state).collect();
    assert_eq!(without.fridge_full(&states), None);
    // Backwards from a table it takes no less room.
    let table = NINE + minutes(24.0 * 60.0);
    let late = plan(
        &states,
        bounds(Goal::By(table), &[]),
        NINE,
        None,
        &mut || true,
    );
    let late = late.expect("a day is enough");
    assert_eq!(check(&states, &late, NINE, &[]), Ok(()));
    assert!(!both_there(&late));
}

#[test]
fn what_stands_in_the_fridge_is_told_until_it_is_used() {
    let mut bakes = batches(1, 1);
    let (cold, fill) = cold_and_fill(&bakes[0]);
    let before = planned(&bakes, NINE);
    let kept = |plan: &Plan| *plan.item(What::Kept(0, cold)).expect("it waits");
    let start_of_fill = |plan: &Plan| plan.item(What::Step(0, fill)).expect("buns").start;
    let item = kept(&before);
    assert_eq!(item.end, start_of_fill(&before));
    assert_eq!(
        item.start,
        before.item(What::Step(0, cold)).expect("cream").end
    );
    // Up to where the cream is in, and half an hour on.
    for step in bakes[0].state().formula.steps.clone() {
        let ends = before.item(What::Step(0, step.id)).expect("planned").end;
        if ends <= item.start {
            say(&mut bakes[0], Intent::Done(step.id), ends);
        }
    }
    let now = item.start + minutes(30.0);
    let after = planned(&bakes, now);
    assert_eq!(kept(&after).start, item.start);
    assert_eq!(kept(&after).end, start_of_fill(&after));
}

#[test]
fn a_fridge_that_is_too_small_for_a_table_is_named_with_when_it_is_full() {
    let ends = planned(&batches(2, 2), NINE).end.likely();
    let table = ends + minutes(5.0);
    let mut roomy = batches(2, 2);
    wish(&mut roomy, &at_table(table), NINE);
    assert_eq!(found(&roomy, NINE), None);
    let mut narrow = batches(2, 1);
    wish(&mut narrow, &at_table(table), NINE);
    let conflict = found(&narrow, NINE).expect("one bowl too many");
    let full = conflict.claims.iter().find_map(|claim| match *claim {
        Claim::Fridge(full) => full,
        _ => None,
    });
    let (from, to) = full.expect("it is the fridge");
    assert!(NINE < from && from < to && to < table);
    assert!(conflict.claims.contains(&Claim::Table(table)));
    assert!(!conflict.nearest.is_empty());
}

/// Two bowls in a fridge that has room for one were put there by somebody who saw it; that a third one finds none is told
/// from when it is to be put in.
#[test]
fn a_fridge_is_never_told_to_have_been_full_before_now() {
    for count in [2, 3] {
        let roomy = batches(count, 3);
        let (cold, _) = cold_and_fill(&roomy[0]);
        let before = planned(&roomy, NINE);
        let mut bakes = batches(count, 1);
        let cream = |bake| *before.item(What::Step(bake, cold)).expect("cream");
        let both_in = cream(0).end.max(cream(1).end);
        let mut ended: Vec<_> = before.items.iter().collect();
        ended.retain(|item| item.end <= both_in);
        ended.sort_by_key(|item| item.end);
        for item in ended {
            if let What::Step(bake, step) = item.what
                && (bake < 2 || step != cold)
            {
                say(&mut bakes[bake], Intent::Done(step), item.end);
            }
        }
        let now = both_in + minutes(15.0);
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let plan = plan(&states, bounds(Goal::Soonest, &[]), now, None, &mut || true);
        let plan = plan.expect("there is a plan");
        let full = plan.fridge_full(&states);
        assert!(full.is_none_or(|(from, _)| from >= now), "{full:?} {now:?}");
        assert!(count > 2 || full.is_none(), "{full:?}");
    }
}

#[test]
fn what_can_only_stand_in_a_full_fridge_is_planned_and_told() {
    let mut bakes = batches(1, 1);
    let (cold, _) = cold_and_fill(&bakes[0]);
    let before = planned(&bakes, NINE);
    let kept = before.item(What::Kept(0, cold)).expect("it waits");
    let rise = bakes[0].state().formula.steps.iter();
    let rise = rise
        .clone()
        .find(|step| step.kind == StepKind::Bulk)
        .expect("a rise")
        .id;
    let mut now = NINE;
    for step in bakes[0].state().formula.steps.clone() {
        let ends = before.item(What::Step(0, step.id)).expect("planned").end;
        if ends <= kept.start {
            now = now.max(ends);
            say(&mut bakes[0], Intent::Done(step.id), ends);
        }
    }
    // The cream waits for the dough, and the dough is to stand where the cream does.
    let stay = (now + minutes(10.0), now + minutes(200.0));
    say(&mut bakes[0], Intent::PlanRetard(rise, Some(stay)), now);
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let plan = plan(&states, bounds(Goal::Soonest, &[]), now, None, &mut || true);
    let plan = plan.expect("there is a plan all the same");
    let (from, to) = plan.fridge_full(&states).expect("there is room for one");
    assert!(now <= from && from < to);
}

/// Two doughs that stand in a fridge for one were put there by somebody who saw it.
#[test]
fn what_stands_in_a_full_fridge_already_is_told_to_nobody() {
    let kitchen = Kitchen {
        fridge_holds: 1,
        ..Kitchen::UNMEASURED
    };
    let mut now = NINE;
    let mut bakes: Vec<Bake> = Vec::new();
    for _ in 0..2 {
        let mut loaf = begin(starter("overnight-tin-loaf"), kitchen, NINE);
        (_, now) = up_to(&mut loaf, StepKind::Retard, NINE, |_| minutes(5.0));
        bakes.push(loaf);
    }
    now = now + minutes(60.0);
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let plan = plan(&states, bounds(Goal::Soonest, &[]), now, None, &mut || true);
    let plan = plan.expect("there is a plan");
    let stand = plan.items.iter().filter(|item| {
        let of = item
            .what
            .of()
            .and_then(|(bake, step)| states[bake].formula.step(step));
        of.is_some_and(|step| step.kind == StepKind::Retard) && item.start < now && item.end > now
    });
    assert_eq!(stand.count(), 2);
    assert_eq!(plan.fridge_full(&states), None);
}
