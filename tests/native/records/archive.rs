//! The archive file: all or nothing.
//!
//! Source of the checksum's check values: IETF draft-eastlake-fnv, appendix with
//! test vectors, FNV-1a 64 bit (values from memory: "" 0xcbf29ce484222325,
//! "a" 0xaf63dc4c8601ec8c, "foobar" 0x85944171f73967e8).

use proptest::prelude::*;
use records::archive::{Archive, ArchiveError, MOST_BYTES};
use serde_json::{Value, json};

use super::sample;

const WRITTEN_MS: i64 = 1_795_300_000_000;

fn text() -> String {
    sample::archive().write(WRITTEN_MS)
}

fn envelope() -> Value {
    serde_json::from_str(&text()).expect("an archive is JSON")
}

/// A second hand at the checksum: FNV-1a over the texts, each after its length in eight bytes.
fn fnv_1a(bytes: impl IntoIterator<Item = u8>) -> u64 {
    bytes.into_iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

#[test]
fn the_second_hand_at_the_checksum_meets_the_published_values() {
    assert_eq!(fnv_1a(*b""), 0xcbf2_9ce4_8422_2325);
    assert_eq!(fnv_1a(*b"a"), 0xaf63_dc4c_8601_ec8c);
    assert_eq!(fnv_1a(*b"foobar"), 0x8594_4171_f739_67e8);
}

#[test]
fn the_checksum_of_an_empty_archive_is_that_of_its_counts() {
    // Three lists of length "0", and the kitchen's empty text.
    let framed = |text: &str| {
        let length = (text.len() as u64).to_le_bytes();
        length.into_iter().chain(text.bytes()).collect::<Vec<u8>>()
    };
    let bytes = ["0", "0", "0", ""].map(framed).concat();
    let written: Value =
        serde_json::from_str(&Archive::default().write(0)).expect("an archive is JSON");
    assert_eq!(
        written["checksum"],
        json!(format!("{:016x}", fnv_1a(bytes)))
    );
}

#[test]
fn what_is_written_is_read_back() {
    for archive in [Archive::default(), sample::archive()] {
        let text = archive.write(WRITTEN_MS);
        assert_eq!(Archive::read(&text), Ok(archive));
    }
}

#[test]
fn reading_and_writing_again_changes_no_byte() {
    let text = text();
    let read = Archive::read(&text).expect("a whole archive is read");
    assert_eq!(read.write(WRITTEN_MS), text);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn a_changed_byte_is_refused_or_changes_nothing(
        at in any::<prop::sample::Index>(),
        change in 1..=255_u8,
    ) {
        let mut bytes = text().into_bytes();
        let at = at.index(bytes.len());
        bytes[at] ^= change;
        // A file that isn't UTF-8 any more is no text, and refused before it gets here.
        if let Ok(changed) = String::from_utf8(bytes)
            && let Ok(read) = Archive::read(&changed)
        {
            prop_assert_eq!(read, sample::archive(), "byte {}", at);
        }
    }

    #[test]
    fn a_file_that_was_cut_off_is_refused(at in any::<prop::sample::Index>()) {
        let whole = text();
        let places: Vec<usize> = whole.char_indices().map(|(place, _)| place).collect();
        let read = Archive::read(&whole[..*at.get(&places)]);
        prop_assert!(matches!(read, Err(ArchiveError::NotAnArchive { .. })), "{read:?}");
    }
}

#[test]
fn a_key_that_stands_twice_is_refused() {
    let mut formulas = sample::archive();
    formulas.formulas.push(formulas.formulas[0].clone());
    let mut bakes = sample::archive();
    bakes.bakes.push(bakes.bakes[0].clone());
    let mut notes = sample::archive();
    notes.notes.push(notes.notes[0].clone());
    for twice in [formulas, bakes, notes] {
        let read = Archive::read(&twice.write(WRITTEN_MS));
        assert!(matches!(read, Err(ArchiveError::Twice { .. })), "{read:?}");
    }
}

#[test]
fn one_bad_record_refuses_the_whole_file() {
    let bad = || "{\"version\":1}".to_owned();
    let mut formula = sample::archive();
    formula.formulas[0].1 = bad();
    let mut entry = sample::archive();
    entry.bakes[0].1[5] = bad();
    let mut kitchen = sample::archive();
    kitchen.kitchen = Some(bad());
    let mut note = sample::archive();
    note.notes[0].1 = bad();
    for bad in [formula, entry, kitchen, note] {
        let read = Archive::read(&bad.write(WRITTEN_MS));
        assert!(matches!(read, Err(ArchiveError::Record { .. })), "{read:?}");
    }
}

#[test]
fn a_bake_without_its_start_is_refused() {
    let mut archive = sample::archive();
    archive.bakes[0].1.remove(0);
    let read = Archive::read(&archive.write(WRITTEN_MS));
    let bake = "table-of-eight".to_owned();
    assert_eq!(read, Err(ArchiveError::BakeWithoutStart { bake }));
}

#[test]
fn what_was_set_aside_travels_along_unread() {
    let mut archive = sample::archive();
    archive.set_aside = vec![(
        "bakes: x/000001".to_owned(),
        "\u{1}not JSON at all\"".to_owned(),
    )];
    assert_eq!(Archive::read(&archive.write(WRITTEN_MS)), Ok(archive));
}

#[test]
fn a_newer_archive_says_so() {
    let mut newer = envelope();
    newer["version"] = json!(2);
    let read = Archive::read(&newer.to_string());
    assert_eq!(read, Err(ArchiveError::NewerThanApp { version: 2 }));
    // It may be shaped quite differently, and must not be taken for another kind of file.
    let read = Archive::read(r#"{"format":"oventide-archive","version":3,"parts":[]}"#);
    assert_eq!(read, Err(ArchiveError::NewerThanApp { version: 3 }));
}

#[test]
fn another_kind_of_file_is_no_archive() {
    let mut other = envelope();
    other["format"] = json!("shopping-list");
    for text in [
        other.to_string(),
        String::new(),
        "[]".to_owned(),
        "BEGIN:VCARD".to_owned(),
    ] {
        let read = Archive::read(&text);
        assert!(
            matches!(read, Err(ArchiveError::NotAnArchive { .. })),
            "{read:?}"
        );
    }
}

#[test]
fn what_a_later_program_of_the_same_version_adds_is_tolerated() {
    let mut more = envelope();
    more["phone"] = json!("an old one");
    more["contents"]["photos"] = json!([]);
    assert_eq!(Archive::read(&more.to_string()), Ok(sample::archive()));
}

#[test]
fn a_file_too_large_is_refused_before_it_is_read() {
    let bytes = MOST_BYTES + 1;
    let read = Archive::read(&" ".repeat(bytes));
    assert_eq!(read, Err(ArchiveError::TooLarge { bytes }));
}
