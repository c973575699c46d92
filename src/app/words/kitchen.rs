//! Words of the page Kitchen.

use domain::decimal::{fixed, plain};
use domain::kitchen::OvenKind;
use domain::thermal::kneading::KneadingMethod;
use domain::thermal::oven::altitude::{HIGH, boiling_point};
use domain::units::{CelsiusDelta, Grams, Metres, Moment};
use domain::yeast::thin_air;
use platform::store::Degrees;

use super::day::iso_date;
use super::quantity::{about, oven_runs, temperature};

/// The heading of the temperatures.
pub(crate) const TEMPERATURES: &str = "Temperatures";
/// The kitchen's air.
pub(crate) const AIR: &str = "Kitchen temperature now";
/// What to show temperatures in.
pub(crate) const DEGREES: &str = "Show temperatures in";
/// Its choices.
pub(crate) const DEGREES_WAYS: [&str; 2] = ["°C", "°F"];
/// Whether the flour was measured.
pub(crate) const FLOUR: &str = "The flour is";
/// Its choices.
pub(crate) const FLOUR_WAYS: [&str; 2] = ["As warm as the kitchen", "Measured"];
/// The flour's temperature.
pub(crate) const FLOUR_TEMPERATURE: &str = "Flour temperature";
/// The fridge's temperature.
pub(crate) const FRIDGE: &str = "Fridge temperature";
/// How much fits into the fridge beside what is in it anyway.
pub(crate) const FRIDGE_HOLDS: &str = "Bowls or trays the fridge has room for";
/// The heading of the equipment.
pub(crate) const EQUIPMENT: &str = "Equipment";
/// How the dough is kneaded.
pub(crate) const KNEADING: &str = "You knead";
/// How the oven heats.
pub(crate) const OVEN: &str = "Your oven";
/// How long the oven takes.
pub(crate) const OVEN_HEATS: &str = "Time to heat up";
/// How far the oven is from what its dial says.
pub(crate) const OVEN_OFF: &str = "Oven hotter than its dial by";
/// What the scales show.
pub(crate) const SCALES: &str = "Your scales show steps of";
/// Whether there are small scales.
pub(crate) const FINE_SCALES: &str = "Small scales, for yeast and salt";
/// No small scales.
pub(crate) const NO_FINE_SCALES: &str = "None";
/// What the small scales carry.
pub(crate) const FINE_UP_TO: &str = "Use the small scales up to";
/// How high the kitchen lies.
pub(crate) const ALTITUDE: &str = "Height above the sea";
/// The heading of the alarm.
pub(crate) const ALARM: &str = "Alarm";
/// How loud.
pub(crate) const VOLUME: &str = "Loudness";
/// Whether it shakes.
pub(crate) const VIBRATES: &str = "Vibrate, where the phone can";
/// Whether it flashes.
pub(crate) const FLASHES: &str = "Flash the screen slowly";
/// The heading of the data.
pub(crate) const DATA: &str = "Your data";
/// Where the data are.
pub(crate) const DATA_NOTE: &str = "Everything is on this phone, in this browser, and nowhere else. An archive is one file with all of it.";
/// Writes an archive.
pub(crate) const WRITE_ARCHIVE: &str = "Write an archive";
/// Reads an archive.
pub(crate) const RESTORE: &str = "Restore an archive";
/// Asks whether that is meant.
pub(crate) const RESTORE_SURE: &str = "The archive takes the place of everything here: bakes, notes, formulas and kitchen, a running bake too. It is checked first; if anything in it is wrong, nothing changes.";
/// Picks the file.
pub(crate) const CHOOSE_FILE: &str = "Choose the file";
/// Forgets everything.
pub(crate) const ERASE: &str = "Erase everything";
/// Asks whether that is meant.
pub(crate) const ERASE_SURE: &str = "Every bake, note, formula of yours and setting on this phone goes. Write an archive first if you may want them back.";
/// Goes on to the second question.
pub(crate) const ERASE_GO_ON: &str = "Go on";
/// Asks again.
pub(crate) const ERASE_AGAIN: &str = "Really everything?";
/// Asks again.
pub(crate) const ERASE_AGAIN_SURE: &str = "There is no way back but an archive.";
/// Does it.
pub(crate) const ERASE_NOW: &str = "Erase it all now";
/// The heading of what can't be read.
pub(crate) const SET_ASIDE: &str = "Set aside";
/// What that means.
pub(crate) const SET_ASIDE_NOTE: &str = "These records can't be read by this version. They stay as they are and travel along in every archive.";
/// Opens a record's text.
pub(crate) const SET_ASIDE_TEXT: &str = "Its text";
/// The heading of installing.
pub(crate) const INSTALL: &str = "On your home screen";
/// The heading of the cautions.
pub(crate) const SAFETY: &str = "Cautions";
/// The cautions.
pub(crate) const SAFETY_LINES: [&str; 5] = [
    "Your local food-safety rules and the advice of people licensed to give it come first; Oventide only reminds.",
    "Allergens are named from the ingredients themselves. Read every packet, and ask everyone at the table.",
    "Raw flour and raw egg can make people ill: don't taste dough or batter, and wash hands, tools and table.",
    "Ovens, trays, boiling cream, hot jam and sugar burn. Keep children and sleeves away.",
    "Custards, creams and bread filled with them belong in the fridge within two hours, one where it is hot. If you can't say how long they stood, throw them away.",
];
/// The heading of the last lines.
pub(crate) const ABOUT: &str = "About";
/// What Oventide is not.
pub(crate) const ABOUT_LINES: [&str; 2] = [
    "No account, no server, no tracking. Nothing leaves this phone unless you hand it over.",
    "Forecasts come from models of heat and yeast, each with its source in its source code. They are windows, not promises: trust your eyes and fingers first.",
];

