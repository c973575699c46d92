//! A filling that is made early: what is hot goes on at once, and the dough waits for its table all the same.

use checks::{begin, say, starter};
use domain::bake::{AlarmId, Bake, Intent, Wishes};
use domain::formula::StepId;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Item, Timetable, What, timetable};
use domain::units::{Minutes, Moment, minutes};

use super::NINE;
use super::asked::{at_table, hours, planned, states, wish};

/// Buns for a table, as far as somebody has said that steps are done, with the plan that followed.
struct Early {
    bakes: Vec<Bake>,
    now: Moment,
    found: Timetable,
}

impl Early {
    fn for_table_in(ahead: f64) -> Self {
        let mut bakes = vec![begin(
            starter("plum-almond-buns"),
            Kitchen::UNMEASURED,
            NINE,
        )];
        wish(&mut bakes, &at_table(NINE + hours(ahead)), NINE);
        let found = planned(&bakes, NINE).expect("there is a plan");
        Self {
            bakes,
            now: NINE,
            found,
        }
    }

    fn step(&self, title: &str) -> StepId {
        let steps = &self.bakes[0].state().formula.steps;
        let step = steps.iter().find(|step| step.title == title);
        step.expect("it is in the formula").id
    }

    fn at(&mut self, after: f64) -> &mut Self {
        self.now = NINE + minutes(after);
        let states = states(&self.bakes);
        let found = timetable(&states, self.now, Some(&self.found), &mut || true);
        self.found = found.expect("there is a plan");
        self
    }

    fn done(&mut self, after: f64, title: &str) -> &mut Self {
        let step = self.step(title);
        say(
            &mut self.bakes[0],
            Intent::Done(step),
            NINE + minutes(after),
        );
        self.at(after)
    }

    fn item(&self, title: &str) -> Item {
        let item = self.found.plan.item(What::Step(0, self.step(title)));
        *item.expect("it is planned")
    }

    fn waits(&self, title: &str) -> Minutes {
        self.item(title).start - self.now
    }
}

/// Ten minutes is what the formula lets cream wait in its pan: no table makes it wait for longer.
#[test]
fn scalding_cream_is_spread_at_once_whatever_the_table() {
    for ahead in [10.0, 30.0, 60.0] {
        let mut early = Early::for_table_in(ahead);
        early.done(5.0, "Gather").done(10.0, "Cook the cream");
        let spread = early.item("Spread the cream");
        assert!(
            early.waits("Spread the cream") <= minutes(1.0),
            "{spread:?}"
        );
        assert_eq!(spread.too_late_by, None);
        // What stands on the way to cold goes on as well.
        let cold = early.item("Cream into fridge");
        assert!(cold.start - early.item("Cream cools").end <= minutes(1.0));
        let mix = early.item("Mix the dough");
        assert_eq!(early.found.begins, [Some(mix.start)], "{ahead} h");
        assert!(mix.start - early.now > hours(ahead - 8.0), "{mix:?}");
    }
}

/// Cream that hands are at is as hot as one that was cooked.
#[test]
fn what_hands_are_at_takes_along_what_has_to_follow_it() {
    let mut early = Early::for_table_in(10.0);
    early.done(5.0, "Gather");
    let cook = early.step("Cook the cream");
    say(&mut early.bakes[0], Intent::Pick(cook), NINE + minutes(6.0));
    early.at(7.0);
    let (cook, spread) = (early.item("Cook the cream"), early.item("Spread the cream"));
    assert!(cook.start <= early.now && spread.start - cook.end <= minutes(1.0));
    assert!(early.waits("Mix the dough") > hours(2.0));
}

/// The dough's own beginning is as late as if the filling were ready: nothing that goes on meanwhile begins it.
#[test]
fn a_filling_that_is_made_early_leaves_the_dough_waiting_for_its_table() {
    let mut early = Early::for_table_in(10.0);
    early
        .done(5.0, "Gather")
        .done(10.0, "Cook the cream")
        .done(14.0, "Spread the cream");
    let mix = early.item("Mix the dough").start;
    assert_eq!(early.found.begins, [Some(mix)]);
    let margin = early.found.margins[0];
    // Five minutes less of a buffer and a quarter of an hour more are no reason to call off what was promised.
    let off = (margin.spare() - margin.buffer).get();
    assert!((-5.0..=16.0).contains(&off), "{margin:?}");
    // An hour later nobody has said that the cream is cold, and nobody is taken to be mixing.
    early.at(64.0);
    assert_eq!(early.item("Mix the dough").start, mix);
    let cold = early.item("Cream into fridge");
    assert!(
        cold.start - early.item("Cream cools").end <= minutes(1.0),
        "{cold:?}"
    );
    // Once it is cold everything waits.
    early
        .done(80.0, "Cream cools")
        .done(81.0, "Cream into fridge");
    assert!((early.item("Mix the dough").start - mix).get().abs() <= 6.0);
    // The cream stands in the fridge meanwhile.
    let mut items = early.found.plan.items.iter();
    let first = items.find(|item| !matches!(item.what, What::Kept(..)));
    let mix = early.item("Mix the dough");
    assert_eq!(first.map(|item| item.start), Some(mix.start));
}

