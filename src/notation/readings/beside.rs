//! Lines right below sets: what goes on with them, a load by itself, and what is only said of them.

use super::habits::Meaning;
use super::marks::marked;
use super::names::Names;
use super::vocabulary::Role;
use super::{looks, numbers, undone, words};
use crate::notation::grammar::lexer::{is_space, trim, trim_start};
use crate::source::Cut;

/// Whether a line is words that are said of sets, or how long the rest was, and names no lift: `felt good`, `rest 3 min`.
pub fn is_mere_remark(line: &str, names: &dyn Names) -> bool {
    let content = marked(trim(line)).content.trim_matches(['*', '_']);
    let inner = content.strip_prefix('(').and_then(|inner| inner.strip_suffix(')'));
    let lower = inner.unwrap_or(content).to_lowercase();
    let words: Vec<&str> = lower.split([' ', ':']).filter(|word| !word.is_empty()).collect();
    let (rest, time) = match words.as_slice() {
        ["rest" | "pause" | "rested", time @ ..] => (true, time),
        time => (inner.is_some(), time),
    };
    let minutes = time.join("");
    let unit = minutes.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '-' | '.' | '\''));
    if rest && unit.len() < minutes.len() && matches!(unit, "" | "min" | "mins" | "m" | "s" | "sec" | "minutes") {
        return true;
    }
    let plain = !content.is_empty()
        && words.len() <= 6
        && content.chars().all(|c| c.is_alphabetic() || " '\u{2019}-!.".contains(c));
    plain && words::is_remark(content) && !undone::is_undone(content) && !looks::names_a_lift(content, names)
}

/// Whether a line is a load and nothing else: `@80`, `100`, `60/65/70`, `Weight: 160kg`.
pub fn is_load_alone(line: &str) -> bool {
    let content = marked(trim(line)).content.to_lowercase();
    let word = numbers::letters(&content);
    let keyed = Role::LoadKey.has(word);
    let value = if keyed { content.tail(word.len()) } else { &content };
    let bare = value.trim_start_matches([' ', ':', '@', '=']);
    let told = keyed || bare.len() < value.trim_start().len();
    let bare = ["kg", "kgs", "lb", "lbs"].iter().find_map(|unit| bare.strip_suffix(unit)).unwrap_or(bare).trim_end();
    let numbers = || bare.split('/').map(|number| number.trim().replace(',', ".").parse::<f64>().unwrap_or(0.0));
    // `Peso: 61,3` is what the lifter weighs: no plate makes it.
    let hangs = |number: f64| !keyed || number * 4.0 % 1.0 == 0.0;
    !bare.is_empty() && numbers().all(|number| number > if told { 0.0 } else { 20.0 } && hangs(number))
}

/// Whether a line goes on with the one above: `then 85 kg x 3`, or numbers and nothing else.
pub fn goes_on(line: &str) -> bool {
    let content = trim_start(line);
    let digit = content.starts_with(|c: char| c.is_ascii_digit()) && content.len() < 40;
    let numbers = digit && content.chars().all(|c| c.is_ascii_digit() || is_space(c) || matches!(c, ',' | '.' | '/'));
    // `65x8`: a load and its reps say all but the lift.
    let loaded = digit && {
        let told = content.contains(['x', 'X', '@', '\u{d7}']);
        let sign = |c: char| c.is_ascii_digit() || is_space(c) || matches!(c, 'x' | 'X' | '@' | '\u{d7}' | ',' | '.');
        let whole = ["kg", "lb", "lbs"].iter().fold(content.to_lowercase(), |text, unit| text.replace(unit, " "));
        told && whole.chars().all(sign)
    };
    numbers || loaded || without_then(content).len() < content.len()
}

/// `then 85 kg x 3`, `puis 85 kg x 3` without its first word.
pub(super) fn without_then(content: &str) -> &str {
    let word = numbers::letters(content);
    let rest = content.tail(word.len());
    let goes_on = Meaning::of(&word.to_lowercase()) == Some(Meaning::Then) && rest.starts_with(is_space);
    if goes_on { trim_start(rest) } else { content }
}
