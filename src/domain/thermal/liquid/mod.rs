//! How warm the liquid must be, so that the dough comes off the bench at its target.
//!
//! [`mixing`](super::mixing) and [`kneading`](super::kneading) are solved
//! backwards for the one temperature the baker can choose: first the mixture
//! that kneading would bring to the target, then the liquid that makes the heat
//! balance of that mixture come out even. Sources, validity and what is left
//! out are those of the two models.
//!
//! Several liquids are poured together and have one temperature, T; cold, that
//! is what they come to when each is as cold as it is to be had:
//! `T = sum(m_i c_i T_i) / sum(m_i c_i)`, m in g, c in J/(g K), T in °C. The
//! melting of milk's own fat between the fridge and T is left out there: in
//! equal parts of milk and water, less than 0.1 K.
//!
//! What is out of reach is answered, not hidden: with ice for water, with a part
//! of it frozen for milk and juice ([`frozen`]), with what else to warm or chill
//! and for how long ([`chilling`]), and with what the dough will come to otherwise.
//! The trade's rule of factors stands beside it as a cross-check ([`rule`]).

mod advice;
pub mod balance;
pub mod chilling;
pub mod frozen;
pub mod ice;
pub mod rule;

pub use advice::{Action, Advice};
pub use chilling::{Chill, ColdPlace};
pub use frozen::FrozenSplit;

use super::crossing::crossing;
use super::kneading::{KneadingMethod, after_kneading_of};
use super::mixing::{Part, Sources, forecast, missing_heat_j, temperature_where};
use crate::estimate::Estimate;
use crate::food::Food;
use crate::units::{Celsius, CelsiusDelta, Grams, Minutes, celsius_delta, grams};

/// What [`LiquidAnswer::for_ten_kelvin`] is counted in.
const TEN_KELVIN: CelsiusDelta = celsius_delta(10.0);

/// A liquid whose temperature the baker chooses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LiquidPart {
    /// What it is, which says whether ice can take its place or a part of it be frozen.
    pub food: &'static Food,
    /// How much of it, with what is frozen.
    pub mass: Grams,
    /// The coldest it is to be had without freezing: from the tap or the fridge.
    pub coldest: Celsius,
}

/// All that the answer depends on.
#[derive(Debug, Clone, PartialEq)]
pub struct LiquidQuestion {
    /// Everything else that is mixed, each at its own temperature, and the bowl.
    pub parts: Vec<Part>,
    /// What can be warmed, chilled or iced: poured together, so all of one temperature.
    pub liquids: Vec<LiquidPart>,
    /// What the dough should come off the bench at.
    pub target: Celsius,
    /// The kitchen.
    pub kitchen: Celsius,
    /// The fridge.
    pub fridge: Celsius,
    /// How it is kneaded.
    pub method: KneadingMethod,
    /// How long mixing and kneading take.
    pub kneading: Minutes,
    /// The warmest the liquid may be, for the yeast's sake or, without yeast, the flour's.
    pub cap: Celsius,
}

/// Whether the wanted temperature can be had.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reach {
    /// It can.
    OnTarget,
    /// It would be too warm.
    TooWarmWanted {
        /// The warmest that is safe, which is used instead.
        cap: Celsius,
    },
    /// It can, with ice or a part of the liquid frozen.
    Frozen,
    /// It would be colder than can be had.
    TooColdWanted {
        /// The coldest to be had, which is used instead; with a part of it frozen this may be below zero.
        coldest: Celsius,
    },
}

/// How warm the liquid should be, and what comes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct LiquidAnswer {
    /// What to use. With a part of it frozen, what all of it together counts as.
    pub temperature: Celsius,
    /// What would meet the target if nothing stood in the way; stops at the range of [`Celsius`].
    pub wanted: Celsius,
    /// Whether that can be had.
    pub reach: Reach,
    /// What the dough will come to with `temperature`.
    pub dough: Estimate<Celsius>,
    /// Where the target is out of reach, the liquid nearest to the kitchen that
    /// does as well as a thermometer can tell; otherwise `temperature`, unless that
    /// means hours of freezing for what chilling does as well.
    pub mild: Celsius,
    /// What the dough will come to with `mild`.
    pub mild_dough: Estimate<Celsius>,
    /// What has to be frozen for `mild`, where that is colder than the liquid is to be had.
    pub frozen: Option<FrozenSplit>,
    /// Where freezing takes hours, what the dough will come to with the liquid only chilled.
    pub unfrozen_dough: Option<Estimate<Celsius>>,
    /// How much warmer the dough gets for 10 K more in the liquid; by hand, very little.
    pub for_ten_kelvin: CelsiusDelta,
    /// What the trade's rule says, where it says anything.
    pub rule_of_factors: Option<Celsius>,
    /// What else would help, the most helpful first; empty when the target is met without hours of freezing.
    pub advice: Vec<Advice>,
}

impl LiquidQuestion {
    /// Everything in the bowl, with the liquids at a temperature.
    fn mixture(&self, liquid_at: Celsius) -> Vec<Part> {
        let liquids = self.liquids.iter();
        let liquids = liquids.map(|part| Part::of(part.food, part.mass, liquid_at));
        self.parts.iter().copied().chain(liquids).collect()
    }

    /// What has to be added to the mixture, in J, for kneading to end at the target.
    fn missing_j(&self, liquid_at: Celsius) -> f64 {
        let parameters = self.method.parameters();
        let mixed = parameters.mixed_for(self.target, self.kitchen, self.kneading);
        missing_heat_j(&self.mixture(liquid_at), &Sources::USUAL, mixed.get())
    }

