//! Every event survives being stored, whatever numbers and words it carries.

use domain::bake::{AlarmId, Entry, Event, Mark, Start, TimerId, Wishes};
use domain::formula::{ComponentId, Formula, Held, StepId};
use domain::kitchen::{Kitchen, Place};
use domain::units::{Celsius, Grams, Minutes, Moment, Share};
use proptest::prelude::*;
use records::bake::EntryRecord;
use records::{ReadError, Record as _};

use super::sample;

fn moment() -> impl Strategy<Value = Moment> {
    any::<i64>().prop_map(Moment::from_epoch_ms)
}

fn step() -> impl Strategy<Value = StepId> {
    any::<u16>().prop_map(StepId)
}

fn celsius() -> impl Strategy<Value = Celsius> {
    (Celsius::MIN.get()..=Celsius::MAX.get()).prop_map(Celsius::clamped)
}

fn held() -> impl Strategy<Value = Held> {
    let all = [Held::Bowl, Held::Tray, Held::Tin, Held::Jar, Held::Bag];
    proptest::sample::select(all.to_vec())
}

fn minutes() -> impl Strategy<Value = Minutes> {
    (Minutes::MIN.get()..=Minutes::MAX.get()).prop_map(Minutes::clamped)
}

fn grams() -> impl Strategy<Value = Grams> {
    (Grams::MIN.get()..=Grams::MAX.get()).prop_map(Grams::clamped)
}

fn place() -> impl Strategy<Value = Place> {
    prop_oneof![
        Just(Place::Kitchen),
        Just(Place::Fridge),
        celsius().prop_map(Place::Warm),
        celsius().prop_map(Place::Water),
    ]
}

fn start() -> impl Strategy<Value = Start> {
    let mut formulas: Vec<Formula> = records::starters::all();
    formulas.push(sample::twists());
    let formula = prop::sample::select(formulas);
    (formula, celsius(), prop::option::of(celsius())).prop_map(|(formula, air, flour)| Start {
        formula,
        kitchen: Kitchen {
            air,
            flour,
            ..sample::kitchen()
        },
    })
}

fn alarm() -> impl Strategy<Value = AlarmId> {
    prop_oneof![
        (step(), any::<u16>()).prop_map(|(step, round)| AlarmId::Check { step, round }),
        (step(), any::<u16>()).prop_map(|(step, fold)| AlarmId::Fold { step, fold }),
        step().prop_map(|step| AlarmId::OvenOn { step }),
        step().prop_map(|step| AlarmId::CoolingStage { step }),
        step().prop_map(|step| AlarmId::CoolingEnd { step }),
        step().prop_map(|step| AlarmId::Perishable { step }),
        any::<u32>().prop_map(|timer| AlarmId::Timer(TimerId(timer))),
        Just(AlarmId::Begin),
        step().prop_map(|step| AlarmId::Fixed { step }),
        step().prop_map(|step| AlarmId::Retard { step }),
        step().prop_map(|step| AlarmId::Waits { step }),
    ]
}

fn wishes() -> impl Strategy<Value = Wishes> {
    let moments = || prop::option::of(moment());
    let away = prop::collection::vec((moment(), moment()), 0..4);
    (moments(), moments(), away).prop_map(|(table, not_before, away)| Wishes {
        table,
        not_before,
        away,
    })
}

