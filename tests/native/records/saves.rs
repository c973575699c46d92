//! Saves of every released version load forever.
//!
//! `tests/saves/vN.json` is an archive as it was written when the shapes were N
//! steps old: v1 before any migration, v2 after the first, and so on. A save is
//! written once, by `write_the_newest_save`, and never again after release.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use domain::bake::{Bake, BakeId, Entry, Event};
use domain::formula::Formula;
use domain::formula::manuscript::Manuscript;
use domain::kitchen::Kitchen;
use domain::notebook::Note;
use records::archive::Archive;
use records::bake::EntryRecord;
use records::formula::FormulaRecord;
use records::kitchen::KitchenRecord;
use records::manuscript::ManuscriptRecord;
use records::migrate::{MIGRATIONS, newest};
use records::notebook::NoteRecord;
use records::{Kind, Record as _};
use serde_json::Value;

use super::sample;

const WRITTEN_MS: i64 = 1_795_300_000_000;

fn newest_save() -> usize {
    1 + MIGRATIONS.len()
}

fn path(save: usize) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("saves/v{save}.json"))
}

fn text(save: usize) -> String {
    let path = path(save);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn archive(save: usize) -> Archive {
    Archive::read(&text(save)).unwrap_or_else(|error| panic!("v{save}.json: {error}"))
}

/// With `WRITE_SAVE=1` it writes the save first: once, after a change of shape and before its release.
#[test]
fn the_newest_save_is_what_this_program_writes() {
    let written = sample::archive().write(WRITTEN_MS);
    if std::env::var_os("WRITE_SAVE").is_some() {
        fs::write(path(newest_save()), &written).expect("tests/saves can be written");
    }
    assert_eq!(text(newest_save()), written);
}

#[test]
fn every_save_loads_and_is_exported_again_without_a_change() {
    for save in 1..=newest_save() {
        let text = text(save);
        let archive = archive(save);
        assert_eq!(archive.write(WRITTEN_MS), text, "v{save}.json");
    }
}

/// Every save was made from the same sample, so whatever way it came, it means the same.
#[test]
fn every_save_still_means_what_it_meant() {
    for save in 1..=newest_save() {
        let archive = archive(save);
        let formula = FormulaRecord::read(&archive.formulas[0].1).and_then(Formula::try_from);
        assert_eq!(formula, Ok(sample::twists()), "v{save}.json");
        let kitchen = archive.kitchen.as_deref().map(KitchenRecord::read);
        let kitchen = kitchen
            .expect("a kitchen was saved")
            .expect("it can be read");
        assert_eq!(Kitchen::try_from(&kitchen.facts), Ok(sample::kitchen()));
        let note = NoteRecord::read(&archive.notes[0].1).map(Note::from);
        assert_eq!(note, Ok(sample::note()), "v{save}.json");
        assert_eq!(bakes(&archive), sample::bakes(), "v{save}.json");
        let manuscript = ManuscriptRecord::read(&archive.manuscripts[0].1);
        let manuscript = manuscript.and_then(Manuscript::try_from);
        assert_eq!(manuscript, Ok(sample::manuscript()), "v{save}.json");
    }
}

fn bakes(archive: &Archive) -> Vec<Bake> {
    let bakes = archive.bakes.iter();
    bakes
        .map(|(id, texts)| {
            let entries = texts
                .iter()
                .map(|text| EntryRecord::read(text).and_then(Entry::try_from))
                .collect::<Result<Vec<_>, _>>()
                .expect("every entry can be read");
            Bake::from_log(BakeId(id.clone()), entries).expect("a log begins with its start")
        })
        .collect()
}

/// Until its release version 1 grew, and `v1.json` with it: `v1-early.json` is that save as it was before a dough could
/// stand elsewhere or be looked at, and before an oven could be off its dial. Phones have such bakes.
#[test]
fn a_save_from_before_version_1_was_whole_loads_and_is_exported_again_without_a_change() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("saves/v1-early.json");
    let text = fs::read_to_string(&path).expect("the save is there");
    let archive = Archive::read(&text).expect("it can be read");
    assert_eq!(archive.write(WRITTEN_MS), text);

    let formula = FormulaRecord::read(&archive.formulas[0].1).and_then(Formula::try_from);
    let (formula, whole) = (formula.expect("it fits together"), sample::twists());
    let titles = |formula: &Formula| -> Vec<String> {
        let steps = formula.steps.iter();
        steps.map(|step| step.title.clone()).collect()
    };
    assert_eq!(titles(&formula), titles(&whole));
    assert_eq!(formula.dough_mass(), whole.dough_mass());
    let kitchen = archive.kitchen.as_deref().map(KitchenRecord::read);
    let kitchen = kitchen
        .expect("a kitchen was saved")
        .expect("it can be read");
    let unchecked = Kitchen {
        oven_off: None,
        ..sample::kitchen()
    };
    assert_eq!(Kitchen::try_from(&kitchen.facts), Ok(unchecked));
    let note = NoteRecord::read(&archive.notes[0].1).map(Note::from);
    // Nobody was asked then in what form the pieces bake.
    let formless = Note {
        form: None,
        ..sample::note()
    };
    assert_eq!(note, Ok(formless));

    let logs = bakes(&archive);
    for ((_, texts), bake) in archive.bakes.iter().zip(&logs) {
        let kinds = bake.log().iter().map(|entry| name(&entry.event));
        for (text, kind) in texts.iter().zip(kinds) {
            let value: Value = serde_json::from_str(text).expect("a record is JSON");
            assert_eq!(value["event"]["kind"], kind);
        }
        assert!(bake.state().is_over());
    }
    let events = logs.iter().flat_map(Bake::log);
    let kinds: BTreeSet<&str> = events.map(|entry| name(&entry.event)).collect();
    // All but moved and seen to have risen, which came later.
    assert_eq!(kinds.len(), 25, "{kinds:?}");
}

