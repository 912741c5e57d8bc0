//! Slips inside a group: what stands after the count and is neither `@` nor an attribute, and what was most
//! likely meant by it. Words of one's own are a remark without its parentheses; a number with a unit, a count or
//! a keyword never is, for training put into a remark would count nowhere.

use super::attribute::{attribute, reads, starts_attribute};
use super::chars::{before, front, front_trimmed, is_dash, is_quote, is_space, keyword, past, skip_gap, through};
use super::count::{Head, head};
use super::group::{ends_here, next_sign};
use super::load::{load, mass_factor};
use super::meant::in_words;
use super::number::{mass_unit, number};
use super::trouble::{Miss, Trouble, trouble_of};
use super::unread::of_kind;
use crate::notation::nodes::{Count, Load, TermKind};
use crate::problems::ProblemKind as K;
use nom::Parser;
use nom::branch::alt;
use nom::character::complete::satisfy;

/// What has been read of a group.
#[derive(Clone, Copy)]
pub(crate) struct SoFar<'s, 'a> {
    /// From the group's first sign on.
    pub(crate) start: &'a str,
    /// Its count, where that can be read.
    pub(crate) count: Option<&'s Count<'a>>,
    /// Whether a load stands there already.
    pub(crate) has_load: bool,
    /// Whether an effort does.
    pub(crate) has_effort: bool,
}

/// What stands after the count and is neither `@` nor an attribute. Gives where reading goes on, which is always
/// further on.
pub(crate) fn strange<'a>(so_far: SoFar<'_, 'a>, i: &'a str, troubles: &mut Vec<Trouble<'a>>) -> &'a str {
    let read = in_words(so_far, i)
        .or_else(|| turned(i))
        .or_else(|| load_without_at(so_far, i))
        .or_else(|| second_load(so_far, i))
        .unwrap_or_else(|| words(so_far, i));
    troubles.extend(read.1);
    if read.0.len() < i.len() {
        return read.0;
    }
    // A sign that begins nothing here, such as a stray bracket's end: never stand still.
    i.get(i.chars().next().map_or(0, char::len_utf8)..).unwrap_or("")
}

/// Where reading goes on, and the trouble.
pub(crate) type Read<'a> = (&'a str, Option<Trouble<'a>>);

/// `2 RIR`, `90s rest`: an attribute the wrong way round.
pub(crate) fn turned(i: &str) -> Option<Read<'_>> {
    if !i.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    // Most counts are no such value: asked at the head of every group, this must be told from its next sign: of a keyword,
    // or of a unit of time.
    let next =
        skip_gap(i.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | ':') || is_dash(c)));
    if !next.starts_with(|c: char| matches!(c.to_ascii_lowercase(), 'r' | 't' | 'm' | 's')) {
        return None;
    }
    // The value is short: a number, a list or a range, perhaps with its unit.
    let (at, word) = i
        .char_indices()
        .skip(1)
        .take(12)
        .filter(|(at, _)| {
            i.get(..*at).is_some_and(|value| value.ends_with(|c: char| is_space(c) || c.is_alphanumeric()))
        })
        .find_map(|(at, _)| Some((at, keyword_at(i.get(at..)?)?)))?;
    let value = i.get(..at)?.trim_end_matches(is_space);
    let after = i.get(at + word.len()..)?;
    // `100 RPE 8`: the keyword has a value of its own.
    if attribute(i.get(at..)?).is_ok() || !ends_here(after) {
        return None;
    }
    let turned = format!("{word} {value}");
    if !reads(&turned) {
        return None;
    }
    let piece = front(i, after);
    Some((after, Some(of_kind(word, piece).fixed(turned))))
}

/// The keyword of an attribute that takes a value.
fn keyword_at(i: &str) -> Option<&'static str> {
    ["RPE", "RIR", "rest", "tempo", "miss"].into_iter().find(|word| keyword(word).parse(i).is_ok())
}

