//! Counts: `3x8`, `8,8,7`, `12+4+4`, `3x20s`, `4x40m`, `3x10/side`, and a load joined to one by `x`.
//!
//! What stands at the head of a group is read as a chain of factors joined by `x`, and then told apart:
//! `3x8` is sets and reps, `5 x 60 kg` and `60 kg x 5` are reps and a load, `3x5x60` leaves open which is
//! which. Reading the whole chain first is what lets every wrong order be named and its right one offered.

use super::chars::{dash, front, gap, keyword, skip_gap, times};
use super::load::mass_factor;
use super::number::{begins, clock, mass_unit, number, range_end, time_unit, whole};
use super::trouble::{Miss, Reading, Trouble, no_fit};
use crate::notation::nodes::{Amount, Count, DistanceUnit, Load, Number, Sets};
use crate::problems::ProblemKind as K;
use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::tag_no_case;
use nom::character::complete::{char, digit1, satisfy};
use nom::combinator::{opt, peek, value};
use nom::sequence::preceded;

/// More sets than this in one count are a load in the wrong place.
pub(crate) const MOST_SETS: u32 = 20;

/// What stands at the head of a group.
#[derive(Debug)]
pub(crate) enum Head<'a> {
    /// A count, and a load where one is joined to it by `x`.
    Count(Count<'a>, Option<Load<'a>>),
    /// A mass, and no count yet.
    Mass(Load<'a>),
}

/// One factor of the chain.
#[derive(Debug)]
struct Factor<'a> {
    text: &'a str,
    kind: FactorKind<'a>,
}

#[derive(Debug)]
enum FactorKind<'a> {
    Amounts {
        amounts: Vec<Amount>,
        per_side: bool,
    },
    /// A bare number with a decimal point.
    Decimal,
    Mass(Load<'a>),
}

/// Reads the head of a group.
pub(crate) fn head(i: &str) -> Reading<'_, Head<'_>> {
    if let Some((rest, count)) = plain(i) {
        return Ok((rest, Head::Count(count, None)));
    }
    let (mut rest, first) = factor(i)?;
    let mut chain = Vec::new();
    let mut last = first;
    while let Ok((after, ())) = times(rest) {
        let (after, next) = factor(after)?;
        chain.push(std::mem::replace(&mut last, next));
        rest = after;
    }
    let text = front(i, rest);
    match last.kind {
        FactorKind::Amounts { .. } if chain.is_empty() => {
            count_of(last, None, text, rest).map(|(rest, count)| (rest, Head::Count(count, None)))
        }
        _ => {
            chain.push(last);
            sorted_out(chain, text, rest)
        }
    }
}

/// `3x8` and `8` before a blank, a comma or the end: nearly every count there is, read without detours.
fn plain(i: &str) -> Option<(&str, Count<'_>)> {
    let bytes = i.as_bytes();
    let (first, at) = digits(bytes, 0)?;
    let (low, each, end) = match bytes.get(at) {
        Some(b'x') => {
            let (reps, end) = digits(bytes, at + 1)?;
            (first, reps, end)
        }
        Some(b' ' | b',') | None => (1, first, at),
        _ => return None,
    };
    let ended = match bytes.get(end) {
        None => true,
        Some(b',') => !bytes.get(end + 1).is_some_and(u8::is_ascii_digit),
        Some(b' ') => match bytes.get(end + 1) {
            Some(b'@' | b'R' | b'(' | b'!') => true,
            Some(_) => false,
            None => true,
        },
        _ => false,
    };
    if !ended || low == 0 || low > MOST_SETS {
        return None;
    }
    let each = Amount::Reps { low: each, high: each };
    let count = Count { text: i.get(..end)?, sets: Sets::Times { low, high: low, each }, per_side: false };
    Some((i.get(end..)?, count))
}

/// Up to three digits.
fn digits(bytes: &[u8], from: usize) -> Option<(u32, usize)> {
    let mut value = 0;
    let mut at = from;
    while let Some(digit) = bytes.get(at).filter(|b| b.is_ascii_digit()) {
        value = value * 10 + u32::from(digit - b'0');
        at += 1;
        if at - from > 3 {
            return None;
        }
    }
    (at > from).then_some((value, at))
}

