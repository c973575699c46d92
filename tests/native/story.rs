//! What the notebook tells of a bake: everything that was done and measured in it.

use checks::{begin, say, starter};
use domain::bake::{Bake, BakeId, Ended, How, Intent, Wishes, decide, found_hot};
use domain::formula::{Formula, Length, StepId};
use domain::kitchen::Kitchen;
use domain::notebook::summary;
use domain::schedule::plan::{What, timetable};
use domain::thermal::cooling::remedies;
use domain::thermal::vessel::Cooling;
use domain::units::{Moment, celsius, millimetres, minutes};

const NINE: Moment = Moment::from_epoch_ms(1_700_000_000_000);

#[test]
fn folds_not_yets_and_the_kitchen_are_told() {
    let mut bake = begin(starter("overnight-tin-loaf"), Kitchen::UNMEASURED, NINE);
    let rise = StepId(7);
    let mut at = NINE;
    let mut say = |intent| {
        at = at + minutes(10.0);
        let entries = decide(&bake, intent, at).expect("it can be so");
        bake.append(entries);
        at
    };
    for step in [1, 2, 3, 4, 5, 6, 24] {
        say(Intent::Done(StepId(step)));
    }
    let folded = say(Intent::Folded(rise));
    say(Intent::FoldNotYet(rise, minutes(5.0)));
    let measured = say(Intent::KitchenIs(celsius(19.5)));
    let left_out = say(Intent::SkipFold(rise));
    say(Intent::NotYet(rise, minutes(10.0)));
    say(Intent::NotYet(rise, minutes(10.0)));
    say(Intent::Done(rise));

    let story = summary(&bake, &[]);
    let mut rows = story.rows.iter();
    let row = rows
        .find(|row| row.step == rise)
        .expect("every step has a row");
    let folds = [(folded, How::Done), (left_out, How::Skipped)];
    assert_eq!(row.folds, folds.map(|(at, how)| Ended { at, how }));
    assert_eq!(row.not_yet, 2);
    assert_eq!(story.air, [(measured, celsius(19.5))]);
}

#[test]
fn what_was_planned_moves_along_with_a_clock_that_was_set() {
    let mut bake = begin(starter("overnight-tin-loaf"), Kitchen::UNMEASURED, NINE);
    let planned = |bake: &Bake| {
        let rows = summary(bake, &[]).rows.into_iter();
        rows.map(|row| row.planned.expect("nothing was done yet"))
            .collect::<Vec<_>>()
    };
    let before = planned(&bake);
    let set = Intent::ClockWasSet(minutes(60.0));
    bake.append(decide(&bake, set, NINE + minutes(65.0)).expect("it can be so"));
    let moved: Vec<Moment> = before.iter().map(|&end| end + minutes(60.0)).collect();
    assert_eq!(planned(&bake), moved);
}

/// Buns and a braid for a table in ten hours, done when the plan says, the gathering as soon as they were wished for.
#[test]
fn a_bake_for_a_table_is_held_against_the_plan_for_it() {
    let table = NINE + minutes(600.0);
    let wished = |id: &str, at: Moment| {
        let mut bake = begin(starter(id), Kitchen::UNMEASURED, at);
        bake.id = BakeId(id.to_owned());
        let wishes = Wishes {
            table: Some(table),
            ..Wishes::default()
        };
        say(&mut bake, Intent::Wish(Box::new(wishes)), at);
        bake
    };
    let later = NINE + minutes(1.0);
    let mut bakes = [
        wished("plum-almond-buns", NINE),
        wished("orange-braid", later),
    ];
    let gather = StepId(1);
    let mut now = NINE + minutes(2.0);
    say(&mut bakes[0], Intent::Done(gather), now);
    // Whoever goes by the plan goes by the newest one.
    let mut before = None;
    loop {
        let states = [bakes[0].state(), bakes[1].state()];
        let made = timetable(&states, now, before.as_ref(), &mut || true);
        let made = before.insert(made.expect("there is a plan"));
        let ends = made.plan.items.iter().filter_map(|item| match item.what {
            What::Step(bake, step) => Some((item.end, bake, Intent::Done(step))),
            What::Fold(bake, step, _) => Some((item.end, bake, Intent::Folded(step))),
            _ => None,
        });
        let Some((at, bake, said)) = ends.min_by_key(|end| end.0) else {
            break;
        };
        now = now.max(at);
        // As every press is taken: the second bread's oven is hot from the first.
        let others = [bakes[1 - bake].state()];
        let said = found_hot(said, bakes[bake].state(), &others, now);
        say(&mut bakes[bake], said, now);
    }
    for (bake, other) in [(0, 1), (1, 0)] {
        let story = summary(&bakes[bake], &[&bakes[other]]);
        for row in &story.rows {
            let is_early = (bake, row.step) == (0, gather);
            let late = row.late_by().expect("planned and ended").get();
            // A plan that is made of nothing keeps no promise: of two breads it may have some minutes' work of the one first,
            // and what follows that later by as much. Seven were found.
            assert!(is_early || late.abs() < 10.0, "{row:?}: {late}");
        }
    }
}

