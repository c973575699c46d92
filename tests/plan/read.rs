//! Numbers and names as files write them, with errors that say in plain words what was expected.

use std::collections::BTreeMap;
use std::fmt;
use std::marker::PhantomData;

use serde::de::{Deserialize, Deserializer, Error, MapAccess, Visitor};

/// A whole number. Some programs write every number with a point, so 5.0 counts as 5.
struct Whole<T>(PhantomData<T>);

impl<T: TryFrom<i64>> Visitor<'_> for Whole<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a whole number")
    }

    fn visit_i64<E: Error>(self, said: i64) -> Result<T, E> {
        let is = if said < 0 { "small" } else { "large" };
        T::try_from(said).map_err(|_| E::custom(format!("{said} is too {is} a number here")))
    }

    fn visit_u64<E: Error>(self, said: u64) -> Result<T, E> {
        self.visit_i64(i64::try_from(said).unwrap_or(i64::MAX))
    }

    fn visit_f64<E: Error>(self, said: f64) -> Result<T, E> {
        if said.fract() == 0.0 {
            // What is beyond 64 bits is too large or too small by far.
            return self.visit_i64(said as i64);
        }
        Err(E::custom(format!("{said} is no whole number")))
    }
}

/// A whole number that has to be there.
pub(super) fn whole<'a, T: TryFrom<i64>, D: Deserializer<'a>>(from: D) -> Result<T, D::Error> {
    from.deserialize_any(Whole(PhantomData))
}

/// A whole number, or null for none.
pub(super) fn whole_or_none<'a, T: TryFrom<i64>, D: Deserializer<'a>>(
    from: D,
) -> Result<Option<T>, D::Error> {
    Ok(Option::<Number<T>>::deserialize(from)?.map(|Number(number)| number))
}

struct Number<T>(T);

impl<'a, T: TryFrom<i64>> Deserialize<'a> for Number<T> {
    fn deserialize<D: Deserializer<'a>>(from: D) -> Result<Self, D::Error> {
        whole(from).map(Self)
    }
}

/// A resource that a task's block is kept, and the number of the block.
pub(super) fn block<'a, D: Deserializer<'a>>(from: D) -> Result<Option<(String, u16)>, D::Error> {
    let block = Option::<(String, Number<u16>)>::deserialize(from)?;
    Ok(block.map(|(resource, Number(of))| (resource, of)))
}

/// How much there is of every resource. Which of two is meant where one is named twice nobody can know.
pub(super) fn capacities<'a, D: Deserializer<'a>>(
    from: D,
) -> Result<BTreeMap<String, u32>, D::Error> {
    struct Capacities;

    impl<'a> Visitor<'a> for Capacities {
        type Value = BTreeMap<String, u32>;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("names of resources, each with how many there are")
        }

        fn visit_map<A: MapAccess<'a>>(self, mut from: A) -> Result<Self::Value, A::Error> {
            let mut found = BTreeMap::new();
            while let Some((name, Number(capacity))) = from.next_entry::<String, Number<u32>>()? {
                if found.contains_key(&name) {
                    let wrong = format!("there are two resources {}", super::words::quoted(&name));
                    return Err(A::Error::custom(wrong));
                }
                found.insert(name, capacity);
            }
            Ok(found)
        }
    }

    from.deserialize_any(Capacities)
}
