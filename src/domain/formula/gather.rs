//! What several formulas take together: what to buy or fetch, and what to set out.
//!
//! Amounts are those that each bake's own scales show, so the list says what will be weighed, and
//! the sum of a line's parts is the line. Equipment follows from the steps and from the form of the
//! pieces; what only a step's text asks for (film, a rolling pin) isn't known here.

use super::{Component, ComponentId, ComponentKind, Formula, Held, Length, Step, StepKind};
use crate::food::{Allergen, Food, FoodKind};
use crate::kitchen::Scales;
use crate::thermal::oven::BakeForm;
use crate::thermal::vessel::Cooling;
use crate::units::{Grams, grams};

/// Where in a shop, or at home, a food stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shelf {
    /// Flour, sugar, salt, dried yeast, oils and all else that keeps.
    Dry,
    /// Milk, butter, eggs and fresh yeast.
    Chilled,
    /// Fruit, nuts and spices.
    Fruit,
    /// Water.
    Tap,
}

impl Shelf {
    /// All of them, in the order of a list.
    pub const ALL: [Self; 4] = [Self::Dry, Self::Chilled, Self::Fruit, Self::Tap];

    /// Where a food stands.
    #[must_use]
    pub fn of(food: &Food) -> Self {
        match food.kind {
            FoodKind::Water => Self::Tap,
            FoodKind::Milk | FoodKind::Egg => Self::Chilled,
            FoodKind::Fat if food.milk_fat => Self::Chilled,
            FoodKind::Yeast if food.key == "yeast-fresh" => Self::Chilled,
            FoodKind::Fruit | FoodKind::Nut | FoodKind::Spice => Self::Fruit,
            _ => Self::Dry,
        }
    }
}

/// What a food of a list is for.
#[derive(Debug, Clone, PartialEq)]
pub struct Part<'a> {
    /// The place of its formula among those that are gathered for.
    pub formula: usize,
    /// The component it goes into.
    pub component: &'a Component,
    /// What the formula calls it.
    pub name: &'a str,
    /// How much, as the scales show it.
    pub mass: Grams,
}

/// One food of a list.
#[derive(Debug, Clone, PartialEq)]
pub struct Bought<'a> {
    /// Which.
    pub food: &'static Food,
    /// How much in all: the sum of its parts.
    pub mass: Grams,
    /// What it is for, in the order of the formulas.
    pub parts: Vec<Part<'a>>,
}

/// Large eggs out of their shells, and what is in one.
///
/// Source: USDA SR26, file WEIGHT, NDB 01123, 01124 and 01125, "large".
const EGG: Grams = grams(50.0);
const WHITE: Grams = grams(33.0);
const YOLK: Grams = grams(17.0);

impl Bought<'_> {
    /// What it is called: as the formulas do where they agree, else by its own name.
    #[must_use]
    pub fn name(&self) -> &str {
        let first = self.parts.first().map_or(self.food.name, |part| part.name);
        let agree = self.parts.iter().all(|part| part.name == first);
        if agree { first } else { self.food.name }
    }

    /// How many large eggs it takes, where it is egg or a part of one.
    #[must_use]
    pub fn eggs(&self) -> Option<u32> {
        let each = match self.food.key {
            "egg" => EGG,
            "egg-white" => WHITE,
            "egg-yolk" => YOLK,
            _ => return None,
        };
        // A whisker over so many eggs is so many.
        Some((self.mass / each - 1e-9).ceil() as u32)
    }
}

/// Everything that some formulas take, each food once, by what it does in a dough and then in the order in which they
/// name it.
#[must_use]
pub fn gather<'a>(formulas: &[(&'a Formula, Scales)]) -> Vec<Bought<'a>> {
    let mut list: Vec<Bought> = Vec::new();
    for (place, &(formula, scales)) in formulas.iter().enumerate() {
        for component in &formula.components {
            for (ingredient, mass) in component.ingredients.iter().zip(component.amounts(scales)) {
                let part = Part {
                    formula: place,
                    component,
                    name: &ingredient.name,
                    mass,
                };
                let food = ingredient.food;
                match list.iter_mut().find(|line| line.food.key == food.key) {
                    Some(line) => {
                        line.mass += mass;
                        line.parts.push(part);
                    }
                    None => list.push(Bought {
                        food,
                        mass,
                        parts: vec![part],
                    }),
                }
            }
        }
    }
    list.sort_by_key(|line| line.food.kind);
    list
}

/// How many large eggs a list takes: yolks and whites come out of the same ones.
#[must_use]
pub fn eggs(list: &[Bought]) -> u32 {
    let of = |key| {
        let mut lines = list.iter().filter(|line| line.food.key == key);
        lines.next().and_then(Bought::eggs).unwrap_or(0)
    };
    of("egg") + of("egg-yolk").max(of("egg-white"))
}

/// What in a list can be an allergy, in the order of the law, each with the places of the foods that bring it.
#[must_use]
pub fn allergens(list: &[Bought]) -> Vec<(Allergen, Vec<usize>)> {
    let bring = |allergen: &Allergen| {
        let lines = list.iter().enumerate();
        let bring = lines.filter(|(_, line)| line.food.allergens.contains(allergen));
        bring.map(|(place, _)| place).collect::<Vec<_>>()
    };
    let all = Allergen::ALL.into_iter();
    let found = all.map(|allergen| (allergen, bring(&allergen)));
    found.filter(|(_, lines)| !lines.is_empty()).collect()
}

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
