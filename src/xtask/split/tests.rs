//! A small program is linked, divided and run: whole and in halves it has to do the same.

use super::links::late;
use super::module::Module;
use super::{Halves, split};
use crate::digest::hex;
use std::collections::HashSet;
use std::process::Command;
use wasm_encoder::{CustomSection, DataSymbolDefinition, Encode, LinkingSection, SymbolTable};
use wasmparser::{Operator, RelocationType};

/// Constants below a hundred are places in the table, those above a thousand are addresses.
const PROGRAM: &str = r#"(module
  (type $draw (func (param i32) (result i32)))
  (import "js" "note" (func $note (param i32)))
  (memory (export "memory") 1)
  (table 5 5 funcref)
  (global $stack (mut i32) (i32.const 500))
  (elem (i32.const 1) $_ZN3app5today4drawE $_ZN3app4late4pageE $_ZN3app4plan5closeE $_ZN3app5shelf5closeE)

  (func $_ZN3app5beginE (export "today") (param i32) (result i32)
    (call_indirect (type $draw) (local.get 0) (i32.const 1)))
  (func $_ZN3app4openE (export "open") (param i32) (result i32)
    (call_indirect (type $draw) (local.get 0) (i32.const 2)))

  (func $_ZN3app5today4drawE (type $draw)
    (call $_ZN3app4both3sumE (local.get 0) (i32.const 1024)))
  (func $_ZN3app4both3sumE (param i32 i32) (result i32)
    (i32.add (local.get 0) (i32.load (local.get 1))))
  (func $_ZN3app5shelf5closeE (type $draw)
    (i32.load (i32.const 1044)))

  (func $_ZN3app4late4pageE (type $draw)
    (global.set $stack (i32.add (global.get $stack) (i32.const 200)))
    (call $note (global.get $stack))
    (call $_ZN3app4plan5countE (local.get 0))
    (block (param i32) (result i32 i32)
      (call $_ZN3app4both3sumE (i32.const 1028))
      (i32.const 300))
    (i32.add)
    (i32.add (call_indirect (type $draw) (local.get 0) (i32.load (i32.const 1036))))
    (i32.add (call_indirect (type $draw) (local.get 0) (i32.load (i32.const 1040)))))
  (func $_ZN3app4plan5countE (param i32) (result i32)
    (if (result i32) (local.get 0)
      (then (i32.add (i32.const 101) (call $_ZN3app4plan5countE (i32.sub (local.get 0) (i32.const 100)))))
      (else (i32.const 700))))
  (func $_ZN3app4plan5closeE (type $draw)
    (i32.store (i32.const 1048) (i32.add (i32.load (i32.const 1048)) (local.get 0)))
    (i32.load (i32.const 1048)))

  (data (i32.const 1024) "TODA" "PLAN" "...." "\03\00\00\00" "\04\00\00\00" "BOTH" "COUN"))"#;

/// Where the symbols of the data begin, and how long they are; at 1032 nothing but filling lies.
const SYMBOLS: [(u32, u32); 6] = [
    (1024, 4),
    (1028, 4),
    (1036, 4),
    (1040, 4),
    (1044, 4),
    (1048, 4),
];
const FIRST_ADDRESS: u32 = 1024;

/// The program with the notes that a linker leaves.
fn linked() -> Vec<u8> {
    let mut wasm = wat::parse_str(PROGRAM).expect("the text is right");
    let module = Module::read(&wasm).expect("and so is the program");
    let functions = u32::try_from(module.type_of.len()).expect("they are few");
    let mut table = SymbolTable::new();
    for function in 0..functions {
        let flags = if function < module.imported {
            SymbolTable::WASM_SYM_UNDEFINED
        } else {
            0
        };
        let name = (function >= module.imported).then(|| module.name(function));
        table.function(flags, function, name);
    }
    for (address, size) in SYMBOLS {
        let offset = address - FIRST_ADDRESS;
        table.data(
            0,
            "data",
            Some(DataSymbolDefinition {
                index: 0,
                offset,
                size,
            }),
        );
    }
    let (code, data) = (section_of(&module, 10), section_of(&module, 11));
    let symbol_at = |address: u32| {
        let below = SYMBOLS.iter().filter(|(start, _)| *start <= address);
        functions + u32::try_from(below.count()).expect("they are few") - 1
    };
    let function_at = |place: u32| {
        module
            .places()
            .find(|&(at, _)| at == place)
            .map(|(_, function)| function)
    };
    let mut in_code = Vec::new();
    for body in &module.bodies {
        let steps = body.get_operators_reader().expect("it was read before");
        for step in steps.into_iter_with_offsets() {
            let (step, at) = step.expect("it was read before");
            let Operator::I32Const { value } = step else {
                continue;
            };
            let value = value.cast_unsigned();
            let offset = u32::try_from(at + 1 - code.1).expect("it is small");
            if let Some(function) = function_at(value).filter(|_| value < 100) {
                in_code.push((RelocationType::TableIndexSleb, offset, function));
            } else if value > 1000 {
                in_code.push((RelocationType::MemoryAddrSleb, offset, symbol_at(value)));
            }
        }
    }
    let content = module.data[0].range.end - module.data[0].data.len();
    let in_data = [(1036, 3), (1040, 4)].map(|(address, place)| {
        let offset = content - data.1 + (address - FIRST_ADDRESS) as usize;
        let offset = u32::try_from(offset).expect("it is small");
        let function = function_at(place).expect("it stands there");
        (RelocationType::TableIndexI32, offset, function)
    });
    let mut notes = Vec::new();
    let mut linking = LinkingSection::new();
    linking.symbol_table(&table);
    wasm_encoder::Section::append_to(&linking, &mut notes);
    add_relocations("reloc.CODE", code.0, &in_code, &mut notes);
    add_relocations("reloc.DATA", data.0, &in_data, &mut notes);
    wasm.extend(notes);
    wasm
}

