use std::collections::BTreeSet;

use records::starters;

use super::super::shelves::PROMISES_KEY;
use super::*;

/// Texts as a phone would keep them, made of the starters.
fn sound() -> Kept {
    let started = format!(
        r#"{{"version":1,"at_ms":1000,"event":{{"kind":"started","formula":{},"kitchen":{}}}}}"#,
        starters::TEXTS[0],
        r#"{"air_c":21,"fridge_c":5,"kneading":"hand","oven":"fan","oven_heats_in_min":20,"scales_g":1}"#,
    );
    let paused = r#"{"version":1,"at_ms":2000,"event":{"kind":"paused"}}"#.to_owned();
    let kitchen = KitchenRecord::default().write();
    let note = r#"{"version":1,"bake":"saturday","formula":"x","at_ms":3000}"#.to_owned();
    Kept::from_iter([
        (
            (Shelf::Formulas, "mine".to_owned()),
            starters::TEXTS[1].to_owned(),
        ),
        ((Shelf::Bakes, entry_key("saturday", 0)), started),
        ((Shelf::Bakes, entry_key("saturday", 1)), paused),
        ((Shelf::Kitchen, KITCHEN_KEY.to_owned()), kitchen),
        ((Shelf::Notebook, "saturday".to_owned()), note),
    ])
}

fn with(mut kept: Kept, shelf: Shelf, key: &str, text: &str) -> Kept {
    kept.insert((shelf, key.to_owned()), text.to_owned());
    kept
}

fn places(sorted: &Sorted) -> Vec<&str> {
    let set_aside = sorted.contents.set_aside.iter();
    set_aside.map(|one| one.place.as_str()).collect()
}

#[test]
fn what_is_sound_is_read_and_nothing_is_set_aside() {
    let sorted = sort(sound());
    assert_eq!(places(&sorted), Vec::<&str>::new());
    assert_eq!(sorted.contents.formulas.len(), 1);
    assert_eq!(sorted.contents.notes.len(), 1);
    assert_eq!(sorted.contents.settings, Some(Settings::default()));
    let bakes: Vec<_> = sorted
        .contents
        .bakes
        .iter()
        .map(|bake| bake.log().len())
        .collect();
    assert_eq!(bakes, [2]);
}

#[test]
fn what_plans_promised_is_handed_on_as_it_is_and_is_in_no_archive() {
    for text in [r#"{"version":1}"#, "{torn"] {
        let sorted = sort(with(sound(), Shelf::Plan, PROMISES_KEY, text));
        assert_eq!(sorted.contents.promises.as_deref(), Some(text));
        assert_eq!(sorted.archive, sort(sound()).archive);
    }
}

#[test]
fn an_unreadable_record_is_set_aside_alone() {
    for (shelf, key) in [
        (Shelf::Formulas, "torn"),
        (Shelf::Notebook, "torn"),
        (Shelf::Kitchen, KITCHEN_KEY),
        (Shelf::Kitchen, "second"),
        (Shelf::Bakes, "no entry's key"),
    ] {
        let sorted = sort(with(sound(), shelf, key, "{torn"));
        assert_eq!(places(&sorted), [shelf.place(key)]);
        assert_eq!(sorted.contents.set_aside[0].text, "{torn");
        assert_eq!(sorted.contents.bakes.len(), 1);
    }
}

#[test]
fn one_unreadable_entry_sets_the_whole_log_aside() {
    let sorted = sort(with(
        sound(),
        Shelf::Bakes,
        &entry_key("saturday", 2),
        "{torn",
    ));
    assert_eq!(places(&sorted), ["bakes: saturday/000002"]);
    assert_eq!(
        sorted.contents.set_aside[0].text.lines().last(),
        Some("{torn")
    );
    assert!(sorted.contents.bakes.is_empty());
    assert!(sorted.archive.bakes.is_empty());
    assert_eq!(sorted.archive.set_aside.len(), 3);
}

