//! Slips inside a group: what stands after the count and is neither `@` nor an attribute, and what was most
//! likely meant by it. Words of one's own are a remark without its parentheses; a number with a unit, a count or
//! a keyword never is, for training put into a remark would count nowhere.

use super::attribute::{attribute, reads};
use super::lexer::{Kind, is_dash, is_space};
use super::load::load;
use super::meant::in_words;
use super::number::{mass, mass_unit};
use super::signs::{keyword, next_sign, sign_behind, starts_attribute};
use super::tokens::Tokens;
use super::trouble::{Trouble, trouble_of};
use super::unread::{hides_training, of_kind};
use crate::notation::nodes::{Count, Load, TermKind};
use crate::problems::ProblemKind as K;
use crate::source::Span;

/// What has been read of a group.
#[derive(Clone, Copy)]
pub(crate) struct SoFar<'s, 't, 'a> {
    /// From the group's first sign on.
    pub(crate) start: Tokens<'t, 'a>,
    /// Its count, where that can be read.
    pub(crate) count: Option<&'s Count<'a>>,
    /// Whether a load stands there already.
    pub(crate) has_load: bool,
    /// Whether an effort does.
    pub(crate) has_effort: bool,
}

/// Where reading goes on, and the trouble.
pub(crate) type Read<'t, 'a> = (Tokens<'t, 'a>, Option<Trouble<'a>>);

/// What stands after the count and is neither `@` nor an attribute. Gives where reading goes on, which is always
/// further on.
pub(crate) fn strange<'t, 'a>(
    so_far: SoFar<'_, 't, 'a>,
    i: Tokens<'t, 'a>,
    troubles: &mut Vec<Trouble<'a>>,
) -> Tokens<'t, 'a> {
    let (rest, trouble) = in_words(so_far, i)
        .or_else(|| turned(i))
        .or_else(|| load_without_at(so_far, i))
        .or_else(|| second_load(so_far, i))
        .unwrap_or_else(|| words(so_far, i));
    troubles.extend(trouble);
    // A sign that begins nothing here, such as a stray bracket's end: never stand still.
    if rest.is_at(i) { i.skip(1) } else { rest }
}

/// `2 RIR`, `90s rest`: an attribute the wrong way round.
pub(crate) fn turned<'t, 'a>(i: Tokens<'t, 'a>) -> Option<Read<'t, 'a>> {
    if !i.is_number() {
        return None;
    }
    // Most counts are no such value: asked at the head of every group, this must be told from its next sign: of a keyword,
    // or of a unit of time.
    let mut next = i.skip(1);
    while next.glued()
        && (next.is_number() || next.kind() == Kind::Dash || matches!(next.first().first, b'.' | b',' | b':'))
    {
        next = next.skip(1);
    }
    if !matches!(next.first().first, b'r' | b't' | b'm' | b's') {
        return None;
    }
    // The value is short: a number, a list or a range, perhaps with its unit.
    let (mut at, start) = (i.skip(1), i.first().start);
    let word = loop {
        let apart =
            !at.glued() || at.before().is_some_and(|t| !matches!(t.kind, Kind::Sign | Kind::Dash | Kind::Comma));
        match keyword(at).filter(|word| apart && *word != "AMRAP") {
            Some(word) => break word,
            None if at.is_empty() || at.first().start > start + 12 => return None,
            None => at = at.skip(1),
        }
    };
    let value = i.upto(at);
    let after = at.skip(1);
    // `100 RPE 8`: the keyword has a value of its own.
    if attribute(at).is_ok() || after.runs_on() {
        return None;
    }
    let turned = format!("{word} {value}");
    reads(&turned).then(|| (after, Some(of_kind(word, i.upto(after)).fixed(turned))))
}

/// A load without its `@`, or with a word or a sign in its place.
fn load_without_at<'t, 'a>(so_far: SoFar<'_, 't, 'a>, i: Tokens<'t, 'a>) -> Option<Read<'t, 'a>> {
    so_far.count.filter(|_| !so_far.has_load)?;
    let (start, sure) = connector(i).unwrap_or((i, true));
    let added = i.is(b'+');
    let begins = start.is_number() || start.kind() == Kind::Quote || start.is(b'~');
    let own = start.is_word("bw") || start.is_word("pin");
    let named = !start.is_at(i) && !begins && !own;
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
            return Some((i.past(trouble.piece), Some(trouble)));
        }
    };
    let bare = bare_number(&load);
    if (named && !told_by_plates(&load)) || (!sure && bare.is_some()) || (added && mass_of(&load).is_none()) {
        return None;
    }
    let piece = i.through(i.word(), load.text);
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
fn with_at<'a>(i: Tokens<'_, 'a>, start: Tokens<'_, 'a>, trouble: Trouble<'a>) -> Trouble<'a> {
    let behind = i.past(trouble.piece);
    let end = mass_unit(behind).map_or(behind, |(end, _)| end);
    let piece = if end.is_at(behind) { i.through(i.word(), trouble.piece) } else { i.upto(end) };
    let fix = trouble.fix.map(|(place, text)| {
        let (place, whole) = (Span::of(i.line(), place), Span::of(i.line(), piece));
        let before = i.line().get(start.first().start as usize..place.start as usize).unwrap_or("");
        let after = i.line().get(place.end as usize..whole.end as usize).unwrap_or("");
        (piece, format!("@ {before}{text}{after}"))
    });
    Trouble { piece, fix, ..trouble }
}

