//! Counts: `3x8`, `8,8,7`, `12+4+4`, `3x20s`, `4x40m`, `3x10/side`, and a load joined to one by `x`.
//!
//! What stands at the head of a group is read as a chain of factors joined by `x`, and then told apart:
//! `3x8` is sets and reps, `5 x 60 kg` and `60 kg x 5` are reps and a load, `3x5x60` leaves open which is
//! which. Reading the whole chain first is what lets every wrong order be named and its right one offered.

use super::leaves::sign;
use super::lexer::{Kind, TOO_LONG};
use super::number::{clock, mass, mass_unit, number, range_end, side, time_unit, whole};
use super::tokens::{Tokens, is_number, lexed};
use super::trouble::{Miss, Reading, Trouble, no_fit};
use super::units::{Measure, measure};
use crate::notation::expected::Expected;
use crate::notation::nodes::{Amount, Count, DistanceUnit, Load, Sets};
use crate::problems::ProblemKind as K;
use nom::Parser;
use nom::multi::fold_many_m_n;
use nom::sequence::preceded;
use smallvec::SmallVec;

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

/// Nearly every factor is one amount.
type Amounts = SmallVec<[Amount; 1]>;

#[derive(Debug)]
enum FactorKind<'a> {
    Amounts {
        amounts: Amounts,
        per_side: bool,
    },
    /// A bare number with a decimal point.
    Decimal,
    Mass(Load<'a>),
}

/// Whether a count says by its own signs that it is one.
pub(crate) fn is_told(count: &Count<'_>) -> bool {
    count.text.contains(['x', 'X', '×'])
}

/// Reads the head of a group.
pub(crate) fn head<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Head<'a>> {
    i.expect(Expected::Count);
    if let Some((rest, count)) = plain(i) {
        return Ok((rest, Head::Count(count, None)));
    }
    let (mut rest, mut last) = factor(i)?;
    let (mut chain, mut times) = (Vec::new(), None);
    while let Some(after) = rest.behind_times() {
        let (after, next) = factor(after)?;
        chain.extend(times.replace(std::mem::replace(&mut last, next)));
        rest = after;
    }
    let amounts = |factor: &Factor<'_>| matches!(factor.kind, FactorKind::Amounts { .. });
    // `3x20s`, nearly all there are.
    if chain.is_empty() && amounts(&last) && times.as_ref().is_none_or(amounts) {
        return count_of(last, times, i.upto(rest), rest).map(|(rest, count)| (rest, Head::Count(count, None)));
    }
    chain.extend(times);
    chain.push(last);
    sorted_out(chain, i, rest)
}

/// `3x8` and `8` before a load, an attribute, a group or the end: nearly every count there is, read without detours.
fn plain<'t, 'a>(i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, Count<'a>)> {
    let (first, times, second) = (i.first(), i.nth(1), i.nth(2));
    let (low, each, rest) = match (first.kind, times.kind, second.kind) {
        (Kind::Number, Kind::Times, Kind::Number) => (first.value, second.value, i.skip(3)),
        (Kind::Number, ..) => (1000, first.value, i.skip(1)),
        _ => return None,
    };
    let ended = match rest.kind() {
        Kind::At | Kind::Open => true,
        Kind::End => {
            [Expected::Unit, Expected::Measure, Expected::Side].into_iter().for_each(|one| rest.expect(one));
            true
        }
        Kind::Comma => !rest.lists(),
        Kind::Word => !rest.glued() && rest.is(b'r'),
        _ => false,
    };
    if !ended || low == 0 || low > MOST_SETS * 1000 || each == TOO_LONG {
        return None;
    }
    let each = Amount::Reps { low: each / 1000, high: each / 1000 };
    let sets = Sets::Times { low: low / 1000, high: low / 1000, each };
    Some((rest, Count { text: i.upto(rest), sets, per_side: false }))
}

