//! What waits for what, by the order in which steps stand.
//!
//! Every link goes to a step that stands before, so no step ever waits for itself. The greatest lags are those of the
//! starter formulas (common practice, no source).

mod lags;

use crate::formula::manuscript::{Component, Line};
use crate::formula::palette::Holds;
use crate::formula::{ComponentId, ComponentKind, Link, Step, StepId, StepKind};
use crate::units::{Minutes, minutes};
use lags::{Links, RISEN};

/// Food that spoils is cold again within two hours of the oven (USDA).
const COLD_AGAIN: Minutes = minutes(120.0);

/// Links all steps anew.
pub(crate) fn weave(lines: &mut [Line], components: &[Component]) {
    let woven = Weave::of(lines, components);
    let links: Vec<_> = (0..lines.len()).map(|place| woven.links(place)).collect();
    let ahead: Vec<_> = (0..lines.len())
        .map(|place| woven.ahead_of(place))
        .collect();
    for (line, (links, ahead)) in lines.iter_mut().zip(links.into_iter().zip(ahead)) {
        line.step.after = links;
        line.step.ahead_of = ahead;
    }
}

/// In which lane a step stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum LaneOf {
    /// Gathering, before everything.
    Gather,
    /// The dough's.
    Dough,
    /// Turning the oven on and its heating.
    Oven,
    /// A component's own.
    Apart(ComponentId, ComponentKind),
}

/// Steps as they stand, with their lanes.
pub(crate) struct Weave<'a> {
    steps: Vec<(&'a Step, LaneOf)>,
    spoils: bool,
}

impl<'a> Weave<'a> {
    pub(crate) fn of(lines: &'a [Line], components: &[Component]) -> Self {
        let mut fillings = components.iter();
        let mut fillings = fillings
            .by_ref()
            .filter(|component| component.kind == ComponentKind::Filling);
        Self {
            steps: lines
                .iter()
                .map(|line| (&line.step, lane_of(&line.step, components)))
                .collect(),
            spoils: fillings.any(|filling| Holds::of(filling.foods()).spoils()),
        }
    }

    /// The step that turning the oven on is timed for: the last before the first bake that goes on by itself.
    pub(crate) fn ahead_of(&self, place: usize) -> Option<StepId> {
        let (step, _) = self.steps[place];
        if step.kind != StepKind::OvenOn || !step.is_hands() {
            return None;
        }
        self.waited_for(place).map(|place| self.steps[place].0.id)
    }

    fn waited_for(&self, oven_on: usize) -> Option<usize> {
        self.steps[..oven_on].iter().rposition(|(step, lane)| {
            let rises = matches!(
                step.kind,
                StepKind::Bulk | StepKind::FinalProof | StepKind::Retard | StepKind::BenchRest
            );
            *lane == LaneOf::Dough && rises && !step.is_hands()
        })
    }

    fn last_before(&self, place: usize, is: impl Fn(&Step, LaneOf) -> bool) -> Option<usize> {
        let steps = &self.steps[..place];
        steps.iter().rposition(|&(step, lane)| is(step, lane))
    }

    /// What the step at that place waits for.
    pub(crate) fn links(&self, place: usize) -> Vec<Link> {
        let (step, lane) = self.steps[place];
        let mut links = Links::default();
        let gather = self.last_before(place, |_, lane| lane == LaneOf::Gather);
        match lane {
            LaneOf::Gather => {}
            LaneOf::Oven => self.link_oven(place, gather, &mut links),
            LaneOf::Apart(..) => {
                let own = self.last_before(place, |_, other| other == lane);
                let anchor = || match lane {
                    LaneOf::Apart(_, ComponentKind::Glaze | ComponentKind::Coating) => {
                        self.loads_before(place)
                    }
                    _ => None,
                };
                links.add(self, own.or_else(anchor).or(gather), step);
            }
            LaneOf::Dough => {
                let before = self.last_before(place, |_, lane| lane == LaneOf::Dough);
                links.add(self, before.or(gather), step);
                self.link_what_it_takes_up(place, &mut links);
            }
        }
        links.0
    }

    /// The oven goes on when what it is timed for could begin.
    fn link_oven(&self, place: usize, gather: Option<usize>, links: &mut Links) {
        let (step, _) = self.steps[place];
        let on = self.last_before(place, |other, _| other.kind == StepKind::OvenOn);
        if step.kind == StepKind::OvenHeats && on.is_some() {
            links.add(self, on, step);
            return;
        }
        let waited = self.waited_for(place).map(|waited| self.links(waited));
        match waited.filter(|before| !before.is_empty()) {
            Some(before) => {
                let ids = before.iter().map(|link| Link {
                    step: link.step,
                    least: minutes(0.0),
                    greatest: None,
                });
                links.0.extend(ids);
            }
            None => links.add(self, gather, step),
        }
    }

