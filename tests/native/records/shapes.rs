//! What is the same for every shape: how each says no, and that none loses anything.

mod read_back;

use domain::formula::Formula;
use domain::formula::manuscript::Manuscript;
use domain::kitchen::Kitchen;
use records::bake::EntryRecord;
use records::formula::FormulaRecord;
use records::kitchen::KitchenRecord;
use records::manuscript::ManuscriptRecord;
use records::notebook::NoteRecord;
use records::promises::PromisesRecord;
use records::{Kind, ReadError, Record, migrate};
use serde_json::{Value, json};

use super::sample;

fn value(text: &str) -> Value {
    serde_json::from_str(text).expect("the sample is JSON")
}

/// Reads a text as one shape.
type Reader = fn(&str) -> Result<(), ReadError>;

/// A good text of each shape, with its kind and how reading it went.
fn good_texts() -> Vec<(Kind, String, Reader)> {
    fn read<R: Record>(text: &str) -> Result<(), ReadError> {
        R::read(text).map(drop)
    }
    let archive = sample::archive();
    let formula = archive.formulas[0].1.clone();
    let entry = archive.bakes[0].1[3].clone();
    let kitchen = archive.kitchen.expect("the sample has a kitchen");
    let note = archive.notes[0].1.clone();
    let promises = include_str!("promises-v1.json").to_owned();
    let manuscript = Manuscript::from(&records::starters::all()[0]);
    let manuscript = ManuscriptRecord::from(&manuscript).write();
    vec![
        (Kind::Formula, formula, read::<FormulaRecord>),
        (Kind::Manuscript, manuscript, read::<ManuscriptRecord>),
        (Kind::BakeEntry, entry, read::<EntryRecord>),
        (Kind::Kitchen, kitchen, read::<KitchenRecord>),
        (Kind::Note, note, read::<NoteRecord>),
        (Kind::Promises, promises, read::<PromisesRecord>),
    ]
}

#[test]
fn a_record_of_a_newer_version_says_so_and_how_new() {
    for (kind, text, read) in good_texts() {
        let newest = migrate::newest(kind);
        let mut newer = value(&text);
        newer["version"] = json!(newest + 1);
        let expected = ReadError::NewerThanApp {
            kind,
            version: newest + 1,
            newest,
        };
        assert_eq!(read(&newer.to_string()), Err(expected));
    }
}

