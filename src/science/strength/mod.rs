//! Strength from rated sets: what one could lift once, how surely that is known, and how the lifter's own reps fall
//! off with load. Unlike the rest of this room, something is fitted here; what to is an argument.
//!
//! - `observation.rs`: a set as evidence of strength, and what it says by itself
//! - `endurance.rs`: the lifter's strength-endurance, from published spread and own sets
//! - `belief.rs`: strength on a day, from all sets up to it
//! - `outlook.rs`: how hard a coming set will be, from one that was done

mod belief;
mod endurance;
mod observation;
mod outlook;

pub use belief::{ONE_DAY, Strength, WEEKLY_DRIFT};
pub use endurance::{Endurance, published_mean, published_spread};
pub use observation::{Interval, Observation};
pub use outlook::{Expected, Outlook, Trend};
