//! Instructions that are cut from a text.

use super::*;

fn words_of(text: &str) -> (String, String) {
    let composed = compose(&dough_of(LEAN), &[said(Knead, text)]);
    let step = &only(&composed, Knead).step;
    (step.instruction.clone(), step.detail.clone())
}

#[test]
fn a_short_text_is_the_instruction() {
    let (instruction, detail) = words_of("Knead by hand for 10 minutes.");
    assert_eq!(instruction, "Knead by hand for 10 minutes.");
    assert_eq!(detail, "");
}

#[test]
fn a_long_text_is_cut_at_a_clause_and_kept_whole() {
    for (text, cut) in [
        (
            "Tip it out. Knead for 10 minutes until the dough is smooth, stretchy and hardly sticks.",
            "Tip it out.",
        ),
        (
            "Knead for 10 minutes until the dough is smooth, stretchy and no longer sticks to the table.",
            "Knead for 10 minutes.",
        ),
        (
            "Knead the dough by hand (that takes about ten minutes or a little longer) until it shines.",
            "Knead the dough by hand.",
        ),
        (
            "Den Teig kneten, bis er glatt ist und sich vom Rand der Schüssel löst, dann abdecken.",
            "Den Teig kneten.",
        ),
        (
            "Den Teig 10 bis 12 Minuten kneten, bis er glatt ist und sich vom Rand der Schüssel löst.",
            "Den Teig 10 bis 12 Minuten kneten.",
        ),
        (
            "Knead it well by hand and then cover it with a cloth, out of any draught, for later.",
            "Knead it well by hand.",
        ),
    ] {
        let (instruction, detail) = words_of(text);
        assert_eq!(instruction, cut);
        assert_eq!(detail, text);
    }
}

/// Half a list would have something left out of the dough, so it shows that it goes on.
#[test]
fn what_has_no_clause_goes_on() {
    let text = "Knead the flour, the water, the salt, the sugar, the egg, the yeast and the milk.";
    let (instruction, detail) = words_of(text);
    assert_eq!(
        instruction,
        "Knead the flour, the water, the salt, the sugar, the egg…"
    );
    assert_eq!(detail, text);
    let (instruction, detail) =
        words_of("one two three four five six seven eight nine ten 11 12 13");
    assert_eq!(
        instruction,
        "one two three four five six seven eight nine ten 11 12…"
    );
    assert!(detail.ends_with("12 13"));
}
