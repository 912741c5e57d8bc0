//! Loads: masses, sums, bars and plates by name, the lifter's own weight, pins, percentages, quotes.

use super::count::{Head, head, is_told};
use super::leaves::{kind, name_word, word};
use super::lexer::{Kind, TOO_LONG};
use super::number::{is_range, mass_unit, number, side};
use super::signs::{scrap_end, starts_attribute};
use super::tokens::{Tokens, is_number, lexed};
use super::trouble::{Reading, Trouble, no_fit};
use crate::notation::expected::Expected;
use crate::notation::nodes::{Load, Number, Sign, Term, TermKind};
use crate::problems::ProblemKind as K;
use crate::training::Unit;
use nom::Parser;
use nom::branch::alt;
use nom::sequence::preceded;

/// More plates of one kind on a side than any sleeve holds.
const MOST_PLATES: u32 = 20;

/// The load that a text is as a whole.
pub(crate) fn load_in(text: &str) -> Option<Load<'_>> {
    lexed(text, |i| load(i).ok().filter(|(rest, _)| rest.is_empty()).map(|(_, load)| load))
}

/// A load, from its `~` or first term to its last term.
pub(crate) fn load<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Load<'a>> {
    i.expect(Expected::Load);
    let approximate = i.is(b'~');
    let start = if approximate { i.skip(1) } else { i };
    start.expect(Expected::Load);
    let (mut rest, first) = term(start, false)?;
    let is_bodyweight = matches!(first.kind, TermKind::Bodyweight);
    let is_mass = matches!(first.kind, TermKind::Mass(..));
    let mut more = Vec::new();
    while let Some(sign) = sign(rest).filter(|_| is_bodyweight || !is_range(rest)) {
        let next = rest.skip(1);
        next.expect(Expected::Load);
        let (after, next) = match term(next, true) {
            Ok(read) => read,
            // `100 kg -- felt good`: words behind dashes are no term.
            Err(nom::Err::Error(_)) if sign == Sign::Minus && (next.kind() == Kind::Dash || next.is(b'>')) => break,
            Err(nom::Err::Error(_)) => return unread(i, next),
            Err(failure) => return Err(failure),
        };
        // Nobody takes a bar off a mass: `100 kg - felt good` goes on in words.
        let words = matches!(next.kind, TermKind::Named(None, _)) && !next.per_side && !rest.glued();
        if sign == Sign::Minus && words && is_mass {
            break;
        }
        more.push((sign, next));
        rest = after;
    }
    let text = i.upto(rest);
    let range = if ranges(&first, &more, rest) { Some(behind_to(rest).unwrap_or(rest)) } else { None };
    if let Some(end) = range.or(is_range(rest).then_some(rest)) {
        let piece = i.upto(scrap_end(end));
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

/// `120 kg` and `122.5 lb` before a comma or an attribute: nearly every load there is, read without detours.
pub(crate) fn plain<'t, 'a>(i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, Load<'a>)> {
    let (mass, unit, rest) = (i.first(), i.skip(1), i.skip(2));
    if !i.is_number() || mass.value == TOO_LONG {
        return None;
    }
    let mass = Number { thousandths: i64::from(mass.value) };
    let unit = match unit.word() {
        "kg" => Unit::Kg,
        "lb" => Unit::Lb,
        _ => return None,
    };
    let ended = match rest.kind() {
        Kind::End => {
            [Expected::Sign, Expected::Side].into_iter().for_each(|one| rest.expect(one));
            true
        }
        Kind::Comma | Kind::Open => true,
        Kind::Word => rest.is(b'r'),
        Kind::Sign => rest.is(b'!'),
        _ => false,
    };
    let text = i.upto(rest);
    let first = Term { text, kind: TermKind::Mass(1, mass, Some(unit)), per_side: false };
    ended.then_some((rest, Load { text, approximate: false, first, more: Vec::new() }))
}

/// `+` or `-` before a further term.
fn sign(i: Tokens<'_, '_>) -> Option<Sign> {
    i.expect(Expected::Sign);
    match i.kind() {
        Kind::Dash => Some(Sign::Minus),
        Kind::Sign if i.is(b'+') => Some(Sign::Plus),
        _ => None,
    }
}

/// One term. `in_sum`: whether terms stand before it, so that a number and a word can only be plates.
fn term<'t, 'a>(i: Tokens<'t, 'a>, in_sum: bool) -> Reading<'t, 'a, Term<'a>> {
    if i.is_number() { counted(i, in_sum) } else { alt((quoted, pin, bodyweight, named)).parse(i) }
}

