//! Where a session is to be.

use super::is_training;
use crate::history::History;
use crate::training::{GymId, Session, fold};
use chrono::{Datelike, Weekday};
use std::collections::HashMap;

/// A day's label; without one its weekday.
type Day = (Option<String>, Option<Weekday>);

/// The gym that sessions of each day are in, gathered once.
pub(super) struct UsualGyms {
    asked: Option<GymId>,
    /// The gyms of the last two times of each day, the last one first.
    of_day: HashMap<Day, (Option<GymId>, Option<Option<GymId>>)>,
}

impl UsualGyms {
    pub(super) fn of(history: &History<'_>) -> Self {
        let mut of_day: HashMap<Day, (Option<GymId>, Option<Option<GymId>>)> = HashMap::new();
        let trained = |session: &&Session| is_training(session) && session.has_work();
        for session in history.sessions().iter().rev().filter(trained) {
            let times = of_day.entry(day(session));
            times.and_modify(|(_, before)| *before = before.or(Some(session.gym))).or_insert((session.gym, None));
        }
        UsualGyms { asked: history.log.asked_gym, of_day }
    }

    /// The gym that is asked about; else the one that sessions of its label, or without one of its weekday, were in the last two
    /// times: who was elsewhere once was travelling. Common practice, no source.
    pub(super) fn of_session(&self, session: &Session) -> Option<GymId> {
        let usual = || {
            let (last, before) = *self.of_day.get(&day(session))?;
            (before == Some(last)).then_some(last).flatten()
        };
        self.asked.or_else(usual)
    }
}

fn day(session: &Session) -> Day {
    let label = session.day.as_deref().map(fold);
    let weekday = label.is_none().then(|| session.date.weekday());
    (label, weekday)
}
