//! Counts in other words and signs: what was meant by them.

use super::attribute::starts_attribute;
use super::chars::{before, front, front_trimmed, gap, is_dash, is_quote, is_space, keyword, past, skip_gap, through};
use super::count::{Head, head};
use super::group::ends_here;
use super::load::load;
use super::number::whole;
use super::slips::{Read, SoFar};
use super::trouble::{Miss, Trouble};
use crate::notation::nodes::{Amount, Count, Sets};
use crate::problems::ProblemKind as K;
use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::tag_no_case;

/// Whether the next group begins here, where no comma and blank stand before it: the trouble, and where it begins.
pub(crate) fn next_group<'a>(so_far: SoFar<'_, 'a>, i: &'a str) -> Option<(Trouble<'a>, &'a str)> {
    let run_together = |piece| Trouble::new(K::GroupsRunTogether, piece);
    if let Some(after) = i.strip_prefix(';') {
        let counted = matches!(head(skip_gap(after)), Ok((rest, _)) if ends_here(rest));
        let comma = if after.starts_with(is_space) { "," } else { ", " };
        return counted.then(|| (run_together(front(i, after)).fixed(comma), skip_gap(after)));
    }
    let start = link(i);
    if !start.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let Ok((rest, Head::Count(count, None))) = head(start) else { return None };
    let told = count.text.contains(['x', 'X', '×']) || (so_far.has_load && skip_gap(rest).starts_with('@'));
    if !told || !ends_here(rest) {
        return None;
    }
    let behind = past(so_far.start, front_trimmed(so_far.start, i));
    let piece = if start.len() < i.len() { front_trimmed(i, start) } else { count.text };
    Some((run_together(piece).fixed_at(front(behind, start), ", "), start))
}

/// What stands behind a word or sign that people put between two groups, such as `and` or `/`.
fn link(i: &str) -> &str {
    let word: Result<(&str, &str), nom::Err<Miss<'_>>> =
        alt((keyword("and"), keyword("then"), keyword("plus"))).parse(i);
    let rest = word.ok().map(|(rest, _)| rest).or_else(|| i.strip_prefix(['&', '|', '/', '+', '\u{2192}']));
    match rest {
        Some(rest) if skip_gap(rest).len() < i.len() => link(skip_gap(rest)),
        _ => i,
    }
}

/// A range with blanks round its dash, or a word for it: the count with its range, and where it ends.
pub(crate) fn spaced_range<'a>(i: &'a str, count: &Count<'a>, rest: &str) -> Option<(&'a str, Count<'a>, String)> {
    let rest = past(i, front(i, rest));
    let then = skip_gap(rest);
    if !then.starts_with(is_dash) && !then.starts_with(['t', 'T']) {
        return None;
    }
    let second = then.strip_prefix(is_dash).or_else(|| keyword("to").parse(then).ok().map(|(after, _)| after))?;
    let second = skip_gap(second);
    let (after, next) = match head(second) {
        Ok((after, Head::Count(next, None))) if ends_here(after) => (after, next),
        _ => return None,
    };
    // `20s - 30s` says its unit twice, a range only once.
    let timed = !matches!(count.sets, Sets::Times { each: Amount::Reps { .. }, .. });
    let first =
        if timed { count.text.trim_end_matches(|c: char| c.is_alphabetic() || is_space(c)) } else { count.text };
    let spelled = format!("{first}-{}", next.text);
    let (sets, per_side) = match head(&spelled) {
        Ok(("", Head::Count(range, None))) => (range.sets, range.per_side),
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
    likely.then(|| (after, Count { text: through(i, next.text), sets, per_side }, spelled))
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
    let counts = |text: &String| *text != piece && matches!(head(text), Ok(("", Head::Count(..))));
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
    parts.map(|(load, count)| (load.trim_end_matches(is_space), skip_gap(count))).find(|(written, count)| {
        matches!(load(written), Ok(("", _))) && matches!(head(count), Ok(("", Head::Count(_, None))))
    })
}