fn quoted<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Term<'a>> {
    let (inside, _) = kind(Kind::Quote).parse(i)?;
    let mut end = inside;
    while !end.is_empty() && end.kind() != Kind::Quote {
        end = end.skip(1);
    }
    if end.is_empty() {
        let text = i.text();
        return Trouble::new(K::UnreadLoad { read: text.into() }, text).fail();
    }
    let rest = end.skip(1);
    let text = inside.gap_to(end);
    Ok((rest, Term { text: i.upto(rest), kind: TermKind::Quoted(text), per_side: false }))
}

fn pin<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Term<'a>> {
    let (rest, number) = preceded(word(&["pin"]), number).parse(i)?;
    Ok((rest, Term { text: i.upto(rest), kind: TermKind::Pin(number), per_side: false }))
}

fn bodyweight<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Term<'a>> {
    let apart = i.is_word("body") && i.skip(1).is_word("weight");
    if apart || i.is_word("bodyweight") {
        let piece = i.upto(i.skip(if apart { 2 } else { 1 }));
        return Trouble::new(K::UnreadLoad { read: piece.into() }, piece).fixed("bw").fail();
    }
    let (rest, text) = word(&["bw"]).parse(i)?;
    Ok((rest, Term { text, kind: TermKind::Bodyweight, per_side: false }))
}

/// What begins with a number: a mass, some masses, a percentage, or plates by colour.
fn counted<'t, 'a>(i: Tokens<'t, 'a>, in_sum: bool) -> Reading<'t, 'a, Term<'a>> {
    let (rest, first) = number(i)?;
    if rest.lists() {
        return comma(i, rest).fail();
    }
    let done = |rest, kind, per_side| Ok((rest, Term { text: i.upto(rest), kind, per_side }));
    if rest.is(b'%') {
        return done(rest.skip(1), TermKind::Percent(first), false);
    }
    if let (Some(plates), Some(after)) = (first.as_whole(), rest.behind_times()) {
        if plates == 0 || plates > MOST_PLATES {
            return unread(i, after);
        }
        let (after, each) = number(after)?;
        let (after, unit) = optional(mass_unit(after), after);
        let (after, side) = side(after);
        return done(after, TermKind::Mass(plates, each, unit), side);
    }
    let (after, unit) = optional(mass_unit(rest), rest);
    let (after, on_side) = side(after);
    if unit.is_none() && !on_side {
        if let Some(trouble) = misread(i, rest) {
            return trouble.fail();
        }
        if in_sum {
            // Plates by colour.
            rest.expect(Expected::Load);
        }
        if let Some(plates) = first.as_whole()
            && let Ok((end, words)) = words(rest)
        {
            let (end, on_side) = side(end);
            if in_sum || on_side || (sign(end).is_some() && !is_range(end)) {
                return done(end, TermKind::Named(Some(plates), words), on_side);
            }
        }
        let scrap = |c: char| c.is_alphanumeric() || matches!(c, '.' | '\'' | '/' | '=' | '*' | ':');
        if rest.glued() && rest.first_char().is_some_and(scrap) {
            return unread(i, rest);
        }
    }
    done(after, TermKind::Mass(1, first, unit), on_side)
}

