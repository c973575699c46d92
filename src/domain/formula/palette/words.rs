//! The words of each kind of step.

use super::{Preparing, Setting};
use crate::formula::{ComponentKind, StepKind};
use crate::thermal::oven::BakeForm;

/// A step's own words.
pub(super) struct Words {
    pub(super) title: &'static str,
    pub(super) instruction: &'static str,
    pub(super) detail: &'static str,
    pub(super) cue: &'static str,
    pub(super) why: &'static str,
}

/// The longest name, in words, that stands in a title.
const SHORT: usize = 2;

/// What a step is called in lists: at most four words, with the component's own name where that is short.
pub(super) fn title(kind: StepKind, at: &Setting) -> String {
    let plain = match at.kind {
        ComponentKind::Preferment => "preferment",
        ComponentKind::Dough => "dough",
        ComponentKind::Filling => "filling",
        ComponentKind::Wash => "wash",
        ComponentKind::Glaze => "glaze",
        ComponentKind::Coating => "coating",
    };
    let is_short = (1..=SHORT).contains(&at.name.split_whitespace().count());
    let name = if is_short && at.kind != ComponentKind::Dough {
        at.name.trim()
    } else {
        plain
    };
    let is_dough = at.kind == ComponentKind::Dough;
    match kind {
        StepKind::Mix if is_dough => "Mix the dough".to_owned(),
        StepKind::Mix => format!("Mix the {name}"),
        StepKind::Cook if is_dough => "On the hob".to_owned(),
        StepKind::Cook => format!("Cook the {name}"),
        StepKind::Prepare if is_dough => "Get ready".to_owned(),
        StepKind::Prepare => format!("Make the {name}"),
        StepKind::Chill => format!("Chill the {name}"),
        StepKind::Bulk if at.kind == ComponentKind::Preferment => format!("Ripen the {name}"),
        other => of(other, at).title.to_owned(),
    }
}

/// From gathering to the first rise, and with the two below for all kinds.
#[rustfmt::skip]
pub(super) fn of(kind: StepKind, at: &Setting) -> Words {
    let words = |title, instruction, detail, cue, why| Words { title, instruction, detail, cue, why };
    match kind {
        StepKind::Gather => words("Gather", "Weigh everything, and mark what is there.",
            "Milk, eggs and cold butter go back into the fridge until they are called for.",
            "everything is marked",
            "Weighing first shows what is missing while there is time to fetch it."),
        StepKind::Cook => cook(at),
        StepKind::Chill if !at.holds.spoils() => words("Cool", "Spread it out and let it cool.",
            "Stir it at times.",
            "the middle feels no warmer than your hand",
            "What is hot melts the dough's fat and kills its yeast."),
        StepKind::Chill => words("Chill", "Spread it shallow, cover its surface, stand it in ice water.",
            "No deeper than 15 mm. Stir it at times, and replace ice that melts.",
            "the middle reads 5 °C (41 °F)",
            "Bacteria multiply while it is lukewarm: from 57 to 21 °C (135 to 70 °F) within two hours, to 5 °C (41 °F) within six."),
        StepKind::Mix if at.kind == ComponentKind::Preferment => words("Mix", "Stir it smooth, then cover the bowl.",
            "The liquid at the worked-out temperature, in a bowl that leaves it room to double.",
            "no dry flour is left",
            "Part of the flour ferments first, which brings flavour."),
        StepKind::Mix => words("Mix the dough", "Mix everything, with the liquid at its temperature.",
            "Warm or chill the liquid as worked out, and stir until no dry flour is left.",
            "it is rough, with no dry flour",
            "The liquid is the one part whose temperature you choose. It sets the dough's, and that sets the pace."),
        StepKind::Knead => words("Knead", "Knead until smooth and springy.",
            "Wet your hands rather than adding flour.",
            "a piece stretches thin before it tears",
            "Stretching and folding lines up the gluten that holds the gas."),
        StepKind::TakeTemperature => words("Dough temperature", "Put the thermometer into the middle of the dough.",
            "Wait until the reading stands still. A cool dough isn't spoilt, only slower.",
            "",
            "Yeast doubles its pace with about every 9 °C, or 17 °F: one degree is worth minutes."),
        StepKind::Bulk if at.kind == ComponentKind::Preferment => words("Ripen", "Leave it covered to ripen.",
            "",
            "it is domed and full of bubbles, just starting to sink",
            "At that moment it is at its strongest; once fallen, it turns sharp and slack."),
        StepKind::Bulk => words("First rise", "Let the covered dough rise.",
            "",
            "it has doubled and a floured finger leaves a dent",
            "Gas lifts the dough while it ripens: flavour needs this time as much as volume does."),
        other => of_pieces(other, at),
    }
}