/// A load without its `@`, or with a word or a sign in its place.
fn load_without_at<'a>(so_far: SoFar<'_, 'a>, i: &'a str) -> Option<Read<'a>> {
    so_far.count.filter(|_| !so_far.has_load)?;
    let (start, sure) = match connector(i) {
        Some((rest, sure)) => (rest, sure),
        None => (i, true),
    };
    let added = i.starts_with('+');
    let begins = start.starts_with(|c: char| c.is_ascii_digit() || is_quote(c) || c == '~');
    let own = ["bw", "pin"].iter().any(|word| keyword(word).parse(start).is_ok());
    let named = start.len() < i.len() && !begins && !own;
    if !(begins || own || named) {
        return None;
    }
    let (rest, load) = match load(start) {
        Ok(read) => read,
        Err(error) => {
            let trouble = trouble_of(error).filter(|trouble| {
                trouble.fix.is_some() || matches!(trouble.kind, K::DecimalComma { .. } | K::LoadRange { .. })
            })?;
            let trouble = with_at(i, start, trouble);
            return Some((past(i, trouble.piece), Some(trouble)));
        }
    };
    let bare = bare_number(&load);
    if (named && !told_by_plates(&load)) || (!sure && bare.is_some()) || (added && mass_of(&load).is_none()) {
        return None;
    }
    let piece = through(i, load.text);
    let read = piece.to_owned();
    if let Some(thousandths) = bare.filter(|n| (5_000..=10_000).contains(n) && n % 500 == 0 && !load.approximate) {
        let number = crate::training::decimal(thousandths);
        let trouble = Trouble::new(K::LoadOrEffort { read: number.clone(), unit: "" }, piece);
        return Some((rest, Some(if so_far.has_effort { trouble } else { trouble.fixed(format!("RPE {number}")) })));
    }
    let own = if added { "bw + " } else { "" };
    Some((rest, Some(Trouble::new(K::LoadWithoutAt { read }, piece).fixed(format!("@ {own}{}", load.text)))))
}

/// The trouble of a load that begins at `start`, with the sign or word before it, and with its `@` in the fix.
fn with_at<'a>(i: &'a str, start: &'a str, trouble: Trouble<'a>) -> Trouble<'a> {
    let behind = past(i, trouble.piece);
    let end = mass_unit(behind).map_or(behind, |(end, _)| end);
    let piece = front(i, end);
    let fix = trouble.fix.map(|(place, text)| {
        let (before, after) = (before(start, place), front(past(start, place), end));
        (piece, format!("@ {before}{text}{after}"))
    });
    Trouble { piece, fix, ..trouble }
}

/// A word or sign that people put before a load, and whether it can stand before nothing else.
fn connector(i: &str) -> Option<(&str, bool)> {
    let sure = |i| alt((keyword("at"), keyword("with"), keyword("using"), keyword("w/"))).parse(i);
    let read: Result<(&str, &str), nom::Err<Miss<'_>>> = sure(i);
    if let Ok((rest, _)) = read {
        return Some((skip_gap(rest), true));
    }
    if let Some(rest) = i.strip_prefix(|c: char| is_dash(c) || matches!(c, '=' | ':' | '\u{2014}' | '\u{2192}')) {
        return Some((skip_gap(rest), true));
    }
    if let Some(rest) = i.strip_prefix(['/', '*', '+']) {
        return Some((skip_gap(rest), false));
    }
    let unsure: Result<(&str, &str), nom::Err<Miss<'_>>> =
        alt((keyword("on"), keyword("by"), keyword("of"), keyword("for"), keyword("under"))).parse(i);
    unsure.ok().map(|(rest, _)| (skip_gap(rest), false))
}

/// The number that a load is, where it is one without a unit.
fn bare_number(load: &Load<'_>) -> Option<i64> {
    match load.first.kind {
        TermKind::Mass(1, number, None) if load.more.is_empty() && !load.first.per_side => Some(number.thousandths),
        _ => None,
    }
}

/// A load that begins with a mass and its unit.
fn mass_of(load: &Load<'_>) -> Option<i64> {
    match load.first.kind {
        TermKind::Mass(_, number, Some(_)) => Some(number.thousandths),
        _ => None,
    }
}

/// Whether words before a load's plates can be nothing but a bar: `bar + 2 red/side`.
fn told_by_plates(load: &Load<'_>) -> bool {
    load.more.iter().any(|(_, term)| term.per_side || matches!(term.kind, TermKind::Mass(..)))
}

