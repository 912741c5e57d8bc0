//! Whether two lines say the same, however they are spelled.

use crate::notation::grammar::keys::bare_name;
use crate::notation::nodes::{Attribute, BlockKey, Body, Detail, DetailKey, Group, LineKind, Load, Term, TermKind};
use crate::training::fold;

/// Whether two lines say the same. Lifts are the same where their names fold to the same.
pub(super) fn same(one: &LineKind<'_>, other: &LineKind<'_>) -> bool {
    match (one, other) {
        (LineKind::Session(one), LineKind::Session(other)) => one == other,
        (LineKind::Block(one), LineKind::Block(other)) => one.name == other.name,
        (LineKind::Fact(one), LineKind::Fact(other)) => one == other,
        (LineKind::SessionNote(one), LineKind::SessionNote(other)) => one == other,
        (LineKind::BlockKey(key, Some(one)), LineKind::BlockKey(other_key, Some(other))) => {
            key == other_key && same_value(one, other)
        }
        (LineKind::Work(one), LineKind::Work(other)) => {
            fold(one.name) == fold(other.name) && one.lost == other.lost && same_body(&one.body, &other.body)
        }
        (LineKind::SetLine(one), LineKind::SetLine(other)) => same_groups(one, other),
        (LineKind::Detail(one), LineKind::Detail(other)) => same_detail(one, other),
        _ => false,
    }
}

fn same_value(one: &BlockKey<'_>, other: &BlockKey<'_>) -> bool {
    match (one, other) {
        (BlockKey::Starts(one), BlockKey::Starts(other)) => one == other,
        (BlockKey::Weeks(one), BlockKey::Weeks(other)) => one == other,
        (BlockKey::Phase(one), BlockKey::Phase(other)) | (BlockKey::Goal(one), BlockKey::Goal(other)) => one == other,
        (BlockKey::Deload(one), BlockKey::Deload(other)) | (BlockKey::Peak(one), BlockKey::Peak(other)) => one == other,
        (BlockKey::Max { lift, load }, BlockKey::Max { lift: other_lift, load: other }) => {
            fold(lift) == fold(other_lift) && same_load(load, other)
        }
        _ => false,
    }
}

fn same_body(one: &Body<'_>, other: &Body<'_>) -> bool {
    match (one, other) {
        (Body::Nothing, Body::Nothing) => true,
        (Body::Skipped(one), Body::Skipped(other)) => one == other,
        (Body::AsPlanned(one, _), Body::AsPlanned(other, _)) => same_attributes(one, other),
        (Body::Groups(one), Body::Groups(other)) => same_groups(one, other),
        _ => false,
    }
}

fn same_detail(one: &Detail<'_>, other: &Detail<'_>) -> bool {
    let lift = |detail: &Detail<'_>| fold(bare_name(detail.text.trim_end_matches(['.', ','])));
    one.key == other.key
        && one.lost == other.lost
        && match one.key {
            DetailKey::Plan | DetailKey::WarmUp => same_groups(&one.groups, &other.groups),
            DetailKey::InsteadOf => lift(one) == lift(other),
            _ => one.text == other.text,
        }
}

fn same_groups(one: &[Group<'_>], other: &[Group<'_>]) -> bool {
    let same = |one: &Group<'_>, other: &Group<'_>| {
        one.count.sets == other.count.sets
            && one.count.per_side == other.count.per_side
            && match (&one.load, &other.load) {
                (Some(one), Some(other)) => same_load(one, other),
                (one, other) => one.is_none() && other.is_none(),
            }
            && same_attributes(&one.attributes, &other.attributes)
    };
    one.len() == other.len() && one.iter().zip(other).all(|(one, other)| same(one, other))
}

fn same_attributes(one: &[Attribute<'_>], other: &[Attribute<'_>]) -> bool {
    one.iter().map(|attribute| &attribute.kind).eq(other.iter().map(|attribute| &attribute.kind))
}

fn same_load(one: &Load<'_>, other: &Load<'_>) -> bool {
    one.approximate == other.approximate
        && same_term(&one.first, &other.first)
        && one.more.len() == other.more.len()
        && one
            .more
            .iter()
            .zip(&other.more)
            .all(|((sign, one), (other_sign, other))| sign == other_sign && same_term(one, other))
}

fn same_term(one: &Term<'_>, other: &Term<'_>) -> bool {
    one.per_side == other.per_side
        && match (one.kind, other.kind) {
            (TermKind::Named(count, one), TermKind::Named(other_count, other)) => {
                count == other_count && fold(one) == fold(other)
            }
            (one, other) => one == other,
        }
}
