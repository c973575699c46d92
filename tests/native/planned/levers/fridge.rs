//! A rise in the fridge for a time.

use checks::say;
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::{Length, StepKind};
use domain::kitchen::Place;
use domain::schedule::plan::{Lever, What};
use domain::units::{Minutes, Moment, celsius, minutes};

use super::super::asked::{amiss, hours, planned, wish};
use super::super::{NINE, TABLES, begun};
use super::{THREE, done, end, night, rise_end, rising, step_of, tomorrow, ways, work};

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
        let way = way.unwrap_or_else(|| panic!("it has all night: {which} {found:#?}"));
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
        assert!(way.amiss() < minutes(1.0) && way.early < hours(1.0));
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
        assert!(off.get().abs() <= 1.0, "{which}: {off:?}");
    }
}

#[test]
fn whoever_is_away_when_a_rise_ends_slows_it() {
    let (mut bakes, now) = rising(1, StepKind::Bulk);
    let step = step_of(&bakes[0], StepKind::Bulk);
    let ready = rise_end(&bakes, step, now);
    let wishes = Wishes {
        away: vec![(ready - minutes(20.0), ready + minutes(50.0))],
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
    assert!(fridge.amiss() < minutes(1.0), "{:?}", fridge.lever);
    let Lever::Fridge { out, .. } = fridge.lever else {
        panic!("just found")
    };
    let mut after = done(&bakes, fridge, now);
    // The almonds are toasted meanwhile.
    work(&mut after, now, wishes.away[0].0);
    say(&mut after[0], Intent::Move(step, Place::Kitchen), out);
    let off = end(&after, out) - fridge.table.likely();
    assert!(off.get().abs() <= 1.0, "{off:?}");
}

/// The first rise of a bread in the plan, and when what comes before it is gathered.
fn gathered_and_retarded(bakes: &[Bake], now: Moment) -> (Moment, Moment) {
    let plan = planned(bakes, now).expect("there is a plan").plan;
    let start = |kind: StepKind| {
        let step = step_of(&bakes[0], kind);
        plan.item(What::Step(0, step)).expect("it is planned").start
    };
    (start(StepKind::Gather), start(StepKind::Bulk))
}

/// How long the hands are at all that comes before the first rise.
fn before_the_rise(bake: &Bake) -> Minutes {
    let steps = bake.state().formula.steps.iter();
    let before = steps.take_while(|step| step.kind != StepKind::Bulk);
    let lengths = before.filter_map(|step| match &step.length {
        Length::Hands(length) => Some(length.likely()),
        _ => None,
    });
    lengths.fold(minutes(0.0), |all, length| all + length)
}

/// Gathering stood at three in the afternoon, and mixing at seven: as much sooner as the end may be late.
#[test]
fn whoever_retards_overnight_gathers_just_before_mixing_and_mixes_as_late_as_the_night_allows() {
    for (which, air, hour, now) in [
        (1, 21.0, 12.5, NINE),
        (1, 22.0, 12.5, THREE),
        (0, 25.0, 11.5, THREE),
    ] {
        let mut bakes = begun(TABLES[which]);
        say(&mut bakes[0], Intent::KitchenIs(celsius(air)), now);
        wish(&mut bakes, &tomorrow(hour), now);
        let rise = step_of(&bakes[0], StepKind::Bulk);
        let found = ways(&bakes, now);
        let way = found
            .iter()
            .find(|way| matches!(way.lever, Lever::Fridge { step, .. } if step == rise));
        let way = way.expect("it has all night");
        let Lever::Fridge {
            from: Some(from),
            out,
            ..
        } = way.lever
        else {
            panic!("{:?}", way.lever)
        };
        let (gathered, rises) = gathered_and_retarded(&done(&bakes, way, now), now);
        assert_eq!(rises, from);
        let (hands, before) = (before_the_rise(&bakes[0]), rises - gathered);
        assert!(
            before >= hands && before <= hands + minutes(15.0),
            "{which}: {hands:?} of hands, {before:?} before the fridge"
        );
        // An hour later is bedtime, or too late for the table.
        let later = (from + hours(1.0), out);
        let mut late = bakes.clone();
        say(&mut late[0], Intent::PlanRetard(rise, Some(later)), now);
        let late = planned(&late, now).expect("there is a plan");
        assert!(
            later.0 > night().0 || amiss(&late) > 0.5,
            "{which}: {later:?}"
        );
    }
}

/// The same where the baker says when, be there time for the table or not.
#[test]
fn a_retard_that_the_baker_plans_is_begun_for_when_it_wants_that() {
    for hour in [13.5, 11.0] {
        let mut bakes = begun(TABLES[1]);
        wish(&mut bakes, &tomorrow(hour), NINE);
        let rise = step_of(&bakes[0], StepKind::Bulk);
        let (from, out) = (NINE + hours(10.5), night().1);
        say(
            &mut bakes[0],
            Intent::PlanRetard(rise, Some((from, out))),
            NINE,
        );
        let found = planned(&bakes, NINE).expect("there is a plan");
        let is_late = found.margins.iter().any(|margin| margin.is_late());
        assert_eq!(is_late, hour < 12.0);
        let (gathered, rises) = gathered_and_retarded(&bakes, NINE);
        assert_eq!((rises, found.begins), (from, vec![Some(gathered)]));
        let (hands, before) = (before_the_rise(&bakes[0]), rises - gathered);
        assert!(
            before >= hands && before <= hands + minutes(15.0),
            "{hour}: {before:?}"
        );
    }
}

/// However little would be missing: nobody takes a dough out who sleeps until some minutes later.
#[test]
fn nothing_is_advised_to_come_out_while_nobody_is_there() {
    let mut advised = 0;
    for hours_there in [6.0, 8.0, 9.5, 11.0] {
        for short in [2.0, 5.0, 8.0] {
            let (mut bakes, now) = rising(1, StepKind::Bulk);
            let awake = now + hours(hours_there) + minutes(short);
            let wishes = Wishes {
                away: vec![(now + minutes(30.0), awake)],
                ..Wishes::default()
            };
            wish(&mut bakes, &wishes, now);
            for way in ways(&bakes, now) {
                if let Lever::Fridge { out, .. } = way.lever {
                    advised += 1;
                    assert!(out >= awake, "{hours_there} h and {short} min: {way:?}");
                }
            }
        }
    }
    assert!(advised > 6, "{advised} were advised");
}