/// The number of a section, and where its contents begin.
fn section_of(module: &Module<'_>, kind: u8) -> (u32, usize) {
    let mut sections = module.sections.iter().zip(0..);
    let found = sections.find(|((known, _), _)| *known == kind);
    let ((_, contents), nth) = found.expect("the program has one");
    (nth, contents.start)
}

fn add_relocations(name: &str, section: u32, all: &[(RelocationType, u32, u32)], to: &mut Vec<u8>) {
    let mut data = Vec::new();
    section.encode(&mut data);
    all.len().encode(&mut data);
    for &(kind, offset, symbol) in all {
        data.push(kind as u8);
        offset.encode(&mut data);
        symbol.encode(&mut data);
        if kind == RelocationType::MemoryAddrSleb {
            0_i32.encode(&mut data);
        }
    }
    let section = CustomSection {
        name: name.into(),
        data: data.into(),
    };
    wasm_encoder::Section::append_to(&section, to);
}

const DOOR: [&str; 1] = ["app::late::page"];

fn halves() -> Halves {
    let linked = linked();
    split(&linked, &linked, &DOOR).expect("it can be divided")
}

#[test]
fn what_only_the_door_leads_to_is_late() {
    let linked = linked();
    let late = late(
        &Module::read(&linked).expect("sound"),
        &DOOR,
        &HashSet::new(),
    );
    let late = late.expect("there is such a door");
    let mut names: Vec<&str> = late.functions.iter().map(String::as_str).collect();
    names.sort_unstable();
    let expected = [
        "_ZN3app4late4pageE",
        "_ZN3app4plan5closeE",
        "_ZN3app4plan5countE",
        "_ZN3app5shelf5closeE",
    ];
    assert_eq!(names, expected);
    // The filling at 1032 goes along, and what lies at 1024 is Today's.
    let [data] = late.data.as_slice() else {
        panic!("{:?}", late.data);
    };
    assert_eq!(*data, 1028..1052);
}

#[test]
fn what_has_to_stay_keeps_what_it_refers_to() {
    let linked = linked();
    let kept = HashSet::from(["_ZN3app5shelf5closeE".to_owned()]);
    let late = late(&Module::read(&linked).expect("sound"), &DOOR, &kept).expect("still a door");
    assert!(!late.functions.contains("_ZN3app5shelf5closeE"));
    assert_eq!(late.data, [1028..1044, 1048..1052]);
}

#[test]
fn each_half_holds_its_own_text() {
    let halves = halves();
    let holds = |half: &[u8], text: &str| half.windows(4).any(|part| part == text.as_bytes());
    assert!(holds(&halves.first, "TODA") && !holds(&halves.first, "PLAN"));
    assert!(holds(&halves.late, "PLAN") && !holds(&halves.late, "TODA"));
}

/// Runs all three, and prints what went otherwise in halves, and what a call before its time leads to.
const RUN: &str = r#"
const [whole, first, late] = process.argv.slice(1).map((text) => Buffer.from(text, "hex"));
const told = [];
const js = { note: (said) => told.push(said) };
const made = async (bytes, imports) => (await WebAssembly.instantiate(bytes, imports)).instance.exports;
const run = ({ today, open }) => [today(1), open(0), open(300), today(2), open(100), told.splice(0)];
const before = run(await made(whole, { js }));
const shared = await made(first, { js });
let early = "nothing";
try { shared.open(1); } catch (cause) { early = cause.constructor.name; }
const today = shared.today(1);
await made(late, { "": shared });
const after = run(shared);
console.log(JSON.stringify({ same: JSON.stringify(before) === JSON.stringify(after), ran: before.length, early, today: today === before[0] }));
"#;

#[test]
fn in_halves_it_does_the_same_and_too_early_it_stops() {
    let halves = halves();
    let mut node = Command::new("node");
    node.args(["--input-type=module", "-e", RUN, "--"]);
    for wasm in [&linked(), &halves.first, &halves.late] {
        node.arg(hex(wasm));
    }
    let said = crate::command::capture(&mut node).expect("Node.js runs them");
    assert_eq!(
        said,
        r#"{"same":true,"ran":6,"early":"RuntimeError","today":true}"#
    );
}

#[test]
fn what_can_not_be_divided_is_said() {
    let linked = linked();
    let refused = |linked: &[u8], door| split(linked, linked, &[door]).err().unwrap_or_default();
    assert!(refused(&linked, "app::late::window").contains("app::late::window"));
    let plain = wat::parse_str(PROGRAM).expect("the text is right");
    assert!(refused(&plain, "app::late::page").contains("--emit-relocs"));
}
