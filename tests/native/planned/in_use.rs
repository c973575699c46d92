//! What breads have in use at once, by their plan.

use checks::say;
use domain::bake::{Bake, Intent, State};
use domain::formula::gather::{Tool, kit};
use domain::formula::{Held, Length, Step};
use domain::schedule::plan::{Plan, What, in_use};
use domain::units::{Minutes, Moment, minutes};

use super::asked::{at_table, hours, planned, states};
use super::{NINE, TABLES, begun};

/// From the trays' last rise, or the oven, until the bread is out; and as long as it cools.
fn takes(tool: Tool, step: &Step) -> bool {
    match (tool, &step.length) {
        (Tool::Tray, Length::Ferment { held, .. }) => *held == Held::Tray,
        (Tool::Tray, Length::Bake { .. }) | (Tool::Rack, Length::Cool { .. }) => true,
        _ => false,
    }
}

/// Counted minute by minute.
fn counted(tool: Tool, plan: &Plan, bakes: &[Bake]) -> u16 {
    let is_used = |bake: usize, at: Moment| {
        let state = bakes[bake].state();
        let mut items = plan.items.iter().filter(|item| match item.what {
            What::Step(of, step) => {
                of == bake && takes(tool, state.formula.step(step).expect("it is planned"))
            }
            _ => false,
        });
        let of_tool: Vec<(Moment, Moment)> = items.by_ref().map(|it| (it.start, it.end)).collect();
        let from = of_tool.iter().map(|it| it.0).min();
        let to = of_tool.iter().map(|it| it.1).max();
        from.is_some_and(|from| from <= at) && to.is_some_and(|to| at < to)
    };
    let used = (0..48 * 60).map(|minute| {
        let at = NINE + minutes(f64::from(minute));
        (0..bakes.len()).filter(|&bake| is_used(bake, at)).count()
    });
    u16::try_from(used.max().unwrap_or(0)).expect("there are few")
}

/// Buns and a braid for tables so far from each other.
fn apart(by: Minutes) -> Vec<Bake> {
    let mut bakes = begun(TABLES[3]);
    for (bake, later) in bakes.iter_mut().zip([minutes(0.0), by]) {
        let wishes = at_table(NINE + hours(10.0) + later);
        say(bake, Intent::Wish(Box::new(wishes)), NINE);
    }
    bakes
}

#[test]
fn trays_and_racks_are_counted_by_what_is_in_use_at_once() {
    let mut seen = Vec::new();
    for by in [0.0, 1.0, 2.0, 3.0, 8.0] {
        let bakes = apart(hours(by));
        let plan = planned(&bakes, NINE).expect("there is a plan").plan;
        let placed: Vec<(&State, Option<usize>)> =
            states(&bakes).into_iter().zip([Some(0), Some(1)]).collect();
        for tool in [Tool::Tray, Tool::Rack] {
            let is = in_use(tool, &placed, Some(&plan));
            assert_eq!(is, counted(tool, &plan, &bakes), "{tool:?}, {by} h apart");
            seen.push((tool, is));
        }
        // What nobody has planned may all be at once.
        let unplanned: Vec<(&State, Option<usize>)> =
            states(&bakes).into_iter().zip([Some(0), None]).collect();
        assert_eq!(in_use(Tool::Tray, &unplanned, Some(&plan)), 2);
        assert_eq!(in_use(Tool::Tray, &placed, None), 2);
    }
    // Two pieces of dough that rise on trays at one time, and one tray for both where the braid is for the evening.
    assert!(
        seen.contains(&(Tool::Tray, 2)) && seen.contains(&(Tool::Tray, 1)),
        "{seen:?}"
    );
    // One bread has never more of it, and what rises in a tin takes no tray.
    let loaf = begun(TABLES[2]);
    assert_eq!(in_use(Tool::Tray, &[(loaf[0].state(), None)], None), 0);
    assert!(
        kit(&[&loaf[0].state().formula])
            .iter()
            .all(|kit| kit.tool != Tool::Tray)
    );
}
