//! Whatever a text says, what comes of it is a formula.

use super::*;
use crate::formula::manuscript::Manuscript;
use crate::formula::manuscript::tests::with;
use crate::formula::{ComponentKind, Formula, Step};

const KINDS: [StepKind; 22] = [
    Gather,
    Cook,
    Chill,
    Mix,
    Knead,
    TakeTemperature,
    Bulk,
    Retard,
    Divide,
    StepKind::PreShape,
    BenchRest,
    Shape,
    Fill,
    FinalProof,
    OvenOn,
    OvenHeats,
    Wash,
    Bake,
    Cool,
    Prepare,
    Finish,
    Serve,
];

const TEXTS: [&str; 4] = [
    "",
    "Do it.",
    "Do it with care, and then do it once more until nobody can tell the difference.",
    "Do\nit\u{a0}(or not",
];

struct Dice(u64);

impl Dice {
    fn roll(&mut self, below: usize) -> usize {
        // Knuth's MMIX constants.
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = self.0.wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % below
    }
}

fn any_said(dice: &mut Dice) -> Said {
    let minutes = dice.roll(200) as f64;
    let heat = SaidHeat {
        written: Celsius::clamped(dice.roll(260) as f64),
        fan: dice.roll(2) == 0,
        is_assumed: dice.roll(2) == 0,
    };
    Said {
        text: TEXTS[dice.roll(TEXTS.len())].to_owned(),
        kind: KINDS.get(dice.roll(KINDS.len() + 3)).copied(),
        component: (dice.roll(2) == 0).then(|| ComponentId(dice.roll(9) as u16)),
        minutes: (dice.roll(2) == 0)
            .then(|| (Minutes::clamped(minutes), Minutes::clamped(minutes * 1.5))),
        heat: (dice.roll(3) == 0).then_some(heat),
    }
}

/// A component with its foods by key and mass in g.
type Part = (ComponentKind, &'static str, &'static [(&'static str, f64)]);

fn any_manuscript(dice: &mut Dice) -> Manuscript {
    let mut manuscript = dough_of(LEAN);
    let more: [Part; 6] = [
        (
            ComponentKind::Preferment,
            "poolish",
            &[("bread-flour", 100.0), ("water", 100.0)],
        ),
        (
            ComponentKind::Filling,
            "custard",
            &[("milk", 100.0), ("egg", 50.0)],
        ),
        (ComponentKind::Filling, "jam", &[("plum-jam", 100.0)]),
        (ComponentKind::Wash, "egg wash", &[("egg", 30.0)]),
        (ComponentKind::Glaze, "icing", &[("sugar", 30.0)]),
        (
            ComponentKind::Coating,
            "nuts",
            &[("almonds-blanched", 30.0)],
        ),
    ];
    for (kind, name, parts) in more {
        if dice.roll(2) == 0 {
            with(&mut manuscript, kind, name, parts);
        }
    }
    manuscript.pieces.count = [None, Some(1), Some(8)][dice.roll(3)];
    manuscript.pieces.mass = Some(crate::units::grams(105.0));
    manuscript
}

/// Every step follows gathering and leads to serving, or it would be done at any time.
fn holds_together(steps: &[Line], case: &dyn std::fmt::Debug) {
    let first = steps.first().expect("there are steps");
    let last = steps.last().expect("there are steps");
    assert_eq!(
        (first.step.kind, last.step.kind),
        (Gather, Serve),
        "{case:?}"
    );
    let waited = |id| {
        let links = steps.iter().flat_map(|line| &line.step.after);
        links.filter(|link| link.step == id).count() > 0
    };
    for line in steps {
        let step = &line.step;
        assert!(
            step.id == first.step.id || !step.after.is_empty(),
            "{step:?}, {case:?}"
        );
        assert!(
            step.id == last.step.id || waited(step.id),
            "{step:?}, {case:?}"
        );
        assert!(step.is_hands() == step.needs.hands, "{step:?}, {case:?}");
    }
}

#[test]
fn any_list_of_kinds_becomes_a_formula() {
    let mut dice = Dice(1963);
    for _ in 0..3000 {
        let manuscript = any_manuscript(&mut dice);
        let text: Vec<Said> = (0..dice.roll(14)).map(|_| any_said(&mut dice)).collect();
        let composed = compose(&manuscript, &text);
        let steps: Vec<Step> = composed
            .steps
            .iter()
            .map(|line| line.step.clone())
            .collect();
        let draft = crate::formula::Draft {
            steps,
            ..manuscript.known()
        };
        let formula = Formula::new(draft);
        assert!(formula.is_ok(), "{:?}: {text:?}", formula.err());
        holds_together(&composed.steps, &text);
        for one in &text {
            let kept = |line: &Line| {
                let step = &line.step;
                step.detail.contains(one.text.trim()) || step.instruction.contains(one.text.trim())
            };
            assert!(composed.steps.iter().any(kept), "lost {one:?}: {text:?}");
        }
    }
}
