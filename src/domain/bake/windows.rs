//! What takes long to reckon and is asked for again and again, reckoned once for each state.
//!
//! A window follows from what has happened and not from the present, and takes by far the longest of a forecast to
//! reckon. One look at a bake asks for the same few windows a dozen times, and a plan for a table, which is made in
//! three turns that all begin alike, for the same lengths.

use std::sync::{Arc, Mutex, OnceLock};

use super::state::State;
use crate::estimate::Estimate;
use crate::formula::{ComponentId, Held, Length, Step, StepId};
use crate::sorted::Map;
use crate::thermal::vessel::Vessel;
use crate::units::{Minutes, Moment};

/// How many lengths are kept in mind at most; a plan asks for some dozens.
const MOST_LENGTHS: usize = 256;

/// A step, its start, and since when its dough follows the kitchen.
type Asked = (StepId, Moment, Option<Moment>);

/// The windows of a state's running steps, once somebody has asked, and the lengths of others as they were asked for.
/// Copies of the state share them.
#[derive(Debug, Clone, Default)]
pub(super) struct Windows {
    running: Arc<OnceLock<Map<StepId, Estimate<Moment>>>>,
    lengths: Arc<Mutex<Map<Asked, Estimate<Minutes>>>>,
}

/// What a formula's doughs rise in, which follows from the formula alone.
#[derive(Debug, Clone, Default)]
pub(super) struct Vessels(Arc<OnceLock<Vec<(ComponentId, Held, Vessel)>>>);

/// They follow from the rest of the state.
impl PartialEq for Windows {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// Likewise.
impl PartialEq for Vessels {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl State {
    /// When a step that goes on by itself and has started and not ended should end.
    pub(super) fn window_of(&self, step: StepId) -> Option<Estimate<Moment>> {
        let windows = self.windows.running.get_or_init(|| {
            let steps = self.formula.steps.iter();
            let running = steps.filter_map(|step| {
                let start = self.running_since(step)?;
                let going = self.going(step, start, None);
                Some((step.id, self.window(step, &going, start)))
            });
            running.collect()
        });
        windows.get(&step).cloned()
    }

    /// A length of one of the formula's steps: as it is known, or as `reckon` says.
    pub(super) fn length_once(
        &self,
        step: &Step,
        asked: (Moment, Option<Moment>),
        reckon: &dyn Fn() -> Estimate<Minutes>,
    ) -> Estimate<Minutes> {
        let own = self.formula.step(step.id);
        let asked = (step.id, asked.0, asked.1);
        let (true, Ok(mut known)) = (
            own.is_some_and(|own| std::ptr::eq(own, step)),
            self.windows.lengths.lock(),
        ) else {
            return reckon();
        };
        if let Some(length) = known.get(&asked) {
            return *length;
        }
        let length = reckon();
        if known.len() >= MOST_LENGTHS {
            *known = Map::new();
        }
        known.insert(asked, length);
        length
    }

    /// What a dough rises in.
    pub(super) fn dough_vessel(&self, step: &Step, held: Held) -> Vessel {
        let doughs = self.vessels.0.get_or_init(|| {
            let mut doughs: Vec<(ComponentId, Held, Vessel)> = Vec::new();
            for step in &self.formula.steps {
                if let Length::Ferment { held, .. } = step.length
                    && !doughs
                        .iter()
                        .any(|dough| (dough.0, dough.1) == (step.component, held))
                {
                    doughs.push((step.component, held, self.vessel_of_dough(step, held)));
                }
            }
            doughs
        });
        let mut doughs = doughs.iter();
        match doughs.find(|dough| (dough.0, dough.1) == (step.component, held)) {
            Some((_, _, vessel)) => vessel.clone(),
            None => self.vessel_of_dough(step, held),
        }
    }

    /// What was reckoned for the state as it was counts no more.
    pub(super) fn forget_windows(&mut self) {
        self.windows = Windows::default();
    }
}
