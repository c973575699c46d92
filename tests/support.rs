//! What the checks share.

pub mod baker;
pub mod plan;
pub mod read;
pub mod reckon;
pub mod reforecast;
pub mod replan;
pub mod script;

use domain::bake::{Bake, BakeId, Entry, Event, Intent, Start, decide};
use domain::formula::{Formula, StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::units::{Minutes, Moment};
use records::starters;

/// A formula that comes with the app.
///
/// # Panics
/// When none has this name.
#[must_use]
pub fn starter(id: &str) -> Formula {
    let mut starters = starters::all().into_iter();
    let found = starters.find(|formula| formula.id.0 == id);
    found.expect("a starter of that name")
}

/// A bake that begins now.
///
/// # Panics
/// Never: its log begins with its start.
#[must_use]
pub fn begin(formula: Formula, kitchen: Kitchen, now: Moment) -> Bake {
    let event = Event::Started(Box::new(Start { formula, kitchen }));
    let log = vec![Entry { at: now, event }];
    Bake::from_log(BakeId("checked".to_owned()), log).expect("the log begins with its start")
}

/// Asks something of a bake that it grants.
///
/// # Panics
/// When it is refused.
pub fn say(bake: &mut Bake, intent: Intent, now: Moment) {
    let entries = decide(bake, intent, now).expect("it can be so");
    bake.append(entries);
}

/// Ends every step of a bake before the first of a kind, each after its `length` from `start` on, and gives that step
/// with the time.
///
/// # Panics
/// When no step is of that kind.
pub fn up_to(
    bake: &mut Bake,
    kind: StepKind,
    start: Moment,
    length: impl Fn(StepKind) -> Minutes,
) -> (StepId, Moment) {
    let steps = bake.state().formula.steps.clone();
    let mut now = start;
    for step in &steps {
        if step.kind == kind {
            return (step.id, now);
        }
        if bake.state().is_open(step.id) {
            now = now + length(step.kind);
            say(bake, Intent::Done(step.id), now);
        }
    }
    panic!("no step of that kind");
}

/// Buns that have proofed for half an hour, beside a braid that has baked for as long as it likely does, or is baked; and
/// the moment.
///
/// # Panics
/// Never: the starters have these steps.
#[must_use]
pub fn braid_in_the_oven(is_baked: bool) -> ([Bake; 2], Moment) {
    let nine = Moment::from_epoch_ms(1_789_894_800_000);
    let baked = |id, at| begin(starter(id), Kitchen::UNMEASURED, at);
    let length = |_| Minutes::clamped(5.0);
    let mut braid = baked("orange-braid", nine);
    let (bake, in_since) = up_to(&mut braid, StepKind::Bake, nine, length);
    let now = in_since + Minutes::clamped(32.0);
    if is_baked {
        say(&mut braid, Intent::Done(bake), now);
    }
    // Gone through once, to know when they have to begin.
    let mut buns = baked("plum-almond-buns", nine);
    let (_, proof) = up_to(&mut buns, StepKind::FinalProof, nine, length);
    let start = now - (proof - nine) - Minutes::clamped(30.0);
    let mut buns = baked("plum-almond-buns", start);
    up_to(&mut buns, StepKind::FinalProof, start, length);
    ([buns, braid], now)
}

/// Fails with both numbers, their distance and the case's name.
///
/// # Panics
/// When `got` is further from `expected` than `tolerance`, or is not a number.
pub fn assert_close(case: &str, got: f64, expected: f64, tolerance: f64) {
    let off = (got - expected).abs();
    assert!(
        off <= tolerance,
        "{case}: got {got}, expected {expected}, off by {off}, more than {tolerance}"
    );
}
