//! Ways to a wished table other than wishing otherwise.
//!
//! Each is reckoned as a plan of bakes that it has been done to, and told only if that plan is
//! better by enough and breaks no rule for food that spoils. What can be asked of a bake at once comes
//! with its intents; what has to be done when its time has come is advice, with its times.

use std::borrow::Cow;

use super::trial::{As, Case, LeftOff, Rest, Trial, Trials};
use super::wished::together;
use super::{Plan, What};
use crate::bake::{Bake, Intent, State, Supposed, brings, decide};
use crate::estimate::Estimate;
use crate::formula::{ComponentId, ComponentKind, Formula, Length, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::schedule::filled::{is_long_for_egg_or_milk, longest_out, out_limit};
use crate::units::{Celsius, Minutes, Moment, celsius, minutes};

/// How warm a place for a rise is that is made warm.
///
/// ASSUMPTION: judgement, what proofers are set to.
const WARM: Celsius = celsius(28.0);
/// How warm a cool room is.
///
/// ASSUMPTION: judgement: a cellar, a bedroom in winter.
const COOL: Celsius = celsius(16.0);
/// A place is another only if it is so much warmer or cooler.
const OTHER: f64 = 3.0;
/// A way is worth telling that gains so much.
///
/// ASSUMPTION: judgement: less than any rise is sure to.
const WORTH: Minutes = minutes(10.0);
/// Bread that waits so much shorter for its table is fresher.
///
/// ASSUMPTION: judgement.
const FRESHER: Minutes = minutes(60.0);
/// How long a dough is put into the fridge, to see whether that helps: a rise that goes on, and one to come.
const STAYS: [f64; 9] = [1.0, 2.0, 3.0, 4.5, 6.0, 8.0, 9.5, 11.0, 13.0];
const NIGHTS: usize = 4;
/// How many times the yeast, to see whether that helps.
const MORE: [f64; 4] = [1.25, 1.5, 2.0, 2.5];
const LESS: [f64; 3] = [0.75, 0.5, 0.3];
/// A filling made the day before is in the fridge so long before anything else begins.
///
/// ASSUMPTION: judgement: a night.
const DAY_BEFORE: Minutes = minutes(8.0 * 60.0);

/// What would be done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lever {
    /// A rise stands in air so warm.
    Place {
        /// The bake.
        bake: usize,
        /// The rise.
        step: StepId,
        /// How warm it is there.
        air: Celsius,
        /// From when on; none where that is now.
        from: Option<Moment>,
    },
    /// A rise is put into the fridge for a time.
    Fridge {
        /// The bake.
        bake: usize,
        /// The rise.
        step: StepId,
        /// From when on; none where that is now.
        from: Option<Moment>,
        /// When it comes out.
        out: Moment,
        /// When the bake begins for it, if it hasn't.
        begin: Option<Moment>,
    },
    /// So many times the yeast.
    Yeast {
        /// The bake.
        bake: usize,
        /// How many times its own, before scales round it.
        times: f64,
    },
    /// A filling is made the day before.
    DayBefore {
        /// The bake.
        bake: usize,
        /// The filling.
        component: ComponentId,
        /// When its making begins.
        from: Moment,
        /// When it is in the fridge.
        to: Moment,
        /// How many days it keeps there, at least.
        days: u8,
    },
}

/// A way to a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// What would be done.
    pub lever: Lever,
    /// When everything is on the table then.
    pub table: Estimate<Moment>,
    /// How much is amiss then; nothing where every wish is kept.
    pub late: Minutes,
    /// How long everything then waits for a wished table, beyond its buffer.
    pub early: Minutes,
    /// Whether a dough with egg or milk would stand out longer than is good.
    pub is_long_out: bool,
    /// What puts it into practice, each of a bake; none where it is to be done when its time has come.
    pub intents: Vec<(usize, Intent)>,
}

/// The ways that help, best first; `None` where the search was left off.
pub async fn levers(bakes: &[&Bake], now: Moment, rest: Rest<'_>) -> Option<Vec<Way>> {
    let states: Vec<&State> = bakes.iter().map(|bake| bake.state()).collect();
    let trials = Trials::of(&states, now, rest).await.ok()?;
    let case = Case {
        bakes: states.iter().map(|state| Cow::Borrowed(*state)).collect(),
        wishes: together(&states),
    };
    let was = trials.tried(&case, As::Wished).await.ok()?;
    let mut search = Search {
        bakes,
        case,
        trials,
        was,
        ways: Vec::new(),
    };
    search.look().await.ok()?;
    let mut ways = search.ways;
    ways.sort_by(|one, other| {
        let by_late = one.late.get().total_cmp(&other.late.get());
        by_late.then(one.table.likely().cmp(&other.table.likely()))
    });
    Some(ways)
}

