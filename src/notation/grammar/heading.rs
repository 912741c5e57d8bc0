//! Headings: dates and what follows them, blocks, and dates that are none.

use super::chars::{before, dash, front, gap, is_space, keyword, past, skip_gap};
use super::number::whole;
use super::trouble::{Miss, Reading, Trouble, no_fit};
use crate::notation::nodes::{Date, SessionHeading};
use crate::problems::ProblemKind as K;
use chrono::{Datelike, NaiveDate, Weekday};
use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::{tag_no_case, take_while_m_n, take_while1};
use nom::character::complete::{char, digit1, one_of};
use nom::combinator::value;

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
    let text = text.trim_matches(is_space);
    let open = text.trim_end_matches('#');
    let closed = open.is_empty() || (open.len() < text.len() && open.ends_with(is_space));
    Some((level, if closed { open.trim_end_matches(is_space) } else { text }))
}

/// The name after the word `Block`.
pub(crate) fn block_name(text: &str) -> Option<&str> {
    let (rest, _) = keyword("block").parse(text).ok()?;
    let name = skip_gap(rest);
    (!name.is_empty() && name.len() < rest.len()).then_some(name)
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

/// Reads a heading's text as a session's.
pub(crate) fn session<'a>(text: &'a str, troubles: &mut Vec<Trouble<'a>>) -> Dated<'a> {
    let (start, first_day) = match weekday(text) {
        Ok((rest, day)) => (rest.trim_start_matches(|c| is_space(c) || c == ','), Some((front(text, rest), day))),
        Err(_) => (text, None),
    };
    let (rest, date) = match iso_date(start) {
        Ok((rest, Some(date))) if !rest.starts_with(|c: char| c.is_alphanumeric()) && !followed_by_digit(rest) => {
            (rest, date)
        }
        _ => match like_a_date(start) {
            Some((piece, offer)) => {
                let trouble = Trouble::new(K::NotADate { read: piece.into() }, piece);
                troubles.push(match offer.map(|date| date.format("%Y-%m-%d").to_string()).or_else(|| unglued(piece)) {
                    Some(date) => trouble.fixed(date),
                    None => trouble,
                });
                return Dated::Bad;
            }
            None => return Dated::Other,
        },
    };
    let mut session = SessionHeading {
        date,
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
    let mut rest =
        rest.trim_start_matches(|c: char| is_space(c) || matches!(c, ',' | ':' | ';' | '-' | '\u{2013}' | '\u{2014}'));
    while let Some(after) = weekday_or_time(rest, &mut session, troubles) {
        rest = after.trim_start_matches(|c| is_space(c) || c == ',');
    }
    for part in rest.split(',') {
        descriptor(part.trim_matches(is_space), &mut session, troubles);
    }
    Dated::Session(session)
}

/// A real date with something glued to it, such as `2026-03-05T18:30`, with a blank between the two.
fn unglued(piece: &str) -> Option<String> {
    let (rest, date) = iso_date(piece).ok()?;
    date?;
    let date = front(piece, rest);
    let clock = rest.trim_start_matches(['T', 't', '-', '_', '.', '@']);
    if let Some((hour, minute)) = clock.split_once(':') {
        // Seconds and a time zone are more than a session's heading says.
        let time = format!("{hour}:{}", minute.get(..2)?);
        return matches!(time_of_day(&time), Ok(("", _))).then(|| format!("{date} {time}"));
    }
    let words = rest.trim_start_matches(['_', '-', '.']);
    words.starts_with(char::is_alphabetic).then(|| format!("{date} {words}"))
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
    let signs = front(inner, text);
    if block_name(text).is_some() {
        return Some(Glued::Block(signs));
    }
    let mut inside = Vec::new();
    let offer = match session(text, &mut inside) {
        Dated::Session(heading) => Some(heading.date.format("%Y-%m-%d").to_string()),
        Dated::Bad => {
            inside.first().and_then(|trouble: &Trouble<'_>| trouble.fix.as_ref()).map(|(_, date)| date.clone())
        }
        Dated::Other => return None,
    };
    let read = match inside.first() {
        Some(Trouble { kind: K::NotADate { .. }, piece, .. }) => piece.len(),
        _ => iso_date(text).map_or(0, |(rest, _)| front(text, rest).len()),
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

/// What follows the `#`s of a heading without a blank.
pub(crate) enum Glued<'a> {
    /// A date, in a heading of this level.
    Date(usize),
    /// The word `Block`; the signs before it.
    Block(&'a str),
}

fn weekday_or_time<'a>(
    i: &'a str,
    session: &mut SessionHeading<'a>,
    troubles: &mut Vec<Trouble<'a>>,
) -> Option<&'a str> {
    if let Ok((rest, day)) = weekday(i) {
        // `Thursday day` is a label, `Thursday day B` a weekday and then one.
        let label = keyword("day").parse(skip_gap(rest));
        if label.is_ok_and(|(after, _)| skip_gap(after).is_empty() || skip_gap(after).starts_with(',')) {
            return None;
        }
        check_weekday(front(i, rest), day, session.date, troubles);
        return Some(rest);
    }
    let (rest, minute) = time_of_day(i).ok()?;
    session.minute = session.minute.or(Some(minute));
    Some(rest)
}

fn descriptor<'a>(part: &'a str, session: &mut SessionHeading<'a>, troubles: &mut Vec<Trouble<'a>>) {
    if let Some(rest) = weekday_or_time(part, session, troubles) {
        if !skip_gap(rest).is_empty() {
            descriptor(skip_gap(rest), session, troubles);
        }
        return;
    }
    let numbered = |word: &'static str| {
        (keyword(word), gap, whole).parse(part).ok().filter(|(rest, _)| rest.is_empty()).map(|(_, (_, _, n))| n)
    };
    let lower = part.to_lowercase();
    match lower.as_str() {
        "deload" | "deload week" => session.deload = true,
        "peak" | "peak week" => session.peak = true,
        "test day" => {
            session.test_day = true;
            session.day = session.day.or(part.get(..4));
        }
        _ => {
            if let Some(week) = numbered("week").filter(|week| *week > 0) {
                session.week = Some(week);
            } else if let Some(name) = meet_name(part) {
                session.meet = Some(name);
            } else if keyword("meet").parse(part).is_ok() {
                session.day = session.day.or(day_label(part));
            } else if let Some(trouble) = run_together(part) {
                troubles.push(trouble);
            } else if let Some(label) = day_label(part) {
                session.day = session.day.or(Some(label));
            } else if let Some(name) = block_name(part) {
                session.block = Some(name);
            }
        }
    }
}

/// Labels that are no words of a title: what stands behind one of them lacks its comma.
const LABELS: [&str; 20] = [
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
fn run_together(part: &str) -> Option<Trouble<'_>> {
    if part.len() > LONGEST_PART {
        return None;
    }
    let blanks = part.match_indices(is_space).map(|(at, _)| at);
    let split = |at: usize| Some((part.get(..at)?.trim_end_matches(is_space), skip_gap(part.get(at..)?)));
    let (first, second) = blanks.filter_map(split).find(|(first, second)| {
        let named = day_label(first).is_some_and(|label| LABELS.iter().any(|known| known.eq_ignore_ascii_case(label)));
        let sure = named || is_week_or_block(first) || first.eq_ignore_ascii_case("deload");
        let words = !second.starts_with('(') && !second.eq_ignore_ascii_case("day");
        sure && words || is_descriptor(first) && is_descriptor(second) || is_week_or_block(second)
    })?;
    let trouble = Trouble::new(K::DescriptorsRunTogether { read: part.into() }, part);
    // Whether there is such a block shows only once all pages are read.
    if [first, second].iter().any(|text| keyword("block").parse(text).is_ok()) {
        return Some(trouble);
    }
    Some(trouble.fixed_at(before(past(part, first), second), ", "))
}

/// Whether words say something by themselves, and are no title.
fn is_descriptor(text: &str) -> bool {
    let one = |text: &str| ["deload", "peak"].iter().any(|word| text.eq_ignore_ascii_case(word));
    let short = |label: &str| label.len() <= 2 || label.bytes().all(|b| b.is_ascii_digit());
    let ends_in_day = text.rsplit(is_space).next().is_some_and(|last| last.eq_ignore_ascii_case("day"));
    one(text) || is_week_or_block(text) || day_label(text).is_some_and(|label| ends_in_day || short(label))
}

/// `week 3`, `block 6`
fn is_week_or_block(text: &str) -> bool {
    let word = keyword("week").parse(text).or_else(|_| keyword("block").parse(text));
    word.is_ok_and(|(rest, _)| {
        let number = skip_gap(rest);
        number.len() < rest.len() && !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit())
    })
}

