//! Counts in other words and signs: what was meant by them.

use super::count::{Head, count_in, head, is_told};
use super::lexer::{Kind, is_quote, is_space, skip_gap};
use super::load::load_in;
use super::number::whole;
use super::signs::starts_attribute;
use super::slips::{Read, SoFar};
use super::tokens::Tokens;
use super::trouble::Trouble;
use crate::notation::nodes::{Amount, Count, Sets};
use crate::problems::ProblemKind as K;

/// Whether the next group begins here, where no comma and blank stand before it: the trouble, and where it begins.
pub(crate) fn next_group<'t, 'a>(
    so_far: SoFar<'_, 't, 'a>,
    i: Tokens<'t, 'a>,
) -> Option<(Trouble<'a>, Tokens<'t, 'a>)> {
    let run_together = |piece| Trouble::new(K::GroupsRunTogether, piece);
    if i.is(b';') {
        let after = i.skip(1);
        let counted = matches!(head(after), Ok((rest, _)) if !rest.runs_on());
        let comma = if after.glued() { ", " } else { "," };
        return counted.then(|| (run_together(i.word()).fixed(comma), after));
    }
    let start = link(i);
    if !start.is_number() {
        return None;
    }
    let Ok((rest, Head::Count(count, None))) = head(start) else { return None };
    let told = is_told(&count) || (so_far.has_load && rest.kind() == Kind::At);
    if !told || rest.runs_on() {
        return None;
    }
    let piece = if start.is_at(i) { count.text } else { i.upto(start) };
    Some((run_together(piece).fixed_at(i.gap_to(start), ", "), start))
}

/// What stands behind a word or sign that people put between two groups, such as `and` or `/`.
fn link<'t, 'a>(i: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    let is_link = |i: Tokens<'_, '_>| {
        ["and", "then", "plus"].iter().any(|word| i.is_word(word))
            || matches!(i.first_char(), Some('&' | '|' | '/' | '+' | '\u{2192}'))
    };
    (0..3).fold(i, |i, _| if is_link(i) { i.skip(1) } else { i })
}

/// A range with blanks round its dash, or a word for it: the count with its range, and where it ends.
pub(crate) fn spaced_range<'t, 'a>(
    i: Tokens<'t, 'a>,
    count: &Count<'a>,
    rest: Tokens<'t, 'a>,
) -> Option<(Tokens<'t, 'a>, Count<'a>, String)> {
    if rest.kind() != Kind::Dash && !rest.is_word("to") {
        return None;
    }
    let (after, next) = match head(rest.skip(1)) {
        Ok((after, Head::Count(next, None))) if !after.runs_on() => (after, next),
        _ => return None,
    };
    // `20s - 30s` says its unit twice, a range only once.
    let timed = !matches!(count.sets, Sets::Times { each: Amount::Reps { .. }, .. });
    let first =
        if timed { count.text.trim_end_matches(|c: char| c.is_alphabetic() || is_space(c)) } else { count.text };
    let spelled = format!("{first}-{}", next.text);
    let (sets, per_side) = match count_in(&spelled) {
        Some((range, None)) => (range.sets, range.per_side),
        _ => return None,
    };
    // `3x8 - 60` is no range of reps, but a load.
    let near = |low: u32, high: u32| low < high && high <= low.saturating_mul(2).saturating_add(4);
    let same = match (&count.sets, &sets) {
        (
            Sets::Times { each: Amount::Seconds { low: one, .. }, .. },
            Sets::Times { each: Amount::Seconds { low, .. }, .. },
        ) => one == low,
        (
            Sets::Times { each: Amount::Distance { low: one, unit: of, .. }, .. },
            Sets::Times { each: Amount::Distance { low, unit, .. }, .. },
        ) => one == low && of == unit,
        _ => !timed,
    };
    let likely = same
        && match &sets {
            Sets::Times { low, high, each: Amount::Reps { low: fewest, high: most } } => {
                near(*low, *high) || near(*fewest, *most)
            }
            Sets::Times { each: Amount::Seconds { low, high }, .. } => low < high,
            Sets::Times { each: Amount::Distance { low, high, .. }, .. } => low < high,
            _ => false,
        };
    likely.then(|| (after, Count { text: i.through(i.word(), next.text), sets, per_side }, spelled))
}

/// In longer scraps nothing in particular is meant, and to look for it would take long.
const LONGEST_MEANT: usize = 200;

