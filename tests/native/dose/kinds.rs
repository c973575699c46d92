//! Other kinds of yeast: how much of them, and what the liquid may be.

use checks::assert_close;
use domain::food::FoodKind;
use domain::formula::{Formula, Kept};
use domain::kitchen::{Kitchen, Scales};
use domain::thermal::constants as known;
use domain::units::grams;
use domain::yeast::kinds::YeastKind;
use records::starters;

use super::{buns, rises, yeasts_g};

/// A bread-baking textbook's table "Yeast conversions, fresh to dry": 30 g of fresh yeast do the work of 12 g of active
/// dry or 9.9 g of instant.
#[test]
fn another_kind_of_yeast_does_the_same_work() {
    let mut draft = buns().into_draft();
    for part in &mut draft.components[0].ingredients {
        if part.food.kind == FoodKind::Yeast {
            part.mass = grams(9.9);
        }
    }
    let instant = Formula::new(draft).expect("only its yeast was changed");
    for (kind, key, name, mass, kept) in [
        (
            YeastKind::Instant,
            "yeast-instant",
            "instant yeast",
            9.9,
            Kept::Kitchen,
        ),
        (
            YeastKind::ActiveDry,
            "yeast-active-dry",
            "active dry yeast",
            12.0,
            Kept::Kitchen,
        ),
        (
            YeastKind::Fresh,
            "yeast-fresh",
            "fresh yeast",
            30.0,
            Kept::Fridge,
        ),
    ] {
        let changed = instant.with_yeast_kind(kind);
        assert_eq!(changed.yeast_kind(), Some(kind));
        let mut parts = changed.dough_ingredients();
        let yeast = parts.find(|part| part.food.kind == FoodKind::Yeast);
        let yeast = yeast.expect("it has yeast");
        assert_eq!(
            (yeast.food.key, yeast.name.as_str(), yeast.kept),
            (key, name, kept)
        );
        assert_close(key, yeast.mass.get(), mass, 1e-9);
        assert_close(key, changed.fresh_yeast().get(), 30.0, 1e-9);
        // The dough is as much heavier, and its pieces with it.
        let pieces = changed.pieces.mass.get() * f64::from(changed.pieces.count);
        let heavier = changed.dough_mass().get() - instant.dough_mass().get();
        assert_close(key, heavier, mass - 9.9, 1e-9);
        assert_close(
            key,
            pieces / changed.dough_mass().get(),
            680.0 / instant.dough_mass().get(),
            1e-9,
        );
    }
}

#[test]
fn a_kind_of_yeast_changes_no_rise_and_can_be_changed_back() {
    for formula in starters::all() {
        assert_eq!(formula.yeast_kind(), Some(YeastKind::Instant));
        let own = formula.with_yeast_kind(YeastKind::Instant);
        assert_eq!(own, formula, "its own kind");
        for kind in [YeastKind::ActiveDry, YeastKind::Fresh] {
            let other = formula.with_yeast_kind(kind);
            assert_eq!(other.steps, formula.steps);
            let back = other.with_yeast_kind(YeastKind::Instant);
            for (one, again) in formula.components.iter().zip(&back.components) {
                for (one, again) in one.ingredients.iter().zip(&again.ingredients) {
                    assert_eq!(
                        (one.food.key, &one.name, one.kept),
                        (again.food.key, &again.name, again.kept)
                    );
                    assert_close(&one.name, again.mass.get(), one.mass.get(), 1e-9);
                }
            }
            assert_close(
                "pieces",
                back.pieces.mass.get(),
                formula.pieces.mass.get(),
                1e-9,
            );
            // Less of it has the same times as less of the formula's own.
            let (less, own) = (other.with_yeast(0.6, None), formula.with_yeast(0.6, None));
            for ((one, _), (other, _)) in rises(&less).into_iter().zip(rises(&own)) {
                assert_close("longer", one.likely().get(), other.likely().get(), 1e-9);
            }
        }
    }
}

/// 5 g of instant in the buns are 15.15 of fresh, which whole grams show as 15; the sum stays as near as it can.
#[test]
fn scales_show_the_other_kind_as_they_show_any() {
    let fresh = buns().with_yeast_kind(YeastKind::Fresh);
    let dough = fresh.dough().expect("it has a dough");
    let shown = dough.amounts(Scales::KITCHEN);
    let place = dough
        .ingredients
        .iter()
        .position(|part| part.food.key == "yeast-fresh");
    assert_eq!(shown[place.expect("it has yeast")], grams(15.0));
    let less = fresh.with_yeast(0.7, Some(&Scales::KITCHEN));
    assert_eq!(yeasts_g(&less), [11.0], "0.7 of 15.15 is 10.6");
}

#[test]
fn liquid_may_be_as_warm_as_the_kind_bears() {
    for (kind, cap) in [
        (YeastKind::Instant, known::INSTANT_YEAST_LIQUID_CAP),
        (YeastKind::ActiveDry, known::YEAST_LIQUID_CAP),
        (YeastKind::Fresh, known::YEAST_LIQUID_CAP),
    ] {
        let formula = buns().with_yeast_kind(kind);
        let dough = formula.dough().expect("it has a dough").id;
        let question = formula.liquid_question(dough, &Kitchen::UNMEASURED);
        assert_eq!(question.expect("its milk is tempered").cap, cap);
    }
}
