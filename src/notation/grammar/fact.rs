//! The values of facts, block keys, and details.

use super::chars::{gap, is_space, skip_gap};
use super::group::{Place, groups};
use super::heading::{date_meant, iso_date};
use super::keys::FactKey;
use super::load::load;
use super::number::{clock, mass_unit, number, whole};
use super::trouble::{Miss, Reading, Trouble, trouble_of};
use super::work::{body_of, costs_line, without_remark};
use crate::notation::nodes::{BlockKey, BlockKeyName, Detail, DetailKey, Fact, Number};
use crate::problems::ProblemKind as K;
use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::tag_no_case;
use nom::character::complete::char;
use nom::combinator::{all_consuming, opt};
use nom::multi::separated_list1;

/// A fact's value. A remark in parentheses at its end is dropped.
pub(crate) fn fact<'a>(key: FactKey, value: &'a str, troubles: &mut Vec<Trouble<'a>>) -> Option<Fact<'a>> {
    let text = without_remark(body_of(value));
    let (name, wanted, read) = match key {
        FactKey::Bodyweight => ("bodyweight", "a mass, such as 83.1 kg", all_consuming(bodyweight).parse(text)),
        FactKey::Sleep => (
            "sleep",
            "hours, such as 7 h or 7:30",
            all_consuming(minutes).parse(text).map(|(r, m)| (r, Fact::Sleep(m))),
        ),
        FactKey::Duration => (
            "duration",
            "minutes or hours, such as 75 min or 1:15",
            all_consuming(minutes).parse(text).map(|(r, m)| (r, Fact::Duration(m))),
        ),
        FactKey::SessionRpe => ("session RPE", "a number from 0 to 10", all_consuming(session_rpe).parse(text)),
        FactKey::Pain | FactKey::Note => {
            ("pain", "a place and a number out of ten, such as left knee 3/10", pain(text))
        }
    };
    match read {
        Ok((_, fact)) => Some(fact),
        Err(error) => {
            let comma = match trouble_of(error) {
                Some(Trouble { kind: K::DecimalComma { .. }, fix, .. }) => fix,
                _ => None,
            };
            let mut trouble =
                Trouble::new(K::UnreadFact { key: name, wanted }, if text.is_empty() { value } else { text });
            trouble.fix = comma;
            troubles.push(trouble);
            None
        }
    }
}

fn bodyweight(i: &str) -> Reading<'_, Fact<'_>> {
    let (rest, mass) = number(i)?;
    if let Some(decimals) = rest.strip_prefix(',') {
        let digits = decimals.bytes().take_while(u8::is_ascii_digit).count();
        if (1..=2).contains(&digits) {
            let length = i.len() - decimals.len() + digits;
            let piece = i.get(..length).unwrap_or(i);
            return Trouble::new(K::DecimalComma { read: piece.into() }, piece).fixed(piece.replace(',', ".")).fail();
        }
    }
    let (rest, unit) = opt(mass_unit).parse(rest)?;
    if mass.thousandths == 0 { super::trouble::no_fit(i) } else { Ok((rest, Fact::Bodyweight(mass, unit))) }
}

/// `7 h`, `7.5 h`, `1 h 15 min`, `75 min`, `7:30`: minutes.
fn minutes(i: &str) -> Reading<'_, u32> {
    let hour = || (gap, alt((tag_no_case("hours"), tag_no_case("hour"), tag_no_case("hrs"), tag_no_case("h"))));
    let minute = || (gap, alt((tag_no_case("minutes"), tag_no_case("mins"), tag_no_case("min"))));
    alt((
        clock,
        |i| {
            let (i, (hours, _)) = (number, hour()).parse(i)?;
            let (i, more) = opt((gap, whole, opt(minute()))).parse(i)?;
            let minutes = hours.thousandths * 60 / 1000 + more.map_or(0, |(_, minutes, _)| i64::from(minutes));
            Ok((i, u32::try_from(minutes).unwrap_or(0)))
        },
        |i| {
            let (i, (minutes, _)) = (whole, minute()).parse(i)?;
            Ok((i, minutes))
        },
    ))
    .parse(i)
}

fn session_rpe(i: &str) -> Reading<'_, Fact<'_>> {
    let (rest, rpe) = number(i)?;
    let (rest, _) = opt((gap, char('/'), gap, tag_no_case("10"))).parse(rest)?;
    if rpe.thousandths > 10_000 { super::trouble::no_fit(i) } else { Ok((rest, Fact::SessionRpe(rpe))) }
}

