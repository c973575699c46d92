//! Random days: kitchens, events, intents, and bakers who follow or don't.

use domain::bake::{AlarmId, Bake, Event, Intent, Mark, TimerId, Wishes, decide, due};
use domain::formula::{ComponentId, Held, StepId};
use domain::kitchen::{Kitchen, Place};
use domain::schedule::{Ask, focus, offers, running};
use domain::units::{Celsius, Grams, Minutes, Moment, Share, minutes};
use proptest::prelude::*;
use records::starters;

/// So many cases; what fails is shown and becomes a test by hand, not a file.
pub(super) fn quietly(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// The start of every bake here: nine o'clock of a day.
pub(super) const NINE: Moment = Moment::from_epoch_ms(1_700_000_000_000);

/// A bake of one of the starters.
pub(super) fn start(which: usize, kitchen: Kitchen) -> Bake {
    checks::begin(starters::all().swap_remove(which), kitchen, NINE)
}

pub(super) fn any_kitchen() -> impl Strategy<Value = Kitchen> {
    (12.0..33.0_f64, 2.0..9.0_f64, 5.0..60.0_f64).prop_map(|(air, fridge, heats_in)| Kitchen {
        air: Celsius::clamped(air),
        fridge: Celsius::clamped(fridge),
        oven_heats_in: Minutes::clamped(heats_in),
        ..Kitchen::UNMEASURED
    })
}

/// From before the start to two days after it.
pub(super) fn any_moment() -> impl Strategy<Value = Moment> {
    (-200.0..2_880.0_f64).prop_map(|after| NINE + minutes(after))
}

fn any_step() -> impl Strategy<Value = StepId> {
    (0_u16..28).prop_map(StepId)
}

fn any_mark() -> impl Strategy<Value = Mark> {
    (0_u16..4, prop::option::of(0_u16..10)).prop_map(|(item, piece)| Mark { item, piece })
}

fn any_temperature() -> impl Strategy<Value = Celsius> {
    (-20.0..120.0_f64).prop_map(Celsius::clamped)
}

fn any_length() -> impl Strategy<Value = Minutes> {
    (-100.0..1_000.0_f64).prop_map(Minutes::clamped)
}

fn any_alarm() -> impl Strategy<Value = AlarmId> {
    (0_u8..10, any_step(), 0_u16..3).prop_map(|(kind, step, n)| match kind {
        0 => AlarmId::Check { step, round: n },
        1 => AlarmId::Fold { step, fold: n },
        2 => AlarmId::OvenOn { step },
        3 => AlarmId::CoolingStage { step },
        4 => AlarmId::Perishable { step },
        5 => AlarmId::CoolingEnd { step },
        6 => AlarmId::Begin,
        7 => AlarmId::Fixed { step },
        8 => AlarmId::Retard { step },
        _ => AlarmId::Timer(TimerId(u32::from(n))),
    })
}

fn any_wishes() -> impl Strategy<Value = Wishes> {
    let moment = || prop::option::of(any_moment());
    let away = prop::collection::vec((any_moment(), any_moment()), 0..3);
    (moment(), moment(), away).prop_map(|(table, not_before, away)| Wishes {
        table,
        not_before,
        away,
    })
}

fn any_held() -> impl Strategy<Value = Held> {
    proptest::sample::select(vec![
        Held::Bowl,
        Held::Tray,
        Held::Tin,
        Held::Jar,
        Held::Bag,
    ])
}

fn any_place() -> impl Strategy<Value = Place> {
    prop_oneof![
        Just(Place::Kitchen),
        Just(Place::Fridge),
        (15.0..40.0_f64).prop_map(|at| Place::Warm(Celsius::clamped(at))),
        (1.0..40.0_f64).prop_map(|at| Place::Water(Celsius::clamped(at))),
    ]
}

/// Anything a log could hold, whether it makes sense or not.
pub(super) fn any_event() -> impl Strategy<Value = Event> {
    let step = any_step;
    prop_oneof![
        2 => step().prop_map(|step| Event::Picked { step }),
        8 => step().prop_map(|step| Event::Done { step }),
        2 => step().prop_map(|step| Event::Skipped { step }),
        2 => step().prop_map(|step| Event::Reopened { step }),
        2 => (step(), any_mark(), any::<bool>())
            .prop_map(|(step, mark, on)| Event::Marked { step, mark, on }),
        2 => step().prop_map(|step| Event::Folded { step }),
        1 => step().prop_map(|step| Event::FoldSkipped { step }),
        1 => (step(), any_length()).prop_map(|(step, by)| Event::FoldPutOff { step, by }),
        2 => (step(), any_length()).prop_map(|(step, by)| Event::Extended { step, by }),
        2 => any_kitchen().prop_map(|kitchen| Event::KitchenChanged(Box::new(kitchen))),
        2 => any_temperature().prop_map(|air| Event::KitchenMeasured { air }),
        2 => (0_u16..7, any_temperature()).prop_map(|(component, temperature)| {
            Event::DoughMeasured { component: ComponentId(component), temperature }
        }),
        1 => (step(), any_temperature())
            .prop_map(|(step, temperature)| Event::CoreMeasured { step, temperature }),
        1 => (step(), any_temperature()).prop_map(|(step, oven)| Event::OvenHot { step, oven }),
        2 => (step(), any_place()).prop_map(|(step, place)| Event::Moved { step, place }),
        2 => (step(), any_held()).prop_map(|(step, held)| Event::Poured { step, held }),
        2 => (step(), 0.0..=1.0_f64, any_length()).prop_map(|(step, share, ago)| Event::RiseSeen {
            step,
            share: Share::clamped(share),
            ago,
        }),
        1 => (0_u16..20, 0.0..500.0_f64).prop_map(|(piece, mass)| Event::PieceWeighed {
            piece,
            mass: Grams::clamped(mass),
        }),
        1 => (0_u16..20).prop_map(|piece| Event::MassRemoved { piece }),
        1 => (0_u32..3, any_length()).prop_map(|(timer, length)| Event::TimerSet {
            timer: TimerId(timer),
            name: "tea".to_owned(),
            length,
        }),
        1 => (0_u32..3).prop_map(|timer| Event::TimerStopped { timer: TimerId(timer) }),
        2 => any_alarm().prop_map(|alarm| Event::Acknowledged { alarm }),
        2 => any_wishes().prop_map(|wishes| Event::Wished(Box::new(wishes))),
        2 => (step(), prop::option::of(any_moment())).prop_map(|(step, at)| Event::Pinned { step, at }),
        2 => (step(), prop::option::of((any_moment(), any_moment())))
            .prop_map(|(step, stay)| Event::RetardPlanned { step, stay }),
        1 => (0_usize..3).prop_map(|which| Event::Refitted(Box::new(starters::all().swap_remove(which)))),
        1 => Just(Event::Paused),
        1 => Just(Event::Resumed),
        1 => any_length().prop_map(|by| Event::ClockSet { by }),
        2 => (0_u32..30, any_length()).prop_map(|(entry, by)| Event::Since { entry, by }),
        1 => prop_oneof![Just(Event::Finished), Just(Event::Abandoned)],
        2 => prop::collection::vec(0_u32..30, 0..3).prop_map(|entries| Event::Undone { entries }),
    ]
}

/// By how much a phone's clock is set: it tells no seconds.
pub(super) fn any_jump() -> impl Strategy<Value = Minutes> {
    (-720_i32..=720).prop_map(|by| minutes(f64::from(by)))
}

/// The change of the kitchen was taken back at another bake.
pub(super) fn kitchen_undone(changed: Kitchen, back: Kitchen) -> Intent {
    let (changed, back) = (Box::new(changed), Box::new(back));
    Intent::KitchenUndone { changed, back }
}

/// Anything that could be asked for, sensible or not; temperatures as thermometers in kitchens show them.
pub(super) fn any_intent() -> impl Strategy<Value = Intent> {
    let step = any_step;
    let warm = || (5.0..33.0_f64).prop_map(Celsius::clamped);
    prop_oneof![
        2 => step().prop_map(Intent::Pick),
        6 => step().prop_map(Intent::Done),
        2 => (step(), any_length()).prop_map(|(step, by)| Intent::NotYet(step, by)),
        2 => step().prop_map(Intent::Skip),
        3 => step().prop_map(Intent::GoBack),
        2 => step().prop_map(Intent::MakeAnew),
        2 => (step(), any_mark(), any::<bool>())
            .prop_map(|(step, mark, on)| Intent::Mark(step, mark, on)),
        2 => step().prop_map(Intent::MarkNext),
        2 => step().prop_map(Intent::Folded),
        1 => step().prop_map(Intent::SkipFold),
        1 => (step(), any_length()).prop_map(|(step, by)| Intent::FoldNotYet(step, by)),
        2 => any_kitchen().prop_map(|kitchen| Intent::KitchenChanged(Box::new(kitchen))),
        1 => (any_kitchen(), any_kitchen())
            .prop_map(|(changed, back)| kitchen_undone(changed, back)),
        2 => warm().prop_map(Intent::KitchenIs),
        2 => (1_u16..4, warm())
            .prop_map(|(component, warm)| Intent::DoughIs(ComponentId(component), warm)),
        1 => (step(), any_temperature()).prop_map(|(step, core)| Intent::CoreIs(step, core)),
        1 => (step(), any_temperature()).prop_map(|(step, oven)| Intent::OvenHot(step, oven)),
        2 => (step(), any_place()).prop_map(|(step, place)| Intent::Move(step, place)),
        2 => (step(), any_held()).prop_map(|(step, held)| Intent::Pour(step, held)),
        2 => (step(), 0.1..=1.0_f64, 0.0..20.0_f64).prop_map(|(step, share, ago)| {
            Intent::RiseIs(step, Share::clamped(share), minutes(ago))
        }),
        1 => (0_u16..10, 0.0..500.0_f64)
            .prop_map(|(piece, mass)| Intent::PieceWeighs(piece, Grams::clamped(mass))),
        1 => (0_u16..10).prop_map(Intent::RemoveMass),
        2 => any_length().prop_map(|length| Intent::SetTimer("tea".to_owned(), length)),
        1 => (0_u32..3).prop_map(|timer| Intent::StopTimer(TimerId(timer))),
        1 => any_alarm().prop_map(Intent::Hear),
        2 => (0_u32..60, any_moment()).prop_map(|(entry, at)| Intent::Since(entry, at)),
        1 => prop_oneof![Just(Intent::Pause), Just(Intent::Resume)],
        1 => Just(Intent::Undo),
    ]
}

/// One thing a baker does, some minutes after the one before.
#[derive(Debug, Clone)]
pub(super) enum Move {
    /// What is asked for, or something else that is possible.
    Sensible { what: u8, which: u8 },
    /// Anything at all.
    Odd { intent: Intent, after: f64 },
}

pub(super) fn any_move() -> impl Strategy<Value = Move> {
    prop_oneof![
        3 => (0_u8..12, 0_u8..8).prop_map(|(what, which)| Move::Sensible { what, which }),
        1 => (any_intent(), 0.0..40.0_f64)
            .prop_map(|(intent, after)| Move::Odd { intent, after }),
    ]
}

/// Makes a move; what is refused is left out. Gives how late it is then.
pub(super) fn follow(bake: &mut Bake, what: Move, now: Moment) -> Moment {
    let (intent, now) = match what {
        Move::Odd { intent, after } => (intent, now + minutes(after)),
        Move::Sensible { what, which } => sensible(bake, what, which, now),
    };
    if let Ok(entries) = decide(bake, intent, now) {
        bake.append(entries);
    }
    now.max(bake.state().newest)
}

fn sensible(bake: &Bake, what: u8, which: u8, now: Moment) -> (Intent, Moment) {
    let state = bake.state();
    let soon = now + minutes(f64::from(which));
    let ask = focus(state, now);
    if what == 0 {
        // Another thing than the one that is asked for.
        let mut open = offers(state, now);
        open.extend(running(state, now).iter().map(|running| running.step));
        if let Some(&step) = open.get(usize::from(which) % open.len().max(1)) {
            return (Intent::Done(step), soon);
        }
    }
    if what == 1
        && let Some(alarm) = due(state, now).first()
    {
        return (Intent::Hear(alarm.id), now);
    }
    match ask {
        Ask::Fold(step) if what == 5 => (Intent::FoldNotYet(step, minutes(7.0)), soon),
        Ask::Fold(step) if what == 6 => (Intent::SkipFold(step), soon),
        Ask::Fold(step) => (Intent::Folded(step), soon),
        Ask::Work(step) if what == 2 => (Intent::Skip(step), soon),
        Ask::Work(step) => (Intent::Done(step), soon),
        Ask::Look(step) if what == 3 => (Intent::NotYet(step, minutes(5.0)), soon),
        Ask::Look(step) => (Intent::Done(step), soon),
        Ask::IntoFridge(step) => (Intent::Move(step, Place::Fridge), soon),
        Ask::OutOfFridge(step) => (Intent::Move(step, Place::Kitchen), soon),
        Ask::Wait(step) if what == 4 => (Intent::Done(step), soon),
        Ask::Wait(step) => {
            let forecast = state.forecast(step, now);
            let look = forecast.map_or(soon, |forecast| forecast.look);
            (Intent::Pick(step), look.max(now))
        }
        Ask::Idle | Ask::AllDone => (Intent::Resume, soon + minutes(5.0)),
    }
}
