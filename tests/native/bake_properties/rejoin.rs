//! Logs that two tabs wrote apart, made one again. The rules are our own: nothing
//! is lost, nothing stands twice, and every entry means what it meant.

use domain::bake::{AlarmId, Bake, Entry, Event, Intent, TimerId, decide, due, rejoin};
use domain::formula::ComponentId;
use domain::kitchen::Kitchen;
use domain::units::{Minutes, Moment, celsius, minutes};
use proptest::prelude::*;

use super::days::{NINE, any_event, any_moment, quietly, start};
use super::derive_all;

fn asked(bake: &mut Bake, intent: Intent, after: f64) {
    let now = NINE + minutes(after);
    let entries = decide(bake, intent, now).expect("it can be asked");
    bake.append(entries);
}

fn timer(name: &str, length: f64) -> Intent {
    Intent::SetTimer(name.to_owned(), minutes(length))
}

/// The stored side with the rest of the other.
fn joined(stored: &Bake, ours: &Bake) -> Bake {
    let mut all = stored.clone();
    all.append(rejoin(stored.log(), ours.log()));
    all
}

fn timers(bake: &Bake) -> Vec<(&str, Moment)> {
    let timers = bake.state().timers.values();
    timers
        .map(|timer| (timer.name.as_str(), timer.due))
        .collect()
}

#[test]
fn what_only_one_side_knows_follows_what_is_stored() {
    let begun = start(0, Kitchen::UNMEASURED);
    let (mut stored, mut ours) = (begun.clone(), begun.clone());
    asked(&mut stored, Intent::KitchenIs(celsius(24.0)), 5.0);
    asked(
        &mut ours,
        Intent::Done(begun.state().formula.steps[0].id),
        3.0,
    );
    let both = joined(&stored, &ours);
    assert_eq!(both.log()[..2], stored.log()[..]);
    assert_eq!(both.log()[2..], ours.log()[1..]);
    let first = begun.state().formula.steps[0].id;
    let ended = both.state().progress(first).ended.expect("it was done");
    assert_eq!(ended.at, NINE + minutes(3.0));
}

#[test]
fn timers_of_both_sides_ring_when_they_were_set_to() {
    let begun = start(0, Kitchen::UNMEASURED);
    let (mut stored, mut ours) = (begun.clone(), begun);
    asked(&mut stored, timer("tea", 10.0), 1.0);
    asked(&mut ours, timer("eggs", 6.0), 2.0);
    asked(&mut ours, timer("rice", 20.0), 3.0);
    let alarm = AlarmId::Timer(TimerId(0));
    asked(&mut ours, Intent::Hear(alarm), 9.0);
    let both = joined(&stored, &ours);
    // The eggs were heard by our side; the tea has their number and was not.
    let (tea, rice) = (NINE + minutes(11.0), NINE + minutes(23.0));
    assert_eq!(timers(&both), [("tea", tea), ("rice", rice)]);
    let ringing = due(both.state(), NINE + minutes(30.0));
    let rings = |timer| ringing.iter().any(|one| one.id == AlarmId::Timer(timer));
    assert!(rings(TimerId(0)) && !rings(TimerId(1)) && rings(TimerId(2)));
}

#[test]
fn what_one_side_took_back_stays_taken_back() {
    let begun = start(0, Kitchen::UNMEASURED);
    let (mut stored, mut ours) = (begun.clone(), begun);
    asked(&mut stored, timer("tea", 10.0), 1.0);
    asked(&mut ours, Intent::KitchenIs(celsius(30.0)), 2.0);
    asked(&mut ours, Intent::Undo, 3.0);
    let both = joined(&stored, &ours);
    assert_eq!(timers(&both).len(), 1);
    assert_eq!(both.state().kitchen.air, Kitchen::UNMEASURED.air);
}

#[test]
fn intents_of_one_millisecond_can_be_taken_back_one_by_one() {
    let begun = start(0, Kitchen::UNMEASURED);
    let (mut stored, mut ours) = (begun.clone(), begun);
    asked(&mut stored, timer("tea", 10.0), 1.0);
    asked(&mut ours, timer("eggs", 6.0), 1.0);
    let mut both = joined(&stored, &ours);
    asked(&mut both, Intent::Undo, 2.0);
    assert_eq!(timers(&both).len(), 1);
    assert_eq!(timers(&both)[0].0, "tea");
}

