//! Which alarms of one of several breads call.

use checks::{begin, say, starter, up_to};
use domain::bake::Intent;
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::units::minutes;

use super::*;

const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

#[test]
fn nobody_is_called_to_an_oven_that_is_on_for_another_bread() {
    let [mut buns, mut braid] = ["plum-almond-buns", "orange-braid"]
        .map(|id| begin(starter(id), Kitchen::UNMEASURED, START));
    let quick = |_: StepKind| minutes(5.0);
    // Its last rise goes on, and the oven has to be hot as it ends.
    let (_, now) = up_to(&mut buns, StepKind::OvenOn, START, quick);
    let now = now + minutes(240.0);
    let alarms = bake::alarms(buns.state(), now);
    let mut alarms = alarms.iter();
    let oven = alarms.find(|alarm| alarm.kind == AlarmKind::OvenOn);
    let oven = oven.expect("it is to be turned on").clone();
    let rings = |braid: &bake::Bake, alarm: &Alarm| {
        let all = [buns.state(), braid.state()];
        calls(alarm, all[0], &all)
    };
    assert!(rings(&braid, &oven));
    let (on, at) = up_to(&mut braid, StepKind::OvenOn, START, quick);
    assert!(rings(&braid, &oven));
    say(&mut braid, Intent::Done(on), at);
    assert!(!rings(&braid, &oven));
    // Whatever else is due calls all the same.
    let other = AlarmKind::Check;
    assert!(rings(
        &braid,
        &Alarm {
            kind: other,
            ..oven.clone()
        }
    ));
    // A bread's own oven is no other's.
    let own = [braid.state()];
    assert!(oven_of(own[0], &own).is_none());
    // Once it is out, the next has to be heated for.
    up_to(&mut braid, StepKind::Cool, at, quick);
    assert!(!braid.state().has_oven_on());
    assert!(rings(&braid, &oven));
}
