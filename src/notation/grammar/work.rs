//! Work lines and set lines: what follows a lift's name and its colon.

use super::attribute::{attribute, spaced_number};
use super::count::{Head, head, is_told};
use super::group::{Place, groups, list_spaced};
use super::keys::bare_name;
use super::lexer::{Kind, is_space};
use super::signs::{close, sign_behind, starts_attribute};
use super::tokens::Tokens;
use super::trouble::{Miss, Trouble, trouble_of};
use crate::notation::expected::Expected;
use crate::notation::nodes::{Amount, Attribute, AttributeKind, Body, Count, Group, Sets, Work};
use crate::problems::{Cost, ProblemKind as K};

/// A line's value without the full stop or comma that ends it.
pub(crate) fn body<'t, 'a>(value: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    let last = value.skip((value.len() as u32).saturating_sub(1));
    if matches!(last.first().first, b'.' | b',') { value.without_last() } else { value }
}

/// The same of sets: behind a comma more of them may stand.
pub(crate) fn sets_of<'t, 'a>(value: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    let body = body(value);
    if body.len() < value.len() && !value.skip(body.len() as u32).is(b'.') {
        value.skip(value.len() as u32).expect(Expected::Count);
    }
    body
}

/// The value before a remark in parentheses at its end.
pub(crate) fn without_remark<'t, 'a>(value: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    let mut open = value;
    while !open.is_empty() && open.kind() != Kind::Open {
        open = open.skip(1);
    }
    if close(open).is_some_and(Tokens::is_empty) { value.until(open) } else { value }
}

/// A work line: the lift's name, and the tokens behind its colon.
pub(crate) fn work<'a>(name: &'a str, value: Tokens<'_, 'a>, troubles: &mut Vec<Trouble<'a>>) -> Work<'a> {
    let bare = bare_name(name);
    let known = troubles.len();
    if bare.is_empty() {
        troubles.push(Trouble::new(K::NoLiftName, name));
    }
    let i = sets_of(value);
    i.expect(Expected::Count);
    i.expect(Expected::Planned);
    let body = if i.is_empty() {
        Body::Nothing
    } else {
        skipped(i, troubles)
            .or_else(|| as_planned(i, troubles))
            .unwrap_or_else(|| Body::Groups(groups(i, Place { plan: false, carried: false }, troubles)))
    };
    Work { name: bare, body, lost: costs_line(troubles, known) }
}

/// Whether a trouble noted since `known` costs the line.
pub(crate) fn costs_line(troubles: &[Trouble<'_>], known: usize) -> bool {
    troubles.get(known..).is_some_and(|new| new.iter().any(|trouble| trouble.kind.cost() == Cost::Line))
}

/// `skipped (knee)`
fn skipped<'a>(i: Tokens<'_, 'a>, troubles: &mut Vec<Trouble<'a>>) -> Option<Body<'a>> {
    if !i.is_word("skipped") {
        return None;
    }
    let rest = i.skip(1);
    rest.expect(Expected::Remark);
    if rest.is_empty() {
        return Some(Body::Skipped(None));
    }
    if let Ok((end, Attribute { kind: AttributeKind::Remark(remark), .. })) = attribute(rest)
        && end.is_empty()
    {
        return Some(Body::Skipped(Some(remark)));
    }
    let text = rest.text();
    let inner = text.trim_start_matches(|c: char| is_space(c) || matches!(c, ',' | '-' | ':' | '\u{2013}'));
    let trouble = Trouble::new(K::UnreadWords { read: text.into() }, text);
    let plain = !inner.is_empty() && !inner.contains(['(', ')']);
    troubles.push(if plain { trouble.fixed(format!("({inner})")) } else { trouble });
    Some(Body::Skipped(None))
}

