//! A page in pieces: text, tags, scripts.
//!
//! Source: HTML living standard, "Tokenization", as far as it takes to tell text from what isn't. Left out: a `>` inside
//! of an attribute, which ends its tag here, and sections of CDATA.

/// What a page consists of, from its beginning to its end.
pub(super) enum Piece<'a> {
    Text(&'a str),
    Tag {
        name: &'a str,
        closes: bool,
    },
    Script {
        attributes: &'a str,
        content: &'a str,
    },
}

pub(super) struct Pieces<'a> {
    rest: &'a str,
}

impl<'a> Pieces<'a> {
    pub(super) fn of(page: &'a str) -> Self {
        Self { rest: page }
    }
}

impl<'a> Iterator for Pieces<'a> {
    type Item = Piece<'a>;

    fn next(&mut self) -> Option<Piece<'a>> {
        let rest = self.rest;
        if rest.is_empty() {
            return None;
        }
        let Some(inside) = rest.strip_prefix('<') else {
            let end = rest.find('<').unwrap_or(rest.len());
            self.rest = &rest[end..];
            return Some(Piece::Text(&rest[..end]));
        };
        if let Some(comment) = inside.strip_prefix("!--") {
            let end = comment.find("-->").map_or(comment.len(), |end| end + 3);
            self.rest = &comment[end..];
            return Some(Piece::Text(""));
        }
        let is_tag = inside
            .starts_with(|letter: char| letter.is_ascii_alphabetic() || "/!?".contains(letter));
        if !is_tag {
            self.rest = inside;
            return Some(Piece::Text(&rest[..1]));
        }
        Some(self.tag(inside))
    }
}

impl<'a> Pieces<'a> {
    /// A tag, from behind its bracket on, with its content where that is no text.
    fn tag(&mut self, inside: &'a str) -> Piece<'a> {
        let end = inside.find('>').unwrap_or(inside.len());
        let tag = &inside[..end];
        self.rest = inside.get(end + 1..).unwrap_or("");
        let closes = tag.starts_with('/');
        let named = tag.trim_start_matches(['/', '!', '?']);
        let length = named
            .find(|letter: char| !letter.is_ascii_alphanumeric())
            .unwrap_or(named.len());
        let (name, attributes) = named.split_at(length);
        let is = |raw: &str| !closes && name.eq_ignore_ascii_case(raw);
        let (is_script, is_style) = (is("script"), is("style"));
        if !is_script && !is_style {
            return Piece::Tag { name, closes };
        }
        let (content, rest) = self.rest.split_at(closing(self.rest, name));
        self.rest = rest;
        if is_script {
            Piece::Script {
                attributes,
                content,
            }
        } else {
            Piece::Text("")
        }
    }
}

/// Where the closing tag of a script begins, or the end.
fn closing(text: &str, name: &str) -> usize {
    let mut from = 0;
    while let Some(found) = text[from..].find("</") {
        let at = from + found;
        let behind = &text[at + 2..];
        if behind
            .get(..name.len())
            .is_some_and(|named| named.eq_ignore_ascii_case(name))
        {
            return at;
        }
        from = at + 2;
    }
    text.len()
}
