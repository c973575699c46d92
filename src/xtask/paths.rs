//! Where things are: the repository, and the user's cache for tools that must not lie in it.

use std::path::{Path, PathBuf};

/// The repository's root: the nearest folder upwards that holds `Trunk.toml`.
pub(crate) fn root() -> PathBuf {
    let here = std::env::current_dir().unwrap_or_default();
    let manifest = std::env::var_os("CARGO_MANIFEST_DIR").map(PathBuf::from);
    [Some(here.as_path()), manifest.as_deref()]
        .into_iter()
        .flatten()
        .flat_map(Path::ancestors)
        .find(|folder| folder.join("Trunk.toml").is_file())
        .map_or_else(|| here.clone(), Path::to_path_buf)
}

/// The built app, as a static host would serve it.
pub(crate) fn dist() -> PathBuf {
    root().join("dist")
}

/// The browser checks, whose npm packages also bring `wasm-opt`.
pub(crate) fn browser_checks() -> PathBuf {
    root().join("tests/browser")
}

/// The user's cache for tools: outlives `cargo clean` and is shared by every checkout.
pub(crate) fn cache() -> PathBuf {
    let named = |name| std::env::var_os(name).filter(|value| !value.is_empty());
    let base = match (named("XDG_CACHE_HOME"), named("HOME")) {
        (Some(cache), _) => PathBuf::from(cache),
        (None, Some(home)) => Path::new(&home).join(".cache"),
        (None, None) => std::env::temp_dir(),
    };
    base.join("oventide")
}

/// Every file below `folder`, as sorted relative paths with `/` between the parts.
pub(crate) fn files_below(folder: &Path) -> std::io::Result<Vec<String>> {
    let mut found = Vec::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(next) = waiting.pop() {
        for entry in std::fs::read_dir(&next)? {
            let path = entry?.path();
            if path.is_dir() {
                waiting.push(path);
            } else if let Ok(relative) = path.strip_prefix(folder) {
                let parts: Vec<_> = relative.iter().map(|part| part.to_string_lossy()).collect();
                found.push(parts.join("/"));
            }
        }
    }
    found.sort();
    Ok(found)
}