#[test]
fn the_newest_reading_counts_wherever_it_stands() {
    let begun = start(0, Kitchen::UNMEASURED);
    let dough = ComponentId(1);
    let (mut stored, mut ours) = (begun.clone(), begun);
    asked(&mut stored, Intent::KitchenIs(celsius(26.0)), 30.0);
    asked(&mut stored, Intent::DoughIs(dough, celsius(25.0)), 31.0);
    asked(&mut ours, Intent::KitchenIs(celsius(21.0)), 10.0);
    asked(&mut ours, Intent::DoughIs(dough, celsius(23.0)), 11.0);
    let both = joined(&stored, &ours);
    let state = both.state();
    assert_eq!(state.kitchen.air, celsius(26.0));
    assert!(state.air.is_sorted_by_key(|&(at, _)| at));
    let mut newest_first = state.doughs.iter().rev();
    let newest = newest_first.find(|reading| reading.of == dough);
    let newest = newest.expect("it was measured");
    assert_eq!(newest.temperature, celsius(25.0));
}

#[test]
fn a_log_that_was_taken_away_comes_back_whole() {
    let mut ours = start(0, Kitchen::UNMEASURED);
    asked(&mut ours, timer("tea", 10.0), 1.0);
    asked(&mut ours, Intent::Undo, 2.0);
    assert_eq!(rejoin(&[], ours.log()), ours.log());
}

/// Which of the two tabs.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Tab {
    Stored,
    Ours,
}

/// What happens to a phone with two tabs.
#[derive(Debug, Clone)]
enum Happens {
    /// A timer is set in one of them.
    Timer(Tab),
    /// The clock is set, by so many minutes, and the baker says so in one of them or in both.
    Jump(f64, bool, bool),
}

fn any_day() -> impl Strategy<Value = Vec<Happens>> {
    let tab = prop_oneof![Just(Tab::Stored), Just(Tab::Ours)];
    let timers = prop::collection::vec(tab, 0..3);
    // No two jumps are alike, for then nobody could tell which of them both tabs saw.
    let jumps = prop::sample::subsequence(vec![-95.0, -40.0, 25.0, 60.0, 130.0], 0..3);
    // What only one tells of, the same one does: of two, one each, nobody could tell which came first.
    let days = (
        jumps.prop_shuffle(),
        prop::collection::vec((any::<bool>(), timers), 4),
        any::<bool>(),
    );
    days.prop_map(|(jumps, parts, ours)| {
        let mut day = Vec::new();
        let mut jumps = jumps.into_iter();
        for (both, timers) in parts {
            day.extend(timers.into_iter().map(Happens::Timer));
            let jump = jumps.next();
            day.extend(jump.map(|by| Happens::Jump(by, both || !ours, both || ours)));
        }
        day
    })
}

fn any_entries() -> impl Strategy<Value = Vec<Entry>> {
    let entry = (any_moment(), any_event()).prop_map(|(at, event)| Entry { at, event });
    prop::collection::vec(entry, 0..12)
}

/// What an entry says, whichever number its timer has and wherever what it takes back stands.
fn gist(event: &Event) -> (std::mem::Discriminant<Event>, Option<Minutes>) {
    let length = match event {
        Event::TimerSet { length, .. } => Some(*length),
        _ => None,
    };
    (std::mem::discriminant(event), length)
}

