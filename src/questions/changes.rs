//! `changes`: what differs between two states of a lifter's pages, in terms of training. Where a session stands, and in
//! which spelling, makes no difference.
//!
//! - `changes/side.rs`: what a session says of a lift, so that two can be held against each other
//! - `changes/sessions.rs`: which session of the one state is which of the other
//! - `changes/renames.rs`: lifts that have another name and are otherwise as they were
//! - `changes/records.rs`: records set and taken back

mod records;
mod renames;
mod sessions;
mod side;

pub use records::{RecordChange, Turn};
pub use renames::Renamed;
pub use sessions::{Altered, Head, LiftChange, LiftTold, PainTold, Told};
pub use side::{PlanTold, Run, Side};

use crate::history::History;
use crate::training::{Block, Load, Log, Weighed, fold};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The state that it is held against.
    pub from: State,
    /// The state that is looked at.
    pub to: State,
    /// What changed for each lifter.
    pub lifters: Vec<OfLifter>,
}

/// One of the two states that are held against each other.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct State {
    /// As it was asked for; nothing for the work tree, nor for a common ancestor.
    pub revision: Option<String>,
    /// The commit's full name; nothing for the work tree.
    pub commit: Option<String>,
    /// Whether there is a journal in it.
    pub journal: bool,
}

/// What changed for one lifter.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct OfLifter {
    /// The lifter's name, where there is one.
    pub lifter: Option<String>,
    /// Lifts that have another name now, and are otherwise what they were.
    pub renamed: Vec<Renamed>,
    /// Sessions that were not there before, by date.
    pub added: Vec<Told>,
    /// Sessions that are there no more, by date.
    pub removed: Vec<Told>,
    /// Sessions that say something else, by date.
    pub altered: Vec<Altered>,
    /// Blocks that came, went or differ, by name.
    pub blocks: Vec<BlockChange>,
    /// Records set and taken back, by lift and reps.
    pub records: Vec<RecordChange>,
}

/// A block that came, went or differs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct BlockChange {
    /// Its name.
    pub name: String,
    /// As it was, where it was.
    pub was: Option<BlockTold>,
    /// As it is, where it is.
    pub is: Option<BlockTold>,
}

/// A block without its place.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "Block")]
pub struct BlockTold {
    /// Its first day.
    pub starts: NaiveDate,
    /// Its last day; nothing where it has no end.
    pub ends: Option<NaiveDate>,
    /// Deload weeks, from 1.
    pub deload: Vec<u32>,
    /// Peak weeks, from 1.
    pub peak: Vec<u32>,
    /// What percentages refer to.
    pub maxima: Vec<Maximum>,
}

/// A load that percentages of a lift refer to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Maximum {
    /// The lift.
    pub lift: String,
    /// The load.
    pub load: Weighed,
}

impl OfLifter {
    /// Whether nothing changed.
    pub fn is_empty(&self) -> bool {
        self.added.is_empty()
            && self.removed.is_empty()
            && self.altered.is_empty()
            && self.renamed.is_empty()
            && self.blocks.is_empty()
            && self.records.is_empty()
    }
}

/// Answers for one lifter; the one state or the other may lack the lifter.
pub fn answer(before: Option<&History<'_>>, after: Option<&History<'_>>) -> OfLifter {
    let log = |history: Option<&History<'_>>| history.map(|history| history.log.lifter.clone());
    let lifter = log(after).or_else(|| log(before)).flatten();
    let (added, removed, mut altered) = sessions::differences(before.map(|one| one.log), after.map(|one| one.log));
    let blocks = blocks(before.map(|one| one.log), after.map(|one| one.log));
    let mut records = records::changes(before, after);
    let renamed = renames::take(after.map(|one| one.log), &mut altered, &mut records);
    OfLifter { lifter, renamed, added, removed, altered, blocks, records }
}

fn blocks(before: Option<&Log>, after: Option<&Log>) -> Vec<BlockChange> {
    type Both<'a> = (Option<(&'a Log, &'a Block)>, Option<(&'a Log, &'a Block)>);
    let mut by_name: BTreeMap<String, Both<'_>> = BTreeMap::new();
    for (log, block) in before.iter().flat_map(|log| log.blocks.iter().map(move |block| (*log, block))) {
        by_name.entry(fold(&block.name)).or_default().0 = Some((log, block));
    }
    for (log, block) in after.iter().flat_map(|log| log.blocks.iter().map(move |block| (*log, block))) {
        by_name.entry(fold(&block.name)).or_default().1 = Some((log, block));
    }
    let maximum = |lift: &str, load: &Load| {
        let load = Weighed { kilograms: load.kilograms(None), load: load.clone() };
        Maximum { lift: lift.to_owned(), load }
    };
    let told = |(log, block): (&Log, &Block)| BlockTold {
        starts: block.starts,
        ends: block.ends,
        deload: block.deload.clone(),
        peak: block.peak.clone(),
        maxima: block.maxima.iter().map(|(lift, load)| maximum(log.lift_name(*lift), load)).collect(),
    };
    let changes = by_name.into_values().filter_map(|(was, is)| {
        let name = is.or(was)?.1.name.clone();
        Some(BlockChange { name, was: was.map(told), is: is.map(told) })
    });
    changes.filter(|change| change.was != change.is).collect()
}
