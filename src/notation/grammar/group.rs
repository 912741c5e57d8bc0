//! Groups of sets: a count, a load, attributes; and how reading goes on after a fault.
//!
//! A fault in a count or a load costs the line, one in an attribute only itself, but every fault of the
//! line is found: after each, reading goes on at the next sign or keyword that can begin something.

use super::attribute::{Known, attribute, spaced_number};
use super::count::{Head, head, is_told};
use super::lexer::Kind;
use super::load::{load, load_in, plain};
use super::number::mass_unit;
use super::signs::{next_sign, segment_end, sign_behind, starts_attribute};
use super::tokens::{Tokens, lexed};
use super::trouble::{Trouble, trouble_of};
use crate::notation::expected::Expected;
use crate::notation::nodes::{
    Amount, Attribute, AttributeKind, Count, Group, Keyword, Load, Number, Scale, Sets, TermKind,
};
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

type Troubles<'m, 'a> = &'m mut Vec<Trouble<'a>>;

/// The groups of a line, and everything wrong with them.
pub(crate) fn groups<'a>(body: Tokens<'_, 'a>, place: Place, troubles: Troubles<'_, 'a>) -> Vec<Group<'a>> {
    let mut out: Vec<Group<'a>> = Vec::with_capacity(4);
    let mut carried = place.carried;
    let mut rest = body;
    body.expect(Expected::Count);
    while !rest.is_empty() {
        if (!out.is_empty() || !troubles.is_empty()) && starts_attribute(rest) {
            rest = match out.last().and_then(|group| efforts_apart(group, rest)) {
                Some((after, trouble)) => {
                    troubles.push(trouble);
                    after
                }
                None => after_comma(rest, troubles),
            };
        } else if let Some((after, trouble)) = out.last().and_then(|group| load_behind_comma(group, rest)) {
            troubles.push(trouble);
            rest = after;
        } else {
            let known = out.len();
            rest = group(rest, Place { carried, ..place }, &mut out, troubles);
            carried |= out.get(known).is_some_and(|group| group.load.is_some());
        }
        if matches!(rest.first().first, b',' | b';') {
            rest = rest.skip(1);
            rest.expect(Expected::Count);
        }
    }
    out
}

/// `3x8, 120 kg`, `3x8, @ 120 kg`: a load where a count must stand, and no load before it.
fn load_behind_comma<'t, 'a>(group: &Group<'a>, i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, Trouble<'a>)> {
    if group.load.is_some() {
        return None;
    }
    let behind_at = i.kind() == Kind::At;
    let start = if behind_at { i.skip(1) } else { i };
    let told = behind_at || matches!(head(start), Ok((_, Head::Mass(_))));
    let (mut rest, load) = load(start).ok().filter(|_| told)?;
    while starts_attribute(rest) {
        rest = attribute(rest).ok()?.0;
    }
    if !rest.is_empty() && rest.kind() != Kind::Comma {
        return None;
    }
    let read = if behind_at { "" } else { load.text };
    let trouble = Trouble::new(K::UnreadCount { read: read.into() }, i.through(i.word(), load.text));
    Some((rest, trouble.fixed_at(i.through(before_comma(i), load.text), format!(" @ {}", load.text))))
}

/// What stands before a token, with the commas there.
fn before_comma<'a>(i: Tokens<'_, 'a>) -> &'a str {
    let mut at = i;
    while let Some(before) = at.before().filter(|before| before.kind == Kind::Comma) {
        at = at.at_byte(before.start);
    }
    at.gap_to(i)
}

/// `RPE 8, RPE 9` on two sets: a list of efforts with its keyword at each.
fn efforts_apart<'t, 'a>(group: &Group<'a>, i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, Trouble<'a>)> {
    let first = group.attributes.last().filter(|last| last.kind.is_effort())?;
    let number = |attribute: &Attribute<'a>| attribute.text.get(3..).map(super::lexer::trim);
    let sets = number_of_sets(&group.count)? as usize;
    let mut list = vec![number(first)?];
    let (mut rest, mut end) = (i, i);
    while let Ok((after, next)) = attribute(rest) {
        if next.kind.keyword() != first.kind.keyword() || list.len() > sets {
            break;
        }
        list.push(number(&next)?);
        end = after;
        rest = if after.kind() == Kind::Comma { after.skip(1) } else { after };
    }
    let list = list.join(",");
    let plain = list.bytes().all(|b| b.is_ascii_digit() || matches!(b, b',' | b'.'));
    if end.is_at(i) || !plain || list.split(',').count() != sets {
        return None;
    }
    let keyword = first.text.get(..3)?;
    let piece = i.upto(end);
    let trouble = Trouble::new(K::AttributeAfterComma { read: piece.into() }, piece);
    Some((end, trouble.fixed_at(i.through(first.text, piece), format!("{keyword} {}", undoubted(&list)))))
}

