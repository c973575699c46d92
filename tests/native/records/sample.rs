//! Data of our own: a kitchen at home, a table of eight, and a bake in which
//! everything happens that can.

use domain::bake::{AlarmId, Bake, BakeId, Entry, Event, Mark, Start, TimerId, Wishes};
use domain::formula::manuscript::Manuscript;
use domain::formula::{ComponentId, Formula, FormulaId, Held, StepId};
use domain::kitchen::{FRIDGE_HOLDS, FineScales, Kitchen, OvenKind, Place, Scales};
use domain::notebook::Note;
use domain::thermal::kneading::KneadingMethod;
use domain::thermal::oven::BakeForm;
use domain::units::{Moment, celsius, celsius_delta, grams, metres, minutes, share};
use records::Record as _;
use records::archive::Archive;
use records::bake::EntryRecord;
use records::formula::FormulaRecord;
use records::kitchen::{AsleepRecord, Degrees, KitchenFacts, KitchenRecord};
use records::manuscript::ManuscriptRecord;
use records::notebook::NoteRecord;

/// Saturday 21 November 2026, 9:40 UTC.
pub(super) const STARTED: Moment = Moment::from_epoch_ms(1_795_254_000_000);

/// A formula with every kind of component, length, checklist and caution.
const TWISTS: &str = include_str!("twists.json");

pub(super) fn twists() -> Formula {
    let record = FormulaRecord::read(TWISTS).expect("the sample is a formula record");
    Formula::try_from(record).expect("the sample's parts fit together")
}

pub(super) fn kitchen() -> Kitchen {
    Kitchen {
        air: celsius(20.5),
        flour: Some(celsius(19.0)),
        fridge: celsius(4.5),
        fridge_holds: FRIDGE_HOLDS,
        kneading: KneadingMethod::StandMixer,
        oven: OvenKind::Fan,
        oven_off: Some(celsius_delta(-7.5)),
        oven_heats_in: minutes(25.0),
        scales: Scales {
            step: grams(1.0),
            fine: Some(FineScales {
                step: grams(0.1),
                up_to: grams(100.0),
            }),
        },
        altitude: metres(310.0),
    }
}

fn kitchen_record() -> KitchenRecord {
    KitchenRecord {
        facts: KitchenFacts::from(&kitchen()),
        degrees: Degrees::Fahrenheit,
        alarm_volume: 0.65,
        alarm_flashes: false,
        gathered: vec![
            "table-of-eight/milk".to_owned(),
            "table-of-eight/bowl".to_owned(),
        ],
        asleep: Some(AsleepRecord {
            bed_min: 1_350,
            up_min: 375,
        }),
        ..KitchenRecord::default()
    }
}

fn started() -> Event {
    Event::Started(Box::new(Start {
        formula: twists(),
        kitchen: kitchen(),
    }))
}

fn hours_on(hours: i64) -> Moment {
    Moment::from_epoch_ms(STARTED.epoch_ms() + hours * 3_600_000)
}

