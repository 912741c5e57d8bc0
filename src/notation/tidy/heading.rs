//! Headings of blocks and sessions. What a title says stays; only the words that the notation knows are spelled.

use super::pen::{Pen, is_gap};
use super::spelling::solid;
use crate::notation::grammar::chars::{front, is_space, keyword, skip_gap};
use crate::notation::grammar::heading::{day_label, heading, iso_date, meet_name, time_of_day, weekday};
use crate::notation::grammar::number::whole;
use nom::Parser;

/// The heading's text, one blank behind its `#`.
fn text<'a>(pen: &mut Pen<'a>, line: &'a str) -> Option<&'a str> {
    let (_, text) = heading(line)?;
    let sign = line.trim_start_matches(' ');
    let sign = sign.get(..sign.len() - sign.trim_start_matches('#').len())?;
    pen.gap(pen.between(sign, text)?, " ", "");
    let rest = pen.behind(text, line)?;
    if is_gap(rest, "") {
        pen.put(rest, "");
    }
    Some(text)
}

/// `# Block 6`
pub(super) fn block<'a>(pen: &mut Pen<'a>, line: &'a str, name: &'a str) -> Option<()> {
    let text = text(pen, line)?;
    let word = text.get(..5)?;
    pen.put(word, "Block");
    pen.gap(pen.between(word, name)?, " ", "");
    Some(())
}

/// What may stand between a session's date and its first descriptor.
const AFTER_DATE: &str = ",:;-\u{2013}\u{2014}";

/// `## Thu 2026-03-05 18:30 secondary day, felt fresh`
pub(super) fn session<'a>(pen: &mut Pen<'a>, line: &'a str) -> Option<()> {
    let text = text(pen, line)?;
    let mut rest = text;
    if let Ok((after, _)) = weekday(text) {
        day(pen, front(text, after));
        rest = after.trim_start_matches(|c| is_space(c) || c == ',');
        pen.gap(front(after, rest), " ", ",");
    }
    let (after, _) = iso_date(rest).ok()?;
    let date = front(rest, after);
    pen.put(date, &solid(date));
    rest = after.trim_start_matches(|c| is_space(c) || AFTER_DATE.contains(c));
    pen.gap(front(after, rest), if rest.is_empty() { "" } else { " " }, AFTER_DATE);
    while let Some(after) = day_or_time(pen, rest) {
        rest = after.trim_start_matches(|c| is_space(c) || c == ',');
        pen.gap(front(after, rest), if rest.is_empty() { "" } else { " " }, ",");
    }
    descriptors(pen, rest);
    Some(())
}

/// A weekday or a time; gives what stands behind it.
fn day_or_time<'a>(pen: &mut Pen<'a>, i: &'a str) -> Option<&'a str> {
    if let Ok((rest, _)) = weekday(i) {
        // `Thursday day` is a label.
        let label = keyword("day").parse(skip_gap(rest));
        if label.is_ok_and(|(after, _)| skip_gap(after).is_empty() || skip_gap(after).starts_with(',')) {
            return None;
        }
        day(pen, front(i, rest));
        return Some(rest);
    }
    time_of_day(i).ok().map(|(rest, _)| rest)
}

/// A weekday, with a capital and without its full stop.
fn day(pen: &mut Pen<'_>, word: &str) {
    let letters = word.trim_end_matches('.');
    if let Some((first, others)) = letters.split_at_checked(1) {
        pen.put(word, &(first.to_uppercase() + &others.to_lowercase()));
    }
}

/// Descriptors, with a comma and a blank between them. A comma between two digits is part of a title.
fn descriptors<'a>(pen: &mut Pen<'a>, text: &'a str) {
    let parts: Vec<&'a str> = text.split(',').map(|part| part.trim_matches(is_space)).collect();
    let mut last: Option<&'a str> = None;
    for part in parts.into_iter().filter(|part| !part.is_empty()) {
        if let Some(before) = last
            && let Some(gap) = pen.between(before, part)
        {
            let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
            let decimal = gap == "," && digit(before.chars().next_back()) && digit(part.chars().next());
            pen.gap(gap, if decimal { "," } else { ", " }, ",");
        }
        descriptor(pen, part);
        last = Some(part);
    }
    if let Some(rest) = last.and_then(|last| pen.behind(last, text)) {
        pen.gap(rest, "", ",");
    }
}

fn descriptor<'a>(pen: &mut Pen<'a>, part: &'a str) {
    if let Some(rest) = day_or_time(pen, part) {
        let next = skip_gap(rest);
        if !next.is_empty() {
            pen.gap(front(rest, next), " ", "");
            descriptor(pen, next);
        }
        return;
    }
    let lower = part.to_lowercase();
    if matches!(lower.as_str(), "deload" | "deload week" | "peak" | "peak week") {
        return pen.put(part, &lower);
    }
    let numbered = |word: &'static str| {
        let (rest, _) = keyword(word).parse(part).ok()?;
        matches!(whole(skip_gap(rest)), Ok(("", _))).then_some(rest)
    };
    if numbered("week").is_some() {
        worded(pen, part, "week");
    } else if meet_name(part).is_some() {
        worded(pen, part, "meet");
    } else if day_label(part).is_some() {
        label(pen, part);
    } else if keyword("block").parse(part).is_ok_and(|(rest, _)| rest.starts_with(is_space)) {
        worded(pen, part, "block");
    }
}

/// A keyword and what stands behind it.
fn worded<'a>(pen: &mut Pen<'a>, part: &'a str, word: &str) {
    let Some((written, rest)) = part.split_at_checked(word.len()) else { return };
    pen.put(written, word);
    let next = skip_gap(rest);
    if !next.is_empty() {
        pen.gap(front(rest, next), " ", "");
    }
}

/// `secondary day`, `day 2`: the word; what the day is called stays as it is.
fn label<'a>(pen: &mut Pen<'a>, part: &'a str) {
    match part.rsplit_once(is_space) {
        Some((name, word)) if word.eq_ignore_ascii_case("day") => {
            pen.put(word, "day");
            let name = name.trim_matches(is_space);
            if let Some(gap) = pen.between(name, word) {
                pen.gap(gap, " ", "");
            }
        }
        _ => worded(pen, part, "day"),
    }
}
