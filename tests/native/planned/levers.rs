//! Ways to a table other than wishing otherwise: each is done, and what comes of it is what was said.

mod day_before;
mod fridge;
mod places;
mod slower;
mod yeast;

use checks::say;
use domain::bake::{Bake, Intent, PERISHABLE_LIMIT, Wishes};
use domain::formula::{Length, StepId, StepKind};
use domain::schedule::plan::{Way, What, levers};
use domain::units::{Minutes, Moment, minutes};
use proptest::prelude::*;

use super::asked::{
    amiss_anyway, amiss_beside, any_wishes, at_once, at_table, go_on, hours, planned, some_points,
    wish,
};
use super::redone::days;
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
    for (place, bake) in after.iter_mut().enumerate() {
        let asked = way.intents.iter().filter(|(of, _)| *of == place);
        let asked = asked.map(|(_, intent)| intent.clone()).collect();
        say(bake, Intent::AtOnce(asked), now);
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

pub(super) fn step_of(bake: &Bake, kind: StepKind) -> StepId {
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

fn rise_end(bakes: &[Bake], step: StepId, now: Moment) -> Moment {
    let free = planned(bakes, now).expect("there is a plan").plan;
    let steps = free.of(0).expect("it is planned").steps;
    let mut steps = steps.iter();
    steps.find(|item| item.step == step).expect("it rises").end
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
                    other => other.is_in_passing(),
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

/// Yeast makes up for more than half of three hours, and nothing for half of five: then what helps a little is told.
#[test]
fn what_helps_a_little_is_told_only_where_nothing_helps_more() {
    let mut bakes = begun(TABLES[0]);
    let soonest = end(&bakes, NINE);
    wish(&mut bakes, &at_table(soonest - hours(3.0)), NINE);
    let few = ways(&bakes, NINE);
    assert!(
        !few.is_empty()
            && few
                .iter()
                .all(|way| !way.is_little && way.late() <= hours(1.5))
    );

    wish(&mut bakes, &at_table(soonest - hours(5.0)), NINE);
    let many = ways(&bakes, NINE);
    assert!(many.len() > few.len());
    assert!(
        many.iter()
            .all(|way| way.is_little && way.late() > hours(2.5))
    );
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
            let stay = bakes[place].state().stay(proof.step, proof.start);
            let cold = stay.map_or(minutes(0.0), |stay| {
                (stay.to.min(proof.end) - stay.from).max(minutes(0.0))
            });
            longest = longest.max((bake.start - fill.start) + proof.slack.1 - cold);
        }
    }
    longest
}

proptest! {
    #![proptest_config(days(32))]

    #[test]
    fn whatever_can_be_done_at_once_leads_to_its_table_and_leaves_no_filling_out(asked in any_wishes()) {
        let (bakes, now) = asked.bakes();
        let anyway = amiss_anyway(&bakes, now);
        let amiss = |bakes: &[Bake]| {
            let found = planned(bakes, now).expect("there is a plan");
            (amiss_beside(&found, anyway), found.plan.end)
        };
        let (was, _) = amiss(&bakes);
        let tables = planned(&bakes, now).expect("there is a plan").margins;
        let found = ways(&bakes, now);
        // What leaves most of it is told only where everything does.
        prop_assert!(found.iter().all(|way| way.is_little) || found.iter().all(|way| !way.is_little));
        for way in found {
            let is = way.amiss().get();
            prop_assert!(is < was.max(0.5));
            let half = was / 2.0;
            // Nor is it little to make up for half of one table.
            let tables = tables.iter().zip(&way.margins).map(|(was, is)| (was.late().get() / 2.0, is.late().get()));
            let halves = tables.clone().any(|(half, is)| half > 0.5 && is <= half);
            let is_near = (is - half).abs() < 0.5 || tables.clone().any(|(half, is)| (is - half).abs() < 0.5);
            prop_assert!(is_near || way.is_little == (is > half && !halves), "{is} of {was}");
            if way.intents.is_empty() {
                continue;
            }
            let after = done(&bakes, &way, now);
            let (left, end) = amiss(&after);
            let off = end.high() - way.table.high();
            prop_assert!(end.likely() == way.table.likely() && off.get().abs() < 0.1);
            prop_assert!((left - is).abs() < 0.5, "{left} {is}");
            let (is, was) = (longest_out(&after, now), longest_out(&bakes, now));
            prop_assert!(is <= PERISHABLE_LIMIT.max(was + minutes(1.0)), "{:?}: {:?}", way.lever, is);
        }
    }
}