/// `as planned RPE 7`
fn as_planned<'a>(i: Tokens<'_, 'a>, troubles: &mut Vec<Trouble<'a>>) -> Option<Body<'a>> {
    if !(i.is_word("as") && i.skip(1).is_word("planned")) {
        return None;
    }
    let mut rest = i.skip(2);
    let words = i.upto(rest);
    let mut attributes: Vec<Attribute<'a>> = Vec::new();
    let mut directly = false;
    while starts_attribute(rest) || !rest.is_empty() {
        let behind = std::mem::take(&mut directly);
        if starts_attribute(rest) {
            match attribute(rest) {
                Ok((after, read)) => {
                    attributes.push(read);
                    rest = after;
                    directly = true;
                }
                Err(error) => {
                    let Some(trouble) = trouble_of(error) else { break };
                    let after = rest.past(trouble.piece);
                    rest = if after.is_at(rest) { rest.skip(1) } else { after };
                    troubles.push(trouble);
                }
            }
            continue;
        }
        if let Some((after, trouble)) = attributes.last().filter(|_| behind).and_then(|last| spaced_efforts(last, rest))
        {
            attributes.pop();
            rest = after;
            troubles.push(trouble);
            continue;
        }
        let next = rest.skip(1);
        if rest.kind() == Kind::Comma && starts_attribute(next) {
            let piece = next.upto(sign_behind(next.skip(1)));
            let kind = K::AttributeAfterComma { read: piece.into() };
            troubles.push(Trouble::new(kind, piece).fixed_at(rest.gap_to(next), " "));
            rest = next;
            continue;
        }
        // Commas and what stands between them are one run of words, up to an attribute.
        let mut after = sign_behind(next);
        while matches!(after.first().first, b',' | b';' | b'@') && !starts_attribute(after.skip(1)) {
            after = sign_behind(after.skip(1));
        }
        let piece = rest.upto(after);
        let trouble = Trouble::new(K::UnreadWords { read: piece.into() }, piece);
        let words = piece.starts_with(char::is_alphabetic) && !piece.contains(['(', ')']);
        troubles.push(if words { trouble.fixed(format!("({piece})")) } else { trouble });
        rest = after;
    }
    Some(Body::AsPlanned(attributes, words))
}

/// `as planned RPE 6, 7, 7`: the efforts of the plan's sets, listed with blanks. Whether they are as many shows only
/// with the plan.
fn spaced_efforts<'t, 'a>(last: &Attribute<'a>, i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, Trouble<'a>)> {
    let single = match &last.kind {
        AttributeKind::Effort(_, low, high) => low == high,
        AttributeKind::Efforts(..) => true,
        _ => false,
    };
    let mut end = i;
    while let Some((after, _)) = spaced_number(end).ok().filter(|_| single) {
        end = after;
    }
    if end.is_at(i) || !(end.is_empty() || starts_attribute(end)) {
        return None;
    }
    Some((end, list_spaced(i.through(last.text, i.upto(end)), false)?))
}

/// Whether a keyless bullet is a set line: a count, and then its end, a comma, an attribute, or `@`; or a
/// load joined to a count by `x`.
pub(crate) fn is_set_line(content: Tokens<'_, '_>) -> bool {
    let parted = |i: Tokens<'_, '_>| i.is_empty() || matches!(i.first().first, b',' | b'@') || starts_attribute(i);
    let i = body(content);
    match head(i) {
        Ok((_, Head::Count(_, Some(_)))) => true,
        Ok((rest, Head::Count(_, None))) => !rest.runs_on() && (rest.is(b';') || parted(rest)),
        Ok((rest, Head::Mass(_))) => matches!(head(rest), Ok((_, Head::Count(..)))),
        // A count that is wrong in itself, such as 0x8 or 245x10.
        Err(nom::Err::Failure(Miss { trouble: Some(trouble), .. })) => parted(i.past(trouble.piece)),
        Err(_) => false,
    }
}

/// The sets of a set line.
pub(crate) fn set_line<'a>(content: Tokens<'_, 'a>, carried: bool, troubles: &mut Vec<Trouble<'a>>) -> Vec<Group<'a>> {
    let known = troubles.len();
    let groups = groups(sets_of(content), Place { plan: false, carried }, troubles);
    if costs_line(troubles, known) { Vec::new() } else { groups }
}

