//! Ice in the balance, and the constants.

use checks::assert_close;
use domain::thermal::constants as known;
use domain::thermal::liquid::chilling::FLOUR;
use domain::thermal::liquid::ice::{ice_at, ice_for, trade_ice};
use domain::units::{celsius, grams};

use super::{fahrenheit, table};

#[test]
fn constants_are_those_of_their_sources() {
    for row in table().constant {
        let got = match row.id.as_str() {
            "heat of hydration" => known::HEAT_OF_HYDRATION.get(),
            "ice, heat of fusion" => known::ICE_HEAT_OF_FUSION.get(),
            "cold water, specific heat" => known::COLD_WATER_SPECIFIC_HEAT.get(),
            "ice, specific heat" => known::ICE_SPECIFIC_HEAT.get(),
            "ice, L/c" => known::ICE_HEAT_OF_FUSION.get() / known::COLD_WATER_SPECIFIC_HEAT.get(),
            "sucrose, heat of solution" => known::SUCROSE_HEAT_OF_SOLUTION.get(),
            "flour, conductivity" => FLOUR.conductivity.get(),
            "flour, poured density" => FLOUR.density.get(),
            "milk fat, heat of fusion" => known::MILK_FAT_HEAT_OF_FUSION.get(),
            unknown => panic!("there is no constant {unknown}"),
        };
        let case = format!("{} ({}; {})", row.id, row.source, row.why);
        assert_close(&case, got, row.expected, row.tolerance);
    }
}

#[test]
fn ice_meets_the_exact_enthalpy_balance() {
    for row in table().ice {
        let total = grams(row.total);
        let ice = ice_at(
            total,
            celsius(row.tap_c),
            celsius(row.wanted_c),
            celsius(row.ice_c),
        );
        let case = format!("{} to {} °C ({})", row.tap_c, row.wanted_c, row.source);
        assert_close(&case, ice.get(), row.expected, row.tolerance);
    }
}

#[test]
fn ice_meets_the_trade_s_formula_and_table() {
    let table = table();
    for row in table.trade_ice {
        let (tap, wanted) = (celsius(row.tap_c), celsius(row.wanted_c));
        let got = trade_ice(grams(row.total), tap, wanted).expect("it can be cooled so far");
        let case = format!("{} to {} °C ({})", row.tap_c, row.wanted_c, row.source);
        assert_close(&case, got.get(), row.expected, row.tolerance);
        // The trade's 80 K for L/c is 0.7 % over 79.48, so its ice is at most that much under.
        let exact = ice_at(grams(row.total), tap, wanted, celsius(0.0));
        assert_close(&case, exact / got, 1.0, 0.007);
    }
    for row in table.ice_table {
        let (tap, wanted) = (fahrenheit(row.tap_f), fahrenheit(row.wanted_f));
        let case = format!("{} to {} °F", row.tap_f, row.wanted_f);
        let by_rule = trade_ice(grams(1.0), tap, wanted).expect("it can be cooled so far");
        assert_close(&case, by_rule.get(), row.expected, 0.003);
        // On top of that, the 0.7 % between the trade's 80 K and the exact balance.
        let exact = ice_at(grams(1.0), tap, wanted, celsius(0.0)).get();
        assert_close(&case, exact, row.expected, 0.003 + 0.007 * row.expected);
    }
    assert_eq!(trade_ice(grams(1.0), celsius(5.0), celsius(9.0)), None);
    assert_eq!(
        ice_for(grams(100.0), celsius(5.0), celsius(9.0)),
        grams(0.0)
    );
}
