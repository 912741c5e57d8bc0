//! What kind of week one of a block is, and how much is hung in it where a plan leaves the load open.

use crate::history::History;
use crate::science::taper::deload_load;
use crate::training::{Block, Mass, Session, words};
use chrono::{Days, NaiveDate};

/// No load rises by more thousandths of a percent at once, however easy the last week was; this project's own choice.
pub(crate) const MOST_AT_ONCE: i64 = 5000;

words! {
    /// What kind of week.
    pub enum WeekKind {
        /// The loads rise where there is room.
        Loading = "loading",
        /// A deload.
        Deload = "deload",
        /// A peak.
        Peak = "peak",
        /// A meet stands in it.
        Meet = "meet",
    }
}

impl WeekKind {
    /// Of a week of a block.
    pub(crate) fn of(history: &History<'_>, block: &Block, week: u32) -> WeekKind {
        week_kind(history, block.starts, (&block.deload, &block.peak), week).0
    }

    /// The most that a plan without a load gets, by what was lifted last: in a deload or meet week a tenth less, else 5 %
    /// more. Both of everything lifted.
    pub(crate) fn most(self, last: Mass) -> Mass {
        match self {
            WeekKind::Deload | WeekKind::Meet => deload_load(last),
            WeekKind::Loading | WeekKind::Peak => last + last.percent(MOST_AT_ONCE),
        }
    }
}

/// What kind a week is by the block's first day, its deload weeks and its peak weeks, and the meet in it: what the block says
/// holds; a meet makes no other week a loading one.
pub(crate) fn week_kind<'a>(
    history: &History<'a>,
    first: NaiveDate,
    (deload, peak): (&[u32], &[u32]),
    week: u32,
) -> (WeekKind, Option<&'a Session>) {
    let after = |date: NaiveDate, days| date.checked_add_days(Days::new(days)).unwrap_or(NaiveDate::MAX);
    let starts = after(first, u64::from(week.saturating_sub(1)) * 7);
    let ends = after(starts, 6);
    let meet = history.all_since(starts).iter().take_while(|one| one.date <= ends).find(|one| one.meet.is_some());
    let kind = match meet {
        _ if peak.contains(&week) => WeekKind::Peak,
        _ if deload.contains(&week) => WeekKind::Deload,
        Some(_) => WeekKind::Meet,
        None => WeekKind::Loading,
    };
    (kind, meet)
}
