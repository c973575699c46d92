//! One entry of a bake's event log as it is stored, version 1.

mod from_domain;

use domain::bake::{AlarmId, Entry, Event, Mark, Start, TimerId, Wishes};
use domain::formula::{ComponentId, Formula, Held, StepId};
use domain::kitchen::{Kitchen, Place};
use domain::units::{Celsius, Grams, Minutes, Moment, OutOfRange, Share};

use crate::formula::FormulaRecord;
use crate::kitchen::KitchenFacts;
use crate::read::{Kind, ReadError, Record, impossible};
use crate::table::shape;

shape! {
    /// An entry.
    pub struct EntryRecord {
        version: u32,
        at_ms: i64,
        event: EventRecord,
    }
}

shape! {
    /// What happened.
    pub enum EventRecord as "event of a bake" {
        Started = "started" { formula: Box<FormulaRecord>, kitchen: KitchenFacts },
        Picked = "picked" { step: u16 },
        Done = "done" { step: u16 },
        Skipped = "skipped" { step: u16 },
        Reopened = "reopened" { step: u16 },
        Marked = "marked" { step: u16, item: u16, piece: Option<u16> = None, on: bool },
        Folded = "folded" { step: u16 },
        FoldSkipped = "fold-skipped" { step: u16 },
        FoldPutOff = "fold-put-off" { step: u16, by_min: f64 },
        Extended = "extended" { step: u16, by_min: f64 },
        KitchenMeasured = "kitchen-measured" { air_c: f64 },
        KitchenChanged = "kitchen-changed" { kitchen: KitchenFacts },
        DoughMeasured = "dough-measured" { component: u16, temperature_c: f64 },
        CoreMeasured = "core-measured" { step: u16, temperature_c: f64 },
        OvenHot = "oven-hot" { step: u16, oven_c: f64 },
        Moved = "moved" { step: u16, place: PlaceRecord },
        Poured = "poured" { step: u16, held: Held },
        RiseSeen = "rise-seen" { step: u16, share: f64, ago_min: f64 },
        PieceWeighed = "piece-weighed" { piece: u16, mass_g: f64 },
        MassRemoved = "mass-removed" { piece: u16 },
        TimerSet = "timer-set" { timer: u32, name: String, length_min: f64 },
        TimerStopped = "timer-stopped" { timer: u32 },
        Wished = "wished" {
            table_ms: Option<i64> = None,
            not_before_ms: Option<i64> = None,
            away: Vec<AwayRecord> = Vec::new(),
        },
        Pinned = "pinned" { step: u16, at_ms: Option<i64> = None },
        RetardPlanned = "retard-planned" {
            step: u16,
            from_ms: Option<i64> = None,
            to_ms: Option<i64> = None,
        },
        Refitted = "refitted" { formula: Box<FormulaRecord> },
        Acknowledged = "acknowledged" { alarm: AlarmRecord },
        Paused = "paused",
        Resumed = "resumed",
        Finished = "finished",
        Abandoned = "abandoned",
        ClockSet = "clock-set" { by_min: f64 },
        Since = "since" { entry: u32, by_min: f64 },
        Undone = "undone" { entries: Vec<u32> },
    }
}

shape! {
    /// Where a dough or filling stands.
    #[derive(Copy)]
    pub enum PlaceRecord as "place to stand in" {
        Kitchen = "kitchen",
        Fridge = "fridge",
        Warm = "warm" { air_c: f64 },
        Water = "water" { water_c: f64 },
    }
}

shape! {
    /// Which alarm.
    #[derive(Copy)]
    pub enum AlarmRecord as "alarm" {
        Check = "check" { step: u16, round: u16 },
        Fold = "fold" { step: u16, fold: u16 },
        OvenOn = "oven-on" { step: u16 },
        CoolingStage = "cooling-stage" { step: u16 },
        CoolingEnd = "cooling-end" { step: u16 },
        Perishable = "perishable" { step: u16 },
        Timer = "timer" { timer: u32 },
        Begin = "begin",
        Fixed = "fixed" { step: u16 },
        // Stored as it was first called.
        Retard = "put-away" { step: u16 },
        Waits = "waits" { step: u16 },
    }
}

