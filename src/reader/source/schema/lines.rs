//! Texts inside of JSON, in lines: at line breaks, and at the tags that break a line. Other tags stay text.

/// The lines of a text, without those that are empty.
pub(super) fn lines(text: &str) -> Vec<String> {
    let mut lines = vec![String::new()];
    let mut rest = text;
    while let Some(at) = rest.find(['<', '\n', '\r']) {
        if let Some(line) = lines.last_mut() {
            line.push_str(&rest[..at]);
        }
        rest = &rest[at..];
        let length = breaking(rest);
        if length > 0 {
            lines.push(String::new());
            rest = &rest[length..];
        } else {
            if let Some(line) = lines.last_mut() {
                line.push('<');
            }
            rest = &rest[1..];
        }
    }
    if let Some(line) = lines.last_mut() {
        line.push_str(rest);
    }
    let lines = lines
        .iter()
        .map(|line| line.trim())
        .filter(|line| !line.is_empty());
    lines.map(str::to_owned).collect()
}

/// How long the tag or line break is that a text begins with; nought where it is none.
fn breaking(text: &str) -> usize {
    if text.starts_with(['\n', '\r']) {
        return 1;
    }
    let inside = text[1..].trim_start_matches('/');
    let length = inside
        .find(|letter: char| !letter.is_ascii_alphanumeric())
        .unwrap_or(inside.len());
    let name = inside[..length].to_ascii_lowercase();
    if !["p", "br", "li", "ul", "ol", "div", "tr", "h2", "h3", "h4"].contains(&name.as_str()) {
        return 0;
    }
    let end = text.bytes().take(LONGEST_TAG).position(|byte| byte == b'>');
    end.map_or(0, |end| end + 1)
}

/// A tag that breaks a line is no longer, in bytes.
const LONGEST_TAG: usize = 200;
