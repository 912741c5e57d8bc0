//! The index over a log: where a lift was done, which weeks a block has, marks. Built once; verdicts and
//! rounding are not made here.
//!
//! - `index.rs`: the index itself, and finding lifts and blocks by name
//! - `mark.rs`: sets of one group that are alike, with where they stand
//! - `meet.rs`: meets and test days, those to come too
//! - `week.rs`: the weeks of the blocks; work lines by lift

mod index;
mod mark;
mod meet;
mod week;

pub use index::{Done, History, Index, NoBlock, NoLift, NoWeek, NoWork, WeekKey};
pub use mark::{Mark, Marked};
pub use meet::{Meet, MeetKind, NoMeet};
pub use week::{ByLift, Week};
