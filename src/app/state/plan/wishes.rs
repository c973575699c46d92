//! What the baker wishes of the time: of each bake its table, and of all of them when nobody is there.

use domain::bake::{Bake, BakeId, Intent, Refusal, State, Wishes, decide, moment_of_press};
use domain::estimate::Estimate;
use domain::formula::{Formula, StepId};
use domain::schedule::plan::{NOTABLE, Nearest, away, later_than_fixed, patience, timetable};
use domain::units::{Minutes, Moment};
use platform::{clock, ids};

use crate::state::{Answer, Oventide};
use crate::words;

/// A change of what is wished of a bake.
pub(crate) type WishEdit = Box<dyn Fn(&Bake, &mut Wishes)>;
/// A change of the times at which nobody is there.
pub(crate) type AwayEdit = Box<dyn FnOnce(&mut Vec<(Moment, Moment)>)>;

/// What is wished of a running bake.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct WishedOf {
    pub(crate) bake: BakeId,
    /// What it is called beside the others.
    pub(crate) name: String,
    pub(crate) wishes: Wishes,
    /// Whether it hasn't begun.
    pub(crate) waits: bool,
}

impl Oventide {
    /// What is wished of every running bake.
    pub(crate) fn wishes(self) -> Vec<WishedOf> {
        let bakes = self.bakes.get();
        let running: Vec<&Bake> = running_bakes(&bakes).collect();
        let states: Vec<&State> = running.iter().map(|bake| bake.state()).collect();
        let names = words::distinct_names(&states);
        let wished = running.iter().zip(names).map(|(bake, name)| WishedOf {
            bake: bake.id.clone(),
            name,
            wishes: bake.state().wishes.clone(),
            waits: bake.state().can_wait(),
        });
        wished.collect()
    }

    /// When nobody is in the kitchen.
    pub(crate) fn away(self) -> Vec<(Moment, Moment)> {
        let bakes = self.bakes.get();
        away(&running_states(&bakes))
    }

    /// Changes what is wished of a bake, or of every one that runs, when its turn has come: quick presses add up.
    pub(crate) fn wish(self, of: Option<BakeId>, edit: WishEdit) {
        self.in_turn(Box::pin(async move {
            let at = self.moment_of_press();
            let running = self.running();
            let is_meant = |bake: &BakeId| of.as_ref().is_none_or(|of| of == bake);
            let wished = |bake: &BakeId| {
                let bake = self.bake(bake)?;
                let mut wishes = bake.state().wishes.clone();
                edit(&bake, &mut wishes);
                wishes.table
            };
            let meant = running.iter().filter(|bake| is_meant(bake));
            // A later table has more nights before it, and they are so for everybody in the kitchen.
            let away = self.nights_until(meant.filter_map(wished).max());
            for bake in &running {
                let is_meant = is_meant(bake);
                let edit = |bake: &Bake, wishes: &mut Wishes| {
                    if is_meant {
                        edit(bake, wishes);
                    }
                    if let Some(away) = &away {
                        wishes.away.clone_from(away);
                    }
                };
                self.wish_of(bake, at, &edit).await;
            }
        }));
    }

    /// Before when nothing of a bake is to begin that is to begin so much later than planned; nothing where that is now.
    pub(crate) fn begin_later(self, bake: &Bake, by: Minutes) -> Option<Moment> {
        let plan = self.plan.read_untracked();
        let planned = plan.as_ref()?;
        let begins = *planned.timetable.begins.get(planned.place(&bake.id)?)?;
        // Presses add up before the next plan is there.
        let from = bake.state().wishes.not_before.max(begins)? + by;
        (from > clock::now()).then_some(from)
    }

    /// Changes when nobody is there, which is the same for all that runs.
    pub(crate) fn wish_away(self, edit: AwayEdit) {
        self.in_turn(Box::pin(async move {
            let bakes = self.bakes.get_untracked();
            let mut times = away(&running_states(&bakes));
            edit(&mut times);
            let at = self.moment_of_press();
            for bake in self.running() {
                self.wish_of(&bake, at, &|_, wishes| wishes.away.clone_from(&times))
                    .await;
            }
        }));
    }

