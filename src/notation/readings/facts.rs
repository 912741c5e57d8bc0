//! Facts of a day that are typed without their colon: `bw 93.4`, `sleep 8h`.

use super::numbers::{Number, decimal_pair, digits, letters, list};
use super::words::changes_sets;
use crate::notation::grammar::lexer::{is_space, trim_start};

/// Nobody who lifts weighs less or more, in thousandths of a kilogram and of a pound.
const KILOGRAMS: std::ops::RangeInclusive<i64> = 30_000..=250_000;
const POUNDS: std::ops::RangeInclusive<i64> = 66_000..=550_000;

/// A fact in the notation, `bodyweight: 93.4 kg (fasted)`. `unit` is the one of bare masses.
pub(super) fn fact(content: &str, unit: &str) -> Option<String> {
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
    if !remark.chars().all(plain) || changes_sets(remark) || remark.len() > 60 {
        return None;
    }
    Some(if remark.is_empty() { said } else { format!("{said} ({remark})") })
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
