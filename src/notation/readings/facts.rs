//! Facts of a day that are typed without their colon: `bw 93.4`, `sleep 8h`.

use super::numbers::{Number, decimal_pair, digits, letters, list};
use super::undone::is_undone;
use super::words::changes_sets;
use crate::notation::grammar::lexer::{is_space, trim_start};

/// Nobody who lifts weighs less or more, in thousandths of a kilogram and of a pound.
const KILOGRAMS: std::ops::RangeInclusive<i64> = 30_000..=250_000;
const POUNDS: std::ops::RangeInclusive<i64> = 66_000..=550_000;

/// A fact in the notation, `bodyweight: 93.4 kg (fasted)`. `unit` is the one of bare masses.
pub(super) fn fact(content: &str, unit: &str) -> Option<String> {
    if let Some(said) = pain(content).or_else(|| session_rpe(content)) {
        return Some(said);
    }
    let key = letters(content);
    let value = content.get(key.len()..)?;
    if !value.starts_with(is_space) {
        return None;
    }
    let value = trim_start(value);
    let (length, number) = number(value)?;
    let behind = value.get(length..)?;
    let word = letters(trim_start(behind));
    let after = || trim_start(behind).get(word.len()..);
    let (said, more) = match (key.to_lowercase().as_str(), word.to_lowercase().as_str()) {
        ("bw" | "bodyweight", "kg" | "kgs") => (mass(number, "kg")?, after()?),
        ("bw" | "bodyweight", "lb" | "lbs") => (mass(number, "lb")?, after()?),
        ("bw" | "bodyweight", _) if behind.is_empty() || behind.starts_with([' ', ',', ';']) => {
            (mass(number, unit)?, behind)
        }
        ("sleep" | "slept", "h" | "hr" | "hrs" | "hour" | "hours") if number.thousandths <= 24_000 => {
            (format!("sleep: {} h", number.text()), after()?)
        }
        _ => return None,
    };
    let remark = more.trim_matches(|c| is_space(c) || matches!(c, ',' | ';' | '.' | '(' | ')'));
    let plain = |c: char| !c.is_ascii_digit() && !matches!(c, '(' | ')');
    if !remark.chars().all(plain) || changes_sets(remark) || is_undone(remark) || remark.len() > 60 {
        return None;
    }
    Some(if remark.is_empty() { said } else { format!("{said} ({remark})") })
}

/// `session rpe 8`
fn session_rpe(content: &str) -> Option<String> {
    let value =
        content.get(..12).filter(|key| key.eq_ignore_ascii_case("session rpe ")).and_then(|_| content.get(12..))?;
    let (length, number) = digits(value.trim())?;
    let fits = length == value.trim().len() && (1_000..=10_000).contains(&number.thousandths);
    fits.then(|| format!("session RPE: {}", number.text()))
}

/// What stands before a number of pain, and is no place.
const NO_SITE: [&str; 9] = ["after", "afterwards", "before", "during", "no", "now", "only", "still", "today"];

/// `pain left knee 7/10`, `knee pain 6/10`: a number out of ten, and the word beside the place.
fn pain(content: &str) -> Option<String> {
    let (words, number) = content.trim_end_matches('.').strip_suffix("/10")?.rsplit_once(' ')?;
    let number: u32 = number.parse().ok().filter(|number| *number <= 10)?;
    let words: Vec<&str> = words.split(is_space).filter(|word| *word != "=").collect();
    let is_pain = |word: &&str| word.trim_end_matches(':').eq_ignore_ascii_case("pain");
    let site = match words.as_slice() {
        [first, site @ ..] if is_pain(first) => site,
        [site @ .., last] if is_pain(last) => site,
        _ => return None,
    };
    let plain = |word: &&str| word.chars().all(|c| c.is_alphabetic() || c == '-');
    let site = site.iter().filter(|word| !word.eq_ignore_ascii_case("in")).copied().collect::<Vec<_>>();
    let named = (1..=3).contains(&site.len())
        && site.iter().all(plain)
        && !site.iter().any(|word| NO_SITE.iter().any(|no| word.eq_ignore_ascii_case(no)));
    named.then(|| format!("pain: {} {number}/10", site.join(" ").to_lowercase()))
}

fn number(text: &str) -> Option<(usize, Number)> {
    match list(text, ',') {
        Some((end, _)) => decimal_pair(text, end).map(|number| (end, number)),
        None => digits(text),
    }
}

fn mass(number: Number, unit: &str) -> Option<String> {
    let usual = if unit == "lb" { POUNDS } else { KILOGRAMS };
    usual.contains(&number.thousandths).then(|| format!("bodyweight: {} {unit}", number.text()))
}
