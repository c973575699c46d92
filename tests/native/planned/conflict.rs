//! Which wishes contradict each other, and what can be wished instead.
//!
//! Nothing here trusts the search: every set is left without one part after the other and planned,
//! and every suggestion is asked for and planned, as the app would.

use std::sync::OnceLock;

use checks::baker::{Point, points};
use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Asks, Conflict, Nearest, Part, conflict, together};
use domain::units::{Moment, minutes};
use proptest::prelude::*;

use super::asked::{amiss_anyway, are_kept, at_once, go_on, hours, planned, states, wish};
use super::{NINE, TABLES, begun};

fn found(bakes: &[Bake], now: Moment) -> Option<Conflict> {
    at_once(conflict(&states(bakes), now, &go_on))
}

fn soonest(bakes: &[Bake]) -> Moment {
    planned(bakes, NINE)
        .expect("there is a plan")
        .plan
        .end
        .likely()
}

pub(super) fn at_table(table: Moment) -> Wishes {
    Wishes {
        table: Some(table),
        ..Wishes::default()
    }
}

/// Only these parts of what is wished.
fn only(bakes: &[Bake], parts: &[Part], now: Moment) -> Vec<Bake> {
    let mut wishes = Wishes::default();
    for part in parts {
        match *part {
            Part::Away(from, to) => wishes.away.push((from, to)),
            Part::NotBefore(at) => wishes.not_before = Some(at),
            Part::Table(at) => wishes.table = Some(at),
            Part::Bake(_) | Part::Fixed(..) => {}
        }
    }
    let mut left = Vec::new();
    for (place, bake) in bakes.iter().enumerate() {
        if !parts.contains(&Part::Bake(place)) {
            continue;
        }
        let mut bake = bake.clone();
        for (&step, &at) in bake.state().pins.clone().iter() {
            if !parts.contains(&Part::Fixed(place, step, at)) {
                say(&mut bake, Intent::Pin(step, None), now);
            }
        }
        left.push(bake);
    }
    wish(&mut left, &wishes, now);
    left
}

fn take(bakes: &[Bake], nearest: &Nearest, now: Moment) -> Vec<Bake> {
    let mut after = bakes.to_vec();
    match nearest.asks(&together(&states(bakes))) {
        Asks::Wishes(wishes) => wish(&mut after, &wishes, now),
        Asks::Pin(bake, step, at) => say(&mut after[bake], Intent::Pin(step, at), now),
    }
    after
}

/// That a conflict is one, none smaller is in it, and every way out of it leads out.
fn check(bakes: &[Bake], conflict: &Conflict, now: Moment) -> Result<(), TestCaseError> {
    let anyway = amiss_anyway(bakes, now);
    prop_assert!(!are_kept(bakes, anyway, now));
    prop_assert!(
        !are_kept(&only(bakes, &conflict.parts, now), anyway, now),
        "{conflict:?}"
    );
    for place in 0..conflict.parts.len() {
        let mut fewer = conflict.parts.clone();
        fewer.remove(place);
        let left = only(bakes, &fewer, now);
        prop_assert!(
            left.is_empty() || are_kept(&left, anyway, now),
            "{fewer:?} of {conflict:?}"
        );
    }
    for nearest in &conflict.nearest {
        let after = take(bakes, nearest, now);
        prop_assert!(are_kept(&after, anyway, now), "{nearest:?} of {conflict:?}");
        // It asks for no more than it has to: nothing is later, shorter or freer than without its wish.
        if let Nearest::Back { away, at } | Nearest::Leave { away, at } = *nearest {
            prop_assert!(away.0 < at && at < away.1);
        }
    }
    Ok(())
}

#[test]
fn wishes_that_are_kept_contradict_nothing() {
    for ids in &TABLES[..4] {
        let mut bakes = begun(ids);
        assert_eq!(found(&bakes, NINE), None);
        let soonest = soonest(&bakes);
        wish(&mut bakes, &at_table(soonest + minutes(5.0)), NINE);
        assert_eq!(found(&bakes, NINE), None, "{ids:?}");
    }
}

