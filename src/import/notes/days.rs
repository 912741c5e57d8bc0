//! Lines that say a day.

use super::Line;
use crate::notation::readings::{DateHabit, LooseDate, loose_date};
use crate::source::Cut;
use chrono::{Datelike, Days, NaiveDate, NaiveTime};
use std::ops::RangeInclusive;

/// A year that nobody writes.
const NO_YEAR: i32 = 1;
/// More words behind a date are a sentence.
const MOST_WORDS: usize = 6;

/// A line that says a day.
#[derive(Clone, Debug)]
pub(super) struct Day {
    /// As it is written.
    when: When,
    /// When it began.
    pub(super) time: Option<NaiveTime>,
    /// Where what follows it begins, and where that ends.
    pub(super) rest: (usize, usize),
    /// How deep the heading is; none on a line of its own.
    pub(super) level: Option<usize>,
    /// Whether it follows a line without a gap, and words follow it: `10.5. physio` may be a word about another day.
    glued: bool,
    /// Whether it is two numbers with a slash, which may be sets.
    slash: bool,
}

#[derive(Clone, Copy, Debug)]
enum When {
    Full(NaiveDate),
    /// A year of two digits stands behind it, perhaps.
    Open(LooseDate, Option<i32>),
    /// A weekday stands beside a date that has another.
    Never,
}

/// The day that a line says. `after_gap`: whether a blank line, or nothing, stands above it.
pub(super) fn day_of(line: &str, after_gap: bool) -> Option<Day> {
    let (start, level) = mark(line);
    let end =
        line.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, '*' | '_' | '=' | '#' | ']' | '>')).len();
    let text = line.get(start..end.max(start))?;
    let (when, length) = when(text)?;
    let mut at = length;
    let tail = |at: usize| text.tail(at);
    let blanks = |at: usize| at + tail(at).len() - tail(at).trim_start_matches([' ', '\t', ',', '>', ']']).len();
    let after = blanks(at);
    let (time, used) = time(tail(after));
    if time.is_some() {
        at = after + used;
    }
    let parted = tail(at).trim_start().starts_with([':', '-', '–', '—', '|', ',']);
    let rest = tail(at).trim_start_matches(|c: char| c.is_whitespace() || ":-–—|,>]*_".contains(c));
    let words = rest.split_whitespace().count();
    let bullet = level.is_none() && line.trim_start().starts_with(['-', '*', '+', '•']) && !line.contains("**");
    let date = text.head(length);
    let slash = date.matches('/').count() == 1 && date.bytes().all(|byte| byte.is_ascii_digit() || byte == b'/');
    let told = match when {
        _ if level.is_some() => match when {
            // `## Saturday market` names a day, and is no date by that alone.
            When::Open(loose, _) if !loose.is_of_calendar() => parted || words <= 1,
            _ => true,
        },
        _ if bullet && (slash || !after_gap) && (slash || words > 0) => false,
        When::Full(_) | When::Never => after_gap || words <= MOST_WORDS,
        // `8/8` below a lift are sets, `9/28` is a day.
        When::Open(..) if slash => {
            let big = date.split('/').any(|part| part.parse::<u32>().is_ok_and(|number| number > 15));
            after_gap || (big && (rest.is_empty() || rest.starts_with(char::is_alphabetic)))
        }
        // `10 may be too heavy`
        When::Open(loose, _) if loose.is_of_calendar() => {
            let verb = ["may", "march"].iter().any(|verb| date.split(' ').any(|word| word == *verb));
            after_gap || words == 0 || (words <= MOST_WORDS && !verb)
        }
        When::Open(loose, _) if loose.has_weekday() => {
            let colon = tail(at).trim_start().starts_with(':');
            !bullet && length > 2 && ((after_gap && (words == 0 || (parted && words <= 3))) || (colon && words > 0))
                || (!bullet && after_gap && words == 0)
        }
        When::Open(..) => {
            let titled = after_gap && words <= 3 && !rest.contains(|c: char| c.is_ascii_digit());
            !bullet && (words == 0 || titled)
        }
    };
    let rest_start = start + text.len() - rest.len();
    let glued = !after_gap && !rest.is_empty() && level.is_none();
    told.then_some(Day { when, time, rest: (rest_start, end), level, glued, slash })
}

