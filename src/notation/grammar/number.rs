//! Numbers, units of mass, and lengths of time.

use super::chars::{front, is_dash, keyword, skip_gap};
use super::trouble::{Reading, Trouble, no_fit};
use crate::notation::nodes::Number;
use crate::problems::ProblemKind;
use crate::training::Unit;
use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::take_while1;
use nom::character::complete::{char, digit1};
use nom::combinator::{opt, value};
use nom::sequence::preceded;

/// Digits in front of the point that are read; more cannot be meant.
const MOST_DIGITS: usize = 6;

/// A whole number of at most six digits.
pub(crate) fn whole(i: &str) -> Reading<'_, u32> {
    let (mut number, mut length) = (0u32, 0);
    for digit in i.bytes().take_while(u8::is_ascii_digit) {
        number = number.wrapping_mul(10).wrapping_add(u32::from(digit - b'0'));
        length += 1;
    }
    let Some((digits, rest)) = i.split_at_checked(length).filter(|_| length > 0) else { return no_fit(i) };
    if length > MOST_DIGITS {
        return Trouble::new(ProblemKind::NumberTooLong { read: digits.into() }, digits).fail();
    }
    Ok((rest, number))
}

/// A number with at most three decimals after a point.
pub(crate) fn number(i: &str) -> Reading<'_, Number> {
    let (rest, units) = whole(i)?;
    let mut thousandths = i64::from(units) * 1000;
    if !rest.starts_with('.') {
        return Ok((rest, Number { thousandths }));
    }
    let (rest, decimals) = opt(preceded(char('.'), digit1)).parse(rest)?;
    if let Some(decimals) = decimals {
        if decimals.len() > 3 {
            let piece = front(i, rest);
            return Trouble::new(ProblemKind::NumberTooLong { read: piece.into() }, piece).fail();
        }
        let mut place = 100;
        for digit in decimals.bytes() {
            thousandths += i64::from(digit - b'0') * place;
            place /= 10;
        }
    }
    Ok((rest, Number { thousandths }))
}

/// Whether a text begins with one of these small letters, or with the capital of one. Units are asked for behind every
/// number of every line, and nearly none is there: the first letter tells.
pub(crate) fn begins(i: &str, letters: &[u8]) -> bool {
    i.as_bytes().first().is_some_and(|first| letters.contains(&first.to_ascii_lowercase()))
}

/// `kg` or `lb` and their plurals, in any case, white space before it allowed.
pub(crate) fn mass_unit(i: &str) -> Reading<'_, Unit> {
    let i = skip_gap(i);
    if !begins(i, b"klp") {
        return no_fit(i);
    }
    // Nearly every unit there is, read without detours.
    for (word, unit) in [("kg", Unit::Kg), ("lb", Unit::Lb)] {
        if let Some(rest) = i.strip_prefix(word)
            && rest.as_bytes().first().is_none_or(|b| matches!(b, b' ' | b','))
            && !skip_gap(rest).starts_with(['x', 'X', '×'])
        {
            return Ok((rest, unit));
        }
    }
    // `60kgx5`: the unit ends where the sign before a number begins.
    for (word, unit) in [("kgs", Unit::Kg), ("kg", Unit::Kg), ("lbs", Unit::Lb), ("lb", Unit::Lb)] {
        if let Some((read, rest)) = i.split_at_checked(word.len())
            && read.eq_ignore_ascii_case(word)
            && super::chars::times(rest).is_ok()
        {
            return Ok((rest, unit));
        }
    }
    alt((
        value(Unit::Kg, alt((keyword("kg"), keyword("kgs"), keyword("kilos"), keyword("kilo")))),
        value(Unit::Lb, alt((keyword("lb"), keyword("lbs"), keyword("pounds"), keyword("pound")))),
    ))
    .parse(i)
}

/// A length of time in seconds: `3:00`, `90s`, `2 min`.
pub(crate) fn seconds(i: &str) -> Reading<'_, u32> {
    alt((clock, |i| {
        let (i, number) = whole(i)?;
        let (i, unit) = time_unit(i)?;
        Ok((i, number.saturating_mul(unit)))
    }))
    .parse(i)
}

/// `1:30` as minutes and seconds (or hours and minutes): the total in the smaller unit.
pub(crate) fn clock(i: &str) -> Reading<'_, u32> {
    let digits = i.bytes().take_while(u8::is_ascii_digit).count();
    if i.as_bytes().get(digits) != Some(&b':') {
        return no_fit(i);
    }
    let (rest, minutes) = whole(i)?;
    let (rest, _) = char(':').parse(rest)?;
    let (rest, digits) = take_while1(|c: char| c.is_ascii_digit()).parse(rest)?;
    match digits.parse::<u32>() {
        Ok(seconds) if digits.len() == 2 && seconds < 60 => Ok((rest, minutes.saturating_mul(60) + seconds)),
        _ => no_fit(i),
    }
}

/// How many seconds one `s` or `min` is.
pub(crate) fn time_unit(i: &str) -> Reading<'_, u32> {
    let i = skip_gap(i);
    if !begins(i, b"ms") {
        return no_fit(i);
    }
    alt((
        value(60, alt((keyword("min"), keyword("mins"), keyword("minute"), keyword("minutes")))),
        value(1, alt((keyword("s"), keyword("sec"), keyword("secs"), keyword("second"), keyword("seconds")))),
    ))
    .parse(i)
}

/// The second number of a range: a dash with no white space before a digit.
pub(crate) fn range_end(i: &str) -> Reading<'_, Number> {
    let after = match i.chars().next() {
        Some(c) if is_dash(c) => i.get(c.len_utf8()..).unwrap_or(""),
        _ => return no_fit(i),
    };
    number(after)
}
