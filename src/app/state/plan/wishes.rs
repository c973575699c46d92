//! What the baker wishes of the time, which all running bakes share: they are baked for one table.

use domain::bake::{Bake, BakeId, Event, Intent, Refusal, State, Wishes, decide};
use domain::estimate::Estimate;
use domain::formula::Formula;
use domain::schedule::plan::{timetable, together};
use domain::units::Moment;
use platform::{clock, ids};

use super::patience;
use crate::state::{Answer, Oventide};

/// A change of what is wished.
pub(crate) type WishEdit = Box<dyn FnOnce(&mut Wishes)>;

impl Oventide {
    /// What all running bakes wish together.
    pub(crate) fn wishes(self) -> Wishes {
        let bakes = self.bakes.get();
        together(&running_states(&bakes))
    }

    /// Changes what is wished, of every running bake, when its turn has come: quick presses add up.
    pub(crate) fn wish(self, edit: WishEdit) {
        self.in_turn(Box::pin(async move {
            let bakes = self.bakes.get_untracked();
            let mut wishes = together(&running_states(&bakes));
            edit(&mut wishes);
            let wishes = Intent::Wish(Box::new(wishes));
            self.wish_everywhere(None, &wishes).await;
        }));
    }

    /// Asks the same of every running bake but one.
    pub(in crate::state) async fn wish_everywhere(self, but: Option<&BakeId>, wishes: &Intent) {
        for bake in self.running() {
            if Some(&bake) == but {
                continue;
            }
            match self.answer_one(&bake, wishes.clone()).await {
                // A bake that has ended meanwhile has no wishes any more.
                Ok(_) | Err(Refusal::Over) => {}
                Err(refusal) => self.answer.set(Some(Answer::Refused(refusal))),
            }
        }
    }

    /// The bake at which "undo" would take back something of the plan, if that is the newest thing that
    /// happened to it, and when that was asked for.
    pub(crate) fn undoable_of_plan(self) -> Option<BakeId> {
        let bakes = self.bakes.get();
        let running = bakes.iter().filter(|bake| !bake.state().is_over());
        let newest = running.filter_map(|bake| Some((newest_of_plan(bake)?, bake)));
        let newest = newest.max_by_key(|&(at, _)| at);
        newest.map(|(_, bake)| bake.id.clone())
    }

    /// When everything would be on the table, with one more bake and no table wished; in all its windows.
    pub(crate) fn table_with(self, formula: &Formula) -> Option<Estimate<Moment>> {
        let now = clock::now();
        let one = Bake::from_log(BakeId(ids::new_id()), vec![self.start_of(formula, now)])?;
        let bakes = self.bakes.get_untracked();
        let mut states = running_states(&bakes);
        let place = states.len();
        states.push(one.state());
        let planned = timetable(&states, now, None, &mut patience())?;
        Some(planned.plan.of(place)?.table)
    }
}

pub(in crate::state) fn running_states(bakes: &[Bake]) -> Vec<&State> {
    let states = bakes.iter().map(Bake::state);
    states.filter(|state| !state.is_over()).collect()
}

/// When something of the plan was asked for, where that is what "undo" takes back.
fn newest_of_plan(bake: &Bake) -> Option<Moment> {
    let undo = decide(bake, Intent::Undo, bake.state().newest).ok()?;
    let Event::Undone { entries } = &undo.first()?.event else {
        return None;
    };
    let entry = bake.log().get(*entries.first()? as usize)?;
    let of_plan = matches!(
        entry.event,
        Event::Wished(_) | Event::Pinned { .. } | Event::Refitted(_)
    );
    of_plan.then_some(entry.at)
}