/// `meet Harbour Open`, `meet Bench Day`: the name. Without a capital, `meet prep day` and `meet day` are labels.
pub(crate) fn meet_name(part: &str) -> Option<&str> {
    let (rest, _) = keyword("meet").parse(part).map_err(|_: nom::Err<Miss<'_>>| ()).ok()?;
    let name = skip_gap(rest);
    let is_called = name.contains(is_space) && !name.starts_with(char::is_lowercase);
    (is_called || day_label(part).is_none()).then_some(name)
}

/// `secondary day`, `upper body pull day`, `day 2`, `day B`: the label without the word.
pub(crate) fn day_label(part: &str) -> Option<&str> {
    if let Some((label, last)) = part.rsplit_once(is_space) {
        let words = label.split(is_space).filter(|word| !word.is_empty()).count();
        if last.eq_ignore_ascii_case("day") && (1..=3).contains(&words) {
            return Some(label.trim_matches(is_space));
        }
    }
    let (rest, _) = keyword("day").parse(part).map_err(|_: nom::Err<Miss<'_>>| ()).ok()?;
    let label = skip_gap(rest);
    let one = !label.is_empty() && !label.contains(is_space) && label.len() < rest.len();
    one.then_some(label)
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

/// An English weekday, whole or as three letters.
pub(crate) fn weekday(i: &str) -> Reading<'_, Weekday> {
    let (rest, word) = take_while1(char::is_alphabetic).parse(i)?;
    if !word.is_ascii() || word.len() < 3 {
        return no_fit(i);
    }
    match word.parse() {
        Ok(day) => Ok((rest.strip_prefix('.').unwrap_or(rest), day)),
        Err(_) => no_fit(i),
    }
}

/// `18:30` as minutes after midnight.
pub(crate) fn time_of_day(i: &str) -> Reading<'_, u16> {
    let (rest, (hours, _, minutes)) = (
        take_while_m_n(1, 2, |c: char| c.is_ascii_digit()),
        char(':'),
        take_while_m_n(2, 2, |c: char| c.is_ascii_digit()),
    )
        .parse(i)?;
    match (hours.parse::<u16>(), minutes.parse::<u16>()) {
        (Ok(hours @ 0..=23), Ok(minutes @ 0..=59)) if !rest.starts_with(|c: char| c.is_alphanumeric() || c == ':') => {
            Ok((rest, hours * 60 + minutes))
        }
        _ => no_fit(i),
    }
}

/// YYYY-MM-DD, and the date where it is a real one.
pub(crate) fn iso_date(i: &str) -> Reading<'_, Option<Date>> {
    let digits = |n| take_while_m_n(n, n, |c: char| c.is_ascii_digit());
    let (rest, (year, _, month, _, day)) = (digits(4), dash, digits(2), dash, digits(2)).parse(i)?;
    let date = match (year.parse(), month.parse(), day.parse()) {
        (Ok(year), Ok(month), Ok(day)) => NaiveDate::from_ymd_opt(year, month, day),
        _ => None,
    };
    Ok((rest, date))
}

