//! The two hours are kept where few minutes are left of them, or none.

use domain::bake::{Bake, PERISHABLE_LIMIT, State};
use domain::formula::{Length, StepKind};
use domain::schedule::plan::{Goal, What, plan};
use domain::units::minutes;

use super::{NOW, bounds, check, out, planned, there_at};

/// Buns that could be filled now, beside a braid that has the oven first, for it is ripe sooner: filled at once, they would
/// wait for it.
#[test]
fn buns_are_filled_so_late_that_the_oven_is_free_in_time() {
    let (mut left, mut is_put_off) = (Vec::new(), false);
    for waited in 24..=29 {
        let waited = f64::from(waited);
        let buns = there_at("plum-almond-buns", StepKind::Fill, waited, 22.0, NOW);
        let alone = std::slice::from_ref(&buns);
        let alone = minutes(waited) + out(&planned(alone, NOW), alone, 0);
        left.push((PERISHABLE_LIMIT - alone).get());
        for proofed in [10.0, 20.0] {
            let since = NOW - minutes(proofed);
            let braid = there_at("orange-braid", StepKind::FinalProof, 5.0, 22.0, since);
            let both = [buns.clone(), braid];
            let plan = planned(&both, NOW);
            let start = |bake: usize, kind| {
                let mut steps = both[bake].state().formula.steps.iter();
                let step = steps.find(|step| step.kind == kind).expect("it has one");
                let item = plan.item(What::Step(bake, step.id));
                item.expect("it is planned").start
            };
            assert!(start(1, StepKind::Bake) < start(0, StepKind::Bake));
            is_put_off |= start(0, StepKind::Fill) > NOW;
            let stood = minutes(waited) + out(&plan, &both, 0);
            assert!(
                stood <= PERISHABLE_LIMIT,
                "{stood:?} after {waited} min, alone {alone:?}, braid since {proofed} min"
            );
        }
    }
    assert_eq!(left, [6.0, 5.0, 4.0, 3.0, 2.0, 1.0]);
    assert!(is_put_off);
}

#[test]
fn two_batches_that_have_nothing_to_spare_are_kept_both() {
    let mut stood = Vec::new();
    for waited in 25..=29 {
        let waited = f64::from(waited);
        let buns = there_at("plum-almond-buns", StepKind::Divide, waited, 22.0, NOW);
        let both = [buns.clone(), buns];
        let plan = planned(&both, NOW);
        stood.extend([0, 1].map(|bake| waited + out(&plan, &both, bake).get()));
    }
    let most = stood.iter().copied().fold(0.0, f64::max);
    assert_eq!(most, PERISHABLE_LIMIT.get(), "{stood:?}");
}

/// In a cool kitchen a proof takes so long that cream may not wait for its way into the fridge for a minute; nobody is
/// there when it is cold, and there is a plan all the same.
#[test]
fn cream_that_may_not_wait_and_has_to_has_a_plan() {
    let mut least = Vec::new();
    for tenths in 178..=190 {
        let air = f64::from(tenths) / 10.0;
        let bakes = [there_at("plum-almond-buns", StepKind::Chill, 5.0, air, NOW)];
        least.push(PERISHABLE_LIMIT - (out(&planned(&bakes, NOW), &bakes, 0) + puts_away(&bakes)));
        let states = bakes.each_ref().map(Bake::state);
        let away = [(NOW + minutes(10.0), NOW + minutes(120.0))];
        let found = plan(
            &states,
            bounds(Goal::Soonest, &away),
            NOW,
            None,
            &mut || true,
        );
        let found = found.unwrap_or_else(|| panic!("no plan at {air} °C"));
        assert_eq!(check(&states, &found, NOW, &away), Ok(()), "{air} °C");
    }
    assert!(least.contains(&minutes(0.0)), "{least:?}");
}

fn puts_away(bakes: &[Bake; 1]) -> domain::units::Minutes {
    let plan = planned(bakes, NOW);
    let state: &State = bakes[0].state();
    let mut steps = state.formula.steps.iter();
    let puts = steps.find(|step| step.needs.fridge).expect("cream");
    assert!(matches!(puts.length, Length::Hands(_)));
    let puts = plan.item(What::Step(0, puts.id)).expect("planned");
    puts.end - puts.start
}
