//! What follows from a resource that only one task can hold at a time, such as the hands.

use super::engine::{Clash, Engine};
use super::side::{Holder, Orders, Side};
use super::trail::{Fact, Trail};

/// A resource of capacity one.
#[derive(Debug, Default)]
pub(super) struct One {
    holders: Vec<Holder>,
    orders: Orders,
    /// Its holders as they stand, the latest first; kept for the next time, when little has changed.
    rows: [Vec<Row>; 2],
    /// By row: the work of the rows up to there that are looked at.
    work: Vec<i32>,
    facts: Vec<Fact>,
}

/// A holder as it stands.
#[derive(Debug, Clone, Copy)]
struct Row {
    earliest: i32,
    deadline: i32,
    minutes: i32,
    /// Its place among the holders.
    nth: usize,
}

impl One {
    pub(super) fn new(holders: Vec<Holder>, orders: Orders) -> Self {
        let row = |(nth, holder): (usize, &Holder)| Row {
            earliest: 0,
            deadline: 0,
            minutes: holder.minutes,
            nth,
        };
        let rows: Vec<Row> = holders.iter().enumerate().map(row).collect();
        Self {
            holders,
            orders,
            rows: [rows.clone(), rows],
            ..Self::default()
        }
    }

    /// What following it costs, about.
    pub(super) fn looks(&self) -> u32 {
        2 * self.holders.len().pow(2) as u32
    }

    fn look(&mut self, trail: &Trail, side: Side) {
        let rows = &mut self.rows[side as usize];
        for at in 0..rows.len() {
            let mut row = rows[at];
            row.earliest = side.earliest(trail, self.holders[row.nth]);
            row.deadline = side.deadline(trail, self.holders[row.nth]);
            let mut to = at;
            while to > 0 && rows[to - 1].earliest < row.earliest {
                rows[to] = rows[to - 1];
                to -= 1;
            }
            rows[to] = row;
        }
    }

    /// That those who must have ended by a minute and can't start before another lie between two
    /// minutes.
    fn tell_within(&mut self, side: Side, from: i32, by: i32, late: i32) {
        for row in &self.rows[side as usize] {
            if row.deadline <= by && row.earliest >= from {
                let holder = self.holders[row.nth];
                self.facts.push(side.from(holder, from));
                self.facts.push(side.by(holder, late));
            }
        }
    }
}

impl Engine {
    pub(super) fn follow_one(&mut self, nth: usize) -> Result<(), Clash> {
        let mut one = std::mem::take(&mut self.ones[nth]);
        let mut outcome = Ok(());
        for side in Side::BOTH {
            one.look(&self.trail, side);
            outcome = self.no_room(&mut one, side);
            outcome = outcome.and_then(|()| self.after_all(&mut one, side));
            if outcome.is_err() {
                break;
            }
        }
        self.ones[nth] = one;
        outcome
    }

    /// A task starts when all the work is done that is known to come before it.
    fn after_all(&mut self, one: &mut One, side: Side) -> Result<(), Clash> {
        for second in 0..one.holders.len() {
            let rows = &one.rows[side as usize];
            let halves = one.orders.all_before(side, second);
            let is_before = |row: &Row| self.trail.is_true(Fact::choice(halves[row.nth]));
            let (mut work, mut best, mut from) = (0, i32::MIN / 2, 0);
            for row in rows {
                if is_before(row) {
                    work += row.minutes;
                    if row.earliest + work > best {
                        (best, from) = (row.earliest + work, row.earliest);
                    }
                }
            }
            let fact = side.from(one.holders[second], best);
            if work == 0 || self.trail.is_true(fact) {
                continue;
            }
            one.facts.clear();
            for row in rows.iter().take_while(|row| row.earliest >= from) {
                if is_before(row) {
                    one.facts.push(Fact::choice(halves[row.nth]));
                    one.facts.push(side.from(one.holders[row.nth], from));
                }
            }
            let reason = self.tell(&one.facts);
            self.assert(fact, reason)?;
        }
        Ok(())
    }

    /// Tasks that must be done between two minutes can't have more work than lies between these; and
    /// where they leave no room for another one that can't start sooner, it comes after all of them
    /// (edge finding; Carlier & Pinson 1989).
    fn no_room(&mut self, one: &mut One, side: Side) -> Result<(), Clash> {
        for last in 0..one.holders.len() {
            let rows = &one.rows[side as usize];
            let by = rows[last].deadline;
            // The work of those, when the last of it is done at the earliest, and the longest task
            // that isn't one of them: `done + longest` is beyond all that `after_those` can find.
            let (mut sum, mut done, mut longest) = (0, i32::MIN, 0);
            one.work.clear();
            for row in rows {
                if row.deadline <= by {
                    sum += row.minutes;
                    done = done.max(row.earliest + sum);
                    if done > by {
                        one.facts.clear();
                        one.tell_within(side, row.earliest, by, done - 1);
                        return self.clash(&one.facts);
                    }
                } else {
                    longest = longest.max(row.minutes);
                }
                one.work.push(sum);
            }
            if done.saturating_add(longest) > by {
                self.after_those(one, side, by)?;
            }
        }
        Ok(())
    }

    fn after_those(&mut self, one: &mut One, side: Side, by: i32) -> Result<(), Clash> {
        let (mut done, mut since) = (i32::MIN, 0);
        for at in (0..one.holders.len()).rev() {
            let row = one.rows[side as usize][at];
            let with_those = row.earliest + one.work[at];
            if row.deadline <= by {
                if with_those > done {
                    (done, since) = (with_those, row.earliest);
                }
                continue;
            }
            let (full, from) = if done.saturating_add(row.minutes) > by {
                (done + row.minutes, since)
            } else if one.work[at] > 0 && with_those + row.minutes > by {
                (with_those + row.minutes, row.earliest)
            } else {
                continue;
            };
            let mut reason = None;
            for nth in 0..one.holders.len() {
                let other = one.rows[side as usize][nth];
                // The latest come first.
                if other.earliest < from {
                    break;
                }
                if other.deadline > by {
                    continue;
                }
                let order = one.orders.before(side, other.nth, row.nth);
                if self.trail.is_true(order) {
                    continue;
                }
                let reason = *reason.get_or_insert_with(|| {
                    one.facts.clear();
                    one.facts.push(side.from(one.holders[row.nth], from));
                    one.tell_within(side, from, by, full - 1);
                    self.tell(&one.facts)
                });
                self.assert(order, reason)?;
            }
        }
        Ok(())
    }
}
