//! Groups of sets: a count, a load, attributes; and how reading goes on after a fault.
//!
//! A fault in a count or a load costs the line, one in an attribute only itself, but every fault of the
//! line is found: after each, reading goes on at the next sign or keyword that can begin something.

use super::attribute::{attribute, close, effort_keyword, identity, spaced_number, starts_attribute};
use super::chars::{before, front, front_trimmed, is_dash, is_quote, is_space, past, skip_gap, through};
use super::count::{Head, head, is_half};
use super::load::{load, plain};
use super::trouble::{Trouble, trouble_of};
use crate::notation::nodes::{Amount, Attribute, AttributeKind, Count, Group, Load, Number, Scale, Sets, TermKind};
use crate::problems::{Cost, ProblemKind as K};

/// More sets than this, with no load to be seen, are a load in the wrong place.
const MOST_SETS_WITHOUT_LOAD: u32 = 10;
/// More reps than this in a set deserve a question.
const MANY_REPS: u32 = 100;

/// What the grammar must know about the line that it reads.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Place {
    /// A plan: ranges are allowed and loads optional.
    pub(crate) plan: bool,
    /// Whether a load stands before, on this or an earlier set line, that is taken over.
    pub(crate) carried: bool,
}

/// The groups of a line, and everything wrong with them.
pub(crate) fn groups<'a>(body: &'a str, place: Place, troubles: &mut Vec<Trouble<'a>>) -> Vec<Group<'a>> {
    let mut out: Vec<Group<'a>> = Vec::new();
    let mut carried = place.carried;
    let mut rest = skip_gap(body);
    while !rest.is_empty() {
        if starts_attribute(rest) && (!out.is_empty() || !troubles.is_empty()) {
            rest = match out.last().and_then(|group| efforts_apart(body, group, rest)) {
                Some((after, trouble)) => {
                    troubles.push(trouble);
                    after
                }
                None => after_comma(body, rest, troubles),
            };
        } else if let Some((after, trouble)) = out.last().and_then(|group| load_behind_comma(body, group, rest)) {
            troubles.push(trouble);
            rest = after;
        } else {
            let (after, group) = group(rest, Place { carried, ..place }, troubles);
            if let Some(group) = group {
                carried |= group.load.is_some();
                out.push(group);
            }
            rest = skip_gap(after);
        }
        rest = skip_gap(rest.strip_prefix([',', ';']).unwrap_or(rest));
    }
    out
}

/// `3x8, 120 kg`, `3x8, @ 120 kg`: a load where a count must stand, and no load before it.
fn load_behind_comma<'a>(body: &'a str, group: &Group<'a>, i: &'a str) -> Option<(&'a str, Trouble<'a>)> {
    if group.load.is_some() {
        return None;
    }
    let behind_at = i.strip_prefix('@').map(skip_gap);
    let start = behind_at.unwrap_or(i);
    let told = behind_at.is_some() || matches!(head(start), Ok((_, Head::Mass(_))));
    let (mut rest, load) = load(start).ok().filter(|_| told)?;
    rest = skip_gap(rest);
    while starts_attribute(rest) {
        rest = skip_gap(attribute(rest).ok()?.0);
    }
    if !rest.is_empty() && !rest.starts_with(',') {
        return None;
    }
    let before_comma = front_trimmed(body, i).trim_end_matches(',').trim_end_matches(is_space);
    let whole = through(past(body, before_comma), load.text);
    let read = if behind_at.is_some() { "" } else { load.text };
    let trouble = Trouble::new(K::UnreadCount { read: read.into() }, through(i, load.text));
    Some((rest, trouble.fixed_at(whole, format!(" @ {}", load.text))))
}

