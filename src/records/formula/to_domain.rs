//! From the stored shape to the model, checking everything.

use domain::decimal::plain;
use domain::estimate::{Basis, Estimate};
use domain::formula::{self as model, ComponentId, Draft, Formula, FormulaId, StepId};
use domain::units::{Celsius, Grams, Millimetres, Minutes, OutOfRange};

use super::{
    ChecklistRecord, ComponentRecord, FormulaRecord, IngredientRecord, LengthRecord, LinkRecord,
    Need, StepRecord, WindowRecord,
};
use crate::read::{Kind, ReadError, impossible};

impl TryFrom<FormulaRecord> for Formula {
    type Error = ReadError;

    fn try_from(record: FormulaRecord) -> Result<Self, ReadError> {
        let draft = draft(record)?;
        Formula::new(draft).map_err(|cause| impossible(Kind::Formula, &cause))
    }
}

fn draft(record: FormulaRecord) -> Result<Draft, ReadError> {
    let pieces = model::Pieces {
        count: record.pieces.count,
        mass: Grams::new(record.pieces.mass_g).map_err(odd)?,
        noun: record.pieces.noun,
        plural: record.pieces.plural,
        form: record.pieces.form,
    };
    Ok(Draft {
        id: FormulaId(record.id),
        name: record.name,
        about: record.about,
        pieces,
        reference: Celsius::new(record.reference_c).map_err(odd)?,
        components: record
            .components
            .into_iter()
            .map(component)
            .collect::<Result<_, _>>()?,
        steps: record
            .steps
            .into_iter()
            .map(step)
            .collect::<Result<_, _>>()?,
    })
}

fn component(record: ComponentRecord) -> Result<model::Component, ReadError> {
    Ok(model::Component {
        id: ComponentId(record.id),
        kind: record.kind,
        name: record.name,
        target: record.target_c.map(Celsius::new).transpose().map_err(odd)?,
        ingredients: record
            .ingredients
            .into_iter()
            .map(ingredient)
            .collect::<Result<_, _>>()?,
    })
}

fn ingredient(record: IngredientRecord) -> Result<model::Ingredient, ReadError> {
    let food = domain::food::food(&record.food).ok_or_else(|| {
        impossible(
            Kind::Formula,
            &format_args!("no food is called \"{}\"", record.food),
        )
    })?;
    Ok(model::Ingredient {
        food,
        name: record.name,
        mass: Grams::new(record.mass_g).map_err(odd)?,
        kept: record.kept,
        tempered: record.tempered,
    })
}

pub(crate) fn step(record: StepRecord) -> Result<model::Step, ReadError> {
    let needs = model::Needs {
        hands: record.needs.contains(&Need::Hands),
        hob: record.needs.contains(&Need::Hob),
        oven: record.needs.contains(&Need::Oven),
        fridge: record.needs.contains(&Need::Fridge),
    };
    Ok(model::Step {
        id: StepId(record.id),
        component: ComponentId(record.component),
        kind: record.kind,
        title: record.title,
        instruction: record.instruction,
        detail: record.detail,
        cue: record.cue,
        why: record.why,
        cautions: record.cautions,
        needs,
        after: record
            .after
            .into_iter()
            .map(link)
            .collect::<Result<_, _>>()?,
        length: length(record.length)?,
        checklist: record.checklist.map(|checklist| match checklist {
            ChecklistRecord::Ingredients => model::Checklist::Ingredients,
            ChecklistRecord::AllIngredients => model::Checklist::AllIngredients,
            ChecklistRecord::PieceMasses => model::Checklist::PieceMasses,
            ChecklistRecord::Marks { scope, items } => model::Checklist::Marks { scope, items },
        }),
        ahead_of: record.ahead_of.map(StepId),
    })
}

fn link(record: LinkRecord) -> Result<model::Link, ReadError> {
    Ok(model::Link {
        step: StepId(record.step),
        least: Minutes::new(record.least_min).map_err(odd)?,
        greatest: record
            .greatest_min
            .map(Minutes::new)
            .transpose()
            .map_err(odd)?,
    })
}

fn window(record: WindowRecord) -> Result<Estimate<Minutes>, ReadError> {
    let low = Minutes::new(record.low).map_err(odd)?;
    let likely = Minutes::new(record.likely).map_err(odd)?;
    let high = Minutes::new(record.high).map_err(odd)?;
    if !(low.get() >= 0.0 && low <= likely && likely <= high) {
        return Err(impossible(
            Kind::Formula,
            &format_args!(
                "a window runs from {} over {} to {} min",
                plain(low.get(), 2),
                plain(likely.get(), 2),
                plain(high.get(), 2)
            ),
        ));
    }
    Ok(Estimate::new(low, likely, high, Basis::Formula))
}

fn length(record: LengthRecord) -> Result<model::Length, ReadError> {
    let celsius = |value| Celsius::new(value).map_err(odd);
    Ok(match record {
        LengthRecord::Hands { minutes } => model::Length::Hands(window(minutes)?),
        LengthRecord::Wait { minutes } => model::Length::Wait(window(minutes)?),
        LengthRecord::Ferment {
            minutes,
            folds_min,
            held,
            from_fridge,
        } => model::Length::Ferment {
            reference_minutes: window(minutes)?,
            folds: folds_min
                .into_iter()
                .map(Minutes::new)
                .collect::<Result<_, _>>()
                .map_err(odd)?,
            held,
            from_fridge,
        },
        LengthRecord::Chill {
            from_c,
            to_c,
            depth_mm,
            cooling,
        } => model::Length::Chill {
            from: celsius(from_c)?,
            to: celsius(to_c)?,
            depth: Millimetres::new(depth_mm).map_err(odd)?,
            cooling,
        },
        LengthRecord::Cool { to_c } => model::Length::Cool { to: celsius(to_c)? },
        LengthRecord::Bake {
            oven_c,
            minutes,
            core_c,
            piece_g,
            form,
            load_g,
        } => model::Length::Bake {
            oven: celsius(oven_c)?,
            range: window(minutes)?,
            core: celsius(core_c)?,
            piece: Grams::new(piece_g).map_err(odd)?,
            form,
            load: load_g.map(Grams::new).transpose().map_err(odd)?,
        },
        LengthRecord::OvenHeats { oven_c } => model::Length::OvenHeats {
            oven: celsius(oven_c)?,
        },
    })
}

fn odd(cause: OutOfRange) -> ReadError {
    impossible(Kind::Formula, &cause)
}
