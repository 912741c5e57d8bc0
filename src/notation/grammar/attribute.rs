//! Attributes of a group: effort, AMRAP, misses, faults, rest, tempo, remarks.

use super::leaves::{glued, kind, run_of, sign};
use super::lexer::{Kind, trim};
use super::number::{number, range_end, seconds, time_unit, whole};
use super::signs::{close, keyword, value_end};
use super::tokens::Tokens;
use super::trouble::{Reading, Trouble, no_fit};
use crate::notation::expected::Expected;
use crate::notation::nodes::{Attribute, AttributeKind as A, Keyword, Number, Scale};
use crate::problems::ProblemKind as K;
use crate::source::Cut;
use nom::Parser;
use nom::multi::separated_list1;
use nom::sequence::delimited;
use std::collections::BTreeSet;

/// One attribute. Fails for good once its first sign or keyword is read.
pub(crate) fn attribute<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Attribute<'a>> {
    let (rest, kind) = match i.first().first {
        b'(' => remark(i)?,
        b'!' => fault(i)?,
        _ => {
            let Some(keyword) = keyword(i) else { return no_fit(i) };
            match worded(i, keyword) {
                Err(nom::Err::Error(_)) => return unread(keyword, i).fail(),
                read => read?,
            }
        }
    };
    Ok((rest, Attribute { text: i.upto(rest), kind }))
}

/// The trouble of a keyword whose value cannot be read.
fn unread<'a>(keyword: Keyword, i: Tokens<'_, 'a>) -> Trouble<'a> {
    let piece = i.upto(value_end(i.skip(1)));
    let word = keyword.word();
    let wanted = match keyword {
        Keyword::Rpe | Keyword::Rir => {
            return Trouble::new(K::UnreadEffort { scale: word, read: piece.into() }, piece);
        }
        Keyword::Rest => "a length of time, such as `rest 3:00` or `rest 90s`",
        Keyword::Tempo => "three or four numbers, such as `tempo 3-1-0` or `tempo 3-1-X-0`",
        Keyword::Miss => "how many reps were missed, such as `miss 1`",
        Keyword::Amrap => "no value",
    };
    Trouble::new(K::UnreadAttribute { keyword: word, wanted }, piece)
}

/// What begins with a keyword: its value, or its trouble where more is known than that it cannot be read.
fn worded<'t, 'a>(i: Tokens<'t, 'a>, keyword: Keyword) -> Reading<'t, 'a, A<'a>> {
    let after = i.skip(1);
    let read = match keyword {
        Keyword::Rpe => return effort(i, after, Scale::Rpe),
        Keyword::Rir => return effort(i, after, Scale::Rir),
        Keyword::Amrap => return Ok((after, A::Amrap)),
        Keyword::Miss => whole.map(A::Miss).parse(after),
        Keyword::Rest => rest_time.map(A::Rest).parse(after),
        Keyword::Tempo => tempo.map(A::Tempo).parse(after),
    };
    match read {
        Ok((rest, kind)) if ends_after_digit(rest) && kind != A::Miss(0) => Ok((rest, kind)),
        _ => no_fit(i),
    }
}

/// Whether an attribute may end here.
fn ends(i: Tokens<'_, '_>) -> bool {
    !i.glued() || matches!(i.first().first, b',' | b';' | b'(' | b'!' | b'<' | b'@')
}

/// The same where a comma between two digits, which parts nothing, is no end.
fn ends_after_digit(rest: Tokens<'_, '_>) -> bool {
    let behind_digit = || rest.before().is_some_and(|before| super::tokens::is_number(before.kind));
    ends(rest) && !(rest.lists() && behind_digit())
}

/// `3:00`, `90s`, with no more of a time behind it.
fn rest_time<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, u32> {
    let (rest, time) = seconds(i)?;
    let goes_on = !rest.glued() && (time_unit(rest).is_ok() || seconds(rest).is_ok());
    if goes_on { no_fit(i) } else { Ok((rest, time)) }
}

fn effort<'t, 'a>(i: Tokens<'t, 'a>, start: Tokens<'t, 'a>, scale: Scale) -> Reading<'t, 'a, A<'a>> {
    start.expect(Expected::Rating);
    let fits = |n: &Number| match scale {
        Scale::Rpe => (1000..=10_000).contains(&n.thousandths) && is_half(*n),
        Scale::Rir => (0..=9000).contains(&n.thousandths) && is_half(*n),
    };
    let Ok((rest, first)) = number(start) else { return no_fit(i) };
    if rest.lists() {
        return match separated_list1(list_comma, number).parse(start) {
            Ok((end, values)) if ends(end) && values.iter().all(fits) => Ok((end, A::Efforts(scale, values))),
            _ => no_fit(i),
        };
    }
    let Some((end, high, blanks)) = second(rest) else {
        return if ends(rest) && fits(&first) { Ok((rest, A::Effort(scale, first, first))) } else { no_fit(i) };
    };
    if !ends_after_digit(end) || !fits(&first) || !fits(&high) {
        return no_fit(i);
    }
    let reversed = high < first;
    if !blanks && !reversed {
        return Ok((end, A::Effort(scale, first, high)));
    }
    let piece = i.upto(end);
    let (one, other) = (start.upto(rest), behind_dash(rest).unwrap_or(rest).upto(end));
    let turned = if reversed { format!("{other}-{one}") } else { format!("{one}-{other}") };
    let read = piece.into();
    let kind = if blanks { K::SpacedRange { read } } else { K::ReversedEffort { read } };
    Trouble::new(kind, piece).fixed(format!("{}{turned}", i.upto_gap(start))).fail()
}