/// A list of efforts spelled so that no decimal comma can be meant: `7,5` on two sets is `7,5.0`.
fn undoubted(list: &str) -> String {
    match list.split_once(',') {
        Some((first, "5")) if !first.contains('.') => format!("{first},5.0"),
        _ => list.to_owned(),
    }
}

/// An attribute where a group should begin: the comma before it is one too many.
fn after_comma<'t, 'a>(i: Tokens<'t, 'a>, troubles: Troubles<'_, 'a>) -> Tokens<'t, 'a> {
    let mut rest = i;
    let known = troubles.len();
    while starts_attribute(rest) {
        match attribute(rest) {
            Ok((after, _)) => rest = after,
            Err(error) => {
                troubles.extend(trouble_of(error));
                rest = sign_behind(rest.skip(1));
            }
        }
    }
    let piece = i.upto(rest);
    let sound = troubles.len() == known;
    let trouble = Trouble::new(K::AttributeAfterComma { read: piece.into() }, piece);
    troubles.push(if sound { trouble.fixed_at(before_comma(i), " ") } else { trouble });
    if rest.is_empty() || rest.kind() == Kind::Comma {
        return rest;
    }
    // A load, or words: what stands here belongs to no count, and must not go unsaid.
    let end = segment_end(rest.skip(1));
    let piece = rest.upto(end);
    troubles.push(Trouble::new(K::UnreadCount { read: piece.into() }, piece));
    end
}

/// Reads one group, up to the comma after it or the line's end, into `out`.
fn group<'t, 'a>(
    i: Tokens<'t, 'a>,
    place: Place,
    out: &mut Vec<Group<'a>>,
    troubles: Troubles<'_, 'a>,
) -> Tokens<'t, 'a> {
    let known = troubles.len();
    let (mut rest, count, mut load_read) = match leading(i, troubles) {
        Leading::Count(rest, count, load) => (rest, Some(count), load),
        Leading::Unread(rest) => (rest, None, None),
    };
    if let Some(count) = &count {
        check_amounts(count, place, troubles);
    }
    let mut attributes: Vec<Attribute<'a>> = Vec::new();
    let mut names = Known::default();
    let mut end = rest;
    let mut sound = if count.is_some() { troubles.len() } else { known };
    loop {
        let before = std::mem::replace(&mut sound, troubles.len());
        match rest.kind() {
            // Behind a fault that goes to the line's end nobody knows what may stand.
            Kind::End if before == sound => {
                rest.expect(Expected::Group);
                rest.expect(Expected::At);
                starts_attribute(rest);
                break;
            }
            Kind::End | Kind::Comma => break,
            Kind::At => {
                let after = rest.skip(1);
                if after.is_word("rpe") || after.is_word("rir") {
                    rest = after;
                    continue;
                }
                let again = load_read.is_some();
                let (next, read) = load_after_at(rest, after, troubles);
                if again {
                    troubles.push(Trouble::new(K::TwoLoads, rest.upto(next)));
                } else {
                    load_read = read;
                }
                rest = next;
            }
            _ if starts_attribute(rest) => {
                rest = one_attribute(rest, count.as_ref(), &mut attributes, &mut names, troubles);
            }
            _ => {
                rest = unread_words(rest, troubles);
                sound = troubles.len();
            }
        }
        end = rest;
    }
    let lost = troubles.get(known..).is_some_and(|new| new.iter().any(|t| t.kind.cost() == Cost::Line));
    let count = match count {
        Some(count) if !lost => count,
        _ => return rest,
    };
    if load_read.is_none()
        && !place.carried
        && !place.plan
        && let Sets::Times { high, each: Amount::Reps { .. }, .. } = &count.sets
        && *high > MOST_SETS_WITHOUT_LOAD
    {
        troubles.push(too_many_sets(&count, *high));
        return rest;
    }
    out.push(Group { text: i.upto(end), count, load: load_read, attributes });
    rest
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
enum Leading<'t, 'a> {
    Count(Tokens<'t, 'a>, Count<'a>, Option<Load<'a>>),
    /// A trouble was noted; reading goes on here.
    Unread(Tokens<'t, 'a>),
}

fn leading<'t, 'a>(i: Tokens<'t, 'a>, troubles: Troubles<'_, 'a>) -> Leading<'t, 'a> {
    let (after, mass) = match head(i) {
        Ok((rest, Head::Count(count, load))) => {
            if let Some(rest) = count_as_load(i, rest, &count, troubles) {
                return Leading::Unread(rest);
            }
            if rest.runs_on() {
                return unread_count(i, troubles);
            }
            return Leading::Count(rest, count, load);
        }
        Ok((rest, Head::Mass(mass))) => (rest, Some(mass)),
        Err(error) => match trouble_of(error) {
            Some(trouble) => {
                let rest = sign_behind(i.past(trouble.piece));
                // Where a load is written already, the number before it is not a second one.
                let misplaced = matches!(trouble.kind, K::TooManySets { .. } | K::ThreeNumbers { .. });
                let fix = if misplaced && rest.kind() == Kind::At { None } else { trouble.fix };
                troubles.push(Trouble { fix, ..trouble });
                return Leading::Unread(rest);
            }
            None => (i, None),
        },
    };
    // A load where the count must stand: `120 kg 3x8`, `@ 120 kg 3x8`, `bw 3x8`.
    let start = if i.kind() == Kind::At { i.skip(1) } else { i };
    let (after, load_text) = match mass {
        Some(mass) => (after, Some(mass.text)),
        None if start.is_empty() => (i, None),
        None => match load(start) {
            // Words alone may be anything; only what can be nothing but a load is offered as one.
            Ok((rest, load)) if !matches!(load.first.kind, TermKind::Named(None, _)) => (rest, Some(load.text)),
            _ => (i, None),
        },
    };
    let then = if after.kind() == Kind::At { after.skip(1) } else { after };
    if let (Some(load_text), Ok((rest, Head::Count(count, None)))) = (load_text, head(then))
        && !rest.runs_on()
    {
        troubles.push(load_before(i, count.text, load_text));
        return Leading::Unread(rest);
    }
    unread_count(i, troubles)
}

/// The trouble of a load that stands at `i`, before its count.
fn load_before<'a>(i: Tokens<'_, 'a>, count: &'a str, load: &str) -> Trouble<'a> {
    let piece = i.through(i.word(), count);
    Trouble::new(K::LoadBeforeCount { read: piece.into() }, piece).fixed(format!("{count} @ {load}"))
}

