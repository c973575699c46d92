//! What was written is read back as it was.

use domain::formula::Formula;
use domain::kitchen::{Kitchen, OvenKind};
use domain::notebook::Note;
use domain::thermal::kneading::KneadingMethod;
use domain::thermal::oven::BakeForm;
use domain::units::{Celsius, CelsiusDelta, Metres, Minutes};
use proptest::prelude::*;
use records::Record as _;
use records::formula::FormulaRecord;
use records::kitchen::{AsleepRecord, Degrees, KitchenFacts, KitchenRecord};
use records::notebook::{DifferentlyRecord, NoteRecord};

use super::super::sample;

#[test]
fn every_formula_is_read_back_as_it_was_written() {
    let mut formulas = records::starters::all();
    formulas.push(sample::twists());
    for formula in formulas {
        let text = FormulaRecord::from(&formula).write();
        let read = FormulaRecord::read(&text).and_then(Formula::try_from);
        assert_eq!(read, Ok(formula));
    }
}

fn kitchen() -> impl Strategy<Value = Kitchen> {
    let celsius = || (Celsius::MIN.get()..=Celsius::MAX.get()).prop_map(Celsius::clamped);
    let kneading = prop::sample::select(vec![
        KneadingMethod::Hand,
        KneadingMethod::StandMixer,
        KneadingMethod::FoodProcessor,
        KneadingMethod::FoldOnly,
    ]);
    let oven = prop::sample::select(vec![OvenKind::Conventional, OvenKind::Fan, OvenKind::Gas]);
    (
        celsius(),
        prop::option::of(celsius()),
        celsius(),
        kneading,
        (oven, prop::option::of(-40.0..=40.0)),
        0.0..=240.0,
        -500.0..=6_000.0,
    )
        .prop_map(
            |(air, flour, fridge, kneading, (oven, off), heats_in, altitude)| Kitchen {
                air,
                flour,
                fridge,
                kneading,
                oven,
                oven_off: off.map(CelsiusDelta::clamped),
                oven_heats_in: Minutes::clamped(heats_in),
                altitude: Metres::clamped(altitude),
                ..sample::kitchen()
            },
        )
}

proptest! {
    #[test]
    fn every_kitchen_is_read_back_as_it_was_written(
        kitchen in kitchen(),
        fahrenheit in any::<bool>(),
        alarm_volume in 0.0..=1.0,
        alarm_vibrates in any::<bool>(),
        alarm_flashes in any::<bool>(),
        gathered in prop::collection::vec(any::<String>(), 0..4),
        asleep in prop::option::of((0_u32..1440, 0_u32..1440)),
    ) {
        let record = KitchenRecord {
            facts: KitchenFacts::from(&kitchen),
            degrees: if fahrenheit { Degrees::Fahrenheit } else { Degrees::Celsius },
            alarm_volume,
            alarm_vibrates,
            alarm_flashes,
            gathered,
            asleep: asleep.map(|(bed_min, up_min)| AsleepRecord { bed_min, up_min }),
            ..KitchenRecord::default()
        };
        let read = KitchenRecord::read(&record.write());
        prop_assert_eq!(read.as_ref().map(|read| Kitchen::try_from(&read.facts)), Ok(Ok(kitchen)));
        prop_assert_eq!(read, Ok(record));
    }

    #[test]
    fn every_note_is_read_back_as_it_was_written(
        (bake, formula, text) in any::<(String, String, String)>(),
        at_ms in any::<i64>(),
        differently in prop::collection::vec(any::<(u16, String)>(), 0..4),
        form in prop::option::of(prop::sample::select(&BakeForm::ALL[..])),
    ) {
        let lines = differently.into_iter();
        let differently = lines.map(|(step, text)| DifferentlyRecord { step, text }).collect();
        let record = NoteRecord { version: 1, bake, formula, form, at_ms, text, differently };
        let read = NoteRecord::read(&record.write());
        prop_assert_eq!(read.as_ref(), Ok(&record));
        prop_assert_eq!(NoteRecord::from(&Note::from(record.clone())), record);
    }
}
