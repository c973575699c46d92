//! What the baker wrote about a finished bake, version 1.

use domain::bake::BakeId;
use domain::formula::{FormulaId, StepId};
use domain::notebook::Note;
use domain::thermal::oven::BakeForm;
use domain::units::Moment;

use crate::read::{Kind, Record};
use crate::table::shape;

shape! {
    /// A note.
    pub struct NoteRecord {
        version: u32,
        bake: String,
        formula: String,
        form: Option<BakeForm> = None,
        at_ms: i64,
        text: String = String::new(),
        differently: Vec<DifferentlyRecord> = Vec::new(),
    }
}

shape! {
    /// What to do differently at a step.
    pub struct DifferentlyRecord {
        step: u16,
        text: String,
    }
}

impl Record for NoteRecord {
    const KIND: Kind = Kind::Note;
}

impl From<NoteRecord> for Note {
    fn from(record: NoteRecord) -> Self {
        let differently = record.differently.into_iter();
        Self {
            bake: BakeId(record.bake),
            formula: FormulaId(record.formula),
            form: record.form,
            at: Moment::from_epoch_ms(record.at_ms),
            text: record.text,
            differently: differently
                .map(|line| (StepId(line.step), line.text))
                .collect(),
        }
    }
}

impl From<&Note> for NoteRecord {
    fn from(note: &Note) -> Self {
        let differently = note.differently.iter();
        Self {
            version: 1,
            bake: note.bake.0.clone(),
            formula: note.formula.0.clone(),
            form: note.form,
            at_ms: note.at.epoch_ms(),
            text: note.text.clone(),
            differently: differently
                .map(|(step, text)| DifferentlyRecord {
                    step: step.0,
                    text: text.clone(),
                })
                .collect(),
        }
    }
}
