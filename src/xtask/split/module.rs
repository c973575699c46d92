//! A program as the division sees it.

use super::numbers::Uses;
use std::collections::HashMap;
use std::ops::Range;
use wasm_encoder::{CustomSection, NameMap, NameSection};
use wasmparser::{
    Data, DataKind, ElementItems, ElementKind, Export, FuncType, FunctionBody, Global, Import,
    KnownCustom, LinkingSectionReader, MemoryType, Name, Operator, Parser, Payload,
    RelocSectionReader, Table, TypeRef,
};

const FEATURES: &str = "target_features";

/// Functions that stand in a row in the table.
pub(super) struct Segment {
    pub(super) offset: u32,
    pub(super) functions: Vec<u32>,
}

/// A program, with the parts that stay as they are still unread.
#[derive(Default)]
pub(super) struct Module<'a> {
    pub(super) types: Vec<FuncType>,
    pub(super) imports: Vec<Import<'a>>,
    /// How many functions are imported; they are numbered before the others.
    pub(super) imported: u32,
    /// The type of every function.
    pub(super) type_of: Vec<u32>,
    pub(super) bodies: Vec<FunctionBody<'a>>,
    pub(super) tables: Vec<Table<'a>>,
    pub(super) memories: Vec<MemoryType>,
    pub(super) globals: Vec<Global<'a>>,
    pub(super) exports: Vec<Export<'a>>,
    pub(super) start: Option<u32>,
    pub(super) segments: Vec<Segment>,
    pub(super) data: Vec<Data<'a>>,
    pub(super) counts_data: bool,
    /// What every function that isn't imported refers to.
    pub(super) uses: Vec<Uses>,
    /// Which features of WebAssembly it was compiled for, as the compiler says it to its own tools.
    pub(super) features: Option<&'a [u8]>,
    names: HashMap<u32, &'a str>,
    /// Every section in its order: its kind, and where its contents lie in the file.
    pub(super) sections: Vec<(u8, Range<usize>)>,
    /// What the linker noted.
    pub(super) linking: Option<LinkingSectionReader<'a>>,
    pub(super) relocations: Vec<RelocSectionReader<'a>>,
}

fn said(cause: impl std::fmt::Display) -> String {
    format!("the module can't be read: {cause}")
}

impl<'a> Module<'a> {
    pub(super) fn read(wasm: &'a [u8]) -> Result<Self, String> {
        let mut module = Self::default();
        for payload in Parser::new(0).parse_all(wasm) {
            module.take(payload.map_err(said)?)?;
        }
        for body in &module.bodies {
            module.uses.push(Uses::of(body)?);
        }
        Ok(module)
    }

    fn take(&mut self, payload: Payload<'a>) -> Result<(), String> {
        self.sections.extend(payload.as_section());
        match payload {
            Payload::TypeSection(types) => {
                for kind in types.into_iter_err_on_gc_types() {
                    self.types.push(kind.map_err(said)?);
                }
            }
            Payload::ImportSection(imports) => {
                for import in imports.into_imports() {
                    let import = import.map_err(said)?;
                    match import.ty {
                        TypeRef::Func(kind) => self.type_of.push(kind),
                        other => return Err(format!("{other:?} is imported")),
                    }
                    self.imported += 1;
                    self.imports.push(import);
                }
            }
            Payload::FunctionSection(kinds) => take(&mut self.type_of, kinds)?,
            Payload::TableSection(tables) => take(&mut self.tables, tables)?,
            Payload::MemorySection(memories) => take(&mut self.memories, memories)?,
            Payload::GlobalSection(globals) => take(&mut self.globals, globals)?,
            Payload::ExportSection(exports) => take(&mut self.exports, exports)?,
            Payload::StartSection { func, .. } => self.start = Some(func),
            Payload::ElementSection(elements) => {
                for element in elements {
                    let element = element.map_err(said)?;
                    self.segments.push(segment(&element)?);
                }
            }
            Payload::DataCountSection { .. } => self.counts_data = true,
            Payload::DataSection(data) => take(&mut self.data, data)?,
            Payload::CodeSectionEntry(body) => self.bodies.push(body),
            Payload::TagSection(_) => return Err("exceptions aren't foreseen".into()),
            Payload::CustomSection(section) => match section.as_known() {
                KnownCustom::Name(names) => self.take_names(names)?,
                KnownCustom::Linking(notes) => self.linking = Some(notes),
                KnownCustom::Reloc(notes) => self.relocations.push(notes),
                _ if section.name() == FEATURES => self.features = Some(section.data()),
                _ => {}
            },
            _ => {}
        }
        Ok(())
    }

