//! What an asked thing led to, as facts; `words` makes sentences of them.

use domain::bake::{Bake, Entry, Event, Forecast, Intent, Reason, Refusal, State};
use domain::formula::{ComponentId, Length, Step, StepKind};
use domain::thermal::cooling::{FIRST_STAGE, HORIZON};
use domain::thermal::liquid::liquid_temperature;
use domain::units::{Celsius, Grams, Minutes, Moment};

/// How a fermentation moved.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Shift {
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
        /// When to turn the oven on now, where that moved.
        oven_on: Option<Moment>,
    },
    /// The middle was measured.
    Core {
        /// What was read.
        measured: Celsius,
        /// What is wanted.
        wanted: Celsius,
        /// Whether it should be at least that, as in the oven, or at most.
        at_least: bool,
        /// Whether nothing has shown that it was through the first stage of its cooling in time.
        too_slow: bool,
        /// How much longer it will take, where that is known.
        left: Option<Minutes>,
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
    TakenBack {
        /// What it was.
        event: Event,
        /// The name of its step, if it has one.
        title: String,
        /// Which fold it was, from 1, where it was one.
        fold: usize,
    },
}

/// What an intent led to; nothing for those whose effect is plain to see.
pub(super) fn answer(before: &Bake, after: &Bake, intent: &Intent, now: Moment) -> Option<Answer> {
    let state = after.state();
    match intent {
        Intent::DoughIs(component, measured) => {
            Some(dough(before, after, *component, *measured, now))
        }
        Intent::KitchenIs(_) | Intent::KitchenChanged(_) => {
            Some(kitchen(before.state(), state, now))
        }
        Intent::CoreIs(step, measured) => core(state, state.formula.step(*step)?, *measured, now),
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
        Intent::FoldNotYet(step, _) => {
            let title = state.formula.step(*step)?.title.clone();
            let at = state.progress(*step).fold_later?;
            Some(Answer::LookAgain { title, at })
        }
        Intent::SetTimer(name, length) => Some(Answer::TimerSet {
            name: name.clone(),
            due: now + *length,
        }),
        Intent::Undo => taken_back(before, after),
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

fn kitchen(before: &State, after: &State, now: Moment) -> Answer {
    let mut shifts = Vec::new();
    for step in &after.formula.steps {
        if step.is_hands() || !after.is_open(step.id) {
            continue;
        }
        let shift = shift(before, after, step, now);
        let moved = shift.after.window.likely() - shift.before.window.likely();
        // A rise that keeps its time is worth a word; anything else only when it moves.
        if matches!(shift.after.reason, Reason::Yeast { .. }) || moved.get().abs() >= 0.5 {
            shifts.push(shift);
        }
    }
    Answer::Kitchen {
        before: before.kitchen.air,
        now: after.kitchen.air,
        shifts,
        liquid: liquid(before, after),
        oven_on: oven_on(before, after, now),
    }
}

/// When to turn the oven on now, where that moved by more than a minute.
fn oven_on(before: &State, after: &State, now: Moment) -> Option<Moment> {
    let mut steps = after.formula.steps.iter();
    let (was, is) = steps.find_map(|step| {
        let is = after.oven_on_at(step, now)?;
        Some((before.oven_on_at(step, now)?, is))
    })?;
    ((was - is).get().abs() >= 1.0).then(|| is.max(now))
}

fn taken_back(before: &Bake, after: &Bake) -> Option<Answer> {
    let Event::Undone { entries } = &after.log().last()?.event else {
        return None;
    };
    let state = before.state();
    let entries = entries
        .iter()
        .filter_map(|&place| before.log().get(place as usize));
    // Of what one press did, what was done last says it all, unless that was only to turn to it.
    let turned = |entry: &&Entry| matches!(entry.event, Event::Picked { .. });
    let event = &entries
        .max_by_key(|entry| !turned(entry))
        .map(|entry| entry.event.clone())?;
    let step = match event {
        Event::Picked { step }
        | Event::Done { step }
        | Event::Skipped { step }
        | Event::Reopened { step }
        | Event::Marked { step, .. }
        | Event::Folded { step }
        | Event::FoldSkipped { step }
        | Event::FoldPutOff { step, .. }
        | Event::Extended { step, .. }
        | Event::CoreMeasured { step, .. } => state.formula.step(*step),
        _ => None,
    };
    let folds = step.map_or(0, |step| state.progress(step.id).folds.len());
    let put_off = matches!(event, Event::FoldPutOff { .. });
    Some(Answer::TakenBack {
        event: event.clone(),
        title: step.map(|step| step.title.clone()).unwrap_or_default(),
        fold: folds + usize::from(put_off),
    })
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
        title: step.title.clone(),
        before: forecast(before),
        after: forecast(after),
    }
}

fn core(state: &State, step: &Step, measured: Celsius, now: Moment) -> Option<Answer> {
    let (wanted, at_least) = match step.length {
        Length::Bake { core, .. } => (state.core_wanted(core), true),
        Length::Cool { to } | Length::Chill { to, .. } => (to, false),
        _ => return None,
    };
    let cooled_for = state.progress(step.id).open_since.map(|start| now - start);
    let chills = matches!(step.length, Length::Chill { .. });
    Some(Answer::Core {
        measured,
        wanted,
        at_least,
        too_slow: chills
            && cooled_for.is_some_and(|minutes| minutes > FIRST_STAGE)
            && !state.is_through_first_stage(step.id),
        // What doesn't get there within days has no time worth telling.
        left: state
            .forecast(step.id, now)
            .map(|forecast| forecast.window.likely() - now)
            .filter(|&left| left < HORIZON * 0.5),
    })
}
