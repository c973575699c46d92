//! How long an oven heats that another bread has left hot, for any order that is found.

use domain::bake::{Bake, State};
use domain::formula::{Length, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Bounds, Goal, Item, Plan, What, plan};
use domain::units::{Minutes, Moment, minutes};

use super::levers::step_of;
use super::{NINE, begun, bounds};

fn item(plan: &Plan, bakes: &[Bake], bake: usize, kind: StepKind) -> Item {
    let step = step_of(&bakes[bake], kind);
    *plan.item(What::Step(bake, step)).expect("planned")
}

fn oven(bake: &Bake) -> f64 {
    let of = bake
        .state()
        .formula
        .step(step_of(bake, StepKind::OvenHeats));
    match of.map(|step| &step.length) {
        Some(&Length::OvenHeats { oven }) => oven.get(),
        _ => panic!("an oven heats to a temperature"),
    }
}

/// How long the oven of a bread should heat by what is out of it before, within the half hour for which it is left on: as much of
/// the time from cold as there are kelvins left, five kelvins a minute down, and five minutes at least.
fn should_heat(plan: &Plan, bakes: &[Bake], bake: usize) -> Minutes {
    let heats = item(plan, bakes, bake, StepKind::OvenHeats);
    let others = (0..bakes.len()).filter(|&other| other != bake);
    let out = others.map(|other| (item(plan, bakes, other, StepKind::Bake).end, other));
    let last = out
        .filter(|(out, _)| *out <= heats.start + minutes(1.0))
        .max();
    let cold = Kitchen::UNMEASURED.oven_heats_in;
    let Some((_, of)) = last.filter(|&(out, _)| heats.start - out <= minutes(30.0)) else {
        return cold;
    };
    let (from, to) = (oven(&bakes[of]), oven(&bakes[bake]));
    let takes = if to >= from {
        cold * ((to - from) / (to - Kitchen::UNMEASURED.air.get()))
    } else {
        minutes((from - to) / 5.0)
    };
    takes.max(minutes(5.0))
}

#[test]
fn an_oven_heats_as_long_as_what_was_in_it_before_leaves_to_heat() {
    const BREADS: [&[&str]; 4] = [
        &["plum-almond-buns", "orange-braid"],
        &["orange-braid", "orange-braid"],
        &["plum-almond-buns", "plum-almond-buns"],
        &["orange-braid", "plum-almond-buns", "orange-braid"],
    ];
    let (mut all, mut wrong, mut hot) = (0, Vec::new(), 0);
    for ids in BREADS {
        let bakes = begun(ids);
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        for later in 0..12 {
            for away in [None, Some(150.0), Some(240.0)] {
                let mut not_before: Vec<Option<Moment>> = vec![None; ids.len()];
                not_before[0] = Some(NINE + minutes(12.0 * f64::from(later)));
                let away = away.map(|from| {
                    let from = NINE + minutes(from);
                    (from, from + minutes(45.0))
                });
                let closed: Vec<_> = away.into_iter().collect();
                let bounds = Bounds {
                    not_before: &not_before,
                    ..bounds(Goal::Soonest, &closed)
                };
                let found = plan(&states, bounds, NINE, None, &mut || true);
                let found = found.expect("there is a plan");
                for bake in 0..ids.len() {
                    let heats = item(&found, &bakes, bake, StepKind::OvenHeats);
                    let (is, should) = (heats.end - heats.start, should_heat(&found, &bakes, bake));
                    all += 1;
                    hot += usize::from(should < Kitchen::UNMEASURED.oven_heats_in);
                    if (is - should).get().abs() > 1.0 {
                        wrong.push(format!("{ids:?} {later} {closed:?}: {is:?} for {should:?}"));
                    }
                }
            }
        }
    }
    assert!(hot * 10 > all, "{hot} of {all} follow another");
    assert!(wrong.is_empty(), "{} of {all}: {wrong:#?}", wrong.len());
}

/// Minutes after nine before which a bread isn't begun.
type NotBefore = Option<f64>;

/// As it heats for less, it would be planned before the bread that left the oven hot, wherever that ends sooner: while
/// nobody is there in between, say.
#[test]
fn a_bread_that_counts_on_another_s_oven_stays_after_it_where_it_could_end_sooner_before() {
    const BUNS: &str = "plum-almond-buns";
    const BRAID: &str = "orange-braid";
    let cases: [(&[&str], &[NotBefore], [f64; 2]); 4] = [
        (&[BUNS, BRAID], &[None, Some(225.0)], [260.0, 335.0]),
        (&[BUNS, BUNS], &[], [275.0, 350.0]),
        (&[BRAID, BRAID], &[Some(5.0), None], [290.0, 355.0]),
        (&[BUNS, BRAID, BUNS], &[], [290.0, 335.0]),
    ];
    for (ids, begun_by, away) in cases {
        let bakes = begun(ids);
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let at = |min: f64| NINE + minutes(min);
        let not_before: Vec<Option<Moment>> = begun_by.iter().map(|min| min.map(at)).collect();
        let closed = [(at(away[0]), at(away[1]))];
        let bounds = Bounds {
            not_before: &not_before,
            ..bounds(Goal::Soonest, &closed)
        };
        let found = plan(&states, bounds, NINE, None, &mut || true).expect("there is a plan");
        for bake in 0..ids.len() {
            let heats = item(&found, &bakes, bake, StepKind::OvenHeats);
            let (is, should) = (heats.end - heats.start, should_heat(&found, &bakes, bake));
            let apart = (is - should).get().abs();
            assert!(apart <= 1.0, "{ids:?}, {bake}: {is:?} for {should:?}");
        }
    }
}
