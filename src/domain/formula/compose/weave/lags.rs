//! How long a step may wait for another. The lags are those of the starter formulas (common practice, no source).

use super::{LaneOf, Weave};
use crate::formula::{ComponentKind, Length, Link, Step, StepId, StepKind};
use crate::units::{Minutes, minutes};

/// A preferment that is ripe waits no longer.
const RIPE: Minutes = minutes(45.0);
/// What is risen waits no longer for the oven.
pub(super) const RISEN: Minutes = minutes(15.0);

/// Links of one step, each step once.
#[derive(Default)]
pub(super) struct Links(pub(super) Vec<Link>);

impl Links {
    pub(super) fn add(&mut self, woven: &Weave, before: Option<usize>, step: &Step) {
        if let Some(before) = before {
            let (other, lane) = woven.steps[before];
            let greatest = greatest(other, lane, step);
            self.push(other.id, greatest);
        }
    }

    pub(super) fn add_within(&mut self, woven: &Weave, before: Option<usize>, greatest: Minutes) {
        if let Some(before) = before {
            self.push(woven.steps[before].0.id, Some(greatest));
        }
    }

    /// The narrower of two lags counts.
    fn push(&mut self, step: StepId, greatest: Option<Minutes>) {
        let least = minutes(0.0);
        match self.0.iter_mut().find(|link| link.step == step) {
            Some(link) => {
                link.greatest = match (link.greatest, greatest) {
                    (Some(one), Some(other)) => Some(one.min(other)),
                    (one, other) => one.or(other),
                };
            }
            None => self.0.push(Link {
                step,
                least,
                greatest,
            }),
        }
    }
}

/// How long a step may wait for hands after another has ended; what goes on by itself begins at once.
fn greatest(before: &Step, lane: LaneOf, step: &Step) -> Option<Minutes> {
    use StepKind::{
        Bake, BenchRest, Bulk, Chill, Cook, Divide, Fill, FinalProof, Finish, Knead, Mix, PreShape,
        Prepare, Shape, TakeTemperature, Wash,
    };
    if !step.is_hands() {
        return None;
    }
    let is_preferment = matches!(lane, LaneOf::Apart(_, ComponentKind::Preferment));
    let rises = matches!(before.length, Length::Ferment { .. });
    Some(match (before.kind, step.kind) {
        (Bulk, Mix) if is_preferment && rises => RIPE,
        (Mix, Knead) => minutes(30.0),
        (Mix | Knead, TakeTemperature) | (TakeTemperature, Prepare) => minutes(5.0),
        (Bulk | FinalProof, Prepare | Divide | PreShape | Shape | Fill) => RISEN,
        (Divide | PreShape | BenchRest, PreShape | Shape | Fill) => minutes(20.0),
        (Shape, Fill) => minutes(15.0),
        (FinalProof, Wash) => minutes(10.0),
        (Wash, Prepare) | (Bake, Prepare) => minutes(5.0),
        (Cook, Prepare) => minutes(10.0),
        (Chill, Prepare) => minutes(30.0),
        (Prepare, Finish) if before.needs.oven => minutes(10.0),
        (Cook, Finish) => minutes(90.0),
        _ => return None,
    })
}