/// Tells the factors of a chain apart.
fn sorted_out<'a>(mut chain: Vec<Factor<'a>>, text: &'a str, rest: &'a str) -> Reading<'a, Head<'a>> {
    use FactorKind::{Decimal, Mass};
    let masses = chain.iter().filter(|factor| matches!(factor.kind, Mass(_))).count();
    if masses == 0 && chain.len() == 3 && chain.iter().all(|f| bare(f).is_some() || matches!(f.kind, Decimal)) {
        return three_numbers(&chain, text).fail();
    }
    if let Some(decimal) = chain.iter().find(|factor| matches!(factor.kind, Decimal)) {
        return Trouble::new(K::DecimalCount { read: decimal.text.into() }, decimal.text).fail();
    }
    if masses == 0 && chain.len() > 2 && chain.iter().any(is_list) {
        return mixed(text).fail();
    }
    let at_end = chain.len() > 1 && chain.last().is_some_and(|factor| matches!(factor.kind, Mass(_)));
    match (masses, chain.len()) {
        (0, 1 | 2) => chained(chain, text, rest).map(|(rest, count)| (rest, Head::Count(count, None))),
        (1, 1) => match chain.pop().map(|factor| factor.kind) {
            Some(Mass(load)) => Ok((rest, Head::Mass(load))),
            _ => unread(text).fail(),
        },
        (1, 2 | 3) if at_end => {
            let load = chain.pop();
            let tail = chain.last().map_or(text, |last| last.text);
            let (rest, count) = chained(chain, super::chars::through(text, tail), rest)?;
            match load.map(|factor| factor.kind) {
                Some(Mass(load)) => Ok((rest, Head::Count(count, Some(load)))),
                _ => unread(text).fail(),
            }
        }
        (1, 2) => {
            let count = chain.pop();
            match (chain.pop().map(|factor| factor.kind), count) {
                (Some(Mass(load)), Some(factor)) => {
                    let text = factor.text;
                    count_of(factor, None, text, rest).map(|(rest, count)| (rest, Head::Count(count, Some(load))))
                }
                _ => unread(text).fail(),
            }
        }
        // A mass before, or between, two numbers.
        (1, 3) => three_numbers(&chain, text).fail(),
        _ => unread(text).fail(),
    }
}

/// A chain that leaves open which number is the load. The fix takes the load to be the factor that says
/// so by its unit, else the largest: nobody does more sets or reps than kilograms.
fn three_numbers<'a>(chain: &[Factor<'a>], text: &'a str) -> Trouble<'a> {
    let size = |factor: &Factor<'_>| match factor.kind {
        FactorKind::Mass(_) => u64::MAX,
        _ => factor.text.parse::<f64>().map_or(0, |n| (n * 1000.0) as u64),
    };
    let heaviest = (0..chain.len()).rev().max_by_key(|at| chain.get(*at).map_or(0, size));
    let texts: Vec<&str> = chain.iter().map(|factor| factor.text).collect();
    let orders = orders(&texts, heaviest);
    let trouble = Trouble::new(K::ThreeNumbers { read: text.into(), orders }, text);
    let Some(load) = heaviest.and_then(|at| texts.get(at)) else { return trouble };
    let others: Vec<&str> =
        (0..texts.len()).filter(|at| Some(*at) != heaviest).filter_map(|at| texts.get(at).copied()).collect();
    match others.as_slice() {
        [sets, reps] => {
            let fits = sets.parse::<u32>().is_ok_and(|n| (1..=MOST_SETS).contains(&n)) && reps.parse::<u32>().is_ok();
            let lone = load.parse::<f64>().is_ok_and(|n| (5.0..=10.0).contains(&n));
            if fits && !lone { trouble.fixed(format!("{sets}x{reps} @ {load}")) } else { trouble }
        }
        _ => trouble,
    }
}

/// Sets, reps and load in the orders that they could be meant in, the load being the factor at that place.
fn orders(texts: &[&str], load: Option<usize>) -> Vec<String> {
    let mut others = texts.iter().enumerate().filter(|(at, _)| Some(*at) != load).map(|(_, text)| *text);
    let (Some(one), Some(other), Some(load)) = (others.next(), others.next(), load.and_then(|at| texts.get(at))) else {
        return Vec::new();
    };
    let fits = |sets: &str, reps: &str| {
        sets.parse::<u32>().is_ok_and(|sets| (1..=MOST_SETS).contains(&sets)) && reps.parse::<u32>().is_ok()
    };
    let mut orders: Vec<String> = [(one, other), (other, one)]
        .into_iter()
        .filter(|(sets, reps)| fits(sets, reps))
        .map(|(sets, reps)| format!("{sets}x{reps} @ {load}"))
        .collect();
    orders.dedup();
    orders
}

