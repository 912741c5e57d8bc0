//! The questions: one file each, a pure function of the history and what is asked, to plain data. No
//! terminal, no JSON, no clock: today is the history's.
//!
//! - `lifts.rs`, `history.rs`: what is in the journal
//! - `best.rs`: best sets
//! - `match.rs`: this week against the same week of the last block; `pairing.rs` pairs the sessions,
//!   `sides.rs` sums up each one
//! - `since.rs`: blocks since the last high-rep phase
//! - `volume.rs`: how much
//! - `recall.rs`: what was written about a lift last time
//! - `adherence.rs`: what was planned against what was done; `fates.rs` tells what became of each line,
//!   `against_plan.rs` holds one against its plan, `planned_sums.rs` sums lines up
//! - `plates.rs`: what to hang on the bar
//! - `estimate.rs`: what one could lift once, and the loads that follow; `evidence.rs` gathers what it rests on
//! - `course.rs`: that estimate over dates; `heaviest.rs`: the heaviest sets over dates; `axis.rs`: blocks and meets on
//!   an axis of dates
//! - `room.rs`: the weekly steps that still fit under an effort cap; `rpe_ahead.rs`: an effort that is expected
//! - `review.rs`: cautions about the training, one file a caution in `review/`
//! - `taper.rs`: what a peak or deload week cuts; its parts are in `taper/`
//! - `draft.rs`: the next week or block as plans to edit; its parts are in `draft/`
//! - `meet.rs`: the attempts of a meet or test day; `meet_plan.rs` those to take, `meet_outcome.rs` those taken
//! - `roster.rs`: one line a lifter
//! - `rows.rs`: every set by itself; `flatten.rs`: all that pages say, one set a line
//! - `export.rs`: every set as a row, plans beside them
//! - `changes.rs`: what differs between two states of the pages; its parts are in `changes/`
//! - `report.rs`: the answers that a report is made of; its parts are in `report/`
//! - `caution.rs`: what stands wherever a load is proposed
//! - `ranking.rs`: which of two loads is the heavier one

pub mod adherence;
mod against_plan;
mod axis;
pub mod best;
mod caution;
pub mod changes;
pub mod course;
pub mod draft;
pub mod estimate;
mod evidence;
pub mod export;
mod fates;
pub mod flatten;
pub mod heaviest;
pub mod history;
pub mod lifts;
pub mod r#match;
pub mod meet;
mod meet_outcome;
mod meet_plan;
mod pairing;
mod planned_sums;
pub mod plates;
mod ranking;
pub mod recall;
pub mod report;
pub mod review;
pub mod room;
pub mod roster;
pub mod rows;
mod rpe_ahead;
mod sides;
pub mod since;
pub mod taper;
pub mod volume;
