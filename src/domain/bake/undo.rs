//! Taking back: which entries of a log no longer count, and which go next.

use super::Bake;
use super::event::{Entry, Event};
use super::intent::Refusal;
use crate::kitchen::Kitchen;
use crate::sorted::Set;
use crate::units::{Minutes, Moment, minutes};

/// The places of entries that later ones took back. Taking back can be taken back itself: that puts back what it took.
pub(super) fn undone(log: &[Entry]) -> Set<u32> {
    let mut gone = Set::new();
    for (place, entry) in places(log).rev() {
        if let Event::Undone { entries } = &entry.event
            && !gone.contains(&place)
        {
            // What comes after it can't have been taken back by it.
            for &earlier in entries.iter().filter(|&&earlier| earlier < place) {
                gone.insert(earlier);
            }
        }
    }
    gone
}

fn places(log: &[Entry]) -> impl DoubleEndedIterator<Item = (u32, &Entry)> {
    let end = u32::try_from(log.len()).unwrap_or(u32::MAX);
    (0..end).zip(log)
}

/// Takes back what the newest intent did: all its entries, and no less.
pub(super) fn undo(bake: &Bake) -> Result<Vec<Event>, Refusal> {
    // What was heard stays heard, with all that hearing it did.
    let kept: Set<Moment> = bake
        .log()
        .iter()
        .filter(|entry| {
            matches!(
                entry.event,
                Event::Started(_) | Event::Undone { .. } | Event::Acknowledged { .. }
            )
        })
        .map(|entry| entry.at)
        .collect();
    let events = take_back_newest(bake, |entry| !kept.contains(&entry.at));
    match events.first() {
        None => Err(Refusal::NothingToUndo),
        // Whoever takes back what a bake was started for takes back the start.
        Some(Event::Undone { entries })
            if !bake.state().has_begun()
                && with_the_start(bake).is_some_and(|place| entries.contains(&place)) =>
        {
            Ok(vec![Event::Abandoned])
        }
        Some(_) => Ok(events),
    }
}

/// Puts back what was taken back last, as long as nothing has happened since.
pub(super) fn put_back(bake: &Bake) -> Result<Vec<Event>, Refusal> {
    let entries = vec![bake.to_put_back().ok_or(Refusal::NothingToUndo)?];
    Ok(vec![Event::Undone { entries }])
}

/// Takes back the newest change of the kitchen, whatever came after it, if that
/// makes it like `back`. Bakes share a kitchen: what is taken back at one of them
/// has to go from the logs of the others.
pub(super) fn undo_kitchen(bake: &Bake, back: &Kitchen) -> Vec<Event> {
    let events = take_back_newest(bake, |entry| {
        matches!(
            entry.event,
            Event::KitchenMeasured { .. } | Event::KitchenChanged(_)
        )
    });
    let at = bake.state().newest;
    let mut without = bake.clone();
    without.append(events.iter().cloned().map(|event| Entry { at, event }));
    if without.state().kitchen == *back {
        events
    } else {
        Vec::new()
    }
}

/// A table that a bake is started for is wished within this time.
const WITH_THE_START: Minutes = minutes(0.1 / 60.0);

/// The place of the table that a bake was started for. What is taken over from others stands at the moment of the start,
/// and a table right after it.
fn with_the_start(bake: &Bake) -> Option<u32> {
    let started = bake.log().first()?.at;
    let mut log = (0_u32..).zip(bake.log());
    let (place, first) = log.find(|(_, entry)| entry.at > started)?;
    let is_wish = matches!(first.event, Event::Wished(_));
    (is_wish && first.at - started <= WITH_THE_START).then_some(place)
}

impl Bake {
    /// The place of the entry that took back what can be put back: the newest that still counts, if nothing has happened
    /// since but that more was taken back and put back again, or an alarm was heard.
    #[must_use]
    pub fn to_put_back(&self) -> Option<u32> {
        let gone = undone(&self.log);
        let puts_back = |of: &u32| {
            let of = self.log.get(*of as usize);
            of.is_some_and(|of| matches!(of.event, Event::Undone { .. }))
        };
        let since = places(&self.log)
            .rev()
            .map_while(|(place, entry)| match &entry.event {
                Event::Undone { entries } => Some(
                    (!gone.contains(&place) && !entries.iter().any(puts_back)).then_some(place),
                ),
                Event::Acknowledged { .. } => Some(None),
                _ => None,
            });
        since.flatten().next()
    }

    /// When something was last wished of it that still counts, if that wasn't as it was started: a table chosen then is
    /// its own.
    #[must_use]
    pub fn newest_wish(&self) -> Option<Moment> {
        let taken_back = undone(self.log());
        let counts = (0_u32..)
            .zip(self.log())
            .filter(|(place, _)| !taken_back.contains(place));
        let is_wish = |entry: &&Entry| matches!(entry.event, Event::Wished(_));
        let newest = counts.filter(|(_, entry)| is_wish(entry)).last();
        let first = with_the_start(self);
        let newest = newest.filter(|(place, _)| first != Some(*place));
        newest.map(|(_, entry)| entry.at)
    }
}

/// Takes back the newest wish, whatever came after it, if it was wished by one press with one at another bake, which
/// their moment tells ([`moment_of_press`](super::moment_of_press)), and nobody is then there when it is said that nobody is: breads share a kitchen.
pub(super) fn undo_wishes(bake: &Bake, wished_at: Moment, away: &[(Moment, Moment)]) -> Vec<Event> {
    if bake.newest_wish() != Some(wished_at) {
        return Vec::new();
    }
    let events = take_back_newest(bake, |entry| matches!(entry.event, Event::Wished(_)));
    let at = bake.state().newest;
    let mut without = bake.clone();
    without.append(events.iter().cloned().map(|event| Entry { at, event }));
    if without.state().wishes.away == away {
        events
    } else {
        Vec::new()
    }
}

/// Of the entries that still count and may go, those of the newest moment.
fn take_back_newest(bake: &Bake, may_go: impl Fn(&Entry) -> bool) -> Vec<Event> {
    let taken_back = undone(bake.log());
    let left: Vec<(u32, Moment)> = (0_u32..)
        .zip(bake.log())
        .filter(|(place, entry)| may_go(entry) && !taken_back.contains(place))
        .map(|(place, entry)| (place, entry.at))
        .collect();
    let Some(&(_, newest)) = left.last() else {
        return Vec::new();
    };
    let newest = left.into_iter().filter(|&(_, at)| at == newest);
    let entries = newest.map(|(place, _)| place).collect();
    vec![Event::Undone { entries }]
}
