//! Work lines and set lines: the lift's name, the colon, and what follows it.

use super::attribute::{attribute, close, spaced_number, starts_attribute};
use super::chars::{front, front_trimmed, is_space, keyword, skip_gap};
use super::count::{Head, head};
use super::group::{Place, ends_here, groups, next_sign};
use super::trouble::{Miss, Trouble, trouble_of};
use crate::notation::nodes::{Attribute, AttributeKind, Body, Group, Work};
use crate::problems::{Cost, ProblemKind as K};
use nom::Parser;

/// What stands before and after the colon of a bullet, the colon being the first one that white space or
/// the line's end follows, else the first. Closing emphasis marks after it belong to the name.
pub(crate) fn at_colon(content: &str) -> Option<(&str, &str)> {
    let mut first = None;
    for at in memchr::memchr_iter(b':', content.as_bytes()) {
        let after = content.get(at + 1..).unwrap_or("");
        let value = after.trim_start_matches(['*', '_', '`']);
        if value.is_empty() || value.starts_with(is_space) {
            let closes =
                content.get(..at).is_some_and(|name| after.len() == value.len() || name.contains(['*', '_', '`']));
            if closes {
                return Some((content.get(..at)?, value));
            }
        }
        first = first.or(Some(at));
    }
    let at = first?;
    Some((content.get(..at)?, content.get(at + 1..)?.trim_start_matches(['*', '_', '`'])))
}

/// A lift's name or a key without a task box and emphasis round it.
pub(crate) fn bare_name(name: &str) -> &str {
    // Nearly every name is bare.
    if let [b'A'..=b'Z' | b'a'..=b'z', .., b'a'..=b'z'] = name.as_bytes() {
        return name;
    }
    let name = name.trim_matches(is_space);
    let name = ["[ ]", "[x]", "[X]"].iter().find_map(|mark| name.strip_prefix(mark)).unwrap_or(name);
    name.trim_matches(|c| is_space(c) || matches!(c, '*' | '_' | '`'))
}

/// A line's value without white space round it and without the full stop or comma that ends it.
pub(crate) fn body_of(value: &str) -> &str {
    let value = skip_gap(value).trim_end_matches(is_space);
    match value.strip_suffix(['.', ',']) {
        Some(shorter) => shorter.trim_end_matches(is_space),
        None => value,
    }
}

/// A work line: `name` and `value` are what stands before and after its colon.
pub(crate) fn work<'a>(name: &'a str, value: &'a str, troubles: &mut Vec<Trouble<'a>>) -> Work<'a> {
    let bare = bare_name(name);
    let known = troubles.len();
    if bare.is_empty() {
        troubles.push(Trouble::new(K::NoLiftName, name));
    }
    let text = body_of(value);
    let body = if text.is_empty() {
        Body::Nothing
    } else {
        whole_line(text, troubles)
            .unwrap_or_else(|| Body::Groups(groups(text, Place { plan: false, carried: false }, troubles)))
    };
    Work { name: bare, body, lost: costs_line(troubles, known) }
}

