//! What several questions share, and no command asks by itself: how strong a lift is, what became of what was planned,
//! which of two sessions did more. No terminal, no JSON, no clock: today is the history's.
//!
//! - `strength/`: the evidence of a lift's strength, its course over dates
//! - `plan/`: planned lines, and what was done of them
//! - `compare/`: sessions and loads held against each other
//! - `rack.rs`: what a load hangs on, and the loads that hang there
//! - `rows.rs`: every set by itself
//! - `weight_class.rs`: how far the last bodyweight is from the weight class

pub mod compare;
pub mod plan;
pub(crate) mod rack;
pub mod rows;
pub mod strength;
pub mod weight_class;
