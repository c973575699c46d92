//! How long each kind of step takes where nobody says, and how far that may be off.

use super::{Preparing, Setting};
use crate::estimate::{Basis, Estimate};
use crate::formula::{ComponentKind, Held, Length, StepKind};
use crate::thermal::oven::{BakeForm, bake_window};
use crate::thermal::vessel::Cooling;
use crate::units::{Celsius, Grams, Minutes, celsius, grams, millimetres, minutes};

/// A window of minutes as formulas have it.
const fn window(low: f64, likely: f64, high: f64) -> (Minutes, Minutes, Minutes) {
    (minutes(low), minutes(likely), minutes(high))
}

fn estimate((low, likely, high): (Minutes, Minutes, Minutes)) -> Estimate<Minutes> {
    Estimate::new(low, likely, high, Basis::Formula)
}

/// What a time means that a text gives: its ends where it gives two, else as far to either side as the starters'
/// steps of the kind are (common practice, no source).
#[must_use]
pub fn spread(kind: StepKind, least: Minutes, most: Minutes) -> Estimate<Minutes> {
    let (least, most) = (least.min(most), least.max(most));
    let (least, most) = (least.max(minutes(0.0)), most.max(minutes(0.0)));
    if least < most {
        return estimate((least, (least + most) * 0.5, most));
    }
    let (sooner, later) = match kind {
        StepKind::Bake => (0.9, 1.15),
        StepKind::Bulk | StepKind::FinalProof => (0.85, 1.2),
        StepKind::Retard => (0.85, 1.4),
        StepKind::BenchRest | StepKind::Chill => (0.8, 1.4),
        _ => (0.75, 1.35),
    };
    estimate((most * sooner, most, most * later))
}

/// How hot the middle is when it is done.
///
/// Soft rich breads 185 to 195 °F (85 to 91 °C, bakers' lists, which differ among themselves); leaner bread 92 °C
/// (Kleinwächter, *The Sourdough Framework*) to 96 °C (205 °F, J. Peterson, *Cooking*, 2007).
#[must_use]
pub const fn core(is_rich: bool) -> Celsius {
    celsius(if is_rich { 90.0 } else { 94.0 })
}

/// A conventional oven's temperature where no text tells one. Common practice, no source: rich doughs brown early,
/// and large ones longest.
#[must_use]
pub fn oven(at: &Setting) -> Celsius {
    let is_large = at.piece.is_some_and(|piece| piece > grams(400.0));
    celsius(match (at.is_rich, is_large) {
        (true, true) => 180.0,
        (true, false) => 190.0,
        (false, _) if at.form == BakeForm::Tin => 200.0,
        (false, _) => 220.0,
    })
}

/// How long a piece bakes where no text says: what the starters take in that form, for another mass by
/// [`bake_window`].
#[must_use]
pub fn bake_minutes(form: BakeForm, piece: Option<Grams>) -> Estimate<Minutes> {
    let (known, takes) = match form {
        BakeForm::Round | BakeForm::Touching => (grams(130.0), window(16.0, 18.0, 22.0)),
        BakeForm::Long | BakeForm::Ring => (grams(750.0), window(28.0, 32.0, 38.0)),
        BakeForm::Tin => (grams(900.0), window(35.0, 40.0, 46.0)),
    };
    bake_window(&estimate(takes), known, piece.unwrap_or(known))
}

pub(super) fn of(kind: StepKind, at: &Setting) -> Length {
    let is_preferment = at.kind == ComponentKind::Preferment;
    let is_tin = at.form == BakeForm::Tin;
    let ferment = |takes, held| Length::Ferment {
        reference_minutes: estimate(takes),
        folds: Vec::new(),
        held,
        from_fridge: false,
    };
    match kind {
        StepKind::Chill if !at.holds.spoils() => Length::Chill {
            from: celsius(80.0),
            // No warmer than the dough that it goes into bears.
            to: celsius(30.0),
            depth: millimetres(20.0),
            cooling: Cooling::Kitchen,
        },
        StepKind::Chill => Length::Chill {
            // As hot as a cream that was boiled is spread, and as cold as a fridge keeps food (FDA: 5 °C).
            from: celsius(80.0),
            to: celsius(5.0),
            depth: millimetres(15.0),
            cooling: Cooling::IceBath,
        },
        StepKind::Bulk if is_preferment => ferment(window(130.0, 155.0, 190.0), Held::Bowl),
        StepKind::Bulk => ferment(window(75.0, 90.0, 110.0), Held::Bowl),
        StepKind::FinalProof if is_tin => ferment(window(48.0, 60.0, 75.0), Held::Tin),
        StepKind::FinalProof => ferment(window(48.0, 60.0, 75.0), Held::Tray),
        StepKind::Retard => Length::Wait(estimate(window(480.0, 570.0, 840.0))),
        StepKind::BenchRest => Length::Wait(estimate(window(12.0, 15.0, 20.0))),
        StepKind::OvenHeats => Length::OvenHeats { oven: oven(at) },
        StepKind::Bake => Length::Bake {
            oven: oven(at),
            range: bake_minutes(at.form, at.piece),
            core: core(at.is_rich),
            piece: grams(0.0),
            form: None,
            load: None,
        },
        StepKind::Cool => Length::Cool { to: celsius(32.0) },
        worked => Length::Hands(estimate(hands(worked, is_preferment))),
    }
}

fn hands(kind: StepKind, is_preferment: bool) -> (Minutes, Minutes, Minutes) {
    match kind {
        StepKind::Gather => window(10.0, 13.0, 18.0),
        StepKind::Mix if is_preferment => window(2.0, 3.0, 5.0),
        StepKind::Mix => window(6.0, 8.0, 12.0),
        StepKind::Knead => window(8.0, 12.0, 16.0),
        StepKind::Cook => window(5.0, 8.0, 14.0),
        StepKind::Divide | StepKind::PreShape => window(5.0, 7.0, 10.0),
        StepKind::Shape => window(6.0, 8.0, 12.0),
        StepKind::Fill => window(8.0, 12.0, 18.0),
        StepKind::Wash => window(2.0, 4.0, 6.0),
        StepKind::Finish => window(4.0, 8.0, 12.0),
        StepKind::Prepare => window(2.0, 4.0, 8.0),
        StepKind::Serve => window(1.0, 2.0, 5.0),
        _ => window(1.0, 1.0, 2.0),
    }
}

pub(super) fn of_preparing(what: Preparing) -> Length {
    Length::Hands(estimate(match what {
        Preparing::Cover | Preparing::IntoOven => window(1.0, 1.0, 2.0),
        Preparing::IntoFridge | Preparing::OutOfOven | Preparing::FillingAway => {
            window(1.0, 2.0, 4.0)
        }
    }))
}
