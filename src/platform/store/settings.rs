//! The kitchen and the preferences, as the app sees them.

use domain::kitchen::Kitchen;
use records::ReadError;
use records::kitchen::{self, AsleepRecord, KitchenFacts, KitchenRecord};

/// How temperatures are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Degrees {
    /// °C.
    #[default]
    Celsius,
    /// °F.
    Fahrenheit,
}

/// How the alarm makes itself known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AlarmSettings {
    /// How loud it gets, from 0 to 1.
    pub volume: f64,
    /// Whether the phone shakes.
    pub vibrates: bool,
    /// Whether the screen flashes.
    pub flashes: bool,
}

/// The kitchen and the preferences.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
    /// Temperatures and equipment.
    pub kitchen: Kitchen,
    /// How temperatures are shown.
    pub degrees: Degrees,
    /// How the alarm makes itself known.
    pub alarm: AlarmSettings,
    /// What is ticked off on the gathering list, each for the bake that it is for.
    pub gathered: Vec<String>,
    /// When the baker sleeps, once that was said: plans for a table count it.
    pub asleep: Option<Asleep>,
}

/// When somebody sleeps, in minutes of the day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Asleep {
    /// When they go to bed.
    pub bed: u32,
    /// When they get up.
    pub up: u32,
}

impl Asleep {
    const DAY: u32 = 24 * 60;

    /// What was stored, unless no clock shows it.
    fn of(record: AsleepRecord) -> Option<Self> {
        let (bed, up) = (record.bed_min, record.up_min);
        let is_time = bed < Self::DAY && up < Self::DAY && bed != up;
        is_time.then_some(Self { bed, up })
    }
}

impl Default for Settings {
    fn default() -> Self {
        let record = KitchenRecord::default();
        Self::of(&record, Kitchen::UNMEASURED)
    }
}

impl Settings {
    fn of(record: &KitchenRecord, kitchen: Kitchen) -> Self {
        Self {
            kitchen,
            degrees: match record.degrees {
                kitchen::Degrees::Celsius => Degrees::Celsius,
                kitchen::Degrees::Fahrenheit => Degrees::Fahrenheit,
            },
            alarm: AlarmSettings {
                volume: record.alarm_volume.clamp(0.0, 1.0),
                vibrates: record.alarm_vibrates,
                flashes: record.alarm_flashes,
            },
            gathered: record.gathered.clone(),
            asleep: record.asleep.and_then(Asleep::of),
        }
    }
}

impl TryFrom<&KitchenRecord> for Settings {
    type Error = ReadError;

    fn try_from(record: &KitchenRecord) -> Result<Self, ReadError> {
        let kitchen = Kitchen::try_from(&record.facts)?;
        Ok(Self::of(record, kitchen))
    }
}

impl From<&Settings> for KitchenRecord {
    fn from(settings: &Settings) -> Self {
        Self {
            facts: KitchenFacts::from(&settings.kitchen),
            degrees: match settings.degrees {
                Degrees::Celsius => kitchen::Degrees::Celsius,
                Degrees::Fahrenheit => kitchen::Degrees::Fahrenheit,
            },
            alarm_volume: settings.alarm.volume.clamp(0.0, 1.0),
            alarm_vibrates: settings.alarm.vibrates,
            alarm_flashes: settings.alarm.flashes,
            gathered: settings.gathered.clone(),
            asleep: settings.asleep.map(|asleep| AsleepRecord {
                bed_min: asleep.bed,
                up_min: asleep.up,
            }),
            ..Self::default()
        }
    }
}