/// `RPE 8, RPE 9` on two sets: a list of efforts with its keyword at each.
fn efforts_apart<'a>(body: &'a str, group: &Group<'a>, i: &'a str) -> Option<(&'a str, Trouble<'a>)> {
    let first = group.attributes.last().filter(|last| is_effort(&last.kind))?;
    let number = |attribute: &Attribute<'a>| attribute.text.get(3..).map(|value| value.trim_matches(is_space));
    let sets = number_of_sets(&group.count)? as usize;
    let mut list = vec![number(first)?];
    let (mut rest, mut end) = (i, i);
    while let Ok((after, next)) = attribute(rest) {
        if identity(&next.kind) != identity(&first.kind) || list.len() > sets {
            break;
        }
        list.push(number(&next)?);
        end = after;
        rest = skip_gap(skip_gap(after).strip_prefix(',').unwrap_or(after));
    }
    let list = list.join(",");
    let plain = list.bytes().all(|b| b.is_ascii_digit() || matches!(b, b',' | b'.'));
    if end.len() == i.len() || !plain || list.split(',').count() != sets {
        return None;
    }
    let keyword = first.text.get(..3)?;
    let piece = front(i, end);
    let trouble = Trouble::new(K::AttributeAfterComma { read: piece.into() }, piece);
    Some((
        skip_gap(end),
        trouble
            .fixed_at(through(past(body, before(body, first.text)), piece), format!("{keyword} {}", undoubted(&list))),
    ))
}

/// A list of efforts spelled so that no decimal comma can be meant: `7,5` on two sets is `7,5.0`.
fn undoubted(list: &str) -> String {
    match list.split_once(',') {
        Some((first, "5")) if !first.contains('.') => format!("{first},5.0"),
        _ => list.to_owned(),
    }
}

fn is_effort(kind: &AttributeKind<'_>) -> bool {
    matches!(kind, AttributeKind::Effort(..) | AttributeKind::Efforts(..))
}

/// An attribute where a group should begin: the comma before it is one too many.
fn after_comma<'a>(body: &'a str, i: &'a str, troubles: &mut Vec<Trouble<'a>>) -> &'a str {
    let mut rest = i;
    let mut last = i;
    let known = troubles.len();
    while starts_attribute(rest) {
        match attribute(rest) {
            Ok((after, _)) => {
                last = after;
                rest = skip_gap(after);
            }
            Err(error) => {
                troubles.extend(trouble_of(error));
                last = next_sign(rest.get(1..).unwrap_or(""));
                rest = skip_gap(last);
            }
        }
    }
    let piece = front_trimmed(i, last);
    let before = front(body, i);
    let gap_start = before.trim_end_matches(is_space).trim_end_matches(',').trim_end_matches(is_space).len();
    let comma = body.get(gap_start..before.len()).unwrap_or("");
    let sound = troubles.len() == known;
    let trouble = Trouble::new(K::AttributeAfterComma { read: piece.into() }, piece);
    troubles.push(if sound { trouble.fixed_at(comma, " ") } else { trouble });
    if rest.starts_with(',') || rest.is_empty() {
        return rest;
    }
    // A load, or words: what stands here belongs to no count, and must not go unsaid.
    let end = segment_end(rest.get(rest.chars().next().map_or(0, char::len_utf8)..).unwrap_or(""));
    let piece = front_trimmed(rest, end);
    troubles.push(Trouble::new(K::UnreadCount { read: piece.into() }, piece));
    end
}

