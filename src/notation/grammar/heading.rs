//! Headings: sessions with their dates and descriptors, and blocks.

use super::date::{iso_date, like_a_date, time_of_day, weekday};
use super::leaves::word;
use super::lexer::{Kind, is_space, trim, trim_end};
use super::number::whole;
use super::tokens::{Tokens, lexed};
use super::trouble::Trouble;
use crate::notation::expected::Expected;
use crate::notation::nodes::{Date, SessionHeading, Written};
use crate::problems::ProblemKind as K;
use chrono::{Datelike, Weekday};
use nom::Parser;
use nom::combinator::all_consuming;
use nom::sequence::preceded;

/// The level and text of a heading line, closing `#`s dropped.
pub(crate) fn heading(line: &str) -> Option<(usize, &str)> {
    let inner = line.trim_start_matches(' ');
    if line.len() - inner.len() > 3 || !inner.starts_with('#') {
        return None;
    }
    let text = inner.trim_start_matches('#');
    let level = inner.len() - text.len();
    if level > 6 || !(text.is_empty() || text.starts_with(is_space)) {
        return None;
    }
    let text = trim(text);
    let open = text.trim_end_matches('#');
    let closed = open.is_empty() || (open.len() < text.len() && open.ends_with(is_space));
    Some((level, if closed { trim_end(open) } else { text }))
}

/// The name after the word `Block`.
pub(crate) fn block_name<'a>(i: Tokens<'_, 'a>) -> Option<&'a str> {
    let name = i.skip(1);
    if i.is_word("block") {
        name.expect(Expected::Text);
    }
    (i.is_word("block") && !name.is_empty() && !name.glued()).then(|| name.text())
}

/// The name of a block whose heading has a slip in the word before it: `Block: 7`, `Block7`.
pub(crate) fn block_slip(text: &str) -> Option<&str> {
    let after = text.get(5..).filter(|_| text.get(..5).is_some_and(|word| word.eq_ignore_ascii_case("block")))?;
    let name =
        after.trim_start_matches(|c: char| is_space(c) || matches!(c, ':' | '#' | '.' | '-' | '\u{2013}' | '\u{2014}'));
    let told = name.len() < after.len() || name.starts_with(|c: char| c.is_ascii_digit());
    (told && !name.is_empty()).then_some(name)
}

/// A heading that begins with a date, or with something like one.
pub(crate) enum Dated<'a> {
    /// A session.
    Session(SessionHeading<'a>),
    /// Something like a date; the trouble says so.
    Bad,
    /// Neither.
    Other,
}

/// What may stand between a session's date and its first descriptor.
const AFTER_DATE: &str = ",:;-\u{2013}\u{2014}";

/// What stands behind a session's date and the signs there.
pub(crate) fn behind_date<'t, 'a>(rest: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    let mut rest = rest;
    while rest.first_char().is_some_and(|c| AFTER_DATE.contains(c)) {
        rest = rest.skip(1);
    }
    rest
}

/// What stands behind commas.
pub(crate) fn skip_commas<'t, 'a>(rest: Tokens<'t, 'a>) -> Tokens<'t, 'a> {
    let mut rest = rest;
    while rest.kind() == Kind::Comma {
        rest = rest.skip(1);
    }
    rest
}

