//! What a bake must never do, whatever happens in it.
//!
//! Random days on our own three starters: bakers who follow what is asked, who
//! don't, and logs that no baker could have made.

mod days;
mod derived;
mod drawn;
mod forecasts;
mod kitchens;
mod late;
mod rejoin;
mod waits;

use domain::bake::{Bake, Entry, Event, Intent, Refusal, State, alarms, decide};
use domain::schedule::{Ask, focus, outline, running};
use domain::units::{Moment, minutes};
use proptest::prelude::*;

use self::days::{
    Move, any_event, any_intent, any_jump, any_kitchen, any_moment, any_move, follow, quietly,
    start,
};
use self::derived::derive_all;

fn say(bake: &mut Bake, intent: Intent, now: Moment) -> Result<Vec<Entry>, Refusal> {
    let entries = decide(bake, intent, now)?;
    bake.append(entries.clone());
    Ok(entries)
}

fn folded_again(bake: &Bake) -> Bake {
    Bake::from_log(bake.id.clone(), bake.log().to_vec()).expect("the log has its start")
}

/// But for the moment of the newest entry.
fn same_state(one: &State, other: &State) -> bool {
    let mut one = one.clone();
    one.newest = other.newest;
    one == *other
}

proptest! {
    #![proptest_config(quietly(96))]

    #[test]
    fn every_prefix_of_every_log_folds(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        entries in prop::collection::vec((any_moment(), any_event()), 0..25),
        looks in prop::collection::vec(any_moment(), 3),
    ) {
        let mut bake = start(which, kitchen);
        let mut log = bake.log().to_vec();
        for (at, event) in entries {
            let entry = Entry { at, event };
            log.push(entry.clone());
            bake.append([entry]);
            let state = State::fold(&log).expect("it begins with the start of a bake");
            prop_assert!(state == *bake.state());
        }
        for now in looks {
            derive_all(&bake, now);
        }
    }

    #[test]
    fn what_is_decided_folds_to_the_same(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..60),
    ) {
        let mut bake = start(which, kitchen);
        let mut now = bake.state().started;
        for step in moves {
            now = follow(&mut bake, step, now);
            prop_assert!(bake.log().is_sorted_by_key(|entry| entry.at));
        }
        prop_assert!(folded_again(&bake).state() == bake.state());
        derive_all(&bake, now);
    }

    /// What was reckoned for an earlier state must not be taken for the present one's.
    #[test]
    fn forecasts_looked_at_all_along_are_those_of_the_whole_log(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        entries in prop::collection::vec((any_moment(), any_event()), 0..25),
        look in any_moment(),
    ) {
        let forecasts = |bake: &Bake| running(bake.state(), look);
        let mut bake = start(which, kitchen);
        for (at, event) in entries {
            forecasts(&bake);
            let copy = bake.clone();
            let before = forecasts(&copy);
            bake.append([Entry { at, event }]);
            prop_assert_eq!(forecasts(&copy), before);
        }
        prop_assert_eq!(forecasts(&bake), forecasts(&folded_again(&bake)));
    }

    #[test]
    fn a_clock_that_was_set_leaves_as_much_time_as_before(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..60),
        by in any_jump(),
    ) {
        let mut bake = start(which, kitchen);
        let mut now = bake.state().started;
        for step in moves {
            now = follow(&mut bake, step, now);
        }
        let mut set = bake.clone();
        say(&mut set, Intent::ClockWasSet(by), now + by).expect("no move before ends a bake");
        prop_assert!(folded_again(&set) == set);
        let (before, after) = (bake.state(), set.state());
        prop_assert_eq!(focus(before, now), focus(after, now + by));
        let mut moved = alarms(before, now);
        moved.iter_mut().for_each(|alarm| alarm.due = alarm.due + by);
        prop_assert_eq!(moved, alarms(after, now + by));
        // With every step ended the table is where the newest entry is, and this is one.
        if !before.all_ended() {
            let table = |state: &State, now| outline(state, now).table.likely();
            prop_assert_eq!(table(before, now) + by, table(after, now + by));
        }
    }

    #[test]
    fn nothing_happens_after_the_end(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..20),
        given_up in any::<bool>(),
        intents in prop::collection::vec(any_intent(), 1..10),
        events in prop::collection::vec((any_moment(), any_event()), 1..10),
    ) {
        let mut bake = start(which, kitchen);
        let mut now = bake.state().started;
        for step in moves {
            now = follow(&mut bake, step, now);
        }
        let end = if given_up { Intent::Abandon } else { Intent::Finish };
        say(&mut bake, end, now).expect("no move before ends a bake");
        for intent in intents {
            prop_assert_eq!(decide(&bake, intent, now), Err(Refusal::Over));
        }
        prop_assert!(alarms(bake.state(), now).is_empty());
        let at_the_end = bake.state().clone();
        for (at, event) in events {
            // Only taking back the end itself reaches behind it, and no intent does that.
            if !matches!(event, Event::Undone { .. }) {
                bake.append([Entry { at, event }]);
            }
        }
        prop_assert!(*bake.state() == at_the_end);
    }

    #[test]
    fn undo_restores_the_state_before(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..40),
        intents in prop::collection::vec(
            prop_oneof![9 => any_intent(), 1 => any_jump().prop_map(Intent::ClockWasSet)],
            1..6,
        ),
        clock_stands_still in any::<bool>(),
    ) {
        let mut bake = start(which, kitchen);
        let mut now = bake.state().started;
        for step in moves {
            now = follow(&mut bake, step, now);
        }
        let mut before = Vec::new();
        for intent in intents {
            let can_be_taken_back = !matches!(
                intent,
                Intent::Hear(_) | Intent::Undo | Intent::KitchenUndone { .. } | Intent::Finish | Intent::Abandon
            );
            if !can_be_taken_back {
                continue;
            }
            let state = bake.state().clone();
            if say(&mut bake, intent, now).is_ok_and(|entries| !entries.is_empty()) {
                before.push(state);
            }
            if !clock_stands_still {
                now = now + minutes(1.5);
            }
        }
        while let Some(state) = before.pop() {
            let taken = bake.state().clone();
            say(&mut bake, Intent::Undo, now).expect("there is something to take back");
            prop_assert!(same_state(bake.state(), &state));
            say(&mut bake, Intent::PutBack, now).expect("it can be put back");
            prop_assert!(same_state(bake.state(), &taken));
            say(&mut bake, Intent::Undo, now).expect("there is something to take back");
            prop_assert!(same_state(bake.state(), &state));
        }
    }

    #[test]
    fn hearing_an_alarm_silences_that_one_only(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..40),
        later in 0_u32..400,
    ) {
        let mut bake = start(which, kitchen);
        let mut now = bake.state().started;
        for step in moves {
            now = follow(&mut bake, step, now);
        }
        now = now + minutes(f64::from(later));
        while let Some(heard) = domain::bake::due(bake.state(), now).first().cloned() {
            let mut left = alarms(bake.state(), now);
            left.retain(|alarm| alarm.id != heard.id);
            say(&mut bake, Intent::Hear(heard.id), now).expect("it rings");
            // What burns or spoils may call once more, but later.
            let mut still = alarms(bake.state(), now);
            still.retain(|alarm| alarm.id != heard.id || alarm.due <= now);
            prop_assert_eq!(still, left);
        }
    }

    #[test]
    fn no_bake_ends_in_a_dead_end(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        choices in prop::collection::vec((0_u8..12, 0_u8..8), 400),
    ) {
        let mut bake = start(which, kitchen);
        let mut now = bake.state().started;
        for (what, which) in choices {
            if focus(bake.state(), now) == Ask::AllDone {
                break;
            }
            now = follow(&mut bake, Move::Sensible { what, which }, now);
        }
        prop_assert_eq!(focus(bake.state(), now), Ask::AllDone);
        prop_assert!(bake.state().all_ended());
        say(&mut bake, Intent::Finish, now).expect("it can be finished");
    }
}
