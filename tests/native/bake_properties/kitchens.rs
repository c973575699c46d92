//! One kitchen, several bakes: what is taken back at one has to go from all.

use domain::bake::{Event, Intent};
use domain::units::minutes;
use proptest::prelude::*;

use super::days::{any_kitchen, any_move, follow, kitchen_undone, quietly, start};
use super::{same_state, say};

proptest! {
    #![proptest_config(quietly(48))]

    #[test]
    fn a_change_that_is_taken_back_at_one_bake_can_go_from_another(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        changed in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..20),
    ) {
        let mut bake = start(which, kitchen);
        let now = bake.state().started + minutes(1.0);
        let change = || Intent::KitchenChanged(Box::new(changed));
        let entries = say(&mut bake, change(), now).expect("a kitchen as there are");
        prop_assert!(bake.state().kitchen == changed);
        prop_assert!(entries.len() <= 2);
        // Said again it is no news.
        prop_assert!(say(&mut bake, change(), now).expect("as before").is_empty());

        let before = bake.state().clone();
        let undone = || kitchen_undone(changed, kitchen);
        let later = now + minutes(5.0);
        say(&mut bake, undone(), later).expect("it is never refused");
        prop_assert!(bake.state().kitchen == kitchen);
        prop_assert!(bake.state().air.len() == 1 && bake.state().fridge.len() == 1);
        // Nothing is left to take back, so a kitchen that never was so is left alone.
        prop_assert!(changed == kitchen || say(&mut bake, undone(), later).expect("as before").is_empty());
        say(&mut bake, change(), later).expect("as before");
        let mut again = before;
        again.air.clone_from(&bake.state().air);
        again.fridge.clone_from(&bake.state().fridge);
        prop_assert!(same_state(bake.state(), &again));

        // Whatever was done since at the other bake stays, and the change goes from under it.
        let mut now = later;
        for step in moves {
            now = follow(&mut bake, step, now);
        }
        if bake.state().kitchen == changed {
            let before = bake.state().clone();
            say(&mut bake, undone(), now).expect("it is never refused");
            prop_assert_eq!(bake.state().all_ended(), before.all_ended());
            prop_assert!(bake.state().doughs == before.doughs);
        }
    }

    /// Its log tells nothing of the change, for its start had the changed kitchen already.
    #[test]
    fn a_bake_that_began_in_the_changed_kitchen_goes_back_to_the_one_before(
        which in 0_usize..3,
        kitchen in any_kitchen(),
        changed in any_kitchen(),
        other in any_kitchen(),
        moves in prop::collection::vec(any_move(), 0..20),
        there_and_back in any::<bool>(),
    ) {
        let mut bake = start(which, changed);
        let mut now = bake.state().started;
        for step in moves {
            now = follow(&mut bake, step, now);
        }
        if there_and_back {
            for kitchen in [other, changed] {
                now = now + minutes(1.0);
                say(&mut bake, Intent::KitchenChanged(Box::new(kitchen)), now).expect("as there are");
            }
        }
        let same = bake.state().kitchen == changed;
        let before = bake.state().kitchen;
        let air = bake.state().air.clone();
        let undone = kitchen_undone(changed, kitchen);
        now = now + minutes(1.0);
        let entries = say(&mut bake, undone, now).expect("it is never refused");
        let wanted = if same { kitchen } else { before };
        prop_assert!(bake.state().kitchen == wanted);
        prop_assert!(same || entries.is_empty());
        // What the air was until now it stays, where that isn't the change itself.
        let told_anew = !entries.iter().any(|entry| matches!(entry.event, Event::Undone { .. }));
        prop_assert!(!told_anew || bake.state().air.starts_with(&air));
    }
}
