//! Ways to a table other than wishing otherwise: each is done, and what comes of it is what was said.

use checks::say;
use domain::bake::{Bake, Intent, PERISHABLE_LIMIT, Wishes};
use domain::formula::{Length, StepId, StepKind};
use domain::kitchen::Place;
use domain::schedule::plan::{Lever, Way, What, levers};
use domain::units::{Minutes, Moment, celsius, minutes};
use proptest::prelude::*;

use super::asked::{amiss, amiss_anyway, at_once, go_on, hours, planned, wish};
use super::conflict::{any_day, at_table, some_points};
use super::{NINE, TABLES, begun};

/// Three in the afternoon, and a night after that.
const THREE: Moment = Moment::from_epoch_ms(NINE.epoch_ms() + 6 * 3_600_000);

fn night() -> (Moment, Moment) {
    (NINE + hours(14.0), NINE + hours(21.5))
}

fn tomorrow(hour: f64) -> Wishes {
    Wishes {
        away: vec![night()],
        ..at_table(NINE + hours(15.0 + hour))
    }
}

fn ways(bakes: &[Bake], now: Moment) -> Vec<Way> {
    let bakes: Vec<&Bake> = bakes.iter().collect();
    at_once(levers(&bakes, now, &go_on)).expect("nobody left it off")
}

fn done(bakes: &[Bake], way: &Way, now: Moment) -> Vec<Bake> {
    let mut after = bakes.to_vec();
    for (bake, intent) in &way.intents {
        say(&mut after[*bake], intent.clone(), now);
    }
    after
}

fn end(bakes: &[Bake], now: Moment) -> Moment {
    planned(bakes, now)
        .expect("there is a plan")
        .plan
        .end
        .likely()
}

fn step_of(bake: &Bake, kind: StepKind) -> StepId {
    let mut steps = bake.state().formula.steps.iter().rev();
    steps.find(|step| step.kind == kind).expect("it has one").id
}

/// Buns, or another bread, where a rise has just begun.
fn rising(which: usize, kind: StepKind) -> (Vec<Bake>, Moment) {
    let begun = |bake: &Bake| {
        let step = bake.state().progress(step_of(bake, kind));
        step.open_since.is_some() && step.ended.is_none()
    };
    let mut points = some_points()[which].iter();
    let point = points.find(|point| begun(&point.bake)).expect("it rises");
    (vec![point.bake.clone()], point.now)
}

/// Does what is planned until a moment, each step when it is planned to end.
fn work(bakes: &mut [Bake], mut now: Moment, until: Moment) {
    loop {
        let plan = planned(bakes, now).expect("there is a plan").plan;
        let mut next = plan.items.iter().filter_map(|item| match item.what {
            What::Step(bake, step) if item.end <= until => Some((item.end, bake, step)),
            _ => None,
        });
        let Some(first) = next.next() else { return };
        let (at, bake, step) = next.fold(
            first,
            |one, other| if other.0 < one.0 { other } else { one },
        );
        now = at.max(now);
        say(&mut bakes[bake], Intent::Done(step), now);
    }
}

#[test]
fn a_rise_that_goes_on_is_sooner_ready_somewhere_warm() {
    let (mut bakes, now) = rising(0, StepKind::Bulk);
    let table = end(&bakes, now) - minutes(10.0);
    wish(&mut bakes, &at_table(table), now);
    let step = step_of(&bakes[0], StepKind::Bulk);
    let found = ways(&bakes, now);
    let way = found
        .iter()
        .find(|way| matches!(way.lever, Lever::Place { step: of, from: None, .. } if of == step));
    let way = way.expect("28 degrees are 7 more");
    let warm = Place::Warm(celsius(28.0));
    assert_eq!(way.intents, [(0, Intent::Move(step, warm))]);
    assert!(way.late < minutes(1.0));
    assert_eq!(end(&done(&bakes, way, now), now), way.table.likely());
    // The buns of later rises are warmed when they rise.
    let later = found
        .iter()
        .any(|way| matches!(way.lever, Lever::Place { from: Some(_), .. }));
    assert!(
        later
            && found
                .iter()
                .all(|way| !matches!(way.lever, Lever::Yeast { .. }))
    );
}

