//! Dough for tins.
//!
//! Volumes are geometry: the closed forms against a sum of thin slices. How much room dough takes is
//! common practice, no source; it is held between published specific volumes.

use std::f64::consts::PI;

use checks::{assert_close, starter};
use domain::formula::{Formula, Lid, ScaleError, Size, Tin, Tins};
use domain::units::{Millilitres, Millimetres, grams, millilitres, millimetres};
use proptest::prelude::*;
use records::starters;

/// The volume in mL of something whose cross-section in mm² at a height, from 0 to 1, is known.
fn sliced(high_mm: f64, section: impl Fn(f64) -> f64) -> f64 {
    const SLICES: u32 = 4000;
    let middle = |slice: u32| (f64::from(slice) + 0.5) / f64::from(SLICES);
    let sum: f64 = (0..SLICES).map(|slice| section(middle(slice))).sum();
    sum / f64::from(SLICES) * high_mm / 1000.0
}

fn holding(volume_ml: f64, lid: Lid) -> Tin {
    Tin::holding(millilitres(volume_ml), lid).expect("a tin")
}

fn tins(count: u16, volume_ml: f64, lid: Lid) -> Tins {
    let tin = holding(volume_ml, lid);
    Tins { count, tin }
}

fn loaf() -> Formula {
    starter("overnight-tin-loaf")
}

#[test]
fn a_litre_is_a_litre() {
    let cube = [millimetres(100.0); 2];
    let tin = Tin::square(cube, cube, millimetres(100.0), Lid::On).expect("a cube of a tin");
    assert_close("cube", tin.volume().get(), 1000.0, 1e-9);
    assert_eq!(tin.lid(), Lid::On);
    // π 10² · 10 / 4 cm³.
    let round = Tin::round(
        millimetres(100.0),
        millimetres(100.0),
        millimetres(100.0),
        Lid::Off,
    );
    let volume_ml = round.expect("a can").volume().get();
    assert_close("can", volume_ml, 785.398_163_397, 1e-6);
}

#[test]
fn room_lies_between_dough_and_bread() {
    // Mixed dough 0.85 mL/g (Sourdough Biotechnology, table 3.4); a small bread measured 515 mL when
    // proved and 875 mL when baked, of 173.5 g of dough: 2.97 and 5.04 mL/g.
    for lid in [Lid::Off, Lid::On] {
        let room = lid.room_for_dough();
        assert!(room.low().get() > 0.85 && room.high().get() < 5.04);
        let dough = holding(1800.0, lid).dough();
        let volume_ml = dough.likely().get() * room.likely().get();
        assert_close("filled", volume_ml, 1800.0, 1e-9);
        assert!(dough.low() < dough.likely() && dough.likely() < dough.high());
    }
    // An open tin is full of dough when that is proved, a closed one of bread when that is baked.
    let (open, closed) = (Lid::Off.room_for_dough(), Lid::On.room_for_dough());
    assert!((open.low().get()..=open.high().get()).contains(&2.97));
    assert!(closed.likely() > open.likely());
}

#[test]
fn its_own_tin_is_the_formula_itself() {
    for formula in starters::all() {
        for own in [1_u16, formula.pieces.count] {
            let tins = tins(own, 1700.0, Lid::Off);
            let size = Size::Tins {
                tins,
                pieces_each: formula.pieces.count / own,
                own: Some(tins),
            };
            let same = formula.scaled(size).expect("it is what it is");
            assert_eq!(same.pieces, formula.pieces);
            assert_eq!(same.components, formula.components);
        }
    }
}

#[test]
fn a_tin_half_as_large_again_takes_half_as_much_again() {
    let own = tins(1, 1600.0, Lid::Off);
    let size = |tins, pieces_each| Size::Tins {
        tins,
        pieces_each,
        own: Some(own),
    };
    let larger = loaf().scaled(size(tins(1, 2400.0, Lid::Off), 1));
    assert_close(
        "dough",
        larger.expect("a tin").dough_mass().get(),
        1350.0,
        1e-9,
    );
    let three = loaf().scaled(size(tins(3, 800.0, Lid::Off), 1));
    let three = three.expect("three tins");
    assert_eq!(three.pieces.count, 3);
    assert_close("each", three.pieces.mass.get(), 450.0, 1e-9);
    // Fifteen buns in one tin: each 900 / 15 g.
    let touching = loaf().scaled(size(own, 15)).expect("one tin of buns");
    assert_close("bun", touching.pieces.mass.get(), 60.0, 1e-9);
    // Under a lid there is less of it.
    let closed = loaf().scaled(size(tins(1, 1600.0, Lid::On), 1));
    assert!(closed.expect("a tin").dough_mass() < loaf().dough_mass());
}

#[test]
fn without_a_tin_of_its_own_it_goes_by_the_room() {
    let tins = tins(2, 1100.0, Lid::Off);
    let size = Size::Tins {
        tins,
        pieces_each: 1,
        own: None,
    };
    let two = loaf().scaled(size).expect("two tins");
    // 1100 mL at 2.2 mL/g.
    assert_close("each", two.pieces.mass.get(), 500.0, 1e-9);
    // The starter's loaf of 900 g, and tins that are sold for two pounds and hold 1.6 to 2.2 L
    // (common practice, no source).
    for volume_ml in [1600.0, 2200.0] {
        let dough = holding(volume_ml, Lid::Off).dough();
        assert!(dough.low() < grams(900.0) && dough.high() > grams(880.0));
    }
}

