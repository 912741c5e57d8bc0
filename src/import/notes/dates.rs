//! Lines that say a day, and which date each of them is.

use super::Line;
use crate::notation::readings::{DateHabit, LooseDate, loose_date};
use chrono::{Datelike, Days, NaiveDate, NaiveTime};
use std::ops::RangeInclusive;

/// A day stands at most so long after the one before, or the year is in doubt.
const FAR_DAYS: i64 = 183;
/// A day further off than this from both its neighbours, which are near each other, is a slip.
const NEAR_DAYS: i64 = 45;
/// Days that were written down late stand at most so far behind others.
const LATE_DAYS: i64 = 14;
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
    let end = line.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, '*' | '_' | '=' | '#' | ']' | '>')).len();
    let text = line.get(start..end.max(start))?;
    let (when, length) = when(text)?;
    let mut at = length;
    let tail = |at: usize| text.get(at..).unwrap_or("");
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
    let told = match when {
        _ if level.is_some() => match when {
            // `## Saturday market` names a day, and is no date by that alone.
            When::Open(loose, _) if !loose.is_of_calendar() => parted || words <= 1,
            _ => true,
        },
        When::Full(_) | When::Never => after_gap || words <= MOST_WORDS,
        When::Open(loose, _) if loose.is_of_calendar() => {
            let slash = text.get(..length).is_some_and(|date| date.bytes().all(|b| b.is_ascii_digit() || b == b'/'))
                && text.matches('/').count() == 1;
            // `8/8` below a lift are sets, `9/28` is a day.
            let big = text.get(..length).unwrap_or("").split('/').any(|part| part.parse::<u32>().is_ok_and(|n| n > 15));
            match (slash, bullet) {
                (true, true) => false,
                (true, false) => after_gap || (big && (rest.is_empty() || rest.starts_with(char::is_alphabetic))),
                (false, _) => after_gap || words <= MOST_WORDS,
            }
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
    told.then_some(Day { when, time, rest: (rest_start, end), level })
}

/// Where a line begins behind the signs of a heading, a bullet or bold type, and how deep a heading it is.
fn mark(line: &str) -> (usize, Option<usize>) {
    let from = line.len() - line.trim_start().len();
    let text = line.get(from..).unwrap_or("");
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
        let ended = format!("{} {word}.", text.get(..loose.end).unwrap_or(""));
        return Some(match loose_date(&ended).filter(|_| dotted) {
            Some(date) => (When::Open(date, None), text.len() - rest.len() + word.len()),
            None => (When::Open(loose, None), loose.end),
        });
    }
    // `14 Sep '25`, `14 Sep 25`
    let digits = rest.strip_prefix(['\'', '\u{2019}']).unwrap_or(rest);
    let year = digits.get(..2).filter(|year| year.bytes().all(|b| b.is_ascii_digit()));
    let ends = digits.get(2..).is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric() || ".,:/".contains(c)));
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
    fn is_full(&self) -> bool {
        matches!(self.when, When::Full(_))
    }

    /// Whether a weekday stands beside it, which tells its year.
    pub(super) fn tells_year(&self) -> bool {
        matches!(self.when, When::Open(loose, None) if loose.is_of_calendar() && loose.has_weekday() && !has_year(&loose))
    }

    /// The date, where its year is written.
    fn written(&self, day_first: Option<bool>) -> Option<NaiveDate> {
        only(&self.dates(NO_YEAR..=NO_YEAR, day_first)).filter(|date| date.year() != NO_YEAR)
    }

    /// The dates that it may be in these years.
    fn dates(&self, years: RangeInclusive<i32>, day_first: Option<bool>) -> Vec<NaiveDate> {
        match self.when {
            When::Never => Vec::new(),
            When::Full(date) => vec![date],
            When::Open(loose, year) => {
                let years = year.map_or(years, |year| year..=year);
                let orders = day_first.map_or(vec![true, false], |order| vec![order]);
                let mut dates: Vec<NaiveDate> = years
                    .flat_map(|year| orders.iter().map(move |day_first| DateHabit { day_first: *day_first, year: Some(year) }))
                    .flat_map(|habit| loose.fitting(None, None, Some(habit)))
                    .collect();
                dates.sort_unstable();
                dates.dedup();
                dates
            }
        }
    }
}

