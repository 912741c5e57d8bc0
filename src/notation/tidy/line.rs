//! The edits of a line, by its kind.

use super::pen::Pen;
use super::spacing::body_of;
use super::{group, heading, spacing, value};
use crate::notation::grammar::keys::{self, bare_name};
use crate::notation::grammar::lexer::{skip_gap, trim_end};
use crate::notation::nodes::{Body, Detail, DetailKey, LineKind, Work};

/// How a lift's name is to be spelled, where that is known.
pub type Names<'n> = &'n dyn Fn(&str) -> Option<String>;

/// The edits of a line without its line end.
pub(super) fn put<'a>(pen: &mut Pen<'a>, text: &'a str, kind: &LineKind<'a>, names: Names<'_>) -> Option<()> {
    match kind {
        LineKind::Block(block) => heading::block(pen, text, block.name),
        LineKind::Session(_) => heading::session(pen, text),
        LineKind::Work(work) => self::work(pen, text, work, names),
        LineKind::SetLine(groups) => {
            let content = spacing::bullet(pen, text);
            let last = group::groups(pen, content, groups)?;
            spacing::end(pen, last, text);
            Some(())
        }
        LineKind::Detail(detail) => self::detail(pen, text, detail, names),
        LineKind::SessionNote(_) => {
            let value = key(pen, text)?;
            words(pen, value);
            Some(())
        }
        LineKind::Fact(Some(fact)) => {
            let value = key(pen, text)?;
            value::fact(pen, text, value, fact);
            Some(())
        }
        LineKind::BlockKey(_, Some(block_key)) => {
            let value = key(pen, text)?;
            value::block_key(pen, text, value, block_key, |pen, name| lift(pen, name, names));
            Some(())
        }
        LineKind::Fact(None)
        | LineKind::BlockKey(_, None)
        | LineKind::Prose
        | LineKind::Opaque
        | LineKind::MergeMarker
        | LineKind::BadSession
        | LineKind::Heading { .. } => None,
    }
}

/// The bullet, the key and the colon of a line; gives the value.
fn key<'a>(pen: &mut Pen<'a>, text: &'a str) -> Option<&'a str> {
    let content = spacing::bullet(pen, text);
    let (name, value) = spacing::colon(pen, content)?;
    if let Some(spelled) = keys::spelling(name) {
        pen.put(name, spelled);
    }
    Some(value)
}

/// A value that is the lifter's own words.
fn words(pen: &mut Pen<'_>, value: &str) {
    let body = skip_gap(value);
    spacing::before_body(pen, value, body);
}

fn lift(pen: &mut Pen<'_>, name: &str, names: Names<'_>) {
    if let Some(spelled) = names(name) {
        pen.put(name, &spelled);
    }
}

fn work<'a>(pen: &mut Pen<'a>, text: &'a str, work: &Work<'a>, names: Names<'_>) -> Option<()> {
    let content = spacing::bullet(pen, text);
    let (_, value) = spacing::colon(pen, content)?;
    lift(pen, work.name, names);
    let body = body_of(value);
    spacing::before_body(pen, value, body);
    let last = match &work.body {
        Body::Nothing => value.get(..0)?,
        Body::Skipped(_) => {
            let (word, rest) = body.split_at_checked("skipped".len())?;
            pen.put(word, "skipped");
            let remark = skip_gap(rest);
            if !remark.is_empty() {
                pen.gap(pen.between(word, remark)?, " ", "");
            }
            body
        }
        Body::AsPlanned(attributes, words) => {
            let words = trim_end(words);
            if !words.contains("<!--") {
                pen.put(words, "as planned");
            }
            group::attributes(pen, words, attributes)
        }
        Body::Groups(groups) => group::groups(pen, body, groups)?,
    };
    spacing::end(pen, last, text);
    Some(())
}

fn detail<'a>(pen: &mut Pen<'a>, text: &'a str, detail: &Detail<'a>, names: Names<'_>) -> Option<()> {
    let value = key(pen, text)?;
    match detail.key {
        DetailKey::Plan | DetailKey::WarmUp => {
            let body = body_of(value);
            spacing::before_body(pen, value, body);
            if let Some(last) = group::groups(pen, body, &detail.groups) {
                spacing::end(pen, last, text);
            }
        }
        DetailKey::InsteadOf => {
            words(pen, value);
            let name = detail.text.trim_end_matches(['.', ',']);
            lift(pen, bare_name(name), names);
            pen.gap(pen.behind(name, text)?, "", ".,");
        }
        _ => words(pen, value),
    }
    Some(())
}
