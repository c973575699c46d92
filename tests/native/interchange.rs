//! Formulas for other programs, out and back in.
//!
//! Source of what is written: schema.org (Recipe, HowToSection, HowToStep) and ISO 8601. That other programs read it is
//! shown by the oracle, with `extruct` and `isodate`.

use checks::starter;
use domain::decimal::plain;
use domain::formula::{ComponentKind, Formula, Length};
use reader::found::{Found, MassBasis};
use records::formula::FormulaRecord;
use records::interchange::{own, page, recipe};
use records::{Record as _, starters};
use serde_json::Value;

/// A formula that came back has lost nothing.
#[test]
fn a_formula_comes_back_from_a_recipe_and_from_a_page_as_it_was() {
    for formula in starters::all() {
        for text in [recipe(&formula), page(&formula)] {
            let back = own(&text).expect("it is ours and whole");
            assert_eq!(back.as_ref(), Some(&formula), "{}", formula.name);
        }
    }
}

/// Without our own shape in it, as a foreign program would hand it on.
fn handed_on(formula: &Formula) -> String {
    let mut json: Value = serde_json::from_str(&recipe(formula)).expect("it is JSON");
    let fields = json.as_object_mut().expect("a recipe is an object");
    assert!(fields.remove("oventide:formula").is_some());
    json.to_string()
}

fn read(text: &str) -> Found {
    reader::read(text.as_bytes()).expect("a recipe is read")
}

#[test]
fn every_quantity_and_step_survives_a_program_that_only_knows_the_vocabulary() {
    for formula in starters::all() {
        let found = read(&handed_on(&formula));
        let with_ingredients = formula
            .components
            .iter()
            .filter(|one| !one.ingredients.is_empty());
        assert_eq!(
            found.parts.len(),
            with_ingredients.clone().count(),
            "{}",
            formula.name
        );
        for (part, component) in found.parts.iter().zip(with_ingredients) {
            let is_dough = part.kind == ComponentKind::Dough;
            assert_eq!(
                is_dough,
                component.kind == ComponentKind::Dough,
                "{}",
                component.name
            );
            assert_eq!(
                part.ingredients.len(),
                component.ingredients.len(),
                "{}",
                component.name
            );
            for (read, written) in part.ingredients.iter().zip(&component.ingredients) {
                let mass = read
                    .mass
                    .unwrap_or_else(|| panic!("{} has a mass", written.name));
                assert_eq!(mass.basis, MassBasis::Written, "{}", written.name);
                // Written to a hundredth of a gram.
                assert!(
                    (mass.grams - written.mass).get().abs() <= 0.005,
                    "{}",
                    written.name
                );
                // What stands in brackets is read as a note.
                let said = format!("{} {}", read.name, read.note);
                assert_eq!(said.trim(), written.name);
            }
        }
        // A step of two sentences is read as two; what parts them is no part of either.
        let letters = |text: &str| {
            text.chars()
                .filter(|letter| letter.is_alphanumeric())
                .collect::<String>()
        };
        let all: String = found.steps.iter().map(|read| letters(&read.text)).collect();
        for step in &formula.steps {
            let told = all.contains(&letters(&step.instruction));
            assert!(
                told,
                "{}: \"{}\" is among the steps",
                formula.name, step.instruction
            );
            let likely = match &step.length {
                Length::Hands(range) | Length::Wait(range) | Length::Bake { range, .. } => {
                    range.likely()
                }
                Length::Ferment {
                    reference_minutes, ..
                } => reference_minutes.likely(),
                _ => continue,
            };
            let minutes = likely.get().round();
            let mut timed = found.steps.iter().filter_map(|read| read.minutes);
            // A time that a step tells in its own words counts before that of its field.
            let tells = |words: &String| {
                ["minute", " min", "hour", " h "]
                    .iter()
                    .any(|unit| words.contains(unit))
            };
            let tells_its_own = [&step.instruction, &step.detail, &step.cue]
                .into_iter()
                .any(tells);
            let is_kept = timed.any(|(low, high)| low == minutes && high == minutes);
            assert!(is_kept || tells_its_own, "{}: {minutes} min", step.title);
            if let Length::Bake { oven, .. } = step.length {
                let heats = found.steps.iter().filter_map(|read| read.heat);
                assert!(
                    heats
                        .clone()
                        .any(|heat| (heat.celsius - oven.get()).abs() < 0.5),
                    "{}",
                    plain(oven.get(), 0)
                );
            }
        }
    }
}

/// Text that would end a script or begin a tag is text on the page and comes back as text.
#[test]
fn markup_in_a_name_stays_text() {
    let hostile = "</script><script>alert(1)</script> & \"buns\" <img src=x onerror=alert(2)>";
    let mut draft = starter("orange-braid").into_draft();
    draft.name = hostile.to_owned();
    draft.components[0].ingredients[0].name = hostile.to_owned();
    draft.steps[0].title = hostile.to_owned();
    let formula = Formula::new(draft).expect("a name hinders nothing");
    let page = page(&formula);
    assert_eq!(page.matches("<script").count(), 1, "only our own script");
    assert_eq!(page.matches("</script").count(), 1);
    assert!(!page.contains("<img"));
    assert_eq!(own(&page).expect("it is ours").as_ref(), Some(&formula));
    let recipe = recipe(&formula);
    let json: Value = serde_json::from_str(&recipe).expect("it is JSON");
    assert_eq!(json["name"], hostile);
}

#[test]
fn what_is_ours_and_damaged_is_told_and_what_is_foreign_is_left_to_the_reader() {
    let whole = recipe(&starter("orange-braid"));
    let damaged = whole.replace("\"reference_c\":25.0", "\"reference_c\":\"warm\"");
    assert_ne!(whole, damaged);
    assert!(own(&damaged).is_err());
    for foreign in [
        "",
        "500 g flour",
        "{}",
        "<html></html>",
        &handed_on(&starter("orange-braid")),
    ] {
        assert_eq!(own(foreign).expect("it is nothing of ours"), None);
    }
    // A record by itself is no recipe.
    let record = FormulaRecord::from(&starter("orange-braid")).write();
    assert_eq!(own(&record).expect("it is no recipe"), None);
}
