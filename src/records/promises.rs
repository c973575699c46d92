//! What plans promised, version 1: kept on the phone for the next plan, and in no archive.
//!
//! It follows from logs and from when somebody looked, so it is no loss where it can't be read: the plan is made anew then.

use domain::bake::BakeId;
use domain::formula::StepId;
use domain::schedule::plan::{Item, Promise, Promised, Promises, RetardPart, What};
use domain::units::{Minutes, Moment};

use crate::choice::choice;
use crate::read::{Kind, Record};
use crate::table::shape;

shape! {
    /// The plan that is shown, and those that something was told of, oldest first.
    pub struct PromisesRecord {
        version: u32,
        shown: PlanRecord,
        told: Vec<PlanRecord> = Vec::new(),
    }
}

shape! {
    /// A plan.
    pub struct PlanRecord {
        at_ms: i64,
        bakes: Vec<PlannedBakeRecord>,
        items: Vec<ItemRecord>,
        buffers: Vec<BufferRecord> = Vec::new(),
    }
}

shape! {
    /// A bake, with how far its log had got.
    pub struct PlannedBakeRecord {
        bake: String,
        entries: u32,
        newest_ms: i64,
        begins_ms: Option<i64> = None,
        called_ms: Option<i64> = None,
    }
}

shape! {
    /// Something planned, of the bake at a place among those planned. How far its end may be off is told in
    /// milliseconds as well, since moments are.
    #[derive(Copy)]
    pub struct ItemRecord {
        what: WhatRecord,
        bake: u16 = 0,
        step: u16 = 0,
        nth: u16 = 0,
        start_ms: i64,
        end_ms: i64,
        early_ms: i64 = 0,
        late_ms: i64 = 0,
        waits_for: Option<u16> = None,
    }
}

shape! {
    /// How much sooner than a table what is for it should be ready.
    #[derive(Copy)]
    pub struct BufferRecord {
        table_ms: i64,
        buffer_min: f64,
    }
}

/// What is planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the words say it")]
pub enum WhatRecord {
    Step,
    Fold,
    Away,
    PutIn,
    Stands,
    TakenOut,
    Kept,
}

choice! { WhatRecord as "kind of thing planned" {
    Step = "step", Fold = "fold", Away = "away",
    PutIn = "put-in", Stands = "stands-cold", TakenOut = "taken-out", Kept = "kept-cold",
} }

impl Record for PromisesRecord {
    const KIND: Kind = Kind::Promises;
}

impl From<PromisesRecord> for Promises {
    fn from(record: PromisesRecord) -> Self {
        Self {
            shown: record.shown.into(),
            told: record.told.into_iter().map(Promise::from).collect(),
        }
    }
}

impl From<&Promises> for PromisesRecord {
    fn from(promises: &Promises) -> Self {
        Self {
            version: 1,
            shown: (&promises.shown).into(),
            told: promises.told.iter().map(PlanRecord::from).collect(),
        }
    }
}

impl From<PlanRecord> for Promise {
    fn from(record: PlanRecord) -> Self {
        let bakes = record.bakes.into_iter().map(|bake| Promised {
            bake: BakeId(bake.bake),
            entries: bake.entries,
            newest: Moment::from_epoch_ms(bake.newest_ms),
            begins: bake.begins_ms.map(Moment::from_epoch_ms),
            called: bake.called_ms.map(Moment::from_epoch_ms),
        });
        let buffers = record.buffers.into_iter().map(|of| {
            let buffer = Minutes::clamped(of.buffer_min);
            (Moment::from_epoch_ms(of.table_ms), buffer)
        });
        Self {
            at: Moment::from_epoch_ms(record.at_ms),
            bakes: bakes.collect(),
            items: record.items.into_iter().map(Item::from).collect(),
            buffers: buffers.collect(),
        }
    }
}

impl From<&Promise> for PlanRecord {
    fn from(promise: &Promise) -> Self {
        let bakes = promise.bakes.iter().map(|of| PlannedBakeRecord {
            bake: of.bake.0.clone(),
            entries: of.entries,
            newest_ms: of.newest.epoch_ms(),
            begins_ms: of.begins.map(Moment::epoch_ms),
            called_ms: of.called.map(Moment::epoch_ms),
        });
        let buffers = promise.buffers.iter().map(|(table, buffer)| BufferRecord {
            table_ms: table.epoch_ms(),
            buffer_min: buffer.get(),
        });
        Self {
            at_ms: promise.at.epoch_ms(),
            bakes: bakes.collect(),
            items: promise.items.iter().map(ItemRecord::from).collect(),
            buffers: buffers.collect(),
        }
    }
}

impl From<ItemRecord> for Item {
    fn from(record: ItemRecord) -> Self {
        let (bake, step) = (usize::from(record.bake), StepId(record.step));
        let (start, end) = (record.start_ms, record.end_ms);
        let [start, end] = [start, end].map(Moment::from_epoch_ms);
        let off = |ms: i64| Moment::from_epoch_ms(ms) - Moment::from_epoch_ms(0);
        Self {
            what: match record.what {
                WhatRecord::Step => What::Step(bake, step),
                WhatRecord::Fold => What::Fold(bake, step, usize::from(record.nth)),
                WhatRecord::Away => What::Away,
                WhatRecord::PutIn => What::Retard(bake, step, RetardPart::In),
                WhatRecord::Stands => What::Retard(bake, step, RetardPart::Stands),
                WhatRecord::TakenOut => What::Retard(bake, step, RetardPart::Out),
                WhatRecord::Kept => What::Kept(bake, step),
            },
            start,
            end,
            slack: (off(record.early_ms), off(record.late_ms)),
            // A plan is made anew before anybody reads what else it hangs on.
            reach: (off(record.early_ms), off(record.late_ms)),
            waits_for: record.waits_for.map(usize::from),
            too_late_by: None,
        }
    }
}

impl From<&Item> for ItemRecord {
    fn from(item: &Item) -> Self {
        let (what, nth) = match item.what {
            What::Step(..) => (WhatRecord::Step, 0),
            What::Fold(_, _, nth) => (WhatRecord::Fold, nth),
            What::Away => (WhatRecord::Away, 0),
            What::Retard(_, _, RetardPart::In) => (WhatRecord::PutIn, 0),
            What::Retard(_, _, RetardPart::Stands) => (WhatRecord::Stands, 0),
            What::Retard(_, _, RetardPart::Out) => (WhatRecord::TakenOut, 0),
            What::Kept(..) => (WhatRecord::Kept, 0),
        };
        let (bake, step) = item.what.of().unwrap_or((0, StepId(0)));
        // No kitchen has so many of anything.
        let place = |place: usize| u16::try_from(place).unwrap_or(u16::MAX);
        let off = |off: Minutes| (Moment::from_epoch_ms(0) + off).epoch_ms();
        Self {
            what,
            bake: place(bake),
            step: step.0,
            nth: place(nth),
            start_ms: item.start.epoch_ms(),
            end_ms: item.end.epoch_ms(),
            early_ms: off(item.slack.0),
            late_ms: off(item.slack.1),
            waits_for: item.waits_for.map(place),
        }
    }
}
