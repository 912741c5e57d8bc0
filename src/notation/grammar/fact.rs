//! The values of facts, block keys, and details.

use super::date::{date_meant, iso_date};
use super::group::{Place, groups};
use super::keys::{FactKey, bare_name};
use super::leaves::{kind, word};
use super::lexer::{Kind, is_space, skip_gap, trim, trim_end};
use super::load::load;
use super::number::{clock, mass_unit, number, out_of_ten, whole};
use super::tokens::Tokens;
use super::trouble::{Reading, Trouble, no_fit, trouble_of};
use super::units::{Measure, measure};
use super::work::{body, costs_line, sets_of, without_remark};
use crate::notation::expected::Expected;
use crate::notation::nodes::{BlockKey, BlockKeyName, Detail, DetailKey, Fact, Written};
use crate::problems::ProblemKind as K;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{all_consuming, map_opt, opt, verify};
use nom::multi::separated_list1;
use nom::sequence::{preceded, terminated};

/// A value without its remark, and the piece that is at fault where it cannot be read.
fn value<'t, 'a>(i: Tokens<'t, 'a>) -> (Tokens<'t, 'a>, &'a str) {
    let inner = without_remark(body(i));
    (inner, if inner.is_empty() { i.line() } else { inner.text() })
}

/// A fact's value. A remark in parentheses at its end is dropped.
pub(crate) fn fact<'a>(
    key: FactKey,
    i: Tokens<'_, 'a>,
    troubles: &mut Vec<Trouble<'a>>,
) -> Option<Written<'a, Fact<'a>>> {
    let (i, piece) = value(i);
    let (name, wanted, read) = match key {
        FactKey::Bodyweight => ("bodyweight", "a mass, such as 83.1 kg", all_consuming(bodyweight).parse(i)),
        FactKey::Sleep => ("sleep", "hours, such as 7 h or 7:30", all_consuming(minutes.map(Fact::Sleep)).parse(i)),
        FactKey::Duration => {
            let read = all_consuming(minutes.map(Fact::Duration)).parse(i);
            ("duration", "minutes or hours, such as 75 min or 1:15", read)
        }
        FactKey::SessionRpe => ("session RPE", "a number from 0 to 10", all_consuming(session_rpe).parse(i)),
        FactKey::Gym => ("gym", "the name of a gym under `gyms:`, such as city gym", gym(i)),
        FactKey::Pain | FactKey::Note => ("pain", "a place and a number out of ten, such as left knee 3/10", pain(i)),
    };
    match read {
        Ok((_, value)) => Some(Written { text: i.text(), value }),
        Err(error) => {
            let mut trouble = Trouble::new(K::UnreadFact { key: name, wanted }, piece);
            trouble.fix = match trouble_of(error) {
                Some(Trouble { kind: K::DecimalComma { .. }, fix, .. }) => fix,
                _ => None,
            };
            troubles.push(trouble);
            None
        }
    }
}

fn bodyweight<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Fact<'a>> {
    i.expect(Expected::Load);
    let (rest, mass) = number(i)?;
    if rest.lists() && rest.skip(1).word().len() <= 2 {
        let piece = i.upto(rest.skip(2));
        return Trouble::new(K::DecimalComma { read: piece.into() }, piece).fixed(piece.replace(',', ".")).fail();
    }
    let (rest, unit) = opt(mass_unit).parse(rest)?;
    if mass.thousandths == 0 { no_fit(i) } else { Ok((rest, Fact::Bodyweight(mass, unit))) }
}

/// `7 h`, `7.5 h`, `1 h 15 min`, `75 min`, `7:30`: minutes.
fn minutes<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, u32> {
    i.expect(Expected::Duration);
    if i.is_number() {
        i.skip(1).expect(Expected::Measure);
    }
    let of = |unit| move |i: Tokens<'t, 'a>| if measure(i) == Some(unit) { Ok((i.skip(1), ())) } else { no_fit(i) };
    let (hour, minute) = (|| of(Measure::Hour), || of(Measure::Minute));
    let hours = (terminated(number, hour()), opt(terminated(whole, opt(minute())))).map(|(hours, more)| {
        let minutes = hours.thousandths * 60 / 1000 + more.map_or(0, i64::from);
        u32::try_from(minutes).unwrap_or(0)
    });
    alt((clock, hours, terminated(whole, minute()))).parse(i)
}

fn session_rpe<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Fact<'a>> {
    i.expect(Expected::Rating);
    let (rest, (rpe, _)) = (number, out_of_ten).parse(i)?;
    if rpe.thousandths > 10_000 { no_fit(i) } else { Ok((rest, Fact::SessionRpe(rpe))) }
}

/// `left knee 3/10`
fn pain<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Fact<'a>> {
    i.expect(Expected::Pain);
    let rating = i.skip((i.len() as u32).saturating_sub(3));
    let site = i.until(rating).text().trim_matches(|c| is_space(c) || matches!(c, ':' | ','));
    match (number, out_of_ten).parse(rating) {
        Ok((rest, (out_of, true)))
            if rest.is_empty() && out_of.thousandths <= 10_000 && !site.is_empty() && !site.contains("/10") =>
        {
            Ok((rest, Fact::Pain(site, out_of)))
        }
        _ => no_fit(i),
    }
}

