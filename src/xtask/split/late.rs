//! Writes the late half, and says what it takes from the first.

use super::choice::Choice;
use super::module::Module;
use super::numbers::{Numbers, copy};
use std::collections::BTreeSet;
use wasm_encoder::reencode::Reencode;
use wasm_encoder::{
    CodeSection, ConstExpr, DataSection, ElementSection, Elements, EntityType, ExportKind,
    FunctionSection, ImportSection, TypeSection,
};

/// The name by which the late half asks for what the first hands over.
const FIRST: &str = "";

/// What the late half takes from the first.
pub(super) struct Shared {
    functions: Vec<u32>,
    globals: Vec<u32>,
    names: Vec<(String, ExportKind, u32)>,
}

impl Shared {
    pub(super) fn find(module: &Module<'_>, choice: &Choice) -> Self {
        let mut functions = BTreeSet::new();
        let mut globals = BTreeSet::new();
        for &function in &choice.late {
            let uses = module.uses_of(function);
            globals.extend(&uses.globals);
            let called = uses.functions.iter().copied();
            functions.extend(called.filter(|&called| !choice.is_late(called)));
        }
        let mut functions: Vec<u32> = functions.into_iter().collect();
        // Like stands beside like, which packs better.
        functions.sort_by_key(|&function| module.type_of[function as usize]);
        let globals: Vec<u32> = globals.into_iter().collect();
        let all = |count: usize| (0..).take(count);
        let taken: BTreeSet<&str> = module.exports.iter().map(|export| export.name).collect();
        let names = (0..)
            .map(short_name)
            .filter(|name| !taken.contains(name.as_str()));
        let wanted = functions
            .iter()
            .map(|&function| (ExportKind::Func, function))
            .chain(all(module.tables.len()).map(|table| (ExportKind::Table, table)))
            .chain(all(module.memories.len()).map(|memory| (ExportKind::Memory, memory)))
            .chain(globals.iter().map(|&global| (ExportKind::Global, global)));
        let names = names
            .zip(wanted)
            .map(|(name, (kind, number))| (name, kind, number))
            .collect();
        Self {
            functions,
            globals,
            names,
        }
    }

    /// What the first half hands over: by which name, what, and its number in the whole program.
    pub(super) fn handed_over(&self) -> impl Iterator<Item = (&str, ExportKind, u32)> {
        let names = self.names.iter();
        names.map(|(name, kind, number)| (name.as_str(), *kind, *number))
    }
}

/// `aa`, `ba`, `ca` ...
fn short_name(nth: u32) -> String {
    let letter = |nth: u32| char::from(b'a' + u8::try_from(nth % 26).unwrap_or_default());
    let mut name = String::new();
    let mut rest = nth;
    while name.len() < 2 || rest > 0 {
        name.push(letter(rest));
        rest /= 26;
    }
    name
}

pub(super) fn write(
    module: &Module<'_>,
    choice: &Choice,
    shared: &Shared,
) -> Result<Vec<u8>, String> {
    let said = |cause| format!("the late half can't be written: {cause:?}");
    let mut numbers = numbers(module, choice, shared);
    let mut kinds: Vec<u32> = numbers.types.keys().copied().collect();
    kinds.sort_by_key(|kind| numbers.types[kind]);
    let mut types = TypeSection::new();
    for kind in kinds {
        let kind = module.types[kind as usize].clone();
        types
            .ty()
            .func_type(&numbers.func_type(kind).map_err(said)?);
    }
    let mut imports = ImportSection::new();
    for (name, kind, number) in shared.handed_over() {
        let nth = number as usize;
        let entity: EntityType = match kind {
            ExportKind::Func => EntityType::Function(numbers.types[&module.type_of[nth]]),
            ExportKind::Table => numbers
                .table_type(module.tables[nth].ty)
                .map_err(said)?
                .into(),
            ExportKind::Memory => numbers
                .memory_type(module.memories[nth])
                .map_err(said)?
                .into(),
            _ => numbers
                .global_type(module.globals[nth].ty)
                .map_err(said)?
                .into(),
        };
        imports.import(FIRST, name, entity);
    }
    let mut functions = FunctionSection::new();
    let mut code = CodeSection::new();
    for &function in &choice.late {
        functions.function(numbers.types[&module.type_of[function as usize]]);
        copy(&mut numbers, module.body(function), &mut code)?;
    }
    let mut rows = ElementSection::new();
    let places = module
        .places()
        .filter(|(_, function)| choice.is_late(*function));
    add_rows(&mut rows, places.collect(), &numbers);
    let mut data = DataSection::new();
    for range in &choice.data {
        let content = module.content(range)?;
        if content.iter().any(|&byte| byte != 0) {
            data.active(
                0,
                &ConstExpr::i32_const(range.start.cast_signed()),
                content.iter().copied(),
            );
        }
    }

    let mut whole = wasm_encoder::Module::new();
    whole
        .section(&types)
        .section(&imports)
        .section(&functions)
        .section(&rows)
        .section(&code)
        .section(&data);
    module.add_notes(&numbers.functions, &mut whole);
    Ok(whole.finish())
}

fn numbers(module: &Module<'_>, choice: &Choice, shared: &Shared) -> Numbers {
    let here = || shared.functions.iter().chain(&choice.late).copied();
    let mut types: BTreeSet<u32> = here()
        .map(|function| module.type_of[function as usize])
        .collect();
    for &function in &choice.late {
        types.extend(&module.uses_of(function).types);
    }
    Numbers {
        functions: here().zip(0..).collect(),
        types: types.into_iter().zip(0..).collect(),
        globals: shared.globals.iter().copied().zip(0..).collect(),
    }
}

/// Writes places in the table, a row for those that follow one another.
pub(super) fn add_rows(into: &mut ElementSection, mut places: Vec<(u32, u32)>, numbers: &Numbers) {
    places.sort_unstable();
    for row in places.chunk_by(|before, after| before.0 + 1 == after.0) {
        let offset = ConstExpr::i32_const(i32::try_from(row[0].0).unwrap_or(i32::MAX));
        let functions: Vec<u32> = row
            .iter()
            .map(|(_, function)| numbers.functions[function])
            .collect();
        into.active(None, &offset, Elements::Functions(functions.into()));
    }
}