/// A way of kneading.
pub(crate) fn kneading(method: KneadingMethod) -> &'static str {
    match method {
        KneadingMethod::Hand => "By hand",
        KneadingMethod::StandMixer => "In a stand mixer",
        KneadingMethod::FoodProcessor => "In a food processor",
        KneadingMethod::FoldOnly => "Only by folding",
    }
}

/// A kind of oven.
pub(crate) fn oven_kind(kind: OvenKind) -> &'static str {
    match kind {
        OvenKind::Conventional => "Top and bottom heat",
        OvenKind::Fan => "Fan",
        OvenKind::Gas => "Gas marks",
    }
}

/// A step of scales: "0.1 g".
pub(crate) fn scale_step(step: Grams) -> String {
    format!("{}\u{a0}g", plain(step.get(), 2))
}

/// Whole metres or feet: "450 m".
pub(crate) fn altitude(shown: f64, degrees: Degrees) -> String {
    let unit = match degrees {
        Degrees::Celsius => "m",
        Degrees::Fahrenheit => "ft",
    };
    [&fixed(shown, 0), "\u{a0}", unit].concat()
}

/// "+5°", "−10°".
pub(crate) fn oven_off(off: CelsiusDelta, degrees: Degrees) -> String {
    let sign = match off.get() {
        off if off > 0.0 => "+",
        off if off < 0.0 => "−",
        _ => "",
    };
    format!("{sign}{}", about(off, degrees))
}

/// How it is found how far the oven is from what its dial says, and what comes of it.
pub(crate) fn oven_off_note(off: Option<CelsiusDelta>, degrees: Degrees) -> String {
    let now = match off.map(|off| oven_runs(off, degrees)) {
        None => "Until you do, baking times are less certain.".to_owned(),
        Some(None) => "Yours matches its dial.".to_owned(),
        Some(Some(runs)) => format!("Yours {runs}, and the Bench says what to set instead."),
    };
    // What a dial has.
    let set = match degrees {
        Degrees::Celsius => "180\u{a0}°C",
        Degrees::Fahrenheit => "350\u{a0}°F",
    };
    format!(
        "Put an oven thermometer in the middle of the oven, set it to {set}, and read it after half an hour. {now}"
    )
}

/// What the height does.
pub(crate) fn boils_at(height: Metres, degrees: Degrees) -> String {
    let sooner = (1.0 - thin_air::times(height)) * 100.0;
    let times = if sooner < 0.5 {
        String::new()
    } else {
        let sooner = fixed(sooner, 0);
        format!(" Rises are forecast {sooner}\u{a0}% shorter, and bakes a little longer.")
    };
    let rises = if height < HIGH {
        ""
    } else {
        " Dough rises further in thin air: stop at double, and try a quarter less yeast."
    };
    format!(
        "Water boils at {} there, and no crumb gets hotter.{times}{rises}",
        temperature(boiling_point(height), degrees)
    )
}

/// "80 %".
pub(crate) fn volume(share: f64) -> String {
    format!("{}\u{a0}%", fixed(share * 100.0, 0))
}

/// "20 min".
pub(crate) fn whole_minutes(minutes: f64) -> String {
    format!("{}\u{a0}min", fixed(minutes, 0))
}

/// "50 g".
pub(crate) fn whole_grams(grams: f64) -> String {
    format!("{}\u{a0}g", fixed(grams, 0))
}

/// How much room the data take: "About 1.2 MB used, of 2.0 GB that the browser allows."
pub(crate) fn room(used_bytes: u64, allowed_bytes: u64) -> String {
    let (used_mb, allowed_gb) = (used_bytes as f64 / 1e6, allowed_bytes as f64 / 1e9);
    let (used, allowed) = (fixed(used_mb, 1), fixed(allowed_gb, 1));
    format!("About {used}\u{a0}MB used, of {allowed}\u{a0}GB that the browser allows.")
}

/// The archive's file name.
pub(crate) fn archive_name(at: Moment) -> String {
    format!("oventide-{}.json", iso_date(at))
}

/// How to put it on the home screen.
pub(crate) fn install(ios: bool) -> &'static str {
    if ios {
        "In Safari: Share, then Add to Home Screen. What you stored here stays here, so write an archive first and restore it there."
    } else {
        "In the browser's menu: Install, or Add to home screen. It then opens without the browser's bars."
    }
}

/// The version and the licence.
pub(crate) fn version() -> String {
    format!(
        "{} {}, under the MIT licence or the Apache License 2.0, as you like.",
        super::NAME,
        env!("CARGO_PKG_VERSION")
    )
}
