//! What some formulas are worked with: it follows from their steps and from the form of the pieces.
//! What only a step's text asks for (film, a rolling pin) isn't known here.

use super::super::{ComponentId, ComponentKind, Formula, Held, Length, Step, StepKind};
use crate::thermal::oven::BakeForm;
use crate::thermal::vessel::Cooling;

/// What is worked with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tool {
    /// To weigh.
    Scales,
    /// With a probe, for doughs, fillings and what bakes.
    Thermometer,
    /// For a dough to be mixed and to rise in, covered.
    Bowl,
    /// For a dough that rises in a jar.
    Jar,
    /// For a dough that rises in a bag.
    Bag,
    /// For something on the hob.
    Pan,
    /// Flat, for a filling to cool in.
    Dish,
    /// With ice, for the dish to stand in.
    IceWater,
    /// For what is brushed on.
    Brush,
    /// To bake on.
    Tray,
    /// To bake in, one a piece.
    Tin,
    /// To cool on.
    Rack,
}

impl Tool {
    /// All of them, in the order in which they are needed.
    pub const ALL: [Self; 12] = [
        Self::Scales,
        Self::Thermometer,
        Self::Bowl,
        Self::Jar,
        Self::Bag,
        Self::Pan,
        Self::Dish,
        Self::IceWater,
        Self::Brush,
        Self::Tray,
        Self::Tin,
        Self::Rack,
    ];

    /// The name under which it is ticked off; stored, so never changed.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Scales => "scales",
            Self::Thermometer => "thermometer",
            Self::Bowl => "bowl",
            Self::Jar => "jar",
            Self::Bag => "bag",
            Self::Pan => "pan",
            Self::Dish => "dish",
            Self::IceWater => "ice-water",
            Self::Brush => "brush",
            Self::Tray => "tray",
            Self::Tin => "tin",
            Self::Rack => "rack",
        }
    }

    /// How many something takes, where one doesn't serve after the other: a bowl in which a dough
    /// rises is taken for hours, and a pan can be washed.
    fn counted(self, formula: &Formula) -> u16 {
        match self {
            Self::Bowl | Self::Jar | Self::Bag | Self::Dish => 1,
            Self::Tin => formula.pieces.count,
            _ => 0,
        }
    }

    /// Whether a step can't be done without it.
    fn is_for(self, step: &Step, formula: &Formula) -> bool {
        let held = |vessel| matches!(step.length, Length::Ferment { held, .. } if held == vessel);
        let bakes = matches!(step.length, Length::Bake { .. });
        let chills = matches!(step.length, Length::Chill { .. });
        let in_tins = formula.pieces.form == BakeForm::Tin;
        match self {
            Self::Scales => step.kind == StepKind::Gather,
            Self::Thermometer => step.kind == StepKind::TakeTemperature || bakes || chills,
            Self::Bowl => step.kind == StepKind::Mix || held(Held::Bowl),
            Self::Jar => held(Held::Jar),
            Self::Bag => held(Held::Bag),
            Self::Pan => step.needs.hob,
            Self::Dish => chills,
            Self::IceWater => {
                let cooling = match step.length {
                    Length::Chill { cooling, .. } => Some(cooling),
                    _ => None,
                };
                cooling == Some(Cooling::IceBath)
            }
            Self::Brush => {
                let glazes = formula
                    .component_of(step)
                    .is_some_and(|component| component.kind == ComponentKind::Glaze);
                step.kind == StepKind::Wash || (step.kind == StepKind::Finish && glazes)
            }
            Self::Tray => bakes && !in_tins,
            Self::Tin => bakes && in_tins,
            Self::Rack => matches!(step.length, Length::Cool { .. }),
        }
    }

    /// Whether a step keeps it from others: a tray also holds what rises on it.
    pub(crate) fn is_taken_by(self, step: &Step, formula: &Formula) -> bool {
        let rises = matches!(step.length, Length::Ferment { held, .. } if held == Held::Tray);
        self.is_for(step, formula) || (self == Self::Tray && rises)
    }

    /// Whether what several bakes have in use at once has to be counted, which hangs on their times.
    #[must_use]
    pub fn hangs_on_times(self) -> bool {
        matches!(self, Self::Tray | Self::Rack)
    }

    /// Whether it is worth saying what it is for.
    #[must_use]
    pub fn has_uses(self) -> bool {
        !matches!(self, Self::Scales | Self::Thermometer | Self::Rack)
    }
}

/// A tool of a list.
#[derive(Debug, Clone, PartialEq)]
pub struct Kit {
    /// Which.
    pub tool: Tool,
    /// How many at once; nothing where one serves after the other, or nobody can know.
    pub count: u16,
    /// What for: the place of the formula, and the component.
    pub uses: Vec<(usize, ComponentId)>,
}

/// What some formulas are worked with.
#[must_use]
pub fn kit(formulas: &[&Formula]) -> Vec<Kit> {
    let kit = |tool: Tool| {
        let mut kit = Kit {
            tool,
            count: 0,
            uses: Vec::new(),
        };
        for (place, formula) in formulas.iter().enumerate() {
            for step in &formula.steps {
                let of = (place, step.component);
                if tool.is_for(step, formula) && !kit.uses.contains(&of) {
                    kit.uses.push(of);
                    kit.count = kit.count.saturating_add(tool.counted(formula));
                }
            }
        }
        kit
    };
    let all = Tool::ALL.into_iter().map(kit);
    all.filter(|kit| !kit.uses.is_empty()).collect()
}
