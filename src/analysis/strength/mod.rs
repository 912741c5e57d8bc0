//! How strong a lift is.
//!
//! - `evidence.rs`: sets of known effort as evidence of strength; `estimated.rs`: an estimated maximum as it is shown
//! - `course.rs`: the estimated maximum over dates; `heaviest.rs`: the heaviest sets over dates; `axis.rs`: blocks and
//!   meets on an axis of dates
//! - `graded.rs`: what had been said of a day, and what happened; `time_away.rs`: how long ago a lift was trained
//! - `rpe_ahead.rs`: an effort that is expected
//! - `caution.rs`: what stands wherever a load is proposed

pub(crate) mod axis;
pub(crate) mod caution;
pub mod course;
pub(crate) mod estimated;
pub(crate) mod evidence;
pub(crate) mod graded;
pub mod heaviest;
pub(crate) mod rpe_ahead;
pub(crate) mod time_away;