    /// The liquid temperature that meets the target, whatever stands in the way.
    fn wanted(&self) -> Celsius {
        // Heat is missing when the liquid is too cold, so the surplus rises with its temperature.
        let surplus_j = |liquid_c: f64| -self.missing_j(Celsius::clamped(liquid_c));
        temperature_where(&surplus_j)
    }

    /// What is used in place of `wanted`, and why.
    fn within_reach(&self, wanted: Celsius) -> (Celsius, Reach) {
        if wanted > self.cap {
            let cap = self.cap;
            return (cap, Reach::TooWarmWanted { cap });
        }
        if wanted >= frozen::chilled(&self.liquids) {
            return (wanted, Reach::OnTarget);
        }
        let coldest = frozen::coldest(self);
        if wanted >= coldest {
            return (wanted, Reach::Frozen);
        }
        (coldest, Reach::TooColdWanted { coldest })
    }
}

/// How warm the liquid should be, or `None` when there is no liquid to choose.
///
/// ```
/// use domain::food::food;
/// use domain::thermal::constants::YEAST_LIQUID_CAP;
/// use domain::thermal::kneading::KneadingMethod;
/// use domain::thermal::liquid::{LiquidPart, LiquidQuestion, Reach, liquid_temperature};
/// use domain::thermal::mixing::Part;
/// use domain::units::{celsius, grams, minutes};
///
/// let flour = food("bread-flour").expect("bread flour is in the table");
/// let water = food("water").expect("water is in the table");
/// let answer = liquid_temperature(&LiquidQuestion {
///     parts: vec![Part::of(flour, grams(500.0), celsius(20.0))],
///     liquids: vec![LiquidPart { food: water, mass: grams(320.0), coldest: celsius(12.0) }],
///     target: celsius(25.0),
///     kitchen: celsius(20.0),
///     fridge: celsius(5.0),
///     method: KneadingMethod::StandMixer,
///     kneading: minutes(8.0),
///     cap: YEAST_LIQUID_CAP,
/// });
/// let answer = answer.expect("there is water to warm");
/// assert_eq!(answer.reach, Reach::OnTarget);
/// assert!((answer.dough.likely().get() - 25.0).abs() < 0.05);
/// ```
#[must_use]
pub fn liquid_temperature(question: &LiquidQuestion) -> Option<LiquidAnswer> {
    let mass: Grams = question.liquids.iter().map(|part| part.mass).sum();
    if mass <= grams(0.0) {
        return None;
    }
    let wanted = question.wanted();
    let (temperature, reach) = question.within_reach(wanted);
    let dough = dough_with(question, temperature)?;
    let warmer = dough_with(question, temperature + TEN_KELVIN)?;
    let chilled = frozen::chilled(&question.liquids);
    let chilled_dough = dough_with(question, chilled)?;
    let met = matches!(reach, Reach::OnTarget | Reach::Frozen);
    let mild = if !met {
        mildest(question, temperature)
    } else if frozen::split(question, temperature).is_some_and(|split| split.takes_hours)
        && (chilled_dough.likely() - question.target).get() <= NOTICEABLE.get()
    {
        chilled
    } else {
        temperature
    };
    let frozen = frozen::split(question, mild);
    let takes_hours = frozen.is_some_and(|split| split.takes_hours);
    let unfrozen_dough = takes_hours.then_some(chilled_dough);
    let advice = match unfrozen_dough {
        Some(dough) => advice::for_shortfall(question, chilled, dough.likely()),
        None if met => Vec::new(),
        None => advice::for_shortfall(question, temperature, dough.likely()),
    };
    Some(LiquidAnswer {
        temperature,
        wanted,
        reach,
        dough,
        mild,
        mild_dough: dough_with(question, mild)?,
        frozen,
        unfrozen_dough,
        for_ten_kelvin: warmer.likely() - dough.likely(),
        rule_of_factors: rule::for_question(question),
        advice,
    })
}

/// ASSUMPTION: a dough this much nearer to its target is no nearer for a kitchen thermometer.
const NOTICEABLE: CelsiusDelta = celsius_delta(0.3);

/// The liquid nearest to the kitchen's own temperature that brings the dough as near
/// to its target as the extreme one does, but for what nobody would notice.
///
/// A dough kneaded by hand hardly feels its liquid; without this, a kitchen one
/// degree warmer would turn hot milk into milk from the fridge.
fn mildest(question: &LiquidQuestion, extreme: Celsius) -> Celsius {
    let miss = |liquid_at: Celsius| {
        let dough = dough_with(question, liquid_at);
        dough.map_or(0.0, |dough| (dough.likely() - question.target).get().abs())
    };
    let good_enough = miss(extreme) + NOTICEABLE.get();
    if miss(question.kitchen) <= good_enough {
        return question.kitchen;
    }
    let too_much_k = |liquid_c: f64| miss(Celsius::clamped(liquid_c)) - good_enough;
    let (mild_c, good_c) = (question.kitchen.get(), extreme.get());
    Celsius::clamped(crossing(mild_c, good_c, 1e-4, &too_much_k))
}

/// What the dough will come to with the liquid at a temperature, or `None` for an empty bowl.
///
/// For the baker who has the liquid already, and to see what a degree does.
#[must_use]
pub fn dough_with(question: &LiquidQuestion, liquid_at: Celsius) -> Option<Estimate<Celsius>> {
    let mixed = forecast(&question.mixture(liquid_at))?;
    Some(after_kneading_of(
        question.method,
        &mixed,
        question.kitchen,
        question.kneading,
    ))
}
