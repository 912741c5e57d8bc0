//! Lines that look like work, a fact or a detail, and are read as prose for want of a sign or of their place. What
//! they hold counts nowhere, so it is said.

use super::grammar::keys::{self, at_colon};
use super::grammar::lexer::{is_dash, is_space, skip_gap};
use super::grammar::meant::load_by_count;
use super::grammar::tokens::lexed;
use super::grammar::trouble::Trouble;
use super::grammar::work::{self, is_set_line};
use crate::problems::ProblemKind as K;

/// A line without a bullet that would be work with one: `Front squat: 3x8`, `1. Front squat: 3x8`, `• Front squat: 3x8`.
pub(crate) fn without_bullet(line: &str) -> Option<Trouble<'_>> {
    let inner = line.trim_start_matches(is_space);
    let content = skip_gap(inner.trim_start_matches(|c: char| c.is_ascii_digit()).trim_start_matches(is_mark));
    let mark = before(inner, content).trim_end_matches(is_space);
    let (name, value) = at_colon(content)?;
    if !value.trim_start_matches(is_space).starts_with(|c: char| c.is_ascii_digit())
        || (mark.is_empty() && name.split(is_space).count() > MOST_WORDS)
        || !reads_as_work(name, value)
    {
        return None;
    }
    let missing = if mark.is_empty() { "the dash before the lift is missing" } else { "a bullet is a dash" };
    let trouble = looks_like_work(missing, inner);
    Some(match mark {
        "" => trouble.fixed_at(before(inner, inner), "- "),
        _ if before(inner, content).len() > mark.len() => trouble.fixed_at(mark, "-"),
        _ => trouble.fixed_at(mark, "- "),
    })
}

/// More words before a colon are a sentence, and no lift.
const MOST_WORDS: usize = 5;

/// What people and phones put in the place of a bullet.
fn is_mark(c: char) -> bool {
    matches!(c, '.' | ')' | '•' | '·' | '◦' | '▪' | '‣' | '\u{2014}' | '\u{2015}')
}

/// `**bodyweight:** 83 kg` without a bullet.
pub(crate) fn emphasised_fact(line: &str) -> Option<Trouble<'_>> {
    let inner = line.trim_start_matches(is_space);
    let (name, value) = at_colon(inner)?;
    keys::fact(name)?;
    let known = keys::fact_word(name)?;
    let piece = before(inner, value).trim_end_matches(is_space);
    Some(Trouble::new(K::NearKey { read: piece.into(), known }, piece).fixed(format!("{known}:")))
}

/// A bullet without a colon that holds a count and an `@`, or a lift and work without a fault.
pub(crate) fn without_colon(content: &str) -> Option<Trouble<'_>> {
    let lone = || (lexed(content, is_set_line) && content.contains(['x', 'X', '×'])).then_some(0);
    let at = count_before_at(content).or_else(lone).or_else(|| work_behind(content))?;
    let before = content.get(..at).unwrap_or("");
    let name = before.trim_end_matches(|c: char| is_space(c) || is_dash(c) || matches!(c, ',' | ';' | '.' | '='));
    if name.is_empty() {
        return Some(looks_like_work("the lift's name and a colon are missing", content));
    }
    let signs = content.get(name.len()..at).unwrap_or("");
    Some(looks_like_work("the colon after the lift is missing", content).fixed_at(signs, ": "))
}

/// Where the work begins that follows a few words: `Front squat 3x8 RPE 7`.
fn work_behind(content: &str) -> Option<usize> {
    let words = content.match_indices(is_space).take(MOST_WORDS).map(|(at, blank)| at + blank.len());
    let mut counts =
        words.filter(|at| content.get(*at..).is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit())));
    counts.find(|at| {
        let (name, value) = content.split_at_checked(*at).unwrap_or(("", ""));
        value.contains(['x', 'X', '×']) && name.starts_with(char::is_alphabetic) && reads_as_work(name, value)
    })
}

/// `-Front squat: 3x8`: a bullet but for the blank after its dash.
pub(crate) fn glued_dash(line: &str, under_work: bool) -> Option<Trouble<'_>> {
    let inner = line.trim_start_matches(is_space);
    let dash = inner.chars().next().filter(|c| is_dash(*c) || matches!(c, '*' | '+'))?;
    let content = inner.get(dash.len_utf8()..).unwrap_or("");
    if content.starts_with(|c| is_dash(c) || c == '*') {
        return None;
    }
    let reads = at_colon(content).is_some_and(|(name, value)| would_be_work(name, value));
    let set_line = under_work && line.len() > inner.len() && lexed(content, is_set_line);
    let glue = content.get(..0).unwrap_or("");
    (reads || set_line || count_before_at(content).is_some())
        .then(|| looks_like_work("the blank after the dash is missing", inner).fixed_at(glue, " "))
}

/// An indented bullet that is no set line and no detail, or has no lift above it. `indent` is the white space before
/// it, which is taken away where it alone stands in the way.
pub(crate) fn indented<'a>(content: &'a str, indent: Option<&'a str>, under_work: bool) -> Option<Trouble<'a>> {
    if let Some((name, value)) = at_colon(content)
        && keys::detail(name).is_none()
        && would_be_work(name, value)
    {
        let trouble = looks_like_work("it is indented under another line", content);
        return Some(match indent {
            Some(indent) => trouble.fixed_at(indent, ""),
            None => trouble,
        });
    }
    if under_work {
        if let Some((load, count)) = load_by_count(content.trim_end_matches(is_space)).filter(|(load, _)| is_told(load))
        {
            let trouble = looks_like_work("a set line begins with its count", content);
            return Some(trouble.fixed(format!("{count} @ {load}")));
        }
        return count_before_at(content).map(|_| looks_like_work("a set line begins with its count", content));
    }
    let counted = lexed(content, is_set_line) && content.contains(['x', 'X', '×', '@']);
    (counted || count_before_at(content).is_some()).then(|| looks_like_work("it stands under no lift", content))
}

/// Whether words can be nothing but a load.
fn is_told(load: &str) -> bool {
    let first = load.split(is_space).next().unwrap_or("");
    load.contains(['/', '+', '"']) || ["bar", "bw", "pin"].iter().any(|word| first.eq_ignore_ascii_case(word))
}

fn looks_like_work<'a>(missing: &'static str, content: &'a str) -> Trouble<'a> {
    Trouble::new(K::LooksLikeWork { missing }, content.trim_end_matches(is_space))
}

fn count_before_at(content: &str) -> Option<usize> {
    lexed(content, work::count_before_at).map(|at| at as usize)
}

fn reads_as_work(name: &str, value: &str) -> bool {
    lexed(value, |i| work::reads_as_work(name, i))
}

fn would_be_work(name: &str, value: &str) -> bool {
    lexed(value, |i| work::would_be_work(name, i))
}

/// What stands in `whole` before `piece`, which must lie in it.
pub(crate) fn before<'a>(whole: &'a str, piece: &str) -> &'a str {
    whole.get(..crate::source::Span::of(whole, piece).start as usize).unwrap_or("")
}
