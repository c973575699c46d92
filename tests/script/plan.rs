//! What a script wishes and expects of the plan, which is redone after every line as the app does it.

use domain::bake::{Bake, Intent, State, Wishes};
use domain::schedule::plan::{
    Made, Moved, Named, RetardPart, Timetable, What, Why, moved, timetable,
};
use domain::units::Minutes;

use super::day::{Day, Outcome, clock, minutes, number};
use super::expect::{holds, same};

/// A plan with the bakes as they were when it was made.
#[derive(Debug, Clone)]
pub(super) struct Planned {
    timetable: Timetable,
    bakes: Vec<Bake>,
}

/// The plan of a script's day, from the first line on that asks for one.
#[derive(Debug, Clone, Default)]
pub(super) struct Plans {
    is_on: bool,
    now: Option<Planned>,
    /// What was last told of: what moves is held against it.
    promised: Option<Planned>,
    /// What has moved since, by the newest line.
    moved: Option<Moved>,
}

impl Day {
    /// Plans anew after something happened.
    pub(super) fn replan(&mut self) -> Outcome {
        if !self.plans.is_on || self.bakes.is_empty() {
            return Ok(());
        }
        let bakes: Vec<Bake> = self
            .bakes
            .iter()
            .map(|(_, bake)| bake.clone())
            .filter(|bake| !bake.state().is_over())
            .collect();
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let place = |old: usize| {
            let id = &self.plans.now.as_ref()?.bakes.get(old)?.id;
            bakes.iter().position(|bake| bake.id == *id)
        };
        let before = self
            .plans
            .now
            .as_ref()
            .map(|planned| planned.timetable.reordered(&place, bakes.len()));
        let found = timetable(&states, self.now, before.as_ref(), &mut || true);
        let planned = Planned {
            timetable: found.ok_or("there is no plan")?,
            bakes,
        };
        let told = self.plans.promised.as_ref().map(|promised| {
            let [before, after]: [Vec<&Bake>; 2] =
                [promised, &planned].map(|made| made.bakes.iter().collect());
            let before = Made {
                timetable: &promised.timetable,
                bakes: &before,
                names: &names(&before),
            };
            let after = Made {
                timetable: &planned.timetable,
                bakes: &after,
                names: &names(&after),
            };
            moved(before, after, self.now).filter(Moved::is_news)
        });
        self.plans.moved = told.clone().flatten();
        let is_kept = told.is_some_and(|told| told.is_none_or(|told| told.why.is_passing()));
        if !is_kept {
            self.plans.promised = Some(planned.clone());
        }
        self.plans.now = Some(planned);
        Ok(())
    }

    /// Wishes something of all bakes, beside what was wished before, or a table of one.
    pub(super) fn wish(&mut self, words: &[&str]) -> Outcome {
        self.plans.is_on = true;
        let mut bakes = 0..self.bakes.len();
        let edit: Box<dyn Fn(&mut Wishes)> = match *words {
            ["soonest"] => Box::new(|wishes| wishes.table = None),
            ["table", at] => {
                let at = self.moment(at)?;
                Box::new(move |wishes| wishes.table = Some(at))
            }
            ["table", at, "for", bake] => {
                let (at, bake) = (self.moment(at)?, self.named(bake)?);
                bakes = bake..bake + 1;
                Box::new(move |wishes| wishes.table = Some(at))
            }
            ["not-before", at] => {
                let at = self.moment(at)?;
                Box::new(move |wishes| wishes.not_before = Some(at))
            }
            ["away", band] => {
                let band = self.band(band)?;
                Box::new(move |wishes| wishes.away.push(band))
            }
            _ => return Err(format!("nobody wishes {words:?}")),
        };
        for bake in bakes {
            let mut wishes = self.bake(bake).state().wishes.clone();
            edit(&mut wishes);
            self.say(bake, Intent::Wish(Box::new(wishes)))?;
        }
        Ok(())
    }

    pub(super) fn moved(&self) -> Option<Moved> {
        self.plans.moved.clone()
    }