    fn take_names(&mut self, names: wasmparser::NameSectionReader<'a>) -> Result<(), String> {
        for names in names {
            if let Name::Function(names) = names.map_err(said)? {
                for naming in names {
                    let naming = naming.map_err(said)?;
                    self.names.insert(naming.index, naming.name);
                }
            }
        }
        Ok(())
    }

    /// The name of a function; empty if it has none.
    pub(super) fn name(&self, function: u32) -> &'a str {
        self.names.get(&function).copied().unwrap_or_default()
    }

    /// The functions that aren't imported.
    pub(super) fn own(&self) -> std::ops::Range<u32> {
        let all = u32::try_from(self.type_of.len()).unwrap_or(u32::MAX);
        self.imported..all
    }

    /// What only the tools read: functions' names, by which they are ordered, and the features.
    pub(super) fn add_notes(&self, functions: &HashMap<u32, u32>, to: &mut wasm_encoder::Module) {
        let mut numbered: Vec<(u32, u32)> = functions
            .iter()
            .map(|(&before, &now)| (now, before))
            .collect();
        numbered.sort_unstable();
        let mut names = NameMap::new();
        for (now, before) in numbered {
            names.append(now, self.name(before));
        }
        let mut section = NameSection::new();
        section.functions(&names);
        to.section(&section);
        if let Some(features) = self.features {
            to.section(&CustomSection {
                name: FEATURES.into(),
                data: features.into(),
            });
        }
    }

    /// The table of functions: each place that is taken, and by which.
    pub(super) fn places(&self) -> impl Iterator<Item = (u32, u32)> {
        let rows = self.segments.iter();
        rows.flat_map(|row| (row.offset..).zip(row.functions.iter().copied()))
    }

    /// What lies at these addresses before the program begins.
    pub(super) fn content(&self, range: &Range<u32>) -> Result<&'a [u8], String> {
        let within = |part: &Data<'a>| {
            let start = range.start.checked_sub(address(part)?)? as usize;
            part.data.get(start..start + range.len())
        };
        let found = self.data.iter().find_map(within);
        found.ok_or_else(|| format!("no data lie at {range:?}"))
    }

    /// What a function that isn't imported consists of.
    pub(super) fn body(&self, function: u32) -> &FunctionBody<'a> {
        &self.bodies[(function - self.imported) as usize]
    }

    /// What it refers to.
    pub(super) fn uses_of(&self, function: u32) -> &Uses {
        &self.uses[(function - self.imported) as usize]
    }
}

fn take<'a, T: wasmparser::FromReader<'a>>(
    into: &mut Vec<T>,
    section: wasmparser::SectionLimited<'a, T>,
) -> Result<(), String> {
    for item in section {
        into.push(item.map_err(said)?);
    }
    Ok(())
}

fn segment(element: &wasmparser::Element<'_>) -> Result<Segment, String> {
    let strange = "only rows of functions in the first table are foreseen";
    let ElementKind::Active {
        table_index: None | Some(0),
        offset_expr,
    } = &element.kind
    else {
        return Err(strange.into());
    };
    let ElementItems::Functions(functions) = &element.items else {
        return Err(strange.into());
    };
    let mut steps = offset_expr.get_operators_reader();
    let Operator::I32Const { value } = steps.read().map_err(said)? else {
        return Err(strange.into());
    };
    let functions: Result<_, _> = functions.clone().into_iter().collect();
    Ok(Segment {
        offset: u32::try_from(value).map_err(said)?,
        functions: functions.map_err(said)?,
    })
}

/// Where data lie in memory, if that is fixed.
pub(super) fn address(data: &Data<'_>) -> Option<u32> {
    let DataKind::Active { offset_expr, .. } = &data.kind else {
        return None;
    };
    match offset_expr.get_operators_reader().read().ok()? {
        Operator::I32Const { value } => u32::try_from(value).ok(),
        _ => None,
    }
}
