//! What is told late, and then since when it was, is as if it had been told in time.

use domain::bake::{Bake, Intent, Refusal, State, Stood, decide};
use domain::units::minutes;
use proptest::prelude::*;

use super::days::{any_intent, any_kitchen, any_move, follow, quietly, start};
use super::{same_state, say};

proptest! {
    #![proptest_config(quietly(200))]

    /// Whatever is said: told late and then since when, it is as if it had been said in time.
    #[test]
    fn told_late_is_as_told_in_time(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..50),
        intent in any_intent(),
        late in 5.5..90.0_f64,
    ) {
        let mut bake = start(which, kitchen);
        let mut now = bake.state().started;
        for step in moves {
            now = follow(&mut bake, step, now);
        }
        now = now + minutes(6.0);
        // What is decided hangs on the moment itself.
        let moves = matches!(intent, Intent::Move(..));
        let hangs = matches!(intent, Intent::NotYet(..) | Intent::FoldNotYet(..) | Intent::RiseIs(..));
        let mut in_time = bake.clone();
        let Ok(entries) = decide(&in_time, intent.clone(), now) else { return Ok(()) };
        in_time.append(entries.clone());
        // Hearing an alarm says nothing, and the newest press is then an older one.
        let said = in_time.newest_press().filter(|place| place + 1 == in_time.next_place());
        let Some(_) = said.filter(|_| !hangs && entries.len() == 1) else { return Ok(()) };
        let at = in_time.log().last().expect("it was said").at;
        let mut told = bake.clone();
        let pressed = at + minutes(late);
        let Ok(entries) = decide(&told, intent, pressed) else { return Ok(()) };
        told.append(entries);
        let before = told.state().clone();
        let place = told.newest_press().expect("the same was said");
        let limits = |state: &State| state.stood(pressed);
        match decide(&told, Intent::Since(place, at), pressed) {
            Ok(entries) => told.append(entries),
            // Something else stands in between, which binds.
            Err(Refusal::TooEarly(earliest)) => {
                prop_assert!(earliest > at);
                return Ok(());
            }
            Err(other) => prop_assert!(false, "{other}"),
        }
        prop_assert!(same_state(told.state(), in_time.state()));
        // What stands out has stood out for as long or longer, and its limit comes no later.
        for was in limits(&before) {
            let same = |is: &&Stood| is.what == was.what && is.component == was.component;
            let is = limits(told.state()).iter().find(same).copied();
            prop_assert!(moves || is.is_none_or(|is| is.since <= was.since || is.until.is_some()), "{was:?} {is:?}");
        }
        let mut folded = Bake::from_log(told.id.clone(), told.log().to_vec()).expect("it has its start");
        prop_assert!(folded.state() == told.state());
        say(&mut folded, Intent::Undo, pressed).expect("it can be taken back");
        prop_assert!(same_state(folded.state(), &before));
    }
}