    pub(super) fn expect_of_plan(&self, bake: usize, words: &[&str]) -> Outcome {
        let planned = self
            .plans
            .now
            .as_ref()
            .ok_or("nothing is planned: wish for something first")?;
        match words {
            ["plan", "table", band, "likely", likely, "within", within] => {
                let (low, high) = self.band(band)?;
                let got = planned.timetable.plan.end;
                self.near("early end", got.low(), low, within)?;
                self.near("likely end", got.likely(), self.moment(likely)?, within)?;
                self.near("late end", got.high(), high, within)
            }
            ["plan", "spare", spare, "within", within] => {
                let state = self.bake(bake).state();
                let margin = planned
                    .timetable
                    .margin(state)
                    .ok_or("no table is wished")?;
                within_of("spare", margin.spare(), minutes(spare)?, within)
            }
            ["begins", at, "within", within] => {
                let begins = planned.timetable.begins.get(bake).copied().flatten();
                self.near(
                    "beginning",
                    begins.ok_or("it has begun")?,
                    self.moment(at)?,
                    within,
                )
            }
            ["planned", name, at, "within", within] => {
                let what = What::Step(bake, self.step(bake, name)?);
                let mut items = planned.timetable.plan.items.iter();
                let item = items
                    .find(|item| item.what == what)
                    .ok_or("it isn't planned")?;
                self.near("start", item.start, self.moment(at)?, within)
            }
            ["planned", name, way @ ("in" | "out"), at, "within", within] => {
                let part = if *way == "in" {
                    RetardPart::In
                } else {
                    RetardPart::Out
                };
                let what = What::Retard(bake, self.step(bake, name)?, part);
                let item = planned.timetable.plan.item(what);
                let start = item.ok_or("it isn't planned")?.start;
                self.near("moment", start, self.moment(at)?, within)
            }
            ["not", "planned", name, "out"] => {
                let what = What::Retard(bake, self.step(bake, name)?, RetardPart::Out);
                holds(planned.timetable.plan.item(what).is_none(), "it is planned")
            }
            ["moved", "nothing"] => match &self.plans.moved {
                None => Ok(()),
                Some(moved) => Err(self.told(moved)),
            },
            ["moved", "by", by, "within", within, "because", why @ ..] => {
                let moved = self.plans.moved.as_ref().ok_or("nothing has moved")?;
                let told = |cause: String| format!("{cause}: {}", self.told(moved));
                within_of("table", moved.ready.1 - moved.ready.0, minutes(by)?, within)
                    .map_err(told)?;
                let (got, off) = self.why(&moved.why);
                // What a cause is off by is in its own unit, so it has a tolerance of its own.
                let (wanted, wanted_off) = match why {
                    [why @ .., by, "within", within] => (why, Some((number(by)?, number(within)?))),
                    why => (why, None),
                };
                same(&got, &wanted.join(" ")).map_err(told)?;
                match (off, wanted_off) {
                    (Some(off), Some((wanted, within))) => {
                        holds((off - wanted).abs() <= within, &format!("by {off}"))
                    }
                    (None, Some(_)) => Err("it has no number".to_owned()),
                    (Some(off), None) => Err(format!("say by how much: {off} within …")),
                    (None, None) => Ok(()),
                }
            }
            ["moved", "next", name, from, "to", to, "within", within] => {
                let moved = self.plans.moved.as_ref().ok_or("nothing has moved")?;
                let next = moved
                    .next
                    .as_ref()
                    .ok_or("nothing starts at another time")?;
                same(&self.slug(&next.step), name)?;
                self.near("old start", next.was, self.moment(from)?, within)?;
                self.near("new start", next.is, self.moment(to)?, within)
            }
            _ => Err(format!("nobody can expect {words:?} of a plan")),
        }
    }

    fn slug(&self, named: &Named) -> String {
        super::day::slug(&named.title)
    }

    fn told(&self, moved: &Moved) -> String {
        let (why, by) = self.why(&moved.why);
        let next = moved.next.as_ref().map(|next| {
            format!(
                ", {} at {} instead of {}",
                next.step.title,
                clock(next.is),
                clock(next.was)
            )
        });
        format!(
            "ready {} instead of {}, because {why} {}{}",
            clock(moved.ready.1),
            clock(moved.ready.0),
            by.map_or_else(String::new, |by| by.to_string()),
            next.unwrap_or_default()
        )
    }

    /// As scripts say it: a kind, a step where there is one, and by how much.
    fn why(&self, why: &Why) -> (String, Option<f64>) {
        let of = |kind: &str, step: &Named| format!("{kind} {}", self.slug(step));
        let whole = |by: &Minutes| Some(by.get().round());
        match why {
            Why::Ready(step, by) => (of("ready", step), whole(by)),
            Why::Hands(step, by) => (of("hands", step), whole(by)),
            Why::Overdue(step, by) => (of("overdue", step), whole(by)),
            Why::Waits(step, by) => (of("waits", step), whole(by)),
            Why::NotYet(step, by) => (of("not-yet", step), whole(by)),
            Why::FoldNotYet(step, by) => (of("fold-not-yet", step), whole(by)),
            Why::Folded(step) => (of("folded", step), None),
            Why::FoldLeftOut(step) => (of("fold-left-out", step), None),
            Why::LeftOut(step) => (of("left-out", step), None),
            Why::WentBack(step) => (of("back-to", step), None),
            Why::Dough(step, by) => (of("dough", step), Some(by.get())),
            Why::Core(step) => (of("core", step), None),
            Why::Looked(step, _) => (of("looked", step), None),
            Why::Stands(step, _) => (of("stands", step), None),
            Why::Poured(step, _) => (of("poured", step), None),
            Why::Kitchen(_, is) => ("kitchen".to_owned(), Some(is.get())),
            Why::Fridge(_, is) => ("fridge".to_owned(), Some(is.get())),
            Why::Fixed(step, _) => (of("fixed", step), None),
            Why::Began(_) => ("began".to_owned(), None),
            Why::Ended(_) => ("ended".to_owned(), None),
            Why::Equipment => ("equipment".to_owned(), None),
            Why::Wishes => ("wishes".to_owned(), None),
            Why::Unmoved(step, _, by) => (of("unmoved", step), whole(by)),
            Why::Retard(step, _) => (of("retard", step), None),
            Why::Refitted => ("refitted".to_owned(), None),
            Why::Earlier(step, by) => (of("earlier", step), whole(by)),
            Why::TakenBack => ("taken-back".to_owned(), None),
            Why::PutBack => ("put-back".to_owned(), None),
            Why::ClockSet => ("clock-set".to_owned(), None),
            Why::Anew => ("anew".to_owned(), None),
            Why::Time => ("time".to_owned(), None),
        }
    }
}

fn within_of(what: &str, got: Minutes, wanted: Minutes, within: &str) -> Outcome {
    let off = (got - wanted).get().abs();
    holds(
        off <= number(within)?,
        &format!("the {what} is {:.1} min", got.get()),
    )
}

fn names(bakes: &[&Bake]) -> Vec<String> {
    let names = bakes.iter().map(|bake| bake.state().formula.name.clone());
    names.collect()
}
