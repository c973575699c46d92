//! A running bake as the screens need it: everything derived, reckoned once a beat.

use domain::bake::{self, Alarm, Bake};
use domain::formula::StepId;
use domain::schedule::{Ask, Outline, Running, focus, offers, outline, running};
use domain::units::Moment;

/// A running bake with what follows from it at a moment.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct BakeView {
    /// The bake.
    pub(crate) bake: Bake,
    /// The moment everything here was reckoned for.
    pub(crate) at: Moment,
    /// What the baker is asked for.
    pub(crate) ask: Ask,
    /// What goes on by itself, the next to look at first.
    pub(crate) running: Vec<Running>,
    /// The work that free hands could do, best first.
    pub(crate) offers: Vec<StepId>,
    /// Alarms that have not been heard, soonest first.
    pub(crate) alarms: Vec<Alarm>,
    /// When the next alarm falls due, of those that haven't.
    pub(crate) next_due: Option<Moment>,
    /// The rest of the bake.
    pub(crate) outline: Outline,
}

impl BakeView {
    fn of(bake: &Bake, now: Moment) -> Self {
        let state = bake.state();
        let alarms = bake::alarms(state, now);
        let next_due = alarms.iter().map(|alarm| alarm.due).find(|&due| due > now);
        Self {
            ask: focus(state, now),
            running: running(state, now),
            offers: offers(state, now),
            next_due,
            alarms,
            outline: outline(state, now),
            bake: bake.clone(),
            at: now,
        }
    }

    /// How much this bake needs the baker: less is more.
    pub(crate) fn rank(&self) -> (u8, Moment) {
        let soonest = self.running.first().map_or(self.at, |next| next.look);
        match self.ask {
            Ask::Look(_) | Ask::Fold(_) => (0, soonest),
            Ask::Work(_) => (1, self.bake.state().started),
            Ask::AllDone => (2, self.at),
            Ask::Wait(_) | Ask::Idle => (3, soonest),
        }
    }
}

/// Every bake that is not over.
pub(super) fn views(bakes: &[Bake], now: Moment) -> Vec<BakeView> {
    bakes
        .iter()
        .filter(|bake| !bake.state().is_over())
        .map(|bake| BakeView::of(bake, now))
        .collect()
}
