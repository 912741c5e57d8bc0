//! An axis of dates with ticks at days, Mondays, months or years.

use crate::training::words;
use chrono::{Datelike, Days, NaiveDate};

/// From one tick to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step {
    Days(u64),
    /// From Monday to Monday.
    Weeks(u64),
    /// From the first of a month.
    Months(u32),
    /// From the first of January.
    Years(u32),
}

/// From the finest.
const STEPS: [Step; 15] = [
    Step::Days(1),
    Step::Days(2),
    Step::Weeks(1),
    Step::Weeks(2),
    Step::Months(1),
    Step::Months(2),
    Step::Months(3),
    Step::Months(6),
    Step::Years(1),
    Step::Years(2),
    Step::Years(5),
    Step::Years(10),
    Step::Years(20),
    Step::Years(50),
    Step::Years(100),
];

/// A tick.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Tick {
    /// The day.
    pub date: NaiveDate,
    /// Its words: `6 Jul`, `Jul`, `2026`; with the year on the first one and where the year is a new one.
    pub label: String,
    /// The same without the year, but for a year itself.
    pub short: String,
}

/// An axis from one day to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Dates {
    first: NaiveDate,
    last: NaiveDate,
}

impl Dates {
    /// The axis between two days. Fewer than seven days are made a week about them.
    #[must_use]
    pub(super) fn covering(one: NaiveDate, other: NaiveDate) -> Self {
        let (mut first, mut last) = (one.min(other), one.max(other));
        let missing = 6 - (last - first).num_days();
        if missing > 0 {
            let before = u64::try_from(missing / 2).unwrap_or(0);
            let after = u64::try_from(missing - missing / 2).unwrap_or(0);
            first = first.checked_sub_days(Days::new(before)).unwrap_or(first);
            last = last.checked_add_days(Days::new(after)).unwrap_or(last);
        }
        Dates { first, last }
    }

    /// The first day.
    #[must_use]
    pub(super) fn first(&self) -> NaiveDate {
        self.first
    }

    /// The last day.
    #[must_use]
    pub(super) fn last(&self) -> NaiveDate {
        self.last
    }

    /// Where a day lies, from 0 on the first day to 1 on the last; what lies outside is at the nearer end.
    #[must_use]
    pub(super) fn position(&self, date: NaiveDate) -> f64 {
        let whole = (self.last - self.first).num_days().max(1);
        ((date - self.first).num_days() as f64 / whole as f64).clamp(0.0, 1.0)
    }

    /// Ticks from the finest to the coarsest: whoever draws takes the first list whose words have room. A list may
    /// have one tick or none where the steps are longer than the axis.
    pub(super) fn ticks(&self) -> impl Iterator<Item = Vec<Tick>> {
        let days = (self.last - self.first).num_days();
        let axis = *self;
        // So many ticks stand side by side nowhere.
        STEPS.into_iter().filter(move |step| days / step.days() <= 1000).map(move |step| axis.ticks_of(step))
    }

    fn ticks_of(&self, step: Step) -> Vec<Tick> {
        let mut ticks: Vec<Tick> = Vec::new();
        let mut year = None;
        let mut next = step.first_from(self.first);
        while let Some(date) = next.filter(|date| *date <= self.last) {
            let new = year.replace(date.year()) != Some(date.year());
            ticks.push(Tick { date, label: step.label(date, new), short: step.label(date, false) });
            next = step.after(date);
        }
        ticks
    }
}

impl Step {
    fn days(self) -> i64 {
        match self {
            Step::Days(days) => i64::try_from(days).unwrap_or(1),
            Step::Weeks(weeks) => 7 * i64::try_from(weeks).unwrap_or(1),
            Step::Months(months) => 28 * i64::from(months),
            Step::Years(years) => 365 * i64::from(years),
        }
    }

    /// The first tick on or after a day.
    fn first_from(self, date: NaiveDate) -> Option<NaiveDate> {
        match self {
            // The first day that is counted is a Monday.
            Step::Days(_) | Step::Weeks(_) => {
                let past = (i64::from(date.num_days_from_ce()) - 1).rem_euclid(self.days());
                if past == 0 {
                    Some(date)
                } else {
                    date.checked_add_days(Days::new(u64::try_from(self.days() - past).ok()?))
                }
            }
            Step::Months(months) => {
                let month = date.year() * 12 + i32::try_from(date.month0()).ok()? + i32::from(date.day() > 1);
                month_of(round_up(month, i32::try_from(months).ok()?))
            }
            Step::Years(years) => {
                let year = date.year() + i32::from(date.ordinal() > 1);
                month_of(round_up(year, i32::try_from(years).ok()?) * 12)
            }
        }
    }

    fn after(self, date: NaiveDate) -> Option<NaiveDate> {
        self.first_from(date.succ_opt()?)
    }

    fn label(self, date: NaiveDate, new_year: bool) -> String {
        let short = match self {
            Step::Days(_) | Step::Weeks(_) => words::short_day(date),
            Step::Months(_) => date.format("%b").to_string(),
            Step::Years(_) => return date.year().to_string(),
        };
        if new_year { format!("{short} {}", date.year()) } else { short }
    }
}

fn round_up(number: i32, step: i32) -> i32 {
    number + (-number).rem_euclid(step)
}

/// The first of a month, counted from January of the year nought.
fn month_of(month: i32) -> Option<NaiveDate> {
    NaiveDate::from_ymd_opt(month.div_euclid(12), u32::try_from(month.rem_euclid(12)).ok()? + 1, 1)
}

#[cfg(test)]
mod tests {
    use super::{Dates, STEPS, Tick};
    use chrono::{Days, NaiveDate};
    use proptest::prelude::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn labels(ticks: &[Tick]) -> Vec<&str> {
        ticks.iter().map(|tick| tick.label.as_str()).collect()
    }

    #[test]
    fn ticks_stand_at_mondays_months_and_years() {
        let dates = Dates::covering(day("2025-11-20"), day("2026-02-03"));
        let lists: Vec<Vec<Tick>> = dates.ticks().collect();
        // 24 November 2025 is a Monday (ISO 8601 weeks, as chrono counts them).
        assert_eq!(labels(&lists[2])[..2], ["24 Nov 2025", "1 Dec"]);
        assert_eq!(labels(&lists[4]), ["Dec 2025", "Jan 2026", "Feb"]);
        assert_eq!(labels(&lists[8]), ["2026"]);
    }

    #[test]
    fn a_day_is_shown_in_its_week() {
        let dates = Dates::covering(day("2026-03-05"), day("2026-03-05"));
        assert_eq!((dates.first(), dates.last()), (day("2026-03-02"), day("2026-03-08")));
        assert_eq!(dates.position(day("2026-03-05")), 0.5);
    }

    proptest! {
        #[test]
        fn ticks_lie_on_the_axis_in_order(first in 0_u64..400_000, length in 0_u64..20_000) {
            let start = day("1000-01-01").checked_add_days(Days::new(first)).unwrap();
            let dates = Dates::covering(start, start.checked_add_days(Days::new(length)).unwrap());
            let mut fewer = usize::MAX;
            for ticks in dates.ticks() {
                prop_assert!(ticks.windows(2).all(|two| two[0].date < two[1].date));
                prop_assert!(ticks.iter().all(|tick| dates.first() <= tick.date && tick.date <= dates.last()));
                prop_assert!(ticks.len() <= fewer.saturating_add(1), "a coarser step has more ticks");
                fewer = ticks.len();
            }
            prop_assert!(dates.ticks().count() >= STEPS.len() - 8);
        }
    }
}
