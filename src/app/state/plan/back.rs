//! What a plan goes on from.
//!
//! A plan keeps to the one before where it can, and that was made for what was asked then. So the same wishes would give
//! another plan, as good as the first, once something else was wished and taken back. Where the bakes stand as they did when
//! a plan was told, whatever was asked meanwhile, that one is gone on from.

use domain::bake::Bake;

use super::{Planned, Promised};

/// The plan that is shown of bakes as they `were` or, where all of them stand as they did when an earlier one was told and
/// didn't at the last look, that one.
pub(super) fn goes_on_from<'a>(
    told: &'a [Promised],
    shown: Option<&'a Planned>,
    were: &[Bake],
    are: &[Bake],
) -> Option<&'a Planned> {
    let mut told = told.iter().rev().filter(|_| !stand_as(were, are));
    let back = told.find(|told| stand_as(&told.bakes, are));
    back.map(|told| &told.planned).or(shown)
}

/// Whether they are the same bakes, and all of them stand as they did.
fn stand_as(were: &[Bake], are: &[Bake]) -> bool {
    let mut both = were.iter().zip(are);
    let stands = |(was, is): (&Bake, &Bake)| was.id == is.id && is.state().stands_as(was.state());
    were.len() == are.len() && both.all(stands)
}

#[cfg(test)]
mod tests {
    use checks::{begin, say, starter};
    use domain::bake::{Intent, State};
    use domain::kitchen::Kitchen;
    use domain::schedule::plan::timetable;
    use domain::units::{Moment, minutes};

    use super::*;

    const NINE: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    fn promised(bake: &Bake, at: Moment, before: Option<&Planned>) -> Promised {
        let bakes = vec![bake.clone()];
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let was = before.map(|before| &before.timetable);
        let timetable = timetable(&states, at, was, &mut || true).expect("there is a plan");
        Promised {
            planned: Planned::new(&bakes, timetable, at, before),
            bakes,
        }
    }

    #[test]
    fn what_is_taken_back_gives_the_plan_back_and_what_is_done_does_not() {
        let mut bake = begin(starter("orange-braid"), Kitchen::UNMEASURED, NINE);
        let mut wishes = bake.state().wishes.clone();
        wishes.table = Some(NINE + minutes(600.0));
        say(&mut bake, Intent::Wish(Box::new(wishes.clone())), NINE);
        let first = promised(&bake, NINE, None);
        wishes
            .away
            .push((NINE + minutes(200.0), NINE + minutes(300.0)));
        let at = NINE + minutes(1.0);
        say(&mut bake, Intent::Wish(Box::new(wishes)), at);
        let asked = promised(&bake, at, Some(&first.planned));
        let told = [first.clone(), asked.clone()];
        let shown = Some(&asked.planned);
        let from = |bake: &Bake| {
            let are = std::slice::from_ref(bake);
            goes_on_from(&told, shown, &asked.bakes, are).cloned()
        };
        assert_eq!(from(&bake), shown.cloned());
        say(&mut bake, Intent::Undo, at + minutes(1.0));
        assert_eq!(from(&bake), Some(first.planned.clone()));
        // Somebody has begun meanwhile, so none of them is how it was.
        let gather = bake.state().formula.steps[0].id;
        say(&mut bake, Intent::Done(gather), at + minutes(2.0));
        assert_eq!(from(&bake), shown.cloned());
    }
}