/// A mass where a load stands already.
fn second_load<'a>(so_far: SoFar<'_, 'a>, i: &'a str) -> Option<Read<'a>> {
    let (rest, load) = mass_factor(i).ok().filter(|_| so_far.has_load)?;
    Some((rest, Some(Trouble::new(K::TwoLoads, load.text))))
}

/// Words that mean nothing here, up to the next sign that can begin something.
fn words<'a>(so_far: SoFar<'_, 'a>, i: &'a str) -> Read<'a> {
    let sign = satisfy::<_, &str, Miss<'_>>(|c| c == ';').parse(i).map_or(i, |(after, _)| after);
    let mut rest = next_sign(sign);
    // `paused 120 kg`: the load must not be lost among the words.
    if !so_far.has_load && so_far.count.is_some() {
        let piece = front(i, rest);
        let starts = piece.char_indices().filter(|(at, c)| c.is_ascii_digit() && *at > 0);
        let mut masses = starts.filter(|(at, _)| piece.get(..*at).is_some_and(|before| before.ends_with(is_space)));
        if let Some((at, _)) = masses.find(|(at, _)| i.get(*at..).is_some_and(|mass| mass_factor(mass).is_ok())) {
            rest = i.get(at..).unwrap_or("");
        }
    }
    let piece = front_trimmed(i, rest);
    if piece.is_empty() {
        return (rest, None);
    }
    let trouble = Trouble::new(K::UnreadWords { read: piece.into() }, piece);
    if so_far.count.is_none() || piece.contains(['(', ')']) {
        return (rest, Some(trouble));
    }
    let signs = |c: char| {
        is_space(c)
            || is_dash(c)
            || matches!(c, ';' | ':' | '.' | '=' | '/' | '|' | '#' | '>' | '\u{2014}' | '\u{2192}')
    };
    let inner = piece.trim_matches(signs);
    let inner = if matches!(inner, "x" | "X" | "×") { "" } else { inner };
    let read_before = front_trimmed(so_far.start, i);
    let behind = past(so_far.start, read_before);
    let next = skip_gap(rest);
    if inner.is_empty() || (is_word_before_attribute(inner) && starts_attribute(next)) {
        // A comma must not come to stand between two digits.
        let listed = next.strip_prefix(',').is_some_and(|next| next.starts_with(|c: char| c.is_ascii_digit()));
        let blank = if next.is_empty() || (next.starts_with(',') && !listed) { "" } else { " " };
        return (rest, Some(trouble.fixed_at(front(behind, next), blank)));
    }
    if let Some(named) = inner.strip_prefix(['x', 'X', '×']).filter(|named| named.starts_with(is_space)) {
        // `5 x bar`: only the gym's gear can tell whether it is one.
        let load = skip_gap(named);
        return (rest, Some(if so_far.has_load { trouble } else { trouble.fixed(format!("@ {load}")) }));
    }
    if hides_training(inner) {
        return (rest, Some(trouble));
    }
    let glued = if read_before.len() == front(so_far.start, i).len() { " " } else { "" };
    (rest, Some(trouble.fixed(format!("{glued}({inner})"))))
}

/// `at RPE 8`, `with rest 3:00`
fn is_word_before_attribute(words: &str) -> bool {
    ["at", "with", "and", "w/"].iter().any(|word| words.eq_ignore_ascii_case(word))
}

/// Whether words hold what would count if it were read: a count, a mass, or numbers alone.
pub(super) fn hides_training(words: &str) -> bool {
    let signs = |c: char| !c.is_alphanumeric();
    let mut pieces =
        words.split(is_space).map(|piece| piece.trim_start_matches(signs)).filter(|piece| !piece.is_empty());
    let numbers = words.split(is_space).all(|piece| piece.is_empty() || matches!(number(piece), Ok(("", _))));
    let counts = |piece| matches!(head(piece), Ok(("", Head::Count(count, _))) if count.text.contains(['x', 'X', '×']));
    numbers || pieces.any(|piece| counts(piece) || mass_factor(past(words, before(words, piece))).is_ok())
}
