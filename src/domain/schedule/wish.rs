//! A bake that hasn't begun: what it would come to, and how much yeast brings a rise of it to a
//! wished moment.
//!
//! More or less yeast changes every rise of the dough, and with the earlier ones the moment at
//! which a later one begins. So the yeast is looked for through the whole bake, as it would be
//! [outlined](super::outline). Where a rise begins is no matter of the yeast the answer is that of
//! [`Proof::dose_for`]. What the food in the dough lets a baker do of it, [`filled`](super::filled) says.

use super::outline::{Outline, Planned, outline, warming_since};
use crate::bake::{Bake, BakeId, Entry, Event, Start};
use crate::formula::{Formula, StepId};
use crate::kitchen::Kitchen;
use crate::thermal::crossing::crossing;
use crate::units::Moment;
use crate::yeast::dose;
use crate::yeast::proof::{Proof, Unmet};

/// The whole bake, if it started then in this kitchen.
#[must_use]
pub fn if_started(formula: &Formula, kitchen: &Kitchen, at: Moment) -> Option<Outline> {
    let bake = begun(formula, kitchen, at)?;
    Some(outline(bake.state(), at))
}

/// The steps of [`if_started`].
pub(super) fn steps_if_started(formula: &Formula, kitchen: &Kitchen, at: Moment) -> Vec<Planned> {
    if_started(formula, kitchen, at).map_or_else(Vec::new, |outline| outline.steps)
}

/// The rise of a step, if the bake started then in this kitchen.
///
/// `None` where no yeast works in the step.
#[must_use]
pub fn rise_if_started(
    formula: &Formula,
    kitchen: &Kitchen,
    at: Moment,
    step: StepId,
) -> Option<Proof> {
    let bake = begun(formula, kitchen, at)?;
    let steps = outline(bake.state(), at).steps;
    let planned = |step: StepId| steps.iter().find(|one| one.step == step).copied();
    let start = planned(step)?.start;
    let step = formula.step(step)?;
    let warming_since = warming_since(bake.state(), step, &planned);
    bake.state().rise_if_started(step, start, warming_since)
}

/// How many times its yeast makes a rise of a formula likely ready at a moment, if the bake
/// started at `at` in this kitchen: to a ten-thousandth of the dose.
///
/// Hands that are busy with something else as an earlier rise ends can make a later one jump by as
/// long as that takes. A moment within such a jump is met by the dose at which it happens, and
/// what comes of it is for the caller to reckon forwards, as it is after rounding to scales.
///
/// # Errors
/// [`Unmet`] where that is more than [`dose::MOST_DOSE`] or less than [`dose::LEAST_DOSE`].
pub fn yeast_for(
    formula: &Formula,
    kitchen: &Kitchen,
    at: Moment,
    step: StepId,
    ready: Moment,
) -> Result<f64, Unmet> {
    // By the logarithm, in which a rise's length is nearly a straight line.
    let early_by = |log: f64| {
        let rise = rise_if_started(&formula.with_yeast(log.exp(), None), kitchen, at, step);
        // What has no yeast is ready whenever it begins.
        rise.map_or(0.0, |rise| {
            (ready - rise.moment_when(rise.range.likely())).get()
        })
    };
    let (least, most) = (dose::LEAST_DOSE.ln(), dose::MOST_DOSE.ln());
    if early_by(most) < 0.0 {
        Err(Unmet::TooEarly)
    } else if early_by(least) > 0.0 {
        Err(Unmet::TooLate)
    } else {
        Ok(crossing(least, most, 1e-4, &early_by).exp())
    }
}

fn begun(formula: &Formula, kitchen: &Kitchen, at: Moment) -> Option<Bake> {
    let start = Box::new(Start {
        formula: formula.clone(),
        kitchen: *kitchen,
    });
    let entry = Entry {
        at,
        event: Event::Started(start),
    };
    Bake::from_log(BakeId(String::new()), vec![entry])
}
