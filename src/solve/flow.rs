//! The cheapest starts that keep every difference: of linear costs, the dual of a flow.
//!
//! To make `sum of cost × start` least under differences `to - from >= minutes` is the dual of sending
//! the costs through the arcs by the longest ways (Ahuja, Magnanti & Orlin 1993, chapter 9: successive
//! shortest paths with potentials). The potentials in the end are the starts; the arcs with a flow are
//! the differences that the cost rests on, and so why it can't be less.

use super::trail::Fact;

const NO_ARC: i32 = i32::MIN;

/// From, to, and what a minute costs between the two.
pub(super) type Wait = (usize, usize, i32);

/// Differences between nodes, and what flows along them.
#[derive(Debug)]
pub(super) struct Flow {
    nodes: usize,
    /// By from, then to: the largest difference, for what it holds, and its flow.
    minutes: Vec<i32>,
    when: Vec<Fact>,
    flow: Vec<i32>,
    /// How many of them were looked at so far.
    pub(super) looked_at: u32,
}

/// How far every node is from one, and through which.
struct Ways {
    far: Vec<i32>,
    through: Vec<usize>,
    /// The nearest node that wants something.
    to: usize,
}

impl Flow {
    pub(super) fn new(nodes: usize) -> Self {
        Self {
            nodes,
            minutes: vec![NO_ARC; nodes * nodes],
            when: vec![Fact::ALWAYS; nodes * nodes],
            flow: vec![0; nodes * nodes],
            looked_at: (nodes * nodes) as u32,
        }
    }

    /// Adds `to >= from + minutes`, which holds because of a fact.
    pub(super) fn add(&mut self, from: usize, to: usize, minutes: i32, when: Fact) {
        let at = from * self.nodes + to;
        if minutes > self.minutes[at] {
            (self.minutes[at], self.when[at]) = (minutes, when);
        }
    }

    /// Moves starts that keep every difference to the cheapest ones; the last node, of minute nothing,
    /// stays. `waits` says what a minute costs from one node to another; a way must lead from every node to every other.
    ///
    /// As that node is held, every start stays within its bounds, a way is never longer than what they
    /// leave free through it, and no flow is larger than all weights: nothing leaves 32 bits.
    pub(super) fn cheapen(&mut self, starts: &mut [i32], waits: &[Wait]) {
        let zero = self.nodes - 1;
        let mut wants = vec![0; self.nodes];
        for &(from, to, weight) in waits {
            match self.back(from, to, starts) {
                // What doesn't wait at all can't wait less: its cost flows through its own arc. Most do so, and each
                // that has to be led elsewhere takes a look at all nodes.
                None => self.flow[from * self.nodes + to] += weight,
                Some(_) => {
                    wants[to] += weight;
                    wants[from] -= weight;
                }
            }
        }
        while let Some(from) = wants.iter().position(|&want| want < 0) {
            let ways = self.ways(from, starts, &wants);
            self.looked_at += (self.nodes * self.nodes / 2) as u32;
            let nearest = ways.far[ways.to];
            let held = nearest.min(ways.far[zero]);
            for (start, far) in starts.iter_mut().zip(&ways.far) {
                *start -= nearest.min(*far) - held;
            }
            let mut sent = wants[ways.to].min(-wants[from]);
            ways.follow(from, |one, next| {
                if let Some(back) = self.back(one, next, starts) {
                    sent = sent.min(self.flow[back]);
                }
            });
            let mut path = Vec::new();
            ways.follow(from, |one, next| path.push((one, next)));
            for (one, next) in path {
                match self.back(one, next, starts) {
                    Some(back) => self.flow[back] -= sent,
                    None => self.flow[one * self.nodes + next] += sent,
                }
            }
            wants[from] += sent;
            wants[ways.to] -= sent;
        }
    }

    /// The flow that a step of a way takes back, if the arc itself isn't tight.
    fn back(&self, one: usize, next: usize, starts: &[i32]) -> Option<usize> {
        let minutes = self.minutes[one * self.nodes + next];
        let is_tight = minutes != NO_ARC && starts[next] - starts[one] == minutes;
        (!is_tight).then_some(next * self.nodes + one)
    }

    /// Dijkstra's shortest ways by what differences leave free.
    fn ways(&self, from: usize, starts: &[i32], wants: &[i32]) -> Ways {
        let count = self.nodes;
        let mut ways = Ways {
            far: vec![i32::MAX; count],
            through: vec![from; count],
            to: from,
        };
        let mut left: Vec<usize> = (0..count).collect();
        ways.far[from] = 0;
        while let Some(nth) = (0..left.len()).min_by_key(|&nth| ways.far[left[nth]]) {
            let one = left.swap_remove(nth);
            let far = ways.far[one];
            if wants[one] > 0 {
                ways.to = one;
                return ways;
            }
            for &next in &left {
                let minutes = self.minutes[one * count + next];
                let free = if self.flow[next * count + one] > 0 {
                    0
                } else if minutes == NO_ARC {
                    continue;
                } else {
                    starts[next] - starts[one] - minutes
                };
                if far + free < ways.far[next] {
                    ways.far[next] = far + free;
                    ways.through[next] = one;
                }
            }
        }
        ways
    }

    /// The facts that the cost rests on.
    pub(super) fn facts(&self) -> Vec<Fact> {
        let used = self.flow.iter().zip(&self.when);
        used.filter(|(flow, _)| **flow > 0)
            .map(|(_, when)| *when)
            .collect()
    }
}

impl Ways {
    /// Every step of the way, from its end.
    fn follow(&self, from: usize, mut step: impl FnMut(usize, usize)) {
        let mut next = self.to;
        while next != from {
            step(self.through[next], next);
            next = self.through[next];
        }
    }
}
