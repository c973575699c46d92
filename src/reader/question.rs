//! What a baker has to be asked about a text, each in a plain sentence.

use std::fmt;

use domain::decimal::plain;

/// Something that a text leaves open, or that can't be meant.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// No amount stands with an ingredient.
    HowMuch {
        /// The ingredient.
        name: String,
    },
    /// The amount can't be weighed: a tin, a handful.
    HowHeavy {
        /// The ingredient.
        name: String,
        /// The amount as it is written.
        amount: String,
    },
    /// An amount that nobody means.
    Absurd {
        /// The ingredient.
        name: String,
        /// The amount as it is written.
        amount: String,
        /// What it would be of the flour, in per cent.
        percent: f64,
    },
    /// No table has the ingredient.
    WhatIsIt {
        /// The ingredient.
        name: String,
    },
    /// Another formula stands in the same text.
    TwoFormulas {
        /// The first one, which was read.
        first: String,
        /// The other one's heading.
        second: String,
    },
    /// Nothing in it is flour.
    NoFlour,
    /// Nothing raises it.
    NoYeast,
    /// It says nothing of how it is made.
    NoSteps,
    /// Nothing says how hot the oven is.
    NoOven,
    /// A temperature without a scale.
    WhichScale {
        /// The step.
        step: String,
        /// What was taken, in °C.
        celsius: f64,
    },
    /// Percentages without the mass of the flour.
    HowMuchFlour,
}

impl fmt::Display for Question {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::HowMuch { name } => write!(f, "How much {name}? The text gives no amount."),
            Self::HowHeavy { name, amount } => {
                write!(f, "How many grams of {name} are \"{amount}\"?")
            }
            Self::Absurd {
                name,
                amount,
                percent,
            } => write!(
                f,
                "{name}: \"{amount}\" would be {} % of the flour. What is meant?",
                plain(*percent, 0)
            ),
            Self::WhatIsIt { name } => write!(f, "What kind of food is \"{name}\"?"),
            Self::TwoFormulas { first, second } => write!(
                f,
                "The text holds two recipes or more. Only the first was read as one (\"{first}\"); what about the second, \"{second}\"?"
            ),
            Self::NoFlour => write!(f, "Which flour, and how much of it? The text names none."),
            Self::NoYeast => write!(f, "What raises the dough? The text names no yeast."),
            Self::NoSteps => write!(f, "How is it made? The text has no steps."),
            Self::NoOven => write!(f, "How hot is the oven? The text gives no temperature."),
            Self::WhichScale { step, celsius } => write!(
                f,
                "Is {} °C right? \"{step}\" doesn't say °C or °F.",
                plain(*celsius, 0)
            ),
            Self::HowMuchFlour => write!(
                f,
                "How much flour? The text has percentages and no mass to reckon them from."
            ),
        }
    }
}
