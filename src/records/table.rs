//! Shapes as tables: one table a shape, read both ways.

use serde_json::{Map, Value};

use crate::shape::{Flaws, Shape, write_text};

/// Declares a stored struct, or a stored enum whose variants each have a word.
///
/// A struct is an object with its fields. A variant is an object with its word
/// in the field `kind`, and its fields beside it. A field with `= value` may be
/// absent; it then has that value, and such a value isn't written. Fields that
/// the table doesn't have are ignored: a later program may have added them.
///
/// Names and words are stored, so they are never changed after release.
macro_rules! shape {
    ($(#[$meta:meta])* $vis:vis struct $name:ident {
        $($field:ident: $type:ty $(= $absent:expr)?),* $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, PartialEq)]
        #[allow(missing_docs, reason = "the fields carry their meaning and unit in their names")]
        $vis struct $name { $($vis $field: $type),* }

        impl $crate::shape::Shape for $name {
            fn from_json(json: &serde_json::Value, flaws: &$crate::shape::Flaws) -> Self {
                let fields = $crate::table::Fields::of(json, flaws);
                Self { $($field: $crate::table::read!(fields, $field $(, $absent)?)),* }
            }

            fn write_json(&self, to: &mut String) {
                let mut object = $crate::table::Object::begin(to);
                let Self { $($field),* } = self;
                $($crate::table::write!(object, $field $(, $absent)?);)*
                object.end();
            }
        }
    };

    ($(#[$meta:meta])* $vis:vis enum $name:ident as $label:literal {
        $($variant:ident = $word:literal $({
            $($field:ident: $type:ty $(= $absent:expr)?),* $(,)?
        })?),* $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, PartialEq)]
        #[allow(missing_docs, reason = "the fields carry their meaning and unit in their names")]
        $vis enum $name { $($variant $({ $($field: $type),* })?),* }

        impl $crate::shape::Shape for $name {
            fn from_json(json: &serde_json::Value, flaws: &$crate::shape::Flaws) -> Self {
                let fields = $crate::table::Fields::of(json, flaws);
                match fields.word(&[$($word),*], $label) {
                    $($word => Self::$variant $({
                        $($field: $crate::table::read!(fields, $field $(, $absent)?)),*
                    })?,)*
                    _ => unreachable!("the word is one of the table's"),
                }
            }

            fn write_json(&self, to: &mut String) {
                let mut object = $crate::table::Object::begin(to);
                match self {
                    $(Self::$variant $({ $($field),* })? => {
                        object.word($word);
                        $($($crate::table::write!(object, $field $(, $absent)?);)*)?
                    })*
                }
                object.end();
            }
        }
    };
}

macro_rules! read {
    ($fields:ident, $field:ident) => {
        $fields.required(stringify!($field))
    };
    ($fields:ident, $field:ident, $absent:expr) => {
        $fields
            .optional(stringify!($field))
            .unwrap_or_else(|| $absent)
    };
}

macro_rules! write {
    ($object:ident, $field:ident) => {
        $object.field(stringify!($field), $field)
    };
    ($object:ident, $field:ident, $absent:expr) => {
        $object.field_unless(stringify!($field), $field, &$absent)
    };
}

pub(crate) use {read, shape, write};

/// The fields of an object that is read.
pub(crate) struct Fields<'a> {
    object: Option<&'a Map<String, Value>>,
    flaws: &'a Flaws,
}

impl<'a> Fields<'a> {
    pub(crate) fn of(json: &'a Value, flaws: &'a Flaws) -> Self {
        let object = json.as_object();
        if object.is_none() {
            flaws.tell(&"should be an object");
        }
        Self { object, flaws }
    }

    pub(crate) fn required<T: Shape>(&self, name: &'static str) -> T {
        self.flaws.enter(name);
        let read = T::from_json(self.get_or_missing(name), self.flaws);
        self.flaws.leave();
        read
    }

    pub(crate) fn optional<T: Shape>(&self, name: &'static str) -> Option<T> {
        let json = self.object?.get(name)?;
        self.flaws.enter(name);
        let read = T::from_json(json, self.flaws);
        self.flaws.leave();
        Some(read)
    }

    /// The word of a variant.
    pub(crate) fn word(&self, words: &[&'static str], label: &str) -> &'static str {
        self.flaws.enter("kind");
        let word = self
            .flaws
            .expect(self.get_or_missing("kind").as_str(), "text");
        let chosen = self.flaws.choose(word, words, label);
        self.flaws.leave();
        words[chosen]
    }

    fn get_or_missing(&self, name: &str) -> &'a Value {
        let found = self.object.and_then(|object| object.get(name));
        found.unwrap_or_else(|| {
            self.flaws.tell(&"is missing");
            &Value::Null
        })
    }
}

/// An object that is being written.
pub(crate) struct Object<'a> {
    to: &'a mut String,
    before: char,
}

impl<'a> Object<'a> {
    pub(crate) fn begin(to: &'a mut String) -> Self {
        Self { to, before: '{' }
    }

    /// The word of a variant.
    pub(crate) fn word(&mut self, word: &str) {
        self.name("kind");
        write_text(word, self.to);
    }

    pub(crate) fn field<T: Shape>(&mut self, name: &str, value: &T) {
        self.name(name);
        value.write_json(self.to);
    }

    /// A field whose value is JSON already.
    pub(crate) fn written(&mut self, name: &str, json: &str) {
        self.name(name);
        *self.to += json;
    }

    pub(crate) fn field_unless<T: Shape + PartialEq>(&mut self, name: &str, value: &T, absent: &T) {
        if value != absent {
            self.field(name, value);
        }
    }

    fn name(&mut self, name: &str) {
        self.to.push(self.before);
        self.before = ',';
        write_text(name, self.to);
        self.to.push(':');
    }

    /// Every object has a field, so its bracket is open.
    pub(crate) fn end(self) {
        self.to.push('}');
    }
}