/// Whether a factor is a list.
fn is_list(factor: &Factor<'_>) -> bool {
    matches!(&factor.kind, FactorKind::Amounts { amounts, .. } if amounts.len() > 1)
}

/// The bare whole number that a factor is, if it is one.
fn bare(factor: &Factor<'_>) -> Option<u32> {
    match &factor.kind {
        FactorKind::Amounts { amounts, per_side: false } => match amounts.as_slice() {
            [Amount::Reps { low, high }] if low == high => Some(*low),
            _ => None,
        },
        _ => None,
    }
}

/// A count that cannot be read.
fn unread(text: &str) -> Trouble<'_> {
    Trouble::new(K::UnreadCount { read: text.into() }, text)
}

/// One or two factors as a count.
fn chained<'a>(mut chain: Vec<Factor<'a>>, text: &'a str, rest: &'a str) -> Reading<'a, Count<'a>> {
    match chain.pop() {
        Some(last) => count_of(last, chain.pop(), text, rest),
        None => unread(text).fail(),
    }
}

/// A factor, and the sets before it, as a count.
fn count_of<'a>(last: Factor<'a>, times: Option<Factor<'a>>, text: &'a str, rest: &'a str) -> Reading<'a, Count<'a>> {
    let FactorKind::Amounts { mut amounts, per_side } = last.kind else { return unread(text).fail() };
    let sets = match times {
        None if amounts.len() == 1 => {
            Sets::Times { low: 1, high: 1, each: amounts.pop().unwrap_or(Amount::AtLeast(0)) }
        }
        None => Sets::List(amounts),
        Some(times) => {
            let (low, high) = match &times.kind {
                FactorKind::Amounts { amounts, per_side: false } => match amounts.as_slice() {
                    [Amount::Reps { low, high }] => (*low, *high),
                    _ => return mixed(text).fail(),
                },
                _ => return unread(text).fail(),
            };
            if low == 0 {
                return Trouble::new(K::NoSets, text).fail();
            }
            if amounts.len() > 1 {
                if low == high && high > MOST_SETS && amounts.iter().all(|amount| matches!(amount, Amount::Reps { .. }))
                {
                    return too_many(high, text, Some((last.text, times.text))).fail();
                }
                let trouble = Trouble::new(K::MixedCount { read: text.into() }, text);
                return (if low as usize == amounts.len() { trouble.fixed(last.text) } else { trouble }).fail();
            }
            let each = amounts.pop().unwrap_or(Amount::AtLeast(0));
            if high > MOST_SETS {
                let reps_only = matches!(each, Amount::Reps { .. }) && low == high;
                return too_many(high, text, reps_only.then_some((last.text, times.text))).fail();
            }
            Sets::Times { low, high, each }
        }
    };
    let count = Count { text, sets, per_side };
    match reversed(&count) {
        Some(trouble) => trouble.fail(),
        None => Ok((rest, count)),
    }
}

/// More sets than anybody does: the reps, and the load that the number of sets may be.
fn too_many<'a>(sets: u32, text: &'a str, meant: Option<(&str, &str)>) -> Trouble<'a> {
    let trouble = Trouble::new(K::TooManySets { sets, most: MOST_SETS }, text);
    match meant {
        Some((reps, load)) => trouble.fixed(format!("{reps} @ {load}")),
        None => trouble,
    }
}

/// `3x8,2x6`: with a blank after the comma it would be two groups.
fn mixed(text: &str) -> Trouble<'_> {
    let trouble = Trouble::new(K::MixedCount { read: text.into() }, text);
    if text.contains(',') { trouble.fixed(text.replace(',', ", ")) } else { trouble }
}

/// The trouble of a range whose second number is not the larger one.
fn reversed<'a>(count: &Count<'a>) -> Option<Trouble<'a>> {
    let wrong = |amount: &Amount| match amount {
        Amount::Reps { low, high } | Amount::Seconds { low, high } => low > high,
        Amount::Distance { low, high, .. } => low > high,
        _ => false,
    };
    let fault = match &count.sets {
        Sets::Times { low, high, each } => low > high || wrong(each),
        Sets::List(amounts) => amounts.iter().any(wrong),
    };
    fault.then(|| Trouble::new(K::ReversedRange { read: count.text.into() }, count.text).fixed(turned(count.text)))
}

