//! Loads: masses, sums, bars and plates by name, the lifter's own weight, pins, percentages, quotes.

use super::chars::{front, front_trimmed, gap, is_dash, is_quote, is_space, keyword, skip_gap, word};
use super::count::{Head, head, per_side};
use super::number::{mass_unit, number};
use super::trouble::{Reading, Trouble, no_fit};
use crate::notation::nodes::{Load, Sign, Term, TermKind};
use crate::problems::ProblemKind as K;
use crate::training::Unit;
use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::take_till;
use nom::character::complete::satisfy;

/// More plates of one kind on a side than any sleeve holds.
const MOST_PLATES: u32 = 20;

/// A load, from its `~` or first term to its last term.
pub(crate) fn load(i: &str) -> Reading<'_, Load<'_>> {
    let (start, approximate) = match i.strip_prefix('~') {
        Some(rest) => (skip_gap(rest), true),
        None => (i, false),
    };
    let (mut rest, first) = term(start, false)?;
    let mut more = Vec::new();
    while let Some((after, sign)) = sign(rest).ok().filter(|_| !is_range(rest) || first_is_bodyweight(&first)) {
        let (after, next) = match term(after, true) {
            Ok(read) => read,
            // `100 kg -- felt good`: words behind dashes are no term.
            Err(nom::Err::Error(_)) if sign == Sign::Minus && after.starts_with(|c: char| is_dash(c) || c == '>') => {
                break;
            }
            Err(nom::Err::Error(_)) => return unread(i, after),
            Err(failure) => return Err(failure),
        };
        // Nobody takes a bar off a mass: `100 kg - felt good` goes on in words.
        let words = matches!(next.kind, TermKind::Named(None, _)) && !next.per_side && rest.starts_with(is_space);
        if sign == Sign::Minus && words && matches!(first.kind, TermKind::Mass(..)) {
            break;
        }
        more.push((sign, next));
        rest = after;
    }
    let text = front(i, rest);
    if ranges(&first, &more, rest) {
        let piece = front(i, scrap_end(skip_word(rest)));
        return Trouble::new(K::LoadRange { read: piece.into() }, piece).fail();
    }
    if is_range(rest) {
        let piece = front(i, scrap_end(rest));
        return Trouble::new(K::LoadRange { read: piece.into() }, piece).fail();
    }
    let alone = more.is_empty() && !approximate;
    let percent = |term: &Term<'_>| matches!(term.kind, TermKind::Percent(_));
    let pin = |term: &Term<'_>| matches!(term.kind, TermKind::Pin(_));
    if (percent(&first) && !alone) || more.iter().any(|(_, term)| percent(term) || pin(term)) {
        return Trouble::new(K::UnreadLoad { read: text.into() }, text).fail();
    }
    Ok((rest, Load { text, approximate, first, more }))
}

/// `120 kg` and `122.5 lb` before a comma, an attribute, or the end: nearly every load there is, read without detours.
pub(crate) fn plain(i: &str) -> Option<(&str, Load<'_>)> {
    let (after, mass) = number(i).ok()?;
    let (after, unit) = match after.as_bytes() {
        [b' ', b'k', b'g', ..] => (after.get(3..)?, Unit::Kg),
        [b' ', b'l', b'b', ..] => (after.get(3..)?, Unit::Lb),
        _ => return None,
    };
    let ended = match after.as_bytes() {
        [] | [b',', ..] => true,
        [b' ', next, ..] => matches!(next, b'R' | b'(' | b'!'),
        _ => false,
    };
    let text = front(i, after);
    let first = Term { text, kind: TermKind::Mass(1, mass, Some(unit)), per_side: false };
    ended.then_some((after, Load { text, approximate: false, first, more: Vec::new() }))
}