/// A line of a file, with the day that it says and the year that a line above it named.
pub(super) struct Said<'d> {
    pub(super) day: &'d Day,
    pub(super) year: Option<i32>,
}

/// The date of each day of one file, where something settles it: what is written, the habit, or its neighbours. The
/// year of the habit is that of the oldest day; where the days go on into the next year, so do the dates.
pub(super) fn settled(days: &[Said<'_>], habit: Option<DateHabit>) -> Vec<Option<NaiveDate>> {
    let order = habit.map(|habit| habit.day_first);
    let mut at: Vec<usize> = (0..days.len()).filter(|at| days.get(*at).is_some_and(|said| said.day.is_of_calendar())).collect();
    if falls(days, &at, order) {
        at.reverse();
    }
    let mut dates: Vec<Option<NaiveDate>> = vec![None; days.len()];
    let mut last: Option<NaiveDate> = None;
    for (nth, place) in at.iter().enumerate() {
        let Some(said) = days.get(*place) else { continue };
        let year = last.map(|last| last.year());
        let next = at.get(nth + 1).and_then(|next| days.get(*next));
        let found = match (year, said.year.or(habit.and_then(|habit| habit.year))) {
            _ if said.day.written(order).is_some() => said.day.written(order),
            (Some(year), _) => last.and_then(|last| follows(said, last, year, order, next)),
            (None, Some(year)) => only(&said.day.dates(year..=year, order)),
            (None, None) => None,
        };
        if let Some(date) = dates.get_mut(*place) {
            *date = found;
        }
        last = found.or(last);
    }
    // What stands before the first that is settled goes by it.
    let mut next: Option<NaiveDate> = None;
    for place in at.iter().rev() {
        let (Some(said), Some(date)) = (days.get(*place), dates.get_mut(*place)) else { continue };
        if date.is_none() && let Some(next) = next {
            let near = |date: &NaiveDate| (0..=NEAR_DAYS).contains(&(next - *date).num_days());
            let fit: Vec<NaiveDate> =
                said.day.dates(next.year() - 1..=next.year(), order).into_iter().filter(near).collect();
            *date = only(&fit);
        }
        next = date.or(next);
    }
    weekdays_between(days, &mut dates);
    dates
}

/// The date of a day that comes after another one.
fn follows(
    said: &Said<'_>,
    last: NaiveDate,
    year: i32,
    order: Option<bool>,
    next: Option<&Said<'_>>,
) -> Option<NaiveDate> {
    let near = |date: &NaiveDate| (-LATE_DAYS..=FAR_DAYS).contains(&(*date - last).num_days());
    let years = said.year.map_or(year - 1..=year + 1, |year| year..=year);
    let fit: Vec<NaiveDate> =
        said.day.dates(years, order).into_iter().filter(|date| said.year.is_some() || near(date)).collect();
    let date = only(&fit)?;
    // A day far from those round it, which are near each other, is a slip of the pen.
    let slip = (date - last).num_days() > NEAR_DAYS
        && next.is_some_and(|next| {
            let dates = next.day.dates(year - 1..=year + 1, order);
            let near = |to: NaiveDate| dates.iter().any(|next| (*next - to).num_days().abs() <= NEAR_DAYS);
            near(last) && !near(date)
        });
    (!slip).then_some(date)
}

fn only(dates: &[NaiveDate]) -> Option<NaiveDate> {
    match dates {
        [one] => Some(*one),
        _ => None,
    }
}

/// Whether the newest day stands first.
fn falls(days: &[Said<'_>], at: &[usize], order: Option<bool>) -> bool {
    let order = order.or(Some(true));
    // The day of the month alone, in the years round one.
    let of = |place: &usize| -> Vec<NaiveDate> {
        let Some(said) = days.get(*place) else { return Vec::new() };
        match said.day.written(order) {
            Some(date) => (1999..=2001).filter_map(|year| date.with_year(year)).collect(),
            None => said.day.dates(1999..=2001, order),
        }
    };
    let (mut up, mut down) = (0, 0);
    for pair in at.windows(2) {
        let [one, two] = pair else { continue };
        let (ones, twos) = (of(one), of(two));
        let nearest = ones.iter().flat_map(|one| twos.iter().map(move |two| (*two - *one).num_days())).min_by_key(|days| days.abs());
        match nearest {
            Some(1..) => up += 1,
            Some(days) if days < 0 => down += 1,
            _ => {}
        }
    }
    down > up
}

/// A weekday alone, or a training day's number, between two days of which only one leaves room for it.
fn weekdays_between(days: &[Said<'_>], dates: &mut [Option<NaiveDate>]) {
    for at in 0..days.len() {
        let Some(When::Open(loose, _)) = days.get(at).map(|said| said.day.when) else { continue };
        if loose.is_of_calendar() || dates.get(at).copied().flatten().is_some() {
            continue;
        }
        let beside = |other: Option<usize>| other.and_then(|other| dates.get(other).copied().flatten());
        let (one, two) = (beside(at.checked_sub(1)), beside(Some(at + 1)));
        let (Some(one), Some(two)) = (one, two) else { continue };
        let inside = |date: &NaiveDate| *date > one.min(two) && *date < one.max(two);
        let fit: Vec<NaiveDate> =
            loose.fitting(Some(one.min(two)), Some(one.max(two)), None).into_iter().filter(inside).collect();
        let wide = (two - one).num_days().abs() > 8;
        if let Some(date) = dates.get_mut(at) {
            *date = only(&fit).filter(|_| !wide);
        }
    }
}

/// The habit of dates that leaves the most days settled; how many of how many.
pub(super) fn habit_of(
    files: &[Vec<Said<'_>>],
    known: Option<DateHabit>,
    today: NaiveDate,
) -> Option<(DateHabit, usize, usize)> {
    let all = || files.iter().flatten().filter(|said| said.day.is_of_calendar());
    let of = all().count();
    let open = all().filter(|said| !said.day.is_full()).count();
    let dates = |habit: Option<DateHabit>| -> Vec<NaiveDate> {
        files.iter().flat_map(|days| calendar(days, &settled(days, habit))).collect()
    };
    if open == 0 || dates(known).len() == of || known.is_some_and(|known| known.year.is_some()) {
        return None;
    }
    // How many days follow the one before them as days of training do.
    let close = |habit: DateHabit| -> usize {
        let near = |pair: &[NaiveDate]| matches!(pair, [one, two] if (*two - *one).num_days().abs() <= LATE_DAYS);
        dates(Some(habit)).windows(2).filter(|pair| near(pair)).count()
    };
    // Weekdays tell the year; without one, only a person can.
    let told = all().filter(|said| said.day.tells_year()).count();
    let years: Vec<Option<i32>> =
        if told > 2 { (0..12).map(|back| Some(today.year() - back)).collect() } else { vec![None] };
    let probe = |habit: DateHabit| DateHabit { year: habit.year.or(Some(today.year() - 1)), ..habit };
    let habits = [true, false].into_iter().flat_map(|day_first| years.iter().map(move |year| DateHabit { day_first, year: *year }));
    let mut found: Vec<(usize, DateHabit)> = habits.map(|habit| (close(probe(habit)), habit)).collect();
    found.sort_by_key(|(close, habit)| (std::cmp::Reverse(*close), !habit.day_first, std::cmp::Reverse(habit.year)));
    let (best, habit) = found.first().copied()?;
    // Another year or order that fits about as well leaves it open; the order of dates with names does not matter.
    let rival = |(close, other): &(usize, DateHabit)| {
        let about = *close * 10 > best * 9;
        about && (other.year != habit.year || (other.day_first != habit.day_first && *close < best))
    };
    let lines = dates(Some(probe(habit))).len();
    let clear = best > 2 && lines * 10 >= of * 8 && !found.iter().any(rival);
    clear.then_some((habit, lines, of))
}

/// The dates of the days of a month among some.
fn calendar(days: &[Said<'_>], dates: &[Option<NaiveDate>]) -> Vec<NaiveDate> {
    days.iter().zip(dates).filter(|(said, _)| said.day.is_of_calendar()).filter_map(|(_, date)| *date).collect()
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
    found
}
