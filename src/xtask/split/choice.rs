//! Which functions go into the late half.

use super::links::{self, Late};
use super::module::Module;
use std::collections::HashSet;
use std::ops::Range;

/// The functions of the late half, in the program's order, and the addresses of its data.
pub(super) struct Choice {
    pub(super) late: Vec<u32>,
    pub(super) data: Vec<Range<u32>>,
    is_late: HashSet<u32>,
}

impl Choice {
    /// What only the doors lead to, and what only that calls.
    pub(super) fn make(
        module: &Module<'_>,
        linked: &Module<'_>,
        doors: &[&str],
    ) -> Result<Self, String> {
        let mut kept = HashSet::new();
        loop {
            let known = links::late(linked, doors, &kept)?;
            let stays = stays(module, &known);
            let back = stays.iter().map(|&function| module.name(function));
            let back: Vec<&str> = back
                .filter(|&name| known.functions.contains(name))
                .collect();
            if back.is_empty() {
                let late: Vec<u32> = module.own().filter(|own| !stays.contains(own)).collect();
                return Ok(Self {
                    is_late: late.iter().copied().collect(),
                    late,
                    data: known.data,
                });
            }
            // What they refer to has to stay with them.
            kept.extend(back.into_iter().map(str::to_owned));
        }
    }

    pub(super) fn is_late(&self, function: u32) -> bool {
        self.is_late.contains(&function)
    }
}

/// The functions that the first half needs.
///
/// wasm-bindgen has changed the program since it was linked. So whatever it begins with (what JavaScript calls, and
/// what stands in the table and isn't known to be late) stays with all that it calls.
fn stays(module: &Module<'_>, known: &Late) -> HashSet<u32> {
    let called_from_outside = module.exports.iter();
    let called_from_outside = called_from_outside
        .filter(|export| export.kind == wasmparser::ExternalKind::Func)
        .map(|export| export.index);
    let mut next: Vec<u32> = called_from_outside.chain(module.start).collect();
    let in_table = module.segments.iter().flat_map(|row| &row.functions);
    next.extend(in_table.filter(|function| !known.functions.contains(module.name(**function))));
    // A function that is handed out as a value can be called from anywhere.
    let bound = module.own().filter(|&own| module.uses_of(own).stays);
    next.extend(bound.flat_map(|own| module.uses_of(own).functions.iter().copied().chain([own])));
    let mut stays = HashSet::new();
    while let Some(function) = next.pop() {
        if function >= module.imported && stays.insert(function) {
            next.extend(&module.uses_of(function).functions);
        }
    }
    stays
}
