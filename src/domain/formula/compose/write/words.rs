//! An instruction of few words from a text of many.

use crate::formula::Step;

/// Marks that end a sentence.
const STOPS: [char; 4] = ['.', '!', '?', '…'];
/// Words that begin a clause.
const JOINTS: [&str; 16] = [
    "then",
    "until",
    "till",
    "while",
    "when",
    "dann",
    "bis",
    "wobei",
    "puis",
    "jusqu'a",
    "hasta",
    "luego",
    "deretter",
    "mens",
    "afterwards",
    "danach",
];
/// Words that may stand before those.
const ANDS: [&str; 6] = ["and", "und", "et", "y", "og", "so"];

/// Has a step say what a text says: an instruction that is cut from it at a clause, or else where it pauses with "…",
/// and all of it, letter for letter, in the detail where it is longer than that.
pub(super) fn say(step: &mut Step, text: &str) {
    let text = text.trim();
    if text.is_empty() {
        return;
    }
    step.cue = match step.length {
        // How hot its middle has to be no text contradicts.
        crate::formula::Length::Bake { .. } => std::mem::take(&mut step.cue),
        _ => String::new(),
    };
    step.detail.clear();
    step.instruction = cut(text);
    if step.instruction != text {
        text.clone_into(&mut step.detail);
    }
}

/// The longest beginning that ends at a sentence, or else at a clause, and has at most twelve words; where there is
/// none, one that shows that it goes on.
fn cut(text: &str) -> String {
    if text.split_whitespace().count() <= Step::MOST_WORDS && !text.contains('\n') {
        return text.to_owned();
    }
    let ends = ends(text);
    let of = |kind: Ends| {
        let last = ends.iter().rev().find(|end| end.kind == kind);
        let clause = last.map(|end| without_and(text[..end.at].trim_end_matches(is_between)));
        clause.filter(|clause| !clause.is_empty())
    };
    if let Some(clause) = of(Ends::Sentence).or_else(|| of(Ends::Clause)) {
        let stop = if clause.ends_with(STOPS) { "" } else { "." };
        return format!("{clause}{stop}");
    }
    let words: Vec<&str> = text.split_whitespace().take(Step::MOST_WORDS).collect();
    let words = words.join(" ");
    let begun = of(Ends::Pause).unwrap_or_else(|| words.trim_end_matches(is_between));
    format!("{begun}…")
}

fn is_between(letter: char) -> bool {
    letter.is_whitespace() || matches!(letter, ',' | ';' | ':' | '–' | '—' | '(')
}

/// "Knead, and then rest" is cut before its "and".
fn without_and(clause: &str) -> &str {
    let last = clause.rsplit(char::is_whitespace).next().unwrap_or("");
    if ANDS.contains(&crate::food::folded(last).as_str()) {
        let left = &clause[..clause.len() - last.len()];
        left.trim_end_matches(is_between)
    } else {
        clause
    }
}

/// What ends at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ends {
    /// A sentence.
    Sentence,
    /// A clause.
    Clause,
    /// A clause or a part of a list: who reads on finds out.
    Pause,
}

/// Where the text may be cut.
struct End {
    at: usize,
    kind: Ends,
}

/// A pause that comes sooner leaves too little: "Meanwhile,".
const FEWEST_TO_A_PAUSE: usize = 4;

/// A clause of fewer words says nothing: "Then".
const FEWEST: usize = 2;

/// All places within the first twelve words where a sentence or a clause ends.
fn ends(text: &str) -> Vec<End> {
    let mut ends = Vec::new();
    let (mut words, mut at, mut depth) = (0, 0, 0_usize);
    let mut before = "";
    for word in text.split_inclusive(char::is_whitespace) {
        let bare = word.trim_end();
        if bare.is_empty() {
            at += word.len();
            continue;
        }
        let folded = crate::food::folded(bare);
        let is_joint = JOINTS.contains(&folded.trim_matches(is_between)) || bare.starts_with('(');
        // "20 bis 25" is a range.
        let is_range = before.ends_with(|letter: char| letter.is_ascii_digit());
        before = bare;
        if is_joint && !is_range && depth == 0 && words >= FEWEST {
            let kind = Ends::Clause;
            ends.push(End { at, kind });
        } else if ANDS.contains(&folded.as_str()) && depth == 0 && words >= FEWEST_TO_A_PAUSE {
            let kind = Ends::Pause;
            ends.push(End { at, kind });
        }
        words += 1;
        if words > Step::MOST_WORDS {
            break;
        }
        depth += bare.matches('(').count();
        depth = depth.saturating_sub(bare.matches(')').count());
        let is_stop = bare.ends_with(STOPS) && !is_short_for(&folded);
        let kind = if is_stop {
            Some(Ends::Sentence)
        } else if bare.ends_with(';') {
            Some(Ends::Clause)
        } else {
            let pauses = bare.ends_with(',') && words >= FEWEST_TO_A_PAUSE;
            pauses.then_some(Ends::Pause)
        };
        if let Some(kind) = kind.filter(|_| depth == 0 && words >= FEWEST) {
            let at = at + bare.len();
            ends.push(End { at, kind });
        }
        at += word.len();
    }
    ends
}

/// Words that a stop makes short and that end no sentence by it.
const SHORTENED: [&str; 14] = [
    "ca", "approx", "appr", "min", "mins", "hr", "hrs", "std", "tbsp", "tsp", "nr", "bzw", "ggf",
    "evtl",
];

fn is_short_for(folded: &str) -> bool {
    SHORTENED.contains(&folded.trim_end_matches(STOPS))
}
