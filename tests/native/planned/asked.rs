//! Wishes asked of bakes, and whether their plan keeps them.

use std::pin::{Pin, pin};
use std::task::{Context, Poll, Waker};

use checks::say;
use domain::bake::{Bake, Intent, State, Wishes};
use domain::schedule::plan::{Wished, wished};
use domain::units::{Minutes, Moment, minutes};

/// Nobody else wants a turn.
pub(crate) fn go_on() -> Pin<Box<dyn Future<Output = bool>>> {
    Box::pin(std::future::ready(true))
}

/// The answer to what never waits.
pub(crate) fn at_once<T>(question: impl Future<Output = T>) -> T {
    let mut context = Context::from_waker(Waker::noop());
    match pin!(question).poll(&mut context) {
        Poll::Ready(answer) => answer,
        Poll::Pending => panic!("it waited for something"),
    }
}

pub(crate) fn states(bakes: &[Bake]) -> Vec<&State> {
    bakes.iter().map(Bake::state).collect()
}

/// The same wishes of every bake.
pub(crate) fn wish(bakes: &mut [Bake], wishes: &Wishes, now: Moment) {
    for bake in bakes {
        say(bake, Intent::Wish(Box::new(wishes.clone())), now);
    }
}

pub(crate) fn planned(bakes: &[Bake], now: Moment) -> Option<Wished> {
    wished(&states(bakes), now, None, &mut || true)
}

/// How much is amiss with a plan: after its table, and waiting too long.
pub(crate) fn amiss(found: &Wished) -> f64 {
    let over = found.plan.items.iter().filter_map(|item| item.too_late_by);
    let over = over.fold(0.0, |all, over| all + over.get());
    let after = found.kept.map_or(0.0, |kept| (-kept.spare.get()).max(0.0));
    over + after
}

/// Whether a plan keeps everything that is wished of some bakes, but for what waits too long whatever is wished.
pub(crate) fn are_kept(bakes: &[Bake], anyway: f64, now: Moment) -> bool {
    planned(bakes, now).is_some_and(|found| amiss(&found) <= anyway + 0.5)
}

/// How long something waits too long in bakes of which nothing is wished.
pub(crate) fn amiss_anyway(bakes: &[Bake], now: Moment) -> f64 {
    let mut free = bakes.to_vec();
    for bake in &mut free {
        for &step in bake.state().pins.clone().keys() {
            say(bake, Intent::Pin(step, None), now);
        }
    }
    wish(&mut free, &Wishes::default(), now);
    amiss(&planned(&free, now).expect("there is a plan"))
}

pub(crate) fn hours(hours: f64) -> Minutes {
    minutes(60.0 * hours)
}
