//! Lines that a page or a film has around those that were written: running heads, numbers and times of captions.

/// Without the heads of printed pages: capitals with the number of the page, more than once.
pub(super) fn without_running_heads(lines: Vec<&str>) -> Vec<&str> {
    let words = |line: &str| {
        line.trim_matches(|letter: char| letter.is_ascii_digit() || letter.is_whitespace())
            .to_owned()
    };
    let is_head = |line: &str| {
        let words = words(line);
        words.len() < line.trim().len()
            && words.contains(char::is_uppercase)
            && !words.contains(char::is_lowercase)
    };
    let mut heads: Vec<String> = lines
        .iter()
        .filter(|line| is_head(line))
        .map(|line| words(line))
        .collect();
    heads.sort_unstable();
    let repeated = |line: &str| {
        let words = words(line);
        let first = heads.partition_point(|head| *head < words);
        heads.get(first + 1) == Some(&words)
    };
    lines
        .into_iter()
        .filter(|line| !(is_head(line) && repeated(line)))
        .collect()
}

/// So many times with arrows make captions.
pub(super) const CAPTIONS: usize = 3;

/// Captions without their numbers and times.
pub(super) fn without_times<'a>(lines: &[&'a str]) -> Vec<&'a str> {
    let is_number = |line: &str| {
        !line.trim().is_empty() && line.trim().bytes().all(|byte| byte.is_ascii_digit())
    };
    let is_time = |line: Option<&&str>| line.is_some_and(|line| line.contains("-->"));
    let kept = lines.iter().enumerate().filter(|&(place, line)| {
        let numbers_a_time = is_number(line) && is_time(lines.get(place + 1));
        !(line.contains("-->") || line.trim().is_empty() || numbers_a_time)
    });
    kept.map(|(_, line)| *line).collect()
}
