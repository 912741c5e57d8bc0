//! Dates as people write them: `Mon 14 Sep`, `9/28`, `14.9.`, `Day 3`. They say no year, or not which number is the month.

use super::DateHabit;
use crate::notation::nodes::Date;
use chrono::{Datelike, Days, NaiveDate, Weekday};

/// A date that leaves something open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LooseDate {
    /// Where the date ends in its text.
    pub end: usize,
    weekday: Option<Weekday>,
    /// Two numbers, and whether the first is surely the day or surely the month.
    numbers: Option<(u32, u32, Option<bool>)>,
    year: Option<i32>,
}

/// A session nearer than this to the last one is offered where only the days are counted.
const NEAR_DAYS: u64 = 3;
/// A date without a year is not further from its neighbour than this.
const FAR_DAYS: i64 = 366;

/// The loose date that a text begins with. A date in the notation is none.
pub fn loose_date(text: &str) -> Option<LooseDate> {
    let mut words = Words { text, at: 0 };
    let first = words.next()?;
    if first.eq_ignore_ascii_case("day") {
        let number = words.next()?;
        let whole = number.len() <= 3 && number.bytes().all(|byte| byte.is_ascii_digit());
        return whole.then_some(LooseDate { end: words.at, weekday: None, numbers: None, year: None });
    }
    let mut found = LooseDate { end: words.at, weekday: weekday(first), numbers: None, year: None };
    let (one, mut end) = if found.weekday.is_some() {
        match words.next() {
            Some(next) => (next, words.at),
            None => return Some(found),
        }
    } else {
        (first, words.at)
    };
    if let Some(numbers) = numeric(one) {
        found.numbers = Some((numbers.0, numbers.1, numbers.3));
        (found.year, found.end) = (numbers.2, end);
        return Some(found);
    }
    // `14 Sep`, `14. September 2026`, `Sep 14th`
    let two = words.next().unwrap_or("");
    let read = match (day(one), month(one), day(two), month(two)) {
        (Some(day), _, _, Some(month)) | (_, Some(month), Some(day), _) => Some((day, month)),
        _ => None,
    };
    let Some((day, month)) = read else {
        // A weekday alone: what follows is a label.
        return found.weekday.is_some().then_some(found);
    };
    end = words.at;
    let year = words.next().filter(|year| year.len() == 4).and_then(|year| year.parse().ok());
    if year.is_some() {
        end = words.at;
    }
    Some(LooseDate { end, weekday: found.weekday, numbers: Some((day, month, Some(true))), year })
}

impl LooseDate {
    /// Whether the text says a day of a month, and not only which weekday or which training day.
    pub fn is_of_calendar(&self) -> bool {
        self.numbers.is_some()
    }

    /// Whether a weekday stands there.
    pub fn has_weekday(&self) -> bool {
        self.weekday.is_some()
    }

    /// The dates that fit its weekday and the sessions before and after it, the likeliest first.
    pub fn fitting(&self, before: Option<Date>, after: Option<Date>, habit: Option<DateHabit>) -> Vec<Date> {
        let inside = |date: &Date| {
            before.is_none_or(|before| *date >= before && (*date - before).num_days() <= FAR_DAYS)
                && after.is_none_or(|after| *date <= after && (after - *date).num_days() <= FAR_DAYS)
                && self.weekday.is_none_or(|weekday| date.weekday() == weekday)
        };
        let mut dates: Vec<Date> = match self.numbers {
            None => {
                let reach = if self.weekday.is_some() { 7 } else { NEAR_DAYS };
                let from = before.or(after.and_then(|after| after.checked_sub_days(Days::new(reach + 1))));
                let from = match from {
                    Some(from) => from,
                    None => return Vec::new(),
                };
                (1..=reach).filter_map(|days| from.checked_add_days(Days::new(days))).collect()
            }
            Some((one, two, day_first)) => {
                let orders: &[bool] = match day_first.or(habit.map(|habit| habit.day_first)) {
                    Some(true) => &[true],
                    Some(false) => &[false],
                    None => &[true, false],
                };
                let near = before.or(after).map(|date| date.year());
                let years: Vec<i32> = match (self.year, habit.and_then(|habit| habit.year), near) {
                    (Some(year), ..) | (None, Some(year), _) => vec![year],
                    (None, None, Some(year)) => vec![year, year + 1, year - 1],
                    _ => Vec::new(),
                };
                let of = |year: i32, day_first: bool| {
                    let (day, month) = if day_first { (one, two) } else { (two, one) };
                    NaiveDate::from_ymd_opt(year, month, day)
                };
                years.iter().flat_map(|year| orders.iter().filter_map(|order| of(*year, *order))).collect()
            }
        };
        dates.retain(inside);
        let from = before.or(after);
        dates.sort_by_key(|date| from.map_or(0, |from| (*date - from).num_days().abs()));
        dates.dedup();
        dates.truncate(3);
        dates
    }
}

