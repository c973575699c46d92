//! What stands in the fridge: a rise for its planned night, and what was put away until it is used.
//!
//! It asks nothing of the hands, so a plan has no item for most of it. A baker looks for it all the same: whoever
//! wants to know where the dough is at midnight shouldn't have to reckon it from two moments.

use domain::bake::{How, State};
use domain::formula::{Step, StepId};
use domain::schedule::plan::What;
use domain::sorted;
use domain::units::Moment;

use super::Planned;
use super::told::{Entry, Lane, Why};
use crate::words::plan as words;

/// What begins and ends within the same minute is nothing to tell.
const LEAST_MS: i64 = 60_000;

/// Adds what stands in the fridge, each where it begins.
pub(super) fn add(entries: &mut Vec<Entry>, planned: &Planned, states: &[&State]) {
    let mut found: Vec<Entry> = entries.iter().filter_map(|e| of_rise(e, entries)).collect();
    for (bake, state) in states.iter().enumerate() {
        let steps = state.formula.steps.iter();
        let put_away = steps.filter(|step| step.is_hands() && step.needs.fridge);
        found.extend(put_away.filter_map(|step| of_put_away(step, bake, planned, states, entries)));
    }
    entries.append(&mut found);
    sorted::by_key(entries, |entry| entry.start);
}

/// Behind the key of what it is about.
const COLD: &str = "/cold";

/// The time that a rise stands there, from when hands have put it in until they take it out.
fn of_rise(rise: &Entry, entries: &[Entry]) -> Option<Entry> {
    let stay = rise
        .cold
        .filter(|_| rise.lane != Lane::Hands && !rise.is_cold)?;
    let at = |way: &str| with_key(entries, &(rise.key.clone() + way));
    let goes_in = at("/in");
    let start = goes_in.map_or(stay.from.max(rise.start), |goes_in| goes_in.end);
    let end = at("/out").map_or(stay.to.min(rise.end), |out| out.start);
    let why = if stay.is_in {
        Why::GoesOn
    } else {
        Why::Planned
    };
    stands(rise, &rise.title, (start, end), why)
}

/// The time that something stands there from when a step has put it away until another takes it up.
fn of_put_away(
    step: &Step,
    bake: usize,
    planned: &Planned,
    states: &[&State],
    entries: &[Entry],
) -> Option<Entry> {
    let (span, next) = put_away_until_used(planned, states, bake, step)?;
    let key = |step: StepId| format!("{}/{}", planned.bakes[bake].0, step.0);
    let next = with_key(entries, &key(next))?;
    let lane = Lane::Part(bake, step.component);
    let part = states[bake].formula.component_of(step)?;
    let user = Entry {
        key: key(step.id),
        of: Some((planned.bakes[bake].clone(), step.id)),
        lane,
        part: Some(lane),
        cold: None,
        ..next.clone()
    };
    let after = with_key(entries, &user.key);
    let why = after.map_or(Why::GoesOn, |after| Why::After(after.title.clone()));
    stands(&user, words::part(part.kind), span, why)
}

fn with_key<'a>(entries: &'a [Entry], key: &str) -> Option<&'a Entry> {
    entries.iter().find(|entry| entry.key == key)
}

/// What of a rise, or of what puts something away, stands in the fridge for a time.
fn stands(of: &Entry, what: &str, (start, end): (Moment, Moment), why: Why) -> Option<Entry> {
    let is_notable = end.epoch_ms() - start.epoch_ms() >= LEAST_MS;
    is_notable.then(|| Entry {
        key: of.key.clone() + COLD,
        title: words::stands(what),
        short: Some(words::STANDS.to_owned()),
        start,
        end,
        window: None,
        hangs: false,
        tables: Vec::new(),
        pinned: None,
        passed: None,
        is_cold: true,
        can_fix: false,
        why,
        too_late_by: None,
        ..of.clone()
    })
}

/// From when a step has put something away to when the last of it is taken up, and by which; none where it only brings
/// to the fridge what has a step there.
fn put_away_until_used(
    planned: &Planned,
    states: &[&State],
    bake: usize,
    step: &Step,
) -> Option<((Moment, Moment), StepId)> {
    let (state, plan) = (states[bake], &planned.timetable.plan);
    let item = |step: StepId| plan.item(What::Step(bake, step));
    let steps = state.formula.steps.iter();
    let next = steps.filter(|next| next.after.iter().any(|link| link.step == step.id));
    if next.clone().any(|next| next.needs.fridge) {
        return None;
    }
    let from = item(step.id).map(|item| item.end);
    let from = from.or(put_away(state, step))?;
    let to = match plan.item(What::Kept(bake, step.id)) {
        Some(kept) => kept.end,
        // The plan counts nothing that is about to be taken up, nor in a fridge that was full already.
        None if next
            .clone()
            .any(|next| state.progress(next.id).ended.is_some()) =>
        {
            return None;
        }
        None => next.filter_map(|next| Some(item(next.id)?.start)).min()?,
    };
    let takes = plan.items.iter().find_map(|item| match item.what {
        What::Step(of, next) if of == bake && item.start == to => Some(next),
        _ => None,
    });
    Some(((from, to), takes?))
}

/// When that was done; what was left out is nowhere.
fn put_away(state: &State, step: &Step) -> Option<Moment> {
    let ended = state.progress(step.id).ended;
    ended
        .filter(|ended| ended.how == How::Done)
        .map(|ended| ended.at)
}

