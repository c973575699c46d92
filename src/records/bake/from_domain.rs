//! An entry of a bake's log, to its stored shape.

use domain::bake::{Entry, Event};
use domain::kitchen::Place;
use domain::units::Moment;

use super::{AwayRecord, EntryRecord, EventRecord, PlaceRecord};
use crate::formula::FormulaRecord;
use crate::kitchen::KitchenFacts;

impl From<&Entry> for EntryRecord {
    fn from(entry: &Entry) -> Self {
        Self {
            version: 1,
            at_ms: entry.at.epoch_ms(),
            event: EventRecord::from(&entry.event),
        }
    }
}

impl From<&Event> for EventRecord {
    fn from(event: &Event) -> Self {
        match event {
            Event::Started(start) => Self::Started {
                formula: Box::new(FormulaRecord::from(&start.formula)),
                kitchen: KitchenFacts::from(&start.kitchen),
            },
            Event::Picked { step } => Self::Picked { step: step.0 },
            Event::Done { step } => Self::Done { step: step.0 },
            Event::Skipped { step } => Self::Skipped { step: step.0 },
            Event::Reopened { step } => Self::Reopened { step: step.0 },
            Event::Marked { step, mark, on } => Self::Marked {
                step: step.0,
                item: mark.item,
                piece: mark.piece,
                on: *on,
            },
            Event::Folded { step } => Self::Folded { step: step.0 },
            Event::FoldSkipped { step } => Self::FoldSkipped { step: step.0 },
            Event::FoldPutOff { step, by } => Self::FoldPutOff {
                step: step.0,
                by_min: by.get(),
            },
            Event::Extended { step, by } => Self::Extended {
                step: step.0,
                by_min: by.get(),
            },
            Event::KitchenMeasured { air } => Self::KitchenMeasured { air_c: air.get() },
            Event::KitchenChanged(kitchen) => Self::KitchenChanged {
                kitchen: KitchenFacts::from(&**kitchen),
            },
            Event::DoughMeasured {
                component,
                temperature,
            } => Self::DoughMeasured {
                component: component.0,
                temperature_c: temperature.get(),
            },
            Event::CoreMeasured { step, temperature } => Self::CoreMeasured {
                step: step.0,
                temperature_c: temperature.get(),
            },
            Event::OvenHot { step, oven } => Self::OvenHot {
                step: step.0,
                oven_c: oven.get(),
            },
            Event::Moved { step, place } => Self::Moved {
                step: step.0,
                place: match *place {
                    Place::Kitchen => PlaceRecord::Kitchen,
                    Place::Fridge => PlaceRecord::Fridge,
                    Place::Warm(air) => PlaceRecord::Warm { air_c: air.get() },
                    Place::Water(water) => PlaceRecord::Water {
                        water_c: water.get(),
                    },
                },
            },
            Event::Poured { step, held } => Self::Poured {
                step: step.0,
                held: *held,
            },
            Event::RiseSeen { step, share, ago } => Self::RiseSeen {
                step: step.0,
                share: share.get(),
                ago_min: ago.get(),
            },
            Event::PieceWeighed { piece, mass } => Self::PieceWeighed {
                piece: *piece,
                mass_g: mass.get(),
            },
            Event::MassRemoved { piece } => Self::MassRemoved { piece: *piece },
            Event::TimerSet {
                timer,
                name,
                length,
            } => Self::TimerSet {
                timer: timer.0,
                name: name.clone(),
                length_min: length.get(),
            },
            Event::TimerStopped { timer } => Self::TimerStopped { timer: timer.0 },
            Event::Wished(wishes) => Self::Wished {
                table_ms: wishes.table.map(Moment::epoch_ms),
                not_before_ms: wishes.not_before.map(Moment::epoch_ms),
                away: wishes.away.iter().map(away).collect(),
            },
            Event::Pinned { step, at } => Self::Pinned {
                step: step.0,
                at_ms: at.map(Moment::epoch_ms),
            },
            Event::RetardPlanned { step, stay } => Self::RetardPlanned {
                step: step.0,
                from_ms: stay.map(|(from, _)| from.epoch_ms()),
                to_ms: stay.map(|(_, to)| to.epoch_ms()),
            },
            Event::Refitted(formula) => Self::Refitted {
                formula: Box::new(FormulaRecord::from(&**formula)),
            },
            Event::Acknowledged { alarm } => Self::Acknowledged {
                alarm: (*alarm).into(),
            },
            Event::Paused => Self::Paused,
            Event::Resumed => Self::Resumed,
            Event::Finished => Self::Finished,
            Event::Abandoned => Self::Abandoned,
            Event::ClockSet { by } => Self::ClockSet { by_min: by.get() },
            Event::Since { entry, by } => Self::Since {
                entry: *entry,
                by_min: by.get(),
            },
            Event::Undone { entries } => Self::Undone {
                entries: entries.clone(),
            },
        }
    }
}

fn away(&(from, to): &(Moment, Moment)) -> AwayRecord {
    AwayRecord {
        from_ms: from.epoch_ms(),
        to_ms: to.epoch_ms(),
    }
}
