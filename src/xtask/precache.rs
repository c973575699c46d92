//! Trunk's `post_build` hook: joins the styles, divides the code, and tells the service worker which files the app is made of.
//!
//! The list and a version go into `sw.js`.
//! The version is a hash over every file, so the browser sees a new service worker exactly when something changed.
//! The hook also refuses a page that its own Content-Security-Policy would break.

use crate::digest::hex;
use crate::{halves, paths, report, style};
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

/// What `public/sw.js` holds where the version and the list belong.
const VERSION_MARK: &str = "__VERSION__";
const FILES_MARK: &str = "\"__FILES__\"";

/// Runs in Trunk's staging folder, before it becomes `dist`.
pub(crate) fn hook() -> bool {
    let Some(staging) = std::env::var_os("TRUNK_STAGING_DIR").map(PathBuf::from) else {
        eprintln!("precache is Trunk's hook and needs TRUNK_STAGING_DIR; run `cargo xtask build`");
        return false;
    };
    match fill(&staging) {
        Ok(version) => {
            report::note(&format!("service worker filled in, version {version}"));
            true
        }
        Err(why) => {
            eprintln!("precache: {why}");
            false
        }
    }
}

fn fill(folder: &Path) -> Result<String, String> {
    let read =
        |name: &str| std::fs::read(folder.join(name)).map_err(|cause| format!("{name}: {cause}"));
    let index = String::from_utf8_lossy(&read("index.html")?).into_owned();
    check_page(&index)?;
    let index = style::join(folder, &index)?;
    let index = halves::divide(folder, &index)?;
    std::fs::write(folder.join("index.html"), index)
        .map_err(|cause| format!("index.html: {cause}"))?;
    let names = paths::files_below(folder).map_err(|cause| cause.to_string())?;
    let names: Vec<&str> = names
        .iter()
        .map(String::as_str)
        .filter(|name| is_precached(name))
        .collect();
    let template = String::from_utf8_lossy(&read("sw.js")?).into_owned();
    let mut contents = vec![("sw.js", template.clone().into_bytes())];
    for name in &names {
        contents.push((name, read(name)?));
    }
    let version = version_of(&contents);
    let worker = fill_worker(&template, &version, &names)?;
    std::fs::write(folder.join("sw.js"), worker).map_err(|cause| format!("sw.js: {cause}"))?;
    Ok(version)
}

/// Whether the app needs this file to work offline.
///
/// Screenshots are only for the install dialogue, and the worker can't cache itself.
pub(crate) fn is_precached(name: &str) -> bool {
    name != "sw.js" && !name.starts_with("screenshots/")
}

/// A short hash over names and contents.
fn version_of(files: &[(&str, Vec<u8>)]) -> String {
    let mut hash = Sha256::new();
    for (name, content) in files {
        // The lengths keep a byte that moves from a name to a content from hashing alike.
        hash.update(name.len().to_le_bytes());
        hash.update(name);
        hash.update(content.len().to_le_bytes());
        hash.update(content);
    }
    hex(&hash.finalize())[..12].to_owned()
}

fn fill_worker(template: &str, version: &str, names: &[&str]) -> Result<String, String> {
    for mark in [VERSION_MARK, FILES_MARK] {
        if template.matches(mark).count() != 1 {
            return Err(format!("sw.js must hold {mark} exactly once"));
        }
    }
    // A host may answer /index.html with a redirect, which can't be kept for a navigation.
    let urls: Vec<String> = names
        .iter()
        .map(|name| match *name {
            "index.html" => "\"./\"".to_owned(),
            other => serde_json::Value::from(format!("./{other}")).to_string(),
        })
        .collect();
    Ok(template
        .replace(VERSION_MARK, version)
        .replace(FILES_MARK, &urls.join(",\n  ")))
}

/// The page's own Content-Security-Policy.
pub(crate) fn policy_of(page: &str) -> Option<&str> {
    let meta = page.split_once("http-equiv=\"Content-Security-Policy\"")?.1;
    let (policy, _) = meta.split_once("content=\"")?.1.split_once('"')?;
    Some(policy)
}

/// Refuses what the policy would block: a blank page is a worse way to hear of it.
fn check_page(page: &str) -> Result<(), String> {
    let head = page
        .split_once("<head>")
        .ok_or("index.html has no <head>")?
        .1;
    let first = head.trim_start();
    if !first.starts_with("<meta http-equiv=\"Content-Security-Policy\"") {
        return Err("the policy must be the first thing in index.html's head".into());
    }
    let policy = policy_of(page).ok_or("index.html's policy has no content")?;
    if policy.contains("'unsafe-inline'") || policy.contains("'unsafe-eval'") {
        return Err("the policy lets in code that isn't ours".into());
    }
    for tag in tags(page) {
        let inline_script = tag.starts_with("script") && !tag.contains(" src=");
        if inline_script || tag.starts_with("style") || tag.contains(" style=") {
            return Err(format!("<{tag}> would be blocked by index.html's policy"));
        }
    }
    Ok(())
}

fn tags(page: &str) -> impl Iterator<Item = &str> {
    page.split('<')
        .skip(1)
        .filter_map(|rest| rest.split_once('>').map(|(tag, _)| tag))
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str = "<!doctype html><html><head>\n\
        <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'self'\">\
        <script type=\"module\" src=\"./boot.js\"></script></head><body></body></html>";

    #[test]
    fn the_list_names_the_index_as_the_folder() {
        let template = "const V = \"__VERSION__\"; const F = [\"__FILES__\"];";
        let filled = fill_worker(template, "abc", &["app.js", "index.html"]);
        let expected = "const V = \"abc\"; const F = [\"./app.js\",\n  \"./\"];";
        assert_eq!(filled.as_deref(), Ok(expected));
        assert!(fill_worker("no marks", "abc", &[]).is_err());
    }

    #[test]
    fn the_worker_and_the_screenshots_stay_out() {
        assert!(is_precached("index.html"));
        assert!(is_precached("icons/icon-192.png"));
        assert!(!is_precached("sw.js"));
        assert!(!is_precached("screenshots/bench.png"));
    }

    #[test]
    fn the_version_follows_names_and_contents() {
        let one = version_of(&[("a", b"bc".to_vec())]);
        assert_eq!(one.len(), 12);
        assert_eq!(one, version_of(&[("a", b"bc".to_vec())]));
        assert_ne!(one, version_of(&[("ab", b"c".to_vec())]));
        assert_ne!(one, version_of(&[("a", b"bd".to_vec())]));
    }

    #[test]
    fn a_page_its_policy_would_break_is_refused() {
        assert_eq!(check_page(PAGE), Ok(()));
        assert_eq!(policy_of(PAGE), Some("default-src 'self'"));
        let body = "<body>";
        for bad in [
            "<script>go()</script>",
            "<style>p{}</style>",
            "<p style=\"color:red\">",
        ] {
            let page = PAGE.replace(body, &format!("{body}{bad}"));
            assert!(check_page(&page).is_err(), "{bad}");
        }
        let late = PAGE.replace("<head>", "<head><title>x</title>");
        assert!(check_page(&late).is_err());
        assert!(check_page(&PAGE.replace("'self'", "'unsafe-inline'")).is_err());
    }
}
