//! What stands before a line's words: bullets, numbers, task boxes, signs.

use crate::notation::grammar::lexer::{is_dash, is_space, trim, trim_end, trim_start};
use crate::source::Cut;

/// A line without what stands before its words.
#[derive(Clone, Copy, Debug)]
pub(super) struct Marked<'l> {
    /// What is left.
    pub(super) content: &'l str,
    /// Whether a task box is ticked; nothing where there is none.
    pub(super) ticked: Option<bool>,
    /// Pictures before the words that say nothing of the sets.
    pub(super) aside: &'l str,
}

/// Whether a sign is a picture.
pub(super) fn is_picture(c: char) -> bool {
    matches!(c, '\u{2600}'..='\u{27bf}' | '\u{2b00}'..='\u{2bff}' | '\u{1f000}'..='\u{1faff}' | '\u{fe0f}' | '\u{200d}')
}

/// A picture of a box, a tick or a cross, and whether it says done.
fn tick(c: char) -> Option<bool> {
    match c {
        '\u{2705}' | '\u{2611}' | '\u{2713}' | '\u{2714}' => Some(true),
        '\u{274c}' | '\u{2717}' | '\u{2718}' | '\u{2610}' | '\u{2b1c}' | '\u{274e}' | '\u{1f6ab}' | '\u{1f51c}'
        | '\u{1f3af}' | '\u{1f534}' | '\u{26d4}' => Some(false),
        _ => None,
    }
}

/// A line whose one picture is a tick, behind the lift or at its end: the line without it.
pub(super) fn without_tick(content: &str) -> Option<String> {
    let mut ticks = content.char_indices().filter(|(_, c)| tick(*c).is_some());
    let ((at, c), None) = (ticks.next()?, ticks.next()) else { return None };
    let after = content.tail(at + c.len_utf8());
    let after = after.strip_prefix('\u{fe0f}').unwrap_or(after);
    let digit = |c: char| c.is_ascii_digit();
    // Between sets it says that those before it are done, and nothing of the others.
    let of_all = !content.head(at).contains(digit) || !after.contains(digit);
    (of_all && tick(c) == Some(true)).then(|| format!("{} {}", trim_end(content.head(at)), trim_start(after)))
}

/// What people write before a lift to say what its sets are to them: `PR: bench 140x1`.
const LABELS: [&str; 13] = [
    "accessories",
    "accessory",
    "assistance",
    "finisher",
    "main",
    "main lift",
    "main work",
    "pb",
    "pr",
    "primary",
    "secondary",
    "supplemental",
    "top lift",
];

/// Words before a lift's name that say how its sets were meant, or nothing: `heavy squat 3x3 120`, `did bench 3x5 80`.
const BEFORE: [&str; 14] = [
    "am", "did", "done", "easy", "finally", "first", "heavy", "light", "medium", "pm", "speed", "then", "today",
    "volume",
];

/// A label before a line's lift, and the line without it.
pub(super) fn label(content: &str) -> Option<(&str, &str)> {
    let word = content.split([' ', ':']).next().unwrap_or(content);
    if BEFORE.contains(&word.to_lowercase().as_str()) {
        return Some((word, content.tail(word.len()).trim_start_matches([':', ' ', ','])));
    }
    let (label, rest) = content.split_once(':')?;
    let known = LABELS.contains(&trim(label).to_lowercase().as_str());
    known.then(|| (trim(label), trim_start(rest)))
}

/// Whether a text has a cross: what is crossed out was not done.
pub(super) fn has_cross(text: &str) -> bool {
    text.chars().any(|c| tick(c) == Some(false))
}

/// A line without what stands for its bullet, and whether a task box is ticked.
pub(super) fn marked(line: &str) -> Marked<'_> {
    let mut content = without_bullet(line);
    let pictures = content.len() - content.trim_start_matches(|c| is_picture(c) || is_space(c)).len();
    let aside = trim(content.head(pictures));
    content = content.tail(pictures);
    let boxed = aside.chars().find_map(tick);
    let arrow = |c: char| matches!(c, '\u{2794}'..='\u{27be}' | '\u{2b05}'..='\u{2b95}' | '\u{fe0f}');
    if boxed.is_some() || (!aside.is_empty() && aside.chars().all(arrow)) {
        content = without_bullet(content);
        return Marked { content, ticked: boxed, aside: "" };
    }
    for (mark, ticked) in [("[ ]", false), ("[x]", true), ("[X]", true)] {
        if let Some(rest) = content.strip_prefix(mark) {
            return Marked { content: trim_start(rest), ticked: Some(ticked), aside };
        }
    }
    Marked { content, ticked: None, aside }
}

