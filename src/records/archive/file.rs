//! What stands in the file, and how its checksum is reckoned.

use super::Archive;
use crate::table::shape;

shape! {
    pub(super) struct Envelope {
        format: String,
        version: u32,
        written_ms: i64,
        checksum: String,
        contents: Contents,
    }
}

shape! {
    pub(super) struct Contents {
        formulas: Vec<Kept>,
        manuscripts: Vec<Kept> = Vec::new(),
        bakes: Vec<KeptBake>,
        kitchen: Option<String> = None,
        notes: Vec<Kept>,
        set_aside: Vec<Kept> = Vec::new(),
    }
}

shape! {
    pub(super) struct Kept {
        key: String,
        text: String,
    }
}

shape! {
    pub(super) struct KeptBake {
        key: String,
        entries: Vec<String>,
    }
}

/// FNV-1a, 64 bit, over every text with its length: it finds a slipped bit or a
/// cut, and is no protection against somebody who means to deceive.
/// Source of the constants: Fowler, Noll and Vo, as in IETF draft-eastlake-fnv.
pub(super) fn checksum(contents: &Contents) -> String {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    let mut take = |text: &str| {
        for byte in (text.len() as u64)
            .to_le_bytes()
            .iter()
            .chain(text.as_bytes())
        {
            hash = (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
        }
    };
    for list in [&contents.formulas, &contents.notes, &contents.set_aside] {
        take(&list.len().to_string());
        for kept in list {
            take(&kept.key);
            take(&kept.text);
        }
    }
    // Files from before there were any carry a checksum without them.
    if !contents.manuscripts.is_empty() {
        take(&contents.manuscripts.len().to_string());
        for kept in &contents.manuscripts {
            take(&kept.key);
            take(&kept.text);
        }
    }
    for bake in &contents.bakes {
        take(&bake.key);
        take(&bake.entries.len().to_string());
        for entry in &bake.entries {
            take(entry);
        }
    }
    take(contents.kitchen.as_deref().unwrap_or(""));
    format!("{hash:016x}")
}

impl From<&Archive> for Contents {
    fn from(archive: &Archive) -> Self {
        let kept = |list: &[(String, String)]| {
            list.iter()
                .map(|(key, text)| Kept {
                    key: key.clone(),
                    text: text.clone(),
                })
                .collect()
        };
        Self {
            formulas: kept(&archive.formulas),
            manuscripts: kept(&archive.manuscripts),
            bakes: archive
                .bakes
                .iter()
                .map(|(key, entries)| KeptBake {
                    key: key.clone(),
                    entries: entries.clone(),
                })
                .collect(),
            kitchen: archive.kitchen.clone(),
            notes: kept(&archive.notes),
            set_aside: kept(&archive.set_aside),
        }
    }
}

impl From<Contents> for Archive {
    fn from(contents: Contents) -> Self {
        let pairs = |list: Vec<Kept>| list.into_iter().map(|kept| (kept.key, kept.text)).collect();
        Self {
            formulas: pairs(contents.formulas),
            manuscripts: pairs(contents.manuscripts),
            bakes: contents
                .bakes
                .into_iter()
                .map(|bake| (bake.key, bake.entries))
                .collect(),
            kitchen: contents.kitchen,
            notes: pairs(contents.notes),
            set_aside: pairs(contents.set_aside),
        }
    }
}
