//! Hands before a time away have time to spare, and what slips into it all the same is told.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, State, Wishes};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{
    Asks, BeforeAway, Nearest, Timetable, What, away, conflict, timetable,
};
use domain::schedule::{LeftOut, dough_left_out, weighed_out};
use domain::units::{Celsius, Minutes, Moment, minutes};
use proptest::prelude::*;

use super::asked::{at_once, go_on, hours, planned};
use super::redone::days;
use super::{NINE, TABLES};

/// From 23:00 to 06:30, and breakfast at eight.
const BED: Minutes = minutes(14.0 * 60.0);
const UP: Minutes = minutes(21.5 * 60.0);
const BREAKFAST: Minutes = minutes(23.0 * 60.0);

/// A bread for a table, with a night before it.
fn overnight(id: &str, air: f64, bed: Minutes, up: Minutes, table: Minutes) -> Bake {
    let kitchen = Kitchen {
        air: Celsius::clamped(air),
        ..Kitchen::UNMEASURED
    };
    let mut bake = begin(starter(id), kitchen, NINE);
    let wishes = Wishes {
        table: Some(NINE + table),
        not_before: None,
        away: vec![(NINE + bed, NINE + up)],
    };
    say(&mut bake, Intent::Wish(Box::new(wishes)), NINE);
    bake
}

fn braid() -> Bake {
    let air = Kitchen::UNMEASURED.air.get();
    overnight(TABLES[1][0], air, BED, UP, BREAKFAST)
}

fn before_night(plan: &Timetable, bake: &Bake, now: Moment) -> Option<BeforeAway> {
    let states = [bake.state()];
    let told = plan.plan.before_away(&states, &away(&states), now);
    told.first().copied()
}

/// An evening that is gone through by its plan.
struct Evening {
    bake: Bake,
    plan: Timetable,
    now: Moment,
}

impl Evening {
    fn of(bake: Bake) -> Self {
        let plan = planned(std::slice::from_ref(&bake), NINE).expect("there is a plan");
        Self {
            bake,
            plan,
            now: NINE,
        }
    }

    /// Ends what ends next, so much later than planned; nothing once that would be in the night.
    fn go_on(&mut self, bed: Minutes, later: Minutes) -> Option<StepId> {
        let items = self.plan.plan.items.iter();
        let next = items
            .filter_map(|item| match item.what {
                What::Step(_, step) if self.bake.state().is_open(step) => Some((step, item.end)),
                _ => None,
            })
            .min_by_key(|&(_, end)| end);
        let (step, end) = next.filter(|&(_, end)| end + later <= NINE + bed)?;
        // A fold on the way is done in its time.
        let folds: Vec<_> = self
            .plan
            .plan
            .items
            .iter()
            .filter_map(|item| match item.what {
                What::Fold(_, of, _) if item.end <= end => Some((of, item.end)),
                _ => None,
            })
            .collect();
        for (of, at) in folds {
            self.now = self.now.max(at);
            say(&mut self.bake, Intent::Folded(of), self.now);
        }
        self.now = self.now.max(end + later);
        say(&mut self.bake, Intent::Done(step), self.now);
        let states = [self.bake.state()];
        let again = timetable(&states, self.now, Some(&self.plan), &mut || true);
        self.plan = again.expect("there was a plan");
        Some(step)
    }

    fn left_out(&self) -> Option<LeftOut> {
        self.plan.plan.left_out(0, self.bake.state(), None)
    }

    fn ready(&self) -> Moment {
        self.plan.ready[0].expect("it has an end").likely()
    }

    /// Whether something waits longer than is good for it by more than so much.
    fn waits_too_long(&self, but_for: Minutes) -> bool {
        let mut items = self.plan.plan.items.iter();
        items.any(|item| item.too_late_by.is_some_and(|late| late > but_for))
    }
}