/// Whether a trouble noted since `known` costs the line.
pub(crate) fn costs_line(troubles: &[Trouble<'_>], known: usize) -> bool {
    troubles.get(known..).is_some_and(|new| new.iter().any(|trouble| trouble.kind.cost() == Cost::Line))
}

/// `skipped (knee)` and `as planned RPE 7`.
fn whole_line<'a>(text: &'a str, troubles: &mut Vec<Trouble<'a>>) -> Option<Body<'a>> {
    if !text.starts_with(['s', 'S', 'a', 'A']) {
        return None;
    }
    if let Ok((rest, _)) = keyword("skipped").parse(text) {
        let rest = skip_gap(rest);
        let remark = match rest.starts_with('(').then(|| attribute(rest)) {
            Some(Ok(("", Attribute { kind: AttributeKind::Remark(remark), .. }))) => Some(remark),
            _ if rest.is_empty() => None,
            _ => {
                let inner = rest.trim_start_matches(|c: char| is_space(c) || matches!(c, ',' | '-' | ':' | '\u{2013}'));
                let trouble = Trouble::new(K::UnreadWords { read: rest.into() }, rest);
                let plain = !inner.is_empty() && !inner.contains(['(', ')']);
                troubles.push(if plain { trouble.fixed(format!("({inner})")) } else { trouble });
                None
            }
        };
        return Some(Body::Skipped(remark));
    }
    let planned = (keyword("as"), super::chars::gap, keyword("planned"));
    let mut planned = planned;
    let (mut rest, _) = planned.parse(text).ok()?;
    let words = super::chars::front(text, rest);
    let mut attributes: Vec<Attribute<'a>> = Vec::new();
    rest = skip_gap(rest);
    while !rest.is_empty() {
        if starts_attribute(rest) {
            match attribute(rest) {
                Ok((after, read)) => {
                    attributes.push(read);
                    rest = skip_gap(after);
                }
                Err(error) => {
                    let Some(trouble) = trouble_of(error) else { break };
                    rest = skip_gap(super::chars::past(rest, trouble.piece));
                    troubles.push(trouble);
                }
            }
            continue;
        }
        if let Some((after, trouble)) = attributes.last().and_then(|last| spaced_efforts(text, last, rest)) {
            attributes.pop();
            rest = skip_gap(after);
            troubles.push(trouble);
            continue;
        }
        let comma = rest.strip_prefix(',').map(skip_gap).filter(|next| starts_attribute(next));
        if let Some(next) = comma {
            let piece = front_trimmed(next, next_sign(next.get(1..).unwrap_or("")));
            let before = front_trimmed(text, rest);
            let blank = front(super::chars::past(text, before), next);
            let kind = K::AttributeAfterComma { read: piece.into() };
            troubles.push(Trouble::new(kind, piece).fixed_at(blank, " "));
            rest = next;
            continue;
        }
        // Commas and what stands between them are one run of words, up to an attribute.
        let mut after = next_sign(rest.get(rest.chars().next().map_or(0, char::len_utf8)..).unwrap_or(""));
        while let Some(next) = after.strip_prefix([',', ';', '@']).filter(|next| !starts_attribute(skip_gap(next))) {
            after = next_sign(next);
        }
        let piece = front_trimmed(rest, after);
        let trouble = Trouble::new(K::UnreadWords { read: piece.into() }, piece);
        let words = piece.starts_with(char::is_alphabetic) && !piece.contains(['(', ')']);
        troubles.push(if words { trouble.fixed(format!("({piece})")) } else { trouble });
        rest = after;
    }
    Some(Body::AsPlanned(attributes, words))
}

/// `as planned RPE 6, 7, 7`: the efforts of the plan's sets, listed with blanks. Whether they are as many shows only
/// with the plan.
fn spaced_efforts<'a>(text: &'a str, last: &Attribute<'a>, i: &'a str) -> Option<(&'a str, Trouble<'a>)> {
    let single = match &last.kind {
        AttributeKind::Effort(_, low, high) => low == high,
        AttributeKind::Efforts(..) => true,
        _ => false,
    };
    let directly = skip_gap(super::chars::past(text, last.text)).len() == i.len();
    if !single || !directly {
        return None;
    }
    let mut end = i;
    while let Ok((after, _)) = spaced_number(end) {
        end = after;
    }
    let next = skip_gap(end);
    if end.len() == i.len() || !(next.is_empty() || starts_attribute(next)) {
        return None;
    }
    let from = super::chars::past(text, super::chars::before(text, last.text));
    let piece = front(from, end);
    let (keyword, numbers) = piece.split_at_checked(3)?;
    let list: Vec<&str> = numbers.split(|c| is_space(c) || c == ',').filter(|part| !part.is_empty()).collect();
    Some((end, Trouble::new(K::EffortListSpaced, piece).fixed(format!("{keyword} {}", list.join(",")))))
}