/// Whether a text holds a count directly before an `@`, and where that count begins.
pub(crate) fn count_before_at(content: Tokens<'_, '_>) -> Option<u32> {
    let mut at = content;
    while !at.is_empty() && at.kind() != Kind::At {
        at = at.skip(1);
    }
    let mut start = content.until(at);
    while !at.is_empty() && !start.is_empty() {
        let fresh = !start.glued() && (start.is_number() || start.is(b'a'));
        match head(start) {
            Ok((rest, Head::Count(..))) if fresh && rest.is_empty() => return Some(start.first().start),
            Ok((rest, _)) if fresh => start = rest,
            _ => start = start.skip(1),
        }
    }
    None
}

/// Whether a bullet would be work if it stood in its place. A lone number after a colon is left alone: prose is
/// full of those.
pub(crate) fn would_be_work(name: &str, value: Tokens<'_, '_>) -> bool {
    let i = body(value);
    if bare_name(name).is_empty() || !i.is_number() {
        return false;
    }
    // Work with a fault in it is work all the same.
    let counted = matches!(head(i), Ok((rest, Head::Count(count, load)))
        if !rest.runs_on() && (load.is_some() || is_told(&count)));
    counted || count_before_at(i) == Some(i.first().start) || reads_as_work(name, value)
}

/// Whether a bullet would be work without a fault.
pub(crate) fn reads_as_work(name: &str, value: Tokens<'_, '_>) -> bool {
    let i = body(value);
    if bare_name(name).is_empty() || !i.is_number() {
        return false;
    }
    let mut troubles = Vec::new();
    let groups = groups(i, Place { plan: false, carried: false }, &mut troubles);
    let telling = |group: &Group<'_>| {
        group.load.is_some() || !group.attributes.is_empty() || is_told(&group.count) || group.count.text.contains(',')
    };
    troubles.is_empty() && groups.first().is_some_and(telling)
}

/// Whether a text begins with sets of so many: `3x8`, `12+4+4`.
pub(crate) fn begins_with_count(i: Tokens<'_, '_>) -> bool {
    let bouts = |count: &Count<'_>| matches!(count.sets, Sets::Times { each: Amount::Bouts(_), .. });
    matches!(head(i), Ok((_, Head::Count(count, _))) if is_told(&count) || bouts(&count))
}

/// The groups of a text that the notation reads without a fault.
pub(crate) fn in_full<'a>(sets: Tokens<'_, 'a>) -> Option<Vec<Group<'a>>> {
    let mut troubles = Vec::new();
    let read = groups(sets, Place { plan: false, carried: true }, &mut troubles);
    (troubles.is_empty() && !read.is_empty()).then_some(read)
}

#[cfg(test)]
mod tests {
    use super::work;
    use crate::notation::grammar::tokens::{LOOKS, lexed};

    /// How often a line's tokens are looked at, where a piece stands so many times in it.
    fn looks(head: &str, piece: &str, times: usize) -> u64 {
        let line = head.to_owned() + &piece.repeat(times);
        LOOKS.with(|looks| looks.set(0));
        lexed(&line, |i| work("Front squat", i, &mut Vec::new()));
        LOOKS.with(std::cell::Cell::get)
    }

    #[test]
    fn a_line_of_twice_the_length_is_twice_the_work() {
        let lines = [
            ("3x8 @ 20 kg", " + 3x25 kg/side"),
            ("3x8 @ bar", " + 2 mauve/side"),
            ("3x8 @ 20 kg", " + ?"),
            ("3x8 @ 20 kg", " !depth"),
            ("3x8 @ 20 kg", " !fault-of-form("),
            ("3x8 @ 20 kg", " RPE 77"),
            ("3x8 @ 20 kg", " rest rest"),
            ("3x8", " @ 1 000 kg"),
            ("3x8", ", @"),
            ("3x8", ", RPE 7"),
            ("3x8", " (slow"),
            ("3x8 @ 60 kg", ", 5x"),
            ("8", ",8"),
            ("8", "+4"),
            ("8", " + 4"),
            ("3", "x3"),
            ("", "\""),
            ("", "120 kg "),
            ("as planned", " RPE 77"),
            ("as planned", ", well"),
            ("skipped", " ("),
            ("3x8", "<!--"),
        ];
        for (head, piece) in lines {
            let (once, twice) = (looks(head, piece, 500), looks(head, piece, 1000));
            assert!(once > 0 && twice * 10 < once * 22, "{head}{piece}: {once}, then {twice}");
        }
    }
}