    /// A moment that marks all that is asked by one press, of whichever bakes.
    pub(in crate::state) fn moment_of_press(self) -> Moment {
        let bakes = self.bakes.read_untracked();
        let running: Vec<&Bake> = running_bakes(&bakes).collect();
        moment_of_press(&running, clock::now())
    }

    pub(in crate::state) async fn wish_of(
        self,
        bake: &BakeId,
        at: Moment,
        edit: &dyn Fn(&Bake, &mut Wishes),
    ) {
        let Some(known) = self.bake(bake) else { return };
        let mut wishes = known.state().wishes.clone();
        edit(&known, &mut wishes);
        let wish = Intent::Wish(Box::new(wishes));
        self.ask_of_plan(bake, wish, Some(at)).await;
    }

    pub(in crate::state) async fn ask_of_plan(
        self,
        bake: &BakeId,
        intent: Intent,
        at: Option<Moment>,
    ) {
        match self.answer_one(bake, intent, at).await {
            // A bake that has ended meanwhile has no wishes any more.
            Ok(_) | Err(Refusal::Over) => {}
            Err(refusal) => self.answer.set(Some(Answer::Refused(refusal))),
        }
    }

    /// By how much later tables those that are kept would have all the time to spare that is good for them.
    pub(crate) fn later_tables(self) -> Vec<Nearest> {
        let plan = self.plan.read_untracked();
        let margins = plan.iter().flat_map(|planned| &planned.timetable.margins);
        let tight = margins.filter_map(|margin| {
            let missing = margin.buffer - margin.spare();
            (!margin.is_late() && missing >= NOTABLE).then(|| Nearest::Table {
                was: margin.table,
                at: (margin.table + missing).up_to_five(),
                safely: None,
            })
        });
        tight.collect()
    }

    /// When a step would start at the soonest that can't start when it is to be fixed to; nothing where it can.
    pub(crate) fn soonest_for(self, of: &BakeId, step: StepId, at: Moment) -> Option<Moment> {
        let now = clock::now();
        let bakes = self.bakes.read_untracked();
        let mut running: Vec<Bake> = running_bakes(&bakes).cloned().collect();
        let place = running.iter().position(|bake| bake.id == *of)?;
        let entries = decide(&running[place], Intent::Pin(step, Some(at)), now).ok()?;
        running[place].append(entries);
        let states: Vec<&State> = running.iter().map(Bake::state).collect();
        let ids: Vec<BakeId> = running.iter().map(|bake| bake.id.clone()).collect();
        let plan = self.plan.read_untracked();
        let before = plan.as_ref().map(|planned| planned.before(&ids));
        later_than_fixed(
            &states,
            (place, step),
            now,
            before.as_ref(),
            &mut patience(),
        )
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

    /// When one more bake would be ready at the soonest after a table that is wished of it, because the baker sleeps or is
    /// at other breads; nothing where that table is kept.
    pub(crate) fn late_for(self, formula: &Formula, table: Moment) -> Option<Moment> {
        let now = clock::now();
        let one = Bake::from_log(BakeId(ids::new_id()), vec![self.start_of(formula, now)])?;
        let mut one = one.state().clone();
        let bakes = self.bakes.get_untracked();
        let mut states = running_states(&bakes);
        one.wishes.table = Some(table);
        let nights = self.nights_until(Some(table));
        one.wishes.away = nights.unwrap_or_else(|| away(&states));
        states.push(&one);
        let planned = timetable(&states, now, None, &mut patience())?;
        let mut margins = planned.margins.iter();
        let margin = margins.find(|margin| margin.table == table)?;
        margin.is_late().then(|| margin.ready.likely().up_to_five())
    }
}

/// Every bake that is not over.
pub(crate) fn running_bakes(bakes: &[Bake]) -> impl Iterator<Item = &Bake> {
    bakes.iter().filter(|bake| !bake.state().is_over())
}

pub(crate) fn running_states(bakes: &[Bake]) -> Vec<&State> {
    running_bakes(bakes).map(Bake::state).collect()
}