/// `9/28`, `14.9.`, `14/9/26`: two numbers, a year perhaps, and whether the day surely stands first.
fn numeric(word: &str) -> Option<(u32, u32, Option<i32>, Option<bool>)> {
    let sign = word.chars().find(|c| !c.is_ascii_digit()).filter(|c| matches!(c, '/' | '.' | '-'))?;
    let mut parts = word.split(sign);
    let (one, two, year) = (parts.next()?, parts.next()?, parts.next());
    let short = |part: &str| (1..=2).contains(&part.len()).then(|| part.parse::<u32>().ok()).flatten();
    let (first, second) = (short(one)?, short(two)?);
    let year = match year {
        // `14.9` is a number; its second point makes it a date.
        None if sign == '.' => return None,
        None | Some("") => None,
        Some(year) if year.len() == 2 => Some(2000 + year.parse::<i32>().ok()?),
        Some(year) if year.len() == 4 => Some(year.parse().ok()?),
        Some(_) => return None,
    };
    if parts.next().is_some() || (sign == '-' && year.is_none()) {
        return None;
    }
    let (as_day_first, as_month_first) = (first <= 31 && second <= 12, first <= 12 && second <= 31);
    let day_first = match (as_day_first && first > 0 && second > 0, as_month_first && first > 0 && second > 0) {
        (true, true) if sign == '.' => Some(true),
        (true, true) => None,
        (true, false) => Some(true),
        (false, true) => Some(false),
        (false, false) => return None,
    };
    Some((first, second, year, day_first))
}

/// `14`, `14.`, `14th`
fn day(word: &str) -> Option<u32> {
    let digits = word.bytes().take_while(u8::is_ascii_digit).count();
    let ends = matches!(word.get(digits..)?.to_ascii_lowercase().as_str(), "" | "." | "st" | "nd" | "rd" | "th");
    word.get(..digits)?.parse().ok().filter(|day| ends && (1..=31).contains(day))
}

fn month(word: &str) -> Option<u32> {
    const MONTHS: [&[&str]; 12] = [
        &["jan", "january", "januar", "janvier", "enero"],
        &["feb", "february", "februar", "février", "febrero"],
        &["mar", "march", "märz", "mars", "marzo"],
        &["apr", "april", "avril", "abril"],
        &["may", "mai", "mayo"],
        &["jun", "june", "juni", "juin", "junio"],
        &["jul", "july", "juli", "juillet", "julio"],
        &["aug", "august", "août", "agosto"],
        &["sep", "sept", "september", "septembre", "septiembre"],
        &["oct", "okt", "october", "oktober", "octobre", "octubre"],
        &["nov", "november", "novembre", "noviembre"],
        &["dec", "dez", "december", "dezember", "décembre", "diciembre"],
    ];
    let lower = word.trim_end_matches('.').to_lowercase();
    MONTHS.iter().position(|names| names.contains(&lower.as_str())).map(|at| at as u32 + 1)
}

fn weekday(word: &str) -> Option<Weekday> {
    const DAYS: [&[&str]; 7] = [
        &["mon", "monday", "mo", "montag", "lundi", "lunes"],
        &["tue", "tues", "tuesday", "di", "dienstag", "mardi", "martes"],
        &["wed", "weds", "wednesday", "mi", "mittwoch", "mercredi", "miércoles"],
        &["thu", "thur", "thurs", "thursday", "do", "donnerstag", "jeudi", "jueves"],
        &["fri", "friday", "fr", "freitag", "vendredi", "viernes"],
        &["sat", "saturday", "sa", "samstag", "samedi", "sábado"],
        &["sun", "sunday", "so", "sonntag", "dimanche", "domingo"],
    ];
    const OF: [Weekday; 7] =
        [Weekday::Mon, Weekday::Tue, Weekday::Wed, Weekday::Thu, Weekday::Fri, Weekday::Sat, Weekday::Sun];
    let lower = word.trim_end_matches('.').to_lowercase();
    DAYS.iter().position(|names| names.contains(&lower.as_str())).and_then(|at| OF.get(at).copied())
}

/// The words of a text, without the commas and colons behind them.
struct Words<'t> {
    text: &'t str,
    at: usize,
}

impl<'t> Words<'t> {
    fn next(&mut self) -> Option<&'t str> {
        let rest = self.text.get(self.at..)?;
        let word = rest.trim_start_matches([' ', '\t', ',', '\u{a0}']);
        let start = self.at + rest.len() - word.len();
        let end = word.find([' ', '\t', ',', ':', '\u{a0}']).unwrap_or(word.len());
        if end == 0 {
            return None;
        }
        self.at = start + end;
        word.get(..end)
    }
}

#[cfg(test)]
mod tests {
    use super::loose_date;
    use chrono::NaiveDate;

    fn date(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn dates_that_leave_something_open_are_told_from_neighbours() {
        let (before, after) = (Some(date("2026-09-11")), Some(date("2026-10-02")));
        for (text, fitting) in [
            ("Mon 14 Sep", vec!["2026-09-14"]),
            ("Sept 14th", vec!["2026-09-14"]),
            ("9/28", vec!["2026-09-28"]),
            ("14.9.", vec!["2026-09-14"]),
            ("Tue 14 Sep", vec![]),
            ("Day 3", vec!["2026-09-12", "2026-09-13", "2026-09-14"]),
            ("Friday", vec!["2026-09-18"]),
        ] {
            let loose = loose_date(text).unwrap();
            let expected: Vec<NaiveDate> = fitting.into_iter().map(date).collect();
            assert_eq!(loose.fitting(before, after, None), expected, "{text}");
        }
        for none in ["82.5", "3x8", "Squat 3x5", "2026-09-14", "14.9", "Daylight 3", "35/40"] {
            assert_eq!(loose_date(none), None, "{none}");
        }
    }
}
