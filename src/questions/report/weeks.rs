//! Weekly sums by family, over a block and the one before it.

use crate::history::{History, WeekKey};
use crate::questions::volume::{self, By, Row};
use crate::training::{BlockId, Family};

/// A week with what was done in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Week {
    /// Whether it is a deload or peak week.
    pub light: bool,
    /// All lifts together; block and week are its own.
    pub all: Row,
    /// Each family that has work in it, in the order of the lift book.
    pub families: Vec<(Family, Row)>,
}

/// The weeks with work of a block and of the one before, in order of time; none where there is no block.
pub(super) fn weeks(history: &History<'_>, block: Option<BlockId>) -> Vec<Week> {
    let Some(block) = block else { return Vec::new() };
    let before = block.0.checked_sub(1).map(BlockId);
    let mut weeks = Vec::new();
    for id in before.into_iter().chain([block]) {
        let ask = |family| volume::Ask { by: By::Week, lift: None, family, block: Some(id), since: None, until: None };
        let families = Family::ALL.map(|family| (family, volume::answer(history, &ask(Some(family))).rows));
        for all in volume::answer(history, &ask(None)).rows {
            let of_week = |rows: &[Row]| rows.iter().find(|row| row.week == all.week).cloned();
            weeks.push(Week {
                light: all.week.is_some_and(|week| history.week(WeekKey { block: id, week }).light),
                families: families.iter().filter_map(|(family, rows)| Some((*family, of_week(rows)?))).collect(),
                all,
            });
        }
    }
    weeks
}
