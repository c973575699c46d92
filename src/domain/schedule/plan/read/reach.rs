//! How far the end of each task may be off, for its own reasons and for those of all that it hangs on.
//!
//! Windows go forwards through the links. A task begins no sooner than the earliest of what it waits for lets it, nor than
//! a moment that stands by the clock: one that was fixed, one at which a dough goes into the fridge or comes out, one before
//! which nobody is there. What ends before such a moment with time to spare leaves no doubt behind it, and from there the
//! windows open anew. Along a chain they add in quadrature, as in [`outline`](crate::schedule::outline).

use crate::schedule::plan::tasks::{HANDS, Tasks};
use crate::schedule::plan::what::What;
use crate::units::{Minutes, minutes};

/// In minutes.
#[derive(Clone, Copy, Default)]
struct Reach {
    /// How much sooner it may start, and end, by the plan.
    starts: f64,
    ends: f64,
    /// How much sooner it could end at most: what is put off for no need of its own could be pulled forward.
    could: f64,
    /// How much later it may start, and end.
    start_late: f64,
    late: f64,
    /// Whether something keeps it where it is, and not just the plan.
    is_kept: bool,
}

/// What a task waits for, and how long it waits beyond what it has to.
struct Before {
    task: usize,
    room: f64,
    /// Whether it waits for the other's start: what lies within a rise.
    within: bool,
    /// Whether it is late with it. What another bread has the hands or the oven for is passed over if that is late.
    delays: bool,
}

impl Tasks<'_> {
    /// By task: how much sooner and later it may end.
    pub(crate) fn reach(
        &self,
        starts: &[i32],
        hangs_on: &[Option<usize>],
    ) -> Vec<(Minutes, Minutes)> {
        let mut reach = vec![Reach::default(); starts.len()];
        let before: Vec<Vec<Before>> = (0..starts.len())
            .map(|task| self.before(task, starts, hangs_on[task]))
            .collect();
        // What lies within a rise may begin with it.
        let mut order = self.order(starts);
        order.sort_by_key(|&task| (starts[task], before[task].iter().any(|of| of.within)));
        for &task in &order {
            reach[task] = self.forwards(task, starts, &before[task], &reach);
        }
        // What is put off for the sake of something that may be sooner is sooner with it.
        for &task in order.iter().rev() {
            for other in before[task].iter().filter(|other| !other.within) {
                let (sooner, of) = (reach[task].starts - other.room, other.task);
                if sooner > reach[of].ends {
                    let own = self.own(of).0;
                    reach[of].ends = self.there(of, starts, sooner, true);
                    reach[of].starts = reach[of].starts.max(reach[of].ends - own);
                }
            }
        }
        let told = |reach: &Reach| (minutes(reach.ends), minutes(reach.late));
        reach.iter().map(told).collect()
    }

    fn forwards(&self, task: usize, starts: &[i32], before: &[Before], all: &[Reach]) -> Reach {
        let since_floor = f64::from(starts[task] - self.tasks[task].earliest).max(0.0);
        let stands = matches!(self.what[task], What::Away | What::Retard(..));
        let mut is = Reach {
            could: if stands { 0.0 } else { since_floor },
            is_kept: stands || since_floor < 1.0,
            ..Reach::default()
        };
        let (mut by_plan, mut is_tight) = (is.could, false);
        for of in before {
            let &Before { task, room, .. } = of;
            let (within, delays) = (of.within, of.delays);
            let of = all[task];
            let (sooner, could, late) = if within {
                (of.starts, of.starts, of.start_late)
            } else {
                (of.ends, of.could, of.late)
            };
            is.could = is.could.min(room + could);
            by_plan = by_plan.min(room + sooner);
            if delays {
                is.start_late = is.start_late.max(late - room);
            }
            is_tight |= room < 1.0;
            is.is_kept |= room < 1.0 && of.is_kept;
        }
        is.starts = match (is.is_kept, is_tight) {
            (true, _) => is.could,
            (false, true) => by_plan,
            // Whoever goes by the plan begins when it says.
            (false, false) => 0.0,
        };
        let (early, late) = self.own(task);
        let left = f64::from(starts[task] + self.tasks[task].minutes);
        let ends = |sooner: f64| {
            let sooner = f64::sqrt(sooner * sooner + early * early).min(left);
            self.there(task, starts, sooner, false)
        };
        (is.ends, is.could) = (ends(is.starts), ends(is.could));
        is.late = f64::sqrt(is.start_late * is.start_late + late * late);
        is
    }

    fn own(&self, task: usize) -> (f64, f64) {
        let length = self.length(&self.what[task]);
        length.map_or((0.0, 0.0), |length| {
            (length.slack.0.get(), length.slack.1.get())
        })
    }

    /// What a task waits for: by its links, and whoever has what it needs until then.
    fn before(&self, task: usize, starts: &[i32], hangs_on: Option<usize>) -> Vec<Before> {
        let end = |of: usize| starts[of] + self.tasks[of].minutes;
        let is_cold = matches!(self.what[task], What::Retard(..));
        let links = self.links.iter().enumerate();
        let links = links.filter(|(_, link)| link.to == task);
        let links = links.map(|(nth, link)| {
            let within = link.least < 0;
            let after = if within && is_cold {
                starts[link.from]
            } else {
                end(link.from) + link.least
            };
            // A night that begins late may be that much shorter, and one that begins early ends as much sooner at most.
            let is_night = self.nights.contains(&nth);
            let after = if is_night { starts[task] } else { after };
            (link.from, starts[task] - after, within, is_night)
        });
        let is_linked = |by: usize| {
            let mut links = self.links.iter();
            links.any(|link| link.from == by && link.to == task)
        };
        let held = hangs_on.filter(|&by| end(by) <= starts[task] && !is_linked(by));
        let held = held.map(|by| (by, starts[task] - end(by), false, false));
        let bake = |task: usize| self.what[task].of().map(|(bake, _)| bake);
        let all = links
            .chain(held)
            .map(|(of, room, within, is_night)| Before {
                task: of,
                room: f64::from(room).max(0.0),
                within,
                delays: bake(of) == bake(task) && !is_night,
            });
        let mut all: Vec<Before> = all.collect();
        // Who waits for what other bakes hold would wait less in another order, and so has no time to be late in.
        if hangs_on.is_some_and(|by| by >= self.others) {
            let own = all.iter().filter(|of| of.task < self.others);
            let least = own.map(|of| of.room).fold(f64::INFINITY, f64::min);
            for of in &mut all {
                of.room = (of.room - least).max(0.0);
            }
        }
        all
    }

    /// So much sooner than planned; but what takes the hands ends neither while nobody is there nor sooner after that than it
    /// takes. It ends behind such a time, or where it has to end no later than asked, `before` it.
    fn there(&self, task: usize, starts: &[i32], mut sooner: f64, before: bool) -> f64 {
        let of = &self.tasks[task];
        if !of.needs.contains(&HANDS) {
            return sooner;
        }
        let end = f64::from(starts[task] + of.minutes);
        let shortest = f64::from(of.minutes) - self.own(task).0;
        let away = self.tasks.iter().zip(&self.what);
        for (away, _) in away.filter(|(_, what)| **what == What::Away) {
            let from = f64::from(away.earliest);
            let again = from + f64::from(away.minutes) + shortest;
            let is_away = from < end - sooner && end - sooner < again && again <= end;
            if is_away && away.minutes > 0 {
                sooner = end - if before { from } else { again };
            }
        }
        sooner
    }
}
