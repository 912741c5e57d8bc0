//! Numbers, units of mass, masses, and lengths of time.

use super::leaves::sign;
use super::lexer::{Kind, MOST_DIGITS, TOO_LONG};
use super::tokens::Tokens;
use super::trouble::{Reading, Trouble, no_fit};
use super::units::{Measure, measure};
use crate::notation::expected::Expected;
use crate::notation::nodes::{Load, Number, Term, TermKind};
use crate::problems::ProblemKind;
use crate::training::Unit;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;

/// A whole number of at most six digits.
pub(crate) fn whole<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, u32> {
    i.expect(Expected::Number);
    let first = i.first();
    match first.kind {
        Kind::Number if first.value == TOO_LONG => too_long(i).fail(),
        Kind::Number => Ok((i.skip(1), first.value / 1000)),
        _ => no_fit(i),
    }
}

/// A number with at most three decimals after a point.
pub(crate) fn number<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Number> {
    let first = i.first();
    match first.kind {
        Kind::Number | Kind::Decimal if first.value == TOO_LONG => too_long(i).fail(),
        Kind::Number | Kind::Decimal => Ok((i.skip(1), Number { thousandths: i64::from(first.value) })),
        _ => no_fit(i),
    }
}

fn too_long<'a>(i: Tokens<'_, 'a>) -> Trouble<'a> {
    let text = i.word();
    let piece = match text.split_once('.') {
        Some((digits, _)) if digits.len() > MOST_DIGITS => digits,
        _ => text,
    };
    Trouble::new(ProblemKind::NumberTooLong { read: piece.into() }, piece)
}

/// `kg` or `lb` and their plurals, in any case.
pub(crate) fn mass_unit<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Unit> {
    i.expect(Expected::Unit);
    let units: &[_] = match i.first().first {
        b'k' => &[("kg", Unit::Kg), ("kgs", Unit::Kg), ("kilos", Unit::Kg), ("kilo", Unit::Kg)],
        b'l' => &[("lb", Unit::Lb), ("lbs", Unit::Lb)],
        b'p' => &[("pounds", Unit::Lb), ("pound", Unit::Lb)],
        _ => return no_fit(i),
    };
    i.one_of(units).map_or_else(|| no_fit(i), |unit| Ok((i.skip(1), unit)))
}

/// A mass with its unit: `60 kg`, `~60 kg`.
pub(crate) fn mass<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Load<'a>> {
    let approximate = i.is(b'~');
    let start = if approximate { i.skip(1) } else { i };
    if approximate && !start.glued() {
        return no_fit(i);
    }
    let (rest, (mass, unit)) = (number, mass_unit).parse(start)?;
    let first = Term { text: start.upto(rest), kind: TermKind::Mass(1, mass, Some(unit)), per_side: false };
    Ok((rest, Load { text: i.upto(rest), approximate, first, more: Vec::new() }))
}

/// `/side`
pub(crate) fn per_side<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, bool> {
    i.expect(Expected::Side);
    let next = i.skip(1);
    if i.is(b'/') && next.is_word("side") { Ok((next.skip(1), true)) } else { no_fit(i) }
}

/// Whether `/side` stands here, and what follows it.
pub(crate) fn side<'t, 'a>(i: Tokens<'t, 'a>) -> (Tokens<'t, 'a>, bool) {
    per_side(i).unwrap_or((i, false))
}

/// A length of time in seconds: `3:00`, `90s`, `2 min`.
pub(crate) fn seconds<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, u32> {
    i.expect(Expected::Duration);
    let counted = (whole, time_unit).map(|(number, unit)| number.saturating_mul(unit));
    alt((clock, counted)).parse(i)
}

/// `1:30` as minutes and seconds (or hours and minutes): the total in the smaller unit.
pub(crate) fn clock<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, u32> {
    let (colon, digits) = (i.nth(1), i.nth(2));
    if i.kind() != Kind::Number || colon.first != b':' || !colon.glued {
        return no_fit(i);
    }
    let (_, minutes) = whole(i)?;
    let small = digits.kind == Kind::Number && digits.glued && digits.end - digits.start == 2 && digits.value < 60_000;
    if small { Ok((i.skip(3), minutes.saturating_mul(60) + digits.value / 1000)) } else { no_fit(i) }
}

/// How many seconds one `s` or `min` is.
pub(crate) fn time_unit<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, u32> {
    i.expect(Expected::Measure);
    match measure(i) {
        Some(Measure::Second) => Ok((i.skip(1), 1)),
        Some(Measure::Minute) => Ok((i.skip(1), 60)),
        _ => no_fit(i),
    }
}

/// The second number of a range: a dash with no white space round it, and a number.
pub(crate) fn range_end<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Number> {
    if is_range(i) { number(i.skip(1)) } else { no_fit(i) }
}

/// A dash glued to what stands before it and to a number: a range, not a difference.
pub(crate) fn is_range(i: Tokens<'_, '_>) -> bool {
    i.kind() == Kind::Dash && i.glued() && i.skip(1).glued() && i.skip(1).is_number()
}

/// `/10`, which may be left off.
pub(crate) fn out_of_ten<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, bool> {
    let ten = |i: Tokens<'t, 'a>| if i.word() == "10" { Ok((i.skip(1), ())) } else { no_fit(i) };
    opt((sign(b'/'), ten)).map(|ten| ten.is_some()).parse(i)
}
