//! Groups of sets: each part in its spelling, and the parts in order: count, load, attributes.

use super::pen::{Pen, is_gap};
use super::spelling;
use crate::notation::nodes::{Attribute, Group};
use crate::source::{Cut, Span};
use std::borrow::Cow;

/// What may stand between a count and a load.
const SIGNS: &str = "@xX×";

/// A part of a group.
struct Part<'a> {
    text: &'a str,
    spelled: Cow<'a, str>,
    is: Is,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Is {
    Count,
    Load,
    Attribute,
}

/// The groups of a line; gives the last part of them.
pub(super) fn groups<'a>(pen: &mut Pen<'a>, text: &'a str, groups: &[Group<'a>]) -> Option<&'a str> {
    let mut last: Option<&'a str> = None;
    for group in groups {
        let parts = parts(text, group);
        let (first, end) = (parts.first()?.text, parts.last()?.text);
        if let Some(gap) = last.and_then(|last| pen.between(last, first))
            && gap.matches(',').count() == 1
        {
            pen.gap(gap, ", ", ",");
        }
        put(pen, &parts);
        last = Some(end);
    }
    last
}

/// A group by itself, in its spelling.
pub(crate) fn spelled(group: &Group<'_>) -> String {
    let load = group.load.as_ref().map(|load| format!(" @ {}", spelling::load(load)));
    let attributes = group.attributes.iter().map(|attribute| format!(" {}", spelling::attribute(attribute)));
    std::iter::once(spelling::count(group.count.text).into_owned()).chain(load).chain(attributes).collect()
}

/// Attributes after something else, one blank before each; gives the last of them, or what stands before.
pub(super) fn attributes<'a>(pen: &mut Pen<'a>, before: &'a str, attributes: &[Attribute<'a>]) -> &'a str {
    let mut last = before;
    for attribute in attributes {
        if let Some(gap) = pen.between(last, attribute.text) {
            pen.gap(gap, " ", "");
        }
        pen.put(attribute.text, &spelling::attribute(attribute));
        last = attribute.text;
    }
    last
}

/// The parts of a group, in the order written.
fn parts<'a>(text: &'a str, group: &Group<'a>) -> Vec<Part<'a>> {
    let count = Part { text: group.count.text, spelled: spelling::count(group.count.text), is: Is::Count };
    let mut parts = vec![count];
    parts.extend(group.load.as_ref().map(|load| Part { text: load.text, spelled: spelling::load(load), is: Is::Load }));
    parts.extend(group.attributes.iter().map(|attribute| Part {
        text: attribute.text,
        spelled: spelling::attribute(attribute),
        is: Is::Attribute,
    }));
    parts.sort_by_key(|part| Span::of(text, part.text));
    parts
}

/// Puts each part in its spelling, the load behind the count, and what belongs between them.
fn put<'a>(pen: &mut Pen<'a>, parts: &[Part<'a>]) {
    let at = |is| parts.iter().position(|part| part.is == is);
    let (Some(count), load) = (at(Is::Count), at(Is::Load)) else { return };
    let gaps: Vec<Option<&'a str>> =
        parts.windows(2).map(|pair| pen.between(pair.first()?.text, pair.get(1)?.text)).collect();
    let gap = |at: usize| gaps.get(at).copied().flatten();
    let free = |at: usize| gap(at).is_some_and(|gap| is_gap(gap, SIGNS));
    let misplaced = load.filter(|load| *load != count + 1);
    // What stands round the load goes with it, and makes room for it behind the count, unless a comment stands there.
    let moved = misplaced.filter(|load| {
        let before = load.checked_sub(1).is_none_or(&free);
        let joined = *load > count || free(*load);
        before && joined && (gap(count).is_none() || free(count))
    });
    let load_text = moved.and_then(|load| parts.get(load)).map_or("", |load| &*load.spelled);
    for (at, part) in parts.iter().enumerate() {
        pen.put(part.text, if moved == Some(at) { "" } else { &part.spelled });
        let behind_count = if at == count && moved.is_some() { format!(" @ {load_text}") } else { String::new() };
        let Some(gap) = gap(at) else {
            pen.put(part.text.tail(part.text.len()), &behind_count);
            continue;
        };
        let next = at + 1;
        // The gap before a load that goes away, and the `x` behind one.
        let goes = moved == Some(next) || (moved == Some(at) && at < count);
        let between = match load {
            _ if goes => "",
            Some(load) if load == next && misplaced.is_none() => " @ ",
            // A load that must stay where it is keeps its signs.
            Some(load) if moved.is_none() && misplaced.is_some() && (load == next || load == at) => continue,
            _ => " ",
        };
        let beside_load = load.is_some_and(|load| load == at || load == next);
        pen.gap(gap, &(behind_count + between), if beside_load { SIGNS } else { "@" });
    }
}
