//! Whole bakes as scripts: `tests/bakes/*.txt`, readable by a baker.
//!
//! A script begins with the kitchen and the bakes, then goes through the day:
//!
//! ```text
//! kitchen air 22, fridge 4, by hand, oven heats in 20
//! bake buns: plum-almond-buns from 09:00     # the first word names the bake
//!
//! 09:13 done gather                          # what the baker says
//! expect ask work cook-the-cream             # what must hold at that moment
//! 10:40 expect window first-rise 11:15..11:55 likely 11:34 within 5
//! 11:00 braid: done knead                    # with two bakes: whose step it is
//! 13:00 clock-set 60                         # the phone's clock is put forward, and shows 14:00
//! 14:00 crash                                # the phone dies and reads its log
//! ```
//!
//! With a wish the day is planned, and planned anew after every line, as the app does it:
//!
//! ```text
//! wish table 16:00                           # also: soonest; away 12:00..13:00; not-before 09:30
//! wish table 19:00 for braid                 # a table of its own
//! pin divide 11:50                           # and unpin divide
//! retard first-rise 20:20..06:30             # in the fridge from then to then; and no-retard first-rise
//! expect plan table 15:10..15:50 likely 15:25 within 5
//! expect plan spare 35 within 3              # so much sooner than the table that was wished
//! expect braid: plan spare 40 within 3       # of the table that is wished for that
//! expect begins 09:40 within 3               # of a bake that hasn't begun
//! expect planned divide 11:40 within 2       # when a step starts
//! expect planned first-rise in 20:20 within 1 # when its dough goes into the fridge; also out
//! expect not planned first-rise out
//! 09:40 hear begin                           # the call to begin, whose moment only the plan knows
//! expect moved by 20 within 2 because hands divide 20 within 1
//! expect moved by 15 within 5 because kitchen 18 within 0.5
//! expect moved next oven-on 13:17 to 13:05 within 3
//! expect moved nothing                       # since what was last told
//! expect says "Ready at 16:20~5 instead of 16:00~5: Divide was done 20~1 min later than planned."
//! ```
//!
//! - What `says` expects is judged by the tests of the app, which has the words; a `~` stands before how far a number may be off.
//! - A clock that goes back means the next day.
//! - A step is named by its title or its kind, in lower case with hyphens.
//! - Numbers after "within" are minutes, and degrees behind a temperature. `likely 11:34 within 5` binds all three
//!   moments of a window; a `table` line binds its likely moment to a band.
//! - Each script runs twice, the second time with a crash after every line.
//!
//! What the scripts expect is reasoned beside each line, from the formula's own
//! times and published rules, and never pasted from a run.

use std::fs;

use checks::script;

fn run(name: &str) {
    let text = script::read(name);
    for crash_after_every_line in [false, true] {
        let wrong = script::run(&text, crash_after_every_line);
        let crashing = if crash_after_every_line {
            ", crashing after every line"
        } else {
            ""
        };
        assert!(wrong.is_empty(), "{name}{crashing}:\n{}", wrong.join("\n"));
    }
}

macro_rules! scripts {
    ($($name:ident)*) => {
        $(
            #[test]
            fn $name() {
                run(concat!(stringify!($name), ".txt"));
            }
        )*

        #[test]
        fn every_script_is_run() {
            let mut found: Vec<String> = fs::read_dir(script::folder())
                .expect("the folder of scripts is there")
                .map(|file| file.expect("a readable folder").file_name())
                .map(|name| name.to_string_lossy().into_owned())
                .collect();
            found.sort();
            let mut run = vec![$(concat!(stringify!($name), ".txt")),*];
            run.sort_unstable();
            assert_eq!(found, run);
        }
    };
}

scripts! {
    called_away
    cold_kitchen
    cold_poolish
    crash_and_resume
    elsewhere
    folds
    hot_kitchen
    kitchen_changes
    late_baker
    normal_buns
    overnight_loaf
    own_time
    plan_dough_cool
    plan_filling_early
    plan_fixed_and_missed
    plan_kitchen_changed
    plan_late_before_night
    plan_late_by_twenty
    plan_late_two_tables
    plan_night_in_fridge
    plan_night_late_twice
    plan_pressed_late
    plan_ready_early
    plan_two_breads
    set_clock
    thermometer
    two_bakes
    warm_fridge
}
