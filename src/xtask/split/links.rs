//! What refers to what in the program as it was linked, and which of it only a door leads to.
//!
//! The linker leaves its relocations in (`--emit-relocs`): every place where the code or the data hold the number of
//! a function, its place in the table, or an address. So nothing is guessed from names or from numbers that look
//! like an address.

use super::module::{self, Module};
use std::collections::{HashMap, HashSet};
use std::ops::Range;
use wasmparser::{Linking, RelocationType, SymbolInfo};

const CODE: u8 = 10;
const DATA: u8 = 11;

/// What only doors lead to.
#[derive(Debug, Default)]
pub(super) struct Late {
    /// The functions, by names that nothing else has.
    pub(super) functions: HashSet<String>,
    /// The addresses of the data.
    pub(super) data: Vec<Range<u32>>,
}

/// A part of the data that belongs together: one symbol, or several that lie over one another.
struct Part {
    segment: u32,
    offsets: Range<u32>,
}

/// Functions are numbered as in the program, parts of the data after them.
struct Links {
    functions: usize,
    parts: Vec<Part>,
    to: Vec<Vec<usize>>,
    /// What something refers to that is neither.
    from_elsewhere: Vec<usize>,
}

/// What only the doors of a linked program lead to. A door is a function, named by its path.
///
/// The functions called `kept` count as needed early. So does one whose name another has as well: what is late has to
/// be found again by its name.
pub(super) fn late(
    linked: &Module<'_>,
    doors: &[&str],
    kept: &HashSet<String>,
) -> Result<Late, String> {
    let doors = found(linked, doors)?;
    let links = Links::read(linked)?;
    let exports = linked.exports.iter();
    let exported = exports.filter(|export| export.kind == wasmparser::ExternalKind::Func);
    let mut times: HashMap<&str, u32> = HashMap::new();
    for function in linked.own() {
        *times.entry(linked.name(function)).or_default() += 1;
    }
    let must_stay = |own: &u32| {
        let name = linked.name(*own);
        name.is_empty() || times[name] > 1 || kept.contains(name)
    };
    let begins = exported
        .map(|export| export.index)
        .chain(linked.start)
        .chain(linked.own().filter(must_stay))
        .map(|function| function as usize)
        .chain(links.from_elsewhere.iter().copied())
        .chain(links.unexplained(linked));
    let early = links.reached(begins.collect(), &doors);
    let behind = links.reached(doors.into_iter().collect(), &early);
    let own = linked.own();
    let functions = own.filter(|&own| behind.contains(&(own as usize)));
    Ok(Late {
        functions: functions.map(|own| linked.name(own).to_owned()).collect(),
        data: links.addresses(linked, &behind),
    })
}

/// The functions of these paths. The compiler writes a path's parts each with its length before it.
fn found(linked: &Module<'_>, paths: &[&str]) -> Result<HashSet<usize>, String> {
    let mut all = HashSet::new();
    for path in paths {
        let parts = path.split("::");
        let mangled: String = parts.map(|part| format!("{}{part}", part.len())).collect();
        let before = all.len();
        let own = linked.own();
        let door = own.filter(|&own| linked.name(own).contains(&mangled));
        all.extend(door.map(|door| door as usize));
        if all.len() == before {
            return Err(format!("the program has no function {path}"));
        }
    }
    Ok(all)
}

impl Links {
    fn read(linked: &Module<'_>) -> Result<Self, String> {
        let said = |cause| format!("the linker's notes can't be read: {cause}");
        let notes = linked.linking.clone();
        let notes = notes.ok_or("the linker left no relocations: it needs --emit-relocs")?;
        let mut symbols = Vec::new();
        for note in notes.subsections() {
            if let Linking::SymbolTable(table) = note.map_err(said)? {
                for symbol in table {
                    symbols.push(symbol.map_err(said)?);
                }
            }
        }
        let parts = parts(&symbols);
        let functions = linked.type_of.len();
        let mut links = Self {
            functions,
            to: vec![Vec::new(); functions + parts.len()],
            parts,
            from_elsewhere: Vec::new(),
        };
        for function in linked.own() {
            let called = &linked.uses_of(function).functions;
            links.to[function as usize].extend(called.iter().map(|&called| called as usize));
        }
        for relocations in &linked.relocations {
            let section = linked.sections.get(relocations.section_index() as usize);
            let Some((kind @ (CODE | DATA), contents)) = section.cloned() else {
                continue;
            };
            for relocation in relocations.entries() {
                let relocation = relocation.map_err(said)?;
                let Some(to) = links.meant(&symbols, relocation.ty, relocation.index)? else {
                    continue;
                };
                let place = contents.start + relocation.offset as usize;
                let from = if kind == CODE {
                    function_at(linked, place)
                } else {
                    links.data_at(linked, place)
                };
                match from {
                    Some(from) => links.to[from].push(to),
                    None => links.from_elsewhere.push(to),
                }
            }
        }
        Ok(links)
    }

