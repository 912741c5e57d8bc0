//! Dates as people write them: `Mon 14 Sep`, `9/28`, `14.9.`, `Day 3`, `Date: 2026/09/14`. Most say no year, or not which
//! number is the month.

use super::DateHabit;
use super::date_words::{Words, numeric, spaced};
use super::day_names::{day, is_too_short, month, weekday};
use super::numbers::letters;
use super::vocabulary::{Role as R, Roles};
use super::words::has_common_word;
use crate::notation::nodes::Date;
use crate::source::Cut;
use chrono::{Datelike, Days, NaiveDate, Weekday};

/// A date that leaves something open, or is not written as the notation has it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LooseDate {
    /// Where the date ends in its text.
    pub end: usize,
    weekday: Option<Weekday>,
    /// Two numbers, and whether the first is surely the day or surely the month.
    numbers: Option<(u32, u32, Option<bool>)>,
    year: Option<i32>,
    /// `Mon 14`: the day of whichever month.
    day: Option<u32>,
    /// Whether it can be nothing else: it has a year, a weekday beside its day, or a month's name.
    sure: bool,
    /// `14.9`, `14-9`: a number, or a date.
    weak: bool,
    /// `Week 3` and no day of it.
    week: bool,
}

/// What stands behind a date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Label {
    /// Nothing, or the time.
    Nothing,
    /// What days are called, or a few words behind a sign that parts them from the date.
    Title,
    /// A few words.
    Words,
    /// Sets.
    Sets,
    /// Anything else.
    Other,
}

/// A session nearer than this to the last one is offered where only the days are counted.
const NEAR_DAYS: u64 = 3;
/// A day of a month that is not named is not further off than this.
const NEAR_MONTHS: u64 = 62;
/// A date without a year is not further from its neighbour than this.
const FAR_DAYS: i64 = 366;
/// Without a weekday beside it, a date further from its neighbours than this may be of another year.
const SURE_DAYS: i64 = 183;

/// Whether a text may begin with a date: with a number, or a word like the name of a day or a month.
pub fn begins_like_a_date(text: &str) -> bool {
    match text.as_bytes() {
        [b'0'..=b'9' | b'[' | b'(', ..] => true,
        [one, two, ..] => {
            let pair = [one.to_ascii_lowercase(), two.to_ascii_lowercase()];
            let word = text.bytes().take(16).take_while(|byte| byte.is_ascii_alphabetic() || !byte.is_ascii()).count();
            // No such word is longer; `sábado` and `märz` begin with a letter and a byte above ASCII.
            word < 16 && (!one.is_ascii() || !two.is_ascii() || pair[1].is_ascii_digit() || is_start(pair))
        }
        _ => false,
    }
}

/// Whether two letters begin the name of a day or a month, `day`, `week`, or a word that stands before a date.
fn is_start(pair: [u8; 2]) -> bool {
    #[rustfmt::skip]
    let starts = matches!(
        &pair,
        b"ab" | b"ag" | b"al" | b"am" | b"ao" | b"ap" | b"au" | b"av" | b"cz" | b"da" | b"de" | b"di" | b"do" | b"du" | b"en" | b"fe"
        | b"fr" | b"ge" | b"gi" | b"gr" | b"he" | b"ho" | b"id" | b"il" | b"ja" | b"je" | b"jo" | b"ju" | b"ke" | b"kv" | b"kw" | b"le"
        | b"la" | b"li" | b"lu" | b"ma" | b"me" | b"mi" | b"mo" | b"mr" | b"nd" | b"ne" | b"ni" | b"no" | b"oc" | b"og" | b"ok"
        | b"on" | b"ot" | b"ou" | b"pa" | b"pe" | b"pr" | b"pi" | b"pn" | b"po" | b"pt" | b"qu" | b"sa" | b"se" | b"si" | b"so" | b"sr" | b"st"
        | b"su" | b"ta" | b"te" | b"th" | b"ti" | b"to" | b"tr" | b"tu" | b"tw" | b"va" | b"ve" | b"vi" | b"vr" | b"we" | b"wk"
        | b"wo" | b"wr" | b"wt" | b"za" | b"zo"
    );
    starts
}

/// Words that stand before a date.
const KEYS: Roles = Roles::of(&[R::DateKey, R::Today]);
/// What dates begin with that are no names of days or months.
const STARTS: Roles = KEYS.and(Roles::of(&[R::Week, R::TrainingDay]));

