//! Fillings that stand out no longer than two hours until the oven: USDA FSIS, the "danger zone", as in `perishable`.

use domain::bake::State;
use domain::formula::{Caution, Length, Step, StepKind};
use domain::schedule::plan::{Plan, What};
use domain::schedule::solve::{Link, Task};
use domain::units::Moment;

use super::whole;

const TWO_HOURS: i32 = 120;
/// So much less where a plan leaves as much, as it is to where that can be.
const TO_SPARE: i32 = 5;

/// For how long fillings may stand out where they stand no longer by a plan than the rule allows; none where one does.
pub(super) fn limit(fillings: &[Filling], plan: &Plan, now: Moment) -> Option<i32> {
    let stands = fillings.iter().map(|filling| filling.stands(plan, now));
    let longest = stands.max().unwrap_or(0);
    // A minute is rounded away at each of its ends.
    let limits = [TWO_HOURS - TO_SPARE, TWO_HOURS];
    limits.into_iter().find(|limit| longest <= limit + 1)
}

/// A filling that isn't in the oven yet: it stands from when it is cold until it is in the fridge, and from when it is taken
/// to the dough until it is in the oven.
pub(super) struct Filling<'a> {
    bake: usize,
    state: &'a State,
    cools: &'a Step,
    puts_away: &'a Step,
    fill: &'a Step,
    into_oven: &'a Step,
}

pub(super) fn fillings<'a>(states: &[&'a State]) -> Vec<Filling<'a>> {
    let of = |(bake, &state): (usize, &&'a State)| {
        let steps = &state.formula.steps;
        let kind = |kind| steps.iter().find(|step| step.kind == kind);
        let spoils = |step: &&Step| step.cautions.contains(&Caution::Perishable);
        let fill = kind(StepKind::Fill).filter(spoils)?;
        let into_oven = kind(StepKind::Bake)?;
        let is_left = state.progress(into_oven.id).open_since.is_none();
        let mut puts = steps.iter().filter(|step| step.needs.fridge);
        let puts_away = puts.find(|step| step.component == fill.component)?;
        let cools = kind(StepKind::Chill)?;
        is_left.then_some(Filling {
            bake,
            state,
            cools,
            puts_away,
            fill,
            into_oven,
        })
    };
    states.iter().enumerate().filter_map(of).collect()
}

impl Filling<'_> {
    fn what(&self, step: &Step) -> What {
        What::Step(self.bake, step.id)
    }

    fn ended(&self, step: &Step) -> Option<Moment> {
        self.state.progress(step.id).ended.map(|ended| ended.at)
    }

    /// When it was taken to the dough: hands that have ended took as long as they likely do, but began no sooner than
    /// they could.
    fn taken(&self) -> Option<Moment> {
        let opened = self.state.progress(self.fill.id).open_since?;
        let Length::Hands(takes) = self.fill.length else {
            panic!("hands fill it");
        };
        let ended = self.ended(self.fill)?;
        Some(opened.max(ended - takes.likely()))
    }

    /// For how many minutes it stands out by a plan.
    fn stands(&self, plan: &Plan, now: Moment) -> i32 {
        let start = |step| plan.item(self.what(step)).map(|item| item.start);
        let end = |step| plan.item(self.what(step)).map(|item| item.end);
        let cold = end(self.cools).or(self.ended(self.cools));
        let away = end(self.puts_away).or(self.ended(self.puts_away));
        let out = start(self.fill).or(self.taken()).unwrap_or(now);
        let baked = start(self.into_oven).unwrap_or(now);
        let stood = cold.zip(away).map_or(0, |(cold, away)| whole(away - cold));
        stood + whole(baked - out)
    }

    /// Has it stand for no longer than `wait` on its way into the fridge, and for what is left of a limit after that; tells
    /// whether that can be.
    pub(super) fn keep(
        &self,
        (wait, limit): (i32, i32),
        now: Moment,
        what: &[What],
        tasks: &mut [Task],
        links: &mut Vec<Link>,
    ) -> bool {
        let place = |step: &Step| what.iter().position(|&other| other == self.what(step));
        let since = |at: Option<Moment>| at.map_or(0, |at| whole(now - at));
        let mut left = limit;
        if let Some(puts) = place(self.puts_away) {
            left -= wait + tasks[puts].minutes;
            let can_be = match place(self.cools) {
                Some(from) => at_most(links, from, puts, wait),
                None => by(&mut tasks[puts], wait - since(self.ended(self.cools))),
            };
            if !can_be {
                return false;
            }
        } else {
            let stood = self.ended(self.puts_away).zip(self.ended(self.cools));
            left -= stood.map_or(0, |(away, cold)| whole(away - cold));
        }
        let Some(into_oven) = place(self.into_oven) else {
            return true;
        };
        match place(self.fill) {
            Some(fill) => at_most(links, fill, into_oven, left - tasks[fill].minutes),
            None => by(&mut tasks[into_oven], left - since(self.taken())),
        }
    }
}

fn at_most(links: &mut Vec<Link>, from: usize, to: usize, most: i32) -> bool {
    links.push(Link {
        from,
        to,
        least: 0,
        most: Some(most.max(0)),
    });
    most >= 0
}

fn by(task: &mut Task, latest: i32) -> bool {
    let can_be = latest >= task.earliest;
    let latest = latest.max(task.earliest);
    task.latest = Some(task.latest.map_or(latest, |other| other.min(latest)));
    can_be
}
