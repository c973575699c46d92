//! Two breads in one oven: at one temperature, as far as there are trays.

use checks::{begin, starter};
use domain::bake::{Bake, State};
use domain::formula::StepKind;
use domain::kitchen::{Kitchen, OvenKind};
use domain::schedule::plan::{Goal, Item, Plan, What, plan};
use domain::units::minutes;

use super::keeps::check;
use super::{NINE, bounds};

fn begun(ids: &[&str], oven: OvenKind) -> Vec<Bake> {
    let kitchen = Kitchen {
        oven,
        ..Kitchen::UNMEASURED
    };
    let bake = |id: &&str| begin(starter(id), kitchen, NINE);
    ids.iter().map(bake).collect()
}

fn planned(bakes: &[Bake], goal: Goal) -> Plan {
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let plan = plan(&states, bounds(goal, &[]), NINE, None, &mut || true);
    let plan = plan.expect("there is a plan");
    assert_eq!(check(&states, &plan, NINE, &[]), Ok(()));
    plan
}

fn bake_of(plan: &Plan, bakes: &[Bake], bake: usize) -> Item {
    let steps = &bakes[bake].state().formula.steps;
    let step = steps.iter().find(|step| step.kind == StepKind::Bake);
    let what = What::Step(bake, step.expect("it is baked").id);
    *plan.item(what).expect("planned")
}

fn are_in_it_together(plan: &Plan, bakes: &[Bake]) -> bool {
    let [one, other] = [0, 1].map(|bake| bake_of(plan, bakes, bake));
    one.start < other.end && other.start < one.end
}

#[test]
fn two_batches_at_one_heat_bake_together_where_a_fan_heats_both() {
    let batches = ["overnight-tin-loaf"; 2];
    let (fan, still) = (
        begun(&batches, OvenKind::Fan),
        begun(&batches, OvenKind::Conventional),
    );
    let (together, apart) = (planned(&fan, Goal::Soonest), planned(&still, Goal::Soonest));
    assert!(are_in_it_together(&together, &fan));
    assert!(!are_in_it_together(&apart, &still));
    assert!(together.end.likely() < apart.end.likely());
    // Backwards from a table they share it as well.
    let table = NINE + minutes(24.0 * 60.0);
    assert!(are_in_it_together(&planned(&fan, Goal::By(table)), &fan));
}

#[test]
fn a_third_batch_waits_for_a_tray() {
    let bakes = begun(&["overnight-tin-loaf"; 3], OvenKind::Fan);
    let plan = planned(&bakes, Goal::Soonest);
    let mut baked = [0, 1, 2].map(|bake| bake_of(&plan, &bakes, bake));
    baked.sort_by_key(|item| item.start);
    assert!(baked[2].start >= baked[0].end.min(baked[1].end));
}

#[test]
fn breads_at_two_heats_share_no_oven() {
    let bakes = begun(&["plum-almond-buns", "orange-braid"], OvenKind::Fan);
    assert!(!are_in_it_together(&planned(&bakes, Goal::Soonest), &bakes));
}