/// Where a line begins behind the signs of a heading, a bullet or bold type, and how deep a heading it is.
fn mark(line: &str) -> (usize, Option<usize>) {
    let from = line.len() - line.trim_start().len();
    let text = line.tail(from);
    let signs = text.len() - text.trim_start_matches('#').len();
    let stars = text.len() - text.trim_start_matches('*').len();
    let level = match (signs, stars) {
        (1.., _) => Some(signs),
        // An outline's heading; one star alone may be a bullet.
        (0, 2..) => Some(stars).filter(|stars| text.get(*stars..).is_some_and(|rest| rest.starts_with(' '))),
        _ => None,
    };
    let plain = text.trim_start_matches(|c: char| {
        c.is_whitespace() || matches!(c, '#' | '*' | '_' | '=' | '-' | '–' | '—' | '•' | '+' | '<' | '[')
    });
    (from + text.len() - plain.len(), level)
}

/// The date that a text begins with, and where it ends.
fn when(text: &str) -> Option<(When, usize)> {
    if let Some((date, end)) = full(text) {
        // `2025-09-14 Sun`
        let rest = text.get(end..)?;
        let loose = loose_date(rest).filter(|loose| loose.has_weekday() && !loose.is_of_calendar());
        return Some(match loose {
            Some(weekday) if rest.starts_with(' ') => (fits(&weekday, date), end + weekday.end),
            _ => (When::Full(date), end),
        });
    }
    let loose = loose_date(text)?;
    let behind = text.get(loose.end..)?;
    let rest = behind.trim_start_matches([' ', ',']);
    if loose.has_weekday() && !loose.is_of_calendar() {
        if let Some((date, end)) = full(rest) {
            return Some((fits(&loose, date), text.len() - rest.len() + end));
        }
        // `Fr 6.9`: the weekday tells that it is no number.
        let word = rest.split([' ', ',', ':', '\t']).next().unwrap_or("");
        let dotted = word.split_once('.').is_some_and(|(day, month)| {
            [day, month].iter().all(|part| (1..=2).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit()))
        });
        let ended = format!("{} {word}.", text.head(loose.end));
        return Some(match loose_date(&ended).filter(|_| dotted) {
            Some(date) => (When::Open(date, None), text.len() - rest.len() + word.len()),
            None => (When::Open(loose, None), loose.end),
        });
    }
    // `14 Sep '25`, `14 Sep 25`
    let digits = rest.strip_prefix(['\'', '\u{2019}']).unwrap_or(rest);
    let year = digits.get(..2).filter(|year| year.bytes().all(|b| b.is_ascii_digit()));
    let ends =
        digits.get(2..).is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric() || ".,:/".contains(c)));
    let named = text.get(..loose.end).is_some_and(|date| date.contains(char::is_alphabetic));
    let short = year.filter(|_| ends && named && loose.is_of_calendar() && !has_year(&loose));
    Some(match short.and_then(|year| year.parse::<i32>().ok()).filter(|year| (10..60).contains(year)) {
        Some(year) => (When::Open(loose, Some(2000 + year)), text.len() - digits.len() + 2),
        None => (When::Open(loose, None), loose.end),
    })
}

fn fits(weekday: &LooseDate, date: NaiveDate) -> When {
    let before = date.checked_sub_days(Days::new(1));
    if weekday.fitting(before, Some(date), None).contains(&date) { When::Full(date) } else { When::Never }
}

/// `2025-09-14`, `2025/9/14`, `2025.09.14`
fn full(text: &str) -> Option<(NaiveDate, usize)> {
    let year = text.get(..4).filter(|year| year.bytes().all(|b| b.is_ascii_digit()))?;
    let sign = text.get(4..5).filter(|sign| matches!(*sign, "-" | "/" | "."))?;
    let mut rest = text.get(5..)?;
    let mut number = |last: bool| -> Option<u32> {
        let digits = rest.bytes().take(2).take_while(u8::is_ascii_digit).count();
        let number = rest.get(..digits)?.parse().ok()?;
        rest = rest.get(digits..)?;
        if !last {
            rest = rest.strip_prefix(sign)?;
        }
        Some(number)
    };
    let (month, day) = (number(false)?, number(true)?);
    if rest.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    Some((NaiveDate::from_ymd_opt(year.parse().ok()?, month, day)?, text.len() - rest.len()))
}