#[test]
fn what_is_no_tin_says_what_one_is() {
    let cause = Tin::holding(millilitres(5.0), Lid::Off).expect_err("a thimble");
    assert_eq!(
        cause.to_string(),
        "a tin's volume is 5 mL, outside 30 to 20000 mL"
    );
    let (fits, absurd) = (millimetres(100.0), Millimetres::MAX);
    let cause = Tin::square([absurd, fits], [fits, fits], fits, Lid::Off);
    let said = cause.expect_err("two metres").to_string();
    assert_eq!(said, "a tin's side is 2000 mm, outside 20 to 600 mm");
    let cause = Tin::round(fits, fits, Millimetres::MIN, Lid::Off);
    let said = cause.expect_err("a plate").to_string();
    assert_eq!(said, "a tin's height is 0 mm, outside 10 to 300 mm");
    let pot = millimetres(600.0);
    let said = Tin::round(pot, pot, millimetres(300.0), Lid::Off).expect_err("a pot");
    assert!(said.to_string().contains("20000 mL"), "{said}");
}

#[test]
fn absurd_numbers_of_tins_are_refused() {
    let tin = holding(1000.0, Lid::Off);
    let size = |count, pieces_each, own| Size::Tins {
        tins: Tins { count, tin },
        pieces_each,
        own,
    };
    let none = Some(Tins { count: 0, tin });
    for nothing in [
        size(0, 1, None),
        size(1, 0, None),
        size(1, 1, none),
        size(0, 0, none),
    ] {
        assert_eq!(loaf().scaled(nothing), Err(ScaleError::Nothing));
    }
    let said = loaf().scaled(size(1000, 1000, None));
    let said = said.expect_err("a million").to_string();
    assert!(
        said.contains("1000000 pieces") && said.contains("65535"),
        "{said}"
    );
    let said = loaf().scaled(size(60_000, 1, None));
    let said = said.expect_err("a bakery").to_string();
    assert!(said.contains("12000 g"), "{said}");
    let said = loaf().scaled(size(1, 60_000, None));
    let said = said.expect_err("crumbs").to_string();
    assert!(said.contains("0.008 g") && said.contains("1 g"), "{said}");
}

proptest! {
    #[test]
    fn sloping_sides_are_summed_up(
        rim in (120.0..400.0_f64, 80.0..300.0_f64),
        slope in (0.6..1.0_f64, 0.6..1.0_f64),
        high_mm in 20.0..150.0_f64,
    ) {
        let at = |slope: f64, height: f64| slope + (1.0 - slope) * height;
        let bottom = (rim.0 * slope.0, rim.1 * slope.1);
        let mm = Millimetres::clamped;
        let tin = Tin::square([mm(rim.0), mm(rim.1)], [mm(bottom.0), mm(bottom.1)], mm(high_mm), Lid::Off);
        let volume_ml = tin.map_or(f64::NAN, |tin| tin.volume().get());
        let expected = sliced(high_mm, |height| rim.0 * at(slope.0, height) * rim.1 * at(slope.1, height));
        prop_assert!((volume_ml / expected - 1.0).abs() < 1e-6, "{volume_ml} mL for {expected} mL");
        let tin = Tin::round(mm(rim.1), mm(bottom.1), mm(high_mm), Lid::Off);
        let volume_ml = tin.map_or(f64::NAN, |tin| tin.volume().get());
        let expected = sliced(high_mm, |height| (rim.1 * at(slope.1, height)).powi(2) * PI / 4.0);
        prop_assert!((volume_ml / expected - 1.0).abs() < 1e-6, "{volume_ml} mL for {expected} mL");
    }

    #[test]
    fn dough_goes_by_the_volume_and_never_by_nonsense(
        which in 0_usize..3,
        count in 0_u16..20,
        pieces_each in 0_u16..20,
        volumes_ml in (30.0..20_000.0_f64, 30.0..20_000.0_f64),
    ) {
        let formula = &starters::all()[which];
        let own = tins(1, volumes_ml.0, Lid::On);
        let wanted = tins(count, volumes_ml.1, Lid::On);
        for own in [None, Some(own)] {
            let Ok(made) = formula.scaled(Size::Tins { tins: wanted, pieces_each, own }) else {
                continue;
            };
            let dough_g = made.dough_mass().get();
            prop_assert!((100.0..=12_000.0 + 1e-6).contains(&dough_g));
            prop_assert_eq!(made.pieces.count, count * pieces_each);
            let all = Millilitres::clamped(volumes_ml.1 * f64::from(count));
            let expected = match own {
                Some(_) => formula.dough_mass().get() * (all.get() / volumes_ml.0),
                None => all.get() / Lid::On.room_for_dough().likely().get(),
            };
            prop_assert!((dough_g / expected - 1.0).abs() < 1e-9);
        }
    }
}
