//! Words of the pages Formulas and Formula.

mod eggs;
mod holds;
mod sizes;

use domain::estimate::Estimate;
use domain::formula::{Formula, ScaleError};
use domain::schedule::NightWork;
use domain::thermal::oven::BakeForm;
use domain::units::{Celsius, Grams, Minutes, Moment, minutes};
use platform::clock::{self, time_of_day};
use platform::store::Degrees;

pub(crate) use self::eggs::{EGGS_AS_RECKONED, eggs_now, whole_eggs};
pub(crate) use self::holds::{holds, hydration, unusual};
pub(crate) use self::sizes::*;
use super::capital;
use super::quantity::{about_time, between, count, mass, span, temperature};

/// There is no such formula.
pub(crate) const NO_FORMULA: &str = "That formula isn't on this phone.";
/// Leads to all formulas.
pub(crate) const ALL_FORMULAS: &str = "All formulas";
/// The heading of what the formula is fitted to.
pub(crate) const FIT: &str = "How much";
/// What the choice of a wish is.
pub(crate) const FIT_BY: &str = "Work it out from";
/// The ways to say how much.
pub(crate) const FIT_WAYS: [&str; 6] = [
    "Pieces",
    "All the dough",
    "The flour",
    "Baked weight",
    "My tins",
    "What I have",
];
/// A piece's mass.
pub(crate) const MASS_EACH: &str = "Mass of each, divided";
/// The dough's mass.
pub(crate) const DOUGH_MASS: &str = "All the dough";
/// The flour's mass.
pub(crate) const FLOUR_MASS: &str = "All the flour";
/// How the pieces bake.
pub(crate) const FORM: &str = "In what form";
/// Its choices, in the order of [`BakeForm::ALL`].
pub(crate) const FORMS: [&str; 5] = [
    "Round, apart",
    "Touching, on a tray or in a tin",
    "Long, apart",
    "As a ring",
    "Each in its own loaf tin",
];
/// The same for one piece, which touches nothing.
pub(crate) const FORMS_ALONE: [&str; 4] = ["Round", "Long", "As a ring", "In a loaf tin"];
/// What kind of yeast goes in.
pub(crate) const YEAST: &str = "Yeast";
/// Its choices, in the order of [`YeastKind::ALL`](domain::yeast::kinds::YeastKind::ALL).
pub(crate) const YEASTS: [&str; 3] = ["Instant", "Active dry", "Fresh"];
/// What to do with each.
pub(crate) const YEAST_NOTES: [&str; 3] = [
    "Instant yeast needs no waking: it goes in dry.",
    "Wake active dry yeast in a little of the warm liquid first.",
    "Keep fresh yeast in the fridge, and crumble it into the liquid.",
];
/// The heading of the amounts.
pub(crate) const AMOUNTS: &str = "Amounts";
/// What the percentages are of.
pub(crate) const AMOUNTS_NOTE: &str =
    "Rounded to what your scales show. Percentages are of all the flour in the dough.";
/// The heading of the liquid's temperature.
pub(crate) const LIQUID: &str = "How warm the liquid should be";
/// What the list of allergens can't know.
pub(crate) const PACKETS: &str = "Read every packet: it can name more.";
/// The heading of the dangers.
pub(crate) const CARE: &str = "Take care";
/// The heading of the outline.
pub(crate) const TIMES: &str = "If you start now";
/// What the outline rests on.
pub(crate) const TIMES_NOTE: &str =
    "Likely times with one pair of hands. They move with your kitchen, your dough and you.";
/// The heading before the start.
pub(crate) const BEFORE_START: &str = "Before you start";
/// Starts the bake.
pub(crate) const START: &str = "Start this bake";

/// "About 5 h from flour to table".
pub(crate) fn whole_length(table: &Estimate<Moment>, start: Moment) -> String {
    format!(
        "About {} from flour to table",
        quarter_hours(table.likely() - start)
    )
}

fn quarter_hours(length: Minutes) -> String {
    span(minutes((length.get() / 15.0).round() * 15.0))
}

/// "On the table between 16:10 and 17:05, likely 16:40."
pub(crate) fn table_window(table: &Estimate<Moment>, start: Moment) -> String {
    let likely = table.likely();
    let when = if clock::day(start) == clock::day(likely) {
        String::new()
    } else {
        format!(" on {}", super::day(likely))
    };
    let likely = time_of_day(likely);
    match between(table) {
        Some(between) => format!("On the table{when} {between}, likely {likely}."),
        None => format!("On the table{when} at {likely}."),
    }
}

