//! Answers as a lifter reads them at the rack: the verdict first, its reason, and where it stands.

pub mod adherence;
pub mod best;
pub mod changes;
pub mod check;
pub mod draft;
pub mod estimate;
pub mod export;
pub mod flatten;
pub mod history;
pub mod import;
pub mod lifts;
pub mod r#match;
pub mod meet;
mod meet_outcome;
mod meet_plan;
mod planned_lists;
pub mod plates;
pub mod recall;
pub mod report;
pub mod review;
pub mod room;
pub mod roster;
pub mod since;
pub mod taper;
pub mod tidy;
pub mod volume;
