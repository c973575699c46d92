//! A bread that is in the oven while another wants it: what has baked comes out at once, whatever is pressed at the other.

use checks::{braid_in_the_oven, say};
use domain::bake::{Bake, Intent, State, found_hot};
use domain::formula::{StepId, StepKind};
use domain::schedule::plan::{Goal, Plan, What, plan, timetable};
use domain::units::{Minutes, Moment, minutes};

use super::bounds;
use super::levers::step_of;

/// Buns that proof, and have for half an hour; and a braid that bakes, has for as long as it should, and may be baked.
struct Kitchenful {
    bakes: [Bake; 2],
    now: Moment,
}

const BUNS: usize = 0;
const BRAID: usize = 1;

impl Kitchenful {
    fn new(is_baked: bool) -> Self {
        let (bakes, now) = braid_in_the_oven(is_baked);
        Self { bakes, now }
    }

    fn of(&self, bake: usize, kind: StepKind) -> StepId {
        step_of(&self.bakes[bake], kind)
    }

    fn titled(&self, bake: usize, title: &str) -> StepId {
        let mut steps = self.bakes[bake].state().formula.steps.iter();
        let found = steps.find(|step| step.title == title);
        found.expect("it has one").id
    }

    fn out(&self, bake: usize) -> StepId {
        self.titled(bake, "Out of the oven")
    }

    /// When a step is planned from and to, in either order of the two.
    fn planned(&self, bake: usize, step: StepId, later: f64) -> [(Moment, Moment); 2] {
        let now = self.now + minutes(later);
        [[BUNS, BRAID], [BRAID, BUNS]].map(|order| {
            let states: Vec<&State> = order.iter().map(|&bake| self.bakes[bake].state()).collect();
            let found = timetable(&states, now, None, &mut || true).expect("there is a plan");
            let place = order.iter().position(|&other| other == bake);
            let what = What::Step(place.expect("it is one of them"), step);
            let plan: Plan = found.plan;
            let item = plan.item(what).expect("it is planned");
            (item.start, item.end)
        })
    }

    /// The oven is turned on for the buns, so long after now.
    fn turn_on(&mut self, later: f64) {
        let (on, at) = (self.of(BUNS, StepKind::OvenOn), self.now + minutes(later));
        let [buns, braid] = &mut self.bakes;
        let asked = found_hot(Intent::Done(on), buns.state(), &[braid.state()], at);
        say(buns, asked, at);
    }

    fn take_out(&mut self, later: f64) {
        let (out, at) = (self.out(BRAID), self.now + minutes(later));
        say(&mut self.bakes[BRAID], Intent::Done(out), at);
    }

    /// How long the oven is forecast to heat for the buns once it is on.
    fn heats(&self, later: f64) -> Minutes {
        let (heats, at) = (
            self.of(BUNS, StepKind::OvenHeats),
            self.now + minutes(later),
        );
        let forecast = self.bakes[BUNS].state().forecast(heats, at);
        let forecast = forecast.expect("it heats");
        forecast.look - forecast.start
    }

    fn comes_out_at_once(&self, later: f64) {
        for (start, _) in self.planned(BRAID, self.out(BRAID), later) {
            let waits = start - self.now;
            assert!(waits.get() < later + 1.0, "{waits:?} after {later} min");
        }
    }
}

#[test]
fn what_has_baked_comes_out_at_once_though_the_oven_was_turned_on_for_another() {
    let mut kitchen = Kitchenful::new(true);
    kitchen.comes_out_at_once(0.0);
    let (on, now) = (kitchen.of(BUNS, StepKind::OvenOn), kitchen.now);
    say(&mut kitchen.bakes[BUNS], Intent::Done(on), now);
    for later in [0.0, 4.0, 20.0] {
        kitchen.comes_out_at_once(later);
    }
    // The buns go in once it is empty.
    let out = kitchen.planned(BRAID, kitchen.out(BRAID), 0.0);
    let into = kitchen.planned(BUNS, kitchen.titled(BUNS, "Into the oven"), 0.0);
    for (out, into) in out.iter().zip(into) {
        assert!(out.1 <= into.0);
    }
}

#[test]
fn it_comes_out_before_what_somebody_is_at() {
    // Ten minutes later the buns' oven is wanted, too.
    const LATER: f64 = 10.0;
    let mut kitchen = Kitchenful::new(true);
    let on = kitchen.of(BUNS, StepKind::OvenOn);
    let at = kitchen.now + minutes(LATER);
    say(&mut kitchen.bakes[BUNS], Intent::Pick(on), at);
    kitchen.comes_out_at_once(LATER);
    // And what they are at goes on as soon as it is out.
    let out = kitchen.planned(BRAID, kitchen.out(BRAID), LATER);
    for (out, on) in out.iter().zip(kitchen.planned(BUNS, on, LATER)) {
        assert_eq!(out.1, on.0);
    }
}

