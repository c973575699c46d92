//! What moved between two plans, and why: facts, of which `words` makes a sentence.
//!
//! What happened is read off the entries that the logs have grown by, the newest first, and what it did off
//! the two plans; nothing is guessed. Where nobody said anything, time itself has gone by something that
//! should have begun or ended.

mod passing;
mod told;
mod upstream;
mod why;

pub use told::{Ends, Made, Moved, NOTABLE, Named, OwnEnd, Shifted, Why};

use super::timetable::{table_of, tables};
use super::{Item, Margin, What};
use crate::bake::{Bake, How, State};
use crate::formula::{Step, StepId, StepKind};
use crate::units::{Minutes, Moment};

/// What moved from one plan to the next, if it is worth a word: everything is ready at another time, or
/// something that is still to come starts at another time.
#[must_use]
pub fn moved(before: Made, after: Made, now: Moment) -> Option<Moved> {
    let both = Both { before, after, now };
    let end = both.end();
    let later = end.later();
    let stays = later.get().abs() < NOTABLE.get();
    let next = both.next();
    // What is told to be later or sooner, and has to be explained: where the end stays, what begins at another time.
    let told = match &next {
        Some((_, next)) if stays => next.is - next.was,
        None if stays => return None,
        _ => later,
    };
    let chain = both.chain(
        &end,
        next.as_ref().map(|(what, _)| *what).filter(|_| stays),
        told,
    );
    let why = both.why(&chain, told);
    if stays && !why.explains() && told.get().abs() < told::UNEXPLAINED.get() {
        return None;
    }
    Some(Moved {
        most: both.most(&chain, told),
        next: next.map(|(_, next)| next),
        why,
        each: both.each(),
        of: end.of,
        ready: end.ready,
        margin: end.margin,
    })
}

/// What was and is to be ready together.
struct End {
    /// By their places in the later plan.
    bakes: Vec<usize>,
    /// Their names, where others are for other tables.
    of: Vec<String>,
    ready: (Moment, Moment),
    margin: Option<Margin>,
}

impl End {
    fn later(&self) -> Minutes {
        self.ready.1 - self.ready.0
    }
}

struct Both<'a> {
    before: Made<'a>,
    after: Made<'a>,
    now: Moment,
}

impl<'a> Both<'a> {
    /// The place that a bake of the later plan has in the earlier one.
    fn place_before(&self, bake: usize) -> Option<usize> {
        let id = &self.after.bakes.get(bake)?.id;
        self.before.bakes.iter().position(|known| known.id == *id)
    }