    /// What a relocation refers to, where that is a function or a part of the data.
    fn meant(
        &self,
        symbols: &[SymbolInfo<'_>],
        kind: RelocationType,
        symbol: u32,
    ) -> Result<Option<usize>, String> {
        use RelocationType as Kind;
        if matches!(
            kind,
            Kind::TypeIndexLeb | Kind::GlobalIndexLeb | Kind::TableNumberLeb
        ) {
            return Ok(None);
        }
        match symbols.get(symbol as usize) {
            Some(SymbolInfo::Func { index, .. }) => Ok(Some(*index as usize)),
            Some(SymbolInfo::Data { symbol, .. }) => {
                Ok(symbol.and_then(|symbol| self.part_at(symbol.index, symbol.offset)))
            }
            _ => Err(format!("a relocation of the kind {kind:?} isn't foreseen")),
        }
    }

    fn part_at(&self, segment: u32, offset: u32) -> Option<usize> {
        let after = self
            .parts
            .partition_point(|part| (part.segment, part.offsets.start) <= (segment, offset));
        let nth = after.checked_sub(1)?;
        let part = &self.parts[nth];
        let is_in = part.segment == segment && part.offsets.contains(&offset);
        is_in.then_some(self.functions + nth)
    }

    /// The part of the data that lies at a place of the file.
    fn data_at(&self, linked: &Module<'_>, place: usize) -> Option<usize> {
        linked.data.iter().zip(0..).find_map(|(data, segment)| {
            let start = data.range.end - data.data.len();
            let offset = (start..data.range.end)
                .contains(&place)
                .then(|| place - start)?;
            self.part_at(segment, u32::try_from(offset).ok()?)
        })
    }

    /// Functions in the table that no relocation puts there.
    fn unexplained(&self, linked: &Module<'_>) -> Vec<usize> {
        let known: HashSet<usize> = self.to.iter().flatten().copied().collect();
        let in_table = linked.places().map(|(_, function)| function as usize);
        in_table
            .filter(|function| !known.contains(function))
            .collect()
    }

    /// Where the parts of the data lie that are among these. What only fills up between two of them goes with them.
    fn addresses(&self, linked: &Module<'_>, among: &HashSet<usize>) -> Vec<Range<u32>> {
        let mut ranges: Vec<Range<u32>> = Vec::new();
        let mut last = None;
        for (nth, part) in self.parts.iter().enumerate() {
            let data = linked.data.get(part.segment as usize);
            // A segment of zeros isn't in the file.
            let start = data.and_then(module::address);
            let (Some(start), true) = (start, among.contains(&(self.functions + nth))) else {
                continue;
            };
            let range = start + part.offsets.start..start + part.offsets.end;
            let follows = last == nth.checked_sub(1).map(|before| (part.segment, before));
            match ranges.last_mut() {
                Some(before) if follows => before.end = range.end,
                _ => ranges.push(range),
            }
            last = Some((part.segment, nth));
        }
        ranges
    }

    /// Everything that is reached from somewhere without going through what is shut.
    fn reached(&self, mut next: Vec<usize>, shut: &HashSet<usize>) -> HashSet<usize> {
        let mut reached = HashSet::new();
        while let Some(one) = next.pop() {
            if !shut.contains(&one) && reached.insert(one) {
                next.extend(&self.to[one]);
            }
        }
        reached
    }
}

/// The data of a program in parts: where symbols lie over one another, all of them are one.
fn parts(symbols: &[SymbolInfo<'_>]) -> Vec<Part> {
    let mut found: Vec<(u32, u32, u32)> = symbols
        .iter()
        .filter_map(|symbol| match symbol {
            SymbolInfo::Data {
                symbol: Some(data), ..
            } if data.size > 0 => Some((data.index, data.offset, data.offset + data.size)),
            _ => None,
        })
        .collect();
    found.sort_unstable();
    let mut parts: Vec<Part> = Vec::new();
    for (segment, start, end) in found {
        match parts.last_mut() {
            Some(last) if last.segment == segment && start < last.offsets.end => {
                last.offsets.end = last.offsets.end.max(end);
            }
            _ => parts.push(Part {
                segment,
                offsets: start..end,
            }),
        }
    }
    parts
}

fn function_at(linked: &Module<'_>, place: usize) -> Option<usize> {
    let bodies = &linked.bodies;
    let after = bodies.partition_point(|body| body.range().start <= place);
    let nth = after.checked_sub(1)?;
    let is_in = bodies[nth].range().contains(&place);
    is_in.then_some(linked.imported as usize + nth)
}
