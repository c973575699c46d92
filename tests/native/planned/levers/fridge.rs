//! A rise in the fridge for a time.

use checks::say;
use domain::bake::{Intent, Wishes};
use domain::formula::StepKind;
use domain::kitchen::Place;
use domain::schedule::plan::Lever;
use domain::units::{celsius, minutes};

use super::super::asked::{amiss, hours, planned, wish};
use super::super::{TABLES, begun};
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