/// What the hands do last may be late by what the steps before it may take longer, in quadrature. Of the formula's own
/// windows those are 4, 4, 5, 1, 1, 25, 3, 3, 10, 5, 15, 2, 1, 6, 2 and 2 min, 34 together, and in a kitchen that nobody
/// measured the two rises may take half as much again and twice that: 45 to 55.
#[test]
fn hands_before_a_night_have_as_much_to_spare_as_they_may_be_late() {
    let bake = braid();
    let plan = planned(std::slice::from_ref(&bake), NINE).expect("there is a plan");
    let before = before_night(&plan, &bake, NINE).expect("it has work before the night");
    assert_eq!(before.from, NINE + BED);
    assert!((45.0..=55.0).contains(&before.buffer.get()), "{before:?}");
    assert!(
        (before.spare - before.buffer).get().abs() <= 2.0,
        "{before:?}"
    );
    // The morning is for serving alone, as it was.
    let ready = plan.ready[0].expect("it has an end").likely();
    assert!((ready - (NINE + UP)).get() <= 3.0);
}

#[test]
fn who_is_late_within_that_has_the_table_as_it_was() {
    for later in [2.0, 10.0, 40.0] {
        let mut at = 0;
        loop {
            let mut evening = Evening::of(braid());
            let ready = evening.ready();
            let reached = (0..at).all(|_| evening.go_on(BED, minutes(0.0)).is_some());
            let Some(step) = reached
                .then(|| evening.go_on(BED, minutes(later)))
                .flatten()
            else {
                break;
            };
            let case = format!("{later} min at {step:?}");
            assert_eq!(evening.ready(), ready, "{case}");
            assert_eq!(evening.left_out(), None, "{case}");
            // An oven that is switched on late lets a proofed braid wait for it, by no more than that.
            assert!(!evening.waits_too_long(minutes(later)), "{case}");
            while evening.go_on(BED, minutes(0.0)).is_some() {}
            assert!((evening.ready() - ready).get() <= 2.0, "{case}, at last");
            assert!(!evening.waits_too_long(minutes(later)), "{case}, at last");
            at += 1;
        }
        assert!(at > 15, "only {at} steps of the evening");
    }
}

/// Whatever would wait beyond the rule, for weighed milk and egg or for a dough, is said to, and staying up is a way.
#[test]
fn what_slips_beyond_that_is_told_and_who_stays_up_keeps_the_table() {
    let mut told = [0, 0];
    for at in [0, 4, 9] {
        let mut evening = Evening::of(braid());
        for _ in 0..at {
            evening.go_on(BED, minutes(0.0)).expect("it is evening");
        }
        evening.go_on(BED, minutes(60.0)).expect("it is evening");
        let (state, now) = (evening.bake.state(), evening.now);
        let left = evening.left_out();
        let left = left.unwrap_or_else(|| panic!("after {at} it is told"));
        assert!(left.at >= NINE + UP, "after {at}: {left:?}");
        if !left.is_dough {
            let weighed = weighed_out(state, left.step, left.at, None);
            assert_eq!(weighed, ["whole milk", "beaten egg"], "after {at}");
        }
        told[usize::from(left.is_dough)] += 1;
        let found = at_once(conflict(&[state], now, &go_on)).expect("there is time to tell");
        let found = found.expect("it can't all be kept");
        let up = found.nearest.iter().find_map(|nearest| match *nearest {
            Nearest::Leave { at, .. } => Some((at, nearest.asks(&[state]))),
            _ => None,
        });
        let (until, asks) = up.expect("staying up is a way");
        assert!(until - (NINE + BED) <= minutes(20.0), "{until:?}");
        let Asks::Wishes(wishes) = asks else {
            panic!("a time away is a wish")
        };
        let mut stays = evening.bake.clone();
        say(&mut stays, Intent::Wish(Box::new(wishes[0].1.clone())), now);
        let plan = planned(&[stays], now).expect("there is a plan");
        assert!(
            plan.plan
                .items
                .iter()
                .all(|item| item.too_late_by.is_none())
        );
        assert!(!plan.tightest().expect("a table").is_late());
    }
    assert_eq!(told, [1, 2]);
}