/// One group, up to the comma after it or the line's end.
fn group<'a>(i: &'a str, place: Place, troubles: &mut Vec<Trouble<'a>>) -> (&'a str, Option<Group<'a>>) {
    let known = troubles.len();
    let (mut rest, count, mut load_read) = match leading(i, troubles) {
        Leading::Count(rest, count, load) => (rest, Some(count), load),
        Leading::Unread(rest) => (rest, None, None),
    };
    if let Some(count) = &count {
        check_amounts(count, place, troubles);
    }
    let mut attributes: Vec<Attribute<'a>> = Vec::new();
    let mut end = rest;
    loop {
        rest = skip_gap(rest);
        match rest.as_bytes().first() {
            None | Some(b',') => break,
            Some(b'@') => {
                let after = skip_gap(rest.get(1..).unwrap_or(""));
                if effort_keyword(after) {
                    rest = after;
                    continue;
                }
                let again = load_read.is_some();
                let (next, read) = load_after_at(rest, after, troubles);
                if again {
                    troubles.push(Trouble::new(K::TwoLoads, front_trimmed(rest, next)));
                } else {
                    load_read = read;
                }
                rest = next;
            }
            _ if starts_attribute(rest) => {
                rest = one_attribute(rest, count.as_ref(), &mut attributes, troubles);
            }
            _ => rest = unread_words(rest, troubles),
        }
        end = rest;
    }
    let lost = troubles.get(known..).is_some_and(|new| new.iter().any(|t| t.kind.cost() == Cost::Line));
    let group = match count {
        Some(count) if !lost => count,
        _ => return (rest, None),
    };
    if load_read.is_none()
        && !place.carried
        && !place.plan
        && let Sets::Times { high, each: Amount::Reps { .. }, .. } = &group.sets
        && *high > MOST_SETS_WITHOUT_LOAD
    {
        troubles.push(too_many_sets(&group, *high));
        return (rest, None);
    }
    (rest, Some(Group { text: front_trimmed(i, end), count: group, load: load_read, attributes }))
}

fn too_many_sets<'a>(count: &Count<'a>, sets: u32) -> Trouble<'a> {
    let trouble = Trouble::new(K::TooManySets { sets, most: MOST_SETS_WITHOUT_LOAD }, count.text);
    match &count.sets {
        Sets::Times { each: Amount::Reps { low, high }, .. } if low == high => {
            let side = if count.per_side { "/side" } else { "" };
            trouble.fixed(format!("{low}{side} @ {sets}"))
        }
        _ => trouble,
    }
}

