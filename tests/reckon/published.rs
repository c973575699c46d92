//! The USDA's own tables, for foods that the model doesn't carry.
//!
//! `usda-sr28-abbrev.csv`: Standard Reference 28, file ABBREV as comma-separated values, found
//! by its column names. `usda-sr26-weight.txt`: release 26, file WEIGHT, in the database's own
//! form, `~number~^sequence^amount^~description~^grams^…`. Both are in the public domain. They
//! are read where they lie, when a number is asked for that the model's own table lacks.

use std::path::PathBuf;

use domain::food::{Composition, all, pantry};
use domain::units::{Grams, Share};

const COMPOSITIONS: &str = "usda-sr28-abbrev.csv";
/// Where an answer comes from that isn't the model's.
const TABLE: &str = "the published table";
const WEIGHTS: &str = "usda-sr26-weight.txt";

/// The columns of [`Composition`], in its order.
const COLUMNS: [&str; 7] = [
    "Water_(g)",
    "Protein_(g)",
    "Lipid_Tot_(g)",
    "Carbohydrt_(g)",
    "Fiber_TD_(g)",
    "Ash_(g)",
    "Sugar_Tot_(g)",
];

/// Where the published tables lie, if anywhere.
pub(crate) struct Published {
    folder: Option<PathBuf>,
}

impl Published {
    pub(crate) fn in_folder(folder: Option<PathBuf>) -> Self {
        Self { folder }
    }

    /// What the food of that number is made of: by the model, or else by the published table.
    pub(crate) fn composition(&self, ndb: u32) -> Option<(Composition, &'static str)> {
        if let Some(food) = all().iter().find(|food| food.ndb == Some(ndb)) {
            return Some((food.composition, "food"));
        }
        if let Some(found) = pantry::composition(ndb) {
            return Some((found, "food::pantry"));
        }
        let text = std::fs::read_to_string(self.folder.as_ref()?.join(COMPOSITIONS)).ok()?;
        Some((from_table(&text, ndb)?, TABLE))
    }

    /// What a measure of a food weighs: by the model, or else by the published table.
    pub(crate) fn household_weight(
        &self,
        ndb: u32,
        measure: &str,
        said: &str,
    ) -> Option<(Grams, &'static str)> {
        if let Some(found) = pantry::household_weight(ndb, measure, said) {
            return Some((found, "food::pantry"));
        }
        let text = std::fs::read(self.folder.as_ref()?.join(WEIGHTS)).ok()?;
        let text = String::from_utf8_lossy(&text);
        let of_food = text.lines().filter_map(|line| weight(line, ndb));
        Some((pantry::fitting(of_food, measure, said)?, TABLE))
    }
}

fn from_table(text: &str, ndb: u32) -> Option<Composition> {
    let mut lines = text.lines();
    let names = fields(lines.next()?);
    let places: Option<Vec<usize>> = COLUMNS
        .iter()
        .map(|column| names.iter().position(|name| name == column))
        .collect();
    let row = lines
        .map(fields)
        .find(|row| row.first().is_some_and(|number| number.parse() == Ok(ndb)))?;
    let shares: Vec<Share> = places?
        .into_iter()
        .map(|place| {
            // What the database leaves blank counts as none.
            let per_100_g = row.get(place).and_then(|value| value.parse::<f64>().ok());
            Share::clamped(per_100_g.unwrap_or(0.0) / 100.0)
        })
        .collect();
    let [water, protein, fat, carbohydrate, fibre, ash, sugar] = shares.try_into().ok()?;
    Some(Composition {
        water,
        protein,
        fat,
        carbohydrate,
        fibre,
        ash,
        sugar,
    })
}

/// The description and mass of one measure, if the line is of that food.
fn weight(line: &str, ndb: u32) -> Option<(&str, Grams)> {
    let mut fields = line.split('^').map(|field| field.trim_matches('~'));
    let number: u32 = fields.next()?.parse().ok()?;
    let amount: f64 = fields.nth(1)?.parse().ok()?;
    let description = fields.next()?;
    let mass_g: f64 = fields.next()?.parse().ok()?;
    (number == ndb && amount > 0.0).then(|| (description, Grams::clamped(mass_g / amount)))
}

/// The fields of a line of comma-separated values; a field in quotes may hold commas.
fn fields(line: &str) -> Vec<String> {
    let (mut all, mut field, mut quoted) = (Vec::new(), String::new(), false);
    for letter in line.chars() {
        match letter {
            '"' => quoted = !quoted,
            ',' if !quoted => all.push(std::mem::take(&mut field)),
            other => field.push(other),
        }
    }
    all.push(field);
    all
}
