//! The trade's rule of three or four factors.
//!
//! `liquid = n target - sum(known temperatures) - friction factor`
//!
//! where n counts the liquid and the known temperatures: flour and kitchen, and
//! the preferment if there is one. Any temperature scale, the same throughout;
//! the friction factor is a difference, so from °F it converts by five ninths
//! without minus 32.
//!
//! Source: T. Lehmann, *PMQ* (Spring 2003) and *Pizza Today* (June 2018);
//! *Cook's Illustrated*, "Precise water temperature for the perfect loaf", for
//! four factors. The rule knows no masses and no other ingredients, so it suits
//! lean doughs of usual hydration; its friction factor hides the heat of
//! hydration and is about three times the warming that friction causes.
//!
//! What it leaves out, in our own enriched doughs in a kitchen at 22 °C with a stand mixer: for
//! two with egg from the fridge it asks for liquid 7 and 8 K colder than the balance does, which
//! makes the dough 1.1 to 1.3 K colder; for one with a third of its flour in a preferment 3 K
//! warmer, half a kelvin in the dough.

use super::LiquidQuestion;
use crate::thermal::mixing::PartKind;
use crate::units::{Celsius, CelsiusDelta};

/// What the liquid should have by the rule, or `None` outside the range of [`Celsius`].
///
/// ```
/// use domain::thermal::liquid::rule::rule_of_factors;
/// use domain::units::{celsius, celsius_delta};
///
/// let known = [celsius(21.0), celsius(22.0)];
/// let liquid = rule_of_factors(celsius(25.0), &known, celsius_delta(11.0));
/// assert_eq!(liquid, Some(celsius(21.0)));
/// ```
#[must_use]
pub fn rule_of_factors(
    target: Celsius,
    known: &[Celsius],
    friction: CelsiusDelta,
) -> Option<Celsius> {
    let factors = known.len() as f64 + 1.0;
    let known_c: f64 = known.iter().map(|at| at.get()).sum();
    Celsius::new(factors * target.get() - known_c - friction.get()).ok()
}

/// What the dough comes to by the rule: the mean of what is known, and a share of the friction factor.
///
/// `known` holds the liquid too, and isn't empty.
#[must_use]
pub fn dough_by_rule(known: &[Celsius], friction: CelsiusDelta) -> Option<Celsius> {
    let sum_c: f64 = known.iter().map(|at| at.get()).sum();
    Celsius::new((sum_c + friction.get()) / known.len() as f64).ok()
}

/// The friction factor that a batch had: `FF = n dough - sum(known temperatures)`, the liquid's among them.
#[must_use]
pub fn friction_of_batch(dough: Celsius, known: &[Celsius]) -> Option<CelsiusDelta> {
    let above = |at: &Celsius| (dough - *at).get();
    CelsiusDelta::new(known.iter().map(above).sum()).ok()
}

/// The rule for a question, where it applies: with flour, and a friction factor for the method.
pub(super) fn for_question(question: &LiquidQuestion) -> Option<Celsius> {
    let friction = question.method.published_friction()?;
    let mut known = vec![
        mean_temperature(question, PartKind::Flour)?,
        question.kitchen,
    ];
    known.extend(mean_temperature(question, PartKind::Preferment));
    rule_of_factors(question.target, &known, friction)
}

fn mean_temperature(question: &LiquidQuestion, kind: PartKind) -> Option<Celsius> {
    let of_kind = || question.parts.iter().filter(|part| part.kind == kind);
    let mass_g: f64 = of_kind().map(|part| part.mass.get()).sum();
    let weighted: f64 = of_kind()
        .map(|part| part.mass.get() * part.temperature.get())
        .sum();
    (mass_g > 0.0).then(|| Celsius::clamped(weighted / mass_g))
}
