//! What a bread is filled with is baked before it has stood out too long: what is put off is put off where nothing spoils.
//!
//! The two-hour rule of [`PERISHABLE_LIMIT`](crate::bake::PERISHABLE_LIMIT) counts from the work that brings a filling to
//! the dough until the oven, less a night in the fridge between, and with all that it had stood out before; some minutes are
//! left to spare, or else none. Work that has yet to put it into the fridge may come as late as its formula and what is left
//! of the two hours let it. All lengths are the likely ones. What stands out longer whatever is done is told as lost, and
//! holds up nothing; and a night in the fridge that was planned of a rise is by the clock, and told where it lets food stand
//! too long.

use super::{Tasks, whole};
use crate::formula::{Length, Step, StepKind};
use crate::kitchen::Place;
use crate::schedule::filled::{all_after, all_before, out_limit};
use crate::schedule::plan::starts::let_go::LAST;
use crate::schedule::plan::what::What;
use crate::units::{Minutes, minutes};

/// Work that puts a filling away, and that no formula limits, comes so late at most. ASSUMPTION: judgement.
const PUT_AWAY: Minutes = minutes(30.0);

/// So much sooner than the rule asks, for hands are late now and then. ASSUMPTION: judgement.
const TO_SPARE: Minutes = minutes(5.0);

/// Work that is to put a filling away.
struct PutAway {
    /// Its task.
    place: usize,
    /// The task after which the filling stands out until then; none where it does already.
    cools: Option<usize>,
    /// How many minutes it may stand before that work begins, by its formula.
    may_wait: i32,
}

