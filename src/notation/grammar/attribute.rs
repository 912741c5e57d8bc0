//! Attributes of a group: effort, AMRAP, misses, faults, rest, tempo, remarks.

use super::chars::{front, gap, is_dash, is_space, keyword, skip_gap};
use super::count::is_half;
use super::number::{begins, number, range_end, seconds, time_unit, whole};
use super::trouble::{Miss, Reading, Trouble, no_fit};
use crate::notation::nodes::{Attribute, AttributeKind as A, Number, Scale};
use crate::problems::ProblemKind as K;
use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::take_while1;
use nom::character::complete::{char, satisfy};
use nom::combinator::value;
use nom::multi::separated_list1;

/// Whether an attribute begins here.
pub(crate) fn starts_attribute(i: &str) -> bool {
    matches!(i.as_bytes().first(), Some(b'(' | b'!')) || opener(i).is_ok()
}

/// The keyword an attribute begins with. Digits may follow it at once: `RPE6`.
fn opener(i: &str) -> Reading<'_, &'static str> {
    // The first letter leaves one or a few; this is read at every sign of every line.
    match i.as_bytes().first() {
        Some(b'R' | b'r') => {
            alt((value("RPE", keyword("rpe")), value("RIR", keyword("rir")), value("rest", keyword("rest")))).parse(i)
        }
        Some(b'A' | b'a') => value("AMRAP", keyword("amrap")).parse(i),
        Some(b'M' | b'm') => value("miss", keyword("miss")).parse(i),
        Some(b'T' | b't') => value("tempo", keyword("tempo")).parse(i),
        _ => no_fit(i),
    }
}

/// One attribute. Fails for good once its first sign or keyword is read.
pub(crate) fn attribute(i: &str) -> Reading<'_, Attribute<'_>> {
    let (rest, kind) = match i.as_bytes().first() {
        Some(b'(') => remark(i)?,
        Some(b'!') => fault(i)?,
        _ => {
            let (after, word) = opener(i)?;
            match worded(i, after, word) {
                Err(nom::Err::Error(_)) => return unread(word, i, after).fail(),
                read => read?,
            }
        }
    };
    Ok((rest, Attribute { text: front(i, rest), kind }))
}

/// The trouble of a keyword, which ends where `after` begins, whose value cannot be read.
fn unread<'a>(word: &'static str, i: &'a str, after: &'a str) -> Trouble<'a> {
    let piece = front(i, value_end(after));
    let wanted = match word {
        "RPE" | "RIR" => return Trouble::new(K::UnreadEffort { scale: word, read: piece.into() }, piece),
        "rest" => "a length of time, such as `rest 3:00` or `rest 90s`",
        "tempo" => "three or four numbers, such as `tempo 3-1-0` or `tempo 3-1-X-0`",
        _ => "how many reps were missed, such as `miss 1`",
    };
    Trouble::new(K::UnreadAttribute { keyword: word, wanted }, piece)
}

/// What stands after a keyword: its value, or its trouble where more is known than that it cannot be read.
fn worded<'a>(i: &'a str, after: &'a str, word: &'static str) -> Reading<'a, A<'a>> {
    let start = skip_gap(after);
    let read = match word {
        "RPE" => return effort(i, after, Scale::Rpe),
        "RIR" => return effort(i, after, Scale::Rir),
        "AMRAP" => return Ok((after, A::Amrap)),
        "miss" => whole(start).map(|(rest, missed)| (rest, A::Miss(missed))),
        "rest" => rest_time(start).map(|(rest, time)| (rest, A::Rest(time))),
        _ => tempo(start).map(|(rest, text)| (rest, A::Tempo(text))),
    };
    match read {
        Ok((rest, kind)) if ends_after(front(i, rest), rest) && kind != A::Miss(0) => Ok((rest, kind)),
        _ => no_fit(i),
    }
}

/// Whether an attribute may end here.
fn ends(i: &str) -> bool {
    i.chars().next().is_none_or(|c| is_space(c) || matches!(c, ',' | ';' | '(' | '!' | '<' | '@'))
}

/// The same where a comma between two digits, which parts nothing, is no end.
fn ends_after(read: &str, rest: &str) -> bool {
    let listed = rest.strip_prefix(',').is_some_and(|next| next.starts_with(|c: char| c.is_ascii_digit()));
    ends(rest) && !(listed && read.ends_with(|c: char| c.is_ascii_digit()))
}