#[test]
fn a_missing_entry_sets_the_log_aside_where_it_is_missing() {
    let paused = r#"{"version":1,"at_ms":9000,"event":{"kind":"paused"}}"#;
    let sorted = sort(with(
        sound(),
        Shelf::Bakes,
        &entry_key("saturday", 3),
        paused,
    ));
    assert_eq!(places(&sorted), ["bakes: saturday/000002"]);
    assert_eq!(sorted.archive.set_aside.len(), 3);
}

#[test]
fn a_log_without_its_start_is_set_aside() {
    let mut kept = sound();
    kept.remove(&(Shelf::Bakes, entry_key("saturday", 0)));
    assert_eq!(places(&sort(kept)), ["bakes: saturday/000000"]);
}

/// Everything a phone may hold, readable or not.
fn worn() -> Kept {
    let kept = with(sound(), Shelf::Formulas, "torn", "{torn");
    let kept = with(kept, Shelf::Bakes, &entry_key("sunday", 0), "{torn");
    let kept = with(kept, Shelf::Bakes, &entry_key("sunday", 4), "");
    let kept = with(kept, Shelf::Bakes, "odd", "x");
    let kept = with(kept, Shelf::SetAside, "kitchen: kitchen", "{older");
    with(kept, Shelf::SetAside, "kitchen: kitchen (2)", "{oldest")
}

#[test]
fn an_archive_puts_everything_back_where_it_lay() {
    for kept in [Kept::new(), sound(), worn()] {
        let written = sort(kept.clone()).archive.write(0);
        let read = Archive::read(&written).expect("what is written is whole");
        assert_eq!(shelve(read), kept);
    }
}

#[test]
fn what_was_set_aside_never_takes_the_place_of_what_is_sound() {
    let mut archive = sort(sound()).archive;
    let intruders = [
        ("formulas: mine", "{a"),
        ("kitchen: kitchen", "{b"),
        ("bakes: saturday/000000", "{c"),
        ("bakes: saturday/000007", "{d"),
        ("cellar: x", "{e"),
        ("cellar: x", "{f"),
    ];
    archive.set_aside = intruders
        .map(|(place, text)| (place.to_owned(), text.to_owned()))
        .to_vec();
    let kept = shelve(archive);
    for (key, text) in sound() {
        assert_eq!(kept.get(&key), Some(&text));
    }
    let aside = kept
        .iter()
        .filter(|((shelf, _), _)| *shelf == Shelf::SetAside);
    let texts: BTreeSet<&str> = aside.map(|(_, text)| text.as_str()).collect();
    assert_eq!(texts, intruders.map(|(_, text)| text).into());
}

#[test]
fn settings_survive_being_stored() {
    let settings = Settings {
        degrees: super::super::Degrees::Fahrenheit,
        alarm: super::super::AlarmSettings {
            volume: 0.35,
            vibrates: false,
            flashes: true,
        },
        ..Settings::default()
    };
    let text = KitchenRecord::from(&settings).write();
    assert_eq!(super::settings(&text), Ok(settings));
}

#[test]
fn what_is_not_kept_yet_lies_over_what_is() {
    let mut known = sort(sound()).contents;
    let mut unsaved = known.bakes.remove(0);
    let at = unsaved.state().newest;
    unsaved.append([Entry {
        at,
        event: domain::bake::Event::Resumed,
    }]);
    known.bakes = vec![unsaved.clone()];
    known.notes[0].text = "Too dark.".to_owned();
    let torn = with(sound(), Shelf::Kitchen, KITCHEN_KEY, "{torn");
    for mut kept in [torn, Kept::new()] {
        let was_torn = !kept.is_empty();
        lay_over(&mut kept, &known);
        let sorted = sort(kept);
        assert_eq!(sorted.contents.bakes, [unsaved.clone()]);
        assert_eq!(sorted.contents.notes, known.notes);
        assert_eq!(sorted.contents.settings, known.settings);
        assert!(sorted.contents.formulas.contains(&known.formulas[0]));
        let aside: Vec<_> = sorted.archive.set_aside;
        let torn = aside.iter().any(|(_, text)| text == "{torn");
        assert_eq!(torn, was_torn);
    }
}
