//! The least time between the starts of every two tasks, as links ask for it, however indirectly.
//!
//! A link's least lag is an arc from start to start, its greatest lag one backwards; the longest way
//! through them is the gap (Bartusch, Möhring & Radermacher 1988). Links contradict each other where
//! a way leads from a task to later than itself.

/// No way leads from one to the other.
pub(super) const FREE: i32 = i32::MIN / 4;

#[derive(Debug, Clone)]
pub(super) struct Gaps {
    count: usize,
    least: Vec<i32>,
    /// What a way leads on to, and how far: most tasks have few behind them.
    onwards: Vec<(usize, i32)>,
}

impl Gaps {
    /// The gaps that arcs of (from, to, minutes) ask for; nothing where they contradict each other.
    pub(super) fn new(count: usize, arcs: &[(usize, usize, i32)]) -> Option<Self> {
        let mut gaps = Self {
            count,
            least: vec![FREE; count * count],
            onwards: Vec::with_capacity(count),
        };
        for task in 0..count {
            gaps.least[task * count + task] = 0;
        }
        arcs.iter()
            .all(|&(from, to, minutes)| gaps.widen(from, to, minutes))
            .then_some(gaps)
    }

    /// The least that a start lies after another's.
    pub(super) fn between(&self, from: usize, to: usize) -> i32 {
        self.least[from * self.count + to]
    }

    /// Asks for a gap more. Says no where that contradicts the others.
    pub(super) fn widen(&mut self, from: usize, to: usize, minutes: i32) -> bool {
        if self.between(to, from).saturating_add(minutes) > 0 {
            return false;
        }
        if self.between(from, to) >= minutes {
            return true;
        }
        let row = self.least[to * self.count..][..self.count].iter();
        let row = row.copied().enumerate().filter(|&(_, far)| far != FREE);
        self.onwards.clear();
        self.onwards.extend(row);
        for row in self.least.chunks_exact_mut(self.count) {
            // What leads there anyway leads on as well.
            let reached = row[from].saturating_add(minutes);
            if row[from] == FREE || reached <= row[to] {
                continue;
            }
            for &(task, onwards) in &self.onwards {
                row[task] = row[task].max(reached + onwards);
            }
        }
        true
    }
}