/// Reads a heading's text as a session's.
pub(crate) fn session<'a>(text: Tokens<'_, 'a>, troubles: &mut Vec<Trouble<'a>>) -> Dated<'a> {
    let (start, first_day) = match weekday(text) {
        Ok((rest, day)) => (skip_commas(rest), Some((text.upto(rest), day))),
        Err(_) => (text, None),
    };
    let runs_on = |rest: Tokens<'_, '_>| {
        let sign = rest.glued() && matches!(rest.first().first, b'-' | b'.' | b'/');
        rest.glued() && rest.first_char().is_some_and(char::is_alphanumeric)
            || sign && rest.skip(1).glued() && rest.skip(1).is_number()
    };
    let (rest, date) = match iso_date(start) {
        Ok((rest, Some(date))) if !runs_on(rest) => (rest, date),
        _ => {
            let Some((piece, offer)) = like_a_date(start.text()) else { return Dated::Other };
            let trouble = Trouble::new(K::NotADate { read: piece.into() }, piece);
            troubles.push(match offer.map(|date| date.format("%Y-%m-%d").to_string()).or_else(|| unglued(piece)) {
                Some(date) => trouble.fixed(date),
                None => trouble,
            });
            return Dated::Bad;
        }
    };
    let mut session = SessionHeading {
        date: Written { text: start.upto(rest), value: date },
        minute: None,
        day: None,
        week: None,
        block: None,
        deload: false,
        peak: false,
        test_day: false,
        meet: None,
    };
    if let Some((piece, day)) = first_day {
        check_weekday(piece, day, date, troubles);
    }
    // The first descriptor stands after a blank; a weekday and a time may stand before it.
    let mut rest = behind_date(rest);
    while let Some(after) = weekday_or_time(rest, &mut session, troubles) {
        rest = skip_commas(after);
    }
    loop {
        let mut end = rest;
        while !end.is_empty() && end.kind() != Kind::Comma {
            end = end.skip(1);
        }
        descriptor(rest.until(end), &mut session, troubles);
        if end.is_empty() {
            return Dated::Session(session);
        }
        rest = end.skip(1);
    }
}

/// A real date with something glued to it, such as `2026-03-05T18:30`, with a blank between the two.
fn unglued(piece: &str) -> Option<String> {
    let date = lexed(piece, |i| iso_date(i).ok().and_then(|(rest, date)| date.map(|_| i.upto(rest))))?;
    let rest = piece.get(date.len()..)?;
    let clock = rest.trim_start_matches(['T', 't', '-', '_', '.', '@']);
    if let Some((hour, minute)) = clock.split_once(':') {
        // Seconds and a time zone are more than a session's heading says.
        let time = format!("{hour}:{}", minute.get(..2)?);
        let is_time = lexed(&time, |i| time_of_day(i).is_ok_and(|(rest, _)| rest.is_empty()));
        return is_time.then(|| format!("{date} {time}"));
    }
    let words = rest.trim_start_matches(['_', '-', '.']);
    words.starts_with(char::is_alphabetic).then(|| format!("{date} {words}"))
}

/// What follows the `#`s of a heading without a blank.
pub(crate) enum Glued<'a> {
    /// A date, in a heading of this level.
    Date(usize),
    /// The word `Block`; the signs before it.
    Block(&'a str),
}

