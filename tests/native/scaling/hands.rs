//! How long the hands take when there are more pieces.
//!
//! Proportional to their number: an assumption, nobody has timed it.

use checks::{assert_close, starter};
use domain::formula::{Formula, Length, Size, StepKind};
use domain::units::grams;
use records::Record as _;
use records::formula::FormulaRecord;
use records::starters;

/// What kind of work each step is, and how long it takes the hands, in min.
fn hands_min(formula: &Formula) -> Vec<(StepKind, Option<f64>)> {
    let steps = formula.steps.iter();
    steps
        .map(|step| match step.length {
            Length::Hands(range) => (step.kind, Some(range.likely().get())),
            _ => (step.kind, None),
        })
        .collect()
}

#[test]
fn work_on_every_piece_takes_as_much_longer_as_there_are_more_pieces() {
    let buns = starter("plum-almond-buns");
    let wish = Size::Pieces {
        count: 32,
        mass: buns.pieces.mass,
    };
    let scaled = buns.scaled(wish).expect("a kitchen's amount");
    let by_piece = [
        StepKind::Divide,
        StepKind::PreShape,
        StepKind::Shape,
        StepKind::Fill,
        StepKind::Wash,
        StepKind::Finish,
    ];
    let mut seen = 0;
    for (before, after) in std::iter::zip(hands_min(&buns), hands_min(&scaled)) {
        let (kind, Some(before_min)) = before else {
            assert_eq!(before, after);
            continue;
        };
        let after_min = after.1.expect("it is still work of the hands");
        if by_piece.contains(&kind) {
            seen += 1;
            assert_close(&format!("{kind:?}"), after_min, 4.0 * before_min, 1e-9);
        } else {
            assert_close(&format!("{kind:?}"), after_min, before_min, 0.0);
        }
    }
    assert_eq!(seen, by_piece.len());

    // The window widens along with it.
    let filling = |formula: &Formula| {
        let mut steps = formula.steps.iter();
        let fill = steps.find(|step| step.kind == StepKind::Fill);
        match fill.expect("buns are filled").length {
            Length::Hands(range) => range,
            _ => panic!("filling is work of the hands"),
        }
    };
    assert_eq!(filling(&scaled), filling(&buns).map(|time| time * 4.0));
}

#[test]
fn more_dough_in_as_many_pieces_takes_the_hands_no_longer() {
    for formula in starters::all() {
        let twice = Size::Dough(formula.dough_mass() * 2.0);
        let scaled = formula.scaled(twice).expect("a kitchen's amount");
        assert_eq!(hands_min(&scaled), hands_min(&formula));
    }
}

#[test]
fn the_longer_times_are_read_from_the_log_as_they_were_written() {
    let buns = starter("plum-almond-buns");
    for count in [1, 7, 12, 10_000] {
        let mass = grams(10_000.0 / f64::from(count));
        let scaled = buns.scaled(Size::Pieces { count, mass });
        let scaled = scaled.expect("a kitchen's amount");
        let text = FormulaRecord::from(&scaled).write();
        let back = FormulaRecord::read(&text).and_then(Formula::try_from);
        assert_eq!(back.as_ref(), Ok(&scaled), "{count} pieces");
    }
}
