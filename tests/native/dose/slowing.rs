//! What sugar and salt take from the pace of yeast.

use checks::{assert_close, starter};
use domain::formula::{Length, StepKind};
use domain::units::{bakers_percent, celsius};
use domain::yeast::activity::{Cardinals, relative_rate};
use domain::yeast::dose;
use domain::yeast::slowing::{self, LEAN, Slowing};

use super::table;

#[test]
fn sugar_slows_as_was_measured() {
    let sugar = table().sugar;
    let at = |percent: f64| Slowing {
        sugar: bakers_percent(percent),
        salt: bakers_percent(2.0),
    };
    let pace = |percent: f64| slowing::pace(at(0.0), at(percent));
    let likely = pace(sugar.percent).likely();
    let tolerance = sugar.tolerance_share * sugar.rate;
    assert_close(&sugar.source, likely, sugar.rate, tolerance);
    let low = pace(sugar.low_percent).low();
    let tolerance = sugar.low_tolerance_share * sugar.low_rate;
    assert_close(&sugar.low_source, low, sugar.low_rate, tolerance);
    let high = pace(sugar.high_percent).high();
    let [least, most] = sugar.high_rate_between;
    assert!((least..=most).contains(&high), "{}", sugar.high_source);
    let harmless = pace(sugar.harmless_percent);
    let source = &sugar.harmless_source;
    assert_close(source, harmless.low(), 1.0, 1e-12);
    assert_close(source, harmless.high(), 1.0, 1e-12);
}

#[test]
fn salt_slows_as_far_as_it_was_judged() {
    let salt = table().salt;
    let at = |percent: f64| Slowing {
        sugar: bakers_percent(0.0),
        salt: bakers_percent(percent),
    };
    let pace = slowing::pace(at(0.0), at(salt.percent));
    for (got, slower) in [pace.low(), pace.likely(), pace.high()]
        .into_iter()
        .zip(salt.slower)
    {
        assert_close(&salt.source, 1.0 - got, slower, salt.tolerance);
    }
}

/// By hand: 48 g of sugar and 7 of salt on 345 g of flour, 30 and 25 of honey and 7 on 390, 25 of honey and 10 on 500.
#[test]
fn a_formula_says_what_slows_its_yeast() {
    for (id, sugar, salt) in [
        ("plum-almond-buns", 13.9, 2.03),
        ("orange-braid", 14.1, 1.79),
        ("overnight-tin-loaf", 5.0, 2.0),
    ] {
        let slowing = starter(id).slowing();
        assert_close(id, slowing.sugar.get(), sugar, 0.05);
        assert_close(id, slowing.salt.get(), salt, 0.01);
    }
}

/// The first rises of the starters were written apart from the models of dose, sugar and temperature, and with sugar
/// from 5 to 14 % of the flour their yeast has the same to do. What a rise asks for is known to a fifth.
#[test]
fn first_rises_across_sugar_and_yeast_are_of_one_length_of_work() {
    let work = |id: &str| {
        let formula = starter(id);
        let dose = formula.percent_of_flour(formula.fresh_yeast()).get();
        let warm = relative_rate(formula.reference, &Cardinals::DOUGH)
            / relative_rate(celsius(25.0), &Cardinals::DOUGH);
        // A preferment has one of its own before it.
        let mut last_first = formula.steps.iter().rev();
        let bulk = last_first.find(|step| step.kind == StepKind::Bulk);
        let Some(Length::Ferment {
            reference_minutes, ..
        }) = bulk.map(|bulk| &bulk.length)
        else {
            panic!("{id} has a first rise");
        };
        let pace = slowing::pace(LEAN, formula.slowing()).likely() * dose::pace(dose).likely();
        reference_minutes.likely().get() * warm * pace
    };
    let buns = work("plum-almond-buns");
    for id in ["orange-braid", "overnight-tin-loaf"] {
        assert_close(id, work(id) / buns, 1.0, 0.2);
    }
    // Without the sugar's slowing the loaf, which has a third of it, would have far less to do.
    let sweet = slowing::pace(LEAN, starter("plum-almond-buns").slowing());
    let little = slowing::pace(LEAN, starter("overnight-tin-loaf").slowing());
    assert!(little.low() > sweet.likely() && little.likely() > 2.0 * sweet.likely());
}
