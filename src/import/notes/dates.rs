//! Which date each day of the notes is.

use super::days::{Day, only};
use crate::notation::readings::DateHabit;
use chrono::{Datelike, NaiveDate};

/// A day stands at most so long after the one before, or the year is in doubt.
const FAR_DAYS: i64 = 183;
/// A day further off than this from both its neighbours, which are near each other, is a slip.
const NEAR_DAYS: i64 = 45;
/// Days that were written down late stand at most so far behind others.
const LATE_DAYS: i64 = 14;

/// A line of a file, with the day that it says and the year that a line above it named.
pub(super) struct Said<'d> {
    pub(super) day: &'d Day,
    pub(super) year: Option<i32>,
}

/// The date of each day of one file, where something settles it: what is written, the habit, or its neighbours. The
/// year of the habit is that of the oldest day; where the days go on into the next year, so do the dates.
pub(super) fn settled(days: &[Said<'_>], habit: Option<DateHabit>) -> Vec<Option<NaiveDate>> {
    let order = habit.map(|habit| habit.day_first);
    let mut at: Vec<usize> =
        (0..days.len()).filter(|at| days.get(*at).is_some_and(|said| said.day.is_of_calendar())).collect();
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
        if date.is_none()
            && let Some(next) = next
        {
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
        let nearest = ones
            .iter()
            .flat_map(|one| twos.iter().map(move |two| (*two - *one).num_days()))
            .min_by_key(|days| days.abs());
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
        let Some(said) = days.get(at) else { continue };
        if said.day.is_of_calendar() || dates.get(at).copied().flatten().is_some() {
            continue;
        }
        let beside = |other: Option<usize>| other.and_then(|other| dates.get(other).copied().flatten());
        let (one, two) = (beside(at.checked_sub(1)), beside(Some(at + 1)));
        let (Some(one), Some(two)) = (one, two) else { continue };
        let inside = |date: &NaiveDate| *date > one.min(two) && *date < one.max(two);
        let fit: Vec<NaiveDate> = said.day.between(one.min(two), one.max(two)).into_iter().filter(inside).collect();
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
    let habits = [true, false]
        .into_iter()
        .flat_map(|day_first| years.iter().map(move |year| DateHabit { day_first, year: *year }));
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
