//! How a shape is read from JSON and written as JSON.
//!
//! `serde_json` knows JSON's grammar, numbers and escapes. Which field stands
//! where is known to one table a shape (`shape!` in `table`), read both ways.
//! Deriving serde's traits says the same, but every type then carries a parser of
//! its own. Measured as WebAssembly, with `serde_json`: 190 kB where this takes 110.

use std::fmt;

use serde_json::Value;

/// Something that is stored: a number, a text, a list, a whole record.
pub trait Shape: Sized {
    /// Reads it.
    ///
    /// # Errors
    /// The first thing that isn't of the shape, and where.
    fn from_json(json: &Value) -> Result<Self, Flaw>;

    /// Writes it at the end of `to`.
    fn write_json(&self, to: &mut String);
}

/// What isn't of the shape, and where: "steps[3].title is missing".
#[derive(Debug, Clone, PartialEq)]
pub struct Flaw {
    /// From outside in, each object's field as ".name" and each list's item as "[index]".
    place: String,
    what: String,
}

impl Flaw {
    /// `what` goes on from the place: "is missing".
    pub(crate) fn new(what: impl Into<String>) -> Self {
        Self {
            place: String::new(),
            what: what.into(),
        }
    }

    /// A word that is none of a table's.
    pub(crate) fn unknown(word: &str, label: &str) -> Self {
        Self::new(format!("is \"{word}\", which is no {label}"))
    }

    /// The same, seen from the object around it.
    pub(crate) fn in_field(mut self, name: &str) -> Self {
        self.place = format!(".{name}{}", self.place);
        self
    }

    /// The same, seen from the list around it.
    fn in_list(mut self, index: usize) -> Self {
        self.place = format!("[{index}]{}", self.place);
        self
    }
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let place = match self.place.as_str() {
            "" => "it",
            place => place.strip_prefix('.').unwrap_or(place),
        };
        write!(f, "{place} {}", self.what)
    }
}

/// What a JSON text says; of anything else it is said that it should be `label`.
pub(crate) fn text<'a>(json: &'a Value, label: &str) -> Result<&'a str, Flaw> {
    json.as_str().ok_or_else(|| should_be(label))
}

pub(crate) fn should_be(label: &str) -> Flaw {
    Flaw::new(format!("should be {label}"))
}

/// Writes text in quotes, escaped.
pub(crate) fn write_text(text: &str, to: &mut String) {
    *to += &serde_json::to_string(text).expect("text is always JSON");
}

impl Shape for String {
    fn from_json(json: &Value) -> Result<Self, Flaw> {
        text(json, "text").map(str::to_owned)
    }

    fn write_json(&self, to: &mut String) {
        write_text(self, to);
    }
}

impl Shape for bool {
    fn from_json(json: &Value) -> Result<Self, Flaw> {
        json.as_bool().ok_or_else(|| should_be("true or false"))
    }

    fn write_json(&self, to: &mut String) {
        *to += if *self { "true" } else { "false" };
    }
}

impl Shape for f64 {
    fn from_json(json: &Value) -> Result<Self, Flaw> {
        json.as_f64().ok_or_else(|| should_be("a number"))
    }

    /// JSON has no word for what is no number; `null` is written and never read as one.
    fn write_json(&self, to: &mut String) {
        *to += &Value::from(*self).to_string();
    }
}

impl Shape for i64 {
    fn from_json(json: &Value) -> Result<Self, Flaw> {
        json.as_i64().ok_or_else(|| should_be("a whole number"))
    }

    fn write_json(&self, to: &mut String) {
        *to += &self.to_string();
    }
}

impl Shape for u32 {
    fn from_json(json: &Value) -> Result<Self, Flaw> {
        count(json, u32::MAX)
    }

    fn write_json(&self, to: &mut String) {
        i64::from(*self).write_json(to);
    }
}

impl Shape for u16 {
    fn from_json(json: &Value) -> Result<Self, Flaw> {
        let count = count(json, u16::MAX.into())?;
        Ok(u16::try_from(count).expect("a count is no greater than was asked"))
    }

    fn write_json(&self, to: &mut String) {
        i64::from(*self).write_json(to);
    }
}

fn count(json: &Value, most: u32) -> Result<u32, Flaw> {
    json.as_u64()
        .and_then(|count| u32::try_from(count).ok())
        .filter(|&count| count <= most)
        .ok_or_else(|| should_be(&format!("a whole number from 0 to {most}")))
}

impl<T: Shape> Shape for Vec<T> {
    fn from_json(json: &Value) -> Result<Self, Flaw> {
        let list = json.as_array().ok_or_else(|| should_be("a list"))?;
        let mut read = Vec::with_capacity(list.len());
        for (index, json) in list.iter().enumerate() {
            read.push(T::from_json(json).map_err(|flaw| flaw.in_list(index))?);
        }
        Ok(read)
    }

    fn write_json(&self, to: &mut String) {
        to.push('[');
        for (index, item) in self.iter().enumerate() {
            if index > 0 {
                to.push(',');
            }
            item.write_json(to);
        }
        to.push(']');
    }
}

impl<T: Shape> Shape for Option<T> {
    fn from_json(json: &Value) -> Result<Self, Flaw> {
        match json {
            Value::Null => Ok(None),
            json => T::from_json(json).map(Some),
        }
    }

    fn write_json(&self, to: &mut String) {
        match self {
            Some(some) => some.write_json(to),
            None => *to += "null",
        }
    }
}

impl<T: Shape> Shape for Box<T> {
    fn from_json(json: &Value) -> Result<Self, Flaw> {
        T::from_json(json).map(Box::new)
    }

    fn write_json(&self, to: &mut String) {
        T::write_json(self, to);
    }
}
