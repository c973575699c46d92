//! Every way in whole sentences, of one bread and of one beside another, with what puts it into practice.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, Wishes};
use domain::kitchen::Kitchen;
use domain::units::{celsius, grams};

use super::*;

/// Buns, and a braid beside them.
fn bakes() -> [Bake; 2] {
    let bake = |id| begin(starter(id), Kitchen::UNMEASURED, at(9, 0));
    ["plum-almond-buns", "orange-braid"].map(bake)
}

fn rise() -> StepId {
    let [buns, _] = bakes();
    let mut steps = buns.state().formula.steps.iter();
    let rise = steps.find(|step| step.title == "First rise");
    rise.expect("buns rise").id
}

/// What is told of a way where the buns, which it is of, were to begin at noon.
fn told_of(way: &Way, bakes: &[&State], yeast: &str) -> String {
    let begins = [Some(at(12, 0)), None];
    let begins = &begins[..bakes.len()];
    by_clock(&|times| told(way, bakes, begins, yeast, Degrees::Celsius, times))
}

/// The same of the buns alone, and of them beside the braid.
fn both(way: &Way, yeast: &str) -> [String; 2] {
    let [buns, braid] = bakes();
    [
        told_of(way, &[buns.state()], yeast),
        told_of(way, &[buns.state(), braid.state()], yeast),
    ]
}

fn place(is_warmer: bool, from: Option<Moment>) -> Way {
    by(Lever::Place {
        bake: 0,
        step: rise(),
        air: celsius(if is_warmer { 28.0 } else { 16.0 }),
        is_warmer,
        from,
    })
}

#[test]
fn a_warmer_or_cooler_place_is_told_with_its_temperature_and_from_when_on() {
    let now = place(false, None);
    assert_eq!(
        both(&now, ""),
        [
            "First rise somewhere cooler, 16 °C: table about 16:05 (15:50 to 16:25).",
            "First rise (buns) somewhere cooler, 16 °C: table about 16:05 (15:50 to 16:25).",
        ]
    );
    assert_eq!(take(&now), "I've put it there");
    assert_eq!(
        both(&place(true, Some(at(10, 20))), "")[0],
        "First rise somewhere warmer, 28 °C, from 10:20: table about 16:05 (15:50 to 16:25)."
    );
    let late = Way {
        begin: Some(at(11, 15)),
        ..place(false, Some(at(10, 20)))
    };
    assert_eq!(
        both(&late, "")[0],
        "First rise somewhere cooler, 16 °C, from 10:20: begins at 11:15 instead of 12:00, table about 16:05 (15:50 to \
         16:25)."
    );
}

#[test]
fn a_time_in_the_fridge_is_told_with_its_ends_and_when_the_bake_begins_for_it() {
    let fridge = |from, begin| {
        by(Lever::Fridge {
            bake: 0,
            step: rise(),
            from,
            out: at(30, 30),
            begin,
        })
    };
    let now = fridge(None, None);
    assert_eq!(
        both(&now, ""),
        [
            "First rise into the fridge now, out at 06:30: table about 16:05 (15:50 to 16:25).",
            "First rise (buns) into the fridge now, out at 06:30: table about 16:05 (15:50 to 16:25).",
        ]
    );
    assert_eq!(take(&now), "I've put it in the fridge");
    let later = fridge(Some(at(22, 10)), Some(at(21, 5)));
    assert_eq!(
        both(&later, "")[0],
        "Begin at 21:05, first rise into the fridge at 22:10, out at 06:30: table about 16:05 (15:50 to 16:25)."
    );
    assert_eq!(take(&later), "Plan it in the fridge");
}

#[test]
fn other_yeast_is_told_beside_the_formulas_own() {
    let yeast = yeast(grams(5.0), grams(3.0), &Scales::KITCHEN);
    let less = Way {
        begin: Some(at(11, 15)),
        is_long_out: true,
        ..by(Lever::Yeast {
            bake: 0,
            times: 0.5,
        })
    };
    assert_eq!(
        both(&less, &yeast),
        [
            "3 g of yeast instead of 5 g: begins at 11:15 instead of 12:00, table about 16:05 (15:50 to 16:25). A dough \
             with egg or milk shouldn't stand out of the fridge this long; local food-safety rules come first.",
            "3 g of yeast instead of 5 g (buns): begins at 11:15 instead of 12:00, table about 16:05 (15:50 to 16:25). A \
             dough with egg or milk shouldn't stand out of the fridge this long; local food-safety rules come first.",
        ]
    );
    assert_eq!(take(&less), "Use this much yeast");
}

#[test]
fn a_filling_made_the_day_before_is_told_with_when_and_how_long_it_keeps() {
    let [buns, _] = bakes();
    let mut parts = buns.state().formula.components.iter();
    let cream = parts.find(|part| part.name == "almond cream");
    let ahead = by(Lever::DayBefore {
        bake: 0,
        component: cream.expect("buns are filled").id,
        from: at(17, 0),
        to: at(18, 20),
        days: 3,
    });
    assert_eq!(
        both(&ahead, ""),
        [
            "Almond cream made ahead, from 17:00 to 18:20, and kept in the fridge, 3 days at most: table about 16:05 \
             (15:50 to 16:25).",
            "Almond cream (buns) made ahead, from 17:00 to 18:20, and kept in the fridge, 3 days at most: table about \
             16:05 (15:50 to 16:25).",
        ]
    );
    assert_eq!(take(&ahead), "Fix these times");
}

/// A bread without a table is ready with all of it.
#[test]
fn breads_for_several_tables_are_each_told_with_theirs() {
    let [mut buns, braid] = bakes();
    let wishes = Wishes {
        table: Some(at(16, 0)),
        ..Wishes::default()
    };
    say(&mut buns, Intent::Wish(Box::new(wishes)), at(9, 1));
    let margin = |table, ready| Margin {
        table,
        ready: Estimate::new(
            ready + minutes(-15.0),
            ready,
            ready + minutes(20.0),
            Basis::Model,
        ),
        buffer: minutes(0.0),
    };
    let mut cooler = place(false, None);
    cooler.margins = vec![margin(at(16, 0), at(16, 5))];
    cooler.table = Estimate::new(at(17, 40), at(18, 0), at(18, 20), Basis::Model);
    let states = [buns.state(), braid.state()];
    assert_eq!(
        told_of(&cooler, &states, ""),
        "First rise (buns) somewhere cooler, 16 °C: for the table at 16:00 about 16:05 (15:50 to 16:25), all of it about \
         18:00 (17:40 to 18:20). Still 5 min later than your table."
    );
}
