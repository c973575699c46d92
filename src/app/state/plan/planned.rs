//! The plan of all running bakes as it is held, with whom it calls.

use domain::bake::{Bake, BakeId, CALLED, Event, State};
use domain::schedule::plan::Timetable;
use domain::units::Moment;

use super::calling;
use crate::state::BakeView;

/// The plan of all running bakes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Planned {
    /// Which bakes; the plan tells them by their places here.
    pub(crate) bakes: Vec<BakeId>,
    /// The plan itself.
    pub(crate) timetable: Timetable,
    /// When it was made.
    pub(crate) at: Moment,
    /// By bake: when the baker is called to begin it. A baker who is late was called at the moment that has
    /// passed, and a bake that couldn't begin any sooner calls nobody: it was only just planned.
    pub(super) calls: Vec<Option<Moment>>,
    /// By bake: when the first of those calls was that nobody has followed; nothing where there is none.
    pub(super) first_calls: Vec<Option<Moment>>,
    /// By bake: when its oven is to be turned on, kept likewise.
    pub(super) ovens: Vec<Option<Moment>>,
}

impl Planned {
    /// The place of a bake among those planned.
    pub(crate) fn place(&self, bake: &BakeId) -> Option<usize> {
        self.bakes.iter().position(|known| known == bake)
    }

    /// Where the bakes stand, in the order in which the plan tells them; nothing where one of them is gone.
    pub(crate) fn states<'a>(&self, bakes: &'a [Bake]) -> Option<Vec<&'a State>> {
        let of = |id: &BakeId| bakes.iter().find(|bake| bake.id == *id);
        self.bakes
            .iter()
            .map(|id| of(id).map(Bake::state))
            .collect()
    }

    /// When what is asked of a bake is to begin, or what begins it is, if that can wait until then.
    pub(crate) fn begins(&self, view: &BakeView, now: Moment) -> Option<Moment> {
        let begins = *self.timetable.begins.get(self.place(&view.bake.id)?)?;
        let asked = view.own_ask().step();
        let is_held = asked.is_none_or(|step| view.bake.state().held_back().contains(&step));
        begins.filter(|&begins| begins > now && is_held)
    }

    /// When somebody was first called to begin a bake or to go on with it, if that was by now.
    pub(crate) fn called(&self, place: usize, now: Moment) -> Option<Moment> {
        let called = self.first_calls.get(place).copied().flatten();
        called.filter(|&called| called <= now)
    }

    /// A new plan, after this one if there was one.
    pub(in crate::state) fn new(
        running: &[Bake],
        timetable: Timetable,
        at: Moment,
        before: Option<&Self>,
    ) -> Self {
        let states: Vec<&State> = running.iter().map(Bake::state).collect();
        let call = |(place, (bake, begins)): (usize, (&Bake, &Option<Moment>))| {
            let state = bake.state();
            // Plans begin with a whole minute, so less than one ahead is now; whoever is still away isn't there.
            let ahead = match *begins {
                Some(begins) => calling::ahead(begins, at),
                None => timetable
                    .plan
                    .on_return(place, state)
                    .filter(|&back| back > at),
            };
            let was = before.and_then(|before| *before.calls.get(before.place(&bake.id)?)?);
            if let Some(next) = ahead {
                let has_work = before.is_some() && begins.is_some();
                let behind = has_work.then(|| calling::behind(&timetable.plan, &states, next));
                return calling::to_begin(place, bake, next, &behind.unwrap_or_default(), was, at);
            }
            match before {
                Some(_) => {
                    let was = was?;
                    // Who did anything since they were to be back is back.
                    let goes_on = begins.is_some() || (state.is_back_at(was) && state.newest < was);
                    (was <= at && goes_on).then_some(was)
                }
                // Nobody knows when it fell due, only that it has.
                None => wished_at(bake).filter(|&wished| begins.is_some() && at - wished >= CALLED),
            }
        };
        let called = running.iter().zip(&timetable.begins).enumerate();
        let calls: Vec<Option<Moment>> = called.map(call).collect();
        let first = |(bake, call): (&Bake, &Option<Moment>)| {
            let was = before.and_then(|before| before.called(before.place(&bake.id)?, at));
            call.map(|call| was.map_or(call, |was| was.min(call)))
        };
        Self {
            first_calls: running.iter().zip(&calls).map(first).collect(),
            calls,
            ovens: calling::ovens(running, &timetable, before),
            bakes: running.iter().map(|bake| bake.id.clone()).collect(),
            timetable,
            at,
        }
    }

    /// The plan by the places of other bakes, as what is to be kept of it.
    pub(super) fn before(&self, bakes: &[BakeId]) -> Timetable {
        let place = |old: usize| {
            let id = self.bakes.get(old)?;
            bakes.iter().position(|bake| bake == id)
        };
        self.timetable.reordered(&place, bakes.len())
    }
}

/// When something was last wished of the time of a bake that stands for a table.
pub(super) fn wished_at(bake: &Bake) -> Option<Moment> {
    bake.state().wishes.table?;
    let mut log = bake.log().iter().rev();
    let wished = log.find(|entry| matches!(entry.event, Event::Wished(_)));
    wished.map(|entry| entry.at)
}
