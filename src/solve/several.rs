//! What follows from a resource that a few tasks can hold at a time, such as two ovens.

use super::engine::{Clash, Engine};
use super::side::{Holder, Orders, Side};
use super::trail::Fact;

/// A resource of a capacity above one.
#[derive(Debug, Default)]
pub(super) struct Several {
    pub(super) holders: Vec<Holder>,
    pub(super) orders: Orders,
    pub(super) capacity: usize,
    /// Sets of holders that can't all hold it at once, of which two are known to be in order.
    pub(super) ordered: Vec<Vec<usize>>,
}

impl Engine {
    /// Time-tabling: what a task holds whenever it starts is taken from the others.
    pub(super) fn follow_several(&mut self, nth: usize) -> Result<(), Clash> {
        let several = std::mem::take(&mut self.several[nth]);
        let mut outcome = Ok(());
        for side in Side::BOTH {
            outcome = self.follow_table(&several, side);
            if outcome.is_err() {
                break;
            }
        }
        self.several[nth] = several;
        outcome
    }

    fn follow_table(&mut self, several: &Several, side: Side) -> Result<(), Clash> {
        let Several {
            holders, capacity, ..
        } = several;
        let mut certain: Vec<(usize, i32, i32)> = Vec::new();
        for (nth, &holder) in holders.iter().enumerate() {
            let (from, to) = side.certain(&self.trail, holder);
            if from < to {
                certain.push((nth, from, to));
            }
        }
        if certain.len() < *capacity {
            return Ok(());
        }
        for (nth, &holder) in holders.iter().enumerate() {
            for &(other, from, to) in &certain {
                let at = from.max(side.earliest(&self.trail, holder));
                let (_, ends) = side.certain(&self.trail, holder);
                if other == nth || at >= to.min(ends) {
                    continue;
                }
                let covers = |&&(other, from, to): &&(usize, i32, i32)| {
                    other != nth && from <= at && at < to
                };
                let covering = || certain.iter().filter(covers).take(*capacity);
                if covering().count() < *capacity {
                    continue;
                }
                let until = covering().map(|&(_, _, to)| to).min().unwrap_or(at);
                let minute = until.min(ends) - 1;
                let mut facts = vec![side.beyond(holder, minute)];
                for &(other, _, _) in covering() {
                    facts.extend(over(side, holders[other], minute));
                }
                let reason = self.tell(&facts);
                self.assert(side.from(holder, minute + 1), reason)?;
            }
        }
        Ok(())
    }
}

/// That somebody holds the resource at a minute.
fn over(side: Side, holder: Holder, minute: i32) -> [Fact; 2] {
    [side.beyond(holder, minute), side.begun_by(holder, minute)]
}
