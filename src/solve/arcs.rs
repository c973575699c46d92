//! Differences: one half is at least another and so many minutes, always or while a fact is true.
//!
//! Every difference is two arcs, one for each direction of its variables.

use super::engine::{Clash, Engine};
use super::trail::{Entry, Fact, Half, NONE, Reason};

pub(super) type ArcId = u32;

#[derive(Debug, Clone, Copy)]
pub(super) struct Arc {
    pub(super) from: Half,
    pub(super) to: Half,
    pub(super) weight: i32,
    pub(super) when: Fact,
}

#[derive(Debug, Default)]
pub(super) struct Arcs {
    pub(super) all: Vec<Arc>,
    out: Vec<Vec<ArcId>>,
    /// The arcs that a half's rise puts into force.
    woken: Vec<Vec<ArcId>>,
}

impl Arcs {
    /// Adds `to >= from + weight` for as long as `when` is true.
    pub(super) fn add(&mut self, from: Half, to: Half, weight: i32, when: Fact) {
        self.add_one(from, to, weight, when);
        self.add_one(to ^ 1, from ^ 1, weight, when);
    }

    fn add_one(&mut self, from: Half, to: Half, weight: i32, when: Fact) {
        let id = self.all.len() as ArcId;
        self.all.push(Arc {
            from,
            to,
            weight,
            when,
        });
        push_at(&mut self.out, from, id);
        if when != Fact::ALWAYS {
            push_at(&mut self.woken, when.half, id);
        }
    }
}

fn push_at(lists: &mut Vec<Vec<ArcId>>, half: Half, id: ArcId) {
    if lists.len() <= half as usize {
        lists.resize_with(half as usize + 1, Vec::new);
    }
    lists[half as usize].push(id);
}

impl Engine {
    /// What follows from the bounds that there were at first.
    pub(super) fn follow_every_arc(&mut self) -> Result<(), Clash> {
        for id in 0..self.arcs.all.len() {
            self.follow(id as ArcId)?;
        }
        self.follow_all()
    }

    /// What follows along arcs once a half has risen.
    pub(super) fn follow_arcs(&mut self, entry: Entry) -> Result<(), Clash> {
        let half = entry.half as usize;
        self.work += 8 + self.arcs.out.get(half).map_or(0, Vec::len) as u32;
        for nth in 0..self.arcs.out.get(half).map_or(0, Vec::len) {
            self.follow(self.arcs.out[half][nth])?;
        }
        for nth in 0..self.arcs.woken.get(half).map_or(0, Vec::len) {
            self.follow(self.arcs.woken[half][nth])?;
        }
        Ok(())
    }

    fn follow(&mut self, id: ArcId) -> Result<(), Clash> {
        let arc = self.arcs.all[id as usize];
        let pushed = self.trail.bound(arc.from) + arc.weight;
        if self.trail.is_true(arc.when) {
            if pushed > self.trail.bound(arc.to) {
                self.refuse_circle(arc)?;
                return self.assert(Fact::at_least(arc.to, pushed), Reason::Arc(id));
            }
        } else if pushed > self.trail.most(arc.to) && !self.trail.is_false(arc.when) {
            return self.assert(arc.when.not(), Reason::Closed(id));
        }
        Ok(())
    }

    /// Whether what is pushed pushed itself before, round a circle of arcs: then it would go on for
    /// ever, and the facts that put these arcs into force can't be true together. Without this, each
    /// round would be an entry, and the conflict would be explained by how late it became.
    fn refuse_circle(&mut self, pushing: Arc) -> Result<(), Clash> {
        let last = self.trail.last(pushing.to);
        if last == NONE || last < self.since {
            return Ok(());
        }
        let mut half = pushing.from;
        for _ in 0..self.trail.bounds.len() {
            let at = self.trail.last(half);
            if at == NONE {
                return Ok(());
            }
            let Reason::Arc(id) = self.trail.entries[at as usize].reason else {
                return Ok(());
            };
            half = self.arcs.all[id as usize].from;
            if half == pushing.to {
                return self.clash_of_circle(pushing);
            }
        }
        Ok(())
    }

    fn clash_of_circle(&mut self, pushing: Arc) -> Result<(), Clash> {
        self.clash.clear();
        self.clash.push(pushing.when);
        let mut half = pushing.from;
        while half != pushing.to {
            let at = self.trail.last(half);
            if let Reason::Arc(id) = self.trail.entries[at as usize].reason {
                let arc = self.arcs.all[id as usize];
                self.clash.push(arc.when);
                half = arc.from;
            }
        }
        Err(Clash)
    }
}
