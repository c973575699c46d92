//! How warm the liquid must be, so that the dough comes off the bench at its target.
//!
//! [`mixing`](super::mixing) and [`kneading`](super::kneading) are solved
//! backwards for the one temperature the baker can choose: first the mixture
//! that kneading would bring to the target, then the liquid that makes the heat
//! balance of that mixture come out even. Sources, validity and what is left
//! out are those of the two models.
//!
//! What is out of reach is answered, not hidden: with ice for water, with what
//! else to warm or chill, and with what the dough will come to otherwise. The
//! trade's rule of factors stands beside it as a cross-check ([`rule`]).

mod advice;
pub mod balance;
pub mod ice;
pub mod rule;

pub use advice::{Advice, Move};
pub use ice::IceSplit;

use super::kneading::{KneadingMethod, after_kneading_of};
use super::mixing::{Part, Sources, forecast, missing_heat_j, rising_root};
use crate::estimate::Estimate;
use crate::food::{Food, FoodKind};
use crate::units::{Celsius, CelsiusDelta, Grams, Minutes, celsius_delta, grams};

/// What [`LiquidAnswer::for_ten_kelvin`] is counted in.
const TEN_KELVIN: CelsiusDelta = celsius_delta(10.0);

/// The liquid whose temperature the baker chooses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LiquidPart {
    /// What it is; only water can be iced.
    pub food: &'static Food,
    /// How much of it, ice included.
    pub mass: Grams,
}

/// All that the answer depends on.
#[derive(Debug, Clone, PartialEq)]
pub struct LiquidQuestion {
    /// Everything else that is mixed, each at its own temperature, and the bowl.
    pub parts: Vec<Part>,
    /// What can be warmed, chilled or iced.
    pub liquid: LiquidPart,
    /// What the dough should come off the bench at.
    pub target: Celsius,
    /// The kitchen.
    pub kitchen: Celsius,
    /// How it is kneaded.
    pub method: KneadingMethod,
    /// How long mixing and kneading take.
    pub kneading: Minutes,
    /// The warmest the liquid may be for the yeast's sake.
    pub yeast_cap: Celsius,
    /// The coldest the liquid is to be had: from the tap or the fridge.
    pub coldest: Celsius,
}

/// Whether the wanted temperature can be had.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reach {
    /// It can.
    OnTarget,
    /// It would be too warm for the yeast.
    TooWarmWanted {
        /// The warmest that is safe, which is used instead.
        cap: Celsius,
    },
    /// It can, with ice.
    Ice(IceSplit),
    /// It would be colder than can be had.
    TooColdWanted {
        /// The coldest to be had, which is used instead; with ice this may be below zero.
        coldest: Celsius,
        /// The most ice that helps, for water.
        ice: Option<IceSplit>,
    },
}

/// How warm the liquid should be, and what comes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct LiquidAnswer {
    /// What to use. With ice, what water and ice together count as.
    pub temperature: Celsius,
    /// What would meet the target if nothing stood in the way; stops at the range of [`Celsius`].
    pub wanted: Celsius,
    /// Whether that can be had.
    pub reach: Reach,
    /// What the dough will come to with `temperature`.
    pub dough: Estimate<Celsius>,
    /// Where the target is out of reach, the liquid nearest to the kitchen that
    /// does as well as a thermometer can tell; otherwise `temperature`.
    pub mild: Celsius,
    /// What the dough will come to with `mild`.
    pub mild_dough: Estimate<Celsius>,
    /// How much warmer the dough gets for 10 K more in the liquid; by hand, very little.
    pub for_ten_kelvin: CelsiusDelta,
    /// What the trade's rule says, where it says anything.
    pub rule_of_factors: Option<Celsius>,
    /// What else would help, the most helpful first; empty when the target is met.
    pub advice: Vec<Advice>,
}

impl LiquidQuestion {
    /// Everything in the bowl, with the liquid at a temperature.
    fn mixture(&self, liquid_at: Celsius) -> Vec<Part> {
        let liquid = Part::of(self.liquid.food, self.liquid.mass, liquid_at);
        self.parts.iter().copied().chain([liquid]).collect()
    }

    /// The liquid temperature that meets the target, whatever stands in the way.
    fn wanted(&self) -> Celsius {
        let parameters = self.method.parameters();
        let mixed = parameters.mixed_for(self.target, self.kitchen, self.kneading);
        // Heat is missing when the liquid is too cold, so the surplus rises with its temperature.
        let surplus_j = |liquid_c: f64| {
            let mixture = self.mixture(Celsius::clamped(liquid_c));
            -missing_heat_j(&mixture, &Sources::USUAL, mixed.get())
        };
        Celsius::clamped(rising_root(surplus_j))
    }

    /// What is used in place of `wanted`, and why.
    fn within_reach(&self, wanted: Celsius) -> (Celsius, Reach) {
        let (water, tap) = (self.liquid.mass, self.coldest);
        if wanted > self.yeast_cap {
            let cap = self.yeast_cap;
            return (cap, Reach::TooWarmWanted { cap });
        }
        if wanted >= tap {
            return (wanted, Reach::OnTarget);
        }
        if self.liquid.food.kind != FoodKind::Water {
            let (coldest, ice) = (tap, None);
            return (coldest, Reach::TooColdWanted { coldest, ice });
        }
        let coldest = ice::coldest_with_ice(tap);
        if wanted >= coldest {
            let split = ice::ice_for(water, tap, wanted);
            return (wanted, Reach::Ice(split));
        }
        let ice = Some(ice::ice_for(water, tap, coldest));
        (coldest, Reach::TooColdWanted { coldest, ice })
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
///     liquid: LiquidPart { food: water, mass: grams(320.0) },
///     target: celsius(25.0),
///     kitchen: celsius(20.0),
///     method: KneadingMethod::StandMixer,
///     kneading: minutes(8.0),
///     yeast_cap: YEAST_LIQUID_CAP,
///     coldest: celsius(12.0),
/// });
/// let answer = answer.expect("there is water to warm");
/// assert_eq!(answer.reach, Reach::OnTarget);
/// assert!((answer.dough.likely().get() - 25.0).abs() < 0.05);
/// ```
#[must_use]
pub fn liquid_temperature(question: &LiquidQuestion) -> Option<LiquidAnswer> {
    if question.liquid.mass <= grams(0.0) {
        return None;
    }
    let wanted = question.wanted();
    let (temperature, reach) = question.within_reach(wanted);
    let dough = dough_with(question, temperature)?;
    let warmer = dough_with(question, temperature + TEN_KELVIN)?;
    let met = matches!(reach, Reach::OnTarget | Reach::Ice(_));
    let mild = if met {
        temperature
    } else {
        mildest(question, temperature)
    };
    Some(LiquidAnswer {
        temperature,
        wanted,
        reach,
        dough,
        mild,
        mild_dough: dough_with(question, mild)?,
        for_ten_kelvin: warmer.likely() - dough.likely(),
        rule_of_factors: rule::for_question(question),
        advice: if met {
            Vec::new()
        } else {
            advice::for_shortfall(question, temperature, dough.likely())
        },
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
    let (mut mild_c, mut good_c) = (question.kitchen.get(), extreme.get());
    if miss(question.kitchen) <= good_enough {
        return question.kitchen;
    }
    // Twenty halvings of at most a hundred degrees leave less than a thousandth.
    for _ in 0..20 {
        let middle_c = 0.5 * (mild_c + good_c);
        if miss(Celsius::clamped(middle_c)) <= good_enough {
            good_c = middle_c;
        } else {
            mild_c = middle_c;
        }
    }
    Celsius::clamped(good_c)
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
