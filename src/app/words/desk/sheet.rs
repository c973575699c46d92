//! Words of the sheet on which a formula is written.

use domain::decimal::plain;
use domain::estimate::Estimate;
use domain::formula::manuscript::{Component, Ingredient, Line, Manuscript, Refused};
use domain::formula::{ComponentKind, Length, Step};
use domain::units::{Celsius, Minutes};
use platform::store::Degrees;

use super::open::basis;
use crate::words::capital;
use crate::words::quantity::{count, mass, span};

/// A manuscript without a name.
pub(crate) const WITHOUT_NAME: &str = "Without a name yet";
/// A manuscript whose text can't be read.
pub(crate) const UNREADABLE_MANUSCRIPT: &str = "This one can't be read here: a newer Oventide wrote it, or it was damaged. It is kept as it is.";
/// That nothing is lost.
pub(crate) const ALL_KEPT: &str = "Every change is kept at once. You can leave and come back.";
/// The field of the name.
pub(crate) const ITS_NAME: &str = "What it is called";
/// Throws a manuscript away.
pub(crate) const THROW_AWAY: &str = "Throw this sheet away";
/// What that means.
pub(crate) const THROW_AWAY_SURE: &str =
    "What is written on it is gone then. A formula that you have already taken stays.";
/// Makes a formula of it.
pub(crate) const TAKE_FORMULA: &str = "Take it to the oven";
/// Takes the last change back.
pub(crate) const TAKE_LAST_BACK: &str = "Back one change";
/// Removes a line.
pub(crate) const REMOVE: &str = "Remove";
/// Moves a line up.
pub(crate) const MOVE_UP: &str = "Up";
/// Moves a line down.
pub(crate) const MOVE_DOWN: &str = "Down";
/// Adds what was chosen or typed.
pub(crate) const ADD: &str = "Add";

/// The heading of the parts.
pub(crate) const PARTS: &str = "What goes in";
/// What a row of them leads to.
pub(crate) const PARTS_NOTE: &str =
    "Percentages are of all the flour in the dough. Touch a line to change it.";
/// A new part.
pub(crate) const ADD_PART: &str = "Add a part";
/// The sheet of one part.
pub(crate) const PART: &str = "Part";
/// Opens it.
pub(crate) const CHANGE_PART: &str = "Change";
/// Its name.
pub(crate) const PART_NAME: &str = "What it is called";
/// What it is.
pub(crate) const PART_KIND: &str = "What it is";
/// What a part can be.
pub(crate) const PART_KINDS: [&str; 6] = [
    "Preferment",
    "The dough",
    "Filling, or made ahead",
    "Brushed on before baking",
    "Brushed on after baking",
    "Put on last",
];
/// The field for another ingredient.
pub(crate) const ADD_INGREDIENT: &str = "Another ingredient, with its amount";
/// What could stand in it.
pub(crate) const ADD_INGREDIENT_EXAMPLE: &str = "2 tbsp honey";

/// The sheet of one ingredient.
pub(crate) const INGREDIENT: &str = "Ingredient";
/// Its name.
pub(crate) const INGREDIENT_NAME: &str = "What you call it";
/// Its mass.
pub(crate) const INGREDIENT_MASS: &str = "Grams";
/// Its share of the flour.
pub(crate) const INGREDIENT_PERCENT: &str = "Per cent of the flour";
/// What it is.
pub(crate) const WHICH_FOOD: &str = "What food it is";
/// Its kind, where no table has it.
pub(crate) const WHICH_KIND: &str = "No table here has that. What kind of food is it?";
/// The kinds of food.
pub(crate) const FOOD_KINDS: [&str; 13] = [
    "Flour",
    "Water",
    "Milk or cream",
    "Egg",
    "Fat",
    "Sugar",
    "Salt",
    "Yeast",
    "Nuts or seeds",
    "Fruit",
    "Spice",
    "Starch",
    "Something else",
];
/// It waits in the fridge.
pub(crate) const FROM_FRIDGE: &str = "From the fridge";
/// Its temperature is chosen.
pub(crate) const IS_TEMPERED: &str = "The liquid that I warm or chill";
/// Its amount is the baker's affair.
pub(crate) const AS_LIKED: &str = "As much as I like";

