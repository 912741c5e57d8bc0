//! An attribute that cannot be read, and what to write for it where that can be known.

use super::attribute::{attribute, reads};
use super::count::{Head, count_in, head, is_told};
use super::lexer::{Kind, is_dash};
use super::number::{clock, mass, number, time_unit};
use super::signs::{keyword, value_end};
use super::tokens::{Tokens, lexed};
use super::trouble::{Reading, Trouble};
use crate::notation::nodes::Attribute;
use crate::problems::ProblemKind as K;

const REST: &str = "a length of time, such as `rest 3:00` or `rest 90s`";
const TEMPO: &str = "three or four numbers, such as `tempo 3-1-0` or `tempo 3-1-X-0`";
const MISS: &str = "how many reps were missed, such as `miss 1`";

/// One attribute. Fails for good once its first sign or keyword is read.
pub(crate) fn sure_attribute<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Attribute<'a>> {
    match attribute(i) {
        Err(nom::Err::Error(miss)) => match keyword(i) {
            Some(word) => unread(word, i).fail(),
            None if i.kind() == Kind::Open => unclosed(i).fail(),
            None => Err(nom::Err::Error(miss)),
        },
        read => read,
    }
}

/// A longer remark that never closes is not looked through.
const LONGEST_REMARK: usize = 400;

/// The trouble of a remark that never closes.
fn unclosed<'a>(i: Tokens<'_, 'a>) -> Trouble<'a> {
    let text = i.text();
    let trouble = Trouble::new(K::UnclosedRemark, text);
    // Sets and loads put into a remark would count nowhere.
    if text.len() > LONGEST_REMARK || text.contains('@') || hides_training(text) {
        return trouble;
    }
    let open = text.matches('(').count().saturating_sub(text.matches(')').count()).max(1);
    trouble.fixed(format!("{text}{}", ")".repeat(open)))
}

/// Whether words hold what would count if it were read: a count, a mass, or numbers alone.
pub(crate) fn hides_training(words: &str) -> bool {
    lexed(words, |all| {
        let (mut i, mut numbers) = (all, true);
        while !i.is_empty() {
            let mut end = i.skip(1);
            while end.glued() {
                end = end.skip(1);
            }
            numbers &= number(i).is_ok() && end.is_at(i.skip(1));
            // Of a word between blanks, what stands behind its first signs.
            while !i.is_at(end) && !i.first_char().is_some_and(char::is_alphanumeric) {
                i = i.skip(1);
            }
            if mass(i).is_ok() || count_in(i.upto(end)).is_some_and(|(count, _)| is_told(&count)) {
                return true;
            }
            i = end;
        }
        numbers
    })
}

/// The trouble of the attribute that begins here with this keyword.
fn unread<'a>(word: &'static str, i: Tokens<'_, 'a>) -> Trouble<'a> {
    let after = i.skip(1);
    if let Some(trouble) = run_into_count(i, after) {
        return trouble;
    }
    let sign = matches!(after.first().first, b':' | b'=');
    let value = if sign { after.skip(1) } else { after };
    let end = end_of_value(word, value);
    let piece = i.upto(end);
    let value = value.upto(end);
    let trouble = of_kind(word, piece);
    let plain = sign.then(|| format!("{word} {value}"));
    match plain.into_iter().chain(respelled(word, value)).find(|fix| reads(fix)) {
        Some(fix) => trouble.fixed(fix),
        None => trouble,
    }
}

/// The trouble of a keyword whose value cannot be read.
pub(crate) fn of_kind<'a>(word: &'static str, piece: &'a str) -> Trouble<'a> {
    let kind = match word {
        "RPE" | "RIR" => K::UnreadEffort { scale: word, read: piece.into() },
        "rest" => K::UnreadAttribute { keyword: word, wanted: REST },
        "tempo" => K::UnreadAttribute { keyword: word, wanted: TEMPO },
        _ => K::UnreadAttribute { keyword: word, wanted: MISS },
    };
    Trouble::new(kind, piece)
}

/// `RPE 8,2x5`: with a blank after the comma it would be the next group.
fn run_into_count<'a>(i: Tokens<'_, 'a>, after: Tokens<'_, 'a>) -> Option<Trouble<'a>> {
    let end = value_end(after);
    let mut comma = after;
    while !comma.is_at(end) {
        let count = comma.skip(1);
        if comma.kind() == Kind::Comma && matches!(head(count), Ok((_, Head::Count(c, _))) if is_told(&c)) {
            let attribute = i.upto(comma);
            if reads(attribute) {
                return Some(Trouble::new(K::GroupsRunTogether, attribute).fixed_at(comma.gap_to(count), ", "));
            }
        }
        comma = comma.skip(1);
    }
    None
}

/// Where a value ends, together with what belongs to it behind blanks: `3-5 min`, `3 1 0`.
fn end_of_value<'t, 'a>(word: &str, after: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    let mut end = value_end(after);
    let mut number = true;
    loop {
        let mut next = end;
        while (next.is_at(end) || next.glued()) && !matches!(next.first().first, 0 | b',' | b';' | b'(' | b'!' | b'@') {
            next = next.skip(1);
        }
        let piece = end.upto(next);
        let joins = piece.chars().all(is_dash) || piece.eq_ignore_ascii_case("to");
        let digits = piece.starts_with(|c: char| c.is_ascii_digit());
        let goes_on = match word {
            "rest" if number => joins || lexed(piece, |i| time_unit(i).is_ok_and(|(rest, _)| rest.is_empty())),
            "rest" => digits,
            "tempo" => piece.chars().all(|c| c.is_ascii_digit() || is_dash(c) || matches!(c, 'x' | 'X')),
            _ => false,
        };
        if piece.is_empty() || end.glued() || !goes_on {
            return end;
        }
        number = !joins;
        end = next;
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
        "rest" => Some(format!("rest {}", clock_of(lexed(value, total_seconds)?))),
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
fn total_seconds(mut rest: Tokens<'_, '_>) -> Option<u32> {
    let mut thousandths = 0u64;
    while !rest.is_empty() {
        if let Ok((after, clock)) = clock(rest) {
            thousandths += u64::from(clock) * 1000;
            rest = time_unit(after).map_or(after, |(after, _)| after);
            continue;
        }
        let (after, number) = number(rest).ok()?;
        let (behind, unit) = match (time_unit(after), after.first_char()?) {
            (Ok((behind, unit)), _) => (behind, unit),
            (_, '\'' | '\u{2019}' | '\u{2032}') => (after.skip(1), 60),
            (_, '"' | '\u{201d}' | '\u{2033}') => (after.skip(1), 1),
            _ if after.is_word("m") => (after.skip(1), 60),
            _ => return None,
        };
        thousandths += u64::try_from(number.thousandths).ok()? * u64::from(unit);
        rest = behind;
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
