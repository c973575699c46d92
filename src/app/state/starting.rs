//! Starting a bake, for a table where one is wished.

use domain::bake::{Bake, BakeId, Entry, Event, Intent, Start, Wishes, decide};
use domain::formula::Formula;
use domain::schedule::plan::away;
use domain::units::Moment;
use platform::{clock, ids};

use super::Oventide;
use super::plan::running_states;
use crate::route::Route;

impl Oventide {
    /// Starts a bake, for a table where one is wished, and turns to the Bench, or to the plan then.
    pub(crate) fn start_bake(self, formula: Formula, table: Option<Moment>) {
        self.inner().sound.unlock();
        self.in_turn(Box::pin(async move {
            if let Some(nights) = self.nights_until(table) {
                let at = self.moment_of_press();
                for bake in self.running() {
                    let edit = |_: &Bake, wishes: &mut Wishes| wishes.away.clone_from(&nights);
                    self.wish_of(&bake, at, &edit).await;
                }
            }
            let id = BakeId(ids::new_id());
            let log = self.log_of_start(&id, &formula, table);
            let Some(bake) = Bake::from_log(id.clone(), log.clone()) else {
                return;
            };
            self.keep(&id, 0, &log).await;
            self.bakes.update(|bakes| bakes.push(bake));
            self.renew();
            if table.is_some() {
                return Route::Plan.go();
            }
            // To this bake: another that runs may need the baker more, but isn't what was asked for.
            Route::Bench(Some(id)).go();
        }));
    }

    /// The log of a bake that starts now, for a table where one is wished. It begins with when nobody is there, which
    /// is no more to be taken back than its start.
    fn log_of_start(self, id: &BakeId, formula: &Formula, table: Option<Moment>) -> Vec<Entry> {
        let now = clock::now();
        let mut log = vec![self.start_of(formula, now)];
        let bakes = self.bakes.get_untracked();
        let known = || away(&running_states(&bakes));
        let mut wishes = Wishes {
            away: self.nights_until(table).unwrap_or_else(known),
            ..Wishes::default()
        };
        wishes.away.retain(|&(_, to)| to > now);
        if wishes != Wishes::default() {
            log.push(Entry {
                at: now,
                event: Event::Wished(Box::new(wishes.clone())),
            });
        }
        if table.is_some()
            && let Some(bake) = Bake::from_log(id.clone(), log.clone())
        {
            wishes.table = table;
            log.extend(decide(&bake, Intent::Wish(Box::new(wishes)), now).unwrap_or_default());
        }
        log
    }

    pub(super) fn start_of(self, formula: &Formula, at: Moment) -> Entry {
        let start = Start {
            formula: formula.clone(),
            kitchen: self.settings.read_untracked().kitchen,
        };
        Entry {
            at,
            event: Event::Started(Box::new(start)),
        }
    }
}