/// A text with the numbers of every range in it put the right way round.
fn turned(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        if let Ok((after, low)) = number(rest) {
            let (end, one) = (range_end(after), front(rest, after));
            rest = match end {
                Ok((end, high)) if high < low => {
                    let other = front(after, end).trim_start_matches(super::chars::is_dash);
                    out.push_str(&format!("{other}-{one}"));
                    end
                }
                _ => {
                    out.push_str(one);
                    after
                }
            };
            continue;
        }
        out.push(c);
        rest = rest.get(c.len_utf8()..).unwrap_or("");
    }
    out
}

/// One factor: a list of amounts, or a mass with its unit.
fn factor(i: &str) -> Reading<'_, Factor<'_>> {
    if let Ok((rest, load)) = mass_factor(i) {
        return Ok((rest, Factor { text: front(i, rest), kind: FactorKind::Mass(load) }));
    }
    let (mut rest, (first, decimal)) = amount(i)?;
    let mut amounts = vec![first];
    let first_text = front(i, rest);
    let mut texts = Vec::new();
    let (mut per_side, after) = side(rest);
    rest = after;
    if decimal {
        return Ok((rest, Factor { text: front(i, rest), kind: FactorKind::Decimal }));
    }
    while let Ok((after, _)) = (char::<&str, Miss<'_>>(','), peek(satisfy(|c| c.is_ascii_digit()))).parse(rest) {
        // `40m,3x2km`: only between two digits does a comma part nothing.
        let between_digits = front(i, rest).ends_with(|c: char| c.is_ascii_digit());
        let start = after;
        let (after, (next, decimal)) = amount(start)?;
        let text = front(start, after);
        let (also, after) = side(after);
        if !between_digits && times(after).is_ok() {
            break;
        }
        per_side |= also;
        if decimal {
            return Ok((after, Factor { text: front(i, after), kind: FactorKind::Decimal }));
        }
        amounts.push(next);
        if texts.is_empty() {
            texts.push(first_text);
        }
        texts.push(text);
        rest = after;
    }
    if amounts.iter().any(|amount| !alike(amount, amounts.first())) && mass_unit(rest).is_err() {
        amounts = one_unit(front(i, rest), amounts, &texts)?;
    }
    if amounts.len() > 1 && mass_unit(rest).is_ok() {
        let piece = front(i, rest);
        let trouble = Trouble::new(K::DecimalComma { read: piece.into() }, piece);
        return match amounts.len() {
            2 => trouble.fixed(piece.replace(',', ".")).fail(),
            _ => trouble.fail(),
        };
    }
    Ok((rest, Factor { text: front(i, rest), kind: FactorKind::Amounts { amounts, per_side } }))
}

/// Whether two amounts are of one kind: reps, seconds or a distance.
fn alike(one: &Amount, other: Option<&Amount>) -> bool {
    let kind = |amount: &Amount| match amount {
        Amount::Seconds { .. } => 1,
        Amount::Distance { .. } => 2,
        _ => 0,
    };
    other.is_some_and(|other| kind(one) == kind(other))
}

/// A list whose last member alone says the unit, `20,30s`: it holds for the bare ones before it.
fn one_unit<'a>(list: &'a str, amounts: Vec<Amount>, texts: &[&'a str]) -> Result<Vec<Amount>, nom::Err<Miss<'a>>> {
    let letters = |text: &'a str| text.trim_start_matches(|c: char| !c.is_alphabetic());
    let with_unit = |text: &str, unit: &str| match bare_number(text) {
        true => format!("{text}{unit}"),
        false => text.to_owned(),
    };
    let last = texts.last().map_or("", |text| letters(text));
    let read: Vec<Amount> = texts
        .iter()
        .zip(&amounts)
        .map(|(text, written)| match amount(&with_unit(text, last)) {
            Ok(("", (read, _))) => read,
            _ => written.clone(),
        })
        .collect();
    if !last.is_empty() && read.iter().all(|amount| alike(amount, read.first())) {
        return Ok(read);
    }
    let trouble = Trouble::new(K::MixedUnits { read: list.into() }, list);
    let timed = texts.iter().any(|text| text.contains(':'));
    let first = texts.iter().map(|text| letters(text)).find(|unit| !unit.is_empty());
    let first = first.unwrap_or(if timed { "s" } else { "" });
    let spelled: Vec<String> = texts.iter().map(|text| with_unit(text, first)).collect();
    let plain = list == texts.join(",");
    let kinds = spelled.iter().filter_map(|text| Some(amount(text).ok()?.1.0)).collect::<Vec<_>>();
    let one = kinds.len() == texts.len() && kinds.iter().all(|amount| alike(amount, kinds.first()));
    Err(match plain {
        true if one => trouble.fixed(spelled.join(",")),
        true => trouble.fixed(texts.join(", ")),
        false => trouble,
    }
    .failure())
}

fn bare_number(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit() || b == b'.')
}