proptest! {
    #![proptest_config(quietly(200))]

    #[test]
    fn nothing_is_lost_and_nothing_stands_twice(
        which in 0_usize..3,
        both in any_entries(),
        theirs in any_entries(),
        mine in any_entries(),
    ) {
        let mut begun = start(which, Kitchen::UNMEASURED);
        begun.append(both);
        let (mut stored, mut ours) = (begun.clone(), begun.clone());
        stored.append(theirs);
        ours.append(mine);
        let all = joined(&stored, &ours);

        // Random entries can agree by chance behind what both began with.
        let pairs = stored.log().iter().zip(ours.log());
        let common = pairs.take_while(|(one, other)| one == other).count();
        let gists = |log: &[Entry]| log.iter().map(|entry| gist(&entry.event)).collect::<Vec<_>>();
        prop_assert_eq!(&all.log()[..stored.log().len()], stored.log());
        let rest = &all.log()[stored.log().len()..];
        prop_assert_eq!(gists(rest), gists(&ours.log()[common..]));

        // Joined once, both sides agree, and joining again adds nothing.
        prop_assert_eq!(rejoin(all.log(), all.log()), Vec::new());
        prop_assert_eq!(rejoin(all.log(), stored.log()), Vec::new());
        derive_all(&all, NINE + minutes(600.0));
    }

    /// Whoever tells of the clock's jumps, once joined every moment is that at which it really
    /// happened, by the newest clock: moved by all the jumps that came after it, by each once.
    #[test]
    fn a_clock_that_was_set_counts_once_for_both_sides(day in any_day()) {
        let begun = start(0, Kitchen::UNMEASURED);
        let (mut stored, mut ours) = (begun.clone(), begun.clone());
        // What the phone's clock is ahead of real time, and whether each tab missed that it was put back.
        let mut ahead = 0.0;
        let mut untold = [false, false];
        let mut wanted: Vec<(String, f64)> = Vec::new();
        for (part, happens) in day.iter().enumerate() {
            let real = 10.0 * (part + 1) as f64;
            match *happens {
                Happens::Timer(tab) => {
                    // By a clock that was put back unheard of, a log can't say when anything happens.
                    if untold[tab as usize] {
                        continue;
                    }
                    let name = format!("{part}");
                    let bake = if tab == Tab::Ours { &mut ours } else { &mut stored };
                    asked(bake, timer(&name, 500.0), real + ahead);
                    wanted.push((name, real));
                }
                Happens::Jump(by, in_stored, in_ours) => {
                    // A tab that missed a jump back would tell of both as one.
                    let tells = [in_stored && !untold[0], in_ours && !untold[1]];
                    if tells == [false, false] {
                        continue;
                    }
                    ahead += by;
                    for (tab, bake) in [&mut stored, &mut ours].into_iter().enumerate() {
                        if tells[tab] {
                            let answered = real + ahead + 1.0 + 0.2 * tab as f64;
                            asked(bake, Intent::ClockWasSet(minutes(by)), answered);
                        } else {
                            untold[tab] |= by < 0.0;
                        }
                    }
                }
            }
        }
        let both = joined(&stored, &ours);
        prop_assert!((both.state().started - (NINE + minutes(ahead))).get().abs() < 0.01);
        for (name, real) in wanted {
            let mut timers = both.state().timers.values();
            let timer = timers.find(|timer| timer.name == name).expect("it was set");
            let off = timer.set - (NINE + minutes(real + ahead));
            prop_assert!(off.get().abs() < 0.01, "{name} is off by {off:?}");
        }
        derive_all(&both, NINE + minutes(600.0));
    }

    /// An `Undone` behind the others' entries takes back what it took back before.
    #[test]
    fn what_is_taken_back_is_the_same_entry(mine in any_entries(), theirs in any_entries()) {
        let begun = start(0, Kitchen::UNMEASURED);
        let (mut stored, mut ours) = (begun.clone(), begun.clone());
        stored.append(theirs);
        ours.append(mine);
        let all = joined(&stored, &ours);
        let shift = all.log().len() - ours.log().len();
        for (place, entry) in ours.log().iter().enumerate().skip(1) {
            let Event::Undone { entries } = &entry.event else { continue };
            let Some(Entry { event: Event::Undone { entries: after }, .. }) =
                all.log().get(place + shift)
            else {
                continue;
            };
            for (&before, &after) in entries.iter().zip(after) {
                let (before, after) = (before as usize, after as usize);
                if let (Some(one), Some(other)) = (ours.log().get(before), all.log().get(after)) {
                    prop_assert_eq!(gist(&one.event), gist(&other.event));
                }
            }
        }
    }
}