/// How a group begins.
enum Leading<'a> {
    Count(&'a str, Count<'a>, Option<Load<'a>>),
    /// A trouble was noted; reading goes on here.
    Unread(&'a str),
}

fn leading<'a>(i: &'a str, troubles: &mut Vec<Trouble<'a>>) -> Leading<'a> {
    let (after, mass) = match head(i) {
        Ok((rest, Head::Count(count, load))) => {
            if let Some(rest) = count_as_load(i, rest, &count, troubles) {
                return Leading::Unread(rest);
            }
            if glued(rest) {
                return unread_count(i, troubles);
            }
            return Leading::Count(rest, count, load);
        }
        Ok((rest, Head::Mass(mass))) => (rest, Some(mass)),
        Err(error) => match trouble_of(error) {
            Some(trouble) => {
                let rest = next_sign(past(i, trouble.piece));
                // Where a load is written already, the number before it is not a second one.
                let misplaced = matches!(trouble.kind, K::TooManySets { .. } | K::ThreeNumbers { .. });
                let fix = if misplaced && rest.starts_with('@') { None } else { trouble.fix };
                troubles.push(Trouble { fix, ..trouble });
                return Leading::Unread(rest);
            }
            None => (i, None),
        },
    };
    // A load where the count must stand: `120 kg 3x8`, `@ 120 kg 3x8`, `bw 3x8`.
    let start = skip_gap(i.strip_prefix('@').unwrap_or(i));
    let (after, load_text) = match mass {
        Some(mass) => (after, Some(mass.text)),
        None if start.is_empty() => (i, None),
        None => match load(start) {
            // Words alone may be anything; only what can be nothing but a load is offered as one.
            Ok((rest, load)) if !matches!(load.first.kind, TermKind::Named(None, _)) => (rest, Some(load.text)),
            _ => (i, None),
        },
    };
    let then = skip_gap(after);
    let then = then.strip_prefix('@').map_or(then, skip_gap);
    if let (Some(load_text), Ok((rest, Head::Count(count, None)))) = (load_text, head(then))
        && !glued(rest)
    {
        let piece = through(i, count.text);
        let read = K::LoadBeforeCount { read: piece.into() };
        troubles.push(Trouble::new(read, piece).fixed(format!("{} @ {load_text}", count.text)));
        return Leading::Unread(rest);
    }
    unread_count(i, troubles)
}

/// Whether a letter or digit is glued to what was read: `3x8abc`.
fn glued(rest: &str) -> bool {
    rest.starts_with(|c: char| !is_space(c) && !matches!(c, ',' | ';' | '@' | '(' | '!' | '<'))
}

/// Whether a count may end here.
pub(crate) fn ends_here(rest: &str) -> bool {
    !glued(rest)
}

/// `120 3x8`: a bare number and then a count is a load before its count.
fn count_as_load<'a>(i: &'a str, rest: &'a str, count: &Count<'a>, troubles: &mut Vec<Trouble<'a>>) -> Option<&'a str> {
    let bare = matches!(&count.sets, Sets::Times { low: 1, high: 1, each: Amount::Reps { .. } });
    let then = skip_gap(rest);
    if !bare || count.per_side || then.len() == rest.len() || !then.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let (after, next) = match head(then) {
        Ok((after, Head::Count(next, None))) if next.text.contains(['x', 'X', '×', ',']) => (after, next),
        _ => return None,
    };
    let piece = through(i, next.text);
    troubles.push(
        Trouble::new(K::LoadBeforeCount { read: piece.into() }, piece).fixed(format!("{} @ {}", next.text, count.text)),
    );
    Some(after)
}

fn unread_count<'a>(i: &'a str, troubles: &mut Vec<Trouble<'a>>) -> Leading<'a> {
    let rest = next_sign(i);
    let piece = front_trimmed(i, rest);
    troubles.push(Trouble::new(K::UnreadCount { read: piece.into() }, piece));
    Leading::Unread(rest)
}

/// What is wrong with the amounts of a count, apart from its form.
fn check_amounts<'a>(count: &Count<'a>, place: Place, troubles: &mut Vec<Trouble<'a>>) {
    let mut open = false;
    let mut most = 0;
    let mut look = |amount: &Amount| match amount {
        Amount::Reps { low, high } => {
            open |= low != high;
            most = most.max(*high);
        }
        Amount::Seconds { low, high } => open |= low != high,
        Amount::Distance { low, high, .. } => open |= low != high,
        Amount::Bouts(bouts) => most = most.max(bouts.iter().sum()),
        Amount::AtLeast(_) | Amount::AsManyAsPossible => open = true,
    };
    match &count.sets {
        Sets::Times { low, high, each } => {
            look(each);
            open |= low != high;
        }
        Sets::List(amounts) => amounts.iter().for_each(look),
    }
    if open && !place.plan {
        troubles.push(Trouble::new(K::PlanOnlyCount { read: count.text.into() }, count.text));
    }
    if most > MANY_REPS {
        troubles.push(Trouble::new(K::ManyReps { reps: most }, count.text));
    }
}

/// The load after an `@`.
fn load_after_at<'a>(at: &'a str, i: &'a str, troubles: &mut Vec<Trouble<'a>>) -> (&'a str, Option<Load<'a>>) {
    if let Some((rest, load)) = plain(i) {
        return (rest, Some(load));
    }
    match load(i) {
        Ok((rest, load)) => {
            let then = skip_gap(rest);
            if super::chars::times(rest).is_ok() {
                let end = next_sign(then);
                let piece = front_trimmed(i, end);
                troubles.push(Trouble::new(K::UnreadLoad { read: piece.into() }, piece));
                return (end, None);
            }
            (rest, Some(load))
        }
        Err(error) => {
            let trouble = match trouble_of(error) {
                Some(trouble) => trouble,
                None => {
                    let piece = front_trimmed(i, next_sign(i));
                    let shown = if piece.is_empty() { front(at, i).trim_end_matches(is_space) } else { piece };
                    let trouble = Trouble::new(K::UnreadLoad { read: piece.into() }, shown);
                    // `@ +20 kg` is more than one's own weight.
                    match piece.strip_prefix('+').map(skip_gap).filter(|added| matches!(load(added), Ok(("", _)))) {
                        Some(added) => trouble.fixed(format!("bw + {added}")),
                        None => trouble,
                    }
                }
            };
            let rest = past(i, trouble.piece);
            troubles.push(or_effort(at, rest, trouble));
            (next_sign(rest), None)
        }
    }
}

