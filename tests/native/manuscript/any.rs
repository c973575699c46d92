//! Whatever a text says, in any order: it is a formula once its heat is known, it is stored and read back, and taking
//! an edit back leaves nothing of it. Properties of our own model, so no outside source can give the values.

use std::sync::LazyLock;

use domain::formula::compose::{Said, SaidHeat, compose};
use domain::formula::manuscript::{Edit, Manuscript};
use domain::formula::{ComponentId, StepId, StepKind};
use domain::units::{Celsius, Minutes};
use proptest::prelude::*;
use records::Record as _;
use records::manuscript::ManuscriptRecord;

use super::{CUSTARD_BUNS, manuscript};

fn kind() -> impl Strategy<Value = StepKind> {
    prop::sample::select(vec![
        StepKind::Gather,
        StepKind::Cook,
        StepKind::Chill,
        StepKind::Mix,
        StepKind::Knead,
        StepKind::TakeTemperature,
        StepKind::Bulk,
        StepKind::Retard,
        StepKind::Divide,
        StepKind::PreShape,
        StepKind::BenchRest,
        StepKind::Shape,
        StepKind::Fill,
        StepKind::FinalProof,
        StepKind::OvenOn,
        StepKind::OvenHeats,
        StepKind::Wash,
        StepKind::Bake,
        StepKind::Cool,
        StepKind::Prepare,
        StepKind::Finish,
        StepKind::Serve,
    ])
}

fn said() -> impl Strategy<Value = Said> {
    let minutes = (0.0..=900.0).prop_map(|told| {
        let told = Minutes::clamped(told);
        (told, told)
    });
    let heat = (0.0..=260.0, any::<bool>()).prop_map(|(told, fan)| SaidHeat {
        written: Celsius::clamped(told),
        fan,
        is_assumed: false,
    });
    (
        "[a-zA-Zäöü0-9 ,.;()\n°]{0,120}",
        prop::option::of(kind()),
        prop::option::of((0_u16..6).prop_map(ComponentId)),
        prop::option::of(minutes),
        prop::option::of(heat),
    )
        .prop_map(|(text, kind, component, minutes, heat)| Said {
            text,
            kind,
            component,
            minutes,
            heat,
        })
}

/// Its components are the same every time, so they are read once.
static BUNS: LazyLock<Manuscript> = LazyLock::new(|| Manuscript {
    steps: Vec::new(),
    last_step: StepId(0),
    ..manuscript(CUSTARD_BUNS)
});

fn composed(said: &[Said]) -> Manuscript {
    let mut manuscript = BUNS.clone();
    let composed = compose(&manuscript, said);
    manuscript.last_step = composed.steps.last().map_or(StepId(0), |line| line.step.id);
    manuscript.steps = composed.steps;
    manuscript
}

proptest! {
    #[test]
    fn any_steps_become_a_formula(said in prop::collection::vec(said(), 0..14)) {
        let mut manuscript = composed(&said);
        let bakes = |line: &&domain::formula::manuscript::Line| line.step.kind == StepKind::Bake;
        let bakes: Vec<StepId> = manuscript.steps.iter().filter(bakes).map(|line| line.step.id).collect();
        for bake in bakes {
            let heat = Edit::Heat(bake, Celsius::clamped(200.0));
            prop_assert_eq!(manuscript.apply(&heat), Ok(()));
        }
        let formula = manuscript.formula();
        prop_assert!(formula.is_ok(), "{:?}", formula);
        let text = ManuscriptRecord::from(&manuscript).write();
        let read = ManuscriptRecord::read(&text).and_then(Manuscript::try_from);
        prop_assert_eq!(read, Ok(manuscript));
    }

    #[test]
    fn steps_that_are_moved_and_removed_leave_a_formula(
        said in prop::collection::vec(said(), 0..8),
        moves in prop::collection::vec((0_u16..30, 0_usize..30, any::<bool>()), 0..12),
    ) {
        let begun = composed(&said);
        let edits: Vec<Edit> = moves
            .iter()
            .map(|&(step, to, goes)| match goes {
                true => Edit::RemoveStep(StepId(step)),
                false => Edit::MoveStep(StepId(step), to),
            })
            .collect();
        let after = begun.after(&edits);
        for line in &after.steps {
            let id = line.step.id;
            let place = after.steps.iter().position(|other| other.step.id == id);
            for link in &line.step.after {
                let before = after.steps.iter().position(|other| other.step.id == link.step);
                prop_assert!(before.is_some() && before < place, "{:?}", line.step);
            }
        }
        if let Some((_, all_but_last)) = edits.split_last() {
            let mut again = begun.after(all_but_last);
            let _refused = again.apply(&edits[edits.len() - 1]);
            prop_assert_eq!(again, after);
        }
    }
}