/// A newer version may be shaped quite differently; it must not be taken for garbage.
#[test]
fn a_newer_version_is_known_by_its_number_alone() {
    for (kind, _, read) in good_texts() {
        let newer = format!(r#"{{"version":{},"all":"new"}}"#, migrate::newest(kind) + 7);
        let read = read(&newer);
        assert!(
            matches!(read, Err(ReadError::NewerThanApp { .. })),
            "{read:?}"
        );
    }
}

#[test]
fn garbage_is_malformed() {
    let garbage = [
        "",
        "null",
        "[]",
        "{}",
        "true",
        "\u{0}",
        r#"{"version":1}"#,
        r#"{"version":"1"}"#,
        r#"{"version":-1}"#,
    ];
    for (_, text, read) in good_texts() {
        let twice = format!("{text}{text}");
        for text in garbage.iter().copied().chain([twice.as_str()]) {
            let read = read(text);
            assert!(
                matches!(read, Err(ReadError::Malformed { .. })),
                "{text}: {read:?}"
            );
        }
    }
}

#[test]
fn what_a_later_program_of_the_same_version_adds_is_tolerated() {
    for (kind, text, read) in good_texts() {
        let mut more = value(&text);
        more["added_later"] = json!({"deep": [1, 2, 3]});
        assert_eq!(read(&more.to_string()), Ok(()), "{}", kind.name());
    }
}

#[test]
fn a_missing_field_is_missed() {
    for (kind, text, read) in good_texts() {
        let field = match kind {
            Kind::Formula | Kind::Manuscript => "pieces",
            Kind::BakeEntry => "event",
            Kind::Kitchen => "facts",
            Kind::Note | Kind::Archive => "bake",
            Kind::Promises => "shown",
        };
        let mut less = value(&text);
        less.as_object_mut()
            .expect("a record is an object")
            .remove(field);
        let read = read(&less.to_string());
        assert!(matches!(read, Err(ReadError::Malformed { .. })), "{read:?}");
    }
}

/// Whoever wrote a formula by hand has to find the place.
#[test]
fn a_flaw_says_what_is_wrong_and_where() {
    let cases = [
        ("/pieces", json!(8), "pieces should be an object"),
        ("/name", json!(["Twists"]), "name should be text"),
        (
            "/pieces/count",
            json!(70_000),
            "pieces.count should be a whole number from 0 to 65535",
        ),
        (
            "/pieces/count",
            json!(7.5),
            "pieces.count should be a whole number from 0 to 65535",
        ),
        (
            "/components/1/ingredients/3/mass_g",
            json!("60"),
            "components[1].ingredients[3].mass_g should be a number",
        ),
        (
            "/components/1/ingredients/1/tempered",
            json!(1),
            "components[1].ingredients[1].tempered should be true or false",
        ),
        (
            "/components/0/kind",
            json!("starter"),
            "components[0].kind is \"starter\", which is no kind of component",
        ),
        (
            "/steps/3/cautions/1",
            json!("wet-floor"),
            "steps[3].cautions[1] is \"wet-floor\", which is no caution",
        ),
        (
            "/steps/3/after",
            json!({}),
            "steps[3].after should be a list",
        ),
        (
            "/steps/0/length/kind",
            json!("long"),
            "steps[0].length.kind is \"long\", which is no length of a step",
        ),
        (
            "/steps/0/length/minutes",
            json!({"low": 1, "high": 2}),
            "steps[0].length.minutes.likely is missing",
        ),
    ];
    for (place, wrong, cause) in cases {
        let mut formula = value(&sample::archive().formulas[0].1);
        *formula
            .pointer_mut(place)
            .expect("the sample has this place") = wrong;
        let read = FormulaRecord::read(&formula.to_string());
        let kind = Kind::Formula;
        let cause = cause.to_owned();
        assert_eq!(read, Err(ReadError::Malformed { kind, cause }));
    }
}

#[test]
fn what_is_cut_off_says_where_it_ends() {
    let read = FormulaRecord::read("{\"version\":1,\n\"id\":");
    let said = read.expect_err("half a record can't be read").to_string();
    assert!(said.contains("line 2"), "{said}");
}

#[test]
fn an_oven_that_takes_all_night_is_impossible() {
    let mut record = KitchenRecord::default();
    record.facts.oven_heats_in_min = 241.0;
    let read = Kitchen::try_from(&record.facts);
    assert!(
        matches!(read, Err(ReadError::Impossible { .. })),
        "{read:?}"
    );
}

#[test]
fn an_oven_further_off_than_any_is_impossible() {
    let mut record = KitchenRecord::default();
    for (off_k, fits) in [(-40.0, true), (40.5, false), (f64::INFINITY, false)] {
        record.facts.oven_off_k = Some(off_k);
        let read = Kitchen::try_from(&record.facts);
        assert_eq!(read.is_ok(), fits, "{read:?}");
    }
}

/// As every kitchen was stored before there was a list to tick off.
#[test]
fn a_kitchen_without_a_gathering_list_has_nothing_ticked_off() {
    let mut less = value(&archived_kitchen());
    let fields = less.as_object_mut().expect("a record is an object");
    fields.remove("gathered").expect("the sample has it");
    let read = KitchenRecord::read(&less.to_string()).expect("it is read");
    assert!(read.gathered.is_empty());
    assert_eq!(value(&read.write()), less);
}

/// As every kitchen was stored before its nights were remembered.
#[test]
fn a_kitchen_without_a_habit_of_sleep_has_none() {
    let mut less = value(&archived_kitchen());
    let fields = less.as_object_mut().expect("a record is an object");
    fields.remove("asleep").expect("the sample has it");
    let read = KitchenRecord::read(&less.to_string()).expect("it is read");
    assert_eq!(read.asleep, None);
    assert_eq!(value(&read.write()), less);
}

/// As every kitchen was stored before anybody could say so.
#[test]
fn a_kitchen_without_its_oven_s_error_has_none() {
    let mut less = value(&archived_kitchen());
    let facts = less["facts"].as_object_mut().expect("facts are an object");
    facts.remove("oven_off_k").expect("the sample has it");
    let read = KitchenRecord::read(&less.to_string()).expect("it is read");
    let kitchen = Kitchen::try_from(&read.facts).expect("it is possible");
    let expected = Kitchen {
        oven_off: None,
        ..sample::kitchen()
    };
    assert_eq!(kitchen, expected);
}

fn archived_kitchen() -> String {
    let kitchen = sample::archive().kitchen;
    kitchen.expect("the sample has a kitchen")
}

#[test]
fn a_formula_with_a_food_nobody_knows_is_impossible() {
    let text = sample::archive().formulas[0]
        .1
        .replace("\"walnuts\"", "\"moon-dust\"");
    let read = FormulaRecord::read(&text).and_then(Formula::try_from);
    assert!(
        matches!(read, Err(ReadError::Impossible { .. })),
        "{read:?}"
    );
}
