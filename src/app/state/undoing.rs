//! What "undo" would take back, and what of that can be put back: told before it is pressed.

use domain::bake::{Bake, BakeId, Entry, Event, Intent, Keeps, Wishes, decide};
use domain::units::{Minutes, Moment, minutes};
use platform::clock;

use super::Oventide;
use super::plan::running_bakes;

/// What was done so long ago is told with its time, and asked about before it is taken back.
///
/// ASSUMPTION: judgement: who slips presses undo sooner.
const OLD: Minutes = minutes(5.0);

/// What one press did, for `words` to name.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Named {
    pub(crate) event: Event,
    /// The name of its step, or of the bread where that was started.
    pub(crate) title: String,
    /// Which fold it was, from 1, where it was one.
    pub(crate) fold: usize,
    /// What was wished without it, where it was a wish.
    pub(crate) wished: Wishes,
}

/// Something that can be taken back, or put back.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Back {
    pub(crate) bake: BakeId,
    pub(crate) what: Named,
    /// When it was said.
    pub(crate) at: Moment,
}

impl Back {
    /// What "undo" would take back at a bake.
    pub(crate) fn undo(bake: &Bake) -> Option<Self> {
        let entries = decide(bake, Intent::Undo, bake.state().newest).ok()?;
        let mut after = bake.clone();
        after.append(entries);
        Self::taken(bake, &after)
    }

    /// What was taken back between two states of a bake. With what it was started for all of it goes.
    pub(super) fn taken(before: &Bake, after: &Bake) -> Option<Self> {
        let places = match &after.log().last()?.event {
            Event::Undone { entries } => &entries[..],
            _ => &[0],
        };
        Self::of(before, places, &after.state().wishes)
    }

    /// What can be put back at a bake.
    pub(crate) fn put(bake: &Bake) -> Option<Self> {
        let place = bake.to_put_back()?;
        let Event::Undone { entries } = &bake.log().get(place as usize)?.event else {
            return None;
        };
        let mut with = Self::of(bake, entries, &bake.state().wishes)?;
        let counts = matches!(
            with.what.event,
            Event::Folded { .. } | Event::FoldSkipped { .. }
        );
        with.what.fold += usize::from(counts);
        Some(with)
    }

    fn of(bake: &Bake, places: &[u32], wished: &Wishes) -> Option<Self> {
        let state = bake.state();
        let entries = places
            .iter()
            .filter_map(|&place| bake.log().get(place as usize));
        // Of what one press did, what was done last says it all, unless that was only to turn to it.
        let turned = |entry: &&Entry| matches!(entry.event, Event::Picked { .. });
        let Entry { at, event } = entries.max_by_key(|entry| !turned(entry))?;
        let step = event.step();
        let folds = step.map_or(0, |step| state.progress(step).folds.len());
        let put_off = matches!(event, Event::FoldPutOff { .. });
        let title = step.map_or(&*state.formula.name, |step| state.formula.title(step));
        Some(Self {
            bake: bake.id.clone(),
            what: Named {
                event: event.clone(),
                title: title.to_owned(),
                fold: folds + usize::from(put_off),
                wished: wished.clone(),
            },
            at: *at,
        })
    }

    /// Whether it is told with its time.
    pub(crate) fn is_old(&self, now: Moment) -> bool {
        now - self.at >= OLD
    }

    /// Whether it was asked of the plan: that can be taken back where the plan is shown.
    fn is_of_plan(&self) -> bool {
        matches!(
            self.what.event,
            Event::Started(_)
                | Event::Wished(_)
                | Event::Pinned { .. }
                | Event::RetardPlanned { .. }
                | Event::Refitted(_)
        )
    }
}

impl Oventide {
    /// What was asked of the plan last, where that is the newest thing that happened to its bake, or was taken back there:
    /// by how it is found.
    pub(crate) fn newest_of_plan(self, find: fn(&Bake) -> Option<Back>) -> Option<Back> {
        let bakes = self.bakes.read();
        let found = running_bakes(&bakes).filter_map(find);
        found.filter(Back::is_of_plan).max_by_key(|back| back.at)
    }

    /// Whether it is asked first if that is meant: it was done long ago, or food counts as lost without it.
    pub(crate) fn is_asked_first(self, back: &Back) -> bool {
        let now = clock::now();
        let Some(bake) = self.bake(&back.bake) else {
            return false;
        };
        let is_lost = |bake: &Bake| {
            let stood = bake.state().stood(now);
            stood.iter().any(|stood| stood.keeps(now) > Keeps::Soon)
        };
        let mut after = bake.clone();
        after.append(decide(&bake, Intent::Undo, now).unwrap_or_default());
        back.is_old(now) || (is_lost(&after) && !is_lost(&bake))
    }
}

#[cfg(test)]
mod tests {
    use checks::{begin, say, starter, up_to};
    use domain::formula::StepKind;
    use domain::kitchen::Kitchen;

    use super::*;

    const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    /// What is taken back, and what is put back after it: the same thing in the same words.
    fn both(bake: &mut Bake, now: Moment) -> Back {
        let undo = Back::undo(bake).expect("there is something");
        let before = bake.clone();
        say(bake, Intent::Undo, now);
        assert_eq!(Back::taken(&before, bake), Some(undo.clone()));
        assert_eq!(Back::put(bake), Some(undo.clone()));
        undo
    }

    #[test]
    fn what_is_taken_back_is_named_the_same_before_and_after() {
        let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        let (rise, now) = up_to(&mut bake, StepKind::Bulk, START, |_| minutes(10.0));
        let done = both(&mut bake, now + minutes(1.0));
        assert!(matches!(done.what.event, Event::Done { .. }) && !done.what.title.is_empty());
        say(&mut bake, Intent::PutBack, now + minutes(2.0));
        say(&mut bake, Intent::Folded(rise), now + minutes(30.0));
        let fold = both(&mut bake, now + minutes(31.0));
        assert_eq!((fold.what.fold, fold.at), (1, now + minutes(30.0)));
        assert!(!fold.is_old(now + minutes(34.0)) && fold.is_old(now + minutes(35.0)));
        let wishes = Wishes {
            table: Some(now + minutes(600.0)),
            ..Wishes::default()
        };
        say(
            &mut bake,
            Intent::Wish(Box::new(wishes)),
            now + minutes(40.0),
        );
        let wish = both(&mut bake, now + minutes(41.0));
        assert_eq!(wish.what.wished, Wishes::default());
        assert!(wish.is_of_plan());
    }

    /// With the table that it was started for all of a bread goes, and that says so.
    #[test]
    fn a_bread_that_goes_with_its_table_is_named() {
        let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        let wishes = Wishes {
            table: Some(START + minutes(600.0)),
            ..Wishes::default()
        };
        say(&mut bake, Intent::Wish(Box::new(wishes)), START);
        let back = Back::undo(&bake).expect("the start goes with the table");
        assert!(matches!(back.what.event, Event::Started(_)) && back.is_of_plan());
        assert_eq!(back.what.title, bake.state().formula.name);
    }
}