fn followed_by_digit(rest: &str) -> bool {
    rest.strip_prefix(['-', '.', '/']).is_some_and(|after| after.starts_with(|c: char| c.is_ascii_digit()))
}

/// The date that a text stands for in another spelling, where only one can be meant.
pub(crate) fn date_meant(text: &str) -> Option<String> {
    let (piece, date) = like_a_date(text)?;
    (piece.len() == text.len()).then_some(date?.format("%Y-%m-%d").to_string())
}

/// The name of a block whose heading has a slip in the word before it: `Block: 7`, `Block7`.
pub(crate) fn block_slip(text: &str) -> Option<&str> {
    let after = text.get(5..).filter(|_| text.get(..5).is_some_and(|word| word.eq_ignore_ascii_case("block")))?;
    let name =
        after.trim_start_matches(|c: char| is_space(c) || matches!(c, ':' | '#' | '.' | '-' | '\u{2013}' | '\u{2014}'));
    let told = name.len() < after.len() || name.starts_with(|c: char| c.is_ascii_digit());
    (told && !name.is_empty()).then_some(name)
}

/// A piece that is meant as a date but not written as one, and the date where only one can be meant.
fn like_a_date(i: &str) -> Option<(&str, Option<Date>)> {
    let (rest, offer) = alt((numeric_date, solid_date, worded_date)).parse(i).ok()?;
    let end = rest.find(|c| is_space(c) || c == ',').unwrap_or(rest.len());
    let glued = rest.get(..end).unwrap_or("").trim_end_matches([':', '.', ';']);
    if glued.is_empty() {
        return Some((front(i, rest), offer));
    }
    let length = i.len() - rest.len() + glued.len();
    Some((i.get(..length)?, None))
}