/// A mass with its unit, as a factor beside `x`: `60 kg`, `~60 kg`.
pub(crate) fn mass_factor(i: &str) -> Reading<'_, Load<'_>> {
    let (start, approximate) = match i.strip_prefix('~') {
        Some(rest) => (rest, true),
        None => (i, false),
    };
    let (rest, mass) = number(start)?;
    let (rest, unit) = mass_unit(rest)?;
    let text = front(start, rest);
    let first = Term { text, kind: TermKind::Mass(1, mass, Some(unit)), per_side: false };
    Ok((rest, Load { text: front(i, rest), approximate, first, more: Vec::new() }))
}

/// ` + ` or ` - ` before a further term.
fn sign(i: &str) -> Reading<'_, Sign> {
    let (i, _) = gap(i)?;
    let (i, sign) = satisfy(|c| c == '+' || is_dash(c)).parse(i)?;
    let (i, _) = gap(i)?;
    Ok((i, if sign == '+' { Sign::Plus } else { Sign::Minus }))
}

/// One term. `in_sum`: whether terms stand before it, so that a number and a word can only be plates.
fn term(i: &str, in_sum: bool) -> Reading<'_, Term<'_>> {
    match i.as_bytes().first() {
        Some(b'0'..=b'9') => counted(i, in_sum),
        _ => alt((quoted, pin, bodyweight, named)).parse(i),
    }
}

fn quoted(i: &str) -> Reading<'_, Term<'_>> {
    let (inside, _) = satisfy(is_quote).parse(i)?;
    let (rest, text) = take_till(is_quote).parse(inside)?;
    let Ok((rest, _)) = satisfy::<_, _, super::trouble::Miss<'_>>(is_quote).parse(rest) else {
        return Trouble::new(K::UnreadLoad { read: i.into() }, i.trim_end_matches(is_space)).fail();
    };
    Ok((rest, Term { text: front(i, rest), kind: TermKind::Quoted(text), per_side: false }))
}

fn pin(i: &str) -> Reading<'_, Term<'_>> {
    let (rest, (_, _, number)) = (keyword("pin"), gap, number).parse(i)?;
    Ok((rest, Term { text: front(i, rest), kind: TermKind::Pin(number), per_side: false }))
}

fn bodyweight(i: &str) -> Reading<'_, Term<'_>> {
    if let Ok((rest, _)) = alt((keyword("bodyweight"), keyword("body weight"))).parse(i) {
        let piece = front(i, rest);
        return Trouble::new(K::UnreadLoad { read: piece.into() }, piece).fixed("bw").fail();
    }
    let (rest, text) = keyword("bw").parse(i)?;
    Ok((rest, Term { text, kind: TermKind::Bodyweight, per_side: false }))
}

/// What begins with a number: a mass, some masses, a percentage, or plates by colour.
fn counted(i: &str, in_sum: bool) -> Reading<'_, Term<'_>> {
    let (rest, first) = number(i)?;
    if let Some(after) = comma_number(rest) {
        let piece = front(i, after);
        if let Some(trouble) = next_count(i, rest) {
            return trouble.fail();
        }
        let trouble = Trouble::new(K::DecimalComma { read: piece.into() }, piece);
        // Three digits after the comma may as well be thousands, so nothing is offered for those.
        let decimals = piece.rsplit(',').next().map_or(0, str::len);
        let one_comma = piece.matches(',').count() == 1;
        return if decimals < 3 && one_comma && first.as_whole().is_some() {
            trouble.fixed(piece.replace(',', ".")).fail()
        } else {
            trouble.fail()
        };
    }
    let done = |rest, kind, per_side| Ok((rest, Term { text: front(i, rest), kind, per_side }));
    if let Some(after) = skip_gap(rest).strip_prefix('%') {
        return done(after, TermKind::Percent(first), false);
    }
    if let (Some(plates), Ok((after, ()))) = (first.as_whole(), super::chars::times(rest)) {
        if plates == 0 || plates > MOST_PLATES {
            return unread(i, after);
        }
        let (after, each) = number(after)?;
        let (after, unit) = optional(mass_unit(after), after);
        let (after, side) = optional(per_side(after), after);
        return done(after, TermKind::Mass(plates, each, unit), side.is_some());
    }
    let (after, unit) = optional(mass_unit(rest), rest);
    let (after, side) = optional(per_side(after), after);
    if unit.is_none() && side.is_none() {
        if let Some(trouble) = misread(i, rest) {
            return trouble.fail();
        }
        if let Some(plates) = first.as_whole()
            && let Ok((end, words)) = words(skip_gap(rest))
        {
            let (end, side) = optional(per_side(end), end);
            let glued = !rest.starts_with(is_space);
            if in_sum || side.is_some() || (sign(end).is_ok() && !is_range(end)) {
                return done(end, TermKind::Named(Some(plates), words), side.is_some());
            }
            if glued {
                return unread(i, rest);
            }
        }
        if rest.starts_with(|c: char| c.is_alphanumeric() || matches!(c, '.' | '\'' | '/' | '=' | '*' | ':')) {
            return unread(i, rest);
        }
    }
    done(after, TermKind::Mass(1, first, unit), side.is_some())
}

