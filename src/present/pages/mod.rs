//! What is meant to be kept: text in the notation, tidily spelled, and calendars.
//!
//! - `draft.rs`: a draft as a page
//! - `imported.rs`: sessions from a table
//! - `ics.rs`: the same as a calendar
//! - `plan.rs`: a plan as it is written

pub mod draft;
pub mod ics;
pub mod imported;
mod plan;

pub(crate) use plan::plan;