/// A heading whose `#` are glued to a date or to the word `Block`: the place of the blank, and whether what follows
/// is a date, and then the trouble where it is none.
pub(crate) fn glued<'a>(line: &'a str, troubles: &mut Vec<Trouble<'a>>) -> Option<Glued<'a>> {
    let inner = line.trim_start_matches(' ');
    let text = inner.trim_start_matches('#');
    let level = inner.len() - text.len();
    if line.len() - inner.len() > 3 || !(1..=6).contains(&level) || text.starts_with(is_space) {
        return None;
    }
    let signs = inner.get(..level)?;
    let mut inside = Vec::new();
    let (read, offer) = lexed(text, |i| {
        if block_name(i).is_some() {
            return None;
        }
        match session(i, &mut inside) {
            Dated::Session(heading) => {
                let date = iso_date(i).map_or(0, |(rest, _)| i.upto(rest).len());
                Some((date, Some(heading.date.format("%Y-%m-%d").to_string())))
            }
            Dated::Bad => {
                let bad = inside.first();
                let offer = bad.and_then(|trouble| trouble.fix.as_ref()).map(|(_, date)| date.clone());
                Some((bad.map_or(0, |trouble: &Trouble<'_>| trouble.piece.len()), offer))
            }
            Dated::Other => Some((usize::MAX, None)),
        }
    })
    .map_or((None, None), |(read, offer)| (Some(read), offer));
    let read = match read {
        None => return Some(Glued::Block(signs)),
        Some(usize::MAX) => return None,
        Some(read) => read,
    };
    let piece = inner.get(..level + read).unwrap_or(signs);
    let trouble = Trouble::new(K::NotADate { read: piece.into() }, piece);
    troubles.push(match offer {
        Some(date) if read > 0 => trouble.fixed(format!("{signs} {date}")),
        // A weekday stands before the date.
        Some(_) => trouble.fixed(format!("{signs} ")),
        None => trouble,
    });
    Some(Glued::Date(level))
}

/// A weekday, and what follows it; none where the weekday is a label: `Thursday day` is one, `Thursday day B` a weekday
/// and then one.
pub(crate) fn weekday_before<'t, 'a>(i: Tokens<'t, 'a>) -> Option<(Tokens<'t, 'a>, Weekday)> {
    let (rest, day) = weekday(i).ok()?;
    let behind = rest.skip(1);
    let label = rest.is_word("day") && (behind.is_empty() || behind.kind() == Kind::Comma);
    (!label).then_some((rest, day))
}

fn weekday_or_time<'t, 'a>(
    i: Tokens<'t, 'a>,
    session: &mut SessionHeading<'a>,
    troubles: &mut Vec<Trouble<'a>>,
) -> Option<Tokens<'t, 'a>> {
    if let Some((rest, day)) = weekday_before(i) {
        check_weekday(i.upto(rest), day, session.date.value, troubles);
        return Some(rest);
    }
    let (rest, minute) = time_of_day(i).ok()?;
    session.minute = session.minute.or(Some(Written { text: i.upto(rest), value: minute }));
    Some(rest)
}

/// The number behind a word, where there is nothing else.
pub(crate) fn numbered(i: Tokens<'_, '_>, key: &'static [&'static str]) -> Option<u32> {
    all_consuming(preceded(word(key), whole)).parse(i).ok().map(|(_, number)| number)
}

fn descriptor<'a>(part: Tokens<'_, 'a>, session: &mut SessionHeading<'a>, troubles: &mut Vec<Trouble<'a>>) {
    [Expected::Label, Expected::Week, Expected::Block].into_iter().for_each(|one| part.expect(one));
    if let Some(rest) = weekday_or_time(part, session, troubles) {
        if !rest.is_empty() {
            descriptor(rest, session, troubles);
        }
        return;
    }
    let text = part.text();
    let is = |words: [&str; 2]| words.iter().any(|word| text.eq_ignore_ascii_case(word));
    if is(["deload", "deload week"]) {
        session.deload = true;
    } else if is(["peak", "peak week"]) {
        session.peak = true;
    } else if text.eq_ignore_ascii_case("test day") {
        session.test_day = true;
        session.day = session.day.or(text.get(..4));
    } else if let Some(week) = numbered(part, &["week"]).filter(|week| *week > 0) {
        session.week = Some(Written { text, value: week });
    } else if let Some(name) = meet_name(part) {
        session.meet = Some(name);
    } else if part.is_word("meet") {
        session.day = session.day.or(day_label(part));
    } else if let Some(trouble) = run_together(part) {
        troubles.push(trouble);
    } else if let Some(label) = day_label(part) {
        session.day = session.day.or(Some(label));
    } else if let Some(name) = block_name(part) {
        session.block = Some(name);
    }
}

/// Labels that are no words of a title: what stands behind one of them lacks its comma.
const LABELS: [&str; 22] = [
    "heavier",
    "technique",
    "primary",
    "secondary",
    "tertiary",
    "pull",
    "push",
    "leg",
    "legs",
    "upper",
    "lower",
    "squat",
    "bench",
    "deadlift",
    "press",
    "test",
    "heavy",
    "light",
    "medium",
    "volume",
    "upper body",
    "lower body",
];

/// Longer parts of a heading are a text, and no descriptors.
const LONGEST_PART: usize = 100;

/// `secondary day week 2`: two descriptors, and no comma between them.
fn run_together<'a>(part: Tokens<'_, 'a>) -> Option<Trouble<'a>> {
    let text = part.text();
    if text.len() > LONGEST_PART {
        return None;
    }
    let splits = (1..part.len() as u32).map(|at| part.skip(at)).filter(|second| !second.glued());
    let (first, second) = splits.map(|second| (part.until(second), second)).find(|(first, second)| {
        let named = day_label(*first).is_some_and(|label| LABELS.iter().any(|known| known.eq_ignore_ascii_case(label)));
        let sure = named || is_week_or_block(*first) || (first.is_word("deload") && first.len() == 1);
        let words = second.kind() != Kind::Open && !(second.is_word("day") && second.len() == 1);
        sure && words || is_descriptor(*first) && is_descriptor(*second) || is_week_or_block(*second)
    })?;
    let trouble = Trouble::new(K::DescriptorsRunTogether { read: text.into() }, text);
    // Whether there is such a block shows only once all pages are read.
    if first.is_word("block") || second.is_word("block") {
        return Some(trouble);
    }
    Some(trouble.fixed_at(second.gap(), ", "))
}

/// Whether words say something by themselves, and are no title.
fn is_descriptor(i: Tokens<'_, '_>) -> bool {
    let one = i.len() == 1 && (i.is_word("deload") || i.is_word("peak"));
    let short = |label: &str| label.len() <= 2 || label.bytes().all(|b| b.is_ascii_digit());
    let ends_in_day = i.skip((i.len() as u32).saturating_sub(1)).is_word("day");
    one || is_week_or_block(i) || day_label(i).is_some_and(|label| ends_in_day || short(label))
}

/// `week 3`, `block 6`
fn is_week_or_block(i: Tokens<'_, '_>) -> bool {
    let number = i.skip(1);
    (i.is_word("week") || i.is_word("block")) && i.len() == 2 && number.kind() == Kind::Number && !number.glued()
}

/// `meet Harbour Open`, `meet Bench Day`: the name. Without a capital, `meet prep day` and `meet day` are labels.
pub(crate) fn meet_name<'a>(part: Tokens<'_, 'a>) -> Option<&'a str> {
    let name = part.skip(1).text();
    let is_called = name.contains(is_space) && !name.starts_with(char::is_lowercase);
    (part.is_word("meet") && (is_called || day_label(part).is_none())).then_some(name)
}

/// `secondary day`, `upper body pull day`, `day 2`, `day B`: the label without the word.
pub(crate) fn day_label<'a>(part: Tokens<'_, 'a>) -> Option<&'a str> {
    let words = |i: Tokens<'_, '_>| (0..i.len() as u32).filter(|at| *at == 0 || !i.skip(*at).glued()).count();
    let last = part.skip((part.len() as u32).saturating_sub(1));
    let label = part.until(last);
    if last.is_word("day") && !last.glued() && (1..=3).contains(&words(label)) {
        return Some(label.text());
    }
    let label = part.skip(1);
    (part.is_word("day") && !label.is_empty() && !label.glued() && words(label) == 1).then(|| label.text())
}

fn check_weekday<'a>(piece: &'a str, day: Weekday, date: Date, troubles: &mut Vec<Trouble<'a>>) {
    let right = date.weekday();
    if day == right {
        return;
    }
    let long = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
    let name = long.get(right.num_days_from_monday() as usize).copied().unwrap_or("");
    let spelled = if piece.trim_end_matches('.').len() <= 3 { name.get(..3).unwrap_or(name) } else { name };
    troubles.push(Trouble::new(K::WrongWeekday { read: piece.into(), right: name }, piece).fixed(spelled));
}