    /// The step with which the bread goes into the oven.
    fn loads_before(&self, place: usize) -> Option<usize> {
        let bake = self.last_before(place, |step, _| step.kind == StepKind::Bake)?;
        self.last_before(bake, |_, lane| lane == LaneOf::Dough)
    }

    fn link_what_it_takes_up(&self, place: usize, links: &mut Links) {
        let (step, _) = self.steps[place];
        let is_first_mix = step.kind == StepKind::Mix
            && self
                .last_before(place, |other, lane| {
                    lane == LaneOf::Dough && other.kind == StepKind::Mix
                })
                .is_none();
        let takes = |kind: ComponentKind| match kind {
            ComponentKind::Preferment => is_first_mix,
            ComponentKind::Filling => step.kind == StepKind::Fill,
            ComponentKind::Wash => step.kind == StepKind::Wash,
            ComponentKind::Glaze | ComponentKind::Coating => step.kind == StepKind::Finish,
            ComponentKind::Dough => false,
        };
        for end in self.ends_before(place, takes) {
            links.add(self, Some(end), step);
        }
        self.link_to_oven(place, links);
        if step.kind == StepKind::Serve {
            let last = self.steps.len();
            if place + 1 == last {
                for end in self.loose_before(place) {
                    links.add(self, Some(end), step);
                }
            }
            let bake = self.last_before(place, |other, _| other.kind == StepKind::Bake);
            if let Some(bake) = bake.filter(|_| self.spoils) {
                links.add_within(self, Some(bake), COLD_AGAIN);
            }
        }
    }

    /// Whether the step is brushing, loading the oven, or the bake itself: what is done at a hot oven.
    fn is_at_oven(&self, place: usize) -> bool {
        let (step, lane) = self.steps[place];
        let is = matches!(step.kind, StepKind::Wash | StepKind::Bake) || self.loads(place);
        lane == LaneOf::Dough && is
    }

    /// Whether the next step of the dough is the bake.
    fn loads(&self, place: usize) -> bool {
        let mut next = self.steps[place + 1..].iter();
        let next = next.find(|(_, lane)| *lane == LaneOf::Dough);
        next.is_some_and(|(next, _)| next.kind == StepKind::Bake)
    }

    /// The oven is hot before anything is brushed for it or put into it.
    fn link_to_oven(&self, place: usize, links: &mut Links) {
        let (step, _) = self.steps[place];
        let heats = self.last_before(place, |other, _| other.kind == StepKind::OvenHeats);
        if let Some(heats) = heats.filter(|_| self.is_at_oven(place)) {
            // Whatever follows waits with the first of them.
            if !(heats + 1..place).any(|between| self.is_at_oven(between)) {
                links.add(self, Some(heats), step);
            }
        }
        if self.loads(place) && step.is_hands() {
            let proof = self.last_before(place, |other, _| other.kind == StepKind::FinalProof);
            links.add_within(self, proof, RISEN);
        }
    }

    /// The last step before `place` of every lane of such components.
    fn ends_before(&self, place: usize, takes: impl Fn(ComponentKind) -> bool) -> Vec<usize> {
        let mut ends: Vec<usize> = Vec::new();
        for (at, &(_, lane)) in self.steps[..place].iter().enumerate() {
            let LaneOf::Apart(_, kind) = lane else {
                continue;
            };
            if takes(kind) {
                ends.retain(|&end| self.steps[end].1 != lane);
                ends.push(at);
            }
        }
        ends
    }

    /// Steps before `place` that nothing before it waits for.
    fn loose_before(&self, place: usize) -> Vec<usize> {
        let waited: Vec<StepId> = (0..place)
            .flat_map(|earlier| self.links(earlier))
            .map(|link| link.step)
            .collect();
        (0..place)
            .filter(|&at| !waited.contains(&self.steps[at].0.id))
            .collect()
    }
}

fn lane_of(step: &Step, components: &[Component]) -> LaneOf {
    let found = components.iter().find(|one| one.id == step.component);
    let plays = found.map_or(ComponentKind::Dough, |one| one.kind);
    match step.kind {
        StepKind::Gather => LaneOf::Gather,
        StepKind::OvenOn | StepKind::OvenHeats => LaneOf::Oven,
        StepKind::Fill | StepKind::Wash | StepKind::Finish | StepKind::Serve => LaneOf::Dough,
        _ if plays == ComponentKind::Dough => LaneOf::Dough,
        _ => LaneOf::Apart(step.component, plays),
    }
}
