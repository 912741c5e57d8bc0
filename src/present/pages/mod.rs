//! What is meant to be kept: text in the notation, tidily spelled, and calendars.
//!
//! - `draft.rs`: a draft as a page
//! - `ics.rs`: the same as a calendar
//! - `plan.rs`: a plan as it is written

pub mod draft;
pub mod ics;
mod plan;

pub(crate) use plan::plan;
