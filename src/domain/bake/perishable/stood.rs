//! What food that spoils has come to: how long it has stood out, which limit that is held against, and by which rule.
//!
//! | what | limit | never more than |
//! |---|---|---|
//! | a filling before the oven, and baked bread with one | the two-hour rule, USDA FSIS | four hours, FDA Food Code § 3-501.19(B) |
//! | a cooked filling that cools | 57 to 21 °C within 2 h and to 5 °C within 6 h, FDA Food Code § 3-501.14 | the same 6 h |
//! | a dough with egg or milk, in one of its steps | four hours, judgement | eight hours, judgement |
//!
//! The time out of § 3-501.19(B) holds for food before cooking as well as for food to eat; food beyond it is thrown away.
//! Read in Delaware's adoption, 16 Del. Admin. Code § 3-501.19. Neither source names a yeasted dough: its acid and its
//! yeast are in the way of much, nobody measured of how much, and sweet doughs have always risen in kitchens. So a dough
//! isn't lost by an hour over its rise.
//!
//! Baking gives nothing of it back, for it doesn't destroy what some bacteria leave: what was lost before the oven is
//! lost after it. So it is told until the part is made anew or left out, or the bake is over. Whoever knows better, as of
//! a bowl that was in the fridge and nobody said so, goes on all the same.

use super::{State, WARM_FRIDGE};
use crate::bake::progress::{Ended, How};
use crate::bake::timers::PERISHABLE_WARNING;
use crate::food::FoodKind;
use crate::formula::{Component, ComponentId, Length, Step, StepKind};
use crate::kitchen::Place;
use crate::thermal::cooling::{BOTH_STAGES, COLD, stages};
use crate::units::{Celsius, Minutes, Moment, minutes};

/// Food that spoils is thrown away after so long out of fridge and oven, whatever it is for (FDA Food Code, § 3-501.19(B)).
pub const LONGEST_OUT: Minutes = minutes(240.0);

/// A dough that holds raw egg or milk should not rise longer than this outside a fridge.
///
/// ASSUMPTION: common practice, no source. It is as long as [`LONGEST_OUT`], for each step of it.
pub const EGG_AND_MILK_OUT: Minutes = minutes(240.0);

/// After so long it is no dough to bake any more. ASSUMPTION: judgement, twice [`EGG_AND_MILK_OUT`].
const DOUGH_LOST: Minutes = minutes(480.0);

/// What stood out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spoils {
    /// A filling, by itself or in a dough that isn't baked.
    Filling,
    /// Baked bread.
    Bread,
    /// A cooked filling on its way to 21 °C.
    Hot,
    /// The same on its way to 5 °C.
    Warm,
    /// A dough with egg or milk.
    Dough,
}

/// How something stands by its rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Keeps {
    /// Within its limit.
    Fine,
    /// Near its limit.
    Soon,
    /// Past its limit.
    Past,
    /// Past what any rule allows.
    Unsafe,
}

/// Food that spoils which stands out, or stood out for too long.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stood {
    /// What.
    pub what: Spoils,
    /// What it is a part of; none where only the serving says that it spoils.
    pub component: Option<ComponentId>,
    /// Whether all of the bread has it in it by now.
    pub is_in: bool,
    /// The moment to count from.
    pub since: Moment,
    /// Its end; none while it goes on.
    pub until: Option<Moment>,
    /// How long is good for it.
    pub limit: Minutes,
    /// After how long no rule allows it.
    pub most: Minutes,
}

impl Stood {
    /// When the limit is reached.
    #[must_use]
    pub fn by(&self) -> Moment {
        self.since + self.limit
    }

    /// How long it stood out by now.
    #[must_use]
    pub fn length(&self, now: Moment) -> Minutes {
        self.until.unwrap_or(now) - self.since
    }

    /// How it stands by now.
    #[must_use]
    pub fn keeps(&self, now: Moment) -> Keeps {
        let out = self.length(now);
        if out > self.most {
            Keeps::Unsafe
        } else if out > self.limit {
            Keeps::Past
        } else if out > self.limit - PERISHABLE_WARNING && self.until.is_none() {
            Keeps::Soon
        } else {
            Keeps::Fine
        }
    }

    /// After how long it is to be thrown away: of a dough that isn't said where judgement alone has it past a limit.
    #[must_use]
    pub fn most_told(&self) -> Minutes {
        if self.what == Spoils::Dough {
            self.most
        } else {
            self.limit
        }
    }

    /// Whether it is to be thrown away.
    #[must_use]
    pub fn is_lost(&self, now: Moment) -> bool {
        self.length(now) > self.most_told()
    }

    /// Whether a step is about what stood out, or about all of the bread with it.
    #[must_use]
    pub fn concerns(&self, step: &Step) -> bool {
        self.is_in || self.component == Some(step.component)
    }
}

impl State {
    /// All food that spoils which stands out, and what has stood out for too long: each kind once, by the longest.
    #[must_use]
    pub fn stood(&self, now: Moment) -> Vec<Stood> {
        self.as_it_stands(now).stood_out(now)
    }

