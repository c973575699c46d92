//! Writes the first half.

use super::choice::Choice;
use super::late::{Shared, add_rows};
use super::module::{self, Module};
use super::numbers::{Numbers, copy};
use std::ops::Range;
use wasm_encoder::reencode::Reencode;
use wasm_encoder::{
    CodeSection, DataCountSection, DataSection, ElementSection, ExportKind, ExportSection,
    FunctionSection, GlobalSection, ImportSection, MemorySection, StartSection, TableSection,
    TypeSection,
};
use wasmparser::Data;

pub(super) fn write(
    module: &Module<'_>,
    choice: &Choice,
    shared: &Shared,
) -> Result<Vec<u8>, String> {
    let said = |cause| format!("the first half can't be written: {cause:?}");
    let mut numbers = numbers(module, choice);
    let kept = || module.own().filter(|&own| !choice.is_late(own));

    let mut types = TypeSection::new();
    for kind in &module.types {
        types
            .ty()
            .func_type(&numbers.func_type(kind.clone()).map_err(said)?);
    }
    let mut imports = ImportSection::new();
    for import in &module.imports {
        numbers.parse_import(&mut imports, *import).map_err(said)?;
    }
    let mut functions = FunctionSection::new();
    let mut code = CodeSection::new();
    for function in kept() {
        functions.function(module.type_of[function as usize]);
        copy(&mut numbers, module.body(function), &mut code)?;
    }
    let mut tables = TableSection::new();
    for table in &module.tables {
        numbers
            .parse_table(&mut tables, table.clone())
            .map_err(said)?;
    }
    let mut memories = MemorySection::new();
    for memory in &module.memories {
        memories.memory(numbers.memory_type(*memory).map_err(said)?);
    }
    let mut globals = GlobalSection::new();
    for global in &module.globals {
        numbers
            .parse_global(&mut globals, global.clone())
            .map_err(said)?;
    }
    let mut exports = ExportSection::new();
    for export in &module.exports {
        numbers.parse_export(&mut exports, *export).map_err(said)?;
    }
    for (name, kind, number) in shared.handed_over() {
        let number = match kind {
            ExportKind::Func => numbers.function_index(number).map_err(said)?,
            _ => number,
        };
        exports.export(name, kind, number);
    }
    let mut data = DataSection::new();
    for part in &module.data {
        let mut content = part.data.to_vec();
        if let Some(start) = module::address(part) {
            blank(&mut content, start, &choice.data);
        }
        let part = Data {
            data: &content,
            ..part.clone()
        };
        numbers.parse_data(&mut data, part).map_err(said)?;
    }

    let mut whole = wasm_encoder::Module::new();
    whole
        .section(&types)
        .section(&imports)
        .section(&functions)
        .section(&tables)
        .section(&memories)
        .section(&globals)
        .section(&exports);
    if let Some(start) = module.start {
        let function_index = numbers.function_index(start).map_err(said)?;
        whole.section(&StartSection { function_index });
    }
    whole.section(&rows(module, choice, &numbers));
    if module.counts_data {
        let count = u32::try_from(module.data.len()).unwrap_or(u32::MAX);
        whole.section(&DataCountSection { count });
    }
    whole.section(&code).section(&data);
    module.add_notes(&numbers.functions, &mut whole);
    Ok(whole.finish())
}

/// Leaves zeros where the late half's data lie, which `wasm-opt` then leaves out.
fn blank(content: &mut [u8], start: u32, late: &[Range<u32>]) {
    for (place, byte) in (start..).zip(content) {
        if late.iter().any(|range| range.contains(&place)) {
            *byte = 0;
        }
    }
}

fn numbers(module: &Module<'_>, choice: &Choice) -> Numbers {
    let imported = 0..module.imported;
    let kept = module.own().filter(|&own| !choice.is_late(own));
    Numbers {
        functions: imported.chain(kept).zip(0..).collect(),
        ..Numbers::default()
    }
}

/// The table's rows, without what the late half puts there.
fn rows(module: &Module<'_>, choice: &Choice, numbers: &Numbers) -> ElementSection {
    let mut rows = ElementSection::new();
    let places = module
        .places()
        .filter(|(_, function)| !choice.is_late(*function));
    add_rows(&mut rows, places.collect(), numbers);
    rows
}