    /// The earlier plan's item for something of the later one.
    fn was(&self, what: What) -> Option<&'a Item> {
        let what = match what {
            What::Step(bake, _) | What::Retard(bake, ..) | What::Kept(bake, _) => {
                what.at(self.place_before(bake)?)
            }
            // Folds are counted from the next one on.
            What::Fold(bake, step, nth) => {
                let was = self.place_before(bake)?;
                let folded =
                    |bakes: &[&Bake], bake: usize| bakes[bake].state().progress(step).folds.len();
                let more = folded(self.after.bakes, bake)
                    - folded(self.before.bakes, was).min(folded(self.after.bakes, bake));
                What::Fold(was, step, nth + more)
            }
            What::Away => return None,
        };
        self.before.timetable.plan.item(what)
    }

    /// Of the ends of breads for one table each, and of those for none, the one that moved most.
    fn end(&self) -> End {
        let all: Vec<usize> = (0..self.after.bakes.len()).collect();
        let states: Vec<&State> = all.iter().map(|&bake| self.state(bake)).collect();
        let mut tables: Vec<_> = tables(&states).into_iter().map(Some).collect();
        if states.iter().any(|state| table_of(state).is_none()) {
            tables.push(None);
        }
        let several = tables.len() > 1;
        let ends = tables.into_iter().filter_map(|table| {
            let bakes = all.iter().copied();
            let bakes: Vec<usize> = bakes
                .filter(|&bake| table_of(self.state(bake)) == table)
                .collect();
            let was = |&bake: &usize| {
                Some(
                    self.before
                        .timetable
                        .plan
                        .of(self.place_before(bake)?)?
                        .table,
                )
            };
            let is = |&bake: &usize| Some(self.after.timetable.plan.of(bake)?.table);
            let was = bakes.iter().filter_map(was).map(|end| end.likely()).max()?;
            let is = bakes.iter().filter_map(is).map(|end| end.likely()).max()?;
            let name = |&bake: &usize| self.after.names.get(bake).cloned();
            let of = bakes.iter().filter(|_| several).filter_map(name).collect();
            let margins = &self.after.timetable.margins;
            let margin = margins
                .iter()
                .find(|margin| Some(margin.table) == table)
                .copied();
            Some(End {
                bakes,
                of,
                ready: (was, is),
                margin,
            })
        });
        let farther = |most: End, other: End| {
            let by = |end: &End| end.later().get().abs();
            if by(&other) > by(&most) { other } else { most }
        };
        let both = [&self.before, &self.after].map(|made| made.timetable.plan.end.likely());
        let whole = || End {
            ready: both.into(),
            margin: self.after.timetable.tightest().copied(),
            bakes: all.clone(),
            of: Vec::new(),
        };
        let mut most = ends.reduce(farther).unwrap_or_else(whole);
        // Another bread that is added or is over moves the end of all.
        if !several {
            most.ready = both.into();
        }
        most
    }

    /// The end of each of several breads that was planned before as well: of those for one table, that of the last, so
    /// that a table is told alike wherever it is told of.
    fn each(&self) -> Vec<OwnEnd> {
        let known = self.after.bakes.iter().enumerate();
        let known = known.filter(|_| self.after.bakes.len() > 1);
        let both = |bake: usize| {
            let was = self.before.timetable.plan.of(self.place_before(bake)?)?;
            let is = self.after.timetable.plan.of(bake)?;
            Some((was.table.likely(), is.table.likely()))
        };
        let ends = known.filter_map(|(bake, known)| {
            let mut ready = both(bake)?;
            let table = table_of(known.state());
            for other in 0..self.after.bakes.len() {
                if table.is_some()
                    && table_of(self.state(other)) == table
                    && let Some((was, is)) = both(other)
                {
                    ready = (ready.0.max(was), ready.1.max(is));
                }
            }
            Some(OwnEnd {
                bake: known.id.clone(),
                name: self.after.names.get(bake)?.clone(),
                ready,
                margin: self.after.timetable.margin(known.state()).copied(),
            })
        });
        ends.collect()
    }

    fn state(&self, bake: usize) -> &'a State {
        self.after.bakes[bake].state()
    }

    fn named(&self, bake: usize, step: StepId) -> Option<Named> {
        let known = self.after.bakes.get(bake)?;
        let step = known.state().formula.step(step)?;
        let several = self.after.bakes.len() > 1;
        Some(Named {
            bake: known.id.clone(),
            whose: self.after.names.get(bake).filter(|_| several).cloned(),
            title: step.title.clone(),
            kind: step.kind,
        })
    }

    fn step(&self, bake: usize, step: StepId) -> Option<&'a Step> {
        self.after.bakes.get(bake)?.state().formula.step(step)
    }

    /// Whether a step is a time in the fridge, of which the plan chooses the end.
    fn is_night(&self, bake: usize, step: StepId) -> bool {
        self.step(bake, step).and_then(Step::retards_for).is_some()
    }

    /// What hands are to do at another time.
    fn next(&self) -> Option<(What, Shifted)> {
        let items = self.after.timetable.plan.items.iter();
        let shifted = items.filter_map(|item| {
            let (bake, step, is_fold) = match item.what {
                What::Step(bake, step) => (bake, step, false),
                What::Fold(bake, step, _) => (bake, step, true),
                What::Away | What::Retard(..) | What::Kept(..) => return None,
            };
            let of = self.step(bake, step)?;
            let was = self.was(item.what)?.start;
            let to_come = item.start > self.now && (is_fold || of.is_hands());
            let moved = (item.start - was).get().abs() >= NOTABLE.get();
            (to_come && moved).then_some((
                of.kind != StepKind::OvenOn,
                item.what,
                is_fold,
                was,
                item.start,
            ))
        });
        let (_, what, is_fold, was, is) =
            shifted.min_by_key(|&(is_other, .., is)| (is_other, is))?;
        let (bake, step) = what.of()?;
        let step = self.named(bake, step)?;
        let shifted = Shifted {
            step,
            is_fold,
            was,
            is,
        };
        Some((what, shifted))
    }

    /// The step that takes most longer where what is told is later, or most less: of what that hangs on.
    fn most(&self, chain: &[What], told: Minutes) -> Option<(Named, Minutes)> {
        let mut most: Option<(usize, StepId, Minutes)> = None;
        for bake in 0..self.after.bakes.len() {
            for step in &self.state(bake).formula.steps {
                let what = What::Step(bake, step.id);
                let Some(by) = self.longer(bake, step.id) else {
                    continue;
                };
                let explains = chain.contains(&what) && by.get() * told.get() > 0.0;
                let is_more = most.is_none_or(|(.., most)| by.get().abs() > most.get().abs());
                if explains && by.get().abs() >= NOTABLE.get() && is_more {
                    most = Some((bake, step.id, by));
                }
            }
        }
        let (bake, step, by) = most?;
        Some((self.named(bake, step)?, by))
    }

    /// How much longer a step takes, or took.
    fn longer(&self, bake: usize, step: StepId) -> Option<Minutes> {
        let was = self.was(What::Step(bake, step))?;
        let takes = match self.state(bake).progress(step).ended {
            Some(ended) if ended.how == How::Done => ended.at - was.start,
            Some(_) => return None,
            None => {
                let is = self.after.timetable.plan.item(What::Step(bake, step))?;
                is.end - is.start
            }
        };
        Some(takes - (was.end - was.start))
    }
}