/// From the fridge to the last rise.
#[rustfmt::skip]
fn of_pieces(kind: StepKind, at: &Setting) -> Words {
    let words = |title, instruction, detail, cue, why| Words { title, instruction, detail, cue, why };
    match kind {
        StepKind::Retard => words("Night in fridge", "Leave it covered in the fridge.",
            "Choose the coldest shelf, at 5 °C (41 °F) or less.",
            "it has grown, and is cold and firm",
            "Cold slows yeast more than it slows the making of flavour."),
        StepKind::Divide => words("Divide", "Cut the dough into equal pieces, on the scales.",
            "Cut, don't tear. Press small trimmings onto the underside of a light piece.",
            "",
            "Equal pieces proof and bake in equal time."),
        StepKind::PreShape => words("Round the pieces", "Round each piece into a ball; cover those that are done.",
            "Use hardly any flour: it has to grip the table.",
            "",
            "A tight skin gives the next shape something to hold."),
        StepKind::BenchRest => words("Rest", "Cover the dough and let it rest.",
            "",
            "pressed flat, it stays flat",
            "Stretched gluten is a spring; rest lets it slacken."),
        StepKind::Shape => words("Shape", "Shape each piece and set it seam down.",
            "",
            "the skin is tight and the seam holds",
            "A tight skin makes it rise up instead of out."),
        StepKind::Fill => words("Fill", "Put the filling in and close it well.",
            "Share it out equally, and keep what waits cold.",
            "nothing shows and the seam holds",
            "Fat keeps dough from sticking to itself, so keep the edge clean."),
        StepKind::FinalProof => words("Final proof", "Cover it loosely and let it proof.",
            "Out of draughts.",
            "it is puffy and a dent comes back slowly, not quite all the way",
            "A little early is better than late: what has risen too far sinks in the oven."),
        other => of_bread(other, at),
    }
}

/// From the oven to the table; serving is what is left.
#[rustfmt::skip]
fn of_bread(kind: StepKind, at: &Setting) -> Words {
    let words = |title, instruction, detail, cue, why| Words { title, instruction, detail, cue, why };
    let is_dough = at.kind == ComponentKind::Dough;
    match kind {
        StepKind::OvenOn => words("Oven on", "Turn the oven on.",
            "",
            "",
            "A hot oven sets the bread before it spreads."),
        StepKind::OvenHeats => words("Oven heats", "Let the oven heat all the way.",
            "The lamp goes out before walls and rack are hot.",
            "",
            "Heat stored in the walls is what survives the opening of the door."),
        StepKind::Wash => words("Wash", "Brush it thinly all over.",
            "",
            "it shines and nothing has run down",
            "A thin coat browns evenly; where it runs under, it glues the bread down."),
        StepKind::Bake => words("Bake", "Bake until well browned; cover with foil if too dark.",
            "Probe the middle from the side.",
            "",
            "By then the crumb has set; longer only dries it."),
        StepKind::Cool => words("Cool", "Let it cool on a rack.",
            "",
            "the underside hardly feels warm",
            "The crumb goes on setting as it cools, and then slices clean."),
        StepKind::Prepare if is_dough => words("Get ready", "Do this before you go on.", "", "", ""),
        StepKind::Prepare => words("Make", "Weigh it together and mix it until even.",
            "",
            "it is even throughout",
            "Ready ahead, it doesn't keep the dough waiting."),
        StepKind::Finish => words("Finish", "Finish one piece, then the next.",
            "",
            "every piece is done",
            "What is put on sets as it cools, so each piece is finished before the next."),
        _ => words("Serve", if at.filling_spoils { "Serve now, or chill within two hours of baking." } else { "Serve it; wrap what is left." },
            "Tell your guests what is in it. Local food-safety guidance comes first.",
            "",
            if at.filling_spoils { "In a lukewarm filling bacteria soon multiply; on a hot day, one hour is enough." } else { "In the fridge bread goes stale fastest." }),
    }
}

#[rustfmt::skip]
fn cook(at: &Setting) -> Words {
    let words = |instruction, detail, cue, why| Words { title: "Cook", instruction, detail, cue, why };
    match at.kind {
        ComponentKind::Glaze | ComponentKind::Wash => words("Simmer it gently, stirring.", "",
            "it coats a spoon and drips slowly",
            "What is boiled off leaves it thick enough to stay where it is brushed."),
        ComponentKind::Coating => words("Toast it in a dry pan, stirring all the time.",
            "Tip it onto a cold plate at once: in the hot pan it goes on browning.",
            "it is pale gold",
            "Toasting drives water off, so it stays crisp."),
        ComponentKind::Filling if at.holds.egg => words("Heat it, stirring, until it thickens and bubbles.",
            "Dishes with egg need at least 71 °C (160 °F) in the middle.",
            "it bubbles thickly",
            "Heat makes egg safe and starch thick."),
        ComponentKind::Dough | ComponentKind::Preferment | ComponentKind::Filling => words("Cook it over medium heat, stirring.", "", "", ""),
    }
}

#[rustfmt::skip]
pub(super) fn of_preparing(what: Preparing, at: &Setting) -> Words {
    let words = |title, instruction, detail, cue, why| Words { title, instruction, detail, cue, why };
    let is_tin = at.form == BakeForm::Tin;
    match what {
        Preparing::Cover => words("Cover the bowl", "Put the dough in the bowl and cover it.", "", "",
            "Bare dough grows a skin, and a skin doesn't stretch."),
        Preparing::IntoFridge => words("Into the fridge", "Cover it tightly and put it in the fridge.",
            "Choose the coldest shelf, at 5 °C (41 °F) or less.", "",
            "Uncovered dough dries into a skin that shows in the crumb."),
        Preparing::FillingAway => words("Filling into fridge", "Cover it and put it in the fridge.", "", "",
            "Cold it keeps, and a firm lump is easy to close dough around."),
        Preparing::IntoOven => words("Into the oven",
            if is_tin { "Set the tin low in the oven." } else { "Slide it into the oven." },
            "Gently: what is fully proofed can sink.", "",
            "The last of the rise happens in its first minutes there."),
        Preparing::OutOfOven => words("Out of the oven",
            if is_tin { "Take it out of the oven and out of its tin." } else { "Take it out and lift it onto a rack." },
            "Then turn the oven off.", "",
            "On the hot metal the base goes on baking, then sweats."),
    }
}