/// `18:30`, and how long it is.
fn time(text: &str) -> (Option<NaiveTime>, usize) {
    let word = text.split([' ', ',', '>', ']']).next().unwrap_or("");
    let read = word.split_once(':').and_then(|(hour, minute)| {
        let whole = minute.len() == 2 && (1..=2).contains(&hour.len());
        NaiveTime::from_hms_opt(hour.parse().ok()?, minute.parse().ok()?, 0).filter(|_| whole)
    });
    (read, word.len())
}

/// A line that names a year and no day: `2025`, `## September 2025`.
pub(super) fn year_of(line: &str) -> Option<i32> {
    let mut words = line.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let (first, second) = (words.next()?, words.next());
    let year = second.unwrap_or(first);
    let month = second.is_none() || loose_date(&format!("1 {first}")).is_some_and(|date| date.is_of_calendar());
    let whole = year.len() == 4 && words.next().is_none() && month;
    year.parse().ok().filter(|year| whole && (1950..2100).contains(year))
}

/// Whether the year is written.
fn has_year(loose: &LooseDate) -> bool {
    let of = |day_first| loose.fitting(None, None, Some(DateHabit { day_first, year: Some(NO_YEAR) }));
    [true, false].iter().any(|day_first| of(*day_first).iter().any(|date| date.year() != NO_YEAR))
}

impl Day {
    /// Whether a day of a month is written there.
    pub(super) fn is_of_calendar(&self) -> bool {
        !matches!(self.when, When::Open(loose, _) if !loose.is_of_calendar())
    }

    /// Whether nothing of the date is left open.
    pub(super) fn is_full(&self) -> bool {
        matches!(self.when, When::Full(_))
    }

    /// Whether a weekday stands beside it, which tells its year.
    pub(super) fn tells_year(&self) -> bool {
        matches!(self.when, When::Open(loose, None) if loose.is_of_calendar() && loose.has_weekday() && !has_year(&loose))
    }

    /// The date, where its year is written.
    pub(super) fn written(&self, day_first: Option<bool>) -> Option<NaiveDate> {
        only(&self.dates(NO_YEAR..=NO_YEAR, day_first)).filter(|date| date.year() != NO_YEAR)
    }

    /// The dates that it may be between two others.
    pub(super) fn between(&self, one: NaiveDate, two: NaiveDate) -> Vec<NaiveDate> {
        match self.when {
            When::Open(loose, _) => loose.fitting(Some(one), Some(two), None),
            When::Full(_) | When::Never => Vec::new(),
        }
    }

    /// The dates that it may be in these years.
    pub(super) fn dates(&self, years: RangeInclusive<i32>, day_first: Option<bool>) -> Vec<NaiveDate> {
        match self.when {
            When::Never => Vec::new(),
            When::Full(date) => vec![date],
            When::Open(loose, year) => {
                let years = year.map_or(years, |year| year..=year);
                let orders = day_first.map_or(vec![true, false], |order| vec![order]);
                let mut dates: Vec<NaiveDate> = years
                    .flat_map(|year| {
                        orders.iter().map(move |day_first| DateHabit { day_first: *day_first, year: Some(year) })
                    })
                    .flat_map(|habit| loose.fitting(None, None, Some(habit)))
                    .collect();
                dates.sort_unstable();
                dates.dedup();
                dates
            }
        }
    }
}

/// The days that a file's lines say, by the place of the line.
pub(super) fn days(lines: &[Line<'_>]) -> Vec<(usize, Day)> {
    let mut found = Vec::new();
    let mut after_gap = true;
    for (at, line) in lines.iter().enumerate() {
        if let Some(day) = day_of(line.text, after_gap) {
            found.push((at, day));
        }
        after_gap = line.text.trim().is_empty();
    }
    // Where the days of a file are written in one way, one that is written in another is in doubt.
    let of = found.iter().filter(|(_, day)| day.is_of_calendar());
    let (all, glued) = (of.clone().count(), of.clone().filter(|(_, day)| day.glued).count());
    let slash = of.filter(|(_, day)| day.slash).count();
    for (_, day) in &mut found {
        if (day.glued && glued * 5 < all) || (day.slash && slash * 2 < all) {
            day.when = When::Never;
        }
    }
    found
}

/// The date, where there is one.
pub(super) fn only(dates: &[NaiveDate]) -> Option<NaiveDate> {
    match dates {
        [one] => Some(*one),
        _ => None,
    }
}
