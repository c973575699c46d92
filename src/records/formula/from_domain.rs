//! From the model to the stored shape.

use domain::estimate::Estimate;
use domain::formula as model;
use domain::units::{Grams, Minutes};

use super::{
    ChecklistRecord, ComponentRecord, FormulaRecord, IngredientRecord, LengthRecord, LinkRecord,
    Need, PiecesRecord, StepRecord, WindowRecord,
};

impl From<&model::Formula> for FormulaRecord {
    fn from(formula: &model::Formula) -> Self {
        Self {
            version: 1,
            id: formula.id.0.clone(),
            name: formula.name.clone(),
            about: formula.about.clone(),
            pieces: PiecesRecord {
                count: formula.pieces.count,
                mass_g: formula.pieces.mass.get(),
                noun: formula.pieces.noun.clone(),
                plural: formula.pieces.plural.clone(),
                form: formula.pieces.form,
            },
            reference_c: formula.reference.get(),
            components: formula.components.iter().map(component).collect(),
            steps: formula.steps.iter().map(step).collect(),
        }
    }
}

fn component(component: &model::Component) -> ComponentRecord {
    ComponentRecord {
        id: component.id.0,
        kind: component.kind,
        name: component.name.clone(),
        target_c: component.target.map(|target| target.get()),
        ingredients: component.ingredients.iter().map(ingredient).collect(),
    }
}

fn ingredient(part: &model::Ingredient) -> IngredientRecord {
    IngredientRecord {
        food: part.food.key.to_owned(),
        name: part.name.clone(),
        mass_g: part.mass.get(),
        kept: part.kept,
        tempered: part.tempered,
    }
}

pub(crate) fn step(step: &model::Step) -> StepRecord {
    let needs = [
        (Need::Hands, step.needs.hands),
        (Need::Hob, step.needs.hob),
        (Need::Oven, step.needs.oven),
        (Need::Fridge, step.needs.fridge),
    ];
    StepRecord {
        id: step.id.0,
        component: step.component.0,
        kind: step.kind,
        title: step.title.clone(),
        instruction: step.instruction.clone(),
        detail: step.detail.clone(),
        cue: step.cue.clone(),
        why: step.why.clone(),
        cautions: step.cautions.clone(),
        needs: needs
            .iter()
            .filter(|(_, needed)| *needed)
            .map(|(need, _)| *need)
            .collect(),
        after: step.after.iter().map(link).collect(),
        length: length(&step.length),
        checklist: step.checklist.as_ref().map(checklist),
        ahead_of: step.ahead_of.map(|id| id.0),
    }
}

fn link(link: &model::Link) -> LinkRecord {
    LinkRecord {
        step: link.step.0,
        least_min: link.least.get(),
        greatest_min: link.greatest.map(Minutes::get),
    }
}

fn window(window: &Estimate<Minutes>) -> WindowRecord {
    WindowRecord {
        low: window.low().get(),
        likely: window.likely().get(),
        high: window.high().get(),
    }
}

fn length(length: &model::Length) -> LengthRecord {
    match length {
        model::Length::Hands(range) => LengthRecord::Hands {
            minutes: window(range),
        },
        model::Length::Wait(range) => LengthRecord::Wait {
            minutes: window(range),
        },
        model::Length::Ferment {
            reference_minutes,
            folds,
            held,
            from_fridge,
        } => LengthRecord::Ferment {
            minutes: window(reference_minutes),
            folds_min: folds.iter().map(|fold| fold.get()).collect(),
            held: *held,
            from_fridge: *from_fridge,
        },
        model::Length::Chill {
            from,
            to,
            depth,
            cooling,
        } => LengthRecord::Chill {
            from_c: from.get(),
            to_c: to.get(),
            depth_mm: depth.get(),
            cooling: *cooling,
        },
        model::Length::Cool { to } => LengthRecord::Cool { to_c: to.get() },
        model::Length::Bake {
            oven,
            range,
            core,
            piece,
            form,
            load,
        } => LengthRecord::Bake {
            oven_c: oven.get(),
            minutes: window(range),
            core_c: core.get(),
            piece_g: piece.get(),
            form: *form,
            load_g: load.map(Grams::get),
        },
        model::Length::OvenHeats { oven } => LengthRecord::OvenHeats { oven_c: oven.get() },
    }
}

fn checklist(checklist: &model::Checklist) -> ChecklistRecord {
    match checklist {
        model::Checklist::Ingredients => ChecklistRecord::Ingredients,
        model::Checklist::AllIngredients => ChecklistRecord::AllIngredients,
        model::Checklist::PieceMasses => ChecklistRecord::PieceMasses,
        model::Checklist::Marks { scope, items } => ChecklistRecord::Marks {
            scope: *scope,
            items: items.clone(),
        },
    }
}
