use super::*;

#[test]
fn sentences_and_words_that_were_cut_are_joined() {
    let text = "PAN ROLLS\n\n1 cup yellow corn-\nmeal\n2 cups boiling\nwater\n5 cups all-\npurpose flour\nStir the cornmeal slowly into the boil-\ning water and cook.";
    assert_eq!(
        lines(text),
        [
            "PAN ROLLS",
            "",
            "1 cup yellow cornmeal",
            "2 cups boiling water",
            "5 cups all-purpose flour",
            "Stir the cornmeal slowly into the boiling water and cook."
        ]
    );
}

#[test]
fn items_stay_apart() {
    for text in [
        "30 g sugar\ncurrants\nsalt\nFlour",
        "Mix\nbake\nEat",
        "500g flour\nand one egg\nsome salt",
    ] {
        assert_eq!(lines(text), text.lines().collect::<Vec<_>>(), "{text}");
    }
}
