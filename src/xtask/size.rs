//! What a first visit loads, compressed as a host would send it, against the budget that `DEVELOPERS.md` states.
//!
//! A first visit loads everything: what isn't needed for the first screen, the service worker fetches for later.
//! Sizes are brotli at its best quality, in kB of 1000 bytes.
//! Left out: response headers, about 0.3 kB a file, and the screenshots, which only a dialog to install loads.

use crate::paths;
use std::io::Write;
use std::path::Path;

/// The budgets in kB: what comes before the app can be used, everything a first visit loads, and the part of that
/// which is WebAssembly, both halves. They aren't raised without a decision in `DEVELOPERS.md`.
const USABLE_KB: usize = 248;
const ALL_KB: usize = 787;
const WASM_KB: usize = 752;

/// One file of the built app.
#[derive(Debug, Clone, PartialEq)]
struct Weight {
    name: String,
    raw: usize,
    brotli: usize,
}

/// Prints a table of `dist`; whether it keeps within the budgets.
pub(crate) fn print_and_judge() -> bool {
    let weights = match weigh(&paths::dist()) {
        Ok(weights) => weights,
        Err(why) => {
            println!("  FAILED  size: {why}; run `cargo xtask build`");
            return false;
        }
    };
    println!("\n  {:<44} {:>9} {:>10}", "file", "kB", "kB brotli");
    for weight in &weights {
        let (raw, brotli) = (kilo(weight.raw), kilo(weight.brotli));
        println!("  {:<44} {raw:>9} {brotli:>10}", weight.name);
    }
    println!("\n  {:<44} {:>9} {:>10}", "kB brotli", "now", "budget");
    let budgets = judge(&weights);
    for Budget { name, used, most } in &budgets {
        println!("  {name:<44} {:>9} {:>10}", kilo(*used), kilo(*most));
    }
    for budget in &budgets {
        println!("  {}", budget.verdict());
    }
    budgets.iter().all(Budget::is_kept)
}

/// What is used, and of how much, in bytes.
#[derive(Debug, PartialEq)]
struct Budget {
    name: &'static str,
    used: usize,
    most: usize,
}

impl Budget {
    /// An app of no bytes is a build that went wrong, not a light one.
    fn is_kept(&self) -> bool {
        (1..=self.most).contains(&self.used)
    }

    fn verdict(&self) -> String {
        let Self { name, used, most } = *self;
        if used == 0 {
            format!("FAILED  size: {name}: there is nothing in dist")
        } else if self.is_kept() {
            format!("ok      {name}: {} kB to spare", kilo(most - used))
        } else {
            let over = kilo(used - most);
            format!("FAILED  size: {name}: {over} kB over the budget (grown, or std is prebuilt)")
        }
    }
}

/// Whether the app waits for a file of this name before it can be used.
fn is_waited_for(name: &str) -> bool {
    let endings = ["_bg.wasm", ".js", ".css", "index.html"];
    name != "sw.js" && endings.iter().any(|ending| name.ends_with(ending))
}

fn judge(weights: &[Weight]) -> [Budget; 3] {
    let sum = |only: fn(&Weight) -> bool| {
        let chosen = weights.iter().filter(|weight| only(weight));
        chosen.map(|weight| weight.brotli).sum()
    };
    [
        Budget {
            name: "before the app can be used, brotli",
            used: sum(|weight| is_waited_for(&weight.name)),
            most: USABLE_KB * 1000,
        },
        Budget {
            name: "first visit, all files, brotli",
            used: sum(|_| true),
            most: ALL_KB * 1000,
        },
        Budget {
            name: "of which wasm, brotli",
            used: sum(|weight| weight.name.ends_with(".wasm")),
            most: WASM_KB * 1000,
        },
    ]
}

fn weigh(folder: &Path) -> Result<Vec<Weight>, String> {
    let names =
        paths::files_below(folder).map_err(|cause| format!("{}: {cause}", folder.display()))?;
    let mut weights = Vec::new();
    for name in names {
        if name.starts_with("screenshots/") {
            continue;
        }
        let content =
            std::fs::read(folder.join(&name)).map_err(|cause| format!("{name}: {cause}"))?;
        // Hosts send pictures as they are, since they are compressed already.
        let brotli = if is_compressible(&name) {
            compress(&content, 11).len()
        } else {
            content.len()
        };
        weights.push(Weight {
            name,
            raw: content.len(),
            brotli,
        });
    }
    weights.sort_by_key(|weight| std::cmp::Reverse(weight.brotli));
    Ok(weights)
}

/// Whether a host would compress a file of this name.
pub(crate) fn is_compressible(name: &str) -> bool {
    let packed = [".png", ".jpg", ".webp", ".woff2", ".ico"];
    !packed.iter().any(|ending| name.ends_with(ending))
}

/// Brotli at a quality from 0 (fast) to 11 (small).
pub(crate) fn compress(content: &[u8], quality: u32) -> Vec<u8> {
    let mut packed = Vec::new();
    let window = 22;
    let mut writer = brotli::CompressorWriter::new(&mut packed, 65_536, quality, window);
    // Writing into a Vec can't fail; dropping the writer flushes the rest.
    let _ = writer.write_all(content);
    drop(writer);
    packed
}

fn kilo(bytes: usize) -> String {
    // Rounding up, so that a table never shows a limit as kept that isn't.
    let tenths = bytes.div_ceil(100);
    format!("{}.{}", tenths / 10, tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weight(name: &str, brotli: usize) -> Weight {
        Weight {
            name: name.into(),
            raw: brotli * 3,
            brotli,
        }
    }

    fn budget(used: usize) -> Budget {
        Budget {
            name: "all",
            used,
            most: 300_000,
        }
    }

    #[test]
    fn each_budget_counts_its_own_files() {
        let [usable, all, wasm] = judge(&[
            weight("app_bg.wasm", 180_000),
            weight("app_late.wasm", 90_000),
            weight("app.js", 70_000),
            weight("sw.js", 2_000),
        ]);
        assert_eq!(usable.used, 250_000);
        assert_eq!((all.used, wasm.used), (342_000, 270_000));
    }

    #[test]
    fn more_than_the_budget_fails() {
        assert!(budget(300_000).is_kept());
        assert!(!budget(300_001).is_kept());
        assert!(judge(&[]).iter().all(|budget| !budget.is_kept()));
    }

    #[test]
    fn what_is_over_is_said() {
        assert!(budget(299_900).verdict().ends_with("0.1 kB to spare"));
        let grown = budget(312_000).verdict();
        assert!(grown.starts_with("FAILED") && grown.contains("12.0 kB over the budget"));
        assert!(budget(0).verdict().starts_with("FAILED"));
    }

    #[test]
    fn sizes_are_rounded_up() {
        assert_eq!(kilo(250_001), "250.1");
        assert_eq!(kilo(250_000), "250.0");
    }

    #[test]
    fn what_is_compressed_comes_back() {
        let text = b"bulk fermentation ".repeat(200);
        let packed = compress(&text, 11);
        assert!(packed.len() < 100);
        let mut back = Vec::new();
        let read = brotli::BrotliDecompress(&mut packed.as_slice(), &mut back);
        assert!(read.is_ok());
        assert_eq!(back, text);
    }
}