/// Work that is done in the time it takes is as planned, however late what came before it has made it: whoever looks at
/// the plan then goes by that. The last seconds of a minute are no minute.
#[test]
fn each_step_is_held_against_the_plan_just_before_it_was_begun() {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let plan = |bake: &Bake, now: Moment| {
        let made = timetable(&[bake.state()], now, None, &mut || true);
        made.expect("there is a plan").plan
    };
    let (gather, cook) = (StepId(1), StepId(2));
    // Gathering takes an hour longer than planned.
    let first = plan(&bake, NINE);
    let item = first.item(What::Step(0, gather)).expect("it is planned");
    let late = item.end + minutes(60.0);
    say(&mut bake, Intent::Done(gather), late);
    let then = plan(&bake, late);
    let item = then.item(What::Step(0, cook)).expect("it is planned");
    say(&mut bake, Intent::Done(cook), item.end + minutes(0.6));
    let row = |step: StepId| {
        let story = summary(&bake, &[]);
        let mut rows = story.rows.into_iter();
        rows.find(|row| row.step == step).expect("it has a row")
    };
    let by = |step: StepId| row(step).late_by().expect("planned and ended").get();
    assert!((by(gather) - 60.0).abs() <= 1.0, "{}", by(gather));
    assert_eq!(by(cook), 0.0);
    // A list of bakes holds them against their start.
    let as_begun = domain::notebook::as_begun(&bake);
    let cooked = as_begun.iter().find(|row| row.step == cook);
    let late = cooked.and_then(domain::notebook::Row::late_by);
    assert!(late.is_some_and(|late| late > minutes(50.0)), "{late:?}");
}

#[test]
fn a_bread_is_ready_when_its_last_step_has_ended() {
    let mut bake = begin(starter("orange-braid"), Kitchen::UNMEASURED, NINE);
    let mut at = NINE;
    while let Some(open) = {
        let state = bake.state();
        let mut steps = state.formula.steps.iter();
        let open = steps.find(|step| state.is_open(step.id));
        open.map(|step| step.id)
    } {
        assert_eq!(bake.state().ready_at(), None);
        at = at + minutes(5.6);
        say(&mut bake, Intent::Done(open), at);
    }
    say(&mut bake, Intent::Finish, at + minutes(7.0));
    assert_eq!(bake.state().ready_at(), Some(at));
}

/// The almond cream passes on ice water and has no need of advice; the same, deep in a
/// bowl in the fridge, doesn't, and gets what [`remedies`] reckons for just that.
#[test]
fn a_chill_knows_what_to_ask_for_its_remedies() {
    let formula = starter("plum-almond-buns");
    let chill = StepId(4);
    let advice = |formula: &Formula| {
        let bake = begin(formula.clone(), Kitchen::UNMEASURED, NINE);
        let state = bake.state();
        let step = state.formula.step(chill).expect("the cream cools");
        let chilled = state.chills(step, NINE).expect("it chills");
        let cream = state.formula.component_of(step).expect("the cream");
        assert_eq!(chilled.mass, cream.mass());
        // Half-way from 80 to 5 °C.
        assert_eq!(chilled.filling, cream.material(celsius(42.5)));
        (chilled.around, remedies(&chilled))
    };
    assert!(advice(&formula).1.is_empty());

    let mut draft = formula.into_draft();
    for step in &mut draft.steps {
        if let Length::Chill { depth, cooling, .. } = &mut step.length {
            (*depth, *cooling) = (millimetres(60.0), Cooling::Fridge);
        }
    }
    let deep = Formula::new(draft).expect("only a chill was changed");
    let (around, ways) = advice(&deep);
    assert_eq!(around, Kitchen::UNMEASURED.fridge);
    assert!(!ways.is_empty());
}