/// `100,2x5`: the comma parts two groups, and lacks its blank. `rest` stands after the number before the comma.
fn next_count<'a>(i: &'a str, rest: &'a str) -> Option<Trouble<'a>> {
    let next = rest.strip_prefix(',')?;
    let count = match head(next) {
        Ok((after, Head::Count(count, None))) => {
            let told = count.text.contains(['x', 'X', '×']) || skip_gap(after).starts_with('@');
            told.then_some(count.text)?
        }
        _ => return None,
    };
    let piece = super::chars::through(i, count);
    Some(Trouble::new(K::GroupsRunTogether, piece).fixed_at(front(rest, next), ", "))
}

/// Words that people write for a unit of mass, and the one that is read where there is one.
const UNITS: [(&str, &str); 19] = [
    ("k", "kg"),
    ("kgm", "kg"),
    ("kgms", "kg"),
    ("kilogram", "kg"),
    ("kilograms", "kg"),
    ("kilogramme", "kg"),
    ("kilogrammes", "kg"),
    ("#", "lb"),
    ("stone", ""),
    ("stones", ""),
    ("st", ""),
    ("pood", ""),
    ("poods", ""),
    ("plate", ""),
    ("plates", ""),
    ("ton", ""),
    ("tons", ""),
    ("tonne", ""),
    ("tonnes", ""),
];

/// What is wrong with a number that has no unit we read: `1 000 kg`, `60 k`. `rest` stands after the number.
fn misread<'a>(i: &'a str, rest: &'a str) -> Option<Trouble<'a>> {
    let then = skip_gap(rest);
    if !then.starts_with(|c: char| c.is_ascii_digit() || matches!(c.to_ascii_lowercase(), '#' | 'k' | 'p' | 's' | 't'))
    {
        return None;
    }
    let unread = |piece: &'a str| Trouble::new(K::UnreadLoad { read: piece.into() }, piece);
    let known = UNITS.iter().find_map(|(word, unit)| Some((*unit, unit_word(word, then)?)));
    if let Some((unit, after)) = known {
        let trouble = unread(front(i, after));
        return Some(if unit.is_empty() { trouble } else { trouble.fixed(format!("{} {unit}", front(i, rest))) });
    }
    // A number behind a number is the rest of it, or a second load: neither may be left out unseen.
    let (after, _) = number(then).ok().filter(|_| then.len() < rest.len())?;
    let (end, unit) = optional(mass_unit(after), after);
    let (before, digits) = (front(i, rest), front(then, after));
    let thousands = digits.len() == 3 && digits.bytes().all(|b| b.is_ascii_digit()) && before.len() == 1;
    if unit.is_none() && !(thousands && (end.is_empty() || end.starts_with([' ', ',', ';']))) {
        return None;
    }
    let trouble = unread(front(i, end));
    Some(if thousands { trouble.fixed(format!("{before}{digits}{}", front(after, end))) } else { trouble })
}