#[test]
fn a_table_that_is_too_soon_contradicts_the_bread_and_may_be_no_later_than_that() {
    for ids in &TABLES[..3] {
        let mut bakes = begun(ids);
        let soonest = soonest(&bakes);
        let table = soonest - minutes(25.0);
        wish(&mut bakes, &at_table(table), NINE);
        let conflict = found(&bakes, NINE).expect("it is too soon");
        assert_eq!(conflict.parts, [Part::Bake(0), Part::Table(table)]);
        let [Nearest::Table { at, safely }] = conflict.nearest[..] else {
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
        conflict.parts,
        [Part::Bake(0), Part::Bake(1), Part::Table(table)]
    );
}

#[test]
fn who_is_away_when_the_bread_needs_hands_may_be_so_for_less_time() {
    let mut bakes = begun(TABLES[0]);
    let table = soonest(&bakes) + minutes(5.0);
    // The first rise ends some two and a half hours after the beginning.
    let away = (NINE + hours(2.0), NINE + hours(4.0));
    let wishes = Wishes {
        away: vec![away, (NINE - hours(3.0), NINE - hours(1.0))],
        ..at_table(table)
    };
    wish(&mut bakes, &wishes, NINE);
    let conflict = found(&bakes, NINE).expect("nobody divides the dough");
    let parts = [
        Part::Bake(0),
        Part::Away(away.0, away.1),
        Part::Table(table),
    ];
    assert_eq!(conflict.parts, parts);
    let mut kinds = conflict.nearest.iter();
    assert!(kinds.any(|way| matches!(way, Nearest::Table { .. })));
    assert!(kinds.any(|way| matches!(way, Nearest::Back { at, .. } if *at < away.1)));
    check(&bakes, &conflict, NINE).expect("it holds");
}

#[test]
fn who_begins_too_late_is_told_the_latest_beginning() {
    let mut bakes = begun(TABLES[0]);
    let length = soonest(&bakes) - NINE;
    let table = NINE + hours(10.0);
    let wishes = Wishes {
        not_before: Some(table - length + minutes(40.0)),
        ..at_table(table)
    };
    wish(&mut bakes, &wishes, NINE);
    let conflict = found(&bakes, NINE).expect("it is too late");
    assert_eq!(conflict.parts.len(), 3);
    let begin = conflict.nearest.iter().find_map(|way| match way {
        Nearest::Begin { at } => Some(*at),
        _ => None,
    });
    let latest = table - length;
    let early = latest - begin.expect("an earlier beginning");
    assert!(early >= minutes(-1.0) && early <= minutes(6.0), "{early:?}");
    check(&bakes, &conflict, NINE).expect("it holds");
}

#[test]
fn a_step_that_is_fixed_too_early_or_too_late_is_told_the_nearest_moment() {
    let mut bakes = begun(TABLES[0]);
    let divide = |bakes: &[Bake]| {
        let mut steps = bakes[0].state().formula.steps.iter();
        let step = steps.find(|step| step.kind == StepKind::Divide);
        step.expect("buns are divided").id
    };
    let step = divide(&bakes);
    let plan = planned(&bakes, NINE).expect("there is a plan").plan;
    let items = plan.of(0).expect("it is planned").steps;
    let start = items
        .iter()
        .find(|item| item.step == step)
        .expect("planned")
        .start;
    say(
        &mut bakes[0],
        Intent::Pin(step, Some(start - minutes(42.0))),
        NINE,
    );
    let conflict = found(&bakes, NINE).expect("the dough hasn't risen");
    assert_eq!(
        conflict.parts,
        [Part::Bake(0), Part::Fixed(0, step, start - minutes(42.0))]
    );
    let [Nearest::Fixed { at: Some(at), .. }] = conflict.nearest[..] else {
        panic!("{:?}", conflict.nearest);
    };
    assert!(
        at >= start - minutes(1.0) && at < start + minutes(5.0),
        "{at:?}"
    );
    check(&bakes, &conflict, NINE).expect("it holds");

    // And too late for a table.
    let table = plan.end.likely() + minutes(30.0);
    wish(&mut bakes, &at_table(table), NINE);
    let late = start + minutes(90.0);
    say(&mut bakes[0], Intent::Pin(step, Some(late)), NINE);
    let conflict = found(&bakes, NINE).expect("it is too late");
    let parts = [
        Part::Bake(0),
        Part::Fixed(0, step, late),
        Part::Table(table),
    ];
    assert_eq!(conflict.parts, parts);
    let at = conflict.nearest.iter().find_map(|way| match way {
        Nearest::Fixed { at, .. } => *at,
        _ => None,
    });
    let at = at.expect("an earlier moment") - start;
    assert!(at <= minutes(31.0) && at >= minutes(20.0), "{at:?}");
    check(&bakes, &conflict, NINE).expect("it holds");
}

/// Points of bakes, made once.
pub(super) fn some_points() -> &'static [Vec<Point>] {
    static POINTS: OnceLock<Vec<Vec<Point>>> = OnceLock::new();
    POINTS.get_or_init(|| {
        let starters = TABLES[..3].iter().map(|ids| starter(ids[0]));
        starters
            .map(|formula| points(formula, Kitchen::UNMEASURED, NINE))
            .collect()
    })
}