/// `@ 7,5`: with its point it could as well be an effort.
fn or_effort<'a>(at: &'a str, rest: &str, trouble: Trouble<'a>) -> Trouble<'a> {
    let (K::DecimalComma { .. }, Some((_, meant))) = (&trouble.kind, &trouble.fix) else { return trouble };
    let lone = trouble.piece.len() == front(skip_gap(at.get(1..).unwrap_or("")), rest).len();
    let effort =
        super::number::number(meant).is_ok_and(|(_, n)| (5_000..=10_000).contains(&n.thousandths) && is_half(n));
    if !lone || !effort || !ends_here(rest) || super::number::mass_unit(rest).is_ok() {
        return trouble;
    }
    let piece = through(at, trouble.piece);
    Trouble::new(K::LoadOrEffort { read: meant.clone(), unit: "" }, piece).fixed(format!("RPE {meant}"))
}

/// What can stand in no group, up to the next sign that can begin something.
fn unread_words<'a>(i: &'a str, troubles: &mut Vec<Trouble<'a>>) -> &'a str {
    let rest = next_sign(i.get(i.chars().next().map_or(0, char::len_utf8)..).unwrap_or(""));
    let piece = front_trimmed(i, rest);
    troubles.push(Trouble::new(K::UnreadWords { read: piece.into() }, piece));
    rest
}

/// One attribute, checked against the count and the attributes before it.
fn one_attribute<'a>(
    i: &'a str,
    count: Option<&Count<'a>>,
    attributes: &mut Vec<Attribute<'a>>,
    troubles: &mut Vec<Trouble<'a>>,
) -> &'a str {
    let (rest, attribute) = match attribute(i) {
        Ok(read) => read,
        Err(error) => {
            let Some(trouble) = trouble_of(error) else { return next_sign(i.get(1..).unwrap_or("")) };
            // Whatever is wrong, reading goes on behind it and never stands still.
            let rest = past(i, trouble.piece);
            let rest = if rest.len() < i.len() { rest } else { next_sign(i.get(1..).unwrap_or("")) };
            troubles.push(trouble);
            return rest;
        }
    };
    let sets = count.and_then(number_of_sets);
    if let Some(sets) = sets {
        if let Some((rest, trouble)) = spaced_list(i, rest, &attribute, sets) {
            troubles.push(trouble);
            return rest;
        }
        if let Some(trouble) = against_sets(&attribute, sets) {
            let keep = trouble.kind.cost() == Cost::Nothing;
            troubles.push(trouble);
            if !keep {
                return rest;
            }
        }
    }
    let name = if attributes.is_empty() { None } else { identity(&attribute.kind) };
    match name {
        Some(name) if attributes.iter().any(|known| identity(&known.kind).as_ref() == Some(&name)) => {
            troubles.push(Trouble::new(K::AttributeTwice { keyword: name }, attribute.text));
        }
        _ => attributes.push(attribute),
    }
    rest
}

/// How many sets a count has, where it says so.
fn number_of_sets(count: &Count<'_>) -> Option<u32> {
    match &count.sets {
        Sets::Times { low, high, .. } => (low == high).then_some(*low),
        Sets::List(amounts) => u32::try_from(amounts.len()).ok(),
    }
}

