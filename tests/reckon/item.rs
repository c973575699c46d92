//! One item, and how its inputs are read.

use domain::units::{
    Celsius, CelsiusDelta, Grams, JoulesPerGram, JoulesPerGramKelvin, KilogramsPerCubicMetre,
    Millimetres, OutOfRange, Quantity, WattsPerMetreKelvin, WattsPerSquareMetreKelvin,
};
use serde::{Deserialize, Deserializer};
use serde_json::{Map, Value};

/// A published figure.
#[derive(Debug, Clone, Deserialize)]
pub(crate) struct Item {
    pub(crate) id: String,
    pub(crate) topic: String,
    #[serde(default, deserialize_with = "or_none")]
    pub(crate) inputs: Map<String, Value>,
    pub(crate) expected: Value,
    #[serde(default)]
    pub(crate) unit: Value,
    #[serde(default)]
    pub(crate) tolerance: Value,
}

/// Inputs, or none where the file has `null` for them.
fn or_none<'a, D: Deserializer<'a>>(from: D) -> Result<Map<String, Value>, D::Error> {
    Ok(Option::deserialize(from)?.unwrap_or_default())
}

/// Why something can't be reckoned.
pub(crate) type Refused = String;

/// A quantity, or the sentence that it is out of range.
pub(crate) fn fits<Q>(read: Result<Q, OutOfRange>) -> Result<Q, Refused> {
    read.map_err(|why| format!("outside the model: {why}"))
}

impl Item {
    pub(crate) fn number(&self, key: &str) -> Result<f64, Refused> {
        let value = self.inputs.get(key).and_then(Value::as_f64);
        value.ok_or_else(|| format!("its inputs hold no number {key}"))
    }

    pub(crate) fn text(&self, key: &str) -> Result<&str, Refused> {
        let value = self.inputs.get(key).and_then(Value::as_str);
        value.ok_or_else(|| format!("its inputs hold no text {key}"))
    }

    pub(crate) fn map(&self, key: &str) -> Result<&Map<String, Value>, Refused> {
        let value = self.inputs.get(key).and_then(Value::as_object);
        value.ok_or_else(|| format!("its inputs hold no table {key}"))
    }

    /// A list of numbers.
    pub(crate) fn numbers(&self, key: &str) -> Result<Vec<f64>, Refused> {
        let list = self.inputs.get(key).and_then(Value::as_array);
        list.and_then(|list| list.iter().map(Value::as_f64).collect())
            .ok_or_else(|| format!("its inputs hold no list of numbers {key}"))
    }

    /// The words of `order`, which say what a list of expected values is of.
    pub(crate) fn order(&self) -> Option<Vec<&str>> {
        let list = self.inputs.get("order").and_then(Value::as_array)?;
        list.iter().map(Value::as_str).collect()
    }

    /// A temperature given as `tap_C` or `tap_F`, or plainly as `tap` in °C.
    pub(crate) fn celsius(&self, name: &str) -> Result<Celsius, Refused> {
        if let Ok(value) = self.number(&format!("{name}_F")) {
            return fits(Celsius::from_fahrenheit(value));
        }
        let value = self.number(&format!("{name}_C"));
        fits(Celsius::new(value.or_else(|_| self.number(name))?))
    }

    /// A difference of temperatures given as `friction_F`, `friction_C` or `friction_K`.
    pub(crate) fn difference(&self, name: &str) -> Result<CelsiusDelta, Refused> {
        if let Ok(value) = self.number(&format!("{name}_F")) {
            return fits(CelsiusDelta::from_fahrenheit(value));
        }
        let value = self.number(&format!("{name}_C"));
        fits(CelsiusDelta::new(
            value.or_else(|_| self.number(&format!("{name}_K")))?,
        ))
    }

    /// Every temperature of the inputs but those of these names.
    pub(crate) fn celsius_but(&self, names: &[&str]) -> Result<Vec<Celsius>, Refused> {
        let given = self.inputs.keys().filter_map(|key| {
            key.strip_suffix("_F")
                .or_else(|| key.strip_suffix("_C"))
                .filter(|name| !names.contains(name))
        });
        given.map(|name| self.celsius(name)).collect()
    }

    pub(crate) fn grams(&self, key: &str) -> Result<Grams, Refused> {
        fits(Grams::new(self.number(key)?))
    }

    pub(crate) fn per_gram(&self, key: &str) -> Result<JoulesPerGram, Refused> {
        match self.inputs.get(key) {
            None => Ok(JoulesPerGram::clamped(0.0)),
            Some(_) => fits(JoulesPerGram::new(self.number(key)?)),
        }
    }

    /// A length given in m.
    pub(crate) fn metres(&self, key: &str) -> Result<Millimetres, Refused> {
        fits(Millimetres::new(self.number(key)? * 1000.0))
    }

    pub(crate) fn film(&self) -> Result<WattsPerSquareMetreKelvin, Refused> {
        fits(WattsPerSquareMetreKelvin::new(self.number("h")?))
    }

    pub(crate) fn conductivity(&self) -> Result<WattsPerMetreKelvin, Refused> {
        fits(WattsPerMetreKelvin::new(self.number("k")?))
    }

    pub(crate) fn density(&self) -> Result<KilogramsPerCubicMetre, Refused> {
        fits(KilogramsPerCubicMetre::new(self.number("rho")?))
    }

    /// A specific heat given in J/(kg K).
    pub(crate) fn specific_heat(&self) -> Result<JoulesPerGramKelvin, Refused> {
        fits(JoulesPerGramKelvin::new(self.number("cp_J")? / 1000.0))
    }

    /// The NDB number of a food.
    pub(crate) fn ndb(&self) -> Result<u32, Refused> {
        let number = self.inputs.get("NDB").and_then(|value| {
            value
                .as_u64()
                .or_else(|| value.as_str().and_then(|text| text.parse().ok()))
        });
        number
            .and_then(|number| u32::try_from(number).ok())
            .ok_or_else(|| "its inputs hold no NDB number".to_owned())
    }

    fn in_fahrenheit(&self) -> bool {
        self.unit
            .as_str()
            .is_some_and(|unit| unit.starts_with("°F"))
    }

    /// A temperature in the unit that the answer is wanted in.
    pub(crate) fn shown(&self, at: Celsius) -> Value {
        if self.in_fahrenheit() {
            at.to_fahrenheit().into()
        } else {
            at.get().into()
        }
    }

    /// A difference in the unit that the answer is wanted in.
    pub(crate) fn shown_difference(&self, by: CelsiusDelta) -> Value {
        if self.in_fahrenheit() {
            by.to_fahrenheit().into()
        } else {
            by.get().into()
        }
    }
}

/// A list of bare numbers.
pub(crate) fn list<Q: Quantity>(values: &[Q]) -> Value {
    values.iter().map(|value| value.get()).collect()
}
