//! What a function refers to by number, and how it is written again with other numbers.

use std::collections::{BTreeSet, HashMap};
use std::convert::Infallible;
use wasm_encoder::CodeSection;
use wasm_encoder::reencode::{self, Error, Reencode};
use wasmparser::{FunctionBody, Operator};

/// What one function refers to.
#[derive(Default)]
pub(super) struct Uses {
    pub(super) functions: BTreeSet<u32>,
    pub(super) types: BTreeSet<u32>,
    pub(super) globals: BTreeSet<u32>,
    /// Whether it has to stay with the segments of data and of functions, or hands out a function as a value.
    pub(super) stays: bool,
}

impl Uses {
    pub(super) fn of(body: &FunctionBody<'_>) -> Result<Self, String> {
        let mut uses = Self::default();
        copy(&mut uses, body, &mut CodeSection::new())?;
        Ok(uses)
    }
}

type Number = Result<u32, Error<Infallible>>;

impl Reencode for Uses {
    type Error = Infallible;

    fn function_index(&mut self, function: u32) -> Number {
        self.functions.insert(function);
        Ok(function)
    }

    fn type_index(&mut self, kind: u32) -> Number {
        self.types.insert(kind);
        Ok(kind)
    }

    fn global_index(&mut self, global: u32) -> Number {
        self.globals.insert(global);
        Ok(global)
    }

    fn data_index(&mut self, data: u32) -> Number {
        self.stays = true;
        Ok(data)
    }

    fn element_index(&mut self, element: u32) -> Number {
        self.stays = true;
        Ok(element)
    }

    fn instruction<'a>(
        &mut self,
        step: Operator<'a>,
    ) -> Result<wasm_encoder::Instruction<'a>, Error<Infallible>> {
        self.stays |= matches!(step, Operator::RefFunc { .. });
        reencode::utils::instruction(self, step)
    }
}

/// The numbers that a half gives to what the whole program had.
#[derive(Default)]
pub(super) struct Numbers {
    pub(super) functions: HashMap<u32, u32>,
    /// Where they are empty, the numbers stay.
    pub(super) types: HashMap<u32, u32>,
    pub(super) globals: HashMap<u32, u32>,
}

impl Reencode for Numbers {
    type Error = &'static str;

    fn function_index(&mut self, function: u32) -> Result<u32, Error<&'static str>> {
        let found = self.functions.get(&function).copied();
        found.ok_or(Error::UserError("a function that isn't in this half"))
    }

    fn type_index(&mut self, kind: u32) -> Result<u32, Error<&'static str>> {
        moved(&self.types, kind)
    }

    fn global_index(&mut self, global: u32) -> Result<u32, Error<&'static str>> {
        moved(&self.globals, global)
    }
}

fn moved(numbers: &HashMap<u32, u32>, before: u32) -> Result<u32, Error<&'static str>> {
    if numbers.is_empty() {
        return Ok(before);
    }
    let found = numbers.get(&before).copied();
    found.ok_or(Error::UserError("something that isn't in this half"))
}

/// Writes a function again, with the numbers that `by` gives.
pub(super) fn copy<R: Reencode>(
    by: &mut R,
    body: &FunctionBody<'_>,
    into: &mut CodeSection,
) -> Result<(), String>
where
    R::Error: std::fmt::Debug,
{
    reencode::utils::parse_function_body(by, into, body.clone())
        .map_err(|cause| format!("a function can't be written again: {cause:?}"))
}