/// `120 3x8`: a bare number and then a count is a load before its count.
fn count_as_load<'t, 'a>(
    i: Tokens<'t, 'a>,
    rest: Tokens<'t, 'a>,
    count: &Count<'a>,
    troubles: Troubles<'_, 'a>,
) -> Option<Tokens<'t, 'a>> {
    let bare = matches!(&count.sets, Sets::Times { low: 1, high: 1, each: Amount::Reps { .. } });
    if !rest.is_number() || !bare || count.per_side || rest.glued() {
        return None;
    }
    match head(rest) {
        Ok((after, Head::Count(next, None))) if is_told(&next) || next.text.contains(',') => {
            troubles.push(load_before(i, next.text, count.text));
            Some(after)
        }
        _ => None,
    }
}

fn unread_count<'t, 'a>(i: Tokens<'t, 'a>, troubles: Troubles<'_, 'a>) -> Leading<'t, 'a> {
    let rest = next_sign(i);
    let piece = i.upto(rest);
    troubles.push(Trouble::new(K::UnreadCount { read: piece.into() }, piece));
    Leading::Unread(rest)
}

/// What is wrong with the amounts of a count, apart from its form.
fn check_amounts<'a>(count: &Count<'a>, place: Place, troubles: Troubles<'_, 'a>) {
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
fn load_after_at<'t, 'a>(
    at: Tokens<'t, 'a>,
    i: Tokens<'t, 'a>,
    troubles: Troubles<'_, 'a>,
) -> (Tokens<'t, 'a>, Option<Load<'a>>) {
    if let Some((rest, load)) = plain(i) {
        return (rest, Some(load));
    }
    match load(i) {
        Ok((rest, _)) if rest.behind_times().is_some() => {
            let end = next_sign(rest);
            let piece = i.upto(end);
            troubles.push(Trouble::new(K::UnreadLoad { read: piece.into() }, piece));
            (end, None)
        }
        Ok((rest, load)) => (rest, Some(load)),
        Err(error) => {
            let trouble = trouble_of(error).unwrap_or_else(|| {
                let piece = i.upto(next_sign(i));
                let shown = if piece.is_empty() { at.word() } else { piece };
                let trouble = Trouble::new(K::UnreadLoad { read: piece.into() }, shown);
                // `@ +20 kg` is more than one's own weight.
                match piece.strip_prefix('+').map(super::lexer::skip_gap).filter(|added| load_in(added).is_some()) {
                    Some(added) => trouble.fixed(format!("bw + {added}")),
                    None => trouble,
                }
            });
            let rest = i.past(trouble.piece);
            troubles.push(or_effort(at, rest, trouble));
            (sign_behind(rest), None)
        }
    }
}

/// `@ 7,5`: with its point it could as well be an effort.
fn or_effort<'a>(at: Tokens<'_, 'a>, rest: Tokens<'_, 'a>, trouble: Trouble<'a>) -> Trouble<'a> {
    let (K::DecimalComma { .. }, Some((_, meant))) = (&trouble.kind, &trouble.fix) else { return trouble };
    let lone = trouble.piece == at.skip(1).upto(rest);
    let effort = lexed(meant, |i| (5_000..=10_000).contains(&i.first().value) && i.first().value % 500 == 0);
    if !lone || !effort || rest.runs_on() || mass_unit(rest).is_ok() {
        return trouble;
    }
    let piece = at.through(at.word(), trouble.piece);
    Trouble::new(K::LoadOrEffort { read: meant.clone(), unit: "" }, piece).fixed(format!("RPE {meant}"))
}