shape! {
    /// A time in which nobody is in the kitchen.
    #[derive(Copy)]
    pub struct AwayRecord {
        from_ms: i64,
        to_ms: i64,
    }
}

impl Record for EntryRecord {
    const KIND: Kind = Kind::BakeEntry;
}

impl TryFrom<EntryRecord> for Entry {
    type Error = ReadError;

    fn try_from(record: EntryRecord) -> Result<Self, ReadError> {
        Ok(Self {
            at: Moment::from_epoch_ms(record.at_ms),
            event: event(record.event)?,
        })
    }
}

fn event(record: EventRecord) -> Result<Event, ReadError> {
    let celsius = |value| Celsius::new(value).map_err(odd);
    Ok(match record {
        EventRecord::Started { formula, kitchen } => Event::Started(Box::new(Start {
            formula: Formula::try_from(*formula)?,
            kitchen: Kitchen::try_from(&kitchen)?,
        })),
        EventRecord::Picked { step } => Event::Picked { step: StepId(step) },
        EventRecord::Done { step } => Event::Done { step: StepId(step) },
        EventRecord::Skipped { step } => Event::Skipped { step: StepId(step) },
        EventRecord::Reopened { step } => Event::Reopened { step: StepId(step) },
        EventRecord::Marked {
            step,
            item,
            piece,
            on,
        } => Event::Marked {
            step: StepId(step),
            mark: Mark { item, piece },
            on,
        },
        EventRecord::Folded { step } => Event::Folded { step: StepId(step) },
        EventRecord::FoldSkipped { step } => Event::FoldSkipped { step: StepId(step) },
        EventRecord::FoldPutOff { step, by_min } => Event::FoldPutOff {
            step: StepId(step),
            by: Minutes::new(by_min).map_err(odd)?,
        },
        EventRecord::Extended { step, by_min } => Event::Extended {
            step: StepId(step),
            by: Minutes::new(by_min).map_err(odd)?,
        },
        EventRecord::KitchenMeasured { air_c } => Event::KitchenMeasured {
            air: celsius(air_c)?,
        },
        EventRecord::KitchenChanged { kitchen } => {
            Event::KitchenChanged(Box::new(Kitchen::try_from(&kitchen)?))
        }
        EventRecord::DoughMeasured {
            component,
            temperature_c,
        } => Event::DoughMeasured {
            component: ComponentId(component),
            temperature: celsius(temperature_c)?,
        },
        EventRecord::CoreMeasured {
            step,
            temperature_c,
        } => Event::CoreMeasured {
            step: StepId(step),
            temperature: celsius(temperature_c)?,
        },
        EventRecord::OvenHot { step, oven_c } => Event::OvenHot {
            step: StepId(step),
            oven: celsius(oven_c)?,
        },
        EventRecord::Moved { step, place } => Event::Moved {
            step: StepId(step),
            place: match place {
                PlaceRecord::Kitchen => Place::Kitchen,
                PlaceRecord::Fridge => Place::Fridge,
                PlaceRecord::Warm { air_c } => Place::Warm(celsius(air_c)?),
                PlaceRecord::Water { water_c } => Place::Water(celsius(water_c)?),
            },
        },
        EventRecord::Poured { step, held } => Event::Poured {
            step: StepId(step),
            held,
        },
        EventRecord::RiseSeen {
            step,
            share,
            ago_min,
        } => Event::RiseSeen {
            step: StepId(step),
            share: Share::new(share).map_err(odd)?,
            ago: Minutes::new(ago_min).map_err(odd)?,
        },
        EventRecord::PieceWeighed { piece, mass_g } => Event::PieceWeighed {
            piece,
            mass: Grams::new(mass_g).map_err(odd)?,
        },
        EventRecord::MassRemoved { piece } => Event::MassRemoved { piece },
        EventRecord::TimerSet {
            timer,
            name,
            length_min,
        } => Event::TimerSet {
            timer: TimerId(timer),
            name,
            length: Minutes::new(length_min).map_err(odd)?,
        },
        EventRecord::TimerStopped { timer } => Event::TimerStopped {
            timer: TimerId(timer),
        },
        EventRecord::Wished {
            table_ms,
            not_before_ms,
            away,
        } => Event::Wished(Box::new(Wishes {
            table: table_ms.map(Moment::from_epoch_ms),
            not_before: not_before_ms.map(Moment::from_epoch_ms),
            away: away.into_iter().map(AwayRecord::moments).collect(),
        })),
        EventRecord::Pinned { step, at_ms } => Event::Pinned {
            step: StepId(step),
            at: at_ms.map(Moment::from_epoch_ms),
        },
        EventRecord::RetardPlanned {
            step,
            from_ms,
            to_ms,
        } => Event::RetardPlanned {
            step: StepId(step),
            stay: (from_ms.map(Moment::from_epoch_ms)).zip(to_ms.map(Moment::from_epoch_ms)),
        },
        EventRecord::Refitted { formula } => {
            Event::Refitted(Box::new(Formula::try_from(*formula)?))
        }
        EventRecord::Acknowledged { alarm } => Event::Acknowledged {
            alarm: alarm.into(),
        },
        EventRecord::Paused => Event::Paused,
        EventRecord::Resumed => Event::Resumed,
        EventRecord::Finished => Event::Finished,
        EventRecord::Abandoned => Event::Abandoned,
        EventRecord::ClockSet { by_min } => Event::ClockSet {
            by: Minutes::new(by_min).map_err(odd)?,
        },
        EventRecord::Since { entry, by_min } => Event::Since {
            entry,
            by: Minutes::new(by_min).map_err(odd)?,
        },
        EventRecord::Undone { entries } => Event::Undone { entries },
    })
}

