//! Headings of blocks and sessions. What a title says stays; only the words that the notation knows are spelled.

use super::pen::{Pen, is_gap};
use super::spelling::solid;
use crate::notation::grammar::date::{iso_date, time_of_day, weekday};
use crate::notation::grammar::heading::{
    behind_date, day_label, heading, meet_name, numbered, skip_commas, weekday_before,
};
use crate::notation::grammar::lexer::Kind;
use crate::notation::grammar::tokens::{Tokens, lexed};

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

/// `## Thu 2026-03-05 18:30 technique day, felt fresh`
pub(super) fn session<'a>(pen: &mut Pen<'a>, line: &'a str) -> Option<()> {
    let text = text(pen, line)?;
    lexed(text, |i| {
        let mut rest = i;
        if let Ok((after, _)) = weekday(i) {
            day(pen, i.upto(after));
            rest = skip_commas(after);
            pen.gap(after.gap_to(rest), " ", ",");
        }
        let (after, _) = iso_date(rest).ok()?;
        let date = rest.upto(after);
        pen.put(date, &solid(date));
        rest = behind_date(after);
        pen.gap(after.gap_to(rest), if rest.is_empty() { "" } else { " " }, AFTER_DATE);
        while let Some(after) = day_or_time(pen, rest) {
            rest = skip_commas(after);
            pen.gap(after.gap_to(rest), if rest.is_empty() { "" } else { " " }, ",");
        }
        descriptors(pen, rest);
        Some(())
    })
}

/// A weekday or a time; gives what stands behind it.
fn day_or_time<'t, 'a>(pen: &mut Pen<'a>, i: Tokens<'t, 'a>) -> Option<Tokens<'t, 'a>> {
    if let Some((rest, _)) = weekday_before(i) {
        day(pen, i.upto(rest));
        return Some(rest);
    }
    if weekday(i).is_ok() { None } else { time_of_day(i).ok().map(|(rest, _)| rest) }
}

/// A weekday, with a capital and without its full stop.
fn day(pen: &mut Pen<'_>, word: &str) {
    let letters = word.trim_end_matches('.');
    if let Some((first, others)) = letters.split_at_checked(1) {
        pen.put(word, &(first.to_uppercase() + &others.to_lowercase()));
    }
}

/// Descriptors, with a comma and a blank between them. A comma between two digits is part of a title.
fn descriptors<'a>(pen: &mut Pen<'a>, i: Tokens<'_, 'a>) {
    let mut rest = skip_commas(i);
    while !rest.is_empty() {
        let mut end = rest;
        while !end.is_empty() && end.kind() != Kind::Comma {
            end = end.skip(1);
        }
        descriptor(pen, rest.until(end));
        rest = skip_commas(end);
        let decimal = end.lists() && end.before().is_some_and(|before| before.kind == Kind::Number);
        let comma = match rest.is_empty() {
            true => "",
            false if decimal => ",",
            false => ", ",
        };
        pen.gap(end.gap_to(rest), comma, ",");
    }
}

fn descriptor<'a>(pen: &mut Pen<'a>, part: Tokens<'_, 'a>) {
    if let Some(rest) = day_or_time(pen, part) {
        if !rest.is_empty() {
            pen.gap(rest.gap(), " ", "");
            descriptor(pen, rest);
        }
        return;
    }
    let lower = part.text().to_lowercase();
    if matches!(lower.as_str(), "deload" | "deload week" | "peak" | "peak week") {
        return pen.put(part.text(), &lower);
    }
    if numbered(part, &["week"]).is_some() {
        worded(pen, part, "week");
    } else if meet_name(part).is_some() {
        worded(pen, part, "meet");
    } else if day_label(part).is_some() {
        label(pen, part);
    } else if part.is_word("block") && !part.skip(1).glued() {
        worded(pen, part, "block");
    }
}

/// A keyword and what stands behind it.
fn worded<'a>(pen: &mut Pen<'a>, part: Tokens<'_, 'a>, word: &str) {
    pen.put(part.word(), word);
    if part.len() > 1 {
        pen.gap(part.skip(1).gap(), " ", "");
    }
}

/// `technique day`, `day 2`: the word; what the day is called stays as it is.
fn label<'a>(pen: &mut Pen<'a>, part: Tokens<'_, 'a>) {
    let last = part.skip(part.len() as u32 - 1);
    if !last.is_word("day") || part.len() == 1 {
        return worded(pen, part, "day");
    }
    pen.put(last.word(), "day");
    pen.gap(last.gap(), " ", "");
}