/// How far brackets and pictures before a text reach.
fn signs(text: &str) -> usize {
    let sign = |c: char| !c.is_alphanumeric() && (!c.is_ascii() || matches!(c, ' ' | '[' | '(' | '*' | '_' | ':'));
    text.len() - text.trim_start_matches(sign).len()
}

/// Where a date begins, behind brackets, pictures and a word such as `Date:`.
pub fn before_date(text: &str) -> usize {
    let at = signs(text);
    let word = letters(text.tail(at));
    let behind = at + word.len();
    let parted = signs(text.tail(behind));
    let key = parted > 0 && word.len() <= 8 && KEYS.has(&word.to_lowercase());
    if key { behind + parted } else { at }
}

/// The date that a text begins with, in whatever form.
pub fn date_in(text: &str) -> Option<LooseDate> {
    // Most lines are words, which the first of them tells.
    let word = letters(text);
    // `sexta-feira`
    let whole = text.split([' ', ':', ',']).next().unwrap_or(word);
    let is_day = || weekday(word).or_else(|| weekday(whole)).is_some() || month(word).is_some();
    if !word.is_empty() && !is_day() && !STARTS.has(&word.to_lowercase()) {
        return None;
    }
    let start = before_date(text);
    let mut found =
        counted(text, start).or_else(|| counted(text, signs(text))).or_else(|| dated(Words { text, at: start }))?;
    let rest = text.tail(found.end);
    found.end += rest.len() - rest.trim_start_matches([']', ')', '*', '_']).len();
    Some(found)
}

/// `the next morning`, `two days later`, `the 8th`, `9th`: another day, told by the one above.
pub fn another_day(text: &str) -> Option<LooseDate> {
    #[rustfmt::skip]
    const ANOTHER: [&str; 11] = [
        "al día siguiente", "am nächsten tag", "am tag darauf", "il giorno dopo", "later that week", "le lendemain",
        "next day", "next morning", "the next day", "the next morning", "two days later",
    ];
    if text.len() > 20 || !text.starts_with(|c: char| c.is_ascii_alphanumeric()) {
        return None;
    }
    let lower = text.trim_end().trim_end_matches([':', '.']).to_lowercase();
    let nth = lower.strip_prefix("on ").unwrap_or(&lower);
    let (nth, the) = nth.strip_prefix("the ").map_or((nth, false), |nth| (nth, true));
    let ordinal = nth.ends_with(['t', 'd', 'h']) && nth.len() <= 4 && (the || nth.len() == lower.len());
    let day = day(nth).filter(|_| ordinal && nth.len() > 2);
    if day.is_none() && !ANOTHER.contains(&lower.as_str()) {
        return None;
    }
    Some(LooseDate { end: text.len(), day, ..LooseDate::default() })
}

/// The loose date that a text begins with. A date in the notation is none, and neither is what may be a number.
pub fn loose_date(text: &str) -> Option<LooseDate> {
    date_in(text).filter(|found| !found.weak && !found.week && !is_iso(text))
}

/// Where a date begins that stands behind what its day is called, and nothing behind it: `Upper, 2026-03-07`,
/// `Push day Saturday`, `Lower B (Sat)`.
pub fn behind_its_title(text: &str) -> Option<usize> {
    const LONGEST: usize = 40;
    const MOST_WORDS: usize = 3;
    // Few lines are told to be none by more than this.
    if text.len() > LONGEST || !text.starts_with(char::is_alphabetic) {
        return None;
    }
    let mut at = 0;
    for _ in 0..MOST_WORDS {
        let word = letters(text.tail(at));
        if word.is_empty() || !R::Title.has(&word.to_lowercase()) {
            return None;
        }
        let behind = text.tail(at + word.len());
        at = text.len() - behind.trim_start_matches(|c: char| !c.is_alphanumeric()).len();
        let rest = text.tail(at);
        if is_iso(rest) && rest.tail(10).chars().all(|c| !c.is_alphanumeric()) {
            return Some(at);
        }
        // `Bench 7/3` may be sets, and `Legs sa` a word.
        let told = |date: &LooseDate| date.sure || (date.weekday.is_some() && rest.len() > 2);
        let whole = |date: &LooseDate| date.label(rest) == Label::Nothing && !date.weak;
        if date_in(rest).filter(told).is_some_and(|date| whole(&date)) {
            return Some(at);
        }
    }
    None
}

/// `2026-09-14 …`
fn is_iso(text: &str) -> bool {
    let shape = |(at, byte): (usize, u8)| if matches!(at, 4 | 7) { byte == b'-' } else { byte.is_ascii_digit() };
    text.len() >= 10 && text.bytes().take(10).enumerate().all(shape)
}