/// What stands after a word for a unit that ends here.
fn unit_word<'a>(word: &'static str, i: &'a str) -> Option<&'a str> {
    match word {
        "#" => i.strip_prefix('#'),
        _ => keyword(word)
            .parse(i)
            .ok()
            .map(|(rest, _)| rest)
            .filter(|rest| !rest.starts_with(|c: char| c.is_ascii_digit())),
    }
}

/// `110 - 100 kg`, `100 to 110 kg`: a range with blanks, and no difference of two masses.
fn ranges(first: &Term<'_>, more: &[(Sign, Term<'_>)], rest: &str) -> bool {
    let bare = |term: &Term<'_>| matches!(term.kind, TermKind::Mass(1, _, None)) && !term.per_side;
    let mass = |term: &Term<'_>| matches!(term.kind, TermKind::Mass(1, ..)) && !term.per_side;
    match more {
        [(Sign::Minus, second)] => bare(first) && mass(second),
        [] => mass(first) && skip_word(rest).len() < rest.len(),
        _ => false,
    }
}

/// What stands after `to` before a number.
fn skip_word(i: &str) -> &str {
    match keyword("to").parse(skip_gap(i)) {
        Ok((rest, _)) if number(skip_gap(rest)).is_ok() => skip_gap(rest),
        _ => i,
    }
}

/// A bar by name, or one plate by colour.
fn named(i: &str) -> Reading<'_, Term<'_>> {
    let (rest, words) = words(i)?;
    let (rest, side) = optional(per_side(rest), rest);
    Ok((rest, Term { text: front(i, rest), kind: TermKind::Named(None, words), per_side: side.is_some() }))
}

/// Words up to the next sign, attribute, or number.
fn words(i: &str) -> Reading<'_, &str> {
    let mut rest = i;
    let mut end = i;
    while !super::attribute::starts_attribute(rest) {
        let Ok((after, _)) = word(rest) else { break };
        end = after;
        rest = skip_gap(after);
    }
    let words = front_trimmed(i, end);
    if words.is_empty() { no_fit(i) } else { Ok((end, words)) }
}

/// `,5` after a number: a decimal comma, in any length.
fn comma_number(i: &str) -> Option<&str> {
    let mut rest = i;
    while let Some(after) = rest.strip_prefix(',') {
        let digits = after.bytes().take_while(u8::is_ascii_digit).count();
        if digits == 0 {
            break;
        }
        rest = after.get(digits..)?;
    }
    (rest.len() < i.len()).then_some(rest)
}

/// A dash glued to a following number: a range, not a difference.
fn is_range(rest: &str) -> bool {
    let mut chars = rest.chars();
    chars.next().is_some_and(is_dash) && chars.next().is_some_and(|c| c.is_ascii_digit())
}

/// `bw-15 kg` takes help away, and can be no range.
fn first_is_bodyweight(first: &Term<'_>) -> bool {
    matches!(first.kind, TermKind::Bodyweight)
}

/// A load that cannot be read, from its start to the end of the scrap that stopped it.
fn unread<'a, T>(i: &'a str, stop: &'a str) -> Reading<'a, T> {
    let piece = front_trimmed(i, scrap_end(stop));
    Trouble::new(K::UnreadLoad { read: piece.into() }, piece).fail()
}

fn scrap_end(i: &str) -> &str {
    let i = skip_gap(i);
    i.get(i.find(|c| is_space(c) || c == ',' || c == '(').unwrap_or(i.len())..).unwrap_or("")
}

fn optional<'a, T>(reading: Reading<'a, T>, before: &'a str) -> (&'a str, Option<T>) {
    match reading {
        Ok((rest, value)) => (rest, Some(value)),
        Err(_) => (before, None),
    }
}