/// `RPE 6, 7, 7` on three sets: the numbers that complete the list are no sets.
fn spaced_list<'a>(i: &'a str, rest: &'a str, attribute: &Attribute<'a>, sets: u32) -> Option<(&'a str, Trouble<'a>)> {
    let listed = match &attribute.kind {
        AttributeKind::Effort(_, low, high) if low == high && !attribute.text.contains(is_dash) => 1,
        AttributeKind::Efforts(_, values) => u32::try_from(values.len()).ok()?,
        _ => return None,
    };
    if listed >= sets {
        return None;
    }
    let mut end = rest;
    for left in (listed..sets).rev() {
        end = spaced_number(end).ok()?.0;
        let next = skip_gap(end);
        let more = left > listed && next.starts_with(|c: char| c.is_ascii_digit());
        if !(more || next.is_empty() || next.starts_with(',') || starts_attribute(next)) {
            return None;
        }
    }
    // `RPE 8, 8,8,7`: the number is the first of a list, which is a count of its own.
    if end.strip_prefix(',').is_some_and(|next| next.starts_with(|c: char| c.is_ascii_digit())) {
        return None;
    }
    let piece = front(i, end);
    let (keyword, numbers) = piece.split_at_checked(3)?;
    let parts = numbers.split(|c| is_space(c) || c == ',').filter(|part| !part.is_empty());
    let list = parts.collect::<Vec<_>>().join(",");
    let doubted = sets == 2 && identity(&attribute.kind).as_deref() == Some("RPE");
    let list = if doubted { undoubted(&list) } else { list };
    Some((end, Trouble::new(K::EffortListSpaced, piece).fixed(format!("{keyword} {list}"))))
}

/// What an attribute says of sets that are not there.
fn against_sets<'a>(attribute: &Attribute<'a>, sets: u32) -> Option<Trouble<'a>> {
    match &attribute.kind {
        AttributeKind::Efforts(scale, values) => {
            let given = u32::try_from(values.len()).unwrap_or(u32::MAX);
            let comma = matches!(values.as_slice(), [first, second] if first.as_whole().is_some() && *second == Number::whole(5));
            // Who writes `7,5.0` means a list.
            let comma = comma && !attribute.text.contains('.');
            let read = attribute.text.to_owned();
            if comma && sets == 1 && values.first() < Some(&Number::whole(10)) {
                return Some(
                    Trouble::new(K::EffortDecimalComma { read }, attribute.text)
                        .fixed(attribute.text.replace(',', ".")),
                );
            }
            if comma && sets == 2 && *scale == Scale::Rpe {
                return Some(Trouble::new(K::EffortCommaDoubt { read }, attribute.text));
            }
            (given != sets).then(|| Trouble::new(K::EffortCount { efforts: given, sets }, attribute.text))
        }
        AttributeKind::Fault(_, on) => on
            .iter()
            .find(|set| **set == 0 || **set > sets)
            .map(|set| Trouble::new(K::FaultWithoutSet { set: *set, sets }, attribute.text)),
        _ => None,
    }
}

/// The next place at which something can begin: a top-level comma, an `@`, or an attribute after a blank.
pub(crate) fn next_sign(i: &str) -> &str {
    let mut previous = ' ';
    let mut skip_to = 0;
    for (at, c) in i.char_indices() {
        if at < skip_to {
            continue;
        }
        let here = i.get(at..).unwrap_or("");
        let parts = c == ';'
            || c == ','
                && !(previous.is_ascii_digit()
                    && here.get(1..).is_some_and(|n| n.starts_with(|c: char| c.is_ascii_digit())));
        if parts || c == '@' || (at > 0 && (is_space(previous) || matches!(c, '(' | '!')) && starts_attribute(here)) {
            return here;
        }
        if is_quote(c) {
            let inside = here.get(c.len_utf8()..).unwrap_or("");
            if let Some(end) = inside.find(is_quote) {
                skip_to = at + c.len_utf8() + end;
            }
        }
        previous = c;
    }
    ""
}

/// The next top-level comma, or the end.
fn segment_end(i: &str) -> &str {
    let mut rest = next_sign(i);
    while !rest.is_empty() && !rest.starts_with(',') {
        rest = match rest.starts_with('(').then(|| close(rest)).flatten() {
            Some(after) => next_sign(after),
            None => next_sign(rest.get(1..).unwrap_or("")),
        };
    }
    rest
}