/// What can stand in no group, up to the next sign that can begin something.
fn unread_words<'t, 'a>(i: Tokens<'t, 'a>, troubles: Troubles<'_, 'a>) -> Tokens<'t, 'a> {
    let rest = if i.is(b';') { sign_behind(i.skip(1)) } else { next_sign(i) };
    let piece = i.upto(rest);
    troubles.push(Trouble::new(K::UnreadWords { read: piece.into() }, piece));
    rest
}

/// One attribute, checked against the count and the attributes before it.
fn one_attribute<'t, 'a>(
    i: Tokens<'t, 'a>,
    count: Option<&Count<'a>>,
    attributes: &mut Vec<Attribute<'a>>,
    names: &mut Known,
    troubles: Troubles<'_, 'a>,
) -> Tokens<'t, 'a> {
    let (rest, attribute) = match attribute(i) {
        Ok(read) => read,
        Err(error) => {
            // Whatever is wrong, reading goes on behind it and never stands still.
            let Some(trouble) = trouble_of(error) else { return sign_behind(i.skip(1)) };
            let rest = i.past(trouble.piece);
            troubles.push(trouble);
            return if rest.len() < i.len() { rest } else { sign_behind(i.skip(1)) };
        }
    };
    if let Some(sets) = count.and_then(number_of_sets) {
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
    match names.twice(&attribute.kind) {
        Some(name) => troubles.push(Trouble::new(K::AttributeTwice { keyword: name }, attribute.text)),
        None => attributes.push(attribute),
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
fn spaced_list<'t, 'a>(
    i: Tokens<'t, 'a>,
    rest: Tokens<'t, 'a>,
    attribute: &Attribute<'a>,
    sets: u32,
) -> Option<(Tokens<'t, 'a>, Trouble<'a>)> {
    let listed = match &attribute.kind {
        AttributeKind::Effort(_, low, high) if low == high && !attribute.text.contains(super::lexer::is_dash) => 1,
        AttributeKind::Efforts(_, values) => u32::try_from(values.len()).ok()?,
        _ => return None,
    };
    if listed >= sets {
        return None;
    }
    let mut end = rest;
    for left in (listed..sets).rev() {
        end = spaced_number(end).ok()?.0;
        let more = left > listed && end.is_number();
        if !(more || end.is_empty() || end.kind() == Kind::Comma || starts_attribute(end)) {
            return None;
        }
    }
    // `RPE 8, 8,8,7`: the number is the first of a list, which is a count of its own.
    if end.lists() {
        return None;
    }
    let doubted = sets == 2 && attribute.kind.keyword() == Some(Keyword::Rpe);
    Some((end, list_spaced(i.upto(end), doubted)?))
}

/// The trouble of a list of efforts that was written with blanks.
pub(crate) fn list_spaced(piece: &str, doubted: bool) -> Option<Trouble<'_>> {
    let (keyword, numbers) = piece.split_at_checked(3)?;
    let parts = numbers.split(|c| super::lexer::is_space(c) || c == ',').filter(|part| !part.is_empty());
    let list = parts.collect::<Vec<_>>().join(",");
    let list = if doubted { undoubted(&list) } else { list };
    Some(Trouble::new(K::EffortListSpaced, piece).fixed(format!("{keyword} {list}")))
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
