//! An effort, rest, tempo or miss that cannot be read, and what to write for it where that can be known.

use super::attribute::{reads, value_end};
use super::chars::{front, is_dash, is_space, keyword, skip_gap};
use super::count::{Head, head};
use super::number::time_unit;
use super::trouble::Trouble;
use crate::problems::ProblemKind as K;
use nom::Parser;

const REST: &str = "a length of time, such as `rest 3:00` or `rest 90s`";
const TEMPO: &str = "three or four numbers, such as `tempo 3-1-0` or `tempo 3-1-X-0`";
const MISS: &str = "how many reps were missed, such as `miss 1`";

/// The trouble of the attribute that begins with `i`, whose keyword ends where `after` begins.
pub(super) fn unread<'a>(word: &'static str, i: &'a str, after: &'a str) -> Trouble<'a> {
    if let Some(trouble) = run_into_count(i, after) {
        return trouble;
    }
    let sign = skip_gap(after).starts_with([':', '=']);
    let value = if sign { skip_gap(skip_gap(after).get(1..).unwrap_or("")) } else { skip_gap(after) };
    let end = end_of_value(word, if sign { value } else { after });
    let piece = front(i, end);
    let value = front(value, end);
    let trouble = of_kind(word, piece);
    let plain = sign.then(|| format!("{word} {value}"));
    let fix = plain.into_iter().chain(respelled(word, value)).find(|fix| reads(fix));
    match fix {
        Some(fix) => trouble.fixed(fix),
        None => trouble,
    }
}

/// The trouble of a keyword whose value cannot be read.
pub(super) fn of_kind<'a>(word: &'static str, piece: &'a str) -> Trouble<'a> {
    let kind = match word {
        "RPE" | "RIR" => K::UnreadEffort { scale: word, read: piece.into() },
        "rest" => K::UnreadAttribute { keyword: word, wanted: REST },
        "tempo" => K::UnreadAttribute { keyword: word, wanted: TEMPO },
        _ => K::UnreadAttribute { keyword: word, wanted: MISS },
    };
    Trouble::new(kind, piece)
}

/// `RPE 8,2x5`: with a blank after the comma it would be the next group.
fn run_into_count<'a>(i: &'a str, after: &'a str) -> Option<Trouble<'a>> {
    let piece = front(i, value_end(after));
    let (attribute_text, count) = piece.match_indices(',').find_map(|(at, _)| {
        let count = i
            .get(at + 1..)
            .filter(|count| matches!(head(count), Ok((_, Head::Count(c, _))) if c.text.contains(['x', 'X', '×'])))?;
        let text = i.get(..at).filter(|text| reads(text))?;
        Some((text, count))
    })?;
    let comma = i.get(attribute_text.len()..i.len() - count.len()).unwrap_or("");
    Some(Trouble::new(K::GroupsRunTogether, attribute_text).fixed_at(comma, ", "))
}

/// Where a value ends, together with what belongs to it behind blanks: `3-5 min`, `3 1 0`.
fn end_of_value<'a>(word: &str, after: &'a str) -> &'a str {
    let mut end = value_end(after);
    let mut number = true;
    loop {
        let next = skip_gap(end);
        let at = next.find(|c| is_space(c) || matches!(c, ',' | ';' | '(' | '!' | '@')).unwrap_or(next.len());
        let piece = next.get(..at).unwrap_or("");
        let joins = piece.chars().all(is_dash) || piece.eq_ignore_ascii_case("to");
        let digits = piece.starts_with(|c: char| c.is_ascii_digit());
        let goes_on = match word {
            "rest" if number => joins || time_unit(piece).is_ok_and(|(rest, _)| rest.is_empty()),
            "rest" => digits,
            "tempo" => piece.chars().all(|c| c.is_ascii_digit() || is_dash(c) || matches!(c, 'x' | 'X')),
            _ => false,
        };
        if piece.is_empty() || next.len() == end.len() || !goes_on {
            return end;
        }
        number = !joins;
        end = next.get(at..).unwrap_or("");
    }
}

/// A value in other words, as the notation has it.
fn respelled(word: &str, value: &str) -> Option<String> {
    match word {
        "RPE" | "RIR" => {
            let plain = value.trim_start_matches('~');
            let plain = plain.strip_suffix("/10").unwrap_or(plain);
            Some(format!("{word} {}", plain.replace(['/', '-', '\u{2013}'], ",")))
        }
        "rest" => Some(format!("rest {}", clock_of(total_seconds(value)?))),
        "tempo" => {
            let beats: Vec<&str> =
                value.split(|c: char| !c.is_alphanumeric()).filter(|beat| !beat.is_empty()).collect();
            let beats: Vec<String> = match beats.as_slice() {
                [one] => one.chars().map(String::from).collect(),
                several => several.iter().map(|beat| (*beat).to_owned()).collect(),
            };
            Some(format!("tempo {}", beats.join("-")))
        }
        _ => None,
    }
}

/// `2m`, `1.5 min`, `1 min 30 s`, `1:30 min`, `90"`
fn total_seconds(value: &str) -> Option<u32> {
    let mut thousandths = 0u64;
    let mut rest = skip_gap(value);
    while !rest.is_empty() {
        if let Ok((after, clock)) = super::number::clock(rest) {
            let unit = time_unit(after).map_or(after, |(after, _)| after);
            thousandths += u64::from(clock) * 1000;
            rest = skip_gap(unit);
            continue;
        }
        let (after, number) = super::number::number(rest).ok()?;
        let after = skip_gap(after);
        let (after, unit) = match time_unit(after) {
            Ok((after, unit)) => (after, unit),
            Err(_) => match (
                after.strip_prefix(['\'', '\u{2019}', '\u{2032}']),
                after.strip_prefix(['"', '\u{201d}', '\u{2033}']),
            ) {
                (Some(after), _) => (after, 60),
                (_, Some(after)) => (after, 1),
                _ => (keyword("m").parse(after).ok()?.0, 60),
            },
        };
        thousandths += u64::try_from(number.thousandths).ok()? * u64::from(unit);
        rest = skip_gap(after);
    }
    u32::try_from(thousandths / 1000).ok().filter(|seconds| *seconds > 0)
}

/// Seconds as one would write them.
fn clock_of(seconds: u32) -> String {
    match (seconds / 60, seconds % 60) {
        (minutes, 0) => format!("{minutes} min"),
        (minutes @ 0..=1, rest) => format!("{}s", minutes * 60 + rest),
        (minutes, rest) => format!("{minutes}:{rest:02}"),
    }
}
