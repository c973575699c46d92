//! Carrying records of older versions forward, one named step at a time.
//!
//! A step is added when a shape changes and is never edited after release.
//! `tests/saves` holds one archive of every released version; they load forever.

use serde_json::Value;

use crate::Kind;

/// One change of a shape.
pub struct Migration {
    /// What changed: "AddFlourTemperature".
    pub name: &'static str,
    /// The shape that changed.
    pub kind: Kind,
    /// The version it turns a record into; it came from the one below.
    pub to: u32,
    /// The change itself. It leaves alone what it doesn't understand; reading says no later.
    pub change: fn(&mut Value),
}

/// Every change since the first release, oldest first. All shapes began at version 1.
pub const MIGRATIONS: &[Migration] = &[];

/// The newest version of a shape.
#[must_use]
pub fn newest(kind: Kind) -> u32 {
    newest_in(MIGRATIONS, kind)
}

fn newest_in(migrations: &[Migration], kind: Kind) -> u32 {
    migrations
        .iter()
        .filter(|step| step.kind == kind)
        .map(|step| step.to)
        .max()
        .unwrap_or(1)
}

/// A record of an older version, carried to the newest.
#[must_use]
pub fn forward(kind: Kind, version: u32, value: Value) -> Value {
    forward_in(MIGRATIONS, kind, version, value)
}

fn forward_in(migrations: &[Migration], kind: Kind, version: u32, mut value: Value) -> Value {
    for step in migrations {
        if step.kind == kind && step.to > version {
            (step.change)(&mut value);
            value["version"] = step.to.into();
        }
    }
    value
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    const TWO_STEPS: &[Migration] = &[
        Migration {
            name: "RenameFlour",
            kind: Kind::Kitchen,
            to: 2,
            change: |value| value["flour_c"] = value["flour"].take(),
        },
        Migration {
            name: "AddFridge",
            kind: Kind::Kitchen,
            to: 3,
            change: |value| value["fridge_c"] = json!(4.0),
        },
    ];

    #[test]
    fn an_old_record_goes_through_every_later_step_in_order() {
        let old = json!({"version": 1, "flour": 21.0});
        let new = forward_in(TWO_STEPS, Kind::Kitchen, 1, old);
        assert_eq!(new["flour_c"], 21.0);
        assert_eq!(new["fridge_c"], 4.0);
        assert_eq!(new["version"], 3);
    }

    #[test]
    fn a_record_of_another_shape_is_left_alone() {
        let old = json!({"version": 1, "flour": 21.0});
        assert_eq!(forward_in(TWO_STEPS, Kind::Note, 1, old.clone()), old);
        assert_eq!(newest_in(TWO_STEPS, Kind::Kitchen), 3);
        assert_eq!(newest_in(TWO_STEPS, Kind::Note), 1);
    }
}
