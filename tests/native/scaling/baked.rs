//! Pieces by their mass when they are baked.
//!
//! Gisslen, *Professional Baking* (2008), ch. 6: 10 to 13 % of the dough are lost; a trade dictionary
//! has 9.8 to 11.5 %. By hand, 500 g of bread want 500 / 0.9 = 555.56 to 500 / 0.87 = 574.71 g of dough.

use checks::{assert_close, starter};
use domain::estimate::{Basis, Estimate};
use domain::formula::{MOST_LOSS, ScaleError, Size, baking_loss};
use domain::units::{Share, grams, share};
use proptest::prelude::*;
use records::starters;

fn weighed(loss: f64) -> Estimate<Share> {
    Estimate::exact(share(loss), Basis::Measured)
}

#[test]
fn the_loss_is_the_published_one() {
    let loss = baking_loss();
    assert_close("Gisslen", loss.low().get(), 0.10, 1e-12);
    assert_close("Gisslen", loss.high().get(), 0.13, 1e-12);
    // The dictionary's range holds what is likely.
    assert!((0.098..=0.115).contains(&loss.likely().get()));
}

#[test]
fn five_hundred_grams_are_five_hundred_grams_baked() {
    let loaf = starter("overnight-tin-loaf");
    for (loss, dough_g) in [(0.10, 555.56), (0.13, 574.71), (0.0, 500.0)] {
        let size = Size::Baked {
            count: 2,
            mass: grams(500.0),
            loss: weighed(loss),
        };
        let two = loaf.scaled(size).expect("two loaves");
        assert_eq!(two.pieces.count, 2);
        assert_close("dough of one", two.pieces.mass.get(), dough_g, 0.005);
        assert_close("of both", two.dough_mass().get(), 2.0 * dough_g, 0.01);
    }
}

#[test]
fn a_filling_counts_since_it_bakes_along() {
    // The buns hold 85 g of dough and 360 / 8 = 45 g of cream: 130 g, as their oven step says.
    let buns = starter("plum-almond-buns");
    let size = Size::Baked {
        count: 12,
        mass: grams(117.0),
        loss: weighed(0.10),
    };
    // 117 / 0.9 = 130 g.
    let scaled = buns.scaled(size).expect("a tray of buns");
    assert_close("dough", scaled.pieces.mass.get(), 85.0, 1e-9);
    assert_close("into the oven", scaled.oven_piece().get(), 130.0, 1e-9);
}

#[test]
fn a_loss_that_leaves_no_bread_is_refused() {
    let loaf = starter("overnight-tin-loaf");
    let size = |loss| Size::Baked {
        count: 1,
        mass: grams(500.0),
        loss: weighed(loss),
    };
    assert!(loaf.scaled(size(MOST_LOSS.get())).is_ok());
    for absurd in [0.41, 1.0] {
        let cause = loaf.scaled(size(absurd)).expect_err("nothing is left");
        let said = cause.to_string();
        assert!(said.contains("40 %"), "{said}");
        let value = format!("{} %", (absurd * 100.0).round());
        assert!(said.contains(&value), "{said}");
    }
    let nothing = Size::Baked {
        count: 0,
        mass: grams(500.0),
        loss: baking_loss(),
    };
    assert_eq!(loaf.scaled(nothing), Err(ScaleError::Nothing));
}

proptest! {
    #[test]
    fn what_is_wished_baked_comes_out_of_the_oven(
        which in 0_usize..3,
        count in 1_u16..20,
        baked_g in 120.0..500.0_f64,
        loss in 0.0..0.4_f64,
    ) {
        let formula = &starters::all()[which];
        let loss = weighed(loss);
        let scaled = formula.scaled(Size::Baked { count, mass: grams(baked_g), loss });
        let scaled = match scaled {
            Ok(scaled) => scaled,
            Err(ScaleError::TooMuch { dough, .. }) => {
                prop_assert!(dough.get() > 12_000.0);
                return Ok(());
            }
            Err(ScaleError::TooLittle { dough, .. }) => {
                prop_assert!(dough.get() < 100.0);
                return Ok(());
            }
            Err(other) => return Err(TestCaseError::fail(other.to_string())),
        };
        prop_assert_eq!(scaled.pieces.count, count);
        let baked = scaled.baked_piece(&loss);
        prop_assert!((baked.likely().get() / baked_g - 1.0).abs() < 1e-9);
        // The published window lies the right way round about its own middle.
        let window = scaled.baked_piece(&baking_loss());
        prop_assert!(window.low() < window.likely() && window.likely() < window.high());
        // What the formula's own pieces come to wants the formula itself.
        let own = formula.baked_piece(&loss).likely();
        let count = formula.pieces.count;
        let same = formula.scaled(Size::Baked { count, mass: own, loss });
        let same = same.map_err(|cause| TestCaseError::fail(cause.to_string()))?;
        for (got, own) in std::iter::zip(super::masses_g(&same), super::masses_g(formula)) {
            prop_assert!((got / own - 1.0).abs() < 1e-9);
        }
    }
}