/// `122,5 kg` and `100,2x5`: a comma behind a number, which begins at `i` and ends at `rest`.
fn comma<'a>(i: Tokens<'_, 'a>, rest: Tokens<'_, 'a>) -> Trouble<'a> {
    let next = rest.skip(1);
    // `100,2x5`: the comma parts two groups, and lacks its blank.
    if let Ok((after, Head::Count(count, None))) = head(next)
        && (is_told(&count) || after.kind() == Kind::At)
    {
        let piece = i.through(i.word(), count.text);
        return Trouble::new(K::GroupsRunTogether, piece).fixed_at(rest.upto_gap(next), ", ");
    }
    let mut after = rest;
    while after.lists() {
        after = after.skip(2);
    }
    let piece = i.upto(after);
    let trouble = Trouble::new(K::DecimalComma { read: piece.into() }, piece);
    // Three digits after the comma may as well be thousands, so nothing is offered for those.
    let decimals = piece.rsplit(',').next().map_or(0, str::len);
    let one_comma = piece.matches(',').count() == 1;
    let one = decimals < 3 && one_comma && i.kind() == Kind::Number;
    if one { trouble.fixed(piece.replace(',', ".")) } else { trouble }
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
fn misread<'a>(i: Tokens<'_, 'a>, rest: Tokens<'_, 'a>) -> Option<Trouble<'a>> {
    let unread = |piece: &'a str| Trouble::new(K::UnreadLoad { read: piece.into() }, piece);
    if !rest.is_number() {
        let unit = rest.one_of(&UNITS)?;
        let after = rest.skip(1);
        if rest.kind() == Kind::Word && after.glued() && after.is_number() {
            return None;
        }
        let trouble = unread(i.upto(after));
        return Some(if unit.is_empty() { trouble } else { trouble.fixed(format!("{} {unit}", i.word())) });
    }
    // A number behind a number is the rest of it, or a second load: neither may be left out unseen.
    let (after, _) = number(rest).ok().filter(|_| !rest.glued())?;
    let (end, unit) = optional(mass_unit(after), after);
    let (before, digits) = (i.word(), rest.word());
    let thousands = digits.len() == 3 && rest.kind() == Kind::Number && before.len() == 1;
    let ended = end.is_empty() || !end.glued() || matches!(end.first().first, b',' | b';');
    if unit.is_none() && !(thousands && ended) {
        return None;
    }
    let trouble = unread(i.upto(end));
    let tail = if end.is_at(after) { "" } else { after.gap_to(end).trim_end() };
    Some(if thousands { trouble.fixed(format!("{before}{digits}{tail}")) } else { trouble })
}

/// `110 - 100 kg`, `100 to 110 kg`: a range with blanks, and no difference of two masses.
fn ranges(first: &Term<'_>, more: &[(Sign, Term<'_>)], rest: Tokens<'_, '_>) -> bool {
    let bare = |term: &Term<'_>| matches!(term.kind, TermKind::Mass(1, _, None)) && !term.per_side;
    let mass = |term: &Term<'_>| matches!(term.kind, TermKind::Mass(1, ..)) && !term.per_side;
    match more {
        [(Sign::Minus, second)] => bare(first) && mass(second),
        [] => mass(first) && behind_to(rest).is_some(),
        _ => false,
    }
}

/// What stands after `to` before a number.
fn behind_to<'t, 'a>(i: Tokens<'t, 'a>) -> Option<Tokens<'t, 'a>> {
    (i.is_word("to") && is_number(i.nth(1).kind)).then(|| i.skip(1))
}

/// A bar by name, or one plate by colour.
fn named<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Term<'a>> {
    let (rest, words) = words(i)?;
    let (rest, per_side) = side(rest);
    Ok((rest, Term { text: i.upto(rest), kind: TermKind::Named(None, words), per_side }))
}

/// Words up to the next sign, attribute, or number.
fn words<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, &'a str> {
    let mut rest = i;
    while let Ok((after, ())) = name_word(rest) {
        if starts_attribute(rest) {
            break;
        }
        rest = after;
    }
    if rest.is_at(i) { no_fit(i) } else { Ok((rest, i.upto(rest))) }
}

/// A load that cannot be read, from its start to the end of the scrap that stopped it.
fn unread<'t, 'a, T>(i: Tokens<'t, 'a>, stop: Tokens<'t, 'a>) -> Reading<'t, 'a, T> {
    let piece = i.upto(scrap_end(stop));
    Trouble::new(K::UnreadLoad { read: piece.into() }, piece).fail()
}

fn optional<'t, 'a, T>(reading: Reading<'t, 'a, T>, before: Tokens<'t, 'a>) -> (Tokens<'t, 'a>, Option<T>) {
    match reading {
        Ok((rest, value)) => (rest, Some(value)),
        Err(_) => (before, None),
    }
}
