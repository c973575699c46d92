//! Shapes as tables: one table a shape, read both ways.

use serde_json::{Map, Value};

use crate::shape::{Flaw, Shape, should_be, write_text};

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
            fn from_json(json: &serde_json::Value) -> Result<Self, $crate::shape::Flaw> {
                let fields = $crate::table::Fields::of(json)?;
                Ok(Self { $($field: $crate::table::read!(fields, $field $(, $absent)?)),* })
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
            fn from_json(json: &serde_json::Value) -> Result<Self, $crate::shape::Flaw> {
                let fields = $crate::table::Fields::of(json)?;
                match fields.required::<String>("kind")?.as_str() {
                    $($word => Ok(Self::$variant $({
                        $($field: $crate::table::read!(fields, $field $(, $absent)?)),*
                    })?),)*
                    word => Err($crate::shape::Flaw::unknown(word, $label).in_field("kind")),
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
        $fields.required(stringify!($field))?
    };
    ($fields:ident, $field:ident, $absent:expr) => {
        $fields
            .optional(stringify!($field))?
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
pub(crate) struct Fields<'a>(&'a Map<String, Value>);

impl<'a> Fields<'a> {
    pub(crate) fn of(json: &'a Value) -> Result<Self, Flaw> {
        let fields = json.as_object().ok_or_else(|| should_be("an object"))?;
        Ok(Self(fields))
    }

    pub(crate) fn required<T: Shape>(&self, name: &str) -> Result<T, Flaw> {
        self.optional(name)?
            .ok_or_else(|| Flaw::new("is missing").in_field(name))
    }

    pub(crate) fn optional<T: Shape>(&self, name: &str) -> Result<Option<T>, Flaw> {
        let json = self.0.get(name).map(T::from_json);
        json.transpose().map_err(|flaw| flaw.in_field(name))
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