/// `Day 3`, `Week 3 - Day 2`, `W2D3`
fn counted(text: &str, start: usize) -> Option<LooseDate> {
    let (mut at, mut found) = (start, None);
    for (role, is_week) in [(R::Week, true), (R::TrainingDay, false)] {
        let rest = text.tail(at).trim_start_matches([' ', ',', '-', '–', '—', '/', ':']);
        let word = letters(rest);
        // `d 3` alone could be anything.
        let short = word.len() == 1 && !is_week && found.is_none();
        if short || !role.has(&word.to_lowercase()) {
            continue;
        }
        let number = rest.tail(word.len()).trim_start_matches([' ', '#', '.']);
        let digits = number.bytes().take_while(u8::is_ascii_digit).count();
        let behind = number.tail(digits);
        let goes_on = is_week && behind.starts_with(['d', 'D', 't', 'T']);
        let more = behind.starts_with(|c: char| c.is_alphanumeric()) && !goes_on
            || behind.starts_with(['/', '.', ':']) && behind.tail(1).starts_with(|c: char| c.is_ascii_digit());
        if !(1..=3).contains(&digits) || more {
            continue;
        }
        at = text.len() - behind.len();
        found = Some(LooseDate { end: at, week: is_week, ..LooseDate::default() });
    }
    // `w 3` alone could be anything, too.
    found.filter(|found| !found.week || letters(text.tail(start)).len() > 1)
}

/// A weekday, a day of a month, or both.
fn dated(words: Words<'_>) -> Option<LooseDate> {
    let text = words.text;
    let mut behind = words;
    let first = behind.next()?;
    let before = weekday(first);
    let with_weekday = before.and_then(|_| calendar(behind));
    let mut found = match with_weekday.or_else(|| calendar(words)) {
        Some(found) => found,
        // `Mon 14`; what else follows is a label.
        None => {
            before?;
            let mut ahead = behind;
            // `Friday the 6th`
            let next = ahead.next().and_then(|word| if word == "the" { ahead.next() } else { Some(word) });
            let day = next.and_then(day).filter(|_| ends(text.tail(ahead.at)));
            if day.is_none() && is_too_short(first) {
                return None;
            }
            return Some(LooseDate {
                end: if day.is_some() { ahead.at } else { behind.at },
                weekday: before,
                day,
                sure: day.is_some(),
                ..LooseDate::default()
            });
        }
    };
    found.weekday = before.filter(|_| with_weekday.is_some());
    let mut ahead = Words { text, at: found.end };
    if found.weekday.is_none()
        && let Some(word) = ahead.next()
        && let Some(day) = weekday(word)
        && (word.chars().count() > 3 || ends(text.tail(ahead.at)))
    {
        (found.weekday, found.end) = (Some(day), ahead.at);
    }
    found.weak &= found.weekday.is_none();
    found.sure |= found.year.is_some() || found.weekday.is_some();
    Some(found)
}

/// Whether no word follows right behind, and no minutes.
fn ends(rest: &str) -> bool {
    !rest.trim_start_matches([' ', ':']).starts_with(char::is_alphanumeric)
}

/// A day of a month, with its year perhaps.
fn calendar(mut words: Words<'_>) -> Option<LooseDate> {
    let one = words.next()?;
    let mut found = LooseDate { end: words.at, ..LooseDate::default() };
    if let Some(numbers) = numeric(one).or_else(|| spaced(one, &mut words)) {
        (found.numbers, found.year) = (Some((numbers.first, numbers.second, numbers.day_first)), numbers.year);
        (found.weak, found.sure, found.end) = (numbers.weak, one.ends_with('.'), words.at);
    } else {
        // `14 Sep`, `14. September 2026`, `Sep 14th`, `14 de septiembre`, `14-Sep-26`
        let joined = one.split_once(['-', '.', '/']).filter(|(day, month)| !day.is_empty() && !month.is_empty());
        let (one, mut two, year) = match joined {
            Some((day, rest)) => {
                let (month, year) = rest.split_once(['-', '.', '/']).unwrap_or((rest, ""));
                (day, month, year_of(year, true))
            }
            None => (one, words.next()?, None),
        };
        if matches!(two, "de" | "of" | "di") {
            two = words.next()?;
        }
        let (day, month) = match (day(one), month(one), day(two), month(two)) {
            (Some(day), _, _, Some(month)) | (_, Some(month), Some(day), _) => (day, month),
            _ => return None,
        };
        (found.numbers, found.year) = (Some((day, month, Some(true))), year);
        (found.sure, found.end) = (true, words.at);
    }
    if found.year.is_none() && (found.sure || !found.weak) {
        // `8/8 10`
        let year = words.next().and_then(|year| year_of(year, found.sure && ends(words.text.tail(words.at))));
        if year.is_some() {
            (found.year, found.end) = (year, words.at);
        }
    }
    Some(found)
}