/// A comma that parts nothing.
fn list_comma<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, ()> {
    if i.lists() { Ok((i.skip(1), ())) } else { no_fit(i) }
}

/// The second number of a range, and whether blanks or a word stand between the two.
fn second<'t, 'a>(i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, Number, bool)> {
    if let Ok((rest, high)) = range_end(i) {
        return Some((rest, high, false));
    }
    let (rest, high) = number(behind_dash(i)?).ok()?;
    // `RPE 8 - 120 kg` is no range of efforts.
    (high.thousandths <= 10_000 && ends(rest)).then_some((rest, high, true))
}

/// What stands behind the dash of a range, or the word for it.
fn behind_dash<'t, 'a>(i: Tokens<'t, 'a>) -> Option<Tokens<'t, 'a>> {
    (i.kind() == Kind::Dash || i.is_word("to")).then(|| i.skip(1))
}

/// `3-1-0`, `3-1-X-0`
fn tempo<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, &'a str> {
    i.expect(Expected::Duration);
    let beat = |i: Tokens<'t, 'a>| match i.kind() {
        Kind::Number if i.word().len() <= 2 => Ok((i.skip(1), ())),
        Kind::Times if i.is(b'x') => Ok((i.skip(1), ())),
        _ => no_fit(i),
    };
    let (first, _) = beat(i)?;
    let (rest, beats) = nom::multi::many1(glued((kind(Kind::Dash), glued(beat)))).parse(first)?;
    if matches!(beats.len(), 2 | 3) { Ok((rest, i.upto(rest))) } else { no_fit(i) }
}

/// `!depth`, `!depth(3)`, `!depth(2,3)`
fn fault<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, A<'a>> {
    let after = i.skip(1);
    after.expect(Expected::FaultWord);
    let unread = |end| Trouble::new(K::UnreadFault, i.upto(end)).fail();
    let word = if after.glued() { run_of(after, "-_") } else { no_fit(after) };
    let Ok((rest, ())) = word else {
        return unread(value_end(after));
    };
    let word = after.upto(rest);
    if !(rest.glued() && rest.kind() == Kind::Open) {
        let mut scrap = rest;
        while scrap.glued() && !matches!(scrap.kind(), Kind::Comma | Kind::Open) {
            scrap = scrap.skip(1);
        }
        return if ends(rest) { Ok((rest, A::Fault(word, Vec::new()))) } else { unread(scrap) };
    }
    match delimited(kind(Kind::Open), separated_list1(kind(Kind::Comma), whole), sign(b')')).parse(rest) {
        Ok((rest, sets)) if ends(rest) => Ok((rest, A::Fault(word, sets))),
        _ => {
            let mut end = rest;
            while !end.is_empty() && !end.is(b')') {
                end = end.skip(1);
            }
            unread(end.skip(1))
        }
    }
}

/// A longer remark that never closes is not looked through.
const LONGEST_REMARK: usize = 400;

/// A remark, up to the parenthesis that closes it.
fn remark<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, A<'a>> {
    let Some(rest) = close(i) else {
        let text = i.text();
        let trouble = Trouble::new(K::UnclosedRemark, text);
        // Sets and loads put into a remark would count nowhere.
        if text.len() > LONGEST_REMARK || text.contains(|c: char| c == '@' || c.is_ascii_digit()) {
            return trouble.fail();
        }
        let open = text.matches('(').count().saturating_sub(text.matches(')').count()).max(1);
        return trouble.fixed(format!("{text}{}", ")".repeat(open))).fail();
    };
    let text = i.upto(rest);
    Ok((rest, A::Remark(trim(text.cut(1..text.len().saturating_sub(1))))))
}

/// The attributes that a group has already.
#[derive(Default)]
pub(crate) struct Known {
    keywords: [bool; Keyword::ALL.len()],
    faults: Option<BTreeSet<String>>,
}

impl Known {
    /// The name of an attribute that stands there already, else it is one of the known from now on. Remarks may stand
    /// as often as one likes.
    pub(crate) fn twice(&mut self, kind: &A<'_>) -> Option<String> {
        if let A::Fault(word, _) = kind {
            let name = format!("!{}", word.to_lowercase());
            let fresh = self.faults.get_or_insert_default().insert(name.clone());
            return if fresh { None } else { Some(name) };
        }
        let keyword = kind.keyword()?;
        let known = self.keywords.get_mut(keyword as usize)?;
        std::mem::replace(known, true).then(|| keyword.word().to_owned())
    }
}

/// Whether a number is a decimal of the kind an effort takes.
pub(crate) fn is_half(number: Number) -> bool {
    number.thousandths % 500 == 0
}

/// A bare number of an effort list that was written with blanks: `, 7`, or ` 7`.
pub(crate) fn spaced_number<'t, 'a>(i: Tokens<'t, 'a>) -> Reading<'t, 'a, Number> {
    let start = if i.kind() == Kind::Comma { i.skip(1) } else { i };
    if start.is_at(i) && i.glued() {
        return no_fit(i);
    }
    let (rest, n) = number(start)?;
    if n.thousandths <= 10_000 && is_half(n) { Ok((rest, n)) } else { no_fit(i) }
}
