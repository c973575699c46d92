//! Three and four breads for tables, with nights and times away: there always is a plan, and it comes to an end in time.

use checks::{begin, say, starter};
use domain::bake::{Bake, BakeId, Intent, Wishes};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Proven, away, timetable};
use domain::units::{Celsius, minutes};
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;

use super::asked::{hours, states};
use super::days::as_counted;
use super::keeps::check;
use super::redone::days;
use super::{NINE, TABLES};

/// How often whether to go on may be asked for one plan. Ten thousand times are a second or two of a server.
const MOST_ASKED: usize = 24_000;

/// What is wished of so many breads: which, how warm it is, their tables, and whether the nights are told.
fn any_breads(breads: usize) -> impl Strategy<Value = Vec<Bake>> {
    let which = prop::collection::vec(0..3_usize, breads);
    let apart = prop_oneof![1 => Just(0.0), 1 => 0.5..6.5_f64];
    let gone = prop::option::weighted(0.4, (1.0..7.0_f64, 0.3..1.5_f64));
    let drawn = (
        which,
        18.0..27.0_f64,
        8.0..28.0_f64,
        apart,
        prop::bool::weighted(0.6),
        gone,
    );
    drawn.prop_map(|(which, air, table, apart, nights, gone)| {
        let kitchen = Kitchen {
            air: Celsius::clamped(air),
            ..Kitchen::UNMEASURED
        };
        // From eleven to half past six.
        let nights = [14.0, 38.0].into_iter().filter(|_| nights);
        let mut away: Vec<_> = nights
            .map(|from| (hours(from), hours(from + 7.5)))
            .collect();
        away.extend(gone.map(|(from, long)| (hours(from), hours(from + long))));
        let away: Vec<_> = away
            .into_iter()
            .map(|(from, to)| (NINE + from, NINE + to))
            .collect();
        let bake = |(place, which): (usize, usize)| {
            let mut bake = begin(starter(TABLES[which][0]), kitchen, NINE);
            bake.id = BakeId(place.to_string());
            let later = (table + apart * place as f64) * 60.0;
            let wishes = Wishes {
                table: Some(NINE + minutes(later.round())),
                not_before: None,
                away: away.clone(),
            };
            say(&mut bake, Intent::Wish(Box::new(wishes)), NINE);
            bake
        };
        which.into_iter().enumerate().map(bake).collect()
    })
}

#[test]
fn of_three_and_four_breads_there_is_always_a_plan_and_in_time() {
    let mut runner = TestRunner::new(days(0));
    for (breads, cases, least_proven) in [(3, 12, 11), (4, 8, 3)] {
        let mut proven = 0;
        for _ in 0..cases {
            let bakes = any_breads(breads).new_tree(&mut runner);
            let bakes = bakes.expect("it can be drawn").current();
            let states = states(&bakes);
            let mut asked = 0;
            let found = timetable(&states, NINE, None, &mut || {
                asked += 1;
                true
            });
            let found = found.expect("the breads can be made after any time away");
            let closed = as_counted(&away(&states));
            assert_eq!(check(&states, &found.plan, NINE, &closed), Ok(()));
            assert!(asked <= MOST_ASKED, "{asked} of {breads} breads");
            proven += usize::from(found.plan.proven == Proven::Soonest);
        }
        assert!(proven >= least_proven, "{proven} of {breads} breads");
    }
}