impl AwayRecord {
    fn moments(self) -> (Moment, Moment) {
        let Self { from_ms, to_ms } = self;
        (Moment::from_epoch_ms(from_ms), Moment::from_epoch_ms(to_ms))
    }
}

fn odd(cause: OutOfRange) -> ReadError {
    impossible(Kind::BakeEntry, &cause)
}

impl From<AlarmRecord> for AlarmId {
    fn from(record: AlarmRecord) -> Self {
        match record {
            AlarmRecord::Check { step, round } => Self::Check {
                step: StepId(step),
                round,
            },
            AlarmRecord::Fold { step, fold } => Self::Fold {
                step: StepId(step),
                fold,
            },
            AlarmRecord::OvenOn { step } => Self::OvenOn { step: StepId(step) },
            AlarmRecord::CoolingStage { step } => Self::CoolingStage { step: StepId(step) },
            AlarmRecord::CoolingEnd { step } => Self::CoolingEnd { step: StepId(step) },
            AlarmRecord::Perishable { step } => Self::Perishable { step: StepId(step) },
            AlarmRecord::Timer { timer } => Self::Timer(TimerId(timer)),
            AlarmRecord::Begin => Self::Begin,
            AlarmRecord::Fixed { step } => Self::Fixed { step: StepId(step) },
            AlarmRecord::Retard { step } => Self::Retard { step: StepId(step) },
            AlarmRecord::Waits { step } => Self::Waits { step: StepId(step) },
        }
    }
}

impl From<AlarmId> for AlarmRecord {
    fn from(alarm: AlarmId) -> Self {
        match alarm {
            AlarmId::Check { step, round } => Self::Check {
                step: step.0,
                round,
            },
            AlarmId::Fold { step, fold } => Self::Fold { step: step.0, fold },
            AlarmId::OvenOn { step } => Self::OvenOn { step: step.0 },
            AlarmId::CoolingStage { step } => Self::CoolingStage { step: step.0 },
            AlarmId::CoolingEnd { step } => Self::CoolingEnd { step: step.0 },
            AlarmId::Perishable { step } => Self::Perishable { step: step.0 },
            AlarmId::Timer(timer) => Self::Timer { timer: timer.0 },
            AlarmId::Begin => Self::Begin,
            AlarmId::Fixed { step } => Self::Fixed { step: step.0 },
            AlarmId::Retard { step } => Self::Retard { step: step.0 },
            AlarmId::Waits { step } => Self::Waits { step: step.0 },
        }
    }
}
