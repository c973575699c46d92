use super::*;
use crate::grammar::tokens::tokens;

/// The minutes of a step, and its temperature in whole °C.
type Told = (Option<(f64, f64)>, Option<f64>);

fn read(text: &str, language: Language) -> Vec<(String, Told)> {
    steps(text, &tokens(text), language)
        .into_iter()
        .map(|step| {
            let celsius = step.heat.map(|heat| heat.celsius.round());
            (step.text, (step.minutes, celsius))
        })
        .collect()
}

fn told(text: &str) -> Vec<Told> {
    let read = read(text, Language::English);
    read.into_iter().map(|(_, told)| told).collect()
}

fn only(minutes: f64) -> Option<(f64, f64)> {
    Some((minutes, minutes))
}

#[test]
fn every_time_gets_a_step_of_its_own() {
    assert_eq!(
        told("Knead the dough for 10 minutes, then leave it for 1¼ hours."),
        [(only(10.0), None), (only(75.0), None)]
    );
    assert_eq!(
        told("Knead 8 min, rise 1 hr, shape, rise 30 min. Bake at gas mark 6 for 15 min."),
        [
            (only(8.0), None),
            (only(60.0), None),
            (only(30.0), None),
            (only(15.0), Some(204.0))
        ]
    );
    assert_eq!(
        told("Bake at 375°F for 35 min, then at 350°F for 10 min."),
        [(only(35.0), Some(191.0)), (only(10.0), Some(177.0))]
    );
}

#[test]
fn a_bare_number_is_a_temperature_where_an_oven_is_spoken_of() {
    assert_eq!(
        told("Bake at 350 for 20 minutes."),
        [(only(20.0), Some(177.0))]
    );
    assert_eq!(told("Heat the oven to 220."), [(None, Some(220.0))]);
    assert_eq!(told("Roll to 200 mm."), [(None, None)]);
}

#[test]
fn sentences_end_behind_abbreviations_only_before_a_capital() {
    let read = read(
        "10–12 Std. reifen lassen. Danach ca. 5 Min. kneten.",
        Language::German,
    );
    let texts: Vec<_> = read.iter().map(|(text, ..)| text.as_str()).collect();
    assert_eq!(
        texts,
        ["10–12 Std. reifen lassen.", "Danach ca. 5 Min. kneten."]
    );
}

/// Nothing of a text is lost or written twice.
#[test]
fn the_words_of_the_steps_are_those_of_the_text() {
    let text = "Mix, knead 10 min; rest 1 h, then bake at 200C/180C fan for 20 minutes. Cool.";
    let all: Vec<String> = read(text, Language::English)
        .into_iter()
        .map(|(text, ..)| text)
        .collect();
    let letters = |text: &str| {
        text.chars()
            .filter(|letter| letter.is_alphanumeric())
            .collect::<String>()
    };
    assert_eq!(letters(&all.join(" ")), letters(text));
}