/// Whether a keyless bullet is a set line: a count, and then its end, a comma, an attribute, or `@`; or a
/// load joined to a count by `x`.
pub(crate) fn is_set_line(content: &str) -> bool {
    let content = body_of(content);
    match head(content) {
        Ok((_, Head::Count(_, Some(_)))) => true,
        Ok((rest, Head::Count(_, None))) => {
            let next = skip_gap(rest);
            let apart = next.len() < rest.len() || next.is_empty() || next.starts_with([',', ';', '@', '(', '!']);
            apart && (next.is_empty() || next.starts_with([',', ';', '@']) || starts_attribute(next))
        }
        Ok((rest, Head::Mass(_))) => head(skip_gap(rest)).is_ok_and(|(_, head)| matches!(head, Head::Count(..))),
        // A count that is wrong in itself, such as 0x8 or 245x10.
        Err(nom::Err::Failure(Miss { trouble: Some(trouble), .. })) => {
            let next = skip_gap(super::chars::past(content, trouble.piece));
            next.is_empty() || next.starts_with([',', '@']) || starts_attribute(next)
        }
        Err(_) => false,
    }
}

/// The sets of a set line.
pub(crate) fn set_line<'a>(content: &'a str, carried: bool, troubles: &mut Vec<Trouble<'a>>) -> Vec<Group<'a>> {
    let known = troubles.len();
    let groups = groups(body_of(content), Place { plan: false, carried }, troubles);
    if costs_line(troubles, known) { Vec::new() } else { groups }
}

/// Whether a text holds a count directly before an `@`, and where that count begins.
pub(crate) fn count_before_at(content: &str) -> Option<usize> {
    let at = memchr::memchr(b'@', content.as_bytes())?;
    let before = content.get(..at)?.trim_end_matches(is_space);
    let starts = before.char_indices().filter(|(start, c)| {
        let fresh = *start == 0 || before.get(..*start).is_some_and(|b| b.ends_with(is_space));
        fresh && (c.is_ascii_digit() || c.eq_ignore_ascii_case(&'a'))
    });
    starts
        .map(|(start, _)| start)
        .find(|start| before.get(*start..).is_some_and(|piece| matches!(head(piece), Ok(("", Head::Count(..))))))
}

/// Whether a bullet would be work if it stood in its place. A lone number after a colon is left alone: prose is
/// full of those.
pub(crate) fn would_be_work(name: &str, value: &str) -> bool {
    let text = body_of(value);
    if bare_name(name).is_empty() || !text.starts_with(|c: char| c.is_ascii_digit()) {
        return false;
    }
    // Work with a fault in it is work all the same.
    let counted = matches!(head(text), Ok((rest, Head::Count(count, load)))
        if ends_here(rest) && (load.is_some() || count.text.contains(['x', 'X', '×'])));
    counted || count_before_at(text) == Some(0) || reads_as_work(name, value)
}

/// Whether a bullet would be work without a fault.
pub(crate) fn reads_as_work(name: &str, value: &str) -> bool {
    let text = body_of(value);
    if bare_name(name).is_empty() || !text.starts_with(|c: char| c.is_ascii_digit()) {
        return false;
    }
    let mut troubles = Vec::new();
    let groups = groups(text, Place { plan: false, carried: false }, &mut troubles);
    let telling = |group: &Group<'_>| {
        group.load.is_some() || !group.attributes.is_empty() || group.count.text.contains(['x', 'X', '×', ','])
    };
    troubles.is_empty() && groups.first().is_some_and(telling)
}

/// Whether the notation reads sets without a fault.
pub(crate) fn reads_in_full(sets: &str) -> bool {
    let mut troubles = Vec::new();
    let read = groups(sets, Place { plan: false, carried: true }, &mut troubles);
    troubles.is_empty() && !read.is_empty()
}

/// The text after a remark in parentheses at its end, and the text before it.
pub(crate) fn without_remark(value: &str) -> &str {
    let value = value.trim_matches(is_space);
    let Some(open) = value.find('(') else { return value };
    match value.get(open..).and_then(close) {
        Some("") => value.get(..open).unwrap_or(value).trim_end_matches(is_space),
        _ => value,
    }
}