impl Tasks<'_> {
    pub(super) fn add_spoiling(&mut self, bake: usize) {
        let state = self.bakes[bake];
        let steps = state.formula.steps.iter();
        for fill in steps.filter(|step| step.brings_perishable()) {
            let Some((to, cold)) = self.baked_after(bake, fill) else {
                continue;
            };
            let (stood, since) = state.out_before_bake(fill.component, self.now);
            let rule = match since {
                Some(since) => state.perishable_limit_since(since),
                None => out_limit(state.kitchen.air),
            };
            // With some minutes to spare, or else with none.
            let limits = [rule - TO_SPARE, rule].map(|limit| whole(limit) + cold);
            let put_away = self.put_away(bake, fill);
            if let (Some(since), None) = (since, &put_away) {
                let soonest = self.soonest(to);
                let mut latest = limits.map(|limit| self.minute(since) + limit).into_iter();
                if let Some(latest) = latest.find(|&latest| soonest <= latest) {
                    self.start_by(to, latest, LAST);
                }
            } else if let (Some(from), Length::Hands(takes)) =
                (self.place(What::Step(bake, fill.id)), &fill.length)
            {
                let least = self.least_between(from, to);
                let out = whole(stood) + whole(takes.likely());
                let kept = limits.into_iter().find_map(|limit| {
                    let left = limit - out - least;
                    let stands = put_away
                        .as_ref()
                        .map_or(Some(0), |it| self.stands(it, left))?;
                    (stands <= left).then_some((limit - out - stands, stands))
                });
                if let Some((most, stands)) = kept {
                    if let Some(put_away) = &put_away {
                        self.put_away_within(put_away, stands);
                    }
                    self.no_longer_than(from, to, most);
                }
            }
        }
    }

    /// For how many minutes a filling stands by the end of the work that puts it away, where `left` are all there are; `None`
    /// where they aren't enough.
    fn stands(&self, put_away: &PutAway, left: i32) -> Option<i32> {
        let takes = self.tasks[put_away.place].minutes;
        let stands = (put_away.may_wait + takes).min(left);
        (stands >= takes).then_some(stands)
    }

    /// Has it put away so soon that it stands no longer than that.
    fn put_away_within(&mut self, put_away: &PutAway, stands: i32) {
        let waits = stands - self.tasks[put_away.place].minutes;
        if waits < put_away.may_wait {
            match put_away.cools {
                Some(cools) => self.no_longer_than(cools, put_away.place, waits),
                None => self.start_by(put_away.place, waits, LAST),
            }
        }
    }

    fn no_longer_than(&mut self, from: usize, to: usize, most: i32) {
        self.spoils.push(self.links.len());
        self.link(from, to, (0, Some(most)), 0);
    }

    /// The bake of what a filling was brought to, where that is still to come, and how many minutes it lies in the fridge
    /// before that; `None` as well where that is by the clock.
    fn baked_after(&self, bake: usize, fill: &Step) -> Option<(usize, i32)> {
        let state = self.bakes[bake];
        let formula = &state.formula;
        let later = all_after(formula, fill.id);
        let comes_after = |step: &&Step| later.contains(&step.id);
        let mut after = formula.steps.iter().filter(comes_after);
        let baked = after.find(|step| step.kind == StepKind::Bake)?;
        let to = self.place(What::Step(bake, baked.id))?;
        let goes_on = state.progress(baked.id).open_since.is_some();
        let before = all_before(formula, baked.id);
        let between = formula.steps.iter().filter(comes_after);
        let between = between.filter(|step| before.contains(&step.id));
        let mut by_clock = between.clone().map(|step| step.id);
        if goes_on || by_clock.any(|step| state.retards.contains_key(&step)) {
            return None;
        }
        let nights = between.filter(|step| step.kind == StepKind::Retard);
        let nights = nights.filter_map(|step| self.place(What::Step(bake, step.id)));
        Some((to, nights.map(|night| self.tasks[night].minutes).sum()))
    }

    /// The work that is to put a filling into the fridge before it is brought to the dough; `None` where none is to come, or
    /// it is in there already.
    fn put_away(&self, bake: usize, fill: &Step) -> Option<PutAway> {
        let state = self.bakes[bake];
        let before = all_before(&state.formula, fill.id);
        let mut steps = state.formula.steps.iter();
        let (step, place) = steps.find_map(|step| {
            let puts_away = step.puts_perishable_away()
                && step.component == fill.component
                && before.contains(&step.id);
            let place = self.place(What::Step(bake, step.id));
            Some((step, place.filter(|_| puts_away)?))
        })?;
        let (link, cools) = step.after.iter().find_map(|link| {
            let cools = state.formula.step(link.step)?;
            matches!(cools.length, Length::Chill { .. }).then_some((link, cools.id))
        })?;
        if state.place_of(cools) == Some(Place::Fridge) {
            return None;
        }
        let has_ended = state.progress(cools).ended.is_some();
        let latest = self.tasks[place].latest.filter(|_| has_ended);
        Some(PutAway {
            place,
            cools: self.place(What::Step(bake, cools)),
            may_wait: latest.unwrap_or_else(|| whole(link.greatest.unwrap_or(PUT_AWAY))),
        })
    }

    /// When a task could start at the soonest, by all that it waits for.
    fn soonest(&self, to: usize) -> i32 {
        let tasks = self.tasks.iter();
        let ends = tasks.map(|task| Some(task.earliest + task.minutes));
        self.latest_ends(ends.collect())[to].map_or(0, |end| end - self.tasks[to].minutes)
    }

    /// How long it takes at the least from the end of a task to the start of one that comes after it.
    fn least_between(&self, from: usize, to: usize) -> i32 {
        let mut ends: Vec<Option<i32>> = vec![None; self.tasks.len()];
        ends[from] = Some(0);
        let ends = self.latest_ends(ends);
        ends[to].map_or(0, |end| end - self.tasks[to].minutes)
    }

    /// The ends of tasks that are known, put off by what they wait for.
    fn latest_ends(&self, mut ends: Vec<Option<i32>>) -> Vec<Option<i32>> {
        for _ in 0..self.tasks.len() {
            let mut is_found = false;
            for link in &self.links {
                let end = ends[link.from].map(|end| end + link.least + self.tasks[link.to].minutes);
                if end > ends[link.to] {
                    ends[link.to] = end;
                    is_found = true;
                }
            }
            if !is_found {
                break;
            }
        }
        ends
    }
}