/// `sets of 8`, `reps`, `per side`: a count in words.
pub(crate) fn in_words<'a>(so_far: SoFar<'_, 'a>, i: &'a str) -> Option<Read<'a>> {
    let count = so_far.count?;
    let lone = count.text.bytes().all(|b| b.is_ascii_digit());
    if lone && let Ok((after, reps)) = sets_in_words(i) {
        let piece = front_trimmed(so_far.start, after);
        let trouble = Trouble::new(K::UnreadCount { read: piece.into() }, piece);
        let fixed = reps.map(|reps| trouble.clone().fixed(format!("{}x{reps}", count.text)));
        return Some((after, Some(fixed.unwrap_or(trouble))));
    }
    if lone && let Some(after) = numbers(i) {
        let piece = front_trimmed(so_far.start, after);
        let list: Vec<&str> = piece.split(is_space).filter(|number| !number.is_empty()).collect();
        let trouble = Trouble::new(K::UnreadCount { read: piece.into() }, piece).fixed(list.join(","));
        return Some((after, Some(trouble)));
    }
    let behind = past(so_far.start, count.text);
    let directly = skip_gap(behind).len() == i.len();
    let words = |after| {
        let piece = front(i, after);
        Trouble::new(K::UnreadWords { read: piece.into() }, piece)
    };
    let reps: Result<(&str, &str), nom::Err<Miss<'_>>> = alt((keyword("reps"), keyword("rep"))).parse(i);
    match (reps, side_in_words(i)) {
        (Ok((after, _)), _) if directly => Some((after, Some(words(after).fixed_at(front(behind, after), "")))),
        (_, Ok((after, ()))) if directly && !count.per_side => {
            let piece = through(past(so_far.start, before(so_far.start, count.text)), front(i, after));
            let trouble = Trouble::new(K::UnreadCount { read: piece.into() }, piece);
            Some((after, Some(trouble.fixed(format!("{}/side", count.text)))))
        }
        // After a load the words could be about the plates.
        (_, Ok((after, ()))) => Some((after, Some(words(after)))),
        _ => None,
    }
}

/// `8 7` after a first number: reps listed with blanks. One number alone could as well be a load.
fn numbers(i: &str) -> Option<&str> {
    let mut end = i;
    let mut count = 0;
    while let Ok((after, reps)) = whole(skip_gap(end)) {
        if reps > MOST_LISTED
            || !(after.is_empty() || after.starts_with(|c| is_space(c) || matches!(c, ',' | ';' | '@')))
        {
            return None;
        }
        count += 1;
        end = after;
    }
    let next = skip_gap(end);
    let ends = next.is_empty() || next.starts_with([',', ';', '@']) || starts_attribute(next);
    (ends && (count > 1 || (count == 1 && next.starts_with('@')))).then_some(end)
}

/// More than this is no number of reps where it could be a load.
const MOST_LISTED: u32 = 30;

/// `sets of 8 reps` or `sets` after a number.
fn sets_in_words(i: &str) -> Result<(&str, Option<u32>), nom::Err<Miss<'_>>> {
    let (i, _) = alt((keyword("sets"), keyword("set"))).parse(i)?;
    let of = |i| {
        let (i, _) = (gap, tag_no_case("of"), gap).parse(i)?;
        let (i, reps) = whole(i)?;
        let (i, _) = nom::combinator::opt((gap, alt((keyword("reps"), keyword("rep"))))).parse(i)?;
        Ok::<_, nom::Err<Miss<'_>>>((i, reps))
    };
    match of(i) {
        Ok((rest, reps)) => Ok((rest, Some(reps))),
        Err(_) => Ok((i, None)),
    }
}

/// `per side`, `each leg`, `a side`
fn side_in_words(i: &str) -> Result<(&str, ()), nom::Err<Miss<'_>>> {
    let (i, _) = alt((keyword("per"), keyword("each"), keyword("a"))).parse(i)?;
    let (i, _) = gap(i)?;
    let (i, _) = alt((keyword("side"), keyword("leg"), keyword("arm"), keyword("hand"))).parse(i)?;
    Ok((i, ()))
}