/// A year of four digits, or of two with a sign for the others; bare ones only where nothing follows.
fn year_of(word: &str, last: bool) -> Option<i32> {
    let digits = word.trim_start_matches(['\'', '\u{2019}', '`']);
    let year: i32 = digits.parse().ok().filter(|_| digits.bytes().all(|byte| byte.is_ascii_digit()))?;
    match digits.len() {
        4 => Some(year),
        2 if digits.len() < word.len() || (last && (10..60).contains(&year)) => Some(2000 + year),
        _ => None,
    }
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

    /// Whether it can be nothing but a date.
    pub fn is_sure(&self) -> bool {
        self.sure
    }

    /// Whether it is a number as well: `14.9`, `14-9`.
    pub fn is_weak(&self) -> bool {
        self.weak
    }

    /// Whether it says a week and no day of it.
    pub fn is_week(&self) -> bool {
        self.week
    }

    /// Whether it may be a score out of ten.
    pub fn is_score(&self) -> bool {
        !self.sure && matches!(self.numbers, Some((0..=10, 10, _)))
    }

    /// What stands behind it.
    pub fn label(&self, text: &str) -> Label {
        let tail = text.tail(self.end);
        let parted = tail.trim_start().starts_with([':', '-', '–', '—', '|', ',', '(']);
        let rest = without_clock(tail.trim_matches(|c: char| !c.is_alphanumeric()));
        if rest.is_empty() {
            return Label::Nothing;
        }
        let word = |word: &str| word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
        let (mut words, mut all, mut before) = (0, true, String::new());
        for word in rest.split_whitespace().map(word).filter(|word| !word.is_empty()) {
            words += 1;
            let number = word.contains(|c: char| c.is_ascii_digit());
            // `day 2`
            let of_title = number && matches!(before.as_str(), "day" | "week" | "block" | "workout" | "session");
            if number && !of_title {
                return if hints_at_sets(rest) { Label::Sets } else { Label::Other };
            }
            let title = of_title || R::Title.has(&word);
            let unit = words == 1 && MEASURES.has(&word);
            if unit || (!title && has_common_word(&word)) {
                return Label::Other;
            }
            all &= title;
            before = word;
        }
        match words {
            0..=4 if all || (parted && words <= 3) => Label::Title,
            0..=3 => Label::Words,
            _ => Label::Other,
        }
    }

    /// The dates that fit its weekday and the sessions before and after it, the likeliest first.
    pub fn fitting(&self, before: Option<Date>, after: Option<Date>, habit: Option<DateHabit>) -> Vec<Date> {
        let mut dates: Vec<Date> = match self.numbers {
            None => {
                let reach = match (self.day, self.weekday) {
                    (Some(_), _) => NEAR_MONTHS,
                    (None, Some(_)) => 7,
                    (None, None) => NEAR_DAYS,
                };
                let from = before.or(after.and_then(|after| after.checked_sub_days(Days::new(reach + 1))));
                let from = match from {
                    Some(from) => from,
                    None => return Vec::new(),
                };
                (1..=reach).filter_map(|days| from.checked_add_days(Days::new(days))).collect()
            }
            Some(_) => self.of_calendar(before.or(after), habit),
        };
        dates.retain(|date| self.fits(*date) && is_between(*date, before, after));
        by_distance(&mut dates, before.or(after));
        dates.truncate(MOST);
        dates
    }

    /// The dates to offer, the likeliest first, and whether the one is surely meant. A year that is written holds wherever
    /// the sessions round it stand, and of one that is not nobody knows where the nearest date is out of order.
    /// What was done was not done on a day to come.
    pub fn offered(
        &self,
        before: Option<Date>,
        after: Option<Date>,
        habit: Option<DateHabit>,
        today: Option<Date>,
    ) -> (Vec<Date>, bool) {
        let near = before.or(after);
        let to_come = |date: &Date| today.is_some_and(|today| *date > today);
        let mut inside = self.fitting(before, after, habit);
        if self.numbers.is_none() {
            inside.sort_by_key(to_come);
            return (inside, false);
        }
        let mut all = self.of_calendar(near, habit);
        let far = |date: &Date| near.is_some_and(|near| (*date - near).num_days().abs() > FAR_DAYS);
        all.retain(|date| self.fits(*date) && (self.year.is_some() || !far(date)));
        by_distance(&mut all, near);
        all.sort_by_key(to_come);
        all.truncate(MOST);
        if inside.is_empty() {
            let sure = self.year.is_some() && all.len() == 1;
            return (all, sure);
        }
        inside.sort_by_key(to_come);
        let [one] = inside.as_slice() else { return (inside, false) };
        let close = near.is_some_and(|near| (*one - near).num_days().abs() <= SURE_DAYS);
        let nearest = all.first() == Some(one);
        let sure = self.year.is_some() || (nearest && !to_come(one) && (close || self.weekday.is_some()));
        if !sure {
            inside = all;
        }
        (inside, sure)
    }

    fn fits(&self, date: Date) -> bool {
        self.weekday.is_none_or(|weekday| date.weekday() == weekday) && self.day.is_none_or(|day| date.day() == day)
    }

    /// The dates that two numbers may be, in the years about another date where none is written.
    fn of_calendar(&self, near: Option<Date>, habit: Option<DateHabit>) -> Vec<Date> {
        let Some((one, two, day_first)) = self.numbers else { return Vec::new() };
        let orders: &[bool] = match day_first.or(habit.map(|habit| habit.day_first)) {
            Some(true) => &[true],
            Some(false) => &[false],
            None => &[true, false],
        };
        let years: Vec<i32> = match (self.year, habit.and_then(|habit| habit.year), near.map(|date| date.year())) {
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
}

/// More dates are no help.
const MOST: usize = 3;

/// What makes a number of `14.9` rather than a date.
const MEASURES: Roles =
    Roles::of(&[R::Kilograms, R::Pounds, R::Seconds, R::Minutes, R::Hours, R::Metres, R::Kilometres, R::Miles]);

fn is_between(date: Date, before: Option<Date>, after: Option<Date>) -> bool {
    before.is_none_or(|before| date >= before && (date - before).num_days() <= FAR_DAYS)
        && after.is_none_or(|after| date <= after && (after - date).num_days() <= FAR_DAYS)
}

fn by_distance(dates: &mut Vec<Date>, near: Option<Date>) {
    dates.sort_by_key(|date| near.map_or(0, |near| (*date - near).num_days().abs()));
    dates.dedup();
}

/// A text without the time of day that it begins with: `18:30`, `6am`.
fn without_clock(text: &str) -> &str {
    let end = text.find(' ').unwrap_or(text.len());
    // `2026-03-08T07:00`
    let clock = text.strip_prefix('T').filter(|clock| clock.starts_with(|c: char| c.is_ascii_digit()));
    let word = clock.map_or_else(|| text.head(end), |clock| clock.split(' ').next().unwrap_or(clock)).to_lowercase();
    let digits = word.trim_end_matches(|c: char| c.is_alphabetic());
    let told = digits.contains(':') || matches!(word.tail(digits.len()), "am" | "pm" | "h" | "uhr");
    let clock = !digits.is_empty() && digits.chars().all(|c| c.is_ascii_digit() || matches!(c, ':' | '.'));
    if told && clock { text.tail(end).trim_start() } else { text }
}

/// Whether a text has something that looks like a count or a load: `3x5`, `100 kg`, `5,5,5`, `3 sets`.
pub fn hints_at_sets(text: &str) -> bool {
    const OF_SETS: Roles = Roles::of(&[R::Kilograms, R::Pounds, R::Reps, R::Sets, R::Seconds]);
    let number = |text: &str| text.starts_with(|c: char| c.is_ascii_digit());
    let mut rest = text;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        rest = rest.tail(at).trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
        let behind = rest.trim_start();
        let mut signs = behind.chars();
        let by = matches!(signs.next(), Some('x' | 'X' | '×' | '*' | '@')) && number(signs.as_str().trim_start());
        let list = rest.strip_prefix([',', '/', '+', ' ']).is_some_and(number);
        if by || list || OF_SETS.has(&letters(behind).to_lowercase()) {
            return true;
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::super::day_names::{DAYS, MONTHS};
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
        let days = DAYS.iter().flat_map(|(long, short)| [long, short]);
        for name in MONTHS.iter().chain(days).flat_map(|names| names.iter()) {
            assert!(super::begins_like_a_date(name), "{name}");
        }
        for none in ["82.5", "3x8", "Squat 3x5", "2026-09-14", "14.9", "Daylight 3", "35/40"] {
            assert_eq!(loose_date(none), None, "{none}");
        }
    }
}