    fn stood_out(&self, now: Moment) -> Vec<Stood> {
        let mut all: Vec<Stood> = Vec::new();
        for component in self.spoiling() {
            let (is_in, comes_in) = self.in_bread(component);
            for out in self.times_out(component, now) {
                if out.joined || comes_in {
                    all.push(Stood {
                        what: if out.baked {
                            Spoils::Bread
                        } else {
                            Spoils::Filling
                        },
                        component,
                        is_in: out.joined || is_in,
                        since: out.since,
                        until: out.until,
                        limit: self.limit_between(out.since, out.until.unwrap_or(now)),
                        most: LONGEST_OUT,
                    });
                }
            }
        }
        for step in &self.formula.steps {
            let progress = self.progress(step.id);
            let Some(since) = progress.open_since else {
                continue;
            };
            let was_left_out = |ended: Ended| ended.how == How::Skipped;
            if let Length::Chill { from, cooling, .. } = step.length
                && !progress.ended.is_some_and(was_left_out)
            {
                self.add_cooling(step, (from, Place::of(cooling)), since, now, &mut all);
            } else if is_dough(step.kind)
                && self.formula.component_of(step).is_some_and(has_egg_or_milk)
            {
                self.add_dough(step, since, now, &mut all);
            }
        }
        let mut found: Vec<Stood> = Vec::new();
        for stood in all {
            if stood.until.is_some() && stood.keeps(now) < Keeps::Past {
                continue;
            }
            match found.iter_mut().find(|known| known.what == stood.what) {
                Some(known) if known.length(now) < stood.length(now) => *known = stood,
                Some(_) => {}
                None => found.push(stood),
            }
        }
        found
    }

    /// Whether a component is in the bread by now, and whether it is or may still come there.
    fn in_bread(&self, component: Option<ComponentId>) -> (bool, bool) {
        let (mut is_in, mut is_left, mut joins) = (false, false, false);
        for step in &self.formula.steps {
            if step.brings_perishable() && component == Some(step.component) {
                joins = true;
                match self.progress(step.id).ended {
                    Some(ended) => is_in |= ended.how == How::Done,
                    None => is_left = true,
                }
            }
        }
        (is_in, is_in || is_left || !joins)
    }

    /// A filling that nobody said was cold by the end of its rule, or that somebody found too warm after a stage of it.
    ///
    /// A fridge that isn't too warm for food that spoils holds it whenever somebody looks: by which tenth of a degree it misses
    /// 5 °C nobody knows. Ice melts, so what lies in anything else for longer than all of the rule isn't known to be cold;
    /// both is judgement. A cooling that was left out is a time out from its beginning on instead.
    fn add_cooling(
        &self,
        step: &Step,
        (from, own): (Celsius, Place),
        since: Moment,
        now: Moment,
        all: &mut Vec<Stood>,
    ) {
        let component = Some(step.component);
        let (is_in, comes_in) = self.in_bread(component);
        let until = self.progress(step.id).ended.map(|ended| ended.at);
        for &(cold, within) in stages(from) {
            let by = since + within;
            let was_in_time = self.cores.iter().any(|read| {
                read.of == step.id && read.at >= since && read.at <= by && read.temperature <= cold
            });
            let mut reads = self.cores.iter();
            let is_warm =
                reads.any(|read| read.of == step.id && read.at > by && read.temperature > cold);
            // Put there later, it mends nothing.
            let mut moves = self.moves_of(step).rev();
            let place = moves
                .find(|seen| seen.at <= by)
                .map_or(own, |seen| seen.what);
            let is_held = place == Place::Fridge && self.kitchen.fridge <= WARM_FRIDGE;
            let is_over = until.unwrap_or(now) > by;
            let unheard = cold == COLD && !is_held;
            if is_over && comes_in && !was_in_time && (is_warm || unheard) {
                all.push(Stood {
                    what: if cold == COLD {
                        Spoils::Warm
                    } else {
                        Spoils::Hot
                    },
                    component,
                    is_in,
                    since,
                    until,
                    limit: within,
                    most: BOTH_STAGES,
                });
            }
        }
    }

    /// A dough with egg or milk that was left out for long in one of its steps.
    fn add_dough(&self, step: &Step, since: Moment, now: Moment, all: &mut Vec<Stood>) {
        let until = self.progress(step.id).ended.map(|ended| ended.at);
        let end = until.unwrap_or(now);
        let mut cold = minutes(0.0);
        if self.kitchen.fridge <= WARM_FRIDGE && matches!(step.length, Length::Ferment { .. }) {
            for (from, to) in self.times_in_fridge(step, since) {
                cold += (to.min(end) - from.max(since)).max(minutes(0.0));
            }
        }
        let since = since + cold;
        if end - since <= EGG_AND_MILK_OUT {
            return;
        }
        all.push(Stood {
            what: Spoils::Dough,
            component: Some(step.component),
            is_in: true,
            since,
            until,
            limit: EGG_AND_MILK_OUT,
            most: DOUGH_LOST,
        });
    }
}

/// The steps between mixing and the oven in which a dough stands, whatever is done with it, but for those in the fridge.
const fn is_dough(kind: StepKind) -> bool {
    matches!(
        kind,
        StepKind::Bulk
            | StepKind::Divide
            | StepKind::PreShape
            | StepKind::BenchRest
            | StepKind::Shape
            | StepKind::FinalProof
    )
}

/// Whether raw egg or milk was weighed into it.
fn has_egg_or_milk(part: &Component) -> bool {
    let mut parts = part.ingredients.iter();
    part.is_dough() && parts.any(|part| matches!(part.food.kind, FoodKind::Egg | FoodKind::Milk))
}
