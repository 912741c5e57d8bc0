//! Strength from rated sets: what one could lift once, how surely that is known, and how the lifter's own reps fall
//! off with load. Unlike the rest of this room, something is fitted here; what to is an argument.
//!
//! - `observation.rs`: a set as evidence of strength, and what it says by itself
//! - `miss.rs`: a missed attempt as evidence of strength
//! - `endurance.rs`: the lifter's strength-endurance, from published spread and own sets
//! - `track.rs`: the filter that follows strength through a lift's days
//! - `belief.rs`: strength on a day, from all sets up to it
//! - `outlook.rs`: how hard a coming set will be, from one that was done

mod belief;
mod endurance;
mod miss;
mod observation;
mod outlook;
mod track;

pub use belief::Strength;
pub use endurance::{Endurance, published_mean, published_spread};
pub use miss::{Miss, Series, WITHIN_STRENGTH};
pub use observation::{Interval, Observation};
pub use outlook::{Expected, Outlook, Trend};
pub use track::{ONE_DAY, WEEKLY_DRIFT};