/// Who ended something may be at what comes next without a word. But if that would leave a dough out until the morning,
/// it is what was weighed that is said to be put away: as far as anybody knows, it wasn't mixed.
#[test]
fn nobody_is_taken_to_have_mixed_what_would_be_left_out_by_that() {
    let mut evening = Evening::of(braid());
    evening.go_on(BED, minutes(10.0)).expect("it is evening");
    let states = [evening.bake.state()];
    let mut told = 0;
    for _ in 0..120 {
        evening.now = evening.now + minutes(1.0);
        let again = timetable(&states, evening.now, Some(&evening.plan), &mut || true);
        evening.plan = again.expect("there was a plan");
        assert!(!evening.waits_too_long(minutes(120.0)), "{:?}", evening.now);
        let left = evening.plan.plan.left_out(0, states[0], None);
        assert!(left.is_none_or(|left| !left.is_dough));
        told += usize::from(left.is_some());
    }
    assert!((30..120).contains(&told), "{told}");
}

/// What was weighed stands out from when it was, and not once it is in a dough, nor for as long as the rule has it.
#[test]
fn what_was_weighed_stands_out_for_two_hours_at_most() {
    let mut bake = begin(starter(TABLES[1][0]), Kitchen::UNMEASURED, NINE);
    let step = |bake: &Bake, kind| {
        let mut steps = bake.state().formula.steps.iter();
        steps.find(|step| step.kind == kind).expect("it has one").id
    };
    let (gather, mix, divide) = (
        step(&bake, StepKind::Gather),
        step(&bake, StepKind::Mix),
        step(&bake, StepKind::Divide),
    );
    let out = |bake: &Bake, step, after: f64| {
        weighed_out(bake.state(), step, NINE + hours(after), None).len()
    };
    assert_eq!(out(&bake, mix, 9.0), 0, "nothing is weighed yet");
    say(&mut bake, Intent::Done(gather), NINE);
    assert_eq!(out(&bake, mix, 2.0), 0);
    assert!(out(&bake, mix, 2.1) > 0);
    let state: &State = bake.state();
    assert!(
        !dough_left_out(state, mix, hours(9.0)),
        "there is no dough yet"
    );
    assert!(dough_left_out(state, divide, hours(2.1)));
    assert!(!dough_left_out(state, divide, hours(2.0)));
    say(&mut bake, Intent::Done(mix), NINE);
    let knead = step(&bake, StepKind::Knead);
    assert_eq!(out(&bake, knead, 9.0), 0, "it is in the dough");
    // Of a wash it is said where that is what comes next.
    let wash = step(&bake, StepKind::Wash);
    assert!(out(&bake, wash, 9.0) > 0);
}

proptest! {
    #![proptest_config(days(40))]

    /// Whoever is late by less than what is told to spare has no table moved by it beyond the night.
    #[test]
    fn less_than_what_is_told_to_spare_moves_no_table_beyond_the_night(
        which in 0..3_usize,
        air in 19.0..26.0_f64,
        bed in 10.0..15.0_f64,
        night in 6.0..9.0_f64,
        table in 0.5..6.0_f64,
        place in 0..16_usize,
        part in 0.0..1.0_f64,
    ) {
        let whole = |hours: f64| minutes((hours * 60.0).round());
        let (bed, up) = (whole(bed), whole(bed + night));
        let bake = overnight(TABLES[which][0], air, bed, up, up + whole(table));
        let mut evening = Evening::of(bake);
        for _ in 0..place {
            if evening.go_on(bed, minutes(0.0)).is_none() { return Ok(()) }
        }
        let before = before_night(&evening.plan, &evening.bake, evening.now);
        let Some(before) = before else { return Ok(()) };
        let (was, waited) = (evening.ready(), evening.waits_too_long(minutes(0.0)));
        let later = minutes((before.spare.get() * part).floor());
        if evening.go_on(bed, later).is_none() { return Ok(()) }
        let case = || format!("{} of {} min", later.get(), before.spare.get());
        prop_assert!((evening.ready() - was).get() <= later.get() + 6.0, "{}: {:?}", case(), evening.ready() - was);
        prop_assert!(waited || !evening.waits_too_long(later), "{}", case());
    }
}
