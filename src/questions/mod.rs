//! The questions: one file each, a pure function of the history and what is asked, to plain data. No
//! terminal, no JSON, no clock: today is the history's. What makes one long is in a folder of its name; what several
//! share is in `analysis`.
//!
//! - `lifts.rs`, `history.rs`: what is in the journal
//! - `session.rs`: what goes on the bar for the next set
//! - `best.rs`: best sets
//! - `match.rs`: this week against the same week of the last block; `weeks_over.rs`: all weeks of both blocks
//! - `since.rs`: blocks since the last high-rep phase
//! - `volume.rs`: how much
//! - `facts.rs`: bodyweight, sleep, how long sessions were, and pain
//! - `recall.rs`: what was written about a lift last time
//! - `adherence.rs`: what was planned against what was done
//! - `plates.rs`: what to hang on the bar
//! - `estimate.rs`: what one could lift once, and the loads that follow
//! - `room.rs`: the weekly steps that still fit under an effort cap
//! - `review.rs`: cautions about the training, one file a caution
//! - `taper.rs`: what a peak or deload week cuts
//! - `draft.rs`: the next week or block as plans to edit; `shift.rs`: plans moved to other days
//! - `meet.rs`: the attempts of a meet or test day, those to take or those taken
//! - `roster.rs`: one line a lifter
//! - `flatten.rs`: all that pages say, one set a line
//! - `export.rs`: every set as a row, plans beside them
//! - `changes.rs`: what differs between two states of the pages
//! - `report.rs`: the answers that a report is made of

pub mod adherence;
pub mod best;
pub mod changes;
pub mod draft;
pub mod estimate;
pub mod export;
pub mod facts;
pub mod flatten;
pub mod history;
pub mod lifts;
pub mod r#match;
pub mod meet;
pub mod plates;
pub mod recall;
pub mod report;
pub mod review;
pub mod room;
pub mod roster;
pub mod session;
pub mod shift;
pub mod since;
pub mod taper;
pub mod volume;
pub mod weeks_over;