/// `3:00`, `90s`, with no more of a time behind it.
fn rest_time(i: &str) -> Reading<'_, u32> {
    let (rest, time) = seconds(i)?;
    let next = skip_gap(rest);
    let goes_on = next.len() < rest.len() && (time_unit(next).is_ok() || seconds(next).is_ok());
    if goes_on { no_fit(i) } else { Ok((rest, time)) }
}

/// Where the scrap after a keyword ends, if one stands there that is no attribute of its own.
fn value_end(after: &str) -> &str {
    let start = skip_gap(after);
    if start.is_empty() || starts_attribute(start) || start.starts_with([',', ';', '@']) {
        return after;
    }
    let mut rest = start;
    while let Some(at) = rest.find(|c| is_space(c) || matches!(c, ',' | ';' | '(' | '!')) {
        rest = rest.get(at..).unwrap_or("");
        // A comma between two digits parts nothing.
        let listed = rest.strip_prefix(',').is_some_and(|next| next.starts_with(|c: char| c.is_ascii_digit()));
        if !listed {
            return rest;
        }
        rest = rest.get(1..).unwrap_or("");
    }
    ""
}

fn effort<'a>(i: &'a str, after: &'a str, scale: Scale) -> Reading<'a, A<'a>> {
    let fits = |n: &Number| match scale {
        Scale::Rpe => (1000..=10_000).contains(&n.thousandths) && is_half(*n),
        Scale::Rir => (0..=9000).contains(&n.thousandths) && is_half(*n),
    };
    let start = skip_gap(after);
    let list = separated_list1(char::<&str, Miss<'_>>(','), number).parse(start);
    let Ok((rest, values)) = list else { return no_fit(i) };
    if let [low] = values.as_slice()
        && let Some((end, high, blanks)) = second(rest)
    {
        if !ends_after(front(i, end), end) || !fits(low) || !fits(&high) {
            return no_fit(i);
        }
        let reversed = high < *low;
        if !blanks && !reversed {
            return Ok((end, A::Effort(scale, *low, high)));
        }
        let piece = front(i, end);
        let (one, other) = (front(start, rest), front(end_of_range(rest), end));
        let turned = if reversed { format!("{other}-{one}") } else { format!("{one}-{other}") };
        let read = piece.into();
        let kind = if blanks { K::SpacedRange { read } } else { K::ReversedEffort { read } };
        return Trouble::new(kind, piece).fixed(format!("{}{turned}", front(i, start))).fail();
    }
    if !ends(rest) || !values.iter().all(fits) {
        return no_fit(i);
    }
    match values.as_slice() {
        [one] => Ok((rest, A::Effort(scale, *one, *one))),
        _ => Ok((rest, A::Efforts(scale, values))),
    }
}

/// The second number of a range, and whether blanks or a word stand between the two.
fn second(i: &str) -> Option<(&str, Number, bool)> {
    if let Ok((rest, high)) = range_end(i) {
        return Some((rest, high, false));
    }
    let (rest, high) = number(end_of_range(i)).ok()?;
    // `RPE 8 - 120 kg` is no range of efforts.
    (end_of_range(i).len() < i.len() && high.thousandths <= 10_000 && ends(rest)).then_some((rest, high, true))
}

/// What stands behind the dash of a range, or the word for it; all of `i` where there is none.
fn end_of_range(i: &str) -> &str {
    let then = skip_gap(i);
    let behind = then.strip_prefix(is_dash).or_else(|| keyword("to").parse(then).ok().map(|(rest, _)| rest));
    behind.map_or(i, skip_gap)
}

/// `3-1-0`, `3-1-X-0`
fn tempo(i: &str) -> Reading<'_, &str> {
    let beat = take_while1(|c: char| c.is_ascii_digit() || matches!(c, 'x' | 'X'));
    let (rest, beats) = separated_list1(satisfy(is_dash), beat).parse(i)?;
    let good = beats.iter().all(|beat: &&str| {
        beat.eq_ignore_ascii_case("x") || (beat.len() <= 2 && beat.bytes().all(|b| b.is_ascii_digit()))
    });
    if good && matches!(beats.len(), 3 | 4) { Ok((rest, front(i, rest))) } else { no_fit(i) }
}