#[test]
fn more_yeast_makes_a_table_that_is_too_soon_and_no_more_of_it_than_does() {
    let mut bakes = begun(TABLES[1]);
    let usual = end(&bakes, NINE);
    for (sooner, least, most) in [(20.0, 1.0, 1.3), (60.0, 1.3, 2.1)] {
        wish(&mut bakes, &at_table(usual - minutes(sooner)), NINE);
        let found = ways(&bakes, NINE);
        let way = found
            .iter()
            .find(|way| matches!(way.lever, Lever::Yeast { .. }));
        let way = way.expect("it is looked for");
        let Lever::Yeast { times, .. } = way.lever else {
            panic!("just found")
        };
        assert!(times > least && times < most, "{sooner}: {times}");
        assert!(way.late < minutes(1.0));
        let after = done(&bakes, way, NINE);
        assert_eq!(end(&after, NINE), way.table.likely());
        let yeast = |bake: &Bake| bake.state().formula.fresh_yeast().get();
        assert!(yeast(&after[0]) > yeast(&bakes[0]));
    }
    // Once something was begun it is in the dough.
    let (mut bakes, now) = rising(1, StepKind::Bulk);
    wish(
        &mut bakes,
        &at_table(end(&begun(TABLES[1]), NINE) - hours(1.0)),
        now,
    );
    let found = ways(&bakes, now);
    assert!(
        found
            .iter()
            .all(|way| !matches!(way.lever, Lever::Yeast { .. }))
    );
}

#[test]
fn nobody_works_in_the_night_for_a_breakfast() {
    for ids in TABLES {
        for hour in [9.0, 11.0, 13.0] {
            let mut bakes = begun(ids);
            wish(&mut bakes, &tomorrow(hour), THREE);
            let plan = planned(&bakes, THREE).expect("there is a plan").plan;
            for item in &plan.items {
                let hands = match item.what {
                    What::Step(bake, step) => {
                        let step = bakes[bake].state().formula.step(step);
                        step.is_some_and(domain::formula::Step::is_hands)
                    }
                    What::Fold(..) => true,
                    What::Away => false,
                };
                let (from, to) = night();
                assert!(
                    !hands || item.end <= from || item.start >= to,
                    "{ids:?}, {hour}: {item:?}"
                );
            }
        }
    }
}

/// The first rise in the fridge overnight: what is advised is done, hour by hour, and the table comes of it.
#[test]
fn a_night_in_the_fridge_brings_buns_to_the_table_when_they_are_wanted() {
    // In a cool kitchen buns whose dough comes out of the fridge would rise too long with their cream in.
    for (which, air, hour) in [(0, 25.0, 11.5), (1, 21.0, 12.5)] {
        let mut bakes = begun(TABLES[which]);
        say(&mut bakes[0], Intent::KitchenIs(celsius(air)), THREE);
        wish(&mut bakes, &tomorrow(hour), THREE);
        let rise = step_of(&bakes[0], StepKind::Bulk);
        let found = ways(&bakes, THREE);
        let way = found
            .iter()
            .find(|way| matches!(way.lever, Lever::Fridge { step, .. } if step == rise));
        let way = way.expect("it has all night");
        let Lever::Fridge {
            from: Some(from),
            out,
            begin: Some(begin),
            ..
        } = way.lever
        else {
            panic!("{:?}", way.lever)
        };
        let (asleep, awake) = night();
        assert!(
            begin >= THREE && from > begin && from <= asleep && out >= awake,
            "{way:?}"
        );
        assert!(way.late < minutes(1.0) && way.early < hours(1.0));
        let mut bakes = done(&bakes, way, THREE);
        assert_eq!(
            planned(&bakes, THREE).expect("there is a plan").begins,
            [Some(begin)]
        );
        work(&mut bakes, THREE, from);
        say(&mut bakes[0], Intent::Move(rise, Place::Fridge), from);
        work(&mut bakes, from, asleep);
        say(&mut bakes[0], Intent::Move(rise, Place::Kitchen), out);
        let off = end(&bakes, out) - way.table.likely();
        // Cold dough is taken to be as cold as the fridge for what rises after it.
        assert!(off.get().abs() <= 15.0, "{which}: {off:?}");
    }
}

fn rise_end(bakes: &[Bake], step: StepId, now: Moment) -> Moment {
    let free = planned(bakes, now).expect("there is a plan").plan;
    let steps = free.of(0).expect("it is planned").steps;
    let mut steps = steps.iter();
    steps.find(|item| item.step == step).expect("it rises").end
}