/// Every record in every save, as its kind and the version it was written in.
fn saved() -> Vec<(Kind, u32, Value)> {
    let mut saved = Vec::new();
    for save in 1..=newest_save() {
        let archive = archive(save);
        let formulas = archive
            .formulas
            .iter()
            .map(|(_, text)| (Kind::Formula, text));
        let entries = archive.bakes.iter().flat_map(|(_, entries)| entries);
        let entries = entries.map(|text| (Kind::BakeEntry, text));
        let kitchen = archive.kitchen.iter().map(|text| (Kind::Kitchen, text));
        let notes = archive.notes.iter().map(|(_, text)| (Kind::Note, text));
        let manuscripts = archive
            .manuscripts
            .iter()
            .map(|(_, text)| (Kind::Manuscript, text));
        let formulas = formulas.chain(manuscripts);
        for (kind, text) in formulas.chain(entries).chain(kitchen).chain(notes) {
            let value: Value = serde_json::from_str(text).expect("a record is JSON");
            let version = value["version"].as_u64().expect("a record has a version");
            let version = u32::try_from(version).expect("versions are small");
            saved.push((kind, version, value));
        }
    }
    saved
}

#[test]
fn there_is_a_save_of_every_version_of_every_shape() {
    let saved = saved();
    let kinds = [
        Kind::Formula,
        Kind::Manuscript,
        Kind::BakeEntry,
        Kind::Kitchen,
        Kind::Note,
    ];
    for kind in kinds {
        for version in 1..=newest(kind) {
            let found = saved
                .iter()
                .any(|(of, at, _)| (*of, *at) == (kind, version));
            assert!(
                found,
                "no {} of version {version} in tests/saves",
                kind.name()
            );
        }
    }
}

#[test]
fn every_migration_has_something_to_migrate() {
    let saved = saved();
    for step in MIGRATIONS {
        let ran = saved
            .iter()
            .any(|(kind, version, _)| *kind == step.kind && *version < step.to);
        assert!(ran, "no save goes through {}", step.name);
    }
}

/// The name of each event in a save. The match has no rest, so a new event has to come here.
fn name(event: &Event) -> &'static str {
    match event {
        Event::Started(_) => "started",
        Event::Picked { .. } => "picked",
        Event::Done { .. } => "done",
        Event::Skipped { .. } => "skipped",
        Event::Reopened { .. } => "reopened",
        Event::Marked { .. } => "marked",
        Event::Folded { .. } => "folded",
        Event::FoldSkipped { .. } => "fold-skipped",
        Event::FoldPutOff { .. } => "fold-put-off",
        Event::Extended { .. } => "extended",
        Event::KitchenMeasured { .. } => "kitchen-measured",
        Event::KitchenChanged(_) => "kitchen-changed",
        Event::DoughMeasured { .. } => "dough-measured",
        Event::CoreMeasured { .. } => "core-measured",
        Event::PieceWeighed { .. } => "piece-weighed",
        Event::MassRemoved { .. } => "mass-removed",
        Event::TimerSet { .. } => "timer-set",
        Event::TimerStopped { .. } => "timer-stopped",
        Event::Acknowledged { .. } => "acknowledged",
        Event::Paused => "paused",
        Event::Resumed => "resumed",
        Event::Finished => "finished",
        Event::Abandoned => "abandoned",
        Event::ClockSet { .. } => "clock-set",
        Event::Undone { .. } => "undone",
        Event::Moved { .. } => "moved",
        Event::OvenHot { .. } => "oven-hot",
        Event::RiseSeen { .. } => "rise-seen",
        Event::Poured { .. } => "poured",
        Event::Wished(_) => "wished",
        Event::Pinned { .. } => "pinned",
        Event::Refitted(_) => "refitted",
        Event::RetardPlanned { .. } => "retard-planned",
        Event::Since { .. } => "since",
    }
}

const EVENT_KINDS: usize = 34;
const ALARM_KINDS: usize = 11;

#[test]
fn the_newest_save_has_every_kind_of_event_and_alarm() {
    let logs = bakes(&archive(newest_save()));
    let events = || logs.iter().flat_map(Bake::log).map(|entry| &entry.event);
    let kinds: BTreeSet<&str> = events().map(name).collect();
    assert_eq!(kinds.len(), EVENT_KINDS, "{kinds:?}");
    let alarms = events().filter_map(|event| match event {
        Event::Acknowledged { alarm } => Some(alarm),
        _ => None,
    });
    let alarms: BTreeSet<_> = alarms.collect();
    assert_eq!(alarms.len(), ALARM_KINDS, "{alarms:?}");
}

/// The words that are stored are never changed after release, so they are held here by hand.
#[test]
fn the_stored_words_for_events_are_what_they_were() {
    let texts = archive(newest_save());
    let logs = bakes(&texts);
    for ((_, texts), bake) in texts.bakes.iter().zip(&logs) {
        for (text, entry) in texts.iter().zip(bake.log()) {
            let value: Value = serde_json::from_str(text).expect("a record is JSON");
            assert_eq!(value["event"]["kind"], name(&entry.event));
        }
    }
}
