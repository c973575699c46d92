//! The plan of everything that runs, redone whenever something happens.

use domain::bake::{Alarm, BakeId, State, begin_alarm};
use domain::schedule::plan::{Plan, Wished, wished};
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;

use super::Oventide;

/// A baker who is behind the plan is planned for anew no more often than this.
const AGAIN: Minutes = minutes(1.0);

/// The plan of all running bakes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Planned {
    /// Which bakes; the plan tells them by their places here.
    pub(crate) bakes: Vec<BakeId>,
    /// The plan itself.
    pub(crate) wished: Wished,
    /// When it was made.
    pub(crate) at: Moment,
    /// By bake: when the baker is called to begin it. A baker who is late was called at the moment that has
    /// passed, and a bake that couldn't begin any sooner calls nobody: it was only just planned.
    calls: Vec<Option<Moment>>,
}

impl Planned {
    /// The place of a bake among those planned.
    pub(crate) fn place(&self, bake: &BakeId) -> Option<usize> {
        self.bakes.iter().position(|known| known == bake)
    }

    /// When a bake that hasn't begun is to begin.
    pub(crate) fn begins(&self, bake: &BakeId) -> Option<Moment> {
        *self.wished.begins.get(self.place(bake)?)?
    }

    /// The alarm for beginning a bake.
    pub(crate) fn begin_alarm(&self, bake: &BakeId, state: &State) -> Option<Alarm> {
        // Without a table nobody has to be called: the baker started it just now.
        self.wished.kept?;
        begin_alarm(state, (*self.calls.get(self.place(bake)?)?)?)
    }

    /// A new plan, after this one if there was one.
    fn new(bakes: Vec<BakeId>, wished: Wished, at: Moment, before: Option<&Self>) -> Self {
        let call = |(bake, begins): (&BakeId, &Option<Moment>)| {
            let begins = (*begins)?;
            let was = || *before?.calls.get(before?.place(bake)?)?;
            if begins > at {
                Some(begins)
            } else {
                was().filter(|&was| was <= at)
            }
        };
        Self {
            calls: bakes.iter().zip(&wished.begins).map(call).collect(),
            bakes,
            wished,
            at,
        }
    }

    /// The plan by the places of other bakes, as what is to be kept of it.
    fn before(&self, bakes: &[BakeId]) -> Plan {
        let place = |old: usize| {
            let id = self.bakes.get(old)?;
            bakes.iter().position(|bake| bake == id)
        };
        self.wished.plan.clone().reordered(&place)
    }
}

impl Oventide {
    /// Plans anew whenever a bake's log has grown, and when the bakes have fallen behind the plan.
    pub(super) fn watch_plan(self) {
        Effect::new(move |last: Option<Option<Vec<domain::bake::Bake>>>| {
            let now = self.beat.get();
            let bakes = self.bakes.read();
            let running: Vec<_> = bakes
                .iter()
                .filter(|bake| !bake.state().is_over())
                .cloned()
                .collect();
            let shown = self.plan.read_untracked();
            let states: Vec<&State> = running.iter().map(|bake| bake.state()).collect();
            let is_new = last.flatten().as_ref() != Some(&running);
            let is_behind = shown.as_ref().is_some_and(|planned| {
                now - planned.at >= AGAIN && planned.wished.plan.is_overtaken(&states, now)
            });
            if is_new || is_behind {
                let ids: Vec<BakeId> = running.iter().map(|bake| bake.id.clone()).collect();
                let before = shown.as_ref().map(|planned| planned.before(&ids));
                let found = (!states.is_empty())
                    .then(|| wished(&states, now, before.as_ref(), &mut patience()));
                let shown = shown.as_ref();
                let planned = found.flatten();
                let planned = planned.map(|wished| Planned::new(ids, wished, now, shown));
                self.plan.set(planned);
            }
            Some(running)
        });
    }
}

/// How often a search may ask whether to go on: some tenths of a second on a phone, of which a kitchen's plan takes
/// a hundredth.
const PATIENCE: u32 = 20_000;

pub(super) fn patience() -> impl FnMut() -> bool {
    let mut left = PATIENCE;
    move || {
        left = left.saturating_sub(1);
        left > 0
    }
}
