//! One piece of work or waiting, and what it needs and waits for.

use super::ComponentId;
use crate::estimate::Estimate;
use crate::thermal::oven::BakeForm;
use crate::thermal::vessel::{Cooling, Held};
use crate::units::{Celsius, Grams, Millimetres, Minutes};

/// The number of a step within its formula. It is never reused, so that a note
/// made at a step finds the same step next time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StepId(pub u16);

/// What is done, in the trade's words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StepKind {
    /// Find and weigh everything.
    Gather,
    /// Cook on the hob.
    Cook,
    /// Let a filling get cold.
    Chill,
    /// Bring the dough together, with the liquid at its worked-out temperature.
    Mix,
    /// Develop the dough.
    Knead,
    /// Take the dough's temperature.
    TakeTemperature,
    /// First fermentation, in one piece, with its folds.
    Bulk,
    /// A cold retard that the formula asks for: fermentation in the fridge. Of any other rise one can be planned
    /// ([`Stay`](crate::bake::Stay)).
    Retard,
    /// Cut into pieces by mass.
    Divide,
    /// Give the pieces a first shape.
    PreShape,
    /// Let the pieces slacken.
    BenchRest,
    /// Give the pieces their final shape.
    Shape,
    /// Put the filling in.
    Fill,
    /// Last fermentation, shaped.
    FinalProof,
    /// Turn the oven on.
    OvenOn,
    /// Wait for the oven.
    OvenHeats,
    /// Brush before baking.
    Wash,
    /// Bake.
    Bake,
    /// Let the bread cool.
    Cool,
    /// Make something that needs no hob, or keep something ready.
    Prepare,
    /// Brush and coat after baking.
    Finish,
    /// Put on the table, or away.
    Serve,
}

/// What a step occupies while it lasts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Needs {
    /// The baker's hands.
    pub hands: bool,
    /// A ring of the hob.
    pub hob: bool,
    /// The oven.
    pub oven: bool,
    /// Room in the fridge.
    pub fridge: bool,
}

/// That a step starts only after another has ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Link {
    /// The step that has to end first.
    pub step: StepId,
    /// The least time between its end and this start.
    pub least: Minutes,
    /// The greatest time, where waiting longer harms.
    pub greatest: Option<Minutes>,
}

/// How long a step takes.
#[derive(Debug, Clone, PartialEq)]
pub enum Length {
    /// As long as the baker works at it.
    Hands(Estimate<Minutes>),
    /// As long as the formula says, whatever the weather.
    Wait(Estimate<Minutes>),
    /// Until the yeast has done its work.
    Ferment {
        /// Minutes it takes at the formula's reference temperature.
        reference_minutes: Estimate<Minutes>,
        /// When to fold, in reference minutes from the start.
        folds: Vec<Minutes>,
        /// What it sits in.
        held: Held,
        /// Whether it starts as cold as the fridge.
        from_fridge: bool,
    },
    /// Until a filling is cold.
    Chill {
        /// How hot it goes in.
        from: Celsius,
        /// How cold it must be.
        to: Celsius,
        /// How deep it lies.
        depth: Millimetres,
        /// What cools it.
        cooling: Cooling,
    },
    /// Until the baked pieces have cooled.
    Cool {
        /// How cool their middle must be.
        to: Celsius,
    },
    /// In the oven.
    Bake {
        /// Temperature of a conventional oven.
        oven: Celsius,
        /// How long, for pieces of the formula's own mass.
        range: Estimate<Minutes>,
        /// How hot the middle is when it is done.
        core: Celsius,
        /// The mass of a piece as it goes into the oven that `range` was written for, filling included.
        piece: Grams,
        /// The form that `range` was written for; that of the pieces, until another is chosen.
        form: Option<BakeForm>,
        /// All that is in the oven at once for which `range` was written; what the formula makes, until it is scaled.
        load: Option<Grams>,
    },
    /// Until the oven is hot.
    OvenHeats {
        /// Temperature of a conventional oven.
        oven: Celsius,
    },
}