/// A word or sign that people put before a load, and whether it can stand before nothing else.
fn connector<'t, 'a>(i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, bool)> {
    let words = [("at", true), ("with", true), ("using", true)];
    let unsure = [("on", false), ("by", false), ("of", false), ("for", false), ("under", false)];
    if i.is_word("w") && i.skip(1).is(b'/') {
        return Some((i.skip(2), true));
    }
    let sure = i.one_of(&words).or_else(|| i.one_of(&unsure)).or_else(|| match i.first_char()? {
        c if is_dash(c) || matches!(c, '=' | ':' | '\u{2014}' | '\u{2192}') => Some(true),
        '/' | '*' | '+' => Some(false),
        _ => None,
    })?;
    Some((i.skip(1), sure))
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
fn second_load<'t, 'a>(so_far: SoFar<'_, 't, 'a>, i: Tokens<'t, 'a>) -> Option<Read<'t, 'a>> {
    let (rest, load) = mass(i).ok().filter(|_| so_far.has_load)?;
    Some((rest, Some(Trouble::new(K::TwoLoads, load.text))))
}

/// Words that mean nothing here, up to the next sign that can begin something.
fn words<'t, 'a>(so_far: SoFar<'_, 't, 'a>, i: Tokens<'t, 'a>) -> Read<'t, 'a> {
    let mut rest = if i.is(b';') { sign_behind(i.skip(1)) } else { next_sign(i) };
    // `paused 120 kg`: the load must not be lost among the words.
    if !so_far.has_load && so_far.count.is_some() {
        let mut next = i.skip(1);
        while !next.is_empty() && next.first().start < rest.first().start {
            if !next.glued() && next.is_number() && mass(next).is_ok() {
                rest = next;
                break;
            }
            next = next.skip(1);
        }
    }
    let piece = i.upto(rest);
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
    if inner.is_empty() || (is_word_before_attribute(inner) && starts_attribute(rest)) {
        // A comma must not come to stand between two digits.
        let comma = rest.kind() == Kind::Comma;
        let listed = comma && rest.skip(1).glued() && rest.skip(1).is_number();
        let blank = if rest.is_empty() || (comma && !listed) { "" } else { " " };
        return (rest, Some(trouble.fixed_at(i.gap_to(rest), blank)));
    }
    if let Some(named) = inner.strip_prefix(['x', 'X', '×']).filter(|named| named.starts_with(is_space)) {
        // `5 x bar`: only the gym's gear can tell whether it is one.
        let load = super::lexer::skip_gap(named);
        return (rest, Some(if so_far.has_load { trouble } else { trouble.fixed(format!("@ {load}")) }));
    }
    if hides_training(inner) {
        return (rest, Some(trouble));
    }
    let glued = if i.glued() { " " } else { "" };
    (rest, Some(trouble.fixed(format!("{glued}({inner})"))))
}

/// `at RPE 8`, `with rest 3:00`
fn is_word_before_attribute(words: &str) -> bool {
    ["at", "with", "and", "w/"].iter().any(|word| words.eq_ignore_ascii_case(word))
}
