//! What takes long to reckon and is asked for again and again, reckoned once for each state.
//!
//! A window follows from what has happened and not from the present, and takes by far the longest of a forecast to
//! reckon; and a forecast is asked for by the list of what runs, by the alarms, by the outline and by the plan, all at
//! the same moment. A plan for a table, which is made in turns that all begin alike, asks for the same lengths.

use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use super::course::Going;
use super::forecast::Forecast;
use super::state::State;
use crate::estimate::Estimate;
use crate::formula::{ComponentId, Held, Length, Step, StepId};
use crate::sorted::Map;
use crate::thermal::vessel::Vessel;
use crate::units::{Minutes, Moment};
use crate::yeast::proof::Proof;

/// So many forecasts are kept: those of a few moments, of all that can go on at once.
const MOST_FORECASTS: usize = 24;
/// How many lengths are kept in mind at most; a plan asks for some dozens.
const MOST_LENGTHS: usize = 256;

/// A step, its start, and since when its dough follows the kitchen.
type Asked = (StepId, Moment, Option<Moment>);

/// What was reckoned for a state, once somebody has asked. Copies of the state share it.
#[derive(Debug, Clone, Default)]
pub(super) struct Windows(Arc<Reckoned>);

#[derive(Debug, Default)]
struct Reckoned {
    running: OnceLock<Map<StepId, Running>>,
    /// See [`State::as_it_stands`].
    kept_out: OnceLock<Box<State>>,
    forecasts: Mutex<Vec<(Moment, Forecast)>>,
    /// Of steps that don't run, as they were asked for.
    lengths: Mutex<Map<Asked, Estimate<Minutes>>>,
}

/// When a running step should end, and how it rises, if it does.
#[derive(Debug)]
struct Running {
    window: Estimate<Moment>,
    /// When it is likely there, wherever it is then.
    ripe: Moment,
    proof: Option<Proof>,
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
    /// The forecast of a step that goes on by itself and has started and not ended.
    #[must_use]
    pub fn forecast(&self, step: StepId, now: Moment) -> Option<Forecast> {
        self.as_it_stands(now).forecast_of(step, now)
    }

    /// The same bake where a dough that should have gone into the fridge by now stands where it is: what is planned of it
    /// counts until its moment, and from then on what was said.
    pub(crate) fn as_it_stands(&self, now: Moment) -> &Self {
        let Some(step) = self.kept_out(now) else {
            return self;
        };
        let stands = self.windows.0.kept_out.get_or_init(|| {
            let mut state = self.clone();
            state.stay_instead(step, None);
            Box::new(state)
        });
        stands.as_it_stands(now)
    }

    fn forecast_of(&self, step: StepId, now: Moment) -> Option<Forecast> {
        let step = self.formula.step(step)?;
        let start = self.running_since(step)?;
        let running = self.running(step.id)?;
        let kept = || {
            let kept = self.windows.0.forecasts.lock();
            kept.unwrap_or_else(PoisonError::into_inner)
        };
        for (at, known) in kept().iter() {
            if *at == now && known.step == step.id {
                return Some(known.clone());
            }
        }
        let going = match &running.proof {
            Some(proof) => Going::Rises(proof.clone()),
            None => self.going(step, start, None),
        };
        let progress = self.progress(step.id);
        let found = Forecast {
            ripe: running.ripe,
            ..self.forecast_from(step, &going, progress, start, running.window, now)
        };
        let mut kept = kept();
        // Of moments that have passed nobody asks again.
        if kept.len() >= MOST_FORECASTS {
            kept.clear();
        }
        kept.push((now, found.clone()));
        Some(found)
    }

    /// When a step that goes on by itself and has started and not ended should end.
    pub(super) fn window_of(&self, step: StepId) -> Option<Estimate<Moment>> {
        Some(self.running(step)?.window)
    }

    fn running(&self, step: StepId) -> Option<&Running> {
        let running = self.windows.0.running.get_or_init(|| {
            let steps = self.formula.steps.iter();
            let running = steps.filter_map(|step| {
                let start = self.running_since(step)?;
                Some((step.id, self.running_from(step, start)))
            });
            running.collect()
        });
        running.get(&step)
    }

    fn running_from(&self, step: &Step, start: Moment) -> Running {
        let going = self.going(step, start, None);
        let window = self.window(step, &going, start);
        Running {
            window: window.map(self.ends_outside(step, start)),
            ripe: window.likely(),
            proof: match going {
                Going::Rises(proof) => Some(proof),
                Going::Clock(..) | Going::Cools(_) => None,
            },
        }
    }

    /// A length of one of the formula's steps: as it is known, or as `reckon` says.
    pub(super) fn length_once(
        &self,
        step: &Step,
        asked: (Moment, Option<Moment>),
        reckon: &dyn Fn() -> Estimate<Minutes>,
    ) -> Estimate<Minutes> {
        let own = self.formula.step(step.id);
        let asked = self.by_itself(step, asked);
        let (true, Ok(mut known)) = (
            own.is_some_and(|own| std::ptr::eq(own, step)),
            self.windows.0.lengths.lock(),
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

    /// What a length hangs on. Ovens go by the clock; and in a bake to which no hand was put yet, whatever comes begins in a
    /// kitchen that stays as it is, so it takes as long at any moment, and only counts for how long its dough has warmed.
    fn by_itself(&self, step: &Step, (start, warming): (Moment, Option<Moment>)) -> Asked {
        const ANY: Moment = Moment::from_epoch_ms(0);
        if matches!(step.length, Length::Bake { .. } | Length::OvenHeats { .. }) {
            return (step.id, ANY, None);
        }
        let stands = !self.has_begun()
            && self.doughs.is_empty()
            && self.retards.is_empty()
            && self.supposed.is_none()
            && warming.unwrap_or(start).min(start) >= self.newest;
        if stands {
            (step.id, ANY, warming.map(|since| ANY + (since - start)))
        } else {
            (step.id, start, warming)
        }
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

    /// A step is looked at then, whatever is likely.
    pub(super) fn look_at(&mut self, step: StepId, at: Moment) {
        self.forget_windows();
        if let Some(progress) = self.steps.get_mut(&step) {
            progress.look_again = Some(at);
        }
    }

    /// What was reckoned for the state as it was counts no more.
    pub(super) fn forget_windows(&mut self) {
        self.windows = Windows::default();
    }
}