/// `!depth`, `!depth(3)`, `!depth(2,3)`
fn fault(i: &str) -> Reading<'_, A<'_>> {
    let (after, _) = char('!').parse(i)?;
    let Ok((rest, word)) = fault_word(after) else {
        return Trouble::new(K::UnreadFault, front(i, value_end(after))).fail();
    };
    let Some(list) = rest.strip_prefix('(') else {
        if !ends(rest) {
            return Trouble::new(K::UnreadFault, front(i, word_end(rest))).fail();
        }
        return Ok((rest, A::Fault(word, Vec::new())));
    };
    let numbers = separated_list1((gap, char::<&str, Miss<'_>>(','), gap), whole);
    match (gap, numbers, gap, char(')')).parse(list) {
        Ok((rest, (_, sets, _, _))) if ends(rest) => Ok((rest, A::Fault(word, sets))),
        _ => {
            let end = list.find(')').map_or("", |at| list.get(at + 1..).unwrap_or(""));
            Trouble::new(K::UnreadFault, front(i, end)).fail()
        }
    }
}

/// Where the scrap that is glued to a fault's word ends.
fn word_end(i: &str) -> &str {
    let end = i.find(|c| is_space(c) || matches!(c, ',' | '(')).unwrap_or(i.len());
    i.get(end..).unwrap_or("")
}

fn fault_word(i: &str) -> Reading<'_, &str> {
    let (_, _) = satisfy(char::is_alphabetic).parse(i)?;
    take_while1(|c: char| c.is_alphanumeric() || matches!(c, '-' | '_')).parse(i)
}

/// A longer remark that never closes is not looked through.
const LONGEST_REMARK: usize = 400;

/// A remark, up to the parenthesis that closes it.
fn remark(i: &str) -> Reading<'_, A<'_>> {
    match close(i) {
        Some(rest) => {
            let text = front(i, rest);
            let inside = text.get(1..text.len().saturating_sub(1)).unwrap_or("");
            Ok((rest, A::Remark(inside.trim_matches(is_space))))
        }
        None => {
            let open = i.matches('(').count().saturating_sub(i.matches(')').count()).max(1);
            let trouble = Trouble::new(K::UnclosedRemark, i);
            // Sets and loads put into a remark would count nowhere.
            let hides = i.len() > LONGEST_REMARK || i.contains(|c: char| c == '@' || c.is_ascii_digit());
            if hides { trouble.fail() } else { trouble.fixed(format!("{i}{}", ")".repeat(open))).fail() }
        }
    }
}

/// What stands after the parenthesis that closes the one `i` begins with.
pub(crate) fn close(i: &str) -> Option<&str> {
    let mut depth = 0usize;
    for (at, c) in i.char_indices() {
        match c {
            '(' => depth += 1,
            ')' => {
                depth = depth.saturating_sub(1);
                if depth == 0 {
                    return i.get(at + 1..);
                }
            }
            _ => {}
        }
    }
    None
}

/// What makes two attributes the same one written twice; remarks may stand as often as one likes.
pub(crate) fn identity(kind: &A<'_>) -> Option<String> {
    Some(match kind {
        A::Effort(Scale::Rpe, ..) | A::Efforts(Scale::Rpe, _) => "RPE".into(),
        A::Effort(Scale::Rir, ..) | A::Efforts(Scale::Rir, _) => "RIR".into(),
        A::Amrap => "AMRAP".into(),
        A::Miss(_) => "miss".into(),
        A::Rest(_) => "rest".into(),
        A::Tempo(_) => "tempo".into(),
        A::Fault(word, _) => format!("!{}", word.to_lowercase()),
        A::Remark(_) => return None,
    })
}

/// `RPE` or `RIR` after an `@` that does not belong there.
pub(crate) fn effort_keyword(i: &str) -> bool {
    begins(i, b"r") && alt((keyword("rpe"), keyword("rir"))).parse(i).is_ok()
}

/// A bare number of an effort list that was written with blanks: `, 7`, or ` 7`.
pub(crate) fn spaced_number(i: &str) -> Reading<'_, Number> {
    let start = skip_gap(i);
    let start = start.strip_prefix(',').map_or(start, skip_gap);
    if start.len() == i.len() {
        return no_fit(i);
    }
    let (rest, n) = number(start)?;
    if n.thousandths <= 10_000 && is_half(n) { Ok((rest, n)) } else { no_fit(i) }
}
