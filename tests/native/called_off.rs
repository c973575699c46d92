//! A bake that was only planned is called off by taking back what it was started for.

use checks::say;
use domain::bake::{Intent, Wishes};
use domain::kitchen::Kitchen;
use domain::units::{Moment, minutes};

/// Who wished for the wrong hour or took the wrong formula takes back both by one press, as long as nothing was done.
#[test]
fn a_bake_that_was_started_for_a_table_goes_with_it() {
    let start = Moment::from_epoch_ms(1_789_894_800_000);
    let mut bake = checks::begin(
        checks::starter("plum-almond-buns"),
        Kitchen::UNMEASURED,
        start,
    );
    let table = |hours: f64| {
        let wishes = Wishes {
            table: Some(start + minutes(60.0 * hours)),
            ..Wishes::default()
        };
        Intent::Wish(Box::new(wishes))
    };
    say(&mut bake, table(8.0), start);
    let mut undone = bake.clone();
    say(&mut undone, Intent::Undo, start + minutes(1.0));
    assert!(undone.state().is_over());
    // Another table is taken back by itself.
    let mut moved = bake.clone();
    say(&mut moved, table(9.0), start + minutes(1.0));
    say(&mut moved, Intent::Undo, start + minutes(2.0));
    assert!(!moved.state().is_over());
    assert_eq!(moved.state().wishes.table, Some(start + minutes(480.0)));
    // What was begun stays.
    let first = bake.state().formula.steps[0].id;
    let mut begun = bake.clone();
    say(&mut begun, Intent::Done(first), start + minutes(5.0));
    say(&mut begun, Intent::Undo, start + minutes(6.0));
    assert!(!begun.state().is_over() && begun.state().wishes.table.is_some());
    // One that was started to be begun at once, and is wished for a table later, is still there.
    let mut bake = checks::begin(
        checks::starter("plum-almond-buns"),
        Kitchen::UNMEASURED,
        start,
    );
    say(&mut bake, table(8.0), start + minutes(1.0));
    say(&mut bake, Intent::Undo, start + minutes(2.0));
    assert!(!bake.state().is_over() && bake.state().wishes.table.is_none());
}