/// The heading of the pieces.
pub(crate) const PIECES: &str = "What it makes";
/// How many.
pub(crate) const HOW_MANY: &str = "How many";
/// The word for one.
pub(crate) const ONE_IS_CALLED: &str = "One is called";
/// The word for several.
pub(crate) const SEVERAL_ARE_CALLED: &str = "Several are called";
/// The temperature that times are written for.
pub(crate) const REFERENCE: &str = "Its rises are for a dough of";

/// The heading of the steps.
pub(crate) const STEPS: &str = "How it is made";
/// Nothing stands there yet.
pub(crate) const NO_STEPS_YET: &str = "No steps yet.";
/// Puts the usual ones there.
pub(crate) const USUAL_STEPS: &str = "Put in the usual steps";
/// Opens the palette.
pub(crate) const ADD_STEP: &str = "Add a step";
/// The sheet of one step.
pub(crate) const STEP: &str = "Step";
/// Its name.
pub(crate) const STEP_TITLE: &str = "Name in lists";
/// What is done.
pub(crate) const STEP_KIND: &str = "What is done";
/// What it works on.
pub(crate) const STEP_PART: &str = "With which part";
/// What to do now.
pub(crate) const STEP_INSTRUCTION: &str = "What to do, in at most twelve words";
/// How.
pub(crate) const STEP_DETAIL: &str = "How to do it";
/// What to look for.
pub(crate) const STEP_CUE: &str = "It is done when";
/// The least time.
pub(crate) const AT_LEAST: &str = "Takes at least";
/// The most time.
pub(crate) const AT_MOST: &str = "Takes at most";
/// The oven's temperature.
pub(crate) const OVEN_WITHOUT_FAN: &str = "Oven, without a fan";
/// The kinds of steps in the order in which a bread is made.
pub(crate) const STEP_KINDS: [&str; 22] = [
    "Gather everything",
    "Mix",
    "Knead",
    "Take the dough's temperature",
    "First rise",
    "Rise in the fridge",
    "Divide",
    "Pre-shape",
    "Bench rest",
    "Shape",
    "Fill",
    "Final proof",
    "Turn the oven on",
    "Oven heats",
    "Brush before baking",
    "Bake",
    "Cool",
    "Finish after baking",
    "Serve or put away",
    "Cook on the hob",
    "Chill a filling",
    "Something else",
];

/// A part's heading: "Almond cream, 360 g".
pub(crate) fn part_heading(component: &Component) -> String {
    let known = component.ingredients.iter().filter_map(|part| part.mass);
    let all: domain::units::Grams = known.sum();
    if all.get() > 0.0 {
        format!("{}, {}", part_name(component), mass(all))
    } else {
        part_name(component)
    }
}

/// What a part is called, or what it is where it has no name.
pub(crate) fn part_name(component: &Component) -> String {
    if !component.name.trim().is_empty() {
        return capital(component.name.trim());
    }
    let place = match component.kind {
        ComponentKind::Preferment => 0,
        ComponentKind::Dough => 1,
        ComponentKind::Filling => 2,
        ComponentKind::Wash => 3,
        ComponentKind::Glaze => 4,
        ComponentKind::Coating => 5,
    };
    PART_KINDS[place].to_owned()
}

/// "340 g strong white flour", or without an amount "salt, how much?".
pub(crate) fn ingredient_line(part: &Ingredient) -> String {
    match part.mass {
        Some(grams) => format!("{} {}", mass(grams), part.name),
        None if part.as_liked => format!("{}, as much as you like", part.name),
        None => format!("{}: how much?", part.name),
    }
}

/// Where an ingredient's mass is from.
pub(crate) fn basis_of(part: &Ingredient) -> String {
    basis(&part.written, &part.basis)
}

/// "340".
pub(crate) fn grams_typed(grams: f64) -> String {
    let digits = if grams < 10.0 { 2 } else { 1 };
    format!("{}\u{a0}g", plain(grams, digits))
}

/// "62.5 %".
pub(crate) fn percent_typed(percent: f64) -> String {
    format!("{}\u{a0}%", plain(percent, 1))
}

