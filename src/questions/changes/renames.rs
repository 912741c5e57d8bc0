//! Lifts that have another name now. What the rename did to sessions and records is told once, not line by line.

use super::records::RecordChange;
use super::sessions::{Altered, LiftChange};
use crate::training::{Log, fold};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// A lift that has another name now.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Renamed {
    /// The name that it had.
    pub was: String,
    /// The one that it has.
    pub is: String,
    /// In how many sessions.
    pub sessions: u32,
}

/// Takes out of the changes what came of another name alone: a lift that is no more, and in its sessions another of which
/// the very same is said.
pub(super) fn take(after: Option<&Log>, altered: &mut Vec<Altered>, records: &mut Vec<RecordChange>) -> Vec<Renamed> {
    let still_there = |name: &str| {
        let name = fold(name);
        after.is_some_and(|log| log.lifts.iter().any(|lift| fold(&lift.name) == name))
    };
    let mut renamed: BTreeMap<(String, String), u32> = BTreeMap::new();
    for session in altered.iter_mut() {
        let gone: Vec<LiftChange> =
            session.lifts.iter().filter(|change| !change.is.is_there && !still_there(&change.lift)).cloned().collect();
        for old in gone {
            let is_heir = |new: &LiftChange| {
                !new.was.is_there
                    && new.is.same_sets(&old.was)
                    && new.is.same_plan(&old.was)
                    && new.is.notes == old.was.notes
            };
            let Some(new) = session.lifts.iter().position(is_heir) else { continue };
            let name = session.lifts.remove(new).lift;
            session.lifts.retain(|change| change.is.is_there || change.lift != old.lift);
            *renamed.entry((old.lift, name)).or_default() += 1;
        }
    }
    altered.retain(|session| {
        let moved = session.was.date != session.is.date || !session.was.says_the_same(&session.is);
        moved || !session.lifts.is_empty()
    });
    for (was, is) in renamed.keys() {
        let lost: Vec<RecordChange> =
            records.extract_if(.., |change| change.lift == *was && change.is.is_none()).collect();
        // A record that the other name had stands where it stood.
        records.retain(|change| {
            let moved = |old: &RecordChange| {
                let same = old.was.as_ref().zip(change.is.as_ref());
                old.reps == change.reps && same.is_some_and(|(was, is)| was.date == is.date && was.load == is.load)
            };
            change.lift != *is || !lost.iter().any(moved)
        });
    }
    renamed.into_iter().map(|((was, is), sessions)| Renamed { was, is, sessions }).collect()
}
