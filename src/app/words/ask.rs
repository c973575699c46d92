//! What the Bench says to the baker now.

use domain::bake::{State, left_on_by, next_mark};
use domain::formula::{Checklist, Scope, Step, StepId, StepKind};
use domain::schedule::Ask;
use domain::units::Moment;
use platform::clock::time_of_day;

use super::letters::{capital, lower_first};
use crate::state::oven_of;

/// The words of the Bench's main view.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Prompt {
    /// The step's name, small.
    pub(crate) title: String,
    /// What to do, in at most twelve words.
    pub(crate) instruction: String,
    /// What the main action says.
    pub(crate) action: String,
}

/// What is asked of one of the bakes that run.
pub(crate) fn prompt(state: &State, ask: Ask, all: &[&State], at: Moment) -> Prompt {
    let step = ask.step().and_then(|id| state.formula.step(id));
    let is_switch = step.is_some_and(|step| step.kind == StepKind::OvenOn);
    if let (Some(step), Some(other)) = (step, oven_of(state, all).filter(|_| is_switch)) {
        let whose = super::full_name(other, all);
        return Prompt {
            instruction: format!("The oven is on for {whose}. Set it once that is out."),
            ..work(state, step.id, step)
        };
    }
    if let (Some(step), Some(other)) = (step, left_on_by(all, at).filter(|_| is_switch)) {
        let whose = super::full_name(other, all);
        return Prompt {
            instruction: format!("Set the oven, still hot from {whose}. Gloves for the racks."),
            ..work(state, step.id, step)
        };
    }
    match (ask, step) {
        (Ask::Work(id), Some(step)) => work(state, id, step),
        (Ask::Fold(_), Some(step)) => Prompt {
            title: step.title.clone(),
            instruction: "Fold the dough now.".to_owned(),
            action: "Folded".to_owned(),
        },
        (Ask::Look(_), Some(step)) => Prompt {
            title: step.title.clone(),
            instruction: look(state, step, at),
            action: "It's ready".to_owned(),
        },
        (Ask::IntoFridge(_), Some(step)) => Prompt {
            title: step.title.clone(),
            instruction: format!("Put the {} into the fridge, covered.", in_hand(state, step)),
            action: "It's in the fridge".to_owned(),
        },
        (Ask::OutOfFridge(_), Some(step)) => Prompt {
            title: step.title.clone(),
            instruction: format!("Take the {} out of the fridge.", in_hand(state, step)),
            action: OUT_OF_FRIDGE.to_owned(),
        },
        (Ask::Wait(_), Some(step)) if comes_out(state, step) => Prompt {
            title: step.title.clone(),
            instruction: left_in_fridge(state, step),
            action: OUT_OF_FRIDGE.to_owned(),
        },
        (Ask::Wait(_), Some(step)) => Prompt {
            title: step.title.clone(),
            instruction: wait(state, step),
            action: super::READY_NOW.to_owned(),
        },
        (Ask::AllDone, _) => Prompt {
            title: state.formula.name.clone(),
            instruction: "All done. Enjoy it.".to_owned(),
            action: "Finish".to_owned(),
        },
        _ => Prompt {
            title: state.formula.name.clone(),
            instruction: "Nothing to do just now.".to_owned(),
            action: String::new(),
        },
    }
}

/// Of what was put into the fridge, whether it should come out by now or not.
const OUT_OF_FRIDGE: &str = "It's out of the fridge";

/// "Leave the braid in the fridge until 08:31."
fn left_in_fridge(state: &State, step: &Step) -> String {
    let what = in_hand(state, step);
    let forecast = state.forecast(step.id, state.newest);
    let out = forecast.and_then(|forecast| forecast.out_by);
    match out.filter(|_| state.comes_out_as_planned(step.id)) {
        Some(out) => format!("Leave the {what} in the fridge until {}.", time_of_day(out)),
        None => format!("Leave the {what} in the fridge until you need it."),
    }
}

/// What a formula says of a fold to come; it is written for a whole rise, and a bake keeps its formula as it was.
const FOLDS: &str = ", and fold it when called";

fn wait(state: &State, step: &Step) -> String {
    let said = super::tight(&step.instruction);
    let forecast = state.forecast(step.id, state.newest);
    if forecast.is_some_and(|forecast| forecast.folds.is_empty()) {
        said.replace(FOLDS, "")
    } else {
        said
    }
}

/// Whether it is asked after because it should come out of the fridge, ready or not.
pub(crate) fn comes_out(state: &State, step: &Step) -> bool {
    let forecast = state.forecast(step.id, state.newest);
    forecast.is_some_and(|forecast| forecast.out_by.is_some())
}

/// What rises: the dough, or once it is shaped what it is to be.
fn in_hand<'a>(state: &'a State, step: &Step) -> &'a str {
    let pieces = &state.formula.pieces;
    match step.kind {
        StepKind::FinalProof if pieces.count == 1 => &pieces.noun,
        StepKind::FinalProof => &pieces.plural,
        _ => "dough",
    }
}