/// What is meant by a count that cannot be read, where that can be known.
pub(crate) fn count_meant(piece: &str) -> Option<String> {
    if piece.len() > LONGEST_MEANT {
        return None;
    }
    let side = ["/leg", "/arm", "/hand"].iter().fold(piece.to_owned(), |text, word| text.replace(word, "/side"));
    let times = piece.replace(['*', '\u{b7}', '\u{2715}', '\u{2716}'], "x");
    // `0/1` is an attempt that failed, one of one, not two sets: only the lifter knows.
    let failed = piece.split('/').any(|part| part == "0");
    let list = if failed { piece.to_owned() } else { piece.replace(['/', '-', '\u{2013}'], ",") };
    let skipped = piece.eq_ignore_ascii_case("skip").then(|| "skipped".to_owned());
    let counts = |text: &String| *text != piece && count_in(text).is_some();
    let by_sign = [side, times, list].into_iter().find(counts);
    by_sign.or(skipped).or_else(|| load_by_count(piece).map(|(load, count)| format!("{count} @ {load}")))
}

/// `bar x 5`: a load in words before its count.
pub(crate) fn load_by_count(piece: &str) -> Option<(&str, &str)> {
    if piece.len() > LONGEST_MEANT || !piece.starts_with(|c: char| c.is_alphabetic() || is_quote(c)) {
        return None;
    }
    let signs = piece.char_indices().filter(|(_, c)| matches!(c, 'x' | 'X' | '×'));
    let parts = signs.filter_map(|(at, c)| Some((piece.get(..at)?, piece.get(at + c.len_utf8()..)?)));
    parts
        .map(|(load, count)| (load.trim_end_matches(is_space), skip_gap(count)))
        .find(|(load, count)| load_in(load).is_some() && matches!(count_in(count), Some((_, None))))
}

/// `sets of 8`, `reps`, `per side`: a count in words.
pub(crate) fn in_words<'t, 'a>(so_far: SoFar<'_, 't, 'a>, i: Tokens<'t, 'a>) -> Option<Read<'t, 'a>> {
    let count = so_far.count?;
    let start = so_far.start;
    let unread = |piece: &'a str| Trouble::new(K::UnreadCount { read: piece.into() }, piece);
    if count.text.bytes().all(|b| b.is_ascii_digit()) {
        if let Some((after, reps)) = sets_in_words(i) {
            let trouble = unread(start.upto(after));
            let fixed = reps.map(|reps| trouble.clone().fixed(format!("{}x{reps}", count.text)));
            return Some((after, Some(fixed.unwrap_or(trouble))));
        }
        if let Some(after) = numbers(i) {
            let piece = start.upto(after);
            let list: Vec<&str> = piece.split(is_space).filter(|number| !number.is_empty()).collect();
            return Some((after, Some(unread(piece).fixed(list.join(",")))));
        }
    }
    let directly = start.past(count.text).is_at(i);
    let words = |after| {
        let piece = i.upto(after);
        Trouble::new(K::UnreadWords { read: piece.into() }, piece)
    };
    if directly && (i.is_word("reps") || i.is_word("rep")) {
        let after = i.skip(1);
        return Some((after, Some(words(after).fixed_at(i.through(i.gap(), i.word()), ""))));
    }
    let after = side_in_words(i)?;
    if directly && !count.per_side {
        let trouble = unread(i.through(count.text, i.upto(after)));
        return Some((after, Some(trouble.fixed(format!("{}/side", count.text)))));
    }
    // After a load the words could be about the plates.
    Some((after, Some(words(after))))
}

/// `8 7` after a first number: reps listed with blanks. One number alone could as well be a load.
fn numbers<'t, 'a>(i: Tokens<'t, 'a>) -> Option<Tokens<'t, 'a>> {
    let mut end = i;
    let mut count = 0;
    while let Ok((after, reps)) = whole(end) {
        if reps > MOST_LISTED || (after.glued() && !matches!(after.first().first, b',' | b';' | b'@')) {
            return None;
        }
        count += 1;
        end = after;
    }
    let ends = end.is_empty() || matches!(end.first().first, b',' | b';' | b'@') || starts_attribute(end);
    (ends && (count > 1 || (count == 1 && end.kind() == Kind::At))).then_some(end)
}

/// More than this is no number of reps where it could be a load.
const MOST_LISTED: u32 = 30;

/// `sets of 8 reps` or `sets` after a number.
fn sets_in_words<'t, 'a>(i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, Option<u32>)> {
    if !i.is_word("sets") && !i.is_word("set") {
        return None;
    }
    let i = i.skip(1);
    match whole(i.skip(1)) {
        Ok((rest, reps)) if i.is_word("of") => {
            let worded = rest.is_word("reps") || rest.is_word("rep");
            Some((rest.skip(u32::from(worded)), Some(reps)))
        }
        _ => Some((i, None)),
    }
}

/// `per side`, `each leg`, `a side`
fn side_in_words<'t, 'a>(i: Tokens<'t, 'a>) -> Option<Tokens<'t, 'a>> {
    let is = |i: Tokens<'t, 'a>, words: &[&str]| words.iter().any(|word| i.is_word(word));
    let after = i.skip(1);
    (is(i, &["per", "each", "a"]) && is(after, &["side", "leg", "arm", "hand"])).then(|| after.skip(1))
}
