//! What a way leaves amiss, when a bake begins by it, and in `whole` all of what is told of it.

mod whole;

use domain::estimate::Basis;
use domain::schedule::plan::Margin;
use domain::units::minutes;

use super::*;

/// A moment by its hour, from 24 on that of the next day.
pub(super) const fn at(hour: i64, minute: i64) -> Moment {
    Moment::from_epoch_ms((hour * 60 + minute) * 60_000)
}

/// Tells something with bare times of day, and no space that holds a number to its unit.
pub(super) fn by_clock(tell: &dyn Fn(&Times) -> String) -> String {
    let clock = |moment: Moment| {
        let of_day = moment.epoch_ms().div_euclid(60_000).rem_euclid(24 * 60);
        format!("{:02}:{:02}", of_day / 60, of_day % 60)
    };
    let times = Times {
        when: &clock,
        about: &clock,
        away: &|from, to| format!("{} to {}", clock(from), clock(to)),
    };
    tell(&times).replace('\u{a0}', " ")
}

/// A way that leads to a table at about five past four.
fn by(lever: Lever) -> Way {
    Way {
        lever,
        table: Estimate::new(at(15, 50), at(16, 5), at(16, 25), Basis::Model),
        margins: Vec::new(),
        waits: minutes(0.0),
        is_little: false,
        early: minutes(0.0),
        is_long_out: false,
        begin: None,
        intents: Vec::new(),
    }
}

fn left(late: f64, waits: f64) -> String {
    left_of(&[late], waits)
}

/// For tables every four hours from noon on, each so late.
fn left_of(late: &[f64], waits: f64) -> String {
    let noon = Moment::from_epoch_ms(1_789_905_600_000);
    let each = late.iter().enumerate().map(|(place, &late)| {
        let table = noon + minutes(240.0 * place as f64);
        Margin {
            table,
            ready: Estimate::exact(table + minutes(late), Basis::Model),
            buffer: minutes(0.0),
        }
    });
    let more = Lever::Yeast {
        bake: 0,
        times: 1.5,
    };
    let way = Way {
        margins: each.collect(),
        waits: minutes(waits),
        ..by(more)
    };
    still(&way, &|table| format!("{} h", (table - noon).get() / 60.0)).replace('\u{a0}', " ")
}

#[test]
fn a_late_table_and_what_waits_too_long_are_told_apart() {
    assert_eq!(left(0.4, 0.0), "");
    assert_eq!(left(20.0, 0.0), " Still 20 min later than your table.");
    assert_eq!(
        left_of(&[-5.0, 20.0], 0.0),
        " Still 20 min later than the table at 4 h."
    );
    assert_eq!(
        left(0.0, 12.0),
        " Still 12 min of waiting that is too long."
    );
    assert_eq!(
        left(20.0, 12.0),
        " Still 20 min later than your table. Still 12 min of waiting that is too long."
    );
}

#[test]
fn other_yeast_is_told_with_when_the_bake_begins_by_it() {
    let noon = Moment::from_epoch_ms(1_789_905_600_000);
    let told = |lever: Lever, begin: Option<f64>| {
        let way = Way {
            begin: begin.map(|hours| noon + minutes(60.0 * hours)),
            ..by(lever)
        };
        let time = |at: Moment| format!("{} h", (at - noon).get() / 60.0);
        begins(&way, &[None, Some(noon + minutes(-300.0))], &time)
    };
    let yeast = |bake| Lever::Yeast { bake, times: 1.5 };
    assert_eq!(
        told(yeast(1), Some(-4.0)),
        "begins at -4 h instead of -5 h, "
    );
    // A minute is nothing, and what is begun at once has no beginning of its own.
    assert_eq!(told(yeast(1), Some(-5.0 + 1.0 / 60.0)), "");
    assert_eq!(told(yeast(0), Some(-4.0)), "");
    assert_eq!(told(yeast(1), None), "");
}
