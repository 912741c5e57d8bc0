//! The words of a date, and the numbers in them: `14.9.`, `9/28/2026`, `14 9`.

use chrono::NaiveDate;

/// Numbers of a date: two of them, whether the day surely stands first, and the year perhaps.
pub(super) struct Numbers {
    pub(super) first: u32,
    pub(super) second: u32,
    pub(super) day_first: Option<bool>,
    pub(super) year: Option<i32>,
    pub(super) weak: bool,
}

/// `9/28`, `14.9.`, `14/9/26`, `2026/9/14`, `20260914`, `14.9`.
pub(super) fn numeric(word: &str) -> Option<Numbers> {
    let whole = word.len() == 8 && word.bytes().all(|byte| byte.is_ascii_digit());
    if whole {
        return of_year(word.get(..4)?, word.get(4..6)?, word.get(6..)?);
    }
    let sign = word.chars().find(|c| !c.is_ascii_digit()).filter(|c| matches!(c, '/' | '.' | '-'))?;
    let mut parts = word.split(sign);
    let (one, two, year) = (parts.next()?, parts.next()?, parts.next());
    if one.len() == 4 {
        let last = parts.next().unwrap_or("");
        return of_year(one, two, year?).filter(|_| last.is_empty());
    }
    let (first, second) = (short(one)?, short(two)?);
    let (year, weak) = match year {
        // `14.9` is a number; its second point makes it a date.
        None if sign == '.' => (None, true),
        // A range rises, and has no noughts before its numbers.
        None if sign == '-' && (first > second || one.starts_with('0') || two.starts_with('0')) => (None, true),
        None | Some("") if sign == '-' => return None,
        None | Some("") => (None, false),
        Some(year) if year.len() == 2 => (Some(2000 + year.parse::<i32>().ok()?), false),
        Some(year) if year.len() == 4 => (Some(year.parse().ok()?), false),
        Some(_) => return None,
    };
    if parts.next().is_some() {
        return None;
    }
    let (as_day_first, as_month_first) = (first <= 31 && second <= 12, first <= 12 && second <= 31);
    let day_first = match (as_day_first && first > 0 && second > 0, as_month_first && first > 0 && second > 0) {
        (true, _) if sign == '.' => Some(true),
        (false, _) if sign == '.' && weak => return None,
        (true, true) => None,
        (true, false) => Some(true),
        (false, true) => Some(false),
        (false, false) => return None,
    };
    Some(Numbers { first, second, day_first, year, weak })
}

/// A number of one or two digits.
fn short(part: &str) -> Option<u32> {
    (1..=2).contains(&part.len()).then(|| part.parse::<u32>().ok()).flatten()
}

/// Year, month and day in this order.
fn of_year(year: &str, month: &str, day: &str) -> Option<Numbers> {
    let (first, second) = (short(day)?, short(month)?);
    let year: i32 = year.parse().ok()?;
    NaiveDate::from_ymd_opt(year, second, first).filter(|_| (1900..2200).contains(&year))?;
    Some(Numbers { first, second, day_first: Some(true), year: Some(year), weak: false })
}

/// `2026 09 14`, `14. 9.`: takes the words that follow the first.
pub(super) fn spaced(one: &str, words: &mut Words<'_>) -> Option<Numbers> {
    let mut ahead = *words;
    let two = ahead.next()?;
    let read = if one.len() == 4 {
        of_year(one, two, ahead.next()?)
    } else {
        let (first, second) = (short(one.strip_suffix('.')?)?, short(two.strip_suffix('.')?)?);
        let real = (1..=31).contains(&first) && (1..=12).contains(&second);
        real.then_some(Numbers { first, second, day_first: Some(true), year: None, weak: false })
    };
    if read.is_some() {
        *words = ahead;
    }
    read
}

/// The words of a text, without the commas, colons and brackets round them.
#[derive(Clone, Copy)]
pub(super) struct Words<'t> {
    pub(super) text: &'t str,
    pub(super) at: usize,
}

impl<'t> Words<'t> {
    pub(super) fn next(&mut self) -> Option<&'t str> {
        let rest = self.text.get(self.at..)?;
        let word = rest.trim_start_matches([' ', '\t', ',', '\u{a0}', '(', '[']);
        let start = self.at + rest.len() - word.len();
        let parts = |c: char| matches!(c, ' ' | '\t' | ',' | ':' | '\u{a0}' | '(' | ')' | '[' | ']' | '*' | '_' | '|');
        let end = word.find(parts).unwrap_or(word.len());
        if end == 0 {
            return None;
        }
        self.at = start + end;
        word.get(..end)
    }
}
