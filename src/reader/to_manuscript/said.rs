//! Steps as they were found, put for composing.

use domain::formula::compose::{Said, SaidHeat};
use domain::formula::{ComponentId, StepKind};
use domain::thermal::oven::BakeForm;
use domain::units::{Celsius, Minutes};

use crate::found::{Found, Step};

/// Every step as it is said, `places` telling which component a part became.
pub(super) fn said(found: &Found, places: &[ComponentId]) -> Vec<Said> {
    found.steps.iter().map(|step| one(step, places)).collect()
}

fn one(step: &Step, places: &[ComponentId]) -> Said {
    let time = |told: f64| Minutes::new(told).ok();
    let minutes = step
        .minutes
        .and_then(|(least, most)| time(least).zip(time(most)));
    let heat = step.heat.and_then(|heat| {
        Some(SaidHeat {
            written: Celsius::new(heat.celsius).ok()?,
            fan: heat.fan,
            is_assumed: heat.scale_is_inferred,
        })
    });
    Said {
        text: step.text.clone(),
        kind: kind(step),
        component: step.part.and_then(|part| places.get(part)).copied(),
        minutes,
        heat,
    }
}

/// What is done. Wherever a dough waits in the fridge it is retarded, whatever that is called; what only comes out of
/// it isn't.
fn kind(step: &Step) -> Option<StepKind> {
    let text = domain::food::unaccented(&step.text);
    let is_cold = FRIDGE.iter().any(|fridge| text.contains(fridge));
    let comes_out = OUT_OF_IT.iter().any(|out| text.contains(out));
    let cools = COOLS.iter().any(|cools| text.contains(cools));
    let rises = RISES.iter().any(|rises| text.contains(rises));
    match step.kind {
        Some(StepKind::Bulk | StepKind::FinalProof | StepKind::BenchRest) | None
            if cools && !rises && !is_cold =>
        {
            Some(StepKind::Cool)
        }
        Some(StepKind::Retard) if comes_out => {
            step.minutes.is_some().then_some(StepKind::BenchRest)
        }
        None | Some(StepKind::Bulk | StepKind::FinalProof | StepKind::BenchRest)
            if is_cold && !comes_out =>
        {
            Some(StepKind::Retard)
        }
        told => told,
    }
}

/// "Leave to cool" is no rise, whatever "leave" mostly means.
const COOLS: &[&str] = &[
    "to cool",
    "until cool",
    "let cool",
    "cool completely",
    "abkuhl",
    "auskuhl",
    "refroidir",
    "enfriar",
    "avkjol",
];
const RISES: &[&str] = &[
    "rise",
    "prove",
    "proof",
    "double",
    "ferment",
    "gehen",
    "verdoppel",
    "gare",
    "lever",
    "pousser",
    "fermentar",
    "levar",
    "heve",
];

/// Stems in the five languages, folded.
const FRIDGE: &[&str] = &[
    "fridge",
    "refrigerat",
    "kuhlschrank",
    "frigo",
    "nevera",
    "kjoleskap",
];
const OUT_OF_IT: &[&str] = &[
    "from the fridge",
    "from the refrigerator",
    "out of the fridge",
    "out of the refrigerator",
    "from fridge",
    "aus dem kuhlschrank",
    "du frigo",
    "du refrigerateur",
    "de la nevera",
    "del frigorifico",
    "ut av kjoleskap",
    "fra kjoleskap",
];

/// In what form it bakes, where a step names what it bakes in.
pub(super) fn form(found: &Found) -> Option<BakeForm> {
    let texts = found
        .steps
        .iter()
        .map(|step| domain::food::unaccented(&step.text));
    let texts: Vec<String> = texts.collect();
    let named = |words: &[&str]| {
        let mut texts = texts.iter();
        texts.any(|text| words.iter().any(|word| text.contains(word)))
    };
    let tin = [
        "loaf tin",
        "loaf pan",
        "bread tin",
        "bread pan",
        "kastenform",
        "moule a cake",
        "molde de pan",
        "molde rectangular",
        "brodform",
        "formbrod",
    ];
    named(&tin).then_some(BakeForm::Tin)
}