/// `/side`, and what stands after it.
fn side(i: &str) -> (bool, &str) {
    match per_side(i) {
        Ok((rest, ())) => (true, rest),
        Err(_) => (false, i),
    }
}

/// `/side`
pub(crate) fn per_side(i: &str) -> Reading<'_, ()> {
    let i = skip_gap(i);
    let (i, _) = char('/').parse(i)?;
    let (i, _) = gap(i)?;
    let (i, _) = keyword("side").parse(i)?;
    Ok((i, ()))
}

/// One amount, and whether it is a bare number with a decimal point.
fn amount(i: &str) -> Reading<'_, (Amount, bool)> {
    if begins(i, b"a")
        && let Ok((rest, _)) = tag_no_case::<_, _, Miss<'_>>("amrap").parse(i)
    {
        return Ok((rest, (Amount::AsManyAsPossible, false)));
    }
    if let Ok((rest, seconds)) = clock(i) {
        return Ok((rest, (Amount::Seconds { low: seconds, high: seconds }, false)));
    }
    let (rest, low) = number(i)?;
    let (rest, high) = match range_end(rest) {
        Ok((rest, high)) => (rest, high),
        Err(nom::Err::Failure(miss)) => return Err(nom::Err::Failure(miss)),
        Err(_) => (rest, low),
    };
    if let Ok((after, unit)) = distance_unit(rest) {
        return Ok((after, (Amount::Distance { low, high, unit }, false)));
    }
    let (Some(low), Some(high)) = (low.as_whole(), high.as_whole()) else {
        let piece = front(i, rest);
        return match time_unit(rest) {
            Ok(_) => Trouble::new(K::DecimalCount { read: piece.into() }, piece).fail(),
            Err(_) => Ok((rest, (Amount::Reps { low: 0, high: 0 }, true))),
        };
    };
    if let Ok((after, unit)) = time_unit(rest) {
        let (low, high) = (low.saturating_mul(unit), high.saturating_mul(unit));
        return Ok((after, (Amount::Seconds { low, high }, false)));
    }
    if low == high {
        if skip_gap(rest).starts_with('+')
            && let Ok((after, bouts)) = bouts(rest, low)
        {
            return Ok((after, (Amount::Bouts(bouts), false)));
        }
        if let Some(after) = rest.strip_prefix('+') {
            return Ok((after, (Amount::AtLeast(low), false)));
        }
    }
    Ok((rest, (Amount::Reps { low, high }, false)))
}

/// `+4+4` after a first number.
fn bouts(i: &str, first: u32) -> Reading<'_, Vec<u32>> {
    let mut bouts = vec![first];
    let mut rest = i;
    let mut bout = (gap, char('+'), gap, whole, opt(preceded(dash, digit1)));
    while let Ok((after, (_, _, _, number, range))) = bout.parse(rest) {
        // `12 + 4 kg` is no cluster, and neither is `8+2-3`.
        if range.is_some() || mass_unit(after).is_ok() {
            return no_fit(i);
        }
        bouts.push(number);
        rest = after;
    }
    if bouts.len() == 1 { no_fit(i) } else { Ok((rest, bouts)) }
}

fn distance_unit(i: &str) -> Reading<'_, DistanceUnit> {
    let i = skip_gap(i);
    if !begins(i, b"mky") {
        return no_fit(i);
    }
    alt((
        value(
            DistanceUnit::Metre,
            alt((keyword("m"), keyword("metres"), keyword("metre"), keyword("meter"), keyword("meters"))),
        ),
        value(DistanceUnit::Kilometre, keyword("km")),
        value(DistanceUnit::Yard, alt((keyword("yd"), keyword("yds")))),
        value(DistanceUnit::Mile, alt((keyword("mi"), keyword("miles"), keyword("mile")))),
    ))
    .parse(i)
}

/// Whether a number is a decimal of the kind an effort takes.
pub(crate) fn is_half(number: Number) -> bool {
    number.thousandths % 500 == 0
}
