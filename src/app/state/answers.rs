//! What an asked thing led to, as facts; `words` makes sentences of them.

use domain::bake::{Bake, Entry, Event, Forecast, Intent, Refusal, State};
use domain::formula::{ComponentId, Length, Step, StepId, StepKind};
use domain::thermal::liquid::liquid_temperature;
use domain::units::{Celsius, Grams, Moment};

/// How a fermentation moved.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Shift {
    /// The step that moved.
    pub(crate) step: StepId,
    /// Its name.
    pub(crate) title: String,
    /// Before, or at the target.
    pub(crate) before: Forecast,
    /// Now.
    pub(crate) after: Forecast,
}

/// What an asked thing led to.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Answer {
    /// Nothing happened, and why.
    Refused(Refusal),
    /// A dough was measured.
    Dough {
        /// What was read.
        measured: Celsius,
        /// What was hoped for.
        target: Option<Celsius>,
        /// What that does to its fermentation, against the target.
        shift: Option<Shift>,
    },
    /// The kitchen was measured.
    Kitchen {
        /// What it was taken to be.
        before: Celsius,
        /// What it is.
        now: Celsius,
        /// Fermentations that moved.
        shifts: Vec<Shift>,
        /// How warm the liquid had to be, and has to be, where the dough isn't mixed yet.
        liquid: Option<(Celsius, Celsius)>,
    },
    /// The middle was measured.
    Core {
        /// What was read.
        measured: Celsius,
        /// What is wanted.
        wanted: Celsius,
        /// Whether it should be at least that, as in the oven, or at most.
        at_least: bool,
    },
    /// A piece was weighed.
    Piece {
        /// Which, from 0.
        piece: u16,
        /// Its mass.
        mass: Grams,
        /// What it should have.
        target: Grams,
    },
    /// "Not yet": when to look again.
    LookAgain {
        /// The step.
        title: String,
        /// When.
        at: Moment,
    },
    /// A timer was set.
    TimerSet {
        /// What for.
        name: String,
        /// When it rings.
        due: Moment,
    },
    /// The last thing was taken back.
    TakenBack,
}

/// What an intent led to; nothing for those whose effect is plain to see.
pub(super) fn answer(before: &Bake, after: &Bake, intent: &Intent, now: Moment) -> Option<Answer> {
    let state = after.state();
    match intent {
        Intent::DoughIs(component, measured) => {
            Some(dough(before, after, *component, *measured, now))
        }
        Intent::KitchenIs(air) => Some(kitchen(before.state(), state, *air, now)),
        Intent::CoreIs(step, measured) => core(state.formula.step(*step)?, *measured),
        Intent::PieceWeighs(piece, mass) => Some(Answer::Piece {
            piece: *piece,
            mass: *mass,
            target: state.formula.pieces.mass,
        }),
        Intent::NotYet(step, _) => {
            let title = state.formula.step(*step)?.title.clone();
            let at = state.progress(*step).look_again?;
            Some(Answer::LookAgain { title, at })
        }
        Intent::SetTimer(name, length) => Some(Answer::TimerSet {
            name: name.clone(),
            due: now + *length,
        }),
        Intent::Undo => Some(Answer::TakenBack),
        _ => None,
    }
}

fn dough(
    before: &Bake,
    after: &Bake,
    component: ComponentId,
    measured: Celsius,
    now: Moment,
) -> Answer {
    let formula = &after.state().formula;
    let target = formula.component(component).and_then(|known| known.target);
    let shift = target.and_then(|target| {
        let mut on_target = before.clone();
        on_target.append([Entry {
            at: now,
            event: Event::DoughMeasured {
                component,
                temperature: target,
            },
        }]);
        let mut steps = formula.steps.iter();
        let step = steps.find(|step| {
            let ferments = matches!(step.length, Length::Ferment { .. });
            let left = after.state().progress(step.id).ended.is_none();
            ferments && left && step.component == component
        })?;
        Some(shift(on_target.state(), after.state(), step, now))
    });
    Answer::Dough {
        measured,
        target,
        shift,
    }
}

fn kitchen(before: &State, after: &State, now_air: Celsius, now: Moment) -> Answer {
    let ferments = |step: &&Step| matches!(step.length, Length::Ferment { .. });
    let running = after
        .formula
        .steps
        .iter()
        .filter(ferments)
        .filter(|step| after.is_open(step.id));
    Answer::Kitchen {
        before: before.kitchen.air,
        now: now_air,
        shifts: running
            .map(|step| shift(before, after, step, now))
            .collect(),
        liquid: liquid(before, after),
    }
}

/// How warm the liquid of the next dough to be mixed had to be, and has to be.
fn liquid(before: &State, after: &State) -> Option<(Celsius, Celsius)> {
    let mut mixes = after
        .formula
        .steps
        .iter()
        .filter(|step| step.kind == StepKind::Mix && after.progress(step.id).ended.is_none());
    let component = mixes.next()?.component;
    let temperature = |state: &State| {
        let question = state.formula.liquid_question(component, &state.kitchen)?;
        Some(liquid_temperature(&question)?.mild)
    };
    Some((temperature(before)?, temperature(after)?))
}

fn shift(before: &State, after: &State, step: &Step, now: Moment) -> Shift {
    let forecast = |state: &State| {
        state
            .forecast(step.id, now)
            .unwrap_or_else(|| state.forecast_if_started(step, now))
    };
    Shift {
        step: step.id,
        title: step.title.clone(),
        before: forecast(before),
        after: forecast(after),
    }
}

fn core(step: &Step, measured: Celsius) -> Option<Answer> {
    let (wanted, at_least) = match step.length {
        Length::Bake { core, .. } => (core, true),
        Length::Cool { to } | Length::Chill { to, .. } => (to, false),
        _ => return None,
    };
    Some(Answer::Core {
        measured,
        wanted,
        at_least,
    })
}
