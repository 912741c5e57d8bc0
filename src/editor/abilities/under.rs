//! What stands under a place of a page, told by the tree.

use crate::notation::Reader;
use crate::notation::nodes::{BlockKey, Body, Detail, DetailKey, Group, Line, LineKind};
use crate::source::{Page, Span};
use chrono::NaiveDate;

/// A thing that the tree knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Thing<'p> {
    /// A lift's name.
    Lift(&'p str),
    /// How many sets of how much.
    Count(&'p str),
    /// A load, without the `@`.
    Load(&'p str),
    /// An effort, a rest and the like.
    Attribute(&'p str),
    /// `as planned`
    AsPlanned(&'p str),
    /// A session's date.
    Date(&'p str, NaiveDate),
    /// A session's label.
    Day(&'p str),
    /// A block's name.
    Block(&'p str),
    /// A key, and of what kind of line.
    Key(&'p str),
}

impl<'p> Thing<'p> {
    /// As written.
    pub(crate) fn text(self) -> &'p str {
        match self {
            Thing::Lift(text) | Thing::Count(text) | Thing::Load(text) | Thing::Attribute(text) => text,
            Thing::AsPlanned(text) | Thing::Date(text, _) | Thing::Day(text) | Thing::Block(text) => text,
            Thing::Key(text) => text,
        }
    }
}

/// A thing with its place and the number of its line, from 1.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Under<'p> {
    /// The thing.
    pub(crate) thing: Thing<'p>,
    /// Where it stands.
    pub(crate) span: Span,
    /// In which line.
    pub(crate) line: u32,
}

/// What stands under a byte of a page.
pub(crate) fn under(page: &Page, offset: usize) -> Option<Under<'_>> {
    let (number, line) = (1..).zip(Reader::new(page)).find(|(_, line)| {
        let span = Span::of(page.text(), line.text);
        let ends = line.text.ends_with('\n');
        offset < span.end as usize || (offset == span.end as usize && !ends)
    })?;
    all(&line).into_iter().find_map(|thing| {
        let span = Span::of(page.text(), thing.text());
        let holds = (span.start as usize..=span.end as usize).contains(&offset) && !span.is_empty();
        holds.then_some(Under { thing, span, line: number })
    })
}

/// Everything the tree knows of a page, line by line.
pub(crate) fn everything(page: &Page) -> impl Iterator<Item = Under<'_>> {
    let text = page.text();
    (1..).zip(Reader::new(page)).flat_map(move |(number, line)| {
        all(&line).into_iter().map(move |thing| Under { thing, span: Span::of(text, thing.text()), line: number })
    })
}

/// The things of a line, in order.
pub(crate) fn all<'p>(line: &Line<'p>) -> Vec<Thing<'p>> {
    let mut all = Vec::new();
    match &line.kind {
        LineKind::Block(heading) => all.push(Thing::Block(heading.name)),
        LineKind::BlockKey(_, key) => {
            all.extend(key_of(line.text));
            if let Some(BlockKey::Max { lift, load }) = key.as_deref().map(|key| &key.value) {
                all.extend([Thing::Lift(lift), Thing::Load(load.text)]);
            }
        }
        LineKind::Session(heading) => {
            all.push(Thing::Date(heading.date.text, heading.date.value));
            all.extend(heading.day.map(Thing::Day));
            all.extend(heading.block.map(Thing::Block));
        }
        LineKind::Fact(_) | LineKind::SessionNote(_) => all.extend(key_of(line.text)),
        LineKind::Work(work) => {
            all.push(Thing::Lift(work.name));
            match &work.body {
                Body::AsPlanned(attributes, words) => {
                    all.push(Thing::AsPlanned(words.trim_end()));
                    all.extend(attributes.iter().map(|attribute| Thing::Attribute(attribute.text)));
                }
                Body::Groups(groups) => of_groups(groups, &mut all),
                Body::Nothing | Body::Skipped(_) => {}
            }
        }
        LineKind::SetLine(groups) => of_groups(groups, &mut all),
        LineKind::Detail(detail) => {
            all.extend(key_of(line.text));
            of_detail(detail, &mut all);
        }
        _ => {}
    }
    all
}

fn of_detail<'p>(detail: &Detail<'p>, all: &mut Vec<Thing<'p>>) {
    if detail.key == DetailKey::InsteadOf {
        all.push(Thing::Lift(detail.text.trim()));
    }
    of_groups(&detail.groups, all);
}

fn of_groups<'p>(groups: &[Group<'p>], all: &mut Vec<Thing<'p>>) {
    for group in groups {
        all.push(Thing::Count(group.count.text));
        all.extend(group.load.as_ref().map(|load| Thing::Load(load.text)));
        all.extend(group.attributes.iter().map(|attribute| Thing::Attribute(attribute.text)));
    }
}

/// The key before a line's colon.
fn key_of(line: &str) -> Option<Thing<'_>> {
    let (before, _) = line.split_once(':')?;
    let key = before.trim_start_matches(|c: char| !c.is_alphanumeric()).trim_end();
    let key = key.trim_end_matches(['*', '_', '`']);
    (!key.is_empty()).then_some(Thing::Key(key))
}
