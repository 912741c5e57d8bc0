//! Weekly sums by family, over a block and the one before it.

use crate::analysis::strength::evidence::Ratings;
use crate::history::{History, WeekKey};
use crate::questions::volume::{self, By, Row};
use crate::science::Equation;
use crate::training::{BlockId, Family};
use chrono::Days;

/// More weeks than these do not stand side by side; the last ones are shown.
const MOST_WEEKS: u32 = 12;

/// A week with what was done in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Week {
    /// Whether it is a deload or peak week.
    pub light: bool,
    /// All lifts together; block and week are its own.
    pub all: Row,
    /// Each family that has work in it, in the order of the lift book.
    pub families: Vec<(Family, Row)>,
    /// Sessions that are written down for it, done or planned.
    pub sessions: u32,
    /// Whether it is not over yet.
    pub so_far: bool,
}

/// The last weeks of a block and of the one before, in order of time, each block's up to its last one with work; those
/// without work in between are weeks, too. None where there is no block.
pub(super) fn weeks(history: &History<'_>, block: Option<BlockId>) -> Vec<Week> {
    let Some(block) = block else { return Vec::new() };
    let before = block.before();
    let mut weeks = Vec::new();
    let first = before.and_then(|id| history.log.block(id)).or(history.log.block(block)).map(|block| block.starts);
    let mut ratings = Ratings::since(first.unwrap_or(history.today), history, Equation::default());
    for id in before.into_iter().chain([block]) {
        let ask = |family| volume::Ask { by: By::Week, lift: None, family, block: Some(id), since: None, until: None };
        let mut rows = |family| volume::answer_with(history, &ask(family), &mut ratings).rows;
        let families = Family::ALL.map(|family| (family, rows(Some(family))));
        let all = rows(None);
        let last = all.iter().filter_map(|row| row.week).max().unwrap_or(0);
        for week in last.saturating_sub(MOST_WEEKS).saturating_add(1)..=last {
            let of_week = |rows: &[Row]| rows.iter().find(|row| row.week == Some(week)).cloned();
            let name = history.log.block_name(id);
            let ends = history
                .log
                .block(id)
                .and_then(|block| block.starts.checked_add_days(Days::new(u64::from(week) * 7 - 1)));
            weeks.push(Week {
                sessions: sessions(history, WeekKey { block: id, week }),
                so_far: ends.is_some_and(|ends| ends > history.today),
                light: history.week(WeekKey { block: id, week }).light,
                families: families.iter().filter_map(|(family, rows)| Some((*family, of_week(rows)?))).collect(),
                all: of_week(&all).unwrap_or(Row { block: name, week: Some(week), ..Row::default() }),
            });
        }
    }
    let surplus = weeks.len().saturating_sub(MOST_WEEKS as usize);
    weeks.split_off(surplus)
}

/// Sessions of a week with something in them.
fn sessions(history: &History<'_>, key: WeekKey) -> u32 {
    let here = history.all_of_week(key).filter(|session| !session.works.is_empty());
    u32::try_from(here.count()).unwrap_or(u32::MAX)
}
