//! Where a session is to be.

use super::is_training;
use crate::history::History;
use crate::training::{GymId, Session, Work, fold};
use chrono::Datelike;

/// The gym that is asked about; else the one that sessions of its label, or without one of its weekday, were in the last two times: who was elsewhere once was
/// travelling. Common practice, no source.
pub(super) fn usual_gym(history: &History<'_>, session: &Session) -> Option<GymId> {
    if history.log.asked_gym.is_some() {
        return history.log.asked_gym;
    }
    let label = |session: &Session| session.day.as_deref().map(fold);
    let same = |other: &&Session| {
        let by_day = match label(session) {
            None => label(other).is_none() && other.date.weekday() == session.date.weekday(),
            wanted => label(other) == wanted,
        };
        by_day && is_training(other) && other.works.iter().any(Work::has_work)
    };
    let mut last = history.sessions().iter().rev().filter(same).map(|session| session.gym);
    let gym = last.next()?;
    (last.next() == Some(gym)).then_some(gym).flatten()
}