#[cfg(test)]
mod tests {
    use checks::{begin, say, starter, up_to};
    use domain::bake::{Bake, Intent};
    use domain::estimate::{Basis, Estimate};
    use domain::formula::{ComponentId, Draft, Formula, Length, Link, Step, StepId, StepKind};
    use domain::kitchen::Kitchen;
    use domain::schedule::plan::timetable;
    use domain::units::{Moment, minutes};

    use super::super::Planned;
    use super::super::told::{Entry, Told};

    const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    fn cold(bake: &Bake, now: Moment) -> (Vec<Entry>, Vec<Entry>) {
        let timetable = timetable(&[bake.state()], now, None, &mut || true);
        let timetable = timetable.expect("there is a plan");
        let bakes = [bake.clone()];
        let planned = Planned::new(&bakes, timetable, now, None);
        let told = Told::of(&planned, &bakes, now).expect("it is planned");
        assert!(told.entries.is_sorted_by_key(|entry| entry.start));
        let (cold, others) = told.entries.into_iter().partition(|entry| entry.is_cold);
        (cold, others)
    }

    #[test]
    fn a_rise_stands_there_from_when_it_is_put_in_until_it_is_taken_out() {
        let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        let (rise, now) = up_to(&mut bake, StepKind::Bulk, START, |_| minutes(5.0));
        let stay = (now + minutes(10.0), now + minutes(150.0));
        say(&mut bake, Intent::PlanRetard(rise, Some(stay)), now);
        let (cold, others) = cold(&bake, now);
        let moves = |way: &str| {
            others
                .iter()
                .find(|entry| entry.key.ends_with(way))
                .cloned()
        };
        let (goes_in, comes_out) = (
            moves("/in").expect("it is there"),
            moves("/out").expect("it is there"),
        );
        let stands = cold
            .iter()
            .find(|entry| entry.cold.is_some())
            .expect("it is there");
        assert_eq!(stands.title, "First rise: in the fridge");
        assert_eq!((stands.start, stands.end), (goes_in.end, comes_out.start));
        let rise = others
            .iter()
            .find(|entry| entry.title == "First rise")
            .expect("it is there");
        assert_eq!(stands.lane, rise.lane);
        assert!(rise.start <= stands.start && stands.end <= rise.end);
    }

    #[test]
    fn a_filling_stands_there_until_it_is_used_also_once_it_is_in_there() {
        let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        let ends = |(cold, others): (Vec<Entry>, Vec<Entry>)| {
            assert_eq!(cold.len(), 1);
            assert_eq!(cold[0].title, "Filling: in the fridge");
            let fill = others
                .iter()
                .find(|entry| entry.title == "Fill")
                .expect("it is there");
            assert_eq!(cold[0].end, fill.start);
            cold[0].start
        };
        assert!(ends(cold(&bake, START)) > START);
        let (_, now) = up_to(&mut bake, StepKind::Divide, START, |_| minutes(5.0));
        assert!(ends(cold(&bake, now)) < now);
        let (_, now) = up_to(&mut bake, StepKind::FinalProof, now, |_| minutes(5.0));
        assert_eq!(cold(&bake, now).0, []);
    }

    /// As the plan counts it: until the last of it is fetched, also once some of it was.
    #[test]
    fn a_filling_that_is_used_twice_stands_there_until_the_second_time() {
        let mut formula = Draft::clone(&starter("plum-almond-buns"));
        let place = formula
            .steps
            .iter()
            .position(|step| step.kind == StepKind::Fill);
        let place = place.expect("it is filled");
        let first = formula.steps[place].clone();
        let like = |id: u16, title: &str, after: &[StepId]| {
            let links = after.iter().map(|&step| Link {
                step,
                ..first.after[0]
            });
            Step {
                id: StepId(id),
                title: title.to_owned(),
                after: links.collect(),
                // All of it is baked within its two hours, or the plan would say that it isn't.
                length: Length::Hands(Estimate::exact(minutes(3.0), Basis::Formula)),
                ..first.clone()
            }
        };
        for step in &mut formula.steps {
            let follows = step.after.iter_mut().filter(|link| link.step == first.id);
            follows.for_each(|link| link.step = StepId(91));
        }
        let mut turn = like(90, "Turn them", &[first.id]);
        (turn.kind, turn.component) = (StepKind::Prepare, ComponentId(1));
        formula.steps.insert(place + 1, turn);
        let again = like(91, "Fill again", &[first.id, StepId(90)]);
        formula.steps.insert(place + 2, again);
        let formula = Formula::new(formula).expect("it holds together");
        let mut bake = begin(formula, Kitchen::UNMEASURED, START);
        let until = |bake: &Bake, now| {
            let (cold, others) = cold(bake, now);
            let mut others = others.iter();
            let again = others.find(|entry| entry.title == "Fill again");
            assert_eq!(cold.len(), 1);
            assert_eq!(cold[0].end, again.expect("it is there").start);
        };
        until(&bake, START);
        let (fill, now) = up_to(&mut bake, StepKind::Fill, START, |_| minutes(5.0));
        until(&bake, now);
        say(&mut bake, Intent::Done(fill), now + minutes(10.0));
        until(&bake, now + minutes(10.0));
    }

    #[test]
    fn what_has_a_step_there_is_told_by_that() {
        let bake = begin(starter("overnight-tin-loaf"), Kitchen::UNMEASURED, START);
        let (cold, _) = cold(&bake, START);
        let titles: Vec<&str> = cold.iter().map(|entry| &*entry.title).collect();
        assert_eq!(titles, ["Night in fridge"]);
    }
}