/// Every event there is, in an order in which a bake could have them.
fn events() -> Vec<Event> {
    let step = StepId;
    let alarms = [
        AlarmId::Check {
            step: step(5),
            round: 1,
        },
        AlarmId::Fold {
            step: step(5),
            fold: 0,
        },
        AlarmId::OvenOn { step: step(11) },
        AlarmId::CoolingStage { step: step(7) },
        AlarmId::CoolingEnd { step: step(7) },
        AlarmId::Perishable { step: step(14) },
        AlarmId::Timer(TimerId(0)),
        AlarmId::Begin,
        AlarmId::Fixed { step: step(10) },
        AlarmId::Retard { step: step(5) },
        AlarmId::Waits { step: step(9) },
    ];
    let mut events = vec![
        started(),
        Event::Wished(Box::new(Wishes {
            table: Some(hours_on(9)),
            not_before: Some(hours_on(1)),
            away: vec![(hours_on(2), hours_on(3)), (hours_on(14), hours_on(22))],
        })),
        Event::Pinned {
            step: step(10),
            at: Some(hours_on(5)),
        },
        Event::Pinned {
            step: step(10),
            at: None,
        },
        Event::Refitted(Box::new(twists())),
        Event::Picked { step: step(1) },
        Event::Marked {
            step: step(1),
            mark: Mark {
                item: 2,
                piece: None,
            },
            on: true,
        },
        Event::KitchenMeasured {
            air: celsius(21.25),
        },
        Event::Done { step: step(1) },
        Event::Undone { entries: vec![4] },
        Event::Done { step: step(1) },
        Event::DoughMeasured {
            component: ComponentId(2),
            temperature: celsius(25.7),
        },
        Event::Folded { step: step(5) },
        Event::FoldPutOff {
            step: step(5),
            by: minutes(6.5),
        },
        Event::FoldSkipped { step: step(5) },
        Event::KitchenChanged(Box::new(Kitchen {
            fridge: celsius(3.5),
            oven_heats_in: minutes(31.0),
            ..kitchen()
        })),
        Event::Moved {
            step: step(5),
            place: Place::Warm(celsius(27.5)),
        },
        Event::RiseSeen {
            step: step(5),
            share: share(0.75),
            ago: minutes(4.0),
        },
        Event::Moved {
            step: step(5),
            place: Place::Water(celsius(31.0)),
        },
        Event::Moved {
            step: step(5),
            place: Place::Fridge,
        },
        Event::Moved {
            step: step(5),
            place: Place::Kitchen,
        },
        Event::Poured {
            step: step(5),
            held: Held::Jar,
        },
        Event::Extended {
            step: step(5),
            by: minutes(12.5),
        },
        Event::TimerSet {
            timer: TimerId(0),
            name: "walnuts in the pan".to_owned(),
            length: minutes(7.0),
        },
        Event::TimerStopped { timer: TimerId(0) },
        Event::PieceWeighed {
            piece: 3,
            mass: grams(92.4),
        },
        Event::MassRemoved { piece: 3 },
        Event::Marked {
            step: step(9),
            mark: Mark {
                item: 0,
                piece: Some(7),
            },
            on: false,
        },
        Event::CoreMeasured {
            step: step(12),
            temperature: celsius(93.5),
        },
        Event::OvenHot {
            step: step(10),
            oven: celsius(180.0),
        },
        Event::Skipped { step: step(15) },
        Event::Reopened { step: step(15) },
        Event::RetardPlanned {
            step: step(5),
            stay: Some((hours_on(2), hours_on(10))),
        },
        Event::RetardPlanned {
            step: step(5),
            stay: None,
        },
        Event::Paused,
        Event::Resumed,
        Event::ClockSet { by: minutes(60.0) },
        Event::Since {
            entry: 12,
            by: minutes(3.25),
        },
    ];
    events.extend(alarms.map(|alarm| Event::Acknowledged { alarm }));
    events.push(Event::Finished);
    events
}

fn log(events: Vec<Event>) -> Vec<Entry> {
    let entries = events.into_iter().zip(0_u32..);
    let entry = |(event, place)| Entry {
        at: STARTED + minutes(f64::from(place) * 7.25),
        event,
    };
    entries.map(entry).collect()
}

/// A bake that went through everything, and one that was given up.
pub(super) fn bakes() -> Vec<Bake> {
    let whole = ("table-of-eight", log(events()));
    let given_up = ("given-up", log(vec![started(), Event::Abandoned]));
    [whole, given_up]
        .into_iter()
        .map(|(id, log)| {
            Bake::from_log(BakeId(id.to_owned()), log).expect("the log begins with its start")
        })
        .collect()
}

pub(super) fn note() -> Note {
    Note {
        bake: BakeId("table-of-eight".to_owned()),
        formula: FormulaId("walnut-cardamom-twists".to_owned()),
        form: Some(BakeForm::Long),
        at: STARTED + minutes(400.0),
        text: "Soft to the third day.\nAll eight gone by four o’clock.".to_owned(),
        differently: vec![(StepId(8), "Dust less flour: they slid.".to_owned())],
    }
}

fn texts(bake: &Bake) -> Vec<String> {
    let entries = bake.log().iter();
    entries
        .map(|entry| EntryRecord::from(entry).write())
        .collect()
}

/// A formula in the making: an amount and a food are missing.
pub(super) fn manuscript() -> Manuscript {
    let mut manuscript = Manuscript::from(&twists());
    manuscript.id = FormulaId("half-done".to_owned());
    let dough = manuscript.components.first_mut();
    if let Some(part) = dough.and_then(|dough| dough.ingredients.last_mut()) {
        part.mass = None;
        part.food = None;
        part.written = "a handful".to_owned();
    }
    manuscript
}

/// Everything above, as it is stored today.
pub(super) fn archive() -> Archive {
    let formula = twists();
    let note = note();
    let (bakes, manuscript) = (bakes(), manuscript());
    Archive {
        manuscripts: vec![(
            manuscript.id.0.clone(),
            ManuscriptRecord::from(&manuscript).write(),
        )],
        formulas: vec![(formula.id.0.clone(), FormulaRecord::from(&formula).write())],
        bakes: bakes
            .iter()
            .map(|bake| (bake.id.0.clone(), texts(bake)))
            .collect(),
        kitchen: Some(kitchen_record().write()),
        notes: vec![(note.bake.0.clone(), NoteRecord::from(&note).write())],
        set_aside: vec![(
            "notebook: lost".to_owned(),
            "{\"version\":1,\"ba".to_owned(),
        )],
    }
}
