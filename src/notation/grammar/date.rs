//! Dates, weekdays and times of day; and what is meant as a date but not written as one.

use super::lexer::{Kind, is_space};
use super::number::whole;
use super::tokens::{Tokens, lexed};
use super::trouble::{Reading, no_fit};
use crate::notation::expected::Expected;
use crate::notation::nodes::Date;
use chrono::{NaiveDate, Weekday};

/// An English weekday, whole or as three letters.
pub(crate) fn weekday<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Weekday> {
    i.expect(Expected::Weekday);
    let word = i.word();
    if i.kind() != Kind::Word || !word.is_ascii() || word.len() < 3 {
        return no_fit(i);
    }
    let rest = i.skip(1);
    let dotted = rest.glued() && rest.is(b'.');
    word.parse().map_or_else(|_| no_fit(i), |day| Ok((rest.skip(u32::from(dotted)), day)))
}

/// `18:30` as minutes after midnight.
pub(crate) fn time_of_day<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, u16> {
    i.expect(Expected::Time);
    let (hours, colon, minutes, rest) = (i.first(), i.nth(1), i.nth(2), i.skip(3));
    let digits = |n: u32, kind| kind == Kind::Number && n <= 2;
    let good = digits(hours.end - hours.start, hours.kind)
        && colon.first == b':'
        && colon.glued
        && digits(minutes.end - minutes.start, minutes.kind)
        && minutes.end - minutes.start == 2
        && minutes.glued
        && hours.value < 24_000
        && minutes.value < 60_000;
    let runs_on = rest.glued() && rest.first_char().is_some_and(|c| c.is_alphanumeric() || c == ':');
    if !good || runs_on {
        return no_fit(i);
    }
    Ok((rest, u16::try_from(hours.value / 1000 * 60 + minutes.value / 1000).unwrap_or(0)))
}

/// YYYY-MM-DD, and the date where it is a real one.
pub(crate) fn iso_date<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Option<Date>> {
    let digits = |n: u32, length| {
        let token = i.nth(n);
        (token.kind == Kind::Number && token.end - token.start == length && (n == 0 || token.glued)).then_some(token)
    };
    let dash = |n| i.nth(n).kind == Kind::Dash && i.nth(n).glued;
    let (Some(year), Some(month), Some(day), true, true) = (digits(0, 4), digits(2, 2), digits(4, 2), dash(1), dash(3))
    else {
        i.expect_begun(Expected::Date, |kind| matches!(kind, Kind::Number | Kind::Dash));
        return no_fit(i);
    };
    Ok((i.skip(5), NaiveDate::from_ymd_opt((year.value / 1000) as i32, month.value / 1000, day.value / 1000)))
}

/// The date that a text stands for in another spelling, where only one can be meant.
pub(crate) fn date_meant(text: &str) -> Option<String> {
    let (piece, date) = like_a_date(text)?;
    (piece.len() == text.len()).then_some(date?.format("%Y-%m-%d").to_string())
}

/// A piece that is meant as a date but not written as one, and the date where only one can be meant.
pub(crate) fn like_a_date(text: &str) -> Option<(&str, Option<Date>)> {
    let (length, offer) = numeric_date(text).or_else(|| solid_date(text)).or_else(|| lexed(text, worded_date))?;
    let rest = text.get(length..)?;
    let end = rest.find(|c| is_space(c) || c == ',').unwrap_or(rest.len());
    let glued = rest.get(..end)?.trim_end_matches([':', '.', ';']);
    Some((text.get(..length + glued.len())?, offer.filter(|_| glued.is_empty())))
}

/// How many bytes at a text's head are digits.
fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

/// Three numbers with dashes, points, or strokes between, one of them a year.
fn numeric_date(text: &str) -> Option<(usize, Option<Date>)> {
    let (one, rest) = text.split_at_checked(digits(text))?;
    let (two, last) = rest.get(1..).and_then(|rest| rest.split_at_checked(digits(rest)))?;
    let three = last.get(1..).and_then(|rest| rest.get(..digits(rest)))?;
    let separator = |text: &str| text.chars().next().filter(|c| matches!(c, '-' | '.' | '/'));
    let (first, second) = (separator(rest)?, separator(last)?);
    if one.is_empty() || two.is_empty() || three.is_empty() {
        return None;
    }
    let length = one.len() + two.len() + three.len() + 2;
    let short = |text: &str| text.len() <= 2;
    let build = |year: &str, month: &str, day: &str| {
        NaiveDate::from_ymd_opt(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
    };
    if one.len() == 4 && short(two) && short(three) {
        return Some((length, build(one, two, three)));
    }
    let year_last = three.len() == 4 || (three.len() == 2 && first == second && first != '-');
    if !(year_last && short(one) && short(two)) {
        return None;
    }
    let long = if three.len() == 2 { format!("20{three}") } else { three.to_owned() };
    let (by_day, by_month) = (build(&long, two, one), build(&long, one, two));
    let offer = match (by_day, by_month) {
        // With points the day stands first wherever points are used; strokes are read both ways.
        (Some(date), _) if first == '.' => Some(date),
        (Some(date), None) | (None, Some(date)) => Some(date),
        (Some(date), Some(other)) if date == other => Some(date),
        _ => None,
    };
    let none = by_day.is_none() && by_month.is_none() && three.len() == 2;
    (!none).then_some((length, offer))
}

/// `20260305`
fn solid_date(text: &str) -> Option<(usize, Option<Date>)> {
    let digits = text.get(..digits(text)).filter(|digits| digits.len() == 8)?;
    Some((8, Some(NaiveDate::parse_from_str(digits, "%Y%m%d").ok()?)))
}

/// `5 March 2026` and `March 5, 2026`
fn worded_date(i: Tokens<'_, '_>) -> Option<(usize, Option<Date>)> {
    let build = |(rest, year): (Tokens<'_, '_>, Option<i32>), month, day| {
        (i.upto(rest).len(), year.and_then(|year| NaiveDate::from_ymd_opt(year, month, day)))
    };
    if let Some((rest, number)) = day(i) {
        let (rest, month) = month(rest)?;
        return Some(build(year(rest)?, month, number));
    }
    let (rest, month) = month(i)?;
    let (rest, number) = day(rest)?;
    Some(build(year(if rest.kind() == Kind::Comma { rest.skip(1) } else { rest })?, month, number))
}

fn day<'t, 'a>(i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, u32)> {
    let (rest, day) = whole(i).ok()?;
    let ordinal = rest.glued() && (rest.is(b'.') || ["st", "nd", "rd", "th"].iter().any(|word| rest.is_word(word)));
    Some((rest.skip(u32::from(ordinal)), day))
}

/// Four digits; more of them are meant as a year, too, but nobody knows which.
fn year<'t, 'a>(i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, Option<i32>)> {
    let year = i.word().parse().ok().filter(|_| i.word().len() == 4);
    (i.is_number() && i.word().len() >= 4).then(|| (i.skip(1), year))
}

fn month<'t, 'a>(i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, u32)> {
    let long = [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ];
    let at = long.iter().position(|month| i.is_word(month) || month.get(..3).is_some_and(|short| i.is_word(short)))?;
    let rest = i.skip(1);
    let dotted = rest.glued() && rest.is(b'.');
    Some((rest.skip(u32::from(dotted)), at as u32 + 1))
}
