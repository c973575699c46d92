//! A time in the fridge that contradicts the rest.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Asks, Claim, Nearest, What, still_kept};
use domain::units::minutes;

use super::super::NINE;
use super::super::asked::{at_once, at_table, go_on, hours, planned, states, wish};
use super::super::levers::step_of;
use super::super::retard::rising;
use super::{check, found};

/// The first rise is ready an hour and a half before the last one may begin in the fridge, and can't wait so long.
#[test]
fn a_night_that_begins_long_after_the_dough_is_ready_for_it_contradicts_the_bake() {
    let (bake, _, now) = rising(0, StepKind::Bulk).expect("it rises");
    let mut bakes = vec![bake];
    let proof = step_of(&bakes[0], StepKind::FinalProof);
    let free = planned(&bakes, now).expect("there is a plan").plan;
    let start = free
        .item(What::Step(0, proof))
        .expect("it is planned")
        .start;
    let stay = (start + minutes(90.0), start + hours(10.0));
    say(&mut bakes[0], Intent::PlanRetard(proof, Some(stay)), now);

    let conflict = found(&bakes, now).expect("shaping has to wait too long");
    let claims = [Claim::Bake(0), Claim::Retard(0, proof, stay.0, stay.1)];
    assert_eq!(conflict.claims, claims);
    let [
        Nearest::Retard {
            stay: Some(sooner), ..
        },
    ] = conflict.nearest[..]
    else {
        panic!("{:?}", conflict.nearest);
    };
    assert!(
        sooner.0 >= start && sooner.0 < stay.0 && sooner.1 == stay.1,
        "{sooner:?}"
    );
    check(&bakes, &conflict, now).expect("it holds");
    let nearest = conflict.nearest[0];
    assert_eq!(
        nearest.asks(&states(&bakes)),
        Asks::Retard(0, proof, Some(sooner))
    );
    let still = |now| at_once(still_kept(&nearest, &states(&bakes), now, &go_on));
    assert_eq!((still(now), still(stay.1)), (Some(true), Some(false)));
}

#[test]
fn who_sleeps_when_it_is_to_come_out_is_offered_the_moment_of_getting_up() {
    let (bake, step, now) = rising(1, StepKind::Bulk).expect("it rises");
    let mut bakes = vec![bake];
    let (from, out) = (now + minutes(5.0), now + hours(9.0));
    say(
        &mut bakes[0],
        Intent::PlanRetard(step, Some((from, out))),
        now,
    );
    let up = out + minutes(40.0);
    let asleep = (now + hours(1.0), up);
    let wishes = Wishes {
        away: vec![asleep],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, now);
    let conflict = found(&bakes, now).expect("nobody takes it out");
    // Without the fridge it would be ready while nobody is there.
    let claims = [Claim::Bake(0), Claim::Away(asleep.0, up)];
    assert_eq!(conflict.claims, claims);
    let later = Nearest::Retard {
        bake: 0,
        step,
        stay: Some((from, up)),
    };
    assert!(conflict.nearest.contains(&later), "{:?}", conflict.nearest);
    check(&bakes, &conflict, now).expect("it holds");
}

/// Each of two loaves stands in the fridge for eight hours at least, after four hours and a half and before six: with room for
/// one of them the second isn't ready within 26 hours, but it is after one more, for both nights are as short as they may be.
#[test]
fn two_loaves_in_a_fridge_with_room_for_one_are_offered_room_for_two() {
    let kitchen = Kitchen {
        fridge_holds: 1,
        ..Kitchen::UNMEASURED
    };
    let loaf = |_| begin(starter("overnight-tin-loaf"), kitchen, NINE);
    let mut bakes: Vec<Bake> = (0..2).map(loaf).collect();
    let mut later = bakes.clone();
    wish(&mut later, &at_table(NINE + hours(27.5)), NINE);
    assert_eq!(found(&later, NINE), None);
    wish(&mut bakes, &at_table(NINE + hours(25.5)), NINE);
    let conflict = found(&bakes, NINE).expect("one has to wait for the other");
    let is_fridge = |claim: &Claim| matches!(claim, Claim::Fridge(Some(_)));
    assert!(conflict.claims.iter().any(is_fridge), "{conflict:?}");
    let roomier = Nearest::Room { holds: 2 };
    assert!(conflict.nearest.contains(&roomier), "{conflict:?}");
    assert_eq!(roomier.asks(&states(&bakes)), Asks::Room(2));
    check(&bakes, &conflict, NINE).expect("it holds");
    let still = at_once(still_kept(&roomier, &states(&bakes), NINE, &go_on));
    assert_eq!(still, Some(true));
}
