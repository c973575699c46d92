//! What moved in the plan lately.

use domain::bake::{Bake, BakeId};
use domain::schedule::plan::Moved;
use domain::units::Moment;

use super::Promised;

/// So many changes are remembered.
pub(super) const MOST_CHANGES: usize = 5;

/// What moved in the plan, with the moment.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Change {
    /// When.
    pub(crate) at: Moment,
    /// What, and why.
    pub(crate) moved: Moved,
    /// What was planned then.
    bakes: Vec<BakeId>,
    /// The moment of the newest entry in the logs: what one press enters into several has one moment, which nothing
    /// else that was ever said has.
    press: Option<Moment>,
}

impl Change {
    pub(super) fn of(moved: Moved, is: &Promised, at: Moment) -> Self {
        let newest = is.bakes.iter().filter_map(|bake| bake.log().last());
        Self {
            at,
            moved,
            bakes: is.planned.bakes.clone(),
            press: newest.map(|entry| entry.at).max(),
        }
    }

    /// Whether it tells of a bake that isn't planned any more, or of none that is.
    pub(super) fn is_over(&self, running: &[Bake]) -> bool {
        let runs = |id: &BakeId| running.iter().any(|bake| bake.id == *id);
        !self.bakes.iter().any(runs) || self.moved.named().any(|named| !runs(&named.bake))
    }
}

/// What is asked of several bakes by one press is told as one change, however long storing it took.
pub(super) fn keep_change(changes: &mut Vec<Change>, mut change: Change) {
    let same = changes
        .first()
        .filter(|last| last.moved.why == change.moved.why && last.press == change.press);
    if let Some(last) = same {
        change.moved.goes_on_from(&last.moved);
        changes.remove(0);
    }
    changes.insert(0, change);
    changes.truncate(MOST_CHANGES);
}

#[cfg(test)]
mod tests {
    use domain::schedule::plan::Why;
    use domain::units::minutes;

    use super::*;

    const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    /// Told some seconds after a press, with how much later the end is after it than an hour on.
    fn change(press: f64, told: f64, ready: (f64, f64)) -> Change {
        let seconds = |seconds: f64| START + minutes(seconds / 60.0);
        let end = |later: f64| START + minutes(60.0 + later);
        Change {
            at: seconds(told),
            moved: Moved {
                of: Vec::new(),
                ready: (end(ready.0), end(ready.1)),
                margin: None,
                most: None,
                next: None,
                each: Vec::new(),
                why: Why::Equipment,
            },
            bakes: Vec::new(),
            press: Some(seconds(press)),
        }
    }

    #[test]
    fn what_only_time_has_moved_is_told_from_five_minutes_on() {
        let is_news = |why: Why, later: f64| {
            let moved = change(0.0, 0.1, (0.0, later)).moved;
            Moved { why, ..moved }.is_news()
        };
        assert!(!is_news(Why::Time, 4.0) && !is_news(Why::Time, -4.0));
        assert!(is_news(Why::Time, 6.0) && is_news(Why::Time, -6.0));
        assert!(is_news(Why::Equipment, 2.0));
    }

    #[test]
    fn two_presses_are_told_apart_however_quick() {
        let mut changes = Vec::new();
        keep_change(&mut changes, change(0.0, 0.1, (0.0, 5.0)));
        keep_change(&mut changes, change(1.0, 1.1, (5.0, 9.0)));
        let told: Vec<_> = changes.iter().map(|change| change.moved.ready).collect();
        let end = |later: f64| START + minutes(60.0 + later);
        assert_eq!(told, [(end(5.0), end(9.0)), (end(0.0), end(5.0))]);
    }

    #[test]
    fn what_one_press_asks_of_several_bakes_is_one_change_however_slowly_it_is_stored() {
        let mut changes = Vec::new();
        keep_change(&mut changes, change(0.0, 0.1, (0.0, 5.0)));
        keep_change(&mut changes, change(0.0, 20.0, (5.0, 9.0)));
        let told: Vec<_> = changes.iter().map(|change| change.moved.ready).collect();
        assert_eq!(told, [(START + minutes(60.0), START + minutes(69.0))]);
    }
}
