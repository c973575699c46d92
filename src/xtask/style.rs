//! The page's style sheets, joined into one: each further file costs a phone ten milliseconds at every start.

use sha2::{Digest, Sha256};
use std::path::Path;

use crate::digest::hex;

const LINK: &str = "<link rel=\"stylesheet\" href=\"./";

/// Puts one sheet in the place of all that the page links, in their order; the page that links it.
pub(crate) fn join(folder: &Path, index: &str) -> Result<String, String> {
    let mut sheet = String::new();
    let mut page = String::new();
    let mut rest = index;
    let mut before_links = None;
    while let Some((before, link)) = rest.split_once(LINK) {
        let (name, after) = link
            .split_once('"')
            .ok_or("a style sheet's link has no end")?;
        let (_, after) = after
            .split_once('>')
            .ok_or("a style sheet's link has no end")?;
        let path = folder.join(name);
        let text = std::fs::read_to_string(&path).map_err(|cause| format!("{name}: {cause}"))?;
        sheet += &without_comments(&text).ok_or_else(|| format!("{name}: a comment has no end"))?;
        std::fs::remove_file(&path).map_err(|cause| format!("{name}: {cause}"))?;
        page += if before_links.is_none() {
            before
        } else {
            before.trim()
        };
        before_links.get_or_insert(page.len());
        rest = after;
    }
    let place = before_links.ok_or("index.html links no style sheet")?;
    page += rest;
    let name = format!("style-{}.css", &hex(&Sha256::digest(&sheet))[..16]);
    page.insert_str(place, &format!("{LINK}{name}\">"));
    std::fs::write(folder.join(&name), sheet).map_err(|cause| format!("{name}: {cause}"))?;
    Ok(page)
}

/// A sheet without what it tells only its readers, a sixth of it on the way to a phone.
/// None of ours has a text in which such a mark could stand.
fn without_comments(sheet: &str) -> Option<String> {
    let mut kept = String::new();
    let mut rest = sheet;
    while let Some((before, comment)) = rest.split_once("/*") {
        kept += before.trim_end_matches(' ');
        rest = comment.split_once("*/")?.1;
    }
    kept += rest;
    Some(kept)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_stay_at_home() {
        let sheet = "/* one */\na {\n  /* two,\n     long */\n  b: c;\n}\n";
        let kept = without_comments(sheet).expect("every comment ends");
        assert_eq!(kept, "\na {\n\n  b: c;\n}\n");
        assert_eq!(without_comments("a {} /* no end"), None);
    }

    #[test]
    fn sheets_are_joined_in_their_order_and_the_page_links_the_one() {
        let folder = std::env::temp_dir().join(format!("oventide-style-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder for the test");
        std::fs::write(folder.join("a.css"), "a{}\n").expect("a sheet");
        std::fs::write(folder.join("b.css"), "b{}\n").expect("a sheet");
        let page = format!("<head>\n{LINK}b.css\"/>\n{LINK}a.css\"/>\n<title></title>");
        let joined = join(&folder, &page).expect("both sheets are there");
        let (_, name) = joined.split_once(LINK).expect("one link");
        let (name, rest) = name.split_once('"').expect("the link's end");
        let sheet = std::fs::read_to_string(folder.join(name)).expect("the joined sheet");
        assert_eq!(sheet, "b{}\na{}\n");
        assert_eq!(rest, ">\n<title></title>");
        assert!(!folder.join("a.css").exists());
        assert!(join(&folder, "<head></head>").is_err());
        std::fs::remove_dir_all(&folder).expect("the folder goes again");
    }
}