#[derive(Debug, Clone)]
pub(super) struct Day {
    /// Which bread goes on, and how far it is; and which others are still to begin.
    goes_on: Option<(usize, usize)>,
    begun: Vec<usize>,
    table: Option<f64>,
    not_before: Option<f64>,
    away: Vec<(f64, f64)>,
    pin: Option<(usize, f64)>,
}

prop_compose! {
    pub(super) fn any_day()(
        goes_on in proptest::option::of((0..3_usize, 1..200_usize)),
        begun in proptest::sample::subsequence(vec![0, 1], 0..=1),
        table in proptest::option::weighted(0.8, -1.0..6.0_f64),
        not_before in proptest::option::weighted(0.4, 0.0..6.0_f64),
        away in proptest::collection::vec((-1.0..8.0_f64, 0.2..3.0_f64), 0..3),
        pin in proptest::option::weighted(0.4, (0..200_usize, -1.0..4.0_f64)),
    ) -> Day {
        Day { goes_on, begun, table, not_before, away, pin }
    }
}

impl Day {
    pub(super) fn bakes(&self) -> (Vec<Bake>, Moment) {
        let mut now = NINE;
        let mut bakes = Vec::new();
        if let Some((which, far)) = self.goes_on {
            let points = &some_points()[which];
            // Short of its end, where nothing is left to be wished.
            let point = &points[far % (points.len() * 4 / 5)];
            now = point.now;
            bakes.push(point.bake.clone());
        }
        for &which in &self.begun {
            bakes.push(begin(starter(TABLES[which][0]), Kitchen::UNMEASURED, now));
        }
        if bakes.is_empty() {
            bakes.push(begin(starter(TABLES[0][0]), Kitchen::UNMEASURED, now));
        }
        let free = planned(&bakes, now).expect("there is a plan").plan;
        let wishes = Wishes {
            table: self.table.map(|later| free.end.likely() + hours(later)),
            not_before: self.not_before.map(|later| now + hours(later)),
            away: self
                .away
                .iter()
                .map(|&(from, long)| (now + hours(from), now + hours(from + long)))
                .collect(),
        };
        wish(&mut bakes, &wishes, now);
        if let Some((place, later)) = self.pin {
            let of = place % bakes.len();
            let steps = free.of(of).map_or(Vec::new(), |outline| outline.steps);
            let hands = steps.iter().filter(|item| is_hands(&bakes[of], item.step));
            let hands: Vec<_> = hands.collect();
            if !hands.is_empty() {
                let item = hands[place % hands.len()];
                let at = item.start + hours(later);
                say(&mut bakes[of], Intent::Pin(item.step, Some(at)), now);
            }
        }
        (bakes, now)
    }
}

fn is_hands(bake: &Bake, step: StepId) -> bool {
    let step = bake.state().formula.step(step);
    step.is_some_and(domain::formula::Step::is_hands)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn every_conflict_is_irreducible_and_every_suggestion_leads_to_a_plan_that_keeps_all(day in any_day()) {
        let (bakes, now) = day.bakes();
        match found(&bakes, now) {
            Some(conflict) => check(&bakes, &conflict, now)?,
            None => prop_assert!(are_kept(&bakes, amiss_anyway(&bakes, now), now)),
        }
    }
}
