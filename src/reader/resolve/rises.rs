//! Which of the rises is the first and which the last.
//!
//! Verbs don't tell: "prove" is said of both. The rise before the pieces are shaped is the first, and the one behind it
//! the last. Left out: rises between two shapings, which count as the last.

use domain::formula::StepKind;

use crate::found::{Found, Step};
use crate::grammar::tokens::tokens;
use crate::steps::verb;

pub(super) fn tell(found: &mut Found) {
    let mut has_risen = false;
    let mut is_shaped = false;
    for step in &mut found.steps {
        let (before, any) = shaping(step);
        if is_rise(step.kind) {
            let is_last = has_risen && (is_shaped || before);
            step.kind = Some(if is_last {
                StepKind::FinalProof
            } else {
                StepKind::Bulk
            });
            has_risen = true;
        }
        is_shaped |= any;
    }
}

fn is_rise(kind: Option<StepKind>) -> bool {
    matches!(kind, Some(StepKind::Bulk | StepKind::FinalProof))
}

fn is_shaping(kind: Option<StepKind>) -> bool {
    matches!(
        kind,
        Some(StepKind::Shape | StepKind::Divide | StepKind::Fill)
    )
}

/// Whether pieces are shaped before the rise of a step, and whether they are in it at all: "Shape, then let rise 30
/// minutes" is one step that does both.
fn shaping(step: &Step) -> (bool, bool) {
    if is_shaping(step.kind) {
        return (true, true);
    }
    let said = tokens(&step.text);
    let mut kinds = said.iter().map(|token| verb(&token.word));
    let first = kinds.find(|kind| is_shaping(*kind) || is_rise(*kind));
    let before = first.is_some_and(is_shaping);
    (before, before || kinds.any(is_shaping))
}