/// Whether a line begins with its number, `#1 bench`, and is no heading.
pub(super) fn is_numbered(line: &str) -> bool {
    without_number(line).is_some()
}

fn without_number(line: &str) -> Option<&str> {
    let number = line.strip_prefix('#')?;
    let rest = number.trim_start_matches(|c: char| c.is_ascii_digit());
    ((1..=2).contains(&(number.len() - rest.len())) && rest.starts_with(is_space)).then(|| trim_start(rest))
}

/// A line without its bullet, its number, or the label of sets done by turns.
fn without_bullet(line: &str) -> &str {
    let mut content = without_number(line).unwrap_or(line);
    let marked = content.strip_prefix(|c| {
        is_dash(c) || matches!(c, '*' | '+' | '•' | '·' | '◦' | '▪' | '‣' | '\u{2014}' | '→' | '⇒' | '»' | '►')
    });
    if let Some(rest) = marked.filter(|rest| rest.starts_with(is_space) || rest.starts_with(char::is_alphabetic)) {
        content = trim_start(rest);
    } else {
        let digits = content.trim_start_matches(|c: char| c.is_ascii_digit());
        let numbered = digits.len() < content.len() && content.len() - digits.len() <= 2;
        if let Some(rest) = digits.strip_prefix(['.', ')']).filter(|rest| numbered && rest.starts_with(is_space)) {
            content = trim_start(rest);
        }
    }
    // `a) Bench`, `b. Row`
    if let Some(rest) =
        content.strip_prefix(|c: char| c.is_ascii_lowercase()).and_then(|rest| rest.strip_prefix([')', '.']))
        && rest.starts_with(is_space)
    {
        return trim_start(rest);
    }
    // `A1 Bench`, `B) Row`: sets that are done by turns. `L: 60x5` is a side, and `W1: 60x5` a warm-up.
    let label = content.trim_start_matches(|c: char| matches!(c, 'A'..='H'));
    let after = label.trim_start_matches(|c: char| c.is_ascii_digit());
    let parted = after.strip_prefix(['.', ')', ':']).unwrap_or(after);
    let one = content.len() - label.len() == 1 && label.len() - after.len() <= 1;
    let lettered = one && (after.len() < label.len() || parted.len() < after.len()) && parted.starts_with(is_space);
    if lettered && !trim_start(parted).starts_with(|c: char| c.is_ascii_digit()) {
        content = trim_start(parted);
    }
    content
}

/// `Set 1: 100x5`, `Set1 100x5`, `1st set 100x5` without the number of the set.
pub(super) fn without_set_number(content: &str) -> &str {
    let lower = content.to_ascii_lowercase();
    let nth = ["1st set", "2nd set", "3rd set", "4th set", "5th set", "set1", "set2", "set3", "set4", "set5"];
    let nth = nth.iter().find(|nth| lower.starts_with(**nth)).map(|nth| content.tail(nth.len()));
    if let Some(sets) = nth.filter(|sets| sets.starts_with(|c| is_space(c) || c == ':')) {
        return sets.trim_start_matches(|c| is_space(c) || matches!(c, ':' | '-'));
    }
    let Some(rest) = content.get(..3).filter(|word| word.eq_ignore_ascii_case("set")).and_then(|_| content.get(3..))
    else {
        return content;
    };
    let number = trim_start(rest);
    let after = number.trim_start_matches(|c: char| c.is_ascii_digit());
    match trim_start(after).strip_prefix([':', '.', ')', '-', '\u{2013}', '\u{2014}', ',']) {
        Some(sets) if after.len() < number.len() => trim_start(sets),
        _ => content,
    }
}

/// Whether a line is cells of bare numbers behind a name, `Bench press;3;8;60`: what they count is told by the head
/// of a table alone.
pub(super) fn is_row(line: &str) -> bool {
    let digit = |cell: &str| cell.contains(|c: char| c.is_ascii_digit());
    let number = |cell: &str| digit(cell) && cell.bytes().all(|c| !c.is_ascii_alphabetic());
    ['|', '\t', ';', ','].into_iter().any(|sign| {
        let Some((name, cells)) = line.split_once(sign) else { return false };
        let blank = matches!(sign, '|' | '\t');
        !digit(name)
            && cells.contains(sign)
            && cells.split(sign).all(|cell| (blank || cell.trim() == cell) && number(cell))
    })
}