fn pain(text: &str) -> Reading<'_, Fact<'_>> {
    let miss = || super::trouble::no_fit(text);
    let Some((before, ten)) = text.rsplit_once('/') else { return miss() };
    if ten.trim_matches(is_space) != "10" {
        return miss();
    }
    let before = before.trim_end_matches(is_space);
    let start = before
        .rfind(|c: char| !(c.is_ascii_digit() || c == '.'))
        .map_or(0, |at| at + before.get(at..).and_then(|s| s.chars().next()).map_or(1, char::len_utf8));
    let site = before.get(..start).unwrap_or("").trim_matches(|c| is_space(c) || matches!(c, ':' | ','));
    match number(before.get(start..).unwrap_or("")) {
        Ok(("", out_of_ten @ Number { thousandths: 0..=10_000 })) if !site.is_empty() => {
            Ok(("", Fact::Pain(site, out_of_ten)))
        }
        _ => miss(),
    }
}

/// The value of a block's key.
pub(crate) fn block_key<'a>(
    key: BlockKeyName,
    value: &'a str,
    troubles: &mut Vec<Trouble<'a>>,
) -> Option<BlockKey<'a>> {
    let raw = value.trim_matches(is_space);
    let text = without_remark(body_of(value));
    let wanted = match key {
        BlockKeyName::Phase => return Some(BlockKey::Phase(raw)),
        BlockKeyName::Goal => return Some(BlockKey::Goal(raw)),
        BlockKeyName::Starts => {
            if let Ok(("", Some(date))) = iso_date(text) {
                return Some(BlockKey::Starts(date));
            }
            "a date as YYYY-MM-DD, such as 2026-03-02"
        }
        BlockKeyName::Weeks => {
            if let Ok(("", weeks @ 1..=520)) = whole(text) {
                return Some(BlockKey::Weeks(weeks));
            }
            "a number of weeks, such as 4"
        }
        BlockKeyName::Deload | BlockKeyName::Peak => {
            if let Ok((_, weeks)) = all_consuming(week_list).parse(text) {
                return Some(if key == BlockKeyName::Deload { BlockKey::Deload(weeks) } else { BlockKey::Peak(weeks) });
            }
            "a week, such as week 4, or week 4, week 8"
        }
        BlockKeyName::Max => {
            if let Some(max) = maximum(text) {
                return Some(max);
            }
            "a lift and its load, such as Back squat 200 kg"
        }
    };
    let piece = if text.is_empty() { value } else { text };
    let trouble = Trouble::new(K::UnreadBlockValue { key: super::keys::block_key_word(key), wanted }, piece);
    let date = if key == BlockKeyName::Starts { date_meant(text) } else { None };
    troubles.push(match date {
        Some(date) => trouble.fixed(date),
        None => trouble,
    });
    None
}

fn week_list(i: &str) -> Reading<'_, Vec<u32>> {
    let week = |i| {
        let (i, _) = (tag_no_case("week"), gap).parse(i)?;
        let (rest, week) = whole(i)?;
        if week == 0 { super::trouble::no_fit(i) } else { Ok((rest, week)) }
    };
    separated_list1((gap, char::<&str, Miss<'_>>(','), gap), week).parse(i)
}

/// `Back squat 200 kg`: the load is the shortest tail that reads as one and has a number in front.
fn maximum(text: &str) -> Option<BlockKey<'_>> {
    let starts = text.char_indices().filter(|(at, c)| {
        let fresh = text.get(..*at).is_some_and(|before| before.ends_with(|c| is_space(c) || c == ':'));
        fresh && !is_space(*c)
    });
    starts.map(|(at, _)| at).find_map(|at| {
        let name = text.get(..at)?.trim_end_matches(|c| is_space(c) || c == ':');
        let tail = text.get(at..)?;
        let tail = skip_gap(tail.strip_prefix('@').unwrap_or(tail));
        // A bar's name would swallow the lift's words, so a maximum begins with a number, bw, pin, or quote.
        let begins = tail.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '~' | '"' | '\u{201c}'))
            || ["bw", "pin"]
                .iter()
                .any(|word| tail.get(..word.len()).is_some_and(|head| head.eq_ignore_ascii_case(word)));
        if !begins {
            return None;
        }
        match load(tail) {
            Ok(("", load)) => Some(BlockKey::Max { lift: super::work::bare_name(name), load }),
            _ => None,
        }
    })
}

/// A detail's value.
pub(crate) fn detail<'a>(key: DetailKey, value: &'a str, troubles: &mut Vec<Trouble<'a>>) -> Detail<'a> {
    let known = troubles.len();
    let raw = skip_gap(value).trim_end_matches(is_space);
    let read = match key {
        DetailKey::Plan => groups(body_of(value), Place { plan: true, carried: false }, troubles),
        DetailKey::WarmUp => groups(body_of(value), Place { plan: false, carried: false }, troubles),
        _ => Vec::new(),
    };
    let lost = costs_line(troubles, known);
    Detail { key, text: raw, groups: if lost { Vec::new() } else { read }, lost }
}