/// "12 buns of 80 g", as far as it is known.
pub(crate) fn manuscript_pieces(manuscript: &Manuscript) -> String {
    let known = manuscript.known().pieces;
    let written = &manuscript.pieces;
    let (one, several) = (
        named(&written.noun, "piece"),
        named(&written.plural, "pieces"),
    );
    if known.count == 0 {
        return "How many pieces?".to_owned();
    }
    let number = count(known.count, one, several);
    if known.mass.get() > 0.0 {
        format!("{number} of {}", mass(known.mass))
    } else {
        number
    }
}

fn named<'a>(noun: &'a str, otherwise: &'a str) -> &'a str {
    if noun.trim().is_empty() {
        otherwise
    } else {
        noun
    }
}

/// A step's name, and how long it takes: "Knead, 10 min (8 min to 14 min)".
pub(crate) fn step_line(step: &Step) -> String {
    let length = step_length(step);
    if length.is_empty() {
        step.title.clone()
    } else {
        format!("{}, {length}", step.title)
    }
}

/// How long a step takes, where somebody says so.
fn step_length(step: &Step) -> String {
    let range = match &step.length {
        Length::Hands(range) | Length::Wait(range) | Length::Bake { range, .. } => range,
        Length::Ferment {
            reference_minutes, ..
        } => reference_minutes,
        Length::Chill { .. } | Length::Cool { .. } | Length::OvenHeats { .. } => {
            return String::new();
        }
    };
    between_minutes(range)
}

fn between_minutes(range: &Estimate<Minutes>) -> String {
    let (low, likely, high) = (range.low(), range.likely(), range.high());
    if (high - low).get() < 1.0 {
        span(likely)
    } else {
        format!("{} ({} to {})", span(likely), span(low), span(high))
    }
}

/// What of a step nobody said.
pub(crate) fn assumed(line: &Line) -> Option<String> {
    let of = &line.assumed;
    if of.whole {
        return Some("Added here; the text doesn't have it.".to_owned());
    }
    let mut said = Vec::new();
    if of.kind {
        said.push("what is done");
    }
    if of.component {
        said.push("with which part");
    }
    if of.time {
        said.push("the time");
    }
    let has_oven = matches!(
        line.step.length,
        Length::Bake { .. } | Length::OvenHeats { .. }
    );
    if of.heat && has_oven {
        said.push("the oven's heat");
    }
    (!said.is_empty()).then(|| format!("Assumed: {}.", said.join(", ")))
}

/// A temperature as the number of a field.
pub(crate) fn in_degrees(celsius: Celsius, degrees: Degrees) -> f64 {
    match degrees {
        Degrees::Celsius => celsius.get().round(),
        Degrees::Fahrenheit => celsius.to_fahrenheit().round(),
    }
}

/// The temperature that a field's number means.
pub(crate) fn from_degrees(number: f64, degrees: Degrees) -> Celsius {
    match degrees {
        Degrees::Celsius => Celsius::clamped(number),
        Degrees::Fahrenheit => Celsius::clamped((number - 32.0) / 1.8),
    }
}

/// Why a change can't be made.
pub(crate) fn refused(why: Refused) -> String {
    match why {
        Refused::NoComponent => "That part isn't there any more.",
        Refused::NoIngredient => "That ingredient isn't there any more.",
        Refused::NoStep => "That step isn't there any more.",
        Refused::Full => "No more fit on one sheet.",
        Refused::MoreThanAllFlour => {
            "The flours would be more than all the flour. Give one of them in grams, or less of it in per cent."
        }
        Refused::FlourIsWeighed => {
            "The flour is given in grams: change that, and the percentages follow."
        }
        Refused::TooManyWords => {
            "That is more than twelve words, which nobody reads from across the kitchen. Put the rest under how to do it."
        }
        Refused::TimeFollows => "How long that takes follows from the heat, so it can't be set.",
        Refused::NoOven => "That step has no oven.",
        Refused::HasSteps => "There are steps already.",
        Refused::NoDough => "Say first which part is the dough.",
    }
    .to_owned()
}