/// Tells the factors of a chain apart.
fn sorted_out<'t, 'a>(
    mut chain: Vec<Factor<'a>>,
    i: Tokens<'t, 'a>,
    rest: Tokens<'t, 'a>,
) -> Reading<'t, 'a, Head<'a>> {
    use FactorKind::{Decimal, Mass};
    let text = i.upto(rest);
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
    let (load, text) = match (masses, chain.len()) {
        (0, 1 | 2) => (None, text),
        (1, 1) => match chain.pop().map(|factor| factor.kind) {
            Some(Mass(load)) => return Ok((rest, Head::Mass(load))),
            _ => return unread(text).fail(),
        },
        (1, 2 | 3) if at_end => {
            let load = chain.pop();
            (load, chain.last().map_or(text, |last| i.through(text, last.text)))
        }
        (1, 2) => (Some(chain.remove(0)), chain.first().map_or(text, |count| count.text)),
        // A mass before, or between, two numbers.
        (1, 3) => return three_numbers(&chain, text).fail(),
        _ => return unread(text).fail(),
    };
    let Some(last) = chain.pop() else { return unread(text).fail() };
    let (rest, count) = count_of(last, chain.pop(), text, rest)?;
    match load.map(|factor| factor.kind) {
        None => Ok((rest, Head::Count(count, None))),
        Some(Mass(load)) => Ok((rest, Head::Count(count, Some(load)))),
        Some(_) => unread(text).fail(),
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
    let mut others: Vec<&str> = chain.iter().map(|factor| factor.text).collect();
    let load = heaviest.filter(|at| *at < others.len()).map_or("", |at| others.remove(at));
    let &[one, other] = others.as_slice() else {
        return Trouble::new(K::ThreeNumbers { read: text.into(), orders: Vec::new() }, text);
    };
    let fits = |sets: &str, reps: &str| {
        sets.parse::<u32>().is_ok_and(|sets| (1..=MOST_SETS).contains(&sets)) && reps.parse::<u32>().is_ok()
    };
    let both = [(one, other), (other, one)].into_iter().filter(|(sets, reps)| fits(sets, reps));
    let mut orders: Vec<String> = both.map(|(sets, reps)| format!("{sets}x{reps} @ {load}")).collect();
    orders.dedup();
    let trouble = Trouble::new(K::ThreeNumbers { read: text.into(), orders }, text);
    let lone = load.parse::<f64>().is_ok_and(|n| (5.0..=10.0).contains(&n));
    if fits(one, other) && !lone { trouble.fixed(format!("{one}x{other} @ {load}")) } else { trouble }
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

/// A factor, and the sets before it, as a count.
fn count_of<'t, 'a>(
    last: Factor<'a>,
    times: Option<Factor<'a>>,
    text: &'a str,
    rest: Tokens<'t, 'a>,
) -> Reading<'t, 'a, Count<'a>> {
    let FactorKind::Amounts { amounts, per_side } = last.kind else { return unread(text).fail() };
    let one = |mut amounts: Amounts| amounts.pop().unwrap_or(Amount::AtLeast(0));
    let sets = match times {
        None if amounts.len() == 1 => Sets::Times { low: 1, high: 1, each: one(amounts) },
        None => Sets::List(amounts.into_vec()),
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
            let reps_only = low == high && amounts.iter().all(|amount| matches!(amount, Amount::Reps { .. }));
            if high > MOST_SETS && (amounts.len() == 1 || reps_only) {
                return too_many(high, text, reps_only.then_some((last.text, times.text))).fail();
            }
            if amounts.len() > 1 {
                let trouble = Trouble::new(K::MixedCount { read: text.into() }, text);
                return (if low as usize == amounts.len() { trouble.fixed(last.text) } else { trouble }).fail();
            }
            Sets::Times { low, high, each: one(amounts) }
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
    lexed(text, |mut i| {
        let mut out = String::new();
        while !i.is_empty() {
            out.push_str(i.gap());
            let after = i.skip(1);
            match (number(i), range_end(after)) {
                (Ok((_, low)), Ok((end, high))) if high < low => {
                    out.push_str(&format!("{}-{}", after.skip(1).word(), i.word()));
                    i = end;
                }
                _ => {
                    out.push_str(i.word());
                    i = after;
                }
            }
        }
        out
    })
}

/// One factor: a list of amounts, or a mass with its unit.
fn factor<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Factor<'a>> {
    // Nearly no factor has a unit of mass.
    if (i.is(b'~') || matches!(i.nth(1).first, b'k' | b'l' | b'p'))
        && let Ok((rest, load)) = mass(i)
    {
        return Ok((rest, Factor { text: i.upto(rest), kind: FactorKind::Mass(load) }));
    }
    let decimal = |rest| Ok((rest, Factor { text: i.upto(rest), kind: FactorKind::Decimal }));
    let (rest, (first, is_decimal)) = amount(i)?;
    let (mut amounts, mut texts) = (Amounts::from_buf([first]), Vec::new());
    let first_end = rest;
    let (mut rest, mut per_side) = side(rest);
    if is_decimal {
        return decimal(rest);
    }
    while rest.lists() {
        // `40m,3x2km`: only between two digits does a comma part nothing.
        let between_digits = rest.before().is_some_and(|before| is_number(before.kind));
        let start = rest.skip(1);
        let (after, (next, is_decimal)) = amount(start)?;
        let text = start.upto(after);
        let (after, also) = side(after);
        if !between_digits && after.behind_times().is_some() {
            break;
        }
        per_side |= also;
        if is_decimal {
            return decimal(after);
        }
        amounts.push(next);
        if texts.is_empty() {
            texts.push(i.upto(first_end));
        }
        texts.push(text);
        rest = after;
    }
    let text = i.upto(rest);
    let is_mass = amounts.len() > 1 && mass_unit(rest).is_ok();
    if is_mass {
        let trouble = Trouble::new(K::DecimalComma { read: text.into() }, text);
        return if amounts.len() == 2 { trouble.fixed(text.replace(',', ".")) } else { trouble }.fail();
    }
    if amounts.iter().any(|amount| !alike(amount, amounts.first())) {
        amounts = one_unit(text, amounts, &texts)?;
    }
    Ok((rest, Factor { text, kind: FactorKind::Amounts { amounts, per_side } }))
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
fn one_unit<'a>(list: &'a str, amounts: Amounts, texts: &[&'a str]) -> Result<Amounts, nom::Err<Miss<'a>>> {
    let letters = |text: &'a str| text.trim_start_matches(|c: char| !c.is_alphabetic());
    let bare = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let with_unit = |text: &str, unit: &str| if bare(text) { format!("{text}{unit}") } else { text.to_owned() };
    let amount_in = |text: &str| lexed(text, |i| amount(i).ok().map(|(rest, (read, _))| (rest.is_empty(), read)));
    let last = texts.last().map_or("", |text| letters(text));
    let read: Amounts = texts
        .iter()
        .zip(&amounts)
        .map(|(text, written)| match amount_in(&with_unit(text, last)) {
            Some((true, read)) => read,
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
    let kinds: Vec<Amount> = spelled.iter().filter_map(|text| Some(amount_in(text)?.1)).collect();
    let one = kinds.len() == texts.len() && kinds.iter().all(|amount| alike(amount, kinds.first()));
    Err(match plain {
        true if one => trouble.fixed(spelled.join(",")),
        true => trouble.fixed(texts.join(", ")),
        false => trouble,
    }
    .failure())
}

/// One amount, and whether it is a bare number with a decimal point.
fn amount<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, (Amount, bool)> {
    i.expect(Expected::Amount);
    if i.is_word("amrap") {
        return Ok((i.skip(1), (Amount::AsManyAsPossible, false)));
    }
    if i.nth(1).first == b':'
        && let Ok((rest, seconds)) = clock(i)
    {
        return Ok((rest, (Amount::Seconds { low: seconds, high: seconds }, false)));
    }
    let (rest, low) = number(i)?;
    let (rest, high) = match range_end(rest) {
        Ok((rest, high)) => (rest, high),
        Err(nom::Err::Failure(miss)) => return Err(nom::Err::Failure(miss)),
        Err(_) => (rest, low),
    };
    if let Some(unit) = distance_unit(rest) {
        return Ok((rest.skip(1), (Amount::Distance { low, high, unit }, false)));
    }
    let (Some(low), Some(high)) = (low.as_whole(), high.as_whole()) else {
        let piece = i.upto(rest);
        return match time_unit(rest) {
            Ok(_) => Trouble::new(K::DecimalCount { read: piece.into() }, piece).fail(),
            Err(_) => Ok((rest, (Amount::Reps { low: 0, high: 0 }, true))),
        };
    };
    if let Ok((after, unit)) = time_unit(rest) {
        let (low, high) = (low.saturating_mul(unit), high.saturating_mul(unit));
        return Ok((after, (Amount::Seconds { low, high }, false)));
    }
    if low == high && rest.is(b'+') {
        if let Ok((after, bouts)) = bouts(rest, low) {
            return Ok((after, (Amount::Bouts(bouts), false)));
        }
        if rest.glued() {
            return Ok((rest.skip(1), (Amount::AtLeast(low), false)));
        }
    }
    Ok((rest, (Amount::Reps { low, high }, false)))
}

/// More bouts than anybody puts into one set.
const MOST_BOUTS: usize = 100;

/// `+4+4` after a first number.
fn bouts<'t, 'a>(i: Tokens<'t, 'a>, first: u32) -> Reading<'t, 'a, Vec<u32>> {
    let bout = |i: Tokens<'t, 'a>| {
        let (rest, number) = preceded(sign(b'+'), whole).parse(i)?;
        // `12 + 4 kg` is no cluster, and neither is `8+2-3`.
        let other = super::number::is_range(rest) || mass_unit(rest).is_ok();
        Ok((rest, (number, other)))
    };
    let none = || (vec![first], false);
    let (rest, (bouts, other)) = fold_many_m_n(1, MOST_BOUTS, bout, none, |(mut bouts, other), (number, also)| {
        bouts.push(number);
        (bouts, other || also)
    })
    .parse(i)?;
    if other { no_fit(i) } else { Ok((rest, bouts)) }
}

fn distance_unit(i: Tokens<'_, '_>) -> Option<DistanceUnit> {
    i.expect(Expected::Measure);
    match measure(i)? {
        Measure::Metre => Some(DistanceUnit::Metre),
        Measure::Kilometre => Some(DistanceUnit::Kilometre),
        Measure::Yard => Some(DistanceUnit::Yard),
        Measure::Mile => Some(DistanceUnit::Mile),
        Measure::Second | Measure::Minute | Measure::Hour => None,
    }
}