fn look(state: &State, step: &Step, at: Moment) -> String {
    let forecast = state.forecast(step.id, at);
    let is_past = forecast.is_some_and(|forecast| forecast.window.high() < at);
    match step.kind {
        // Common practice, no source: gas that is lost can be made anew as long as the dough is still to be shaped.
        StepKind::Bulk if is_past => "It has risen past its time: go on at once.".to_owned(),
        StepKind::FinalProof if is_past => {
            "It has risen past its time: bake it soon, with gentle hands.".to_owned()
        }
        StepKind::Bake => "Look into the oven.".to_owned(),
        StepKind::Bulk | StepKind::FinalProof | StepKind::Retard => "Look at the dough.".to_owned(),
        StepKind::OvenHeats => "The oven should be hot.".to_owned(),
        StepKind::BenchRest => "The pieces have rested.".to_owned(),
        StepKind::Cool => "Is the bread cool enough?".to_owned(),
        StepKind::Chill => "Is it cold enough?".to_owned(),
        _ => format!("{}: is it ready?", step.title),
    }
}

/// What follows from leaving out something that goes on by itself.
pub(crate) fn if_left_out(step: &Step) -> String {
    let follows = match step.kind {
        StepKind::Bulk => {
            "The dough goes on less risen and tighter. The last rise is forecast longer, by half of \
             what is missing; go by the dough."
        }
        StepKind::Retard => {
            "The dough counts as never having been in the fridge: as warm as the kitchen, and what \
             spoils in it as standing out."
        }
        StepKind::BenchRest => "Pieces that haven't rested spring back, and can tear.",
        StepKind::FinalProof => "What hasn't risen bakes small and dense, and tears open.",
        StepKind::Chill => {
            "Nobody knows then how cold it is. What spoils counts as standing out since it began to \
             cool."
        }
        StepKind::OvenHeats => "An oven that isn't hot yet bakes pale, and takes longer.",
        StepKind::Bake => "It counts as not baked, and what spoils in it as standing out.",
        StepKind::Cool => "Still warm, the crumb smears under a knife, and a glaze runs off.",
        _ => "What comes after it begins at once.",
    };
    format!("{follows} Undo takes it back.")
}

fn work(state: &State, id: StepId, step: &Step) -> Prompt {
    let next = next_mark(state, id);
    let by_piece = match &step.checklist {
        Some(Checklist::Marks {
            scope: Scope::EachPiece,
            items,
        }) => Some(items),
        _ => None,
    };
    let action = match (by_piece, next) {
        (Some(items), Some(next)) => {
            let item = items.get(usize::from(next.item));
            let piece = next.piece.unwrap_or(0) + 1;
            let noun = capital(&state.formula.pieces.noun);
            let item = item.map_or("", String::as_str);
            format!("{noun} {piece}: {}", lower_first(item))
        }
        _ => "Done".to_owned(),
    };
    Prompt {
        title: step.title.clone(),
        instruction: super::tight(&step.instruction),
        action,
    }
}

#[cfg(test)]
mod tests {
    use checks::{begin, say, starter, up_to};
    use domain::bake::Intent;
    use domain::kitchen::Kitchen;
    use domain::units::minutes;

    use super::*;

    const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    #[test]
    fn an_oven_with_another_bread_in_it_is_to_be_turned_on_by_nobody() {
        let [mut buns, mut braid] = ["plum-almond-buns", "orange-braid"]
            .map(|id| begin(starter(id), Kitchen::UNMEASURED, START));
        let quick = |_: StepKind| minutes(5.0);
        let (on, _) = up_to(&mut buns, StepKind::OvenOn, START, quick);
        let (other, at) = up_to(&mut braid, StepKind::OvenOn, START, quick);
        let said = |braid: &domain::bake::Bake| {
            let all = [buns.state(), braid.state()];
            prompt(all[0], Ask::Work(on), &all, at)
        };
        let free = said(&braid);
        assert_eq!(
            free.instruction,
            "Turn the oven on, with a rack in the middle."
        );
        say(&mut braid, Intent::Done(other), at);
        let taken = said(&braid);
        assert_eq!(
            taken.instruction,
            "The oven is on for Orange braid. Set it once that is out."
        );
        assert_eq!((taken.title, taken.action), (free.title, free.action));
    }

    #[test]
    fn an_oven_that_is_hot_from_another_bread_is_set_and_not_turned_on() {
        let mut buns = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        let mut braid = begin(starter("orange-braid"), Kitchen::UNMEASURED, START);
        let quick = |_: StepKind| minutes(5.0);
        let (on, _) = up_to(&mut buns, StepKind::OvenOn, START, quick);
        let (_, out) = up_to(&mut braid, StepKind::Cool, START, quick);
        let all = [buns.state(), braid.state()];
        let said = |at| prompt(all[0], Ask::Work(on), &all, at).instruction;
        assert_eq!(
            said(out),
            "Set the oven, still hot from Orange braid. Gloves for the racks."
        );
        // Nobody leaves one on for an hour.
        let later = out + minutes(60.0);
        assert_eq!(said(later), "Turn the oven on, with a rack in the middle.");
    }

    #[test]
    fn a_rise_whose_folds_are_done_asks_for_no_more_of_them() {
        let mut buns = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        let (rise, at) = up_to(&mut buns, StepKind::Bulk, START, |_| minutes(5.0));
        let said = |buns: &domain::bake::Bake| {
            let state = buns.state();
            prompt(state, Ask::Wait(rise), &[state], at).instruction
        };
        assert_eq!(said(&buns), "Let the dough rise, and fold it when called.");
        let forecast = buns.state().forecast(rise, at).expect("it rises");
        for fold in forecast.folds {
            say(&mut buns, Intent::Folded(rise), fold);
        }
        assert_eq!(said(&buns), "Let the dough rise.");
    }
}
