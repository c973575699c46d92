//! Divides the app's WebAssembly in two: what it begins with, and what is fetched once it can be used.
//!
//! Both are one program: they share memory, tables and globals, and call each other.
//! Nothing in the first half calls a function of the late one by name; it comes to them through the table of
//! functions, as to every closure. Their places there stay empty until the late half is instantiated and puts itself
//! and its data where they belong, so what is called too early is a trap and never a wrong result.
//!
//! What is late is found out, not chosen: all that only a door leads to (`links`). That nobody goes through a door
//! before the late half is here, the app sees to (`app::pages::late`).

mod choice;
mod first;
mod late;
mod links;
mod module;
mod numbers;
#[cfg(test)]
mod tests;

use choice::Choice;
use late::Shared;
use module::Module;

/// The two halves of a program.
pub(crate) struct Halves {
    pub(crate) first: Vec<u8>,
    pub(crate) late: Vec<u8>,
}

/// Divides a program as wasm-bindgen has left it, by what led where when it was linked.
///
/// `doors` are functions, named by their paths: what only they lead to is late, they themselves included.
pub(crate) fn split(wasm: &[u8], linked: &[u8], doors: &[&str]) -> Result<Halves, String> {
    let module = Module::read(wasm)?;
    let choice = Choice::make(&module, &Module::read(linked)?, doors)?;
    let shared = Shared::find(&module, &choice);
    let halves = Halves {
        first: first::write(&module, &choice, &shared)?,
        late: late::write(&module, &choice, &shared)?,
    };
    for half in [&halves.first, &halves.late] {
        wasmparser::validate(half).map_err(|cause| format!("a half isn't valid: {cause}"))?;
    }
    Ok(halves)
}
