//! A step fixed to a moment at which it can't be.

use checks::say;
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::StepKind;
use domain::schedule::plan::{Claim, Nearest, What};
use domain::units::minutes;

use super::super::asked::{at_table, planned, wish};
use super::super::{NINE, TABLES, begun};
use super::{check, found};

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
        conflict.claims,
        [Claim::Bake(0), Claim::Fixed(0, step, start - minutes(42.0))]
    );
    let [Nearest::Fixed { at: Some(at), .. }] = conflict.nearest[..] else {
        panic!("{:?}", conflict.nearest);
    };
    assert!(at >= start && at < start + minutes(5.0), "{at:?}");
    check(&bakes, &conflict, NINE).expect("it holds");

    // And too late for a table.
    let table = plan.end.likely() + minutes(30.0);
    wish(&mut bakes, &at_table(table), NINE);
    let late = start + minutes(90.0);
    say(&mut bakes[0], Intent::Pin(step, Some(late)), NINE);
    let conflict = found(&bakes, NINE).expect("it is too late");
    let claims = [
        Claim::Bake(0),
        Claim::Fixed(0, step, late),
        Claim::Table(table),
    ];
    assert_eq!(conflict.claims, claims);
    let at = conflict.nearest.iter().find_map(|way| match way {
        Nearest::Fixed { at, .. } => *at,
        _ => None,
    });
    let at = at.expect("an earlier moment") - start;
    // So much as the table leaves, rounded to the five minutes before.
    assert!(at <= minutes(30.0) && at > minutes(25.0), "{at:?}");
    check(&bakes, &conflict, NINE).expect("it holds");
}

#[test]
fn a_step_that_is_fixed_before_anything_may_begin_contradicts_that() {
    let mut bakes = begun(TABLES[0]);
    let first = planned(&bakes, NINE).expect("there is a plan").plan;
    let (step, _) = first.first_of(0).expect("it is planned");
    let (pinned, from) = (NINE + minutes(30.0), NINE + minutes(120.0));
    let wishes = Wishes {
        not_before: Some(from),
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, NINE);
    assert_eq!(found(&bakes, NINE), None);
    say(&mut bakes[0], Intent::Pin(step, Some(pinned)), NINE);
    let conflict = found(&bakes, NINE).expect("it is before that");
    let claims = [
        Claim::Bake(0),
        Claim::Fixed(0, step, pinned),
        Claim::NotBefore(from),
    ];
    assert_eq!(conflict.claims, claims);
    check(&bakes, &conflict, NINE).expect("it holds");
    let plan = planned(&bakes, NINE).expect("there is a plan").plan;
    let item = plan.item(What::Step(0, step)).expect("it is planned");
    assert_eq!(item.start, from);
    assert_eq!(item.too_late_by, Some(minutes(90.0)));
}

#[test]
fn a_step_that_is_fixed_to_when_nobody_is_there_contradicts_that() {
    let mut bakes = begun(TABLES[0]);
    let first = planned(&bakes, NINE).expect("there is a plan").plan;
    let (step, _) = first.first_of(0).expect("it is planned");
    let away = (NINE + minutes(60.0), NINE + minutes(180.0));
    let pinned = NINE + minutes(90.0);
    let wishes = Wishes {
        away: vec![away],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, NINE);
    say(&mut bakes[0], Intent::Pin(step, Some(pinned)), NINE);
    let conflict = found(&bakes, NINE).expect("nobody is there");
    let claims = [
        Claim::Bake(0),
        Claim::Away(away.0, away.1),
        Claim::Fixed(0, step, pinned),
    ];
    assert_eq!(conflict.claims, claims);
    check(&bakes, &conflict, NINE).expect("it holds");
}
