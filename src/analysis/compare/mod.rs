//! Sessions and loads held against each other.
//!
//! - `ranking.rs`: which of two loads is the heavier one
//! - `pairing.rs`: which session of a week goes with which of another
//! - `sides.rs`: what was done on a lift in one session

pub(crate) mod pairing;
pub(crate) mod ranking;
pub(crate) mod sides;