/// A call that nobody heard found nobody; whoever heard it is taken to have begun then.
#[test]
fn nobody_is_mixing_who_was_not_there() {
    let mut early = Early::for_table_in(10.0);
    early
        .done(5.0, "Gather")
        .done(10.0, "Cook the cream")
        .done(14.0, "Spread the cream")
        .done(80.0, "Cream cools")
        .done(81.0, "Cream into fridge");
    let due = (early.item("Mix the dough").start - NINE).get();
    for late in [2.0, 7.0, 30.0] {
        early.at(due + late);
        assert_eq!(early.waits("Mix the dough"), minutes(0.0), "{late} late");
    }
    say(
        &mut early.bakes[0],
        Intent::Hear(AlarmId::Begin),
        NINE + minutes(due + 30.5),
    );
    early.at(due + 31.0);
    let since = early.item("Mix the dough").start;
    early.at(due + 34.0);
    assert_eq!(early.item("Mix the dough").start, since);
    assert!((since - NINE).get() - due >= 30.0, "{since:?}");
}

/// Nor is anybody gathering who was only asked to.
#[test]
fn a_beginning_that_nobody_tapped_was_not_made() {
    let mut early = Early::for_table_in(10.0);
    let due = (early.item("Gather").start - NINE).get();
    early.at(due).at(due + 9.0);
    assert_eq!(early.waits("Gather"), minutes(0.0));
    // But whoever began has gone on with what comes next.
    early.done(due + 20.0, "Gather").at(due + 27.0);
    assert_eq!(early.waits("Cook the cream").get().round(), -7.0);
}

/// Cooked cream with egg keeps three days at least in a cold fridge (`bake/keeps.rs` has the source): a table in five
/// doesn't let it lie for longer.
#[test]
fn no_table_lets_a_filling_lie_longer_than_it_keeps() {
    let mut early = Early::for_table_in(5.0 * 24.0);
    early
        .done(5.0, "Gather")
        .done(10.0, "Cook the cream")
        .done(14.0, "Spread the cream")
        .done(80.0, "Cream cools");
    for put_away in [false, true] {
        if put_away {
            early.done(81.0, "Cream into fridge");
        }
        let lies = early.item("Fill").start - (NINE + minutes(81.0));
        assert!(lies <= hours(72.0) + minutes(1.0), "{lies:?}");
        // And not much shorter, for the table is still to come.
        assert!(lies >= hours(70.0), "{lies:?}");
        assert_eq!(early.item("Fill").too_late_by, None);
    }
    // Within its days it is the table that counts.
    let near = Early::for_table_in(2.0 * 24.0);
    assert!(near.waits("Gather") > hours(40.0));
}

/// A plan from before that has it later ends no later for it, and yet cream that may wait half an hour is put away at once.
#[test]
fn what_may_wait_but_so_long_after_what_has_ended_does_not_wait_for_nothing() {
    let mut bakes = vec![begin(
        starter("plum-almond-buns"),
        Kitchen::UNMEASURED,
        NINE,
    )];
    wish(&mut bakes, &Wishes::default(), NINE);
    let found = planned(&bakes, NINE).expect("there is a plan");
    let mut early = Early {
        bakes,
        now: NINE,
        found,
    };
    for title in [
        "Gather",
        "Cook the cream",
        "Spread the cream",
        "Mix the dough",
        "Knead",
        "Dough temperature",
        "Cover the bowl",
        "Toast almonds",
    ] {
        let end = (early.item(title).end - NINE).get();
        early.done(end, title);
    }
    let end = (early.item("Cream cools").end - NINE).get();
    let soon = (early.now - NINE).get() + 1.0;
    assert!(end - soon > 5.0, "it still cools for a while");
    early.done(soon, "Cream cools");
    assert!(early.waits("Cream into fridge") <= minutes(1.0));
}