struct Search<'a> {
    bakes: &'a [&'a Bake],
    case: Case<'a>,
    trials: Trials<'a>,
    was: Trial,
    ways: Vec<Way>,
}

impl Search<'_> {
    async fn look(&mut self) -> Result<(), LeftOff> {
        for bake in 0..self.bakes.len() {
            let formula = self.bakes[bake].state().formula.clone();
            for step in &formula.steps {
                if matches!(step.length, Length::Ferment { .. }) {
                    self.place(bake, step).await?;
                    self.fridge(bake, step).await?;
                }
            }
            if !self.bakes[bake].state().has_begun() {
                self.yeast(bake, &formula).await?;
                self.day_before(bake, &formula).await?;
            }
        }
        Ok(())
    }

    /// Whether something would rather come later than it does: after a time away, or nearer to the table.
    fn wants_delay(&self) -> bool {
        let pinned = self.bakes.iter().any(|bake| !bake.state().pins.is_empty());
        let is_held = pinned || !self.case.wishes.away.is_empty();
        (is_held && !self.was.is_kept()) || self.was.early >= FRESHER
    }

    async fn place(&mut self, bake: usize, step: &Step) -> Result<(), LeftOff> {
        let state = self.bakes[bake].state();
        if state.progress(step.id).ended.is_some() {
            return Ok(());
        }
        let since = state.progress(step.id).open_since.map(|_| self.trials.now);
        let here = match state.place_of(step.id) {
            Some(Place::Warm(air) | Place::Water(air)) => air,
            Some(Place::Fridge) => state.kitchen.fridge,
            _ => state.kitchen.air,
        };
        let cool = self.wants_delay().then_some(COOL);
        for air in [WARM].into_iter().chain(cool) {
            if (air - here).get().abs() < OTHER {
                continue;
            }
            let place = Place::Warm(air);
            let supposed = Supposed {
                step: step.id,
                place,
                since,
                stays: None,
            };
            let trial = self.with(bake, state.supposing(supposed)).await?;
            let Some(planned) = span(&trial, bake, step.id) else {
                continue;
            };
            let from = since.is_none().then_some(planned.0);
            let intents = since.map(|_| (bake, Intent::Move(step.id, place)));
            let lever = Lever::Place {
                bake,
                step: step.id,
                air,
                from,
            };
            let out = planned.1 - planned.0;
            let intents = intents.into_iter().collect();
            self.offer(bake, &trial, lever, None, out, intents);
        }
        Ok(())
    }

    async fn fridge(&mut self, bake: usize, step: &Step) -> Result<(), LeftOff> {
        let state = self.bakes[bake].state();
        let progress = state.progress(step.id);
        let is_cold = state.place_of(step.id) == Some(Place::Fridge);
        if progress.ended.is_some() || !self.wants_delay() || is_cold {
            return Ok(());
        }
        let since = progress.open_since.map(|_| self.trials.now);
        let stays = match since {
            Some(_) => &STAYS[..],
            None => &STAYS[NIGHTS..],
        };
        let before = self.ways.len();
        for &hours in stays {
            let stays = minutes(60.0 * hours);
            let supposed = Supposed {
                step: step.id,
                place: Place::Fridge,
                since,
                stays: Some(stays),
            };
            let state = state.supposing(supposed);
            let mut trial = self.with(bake, state.clone()).await?;
            if since.is_none() && self.helps(&trial) {
                trial = self.later_begun(bake, state, trial).await?;
            }
            let Some((start, end)) = span(&trial, bake, step.id) else {
                continue;
            };
            let from = since.unwrap_or(start);
            let out = from + stays;
            // What is ready in the fridge is looked at by nobody, and somebody has to take it out.
            let away = self.case.wishes.away.iter();
            if end < out || away.clone().any(|&(from, to)| from < out && out < to) {
                continue;
            }
            let begins = self.begins(&trial, bake);
            let begin = begins.map(|(_, at)| at);
            let lever = Lever::Fridge {
                bake,
                step: step.id,
                from: since.is_none().then_some(from),
                out,
                begin,
            };
            let mut intents = Vec::new();
            if since.is_some() {
                intents.push((bake, Intent::Move(step.id, Place::Fridge)));
            }
            // So that all before it is done when the fridge wants it to, and not as without.
            if since.is_none() {
                let first = begins.map(|(first, begin)| (bake, Intent::Pin(first, Some(begin))));
                intents.extend(first);
                intents.push((bake, Intent::Pin(step.id, Some(from))));
            }
            let outside = (end - start) - stays;
            let found = self.ways.len();
            self.offer(bake, &trial, lever, Some((from, out)), outside, intents);
            // However early it may be ready, it comes out then.
            for way in &mut self.ways[found..] {
                let (low, likely) = (way.table.low(), way.table.likely());
                let low = low.max(likely - (end - out));
                way.table = Estimate::new(low, likely, way.table.high(), way.table.basis());
            }
            let is_near = trial.is_kept() && trial.early < FRESHER;
            if is_near && self.ways.len() > before {
                break;
            }
        }
        self.keep_best(before);
        Ok(())
    }

    async fn yeast(&mut self, bake: usize, formula: &Formula) -> Result<(), LeftOff> {
        let scales = self.bakes[bake].state().kitchen.scales;
        let before = self.ways.len();
        let less = if self.wants_delay() { &LESS[..] } else { &[] };
        for &times in MORE.iter().chain(less) {
            let other = formula.with_yeast(times, Some(&scales));
            if other == *formula {
                continue;
            }
            let intent = Intent::Refit(Box::new(other));
            let mut after = self.bakes[bake].clone();
            let Ok(entries) = decide(&after, intent.clone(), self.trials.now) else {
                continue;
            };
            after.append(entries);
            let trial = self.with(bake, after.state().clone()).await?;
            let rises = formula.steps.iter();
            let rises = rises.filter(|step| matches!(step.length, Length::Ferment { .. }));
            let longest = rises
                .filter_map(|step| span(&trial, bake, step.id))
                .map(|(start, end)| end - start)
                .fold(minutes(0.0), Minutes::max);
            let lever = Lever::Yeast { bake, times };
            self.offer(bake, &trial, lever, None, longest, vec![(bake, intent)]);
            // No more than does it.
            if trial.is_kept() && self.ways.len() > before {
                break;
            }
        }
        self.keep_best(before);
        Ok(())
    }

    /// Where nothing may be begun before a moment, a filling may still be made the evening before.
    ///
    /// Otherwise a plan puts it there by itself, if that helps. The mixing is fixed to the moment before which
    /// nothing else shall be begun, so that only the filling comes before that.
    async fn day_before(&mut self, bake: usize, formula: &Formula) -> Result<(), LeftOff> {
        let (Some(not_before), 1) = (self.case.wishes.not_before, self.bakes.len()) else {
            return Ok(());
        };
        let state = self.bakes[bake].state();
        let fillings = formula.components.iter();
        let fillings = fillings.filter(|part| part.kind == ComponentKind::Filling);
        for filling in fillings {
            let own = || {
                let steps = formula.steps.iter();
                steps.filter(|step| step.component == filling.id)
            };
            let Some(put_away) = own().find(|step| brings(step) && step.needs.fridge) else {
                continue;
            };
            let (Some(first), Some(kept)) = (own().next(), state.kept_after(put_away)) else {
                continue;
            };
            let mixing = formula
                .steps
                .iter()
                .find(|step| step.component != filling.id && step.kind != StepKind::Gather);
            let Some(mixing) = mixing else { continue };
            let Some(usual) = self.was.plan.as_ref().and_then(|plan| {
                let (start, _) = span_in(plan, bake, first.id)?;
                Some(span_in(plan, bake, put_away.id)?.1 - start)
            }) else {
                continue;
            };
            let Some(from) = self.free_before(not_before - DAY_BEFORE, usual) else {
                continue;
            };
            let (wishes, mix) = (self.case.wishes.clone(), not_before.max(self.trials.now));
            let mut intents = vec![Intent::Wish(Box::new(crate::bake::Wishes {
                not_before: None,
                ..wishes
            }))];
            intents.push(Intent::Pin(first.id, Some(from)));
            intents.push(Intent::Pin(mixing.id, Some(mix)));
            let mut after = self.bakes[bake].clone();
            for intent in &intents {
                if let Ok(entries) = decide(&after, intent.clone(), self.trials.now) {
                    after.append(entries);
                }
            }
            let mut case = self.case.clone();
            case.wishes.not_before = None;
            case.bakes[bake] = Cow::Owned(after.state().clone());
            let trial = self.trials.tried(&case, As::Wished).await?;
            let Some((from, _)) = span(&trial, bake, first.id) else {
                continue;
            };
            let (Some((_, to)), Some((fill, _))) = (
                span(&trial, bake, put_away.id),
                own()
                    .find(|step| step.kind == StepKind::Fill)
                    .and_then(|step| span(&trial, bake, step.id)),
            ) else {
                continue;
            };
            let days = kept.days().0;
            if to > not_before || fill - to > minutes(f64::from(days) * 24.0 * 60.0) {
                continue;
            }
            let lever = Lever::DayBefore {
                bake,
                component: filling.id,
                from,
                to,
                days,
            };
            let intents = intents.into_iter().map(|intent| (bake, intent)).collect();
            self.offer(bake, &trial, lever, None, minutes(0.0), intents);
        }
        Ok(())
    }

    /// The latest beginning of something so long that has ended by a moment, with somebody there.
    fn free_before(&self, by: Moment, length: Minutes) -> Option<Moment> {
        let mut start = by - length;
        for &(from, to) in self.case.wishes.away.iter().rev() {
            if start < to && start + length > from {
                start = from - length;
            }
        }
        (start > self.trials.now).then_some(start)
    }

    async fn with(&self, bake: usize, state: State) -> Result<Trial, LeftOff> {
        let mut case = self.case.clone();
        case.bakes[bake] = Cow::Owned(state);
        self.trials.tried(&case, As::Wished).await
    }

    /// The same end, begun as late as it can be.
    async fn later_begun(&self, bake: usize, state: State, trial: Trial) -> Result<Trial, LeftOff> {
        let Some(plan) = trial.plan.as_ref().filter(|_| !state.has_begun()) else {
            return Ok(trial);
        };
        let mut case = self.case.clone();
        case.bakes[bake] = Cow::Owned(state);
        let as_late = As::Latest(plan.end.likely());
        let later = self.trials.tried(&case, as_late).await?;
        let is_as_good = later.late <= trial.late && later.plan.is_some();
        Ok(if is_as_good { later } else { trial })
    }

    /// With which step a bake that hasn't begun does, and when.
    fn begins(&self, trial: &Trial, bake: usize) -> Option<(StepId, Moment)> {
        if self.bakes[bake].state().has_begun() {
            return None;
        }
        let mut items = trial.plan.as_ref()?.items.iter();
        items.find_map(|item| match item.what {
            What::Step(of, step) if of == bake => Some((step, item.start)),
            _ => None,
        })
    }

    fn helps(&self, trial: &Trial) -> bool {
        let sooner = self.was.late - trial.late;
        let earlier = |plan: &Plan| plan.end.likely();
        if !self.was.is_kept() {
            trial.is_kept() || sooner >= WORTH
        } else if self.case.wishes.table.is_some() {
            trial.is_kept() && self.was.early - trial.early >= FRESHER
        } else {
            let ends = (
                self.was.plan.as_ref().map(earlier),
                trial.plan.as_ref().map(earlier),
            );
            trial.is_kept() && matches!(ends, (Some(was), Some(is)) if was - is >= WORTH)
        }
    }

    /// Takes a way up if it helps, and leaves no filling out for longer than it may be, or
    /// than it would be whatever is wished.
    fn offer(
        &mut self,
        bake: usize,
        trial: &Trial,
        lever: Lever,
        stay: Option<(Moment, Moment)>,
        rises_out: Minutes,
        intents: Vec<(usize, Intent)>,
    ) {
        let Some(plan) = trial.plan.as_ref().filter(|_| self.helps(trial)) else {
            return;
        };
        for (of, bake_of) in self.bakes.iter().enumerate() {
            let state = bake_of.state();
            let out = |plan: Option<&Plan>, stay| {
                let steps = plan
                    .and_then(|plan| plan.of(of))
                    .map(|outline| outline.steps);
                let steps = steps.unwrap_or_default();
                longest_out(state, &steps, stay, self.trials.now)
            };
            let stay = stay.filter(|_| of == bake);
            let (is, anyway) = (out(Some(plan), stay), out(self.trials.free.as_ref(), None));
            if is > out_limit(state.kitchen.air) && is - anyway > minutes(1.0) {
                return;
            }
        }
        let formula = &self.bakes[bake].state().formula;
        self.ways.push(Way {
            lever,
            table: plan.end,
            late: trial.late,
            early: trial.early,
            is_long_out: is_long_for_egg_or_milk(formula, rises_out),
            intents,
        });
    }

    /// Of the ways since a place only the best: the first of those that keep all, or that with least amiss.
    fn keep_best(&mut self, since: usize) {
        let found = self.ways.split_off(since);
        let amiss = |way: &Way| (way.late, way.early);
        let better = |best: Way, other: Way| {
            if amiss(&other) < amiss(&best) {
                other
            } else {
                best
            }
        };
        self.ways.extend(found.into_iter().reduce(better));
    }
}

fn span(trial: &Trial, bake: usize, step: StepId) -> Option<(Moment, Moment)> {
    span_in(trial.plan.as_ref()?, bake, step)
}

fn span_in(plan: &Plan, bake: usize, step: StepId) -> Option<(Moment, Moment)> {
    let mut items = plan.items.iter();
    let item = items.find(|item| item.what == What::Step(bake, step))?;
    Some((item.start, item.end))
}
