use super::*;

#[test]
fn numbers_take_the_unit_of_their_column() {
    let columns = head("Ingredient | g | %").expect("it is a head");
    assert_eq!(columns, [Column::Other, Column::Grams, Column::Percent]);
    let row = with_units("Flour | 500 | 100", &columns);
    assert_eq!(row.as_deref(), Some("Flour | 500 g | 100 %"));
    assert_eq!(with_units("Bake until brown", &columns), None);
}

#[test]
fn a_sentence_is_no_head() {
    assert_eq!(head("Mix the flour; add water; knead"), None);
    assert_eq!(head("500 g | flour"), None);
}