/// One strategy for every kind of event.
pub(super) fn event() -> impl Strategy<Value = Event> {
    let mark = (any::<u16>(), prop::option::of(any::<u16>()))
        .prop_map(|(item, piece)| Mark { item, piece });
    let timer = || any::<u32>().prop_map(TimerId);
    let at_steps = prop_oneof![
        step().prop_map(|step| Event::Picked { step }),
        step().prop_map(|step| Event::Done { step }),
        step().prop_map(|step| Event::Skipped { step }),
        step().prop_map(|step| Event::Reopened { step }),
        step().prop_map(|step| Event::Folded { step }),
        (step(), mark, any::<bool>()).prop_map(|(step, mark, on)| Event::Marked { step, mark, on }),
        (step(), minutes()).prop_map(|(step, by)| Event::Extended { step, by }),
    ];
    let measured = prop_oneof![
        celsius().prop_map(|air| Event::KitchenMeasured { air }),
        (any::<u16>(), celsius()).prop_map(|(component, temperature)| Event::DoughMeasured {
            component: ComponentId(component),
            temperature,
        }),
        (step(), celsius())
            .prop_map(|(step, temperature)| Event::CoreMeasured { step, temperature }),
        (step(), celsius()).prop_map(|(step, oven)| Event::OvenHot { step, oven }),
        (step(), place()).prop_map(|(step, place)| Event::Moved { step, place }),
        (step(), held()).prop_map(|(step, held)| Event::Poured { step, held }),
        (step(), 0.0..=1.0_f64, minutes()).prop_map(|(step, share, ago)| Event::RiseSeen {
            step,
            share: Share::clamped(share),
            ago,
        }),
        (any::<u16>(), grams()).prop_map(|(piece, mass)| Event::PieceWeighed { piece, mass }),
        any::<u16>().prop_map(|piece| Event::MassRemoved { piece }),
    ];
    prop_oneof![
        1 => start().prop_map(|start| Event::Started(Box::new(start))),
        7 => at_steps,
        7 => measured,
        1 => (timer(), any::<String>(), minutes())
            .prop_map(|(timer, name, length)| Event::TimerSet { timer, name, length }),
        1 => timer().prop_map(|timer| Event::TimerStopped { timer }),
        2 => alarm().prop_map(|alarm| Event::Acknowledged { alarm }),
        2 => wishes().prop_map(|wishes| Event::Wished(Box::new(wishes))),
        2 => (step(), prop::option::of(moment())).prop_map(|(step, at)| Event::Pinned { step, at }),
        2 => (step(), prop::option::of((moment(), moment())))
            .prop_map(|(step, stay)| Event::RetardPlanned { step, stay }),
        1 => start().prop_map(|start| Event::Refitted(Box::new(start.formula))),
        1 => Just(Event::Paused),
        1 => Just(Event::Resumed),
        1 => minutes().prop_map(|by| Event::ClockSet { by }),
        1 => (any::<u32>(), minutes()).prop_map(|(entry, by)| Event::Since { entry, by }),
        1 => Just(Event::Finished),
        1 => Just(Event::Abandoned),
        1 => prop::collection::vec(any::<u32>(), 0..5).prop_map(|entries| Event::Undone { entries }),
    ]
}

proptest! {
    #[test]
    fn every_entry_is_read_back_as_it_was_written(at in moment(), event in event()) {
        let entry = Entry { at, event };
        let text = EntryRecord::from(&entry).write();
        let read = EntryRecord::read(&text).and_then(Entry::try_from);
        prop_assert_eq!(read, Ok(entry));
    }

    #[test]
    fn an_entry_cut_off_anywhere_is_refused(event in event(), cut in any::<prop::sample::Index>()) {
        let entry = Entry { at: sample::STARTED, event };
        let text = EntryRecord::from(&entry).write();
        let places: Vec<usize> = text.char_indices().map(|(place, _)| place).collect();
        let cut = &text[..*cut.get(&places)];
        let read = EntryRecord::read(cut);
        prop_assert!(matches!(read, Err(ReadError::Malformed { .. })), "{read:?}");
    }

    #[test]
    fn a_temperature_no_kitchen_has_is_impossible(air_c in 400.001..1e9) {
        let text = format!(
            r#"{{"version":1,"at_ms":0,"event":{{"kind":"kitchen-measured","air_c":{air_c}}}}}"#
        );
        let read = EntryRecord::read(&text).and_then(Entry::try_from);
        prop_assert!(matches!(read, Err(ReadError::Impossible { .. })), "{read:?}");
    }
}
