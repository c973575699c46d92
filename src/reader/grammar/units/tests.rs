use super::*;

#[test]
fn the_table_is_in_the_order_in_which_it_is_searched() {
    for pair in UNITS.windows(2) {
        let [(one, _), (next, _)] = pair else {
            continue;
        };
        assert!(first_word(one) <= first_word(next), "{one} before {next}");
    }
}
