//! One part of a line by itself: a count, a load, an attribute, a unit. The spelling of loads is that of
//! `training::Load`. A part that holds a comment has no other spelling.

use crate::notation::grammar::lexer::{is_dash, is_space, trim, trim_start};
use crate::notation::grammar::units::Measure;
use crate::notation::nodes::{Attribute, AttributeKind, Keyword, Load, Number, Sign, Term, TermKind};
use crate::source::Cut;
use crate::training::{Unit, decimal};
use std::borrow::Cow;

/// Whether something inside a text must stay as it is.
fn is_kept(text: &str) -> bool {
    text.contains("<!--") || text.contains('\r')
}

/// A text cut into words of letters and single other signs, without blanks.
fn tokens(text: &str) -> Vec<&str> {
    let mut out = Vec::new();
    let mut rest = trim_start(text);
    while let Some(first) = rest.chars().next() {
        let length = match first.is_alphabetic() {
            true => rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len()),
            false => first.len_utf8(),
        };
        let (token, after) = rest.split_at(length);
        out.push(token);
        rest = trim_start(after);
    }
    out
}

/// A count: `3 X 8`, `3x20 sec`, `4x40 metres`, `3x10 / side`.
pub(super) fn count(text: &str) -> Cow<'_, str> {
    // Nearly every count is one: `3x5`.
    let is_plain = text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'x');
    if is_plain || is_kept(text) {
        return text.into();
    }
    tokens(text)
        .into_iter()
        .map(|token| word_of_count(&token.to_lowercase()).map_or_else(|| sign(token), str::to_owned))
        .collect()
}

fn word_of_count(word: &str) -> Option<&'static str> {
    Some(match word {
        "x" | "×" => "x",
        "xamrap" => "xAMRAP",
        "amrap" => "AMRAP",
        "side" => "side",
        _ => return Measure::named(word).filter(|unit| *unit != Measure::Hour).map(Measure::word),
    })
}

/// A sign as the plain one.
fn sign(text: &str) -> String {
    text.replace(is_dash, "-")
}

/// A load, term by term.
pub(super) fn load<'a>(load: &Load<'a>) -> Cow<'a, str> {
    if is_spelled(load) || is_kept(load.text) {
        return load.text.into();
    }
    let mut out = String::from(if load.approximate { "~" } else { "" });
    term(&load.first, &mut out);
    for (sign, next) in &load.more {
        out.push_str(if *sign == Sign::Plus { " + " } else { " - " });
        term(next, &mut out);
    }
    out.into()
}

/// Whether a load is a mass in its spelling, as nearly every one is: `102.5 kg`.
fn is_spelled(load: &Load<'_>) -> bool {
    let TermKind::Mass(1, _, Some(unit)) = load.first.kind else { return false };
    let number = load.text.strip_suffix(unit.word()).and_then(|number| number.strip_suffix(' '));
    let Some(number) = number.filter(|_| !load.approximate && load.more.is_empty()) else { return false };
    let (whole, part) = number.split_once('.').unwrap_or((number, "5"));
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    digits(whole) && !whole.starts_with('0') && digits(part) && !part.ends_with('0') && part.len() <= 3
}

fn term(term: &Term<'_>, out: &mut String) {
    match term.kind {
        TermKind::Mass(times, number, unit) => {
            if times > 1 {
                out.push_str(&format!("{times}x"));
            }
            out.push_str(&mass(number, unit));
        }
        TermKind::Named(count, words) => {
            out.extend(count.map(|count| format!("{count} ")));
            out.push_str(&one_blank(words));
        }
        TermKind::Bodyweight => out.push_str("bw"),
        // What stands in the quotes is the lifter's own.
        TermKind::Quoted(inside) => out.push_str(&format!("\"{inside}\"")),
        TermKind::Pin(number) => out.push_str(&format!("pin {}", decimal(number.thousandths))),
        TermKind::Percent(number) => out.push_str(&format!("{}%", decimal(number.thousandths))),
    }
    if term.per_side {
        out.push_str("/side");
    }
}

/// A mass with its unit, where one is written.
pub(super) fn mass(number: Number, unit: Option<Unit>) -> String {
    let number = decimal(number.thousandths);
    match unit {
        Some(unit) => format!("{number} {}", unit.word()),
        None => number,
    }
}

/// Words with one blank between them.
pub(super) fn one_blank(words: &str) -> String {
    words.split(is_space).filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

/// An attribute: its keyword, one blank, its value. Remarks stay, and so do the words of a fault and of a tempo.
pub(super) fn attribute<'a>(attribute: &Attribute<'a>) -> Cow<'a, str> {
    let text = attribute.text;
    let is_plain = |number: &str| number.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
    let is_effort = ["RPE ", "RIR "].into_iter().any(|word| text.strip_prefix(word).is_some_and(is_plain));
    if is_effort || is_kept(text) {
        return text.into();
    }
    let value = |keyword: &str| trim(text.tail(keyword.len()));
    let spelled = |keyword: &str, value: &str| format!("{keyword} {value}").into();
    match &attribute.kind {
        AttributeKind::Effort(..) | AttributeKind::Efforts(..) => {
            let keyword = text.head(3).to_uppercase();
            spelled(&keyword, &sign(value(&keyword)))
        }
        AttributeKind::Rest(_) => spelled("rest", &length_of_rest(value("rest"))),
        AttributeKind::Fault(word, sets) if !sets.is_empty() => {
            let list = text.tail(1 + word.len());
            format!("!{word}{}", list.split(is_space).collect::<String>()).into()
        }
        kind => match kind.keyword().map(Keyword::word) {
            Some(keyword) if text.len() > keyword.len() => spelled(keyword, value(keyword)),
            keyword => keyword.unwrap_or(text).into(),
        },
    }
}

/// `3:00`, `90s`, `2 min`
fn length_of_rest(value: &str) -> String {
    let glued = |token: &str| match Measure::named(&token.to_lowercase()) {
        Some(Measure::Minute) => " min".to_owned(),
        Some(Measure::Second) => "s".to_owned(),
        _ => token.to_owned(),
    };
    tokens(value).into_iter().map(glued).collect()
}

/// Hours and minutes: `7 h`, `1 h 15 min`, `7:30`.
pub(super) fn hours(text: &str) -> String {
    if is_kept(text) {
        return text.to_owned();
    }
    let mut out = String::new();
    for token in tokens(text) {
        let word = Measure::named(&token.to_lowercase()).map(Measure::word);
        let after_word = out.ends_with(|c: char| c.is_alphabetic());
        if word.is_some() || after_word {
            out.push(' ');
        }
        out.push_str(word.unwrap_or(token));
    }
    out
}

/// A text without blanks, its dashes plain: a date, `7/10`.
pub(super) fn solid(text: &str) -> String {
    if is_kept(text) { text.to_owned() } else { sign(&text.split(is_space).collect::<String>()) }
}