/// That hands are needed at night by a bake that starts at `start`, and which start would spare it.
pub(crate) fn night_work(work: &NightWork, start: Moment) -> String {
    let needs = format!(
        "Started now, it needs your hands at night, from {} to {}",
        about_time(work.from),
        about_time(work.to)
    );
    let Some(better) = work.better else {
        return format!("{needs}.");
    };
    format!(
        "{needs}; started at about {} it spares the night and comes out of the oven at about {}.",
        time_on_day(better.start, start),
        time_on_day(better.baked, better.start)
    )
}

/// "12:45", or "12:45 on Sunday" where that is another day than `before`.
pub(super) fn time_on_day(moment: Moment, before: Moment) -> String {
    let time = about_time(moment);
    if clock::day(moment) == clock::day(before) {
        time
    } else {
        format!("{time} on {}", super::weekday(moment))
    }
}

/// "8 buns of 85 g", and in what form, where that isn't the formula's own: "8 buns of 85 g, touching".
pub(crate) fn pieces(formula: &Formula) -> String {
    let mut said = pieces_alone(formula);
    if let Some(other) = formula.other_form() {
        said += match other {
            BakeForm::Round => ", round",
            BakeForm::Long => ", long",
            BakeForm::Ring => ", as a ring",
            BakeForm::Tin if formula.pieces.count > 1 => ", each in its own tin",
            BakeForm::Tin => ", in a tin",
            BakeForm::Touching => ", touching",
        };
    }
    said
}

/// "8 buns of 85 g".
pub(crate) fn pieces_alone(formula: &Formula) -> String {
    let pieces = &formula.pieces;
    let number = count(pieces.count, &pieces.noun, &pieces.plural);
    format!("{number} of {}", mass(pieces.mass))
}

/// "Allergens: gluten, egg, milk".
pub(crate) fn allergens(formula: &Formula) -> String {
    let names: Vec<&str> = formula
        .allergens()
        .into_iter()
        .map(super::allergen)
        .collect();
    if names.is_empty() {
        return "Allergens: none known.".to_owned();
    }
    format!("{}: {}.", super::ALLERGENS, names.join(", "))
}

/// How many pieces: "Number of buns".
pub(crate) fn number_of(plural: &str) -> String {
    format!("Number of {plural}")
}

/// What was fitted, in a line: "8 buns of 85 g: 680 g of dough with 345 g of flour"; and what becomes
/// of the formula in another form.
pub(crate) fn fitted(formula: &Formula) -> String {
    let other = match formula.other_form() {
        Some(_) => {
            " The last rise, the oven and the cooling are forecast for that form; the steps still describe the usual form."
        }
        None => "",
    };
    format!(
        "{}: {} of dough with {} of flour.{other}",
        pieces(formula),
        mass(formula.dough_mass()),
        mass(formula.flour_mass())
    )
}

/// Why nothing can be fitted to that, and what to do.
pub(crate) fn scale_error(error: &ScaleError) -> String {
    match error {
        ScaleError::Nothing => "Ask for at least one piece.".to_owned(),
        ScaleError::TooMuch { dough, most } => format!(
            "That is {} of dough; more than {} is beyond a home kitchen. Ask for less.",
            mass(*dough),
            mass(*most)
        ),
        ScaleError::TooLittle { dough, least } => format!(
            "That is {} of dough; with less than {} the yeast can't be weighed. Ask for more.",
            mass(*dough),
            mass(*least)
        ),
        ScaleError::TooLight { piece, least } => format!(
            "Each piece would weigh {}; less than {} can't be weighed. Ask for fewer or heavier ones.",
            mass(*piece),
            mass(*least)
        ),
        // Nothing on the page asks for what is refused like this yet.
        ScaleError::TooMany { .. }
        | ScaleError::TooGreatALoss { .. }
        | ScaleError::NoSuchIngredient { .. } => format!("That can't be had: {error}."),
    }
}

/// What the trade's rule says, beside the heat balance.
pub(crate) fn rule_beside(rule: Celsius, degrees: Degrees) -> String {
    format!(
        "As a cross-check, the trade's rule of factors says {}. It knows no masses and only flour, liquid and kitchen, so it suits lean doughs.",
        temperature(rule, degrees)
    )
}

/// What it is for: "For the sweet bun dough, to come off the bench at 25 °C".
pub(crate) fn liquid_for(component: &str, target: Celsius, degrees: Degrees) -> String {
    format!(
        "For the {component}, to come off the bench at {}",
        temperature(target, degrees)
    )
}

/// A component's heading: "Almond cream, 360 g".
pub(crate) fn component(name: &str, all: Grams) -> String {
    format!("{}, {}", capital(name), mass(all))
}
