//! How long ago a lift was trained.

use crate::history::History;
use crate::training::LiftId;
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// So many weeks cost nothing, and are not told (McMaster et al. 2013, Sports Med 43(5):367–384: strength is held for about
/// three weeks; from memory, medium confidence).
const TOLD_FROM: i64 = 3;

/// After so many weeks an estimate is a guess; this project's own choice.
const GUESS_FROM: i64 = 8;

/// How long ago a lift was trained.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct TimeAway {
    /// The last day with work on the lift.
    pub last_trained: NaiveDate,
    /// Whole weeks since.
    pub weeks_away: i64,
    /// Whether they are so many that an estimate is a guess: eight.
    pub guess: bool,
}

impl TimeAway {
    /// Up to today; `None` without work on the lift, and under three weeks.
    pub(crate) fn of(history: &History<'_>, lift: LiftId) -> Option<Self> {
        let last_trained = history.works_of(lift).rfind(|done| done.work.has_work())?.session.date;
        TimeAway::since(history, last_trained)
    }

    /// The same of all lifts.
    pub(crate) fn of_all(history: &History<'_>) -> Option<Self> {
        let trained = history.sessions().iter().rfind(|session| session.has_work())?;
        TimeAway::since(history, trained.date)
    }

    fn since(history: &History<'_>, last_trained: NaiveDate) -> Option<Self> {
        let weeks_away = (history.today - last_trained).num_days() / 7;
        (weeks_away >= TOLD_FROM).then_some(TimeAway { last_trained, weeks_away, guess: weeks_away >= GUESS_FROM })
    }
}