#[test]
fn what_bakes_holds_the_oven_until_it_is_out_though_that_was_turned_on_for_another() {
    let mut kitchen = Kitchenful::new(false);
    let (on, now) = (kitchen.of(BUNS, StepKind::OvenOn), kitchen.now);
    say(
        &mut kitchen.bakes[BUNS],
        Intent::Done(on),
        now - minutes(8.0),
    );
    let bake = kitchen.planned(BRAID, kitchen.of(BRAID, StepKind::Bake), -7.0);
    let out = kitchen.planned(BRAID, kitchen.out(BRAID), -7.0);
    for (bake, out) in bake.iter().zip(out) {
        assert!((out.0 - bake.1).get() < 1.0, "{:?}", out.0 - bake.1);
    }
}

/// From 180 to 190 °C in a kitchen of 21 takes 1.2 of the 20 min from cold, and the open door 5.
#[test]
fn an_oven_is_hot_for_the_next_bread_from_the_one_in_it_or_just_out_of_it() {
    let mut turned_on_first = Kitchenful::new(true);
    for (from, to) in
        turned_on_first.planned(BUNS, turned_on_first.of(BUNS, StepKind::OvenHeats), 0.0)
    {
        assert_eq!(to - from, minutes(5.0), "as it is planned");
    }
    turned_on_first.turn_on(0.5);
    assert_eq!(turned_on_first.heats(0.5), minutes(5.0));
    turned_on_first.comes_out_at_once(1.0);

    let mut while_it_bakes = Kitchenful::new(false);
    while_it_bakes.turn_on(-6.0);
    assert_eq!(while_it_bakes.heats(-6.0), minutes(5.0));

    for (later, takes) in [(4.0, 5.0), (25.0, 5.0), (50.0, 20.0)] {
        let mut in_order = Kitchenful::new(true);
        in_order.take_out(2.0);
        in_order.turn_on(later);
        assert_eq!(in_order.heats(later), minutes(takes), "{later} min later");
    }
}

#[test]
fn that_the_oven_was_hot_is_taken_back_with_the_switch() {
    let mut kitchen = Kitchenful::new(true);
    kitchen.turn_on(0.5);
    let at = kitchen.now + minutes(1.0);
    say(&mut kitchen.bakes[BUNS], Intent::Undo, at);
    let (on, late) = (kitchen.of(BUNS, StepKind::OvenOn), at + minutes(60.0));
    say(&mut kitchen.bakes[BUNS], Intent::Done(on), late);
    assert_eq!(kitchen.heats(61.0), minutes(20.0));
}

/// Almonds that the plan had let begin some minutes ago, and of which nobody said anything.
#[test]
fn a_ripe_dough_comes_before_what_nobody_said_was_begun() {
    let mut kitchen = Kitchenful::new(true);
    kitchen.take_out(1.0);
    kitchen.turn_on(2.0);
    let (wash, proof) = (
        kitchen.titled(BUNS, "Egg wash"),
        kitchen.of(BUNS, StepKind::FinalProof),
    );
    let (toast, heats) = (
        kitchen.titled(BRAID, "Orange syrup"),
        kitchen.of(BUNS, StepKind::OvenHeats),
    );
    let hot = kitchen.now + minutes(10.0);
    say(&mut kitchen.bakes[BUNS], Intent::Done(heats), hot);
    let ripe = kitchen.now + minutes(20.0);
    let states: Vec<&State> = kitchen.bakes.iter().map(Bake::state).collect();
    let before = plan(&states, bounds(Goal::Soonest, &[]), hot, None, &mut || true);
    let mut before: Plan = before.expect("there is a plan");
    for item in &mut before.items {
        if item.what == What::Step(BRAID, toast) {
            (item.start, item.end) = (ripe - minutes(4.0), ripe + minutes(2.0));
        }
    }
    let at = ripe + minutes(1.0);
    let planned = |bakes: &[Bake]| {
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let found = plan(
            &states,
            bounds(Goal::Soonest, &[]),
            at,
            Some(&before),
            &mut || true,
        );
        let found = found.expect("there is a plan");
        let start = |bake, step| found.item(What::Step(bake, step)).expect("planned").start;
        (start(BUNS, wash), start(BRAID, toast))
    };
    let (_, taken_to_be_begun) = planned(&kitchen.bakes);
    assert_eq!(taken_to_be_begun, ripe - minutes(4.0));
    say(&mut kitchen.bakes[BUNS], Intent::Done(proof), ripe);
    let (wash, toast) = planned(&kitchen.bakes);
    assert!(
        wash - at < minutes(1.0) && toast > wash,
        "{:?} {:?}",
        wash - at,
        toast - at
    );
}