/// Three numbers with dashes, points, or strokes between, one of them a year.
fn numeric_date(i: &str) -> Reading<'_, Option<Date>> {
    let separator = || one_of("-./");
    let (rest, (one, first, two, second, three)) = (digit1, separator(), digit1, separator(), digit1).parse(i)?;
    let short = |text: &str| text.len() <= 2;
    let build = |year: &str, month: &str, day: &str| {
        NaiveDate::from_ymd_opt(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
    };
    if one.len() == 4 && short(two) && short(three) {
        return Ok((rest, build(one, two, three)));
    }
    let year_last = three.len() == 4 || (three.len() == 2 && first == second && first != '-');
    if !(year_last && short(one) && short(two)) {
        return no_fit(i);
    }
    let long = if three.len() == 2 { format!("20{three}") } else { three.to_owned() };
    let (by_day, by_month) = (build(&long, two, one), build(&long, one, two));
    let offer = match (by_day, by_month) {
        // With points the day stands first wherever points are used; strokes are read both ways.
        (Some(date), _) if first == '.' => Some(date),
        (Some(date), None) | (None, Some(date)) => Some(date),
        (Some(date), Some(other)) if date == other => Some(date),
        _ => None,
    };
    if offer.is_none() && by_day.is_none() && by_month.is_none() && three.len() == 2 {
        return no_fit(i);
    }
    Ok((rest, offer))
}

/// `20260305`
fn solid_date(i: &str) -> Reading<'_, Option<Date>> {
    let (rest, digits) = digit1(i)?;
    if digits.len() != 8 {
        return no_fit(i);
    }
    match NaiveDate::parse_from_str(digits, "%Y%m%d") {
        Ok(date) => Ok((rest, Some(date))),
        Err(_) => no_fit(i),
    }
}

/// `5 March 2026` and `March 5, 2026`
fn worded_date(i: &str) -> Reading<'_, Option<Date>> {
    let day = |i| {
        let (i, day) = whole(i)?;
        let (i, _) = nom::combinator::opt(alt((
            tag_no_case("st"),
            tag_no_case("nd"),
            tag_no_case("rd"),
            tag_no_case("th"),
            tag_no_case("."),
        )))
        .parse(i)?;
        Ok((i, day))
    };
    let year = |i| take_while_m_n(4, 4, |c: char| c.is_ascii_digit()).parse(i);
    let build = |year: &str, month, day| year.parse().ok().and_then(|year| NaiveDate::from_ymd_opt(year, month, day));
    if let Ok((rest, (day, _, month, _, year))) = (day, gap, month, gap, year).parse(i) {
        return Ok((rest, build(year, month, day)));
    }
    let comma = |i| take_while_m_n(0, 2, |c: char| is_space(c) || c == ',').parse(i);
    let (rest, (month, _, day, _, year)) = (month, gap, day, comma, year).parse(i)?;
    Ok((rest, build(year, month, day)))
}

fn month(i: &str) -> Reading<'_, u32> {
    fn named<'a>(
        number: u32,
        long: &'static str,
        short: &'static str,
    ) -> impl Parser<&'a str, Output = u32, Error = Miss<'a>> {
        value(number, (alt((keyword(long), keyword(short))), nom::combinator::opt(char('.'))))
    }
    alt((
        named(1, "january", "jan"),
        named(2, "february", "feb"),
        named(3, "march", "mar"),
        named(4, "april", "apr"),
        named(5, "may", "may"),
        named(6, "june", "jun"),
        named(7, "july", "jul"),
        named(8, "august", "aug"),
        named(9, "september", "sep"),
        named(10, "october", "oct"),
        named(11, "november", "nov"),
        named(12, "december", "dec"),
    ))
    .parse(i)
}
