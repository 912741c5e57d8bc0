//! Training blocks.

use super::{LiftId, Load};
use crate::source::PageId;
use chrono::NaiveDate;

/// Which block of a log, in order of time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BlockId(pub u32);

impl BlockId {
    /// The block before it; nothing for the first.
    pub fn before(self) -> Option<BlockId> {
        self.0.checked_sub(1).map(BlockId)
    }
}

/// A block: some weeks of training with one aim.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Block {
    /// Its name, as written.
    pub name: String,
    /// Its first day.
    pub starts: NaiveDate,
    /// Its last day; nothing where it has no end.
    pub ends: Option<NaiveDate>,
    /// For people.
    pub phase: Option<String>,
    /// For people.
    pub goal: Option<String>,
    /// Deload weeks, from 1.
    pub deload: Vec<u32>,
    /// Peak weeks, from 1.
    pub peak: Vec<u32>,
    /// What percentages refer to; the last of a lift wins.
    pub maxima: Vec<(LiftId, Load)>,
    /// Where its heading stands.
    pub page: PageId,
    /// Where its heading stands, from 1.
    pub line: u32,
}

impl Block {
    /// Whether a day is one of the block's.
    pub fn holds(&self, date: NaiveDate) -> bool {
        self.starts <= date && self.ends.is_none_or(|ends| date <= ends)
    }

    /// The week of a day, the first seven days being week 1. A day before the block is in week 1, a day
    /// after it in its last week: the nearest there is.
    pub fn week_of(&self, date: NaiveDate) -> u32 {
        let within = self.ends.map_or(date, |ends| date.min(ends));
        let days = (within - self.starts).num_days().max(0);
        u32::try_from(days / 7).unwrap_or(0) + 1
    }

    /// The last day of a week, cut at the block's end.
    pub fn week_ends(&self, week: u32) -> NaiveDate {
        let last = self.starts.checked_add_days(chrono::Days::new(u64::from(week) * 7 - u64::from(week > 0)));
        let last = last.unwrap_or(NaiveDate::MAX);
        self.ends.map_or(last, |ends| last.min(ends))
    }
}

#[cfg(test)]
mod tests {
    use super::Block;
    use crate::source::PageId;
    use chrono::{Datelike, NaiveDate};

    /// A block that starts on a Monday has weeks that are ISO weeks (ISO 8601, as chrono counts them).
    #[test]
    fn weeks_of_a_monday_block_are_iso_weeks() {
        let starts = NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();
        let block = Block {
            name: "6".into(),
            starts,
            ends: None,
            phase: None,
            goal: None,
            deload: vec![],
            peak: vec![],
            maxima: vec![],
            page: PageId(0),
            line: 1,
        };
        for (day, date) in starts.iter_days().take(200).enumerate() {
            let iso = date.iso_week().week() - starts.iso_week().week() + 1;
            assert_eq!(block.week_of(date), iso, "day {day}");
            assert_eq!(block.week_ends(iso).iso_week(), date.iso_week());
            assert_eq!(block.week_ends(iso).weekday(), chrono::Weekday::Sun);
        }
    }
}
