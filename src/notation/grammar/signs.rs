//! Where something can begin: the keywords and signs of attributes, and the next of them behind a fault.

use super::lexer::{Kind, UNCLOSED};
use super::tokens::{Tokens, is_number};
use crate::notation::expected::Expected;
use crate::notation::nodes::Keyword;

/// The keyword of an attribute.
pub(crate) fn keyword(i: Tokens<'_, '_>) -> Option<Keyword> {
    if i.is_empty() {
        i.expect(Expected::Effort);
        i.expect(Expected::Attribute);
        return None;
    }
    if !Keyword::may_begin_with(i.first().first) {
        return None;
    }
    Keyword::ALL.into_iter().find(|keyword| i.is_word(keyword.word()))
}

/// Whether an attribute begins here.
pub(crate) fn starts_attribute(i: Tokens<'_, '_>) -> bool {
    if i.is_empty() {
        i.expect(Expected::Fault);
        i.expect(Expected::Remark);
    }
    matches!(i.first().first, b'(' | b'!') || keyword(i).is_some()
}

/// What stands after the parenthesis that closes the one that begins here.
pub(crate) fn close<'t, 'a>(i: Tokens<'t, 'a>) -> Option<Tokens<'t, 'a>> {
    let first = i.first();
    let past = first.value.wrapping_add(1).wrapping_sub(i.place());
    (first.kind == Kind::Open && first.value != UNCLOSED && past as usize <= i.len()).then(|| i.skip(past))
}

/// The next place behind the first token at which something can begin: a top-level comma, an `@`, or an attribute after
/// a blank. Commas and `@` count at the first token too.
pub(crate) fn next_sign<'t, 'a>(i: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    scan(i, false)
}

/// The same where what was read ends before the first token, so that an attribute may begin there.
pub(crate) fn sign_behind<'t, 'a>(i: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    scan(i, !i.glued())
}

fn scan<'t, 'a>(i: Tokens<'t, 'a>, mut behind: bool) -> Tokens<'t, 'a> {
    let mut rest = i;
    let mut previous = Kind::End;
    while !rest.is_empty() {
        let first = rest.first();
        let begins = match first.kind {
            Kind::Comma => !(rest.lists() && is_number(previous)),
            Kind::At => true,
            _ if first.first == b';' => true,
            _ => behind && (!first.glued || matches!(first.first, b'(' | b'!')) && starts_attribute(rest),
        };
        if begins {
            return rest;
        }
        (previous, behind) = (first.kind, true);
        rest = rest.skip(1);
        if first.kind == Kind::Quote {
            let mut inside = rest;
            while !inside.is_empty() && inside.kind() != Kind::Quote {
                inside = inside.skip(1);
            }
            rest = if inside.is_empty() { rest } else { inside.skip(1) };
        }
    }
    rest
}

/// The next top-level comma, or the end.
pub(crate) fn segment_end<'t, 'a>(i: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    let mut rest = sign_behind(i);
    while !rest.is_empty() && rest.kind() != Kind::Comma {
        rest = sign_behind(close(rest).unwrap_or(rest.skip(1)));
    }
    rest
}

/// Behind the scrap that stands here: all that is glued, up to a comma or a parenthesis.
pub(crate) fn scrap_end<'t, 'a>(i: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    let mut rest = i;
    while !rest.is_empty() && (rest.is_at(i) || rest.glued()) && !matches!(rest.kind(), Kind::Comma | Kind::Open) {
        rest = rest.skip(1);
    }
    rest
}

/// Where the value after a keyword ends, if one stands there that is no attribute of its own.
pub(crate) fn value_end<'t, 'a>(after: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    if after.is_empty() || starts_attribute(after) || matches!(after.first().first, b',' | b';' | b'@') {
        return after;
    }
    let mut rest = after.skip(1);
    while rest.glued() && (!matches!(rest.first().first, b',' | b';' | b'(' | b'!') || rest.lists()) {
        rest = rest.skip(1);
    }
    rest
}
