//! Names of ingredients, as bakers write them; the names are our own, what they mean is common knowledge
//! of the kitchen (no source), and that of flour types what German, French and Norwegian mills print on the bag.

mod english;
mod german;
mod norwegian;
mod romance;

use super::{Certainty, Role, known, mentions};

/// What is said, the key of the food, its role, and how sure that is.
type Row = (&'static str, &'static str, Role, Certainty);

fn check(names: &[Row]) {
    let mut wrong = Vec::new();
    for (said, key, role, certainty) in names {
        let got = known(said).map(|known| (known.food.key, known.role, known.certainty));
        if got != Some((*key, *role, *certainty)) {
            wrong.push(format!("{said}: {got:?}, not {key} {role} {certainty:?}"));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} of {}:\n{}",
        wrong.len(),
        names.len(),
        wrong.join("\n")
    );
}

#[test]
fn english_names_are_known() {
    check(english::NAMES);
}

#[test]
fn german_names_are_known() {
    check(german::NAMES);
}

#[test]
fn french_and_spanish_names_are_known() {
    check(romance::NAMES);
}

#[test]
fn norwegian_names_are_known() {
    check(norwegian::NAMES);
}

#[test]
fn case_and_accents_do_not_matter() {
    for names in [
        english::NAMES,
        german::NAMES,
        romance::NAMES,
        norwegian::NAMES,
    ] {
        for (said, key, ..) in names {
            let loud = known(&said.to_uppercase()).map(|known| known.food.key);
            assert_eq!(loud, Some(*key), "{said} in capitals");
            let plain = known(&domain::food::folded(said)).map(|known| known.food.key);
            // Without its comma what something is for can come before what it is.
            assert!(plain.is_some(), "{said} without accents");
        }
    }
}

#[test]
fn what_is_no_food_is_not_known() {
    for said in [
        "",
        " , ; ( ) / ",
        "7:30",
        "The car park will be swept",
        "a baking tray",
        "Backpapier",
        "the caretaker",
        "Gärkörbchen",
        "🥖",
        "水",
    ] {
        assert_eq!(known(said), None, "{said}");
        assert!(!mentions(said), "{said}");
    }
}

/// Nothing that is pasted may take long or stop the page; whatever stands behind 200 letters isn't looked at.
#[test]
fn long_texts_are_cut() {
    let long = "ß".repeat(100_000);
    assert_eq!(known(&long), None);
    let far = format!("{} butter", "x".repeat(200));
    assert_eq!(known(&far), None);
    let words = "aa ".repeat(100_000);
    assert_eq!(known(&words), None);
    let compound = "mehlmehlmehl".repeat(10_000);
    assert_eq!(known(&compound), None);
}