impl Length {
    /// Whether the baker works at it. Everything else goes on by itself and
    /// starts as soon as what it follows has ended.
    #[must_use]
    pub fn is_hands(&self) -> bool {
        matches!(self, Self::Hands(_))
    }
}

/// Whether a checklist is worked once, or on every piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// Once for everything.
    Batch,
    /// All of it on one piece, then the next piece.
    EachPiece,
}

/// The marks that a step asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Checklist {
    /// One mark for each ingredient of the step's component, with its amount.
    Ingredients,
    /// One mark for each ingredient of every component.
    AllIngredients,
    /// The mass of every divided piece.
    PieceMasses,
    /// Written marks.
    Marks {
        /// Once, or on every piece.
        scope: Scope,
        /// What is done, in order.
        items: Vec<String>,
    },
}

impl Checklist {
    /// Whether the work under it is done on every piece, so that more pieces take longer.
    #[must_use]
    pub fn is_by_piece(&self) -> bool {
        match self {
            Self::PieceMasses => true,
            Self::Marks { scope, .. } => *scope == Scope::EachPiece,
            Self::Ingredients | Self::AllIngredients => false,
        }
    }
}

/// A danger that a step brings; the words stand in the app.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Sugar or jam hot enough to stick and burn.
    HotSugar,
    /// Custard or cream that spits and scalds.
    HotCustard,
    /// A hot oven, tray or tin.
    HotOven,
    /// Egg that is not cooked yet.
    RawEgg,
    /// Flour that is not baked yet.
    RawFlour,
    /// Something that is often an allergy.
    Allergens,
    /// Food that must be cold again soon.
    Perishable,
    /// A filling that must cool in time.
    CoolQuickly,
}

impl Caution {
    /// Whether it is about something hot, which hurts before anybody has read on.
    #[must_use]
    pub fn burns(self) -> bool {
        matches!(self, Self::HotSugar | Self::HotCustard | Self::HotOven)
    }
}

/// One piece of work or waiting.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Its number within the formula.
    pub id: StepId,
    /// The component it works on.
    pub component: ComponentId,
    /// What is done, in the trade's words.
    pub kind: StepKind,
    /// Its name in lists: "First rise".
    pub title: String,
    /// What to do now, in at most twelve words, read from across the kitchen.
    pub instruction: String,
    /// How to do it, for whoever wants to know.
    pub detail: String,
    /// What to look for: "it springs back slowly". Empty where there is nothing to judge.
    pub cue: String,
    /// The principle behind it, in a sentence or two.
    pub why: String,
    /// Its dangers.
    pub cautions: Vec<Caution>,
    /// What it occupies.
    pub needs: Needs,
    /// What has to end before it starts.
    pub after: Vec<Link>,
    /// How long it takes.
    pub length: Length,
    /// The marks it asks for.
    pub checklist: Option<Checklist>,
    /// The step that this one has to be early for: turning the oven on is timed
    /// so that the heating which follows ends as that step's window opens.
    pub ahead_of: Option<StepId>,
}

impl Step {
    /// Most words an instruction may have, to be read from across the kitchen.
    pub const MOST_WORDS: usize = 12;

    /// Whether the baker works at it.
    #[must_use]
    pub fn is_hands(&self) -> bool {
        self.length.is_hands()
    }

    /// Whether hands bring something that spoils to the dough or the bread, and so have it out.
    #[must_use]
    pub fn brings_perishable(&self) -> bool {
        self.handles_perishable() && !self.needs.fridge
    }

    /// Whether hands put something that spoils into the fridge.
    #[must_use]
    pub fn puts_perishable_away(&self) -> bool {
        self.handles_perishable() && self.needs.fridge
    }

    /// Whether hands do either of the two; a bread that is served is neither brought anywhere nor put away.
    #[must_use]
    pub fn handles_perishable(&self) -> bool {
        self.is_hands()
            && self.kind != StepKind::Serve
            && self.cautions.contains(&Caution::Perishable)
    }

    /// Whether its checklist is worked on every piece in turn.
    #[must_use]
    pub fn is_by_piece(&self) -> bool {
        let each = Scope::EachPiece;
        matches!(&self.checklist, Some(Checklist::Marks { scope, .. }) if *scope == each)
    }
}