/// A gym's name, whatever it is made of.
fn gym<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Fact<'a>> {
    let name = trim(i.text());
    if name.is_empty() { no_fit(i) } else { Ok((i.skip(i.len() as u32), Fact::Gym(name))) }
}

/// The value of a block's key.
pub(crate) fn block_key<'a>(
    key: BlockKeyName,
    i: Tokens<'_, 'a>,
    troubles: &mut Vec<Trouble<'a>>,
) -> Option<Written<'a, BlockKey<'a>>> {
    let raw = trim(i.line());
    if matches!(key, BlockKeyName::Deload | BlockKeyName::Peak) {
        i.skip(i.len() as u32).expect(Expected::Week);
    }
    let (i, piece) = value(i);
    let written = |value| Some(Written { text: i.text(), value });
    let wanted = match key {
        BlockKeyName::Phase | BlockKeyName::Goal => {
            i.expect(Expected::Text);
            let value = if key == BlockKeyName::Phase { BlockKey::Phase(raw) } else { BlockKey::Goal(raw) };
            return Some(Written { text: raw, value });
        }
        BlockKeyName::Starts => {
            if let Ok((_, date)) = all_consuming(map_opt(iso_date, |date| date)).parse(i) {
                return written(BlockKey::Starts(date));
            }
            "a date as YYYY-MM-DD, such as 2026-03-02"
        }
        BlockKeyName::Weeks => {
            if let Ok((_, weeks @ 1..=520)) = all_consuming(whole).parse(i) {
                return written(BlockKey::Weeks(weeks));
            }
            "a number of weeks, such as 4"
        }
        BlockKeyName::Deload | BlockKeyName::Peak => {
            if let Ok((_, weeks)) = all_consuming(separated_list1(kind(Kind::Comma), week)).parse(i) {
                let is_deload = key == BlockKeyName::Deload;
                return written(if is_deload { BlockKey::Deload(weeks) } else { BlockKey::Peak(weeks) });
            }
            "a week, such as week 4, or week 4, week 8"
        }
        BlockKeyName::Max => {
            if let Some(max) = maximum(i) {
                return written(max);
            }
            "a lift and its load, such as Back squat 200 kg"
        }
    };
    let trouble = Trouble::new(K::UnreadBlockValue { key: key.word(), wanted }, piece);
    let date = if key == BlockKeyName::Starts { date_meant(i.text()) } else { None };
    troubles.push(match date {
        Some(date) => trouble.fixed(date),
        None => trouble,
    });
    None
}

/// `week 4`
fn week<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Written<'a, u32>> {
    let (rest, value) = preceded(word(&["week"]), verify(whole, |week| *week > 0)).parse(i)?;
    Ok((rest, Written { text: i.upto(rest), value }))
}

/// More tokens before its load are no lift's name.
const LONGEST_NAME: u32 = 32;

/// `Back squat 200 kg`: the load is the shortest tail that reads as one and has a number in front.
fn maximum<'a>(i: Tokens<'_, 'a>) -> Option<BlockKey<'a>> {
    i.expect(Expected::Lift);
    (1..=LONGEST_NAME.min(i.len() as u32)).map(|at| i.skip(at)).find_map(|tail| {
        let fresh = !tail.glued() || tail.before().is_some_and(|before| before.first == b':');
        let name = i.until(tail).text().trim_end_matches(|c| is_space(c) || c == ':');
        let tail = if tail.kind() == Kind::At { tail.skip(1) } else { tail };
        // A bar's name would swallow the lift's words, so a maximum begins with a number, bw, pin, or quote.
        let quoted = matches!(tail.first_char(), Some('~' | '"' | '\u{201c}'));
        if !fresh || !(tail.is_number() || quoted || tail.is_word("bw") || tail.is_word("pin") || tail.is_empty()) {
            return None;
        }
        match load(tail) {
            Ok((rest, load)) if rest.is_empty() => Some(BlockKey::Max { lift: bare_name(name), load }),
            _ => None,
        }
    })
}

/// The value of a detail that holds sets.
pub(crate) fn planned<'a>(key: DetailKey, i: Tokens<'_, 'a>, troubles: &mut Vec<Trouble<'a>>) -> Detail<'a> {
    let known = troubles.len();
    let groups = groups(sets_of(i), Place { plan: key == DetailKey::Plan, carried: false }, troubles);
    let lost = costs_line(troubles, known);
    Detail { groups: if lost { Vec::new() } else { groups }, lost, ..free(key, i.line()) }
}

/// The value of a detail that is free text.
pub(crate) fn free(key: DetailKey, value: &str) -> Detail<'_> {
    Detail { key, text: trim_end(skip_gap(value)), groups: Vec::new(), lost: false }
}
