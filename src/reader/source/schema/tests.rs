use super::duration::duration;
use super::*;

/// Source: ISO 8601-1:2019, 5.5.2, and `isodate` 0.7.2 for what each comes to.
#[test]
fn durations_are_those_of_iso_8601() {
    for (text, minutes) in [
        ("PT1H", Some(60.0)),
        ("PT1H30M", Some(90.0)),
        ("PT90M", Some(90.0)),
        ("P1DT12H", Some(2160.0)),
        ("PT0.5H", Some(30.0)),
        ("PT30S", Some(0.5)),
        ("P1W", Some(10_080.0)),
        ("1 hour", None),
        ("PT", None),
        ("PT5", None),
    ] {
        assert_eq!(duration(text), minutes, "{text}");
    }
}

#[test]
fn tags_that_break_lines_break_lines_and_others_stay() {
    assert_eq!(
        lines("<p>Mix.</p><p>Bake <b>well</b>.<br/>Cool</p>"),
        ["Mix.", "Bake <b>well</b>.", "Cool"]
    );
    assert_eq!(
        lines("a <script>alert(1)</script>"),
        ["a <script>alert(1)</script>"]
    );
}

#[test]
fn a_recipe_is_found_wherever_it_hangs() {
    let page = r#"{"@graph":[{"@type":"WebPage","mainEntity":{"@type":["Thing","http://schema.org/Recipe"],"name":"Rolls","recipeIngredient":"500 g flour<br>7 g yeast"}}]}"#;
    let found = from_json(page)
        .expect("it is JSON")
        .expect("it has a recipe");
    assert_eq!(found.name, "Rolls");
    let lines: Vec<_> = found.lines().map(|(line, _)| line.to_owned()).collect();
    assert_eq!(lines, ["500 g flour", "7 g yeast"]);
}
