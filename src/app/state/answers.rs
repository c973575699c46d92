//! What an asked thing led to, as facts; `words` makes sentences of them.

use domain::bake::{Bake, Entry, Event, Intent, Reason, Refusal, State};
use domain::formula::{ComponentId, Held, Length, Step, StepKind};
use domain::kitchen::Place;
use domain::thermal::cooling::HORIZON;
use domain::units::{Celsius, Grams, Minutes, Moment, Share};

use super::effects::{Effect, Shift, effect, shift};
use super::undoing::{Back, Named};

/// What an asked thing led to.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Answer {
    /// Nothing happened, and why.
    Refused(Refusal),
    /// A dough was measured.
    Dough {
        /// What was read.
        measured: Celsius,
        /// What was hoped for as it came off the bench, and later what the forecast had it at.
        expected: Option<Celsius>,
        /// Whether that is the formula's target.
        is_target: bool,
        /// What the reading does to its fermentation, against what was expected.
        shift: Option<Box<Shift>>,
    },
    /// The kitchen changed.
    Kitchen {
        /// What its air was taken to be, and what it is.
        air: (Celsius, Celsius),
        /// The same of the fridge.
        fridge: (Celsius, Celsius),
        /// What that does to each bake.
        effects: Vec<Effect>,
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
        too_slow: Option<(Celsius, Minutes)>,
        /// How much longer it will take, where that is known.
        left: Option<Minutes>,
    },
    /// A dough or filling was put somewhere else.
    Moved {
        /// Where it stands.
        place: Place,
        /// What that does to it.
        shift: Box<Shift>,
    },
    /// A dough or filling was poured into something else.
    Poured {
        /// What holds it now.
        held: Held,
        /// What that does to it.
        shift: Box<Shift>,
    },
    /// Somebody looked how far a dough had risen.
    Risen {
        /// How far, as a share of what the formula waits for.
        share: Share,
        /// How far it was believed to be at that moment.
        expected: Share,
        /// What that does to its forecast.
        shift: Box<Shift>,
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
    /// Something happened before it was said.
    Since(Moment),
    /// The last thing was taken back.
    TakenBack(Box<Named>),
    /// What was taken back last counts again.
    PutBack(Box<Named>),
}

impl Answer {
    /// Whether the kitchen changed in something else than its temperatures.
    pub(crate) fn is_of_equipment(&self) -> bool {
        matches!(self, Self::Kitchen { air, fridge, .. } if air.0 == air.1 && fridge.0 == fridge.1)
    }
}

/// What an intent led to; nothing for those whose effect is plain to see.
pub(super) fn answer(before: &Bake, after: &Bake, intent: &Intent, now: Moment) -> Option<Answer> {
    let state = after.state();
    // By a clock that was put back, what has just happened lies ahead.
    let now = now.max(state.newest);
    match intent {
        // The first says what became of them all.
        Intent::AtOnce(all) => answer(before, after, all.first()?, now),
        Intent::DoughIs(component, measured) => {
            Some(dough(before, after, *component, *measured, now))
        }
        Intent::KitchenIs(_) | Intent::KitchenChanged(_) => {
            let was = before.state();
            Some(Answer::Kitchen {
                air: (was.kitchen.air, state.kitchen.air),
                fridge: (was.kitchen.fridge, state.kitchen.fridge),
                effects: vec![effect(was, state, now)],
            })
        }
        Intent::CoreIs(step, measured) => core(state, state.formula.step(*step)?, *measured, now),
        Intent::Move(step, place) => {
            let step = state.formula.step(*step)?;
            Some(Answer::Moved {
                place: *place,
                shift: Box::new(shift(before.state(), state, step, now)),
            })
        }
        Intent::Pour(step, held) => {
            let step = state.formula.step(*step)?;
            Some(Answer::Poured {
                held: *held,
                shift: Box::new(shift(before.state(), state, step, now)),
            })
        }
        Intent::RiseIs(step, share, ago) => {
            let step = state.formula.step(*step)?;
            let believed = before.state().forecast(step.id, now - *ago)?;
            Some(Answer::Risen {
                share: *share,
                expected: believed.progress,
                shift: Box::new(shift(before.state(), state, step, now)),
            })
        }
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
        Intent::Since(_, at) => Some(Answer::Since(*at)),
        Intent::Undo if !state.is_over() => Some(Answer::TakenBack(Box::new(
            Back::taken(before, after)?.what,
        ))),
        Intent::PutBack => Some(Answer::PutBack(Box::new(Back::put(before)?.what))),
        _ => None,
    }
}

/// Bakes share a kitchen: what a change of it does to one is said along with what it does to the others.
pub(super) fn join(said: &mut Option<Answer>, answer: Option<Answer>) {
    match (said, answer) {
        (Some(Answer::Kitchen { effects, .. }), Some(Answer::Kitchen { effects: more, .. })) => {
            effects.extend(more);
        }
        (said, answer) => *said = said.take().or(answer),
    }
}

fn dough(
    before: &Bake,
    after: &Bake,
    component: ComponentId,
    measured: Celsius,
    now: Moment,
) -> Answer {
    let (was, is) = (before.state(), after.state());
    let formula = &is.formula;
    let step = formula.steps.iter().find(|step| {
        let ferments = matches!(step.length, Length::Ferment { .. });
        let left = is.progress(step.id).ended.is_none();
        ferments && left && step.component == component
    });
    // Only as it comes off the bench is it compared with its target: later it has followed the kitchen.
    let is_target = formula.steps.iter().any(|step| {
        let asked = step.kind == StepKind::TakeTemperature && step.component == component;
        asked && was.progress(step.id).ended.is_none()
    });
    let (expected, shift) = if is_target {
        let target = formula.component(component).and_then(|known| known.target);
        let on_target = target.map(|target| {
            let mut on_target = before.clone();
            on_target.append([Entry {
                at: now,
                event: Event::DoughMeasured {
                    component,
                    temperature: target,
                },
            }]);
            on_target
        });
        let shift = on_target
            .zip(step)
            .map(|(on_target, step)| shift(on_target.state(), is, step, now));
        (target, shift)
    } else {
        let shift = step.map(|step| shift(was, is, step, now));
        let expected = match shift.as_ref().map(|shift| shift.before.reason) {
            Some(Reason::Yeast { dough, .. }) => Some(dough),
            _ => None,
        };
        (expected, shift)
    };
    Answer::Dough {
        measured,
        expected,
        is_target,
        shift: shift.map(Box::new),
    }
}

fn core(state: &State, step: &Step, measured: Celsius, now: Moment) -> Option<Answer> {
    let (wanted, at_least) = match step.length {
        Length::Bake { core, .. } => (state.core_wanted(core), true),
        Length::Cool { to } | Length::Chill { to, .. } => (to, false),
        _ => return None,
    };
    let cooled_for = state.progress(step.id).open_since.map(|start| now - start);
    Some(Answer::Core {
        measured,
        wanted,
        at_least,
        too_slow: state
            .unproven_stages(step)
            .find(|&(_, within)| cooled_for.is_some_and(|minutes| minutes > within)),
        // What doesn't get there within days has no time worth telling.
        left: state
            .forecast(step.id, now)
            .map(|forecast| forecast.window.likely() - now)
            .filter(|&left| left < HORIZON * 0.5),
    })
}