#[test]
fn whoever_is_away_when_a_rise_ends_slows_it() {
    let (mut bakes, now) = rising(1, StepKind::Bulk);
    let step = step_of(&bakes[0], StepKind::Bulk);
    let ready = rise_end(&bakes, step, now);
    let wishes = Wishes {
        away: vec![(ready - minutes(20.0), ready + minutes(70.0))],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, now);
    assert!(amiss(&planned(&bakes, now).expect("there is a plan")) > 30.0);
    let found = ways(&bakes, now);

    let cool = found
        .iter()
        .find(|way| matches!(way.lever, Lever::Place { from: None, .. }));
    let cool = cool.expect("16 degrees are 5 fewer");
    assert_eq!(
        cool.intents,
        [(0, Intent::Move(step, Place::Warm(celsius(16.0))))]
    );
    assert_eq!(end(&done(&bakes, cool, now), now), cool.table.likely());

    let fridge = found
        .iter()
        .find(|way| matches!(way.lever, Lever::Fridge { from: None, .. }));
    let fridge = fridge.expect("an hour or two in the fridge");
    assert!(fridge.late < minutes(1.0), "{:?}", fridge.lever);
    let Lever::Fridge { out, .. } = fridge.lever else {
        panic!("just found")
    };
    let mut after = done(&bakes, fridge, now);
    // The almonds are toasted meanwhile.
    work(&mut after, now, wishes.away[0].0);
    say(&mut after[0], Intent::Move(step, Place::Kitchen), out);
    let off = end(&after, out) - fridge.table.likely();
    assert!(off.get().abs() <= 3.0, "{off:?}");
}

/// The two-hour rule: by the late end of its rise, a filled bun bears no stay in the fridge and no cool room.
#[test]
fn no_filled_dough_is_slowed_for_whoever_is_away() {
    let (mut bakes, now) = rising(0, StepKind::FinalProof);
    let proof = step_of(&bakes[0], StepKind::FinalProof);
    let ready = rise_end(&bakes, proof, now);
    let wishes = Wishes {
        away: vec![(ready - minutes(20.0), ready + minutes(90.0))],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, now);
    assert!(amiss(&planned(&bakes, now).expect("there is a plan")) > 30.0);
    for way in ways(&bakes, now) {
        let slows = match way.lever {
            Lever::Place { step, air, .. } => step == proof && air < celsius(21.0),
            Lever::Fridge { step, .. } => step == proof,
            _ => false,
        };
        assert!(!slows, "{:?}", way.lever);
    }
}

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
    for planned in found.plan.of(0).expect("it is planned").steps {
        let step = formula.step(planned.step).expect("of the formula");
        let is_before = step.component == component && step.kind != StepKind::Fill;
        let is_free = is_before || step.kind == StepKind::Gather;
        assert!(is_free || planned.start >= seven, "{}", step.title);
    }
}

/// How long what was filled stands out by the late end of each of its rises, read off a plan.
fn longest_out(bakes: &[Bake], now: Moment) -> Minutes {
    let plan = planned(bakes, now).expect("there is a plan").plan;
    let mut longest = minutes(0.0);
    for (place, bake) in bakes.iter().enumerate() {
        let formula = &bake.state().formula;
        let steps = plan.of(place).map_or(Vec::new(), |outline| outline.steps);
        let of = |kind: StepKind| {
            let mut steps = steps.iter();
            steps.find(|one| formula.step(one.step).is_some_and(|step| step.kind == kind))
        };
        let fills = formula.steps.iter().any(|step| step.kind == StepKind::Fill);
        if let (true, Some(fill), Some(bake)) = (fills, of(StepKind::Fill), of(StepKind::Bake)) {
            let proof = of(StepKind::FinalProof).expect("it follows");
            let is_rise = formula.step(proof.step).map(|step| &step.length);
            assert!(matches!(is_rise, Some(Length::Ferment { .. })));
            longest = longest.max((bake.start - fill.start) + proof.slack.1);
        }
    }
    longest
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn whatever_can_be_done_at_once_leads_to_its_table_and_leaves_no_filling_out(day in any_day()) {
        let (bakes, now) = day.bakes();
        let anyway = amiss_anyway(&bakes, now);
        let was = amiss(&planned(&bakes, now).expect("there is a plan"));
        for way in ways(&bakes, now) {
            prop_assert!(way.late.get() < was.max(0.5));
            // What comes out of the fridge again is planned with that, which no intent says.
            if way.intents.is_empty() || matches!(way.lever, Lever::Fridge { .. }) {
                continue;
            }
            let after = done(&bakes, &way, now);
            let found = planned(&after, now).expect("there is a plan");
            let off = found.plan.end.high() - way.table.high();
            prop_assert!(found.plan.end.likely() == way.table.likely() && off.get().abs() < 0.1);
            prop_assert!((amiss(&found) - anyway - way.late.get()).abs() < 0.5 || amiss(&found) <= anyway);
            let (is, was) = (longest_out(&after, now), longest_out(&bakes, now));
            prop_assert!(is <= PERISHABLE_LIMIT.max(was + minutes(1.0)), "{:?}: {:?}", way.lever, is);
        }
    }
}
