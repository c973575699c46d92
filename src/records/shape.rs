//! How a shape is read from JSON and written as JSON.
//!
//! `serde_json` knows JSON's grammar, numbers and escapes. Which field stands
//! where is known to one table a shape (`shape!` in `table`), read both ways.
//! Deriving serde's traits says the same, but every type then carries a parser of
//! its own. Measured as WebAssembly, with `serde_json`: 190 kB where this takes 110.
//!
//! Reading never stops half-way: what isn't of the shape is told to [`Flaws`], and an
//! empty value stands for it, which nobody gets to see. A way out after every
//! field would be a third of the code that reads.

use std::cell::RefCell;
use std::fmt;

use serde_json::Value;

/// Something that is stored: a number, a text, a list, a whole record.
pub trait Shape: Sized {
    /// Reads it. What comes back counts only if `flaws` learnt of none.
    fn from_json(json: &Value, flaws: &Flaws) -> Self;

    /// Writes it at the end of `to`.
    fn write_json(&self, to: &mut String);
}

/// Reads something whole.
///
/// # Errors
/// The first thing that isn't of the shape, and where.
pub fn read<T: Shape>(json: &Value) -> Result<T, Flaw> {
    let flaws = Flaws::default();
    let read = T::from_json(json, &flaws);
    flaws.verdict(read)
}

/// What isn't of the shape, and where: "steps[3].title is missing".
#[derive(Debug, Clone, PartialEq)]
pub struct Flaw {
    /// From outside in, each object's field as ".name" and each list's item as "[index]".
    place: String,
    what: String,
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

/// The first flaw that was met, and where the reading is now.
#[derive(Debug, Default)]
pub struct Flaws {
    first: RefCell<Option<Flaw>>,
    place: RefCell<Vec<Inside>>,
}

/// A step from a value into one of its parts.
#[derive(Debug, Clone, Copy)]
enum Inside {
    Field(&'static str),
    Item(usize),
}

impl Flaws {
    /// What was read, if no flaw was met meanwhile.
    pub(crate) fn verdict<T>(self, read: T) -> Result<T, Flaw> {
        match self.first.into_inner() {
            None => Ok(read),
            Some(flaw) => Err(flaw),
        }
    }

    /// `what` goes on from the place: "is missing".
    pub(crate) fn tell(&self, what: &dyn fmt::Display) {
        let mut first = self.first.borrow_mut();
        if first.is_some() {
            return;
        }
        let mut place = String::new();
        for inside in &*self.place.borrow() {
            match inside {
                Inside::Field(name) => place.extend([".", name]),
                Inside::Item(index) => place.extend(["[", &index.to_string(), "]"]),
            }
        }
        let what = what.to_string();
        *first = Some(Flaw { place, what });
    }

    fn should_be(&self, label: &str) {
        self.tell(&format_args!("should be {label}"));
    }

    /// What was looked for, or else an empty value and a flaw.
    pub(crate) fn expect<T: Default>(&self, found: Option<T>, label: &str) -> T {
        found.unwrap_or_else(|| {
            self.should_be(label);
            T::default()
        })
    }

    /// The place of a word in a table of words; the first where it is none of them.
    pub(crate) fn choose(&self, word: &str, words: &[&str], label: &str) -> usize {
        words
            .iter()
            .position(|known| *known == word)
            .unwrap_or_else(|| {
                self.tell(&format_args!("is \"{word}\", which is no {label}"));
                0
            })
    }

    pub(crate) fn enter(&self, field: &'static str) {
        self.place.borrow_mut().push(Inside::Field(field));
    }

    pub(crate) fn leave(&self) {
        self.place.borrow_mut().pop();
    }
}

/// Writes text in quotes, escaped.
pub(crate) fn write_text(text: &str, to: &mut String) {
    *to += &serde_json::to_string(text).expect("text is always JSON");
}

impl Shape for String {
    fn from_json(json: &Value, flaws: &Flaws) -> Self {
        flaws.expect(json.as_str(), "text").to_owned()
    }

    fn write_json(&self, to: &mut String) {
        write_text(self, to);
    }
}

impl Shape for bool {
    fn from_json(json: &Value, flaws: &Flaws) -> Self {
        flaws.expect(json.as_bool(), "true or false")
    }

    fn write_json(&self, to: &mut String) {
        *to += if *self { "true" } else { "false" };
    }
}

impl Shape for f64 {
    fn from_json(json: &Value, flaws: &Flaws) -> Self {
        flaws.expect(json.as_f64(), "a number")
    }

    /// JSON has no word for what is no number; `null` is written and never read as one.
    fn write_json(&self, to: &mut String) {
        *to += &Value::from(*self).to_string();
    }
}

impl Shape for i64 {
    fn from_json(json: &Value, flaws: &Flaws) -> Self {
        flaws.expect(json.as_i64(), "a whole number")
    }

    fn write_json(&self, to: &mut String) {
        *to += &self.to_string();
    }
}

impl Shape for u32 {
    fn from_json(json: &Value, flaws: &Flaws) -> Self {
        count(json, u32::MAX, flaws)
    }

    fn write_json(&self, to: &mut String) {
        i64::from(*self).write_json(to);
    }
}

impl Shape for u16 {
    fn from_json(json: &Value, flaws: &Flaws) -> Self {
        let count = count(json, u16::MAX.into(), flaws);
        u16::try_from(count).expect("a count is no greater than was asked")
    }

    fn write_json(&self, to: &mut String) {
        i64::from(*self).write_json(to);
    }
}

fn count(json: &Value, most: u32, flaws: &Flaws) -> u32 {
    let found = json.as_u64().and_then(|count| u32::try_from(count).ok());
    found.filter(|&count| count <= most).unwrap_or_else(|| {
        flaws.should_be(&format!("a whole number from 0 to {most}"));
        0
    })
}

impl<T: Shape> Shape for Vec<T> {
    fn from_json(json: &Value, flaws: &Flaws) -> Self {
        let list = flaws.expect(json.as_array().map(Vec::as_slice), "a list");
        let mut read = Vec::with_capacity(list.len());
        for (index, json) in list.iter().enumerate() {
            flaws.place.borrow_mut().push(Inside::Item(index));
            read.push(T::from_json(json, flaws));
            flaws.leave();
        }
        read
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
    fn from_json(json: &Value, flaws: &Flaws) -> Self {
        match json {
            Value::Null => None,
            json => Some(T::from_json(json, flaws)),
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
    fn from_json(json: &Value, flaws: &Flaws) -> Self {
        Box::new(T::from_json(json, flaws))
    }

    fn write_json(&self, to: &mut String) {
        T::write_json(self, to);
    }
}
